//! The joints between the items of a body, with all that hangs on them alone.

use crate::assembly::{Assembly, Joint, JointKind};
use crate::plan::Workshop;

use super::MOST_LINKS;
use super::access::{ToolRoom, drivers};
use super::bodies::{Body, Item};
use super::clamps::Clamping;

/// A joint between two items of the body.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Link {
    /// Index into the assembly's joints.
    pub joint: usize,
    /// The two items.
    pub items: [usize; 2],
    /// How they meet.
    pub kind: JointKind,
    /// Whether it makes the two one rigid thing once closed.
    pub fastens: bool,
    /// Whether glue goes on.
    pub glue: bool,
    /// Whether it is wet until its glue has cured: nothing but glue fastens it.
    pub cures: bool,
    /// How many screws it has.
    pub screws: u32,
    /// The bits that drive them, one of this mask for each gauge and head.
    pub bits: u64,
    /// Room for each of its screws, for each tool.
    pub rooms: Vec<Vec<ToolRoom>>,
    /// Places for a clamp.
    pub clamping: Clamping,
}

/// How many joints hold the items of a body together.
pub fn joints_in(assembly: &Assembly, body: &Body) -> usize {
    let item_of = |part: usize| body.items.iter().position(|i| i.parts.contains(&part));
    let counts = |joint: &&Joint| {
        let [a, b] = joint.parts.map(item_of);
        joint.kind != JointKind::Touch && a.is_some() && b.is_some() && a != b
    };
    assembly.joints.iter().filter(counts).count()
}

/// All links between some items, in the order of the assembly's joints.
pub(super) fn between(assembly: &Assembly, workshop: &Workshop, items: &[Item]) -> Vec<Link> {
    let item_of = |part: usize| items.iter().position(|i| i.parts.contains(&part));
    let tools = drivers(workshop);
    let person = workshop.person.as_ref();
    let mut links = Vec::new();
    let mut bits: Vec<(u8, &str)> = Vec::new();
    for (j, joint) in assembly.joints.iter().enumerate() {
        let (Some(a), Some(b)) = (item_of(joint.parts[0]), item_of(joint.parts[1])) else {
            continue;
        };
        if a == b || joint.kind == JointKind::Touch || links.len() == MOST_LINKS {
            continue;
        }
        let guided = matches!(joint.kind, JointKind::Groove | JointKind::Slide);
        let screwed = !joint.fasteners.is_empty();
        let all =
            |tool| joint.fasteners.iter().map(|f| ToolRoom::new(f, tool, items, person)).collect();
        let mut driven = 0u64;
        for screw in &joint.fasteners {
            let bit = (screw.gauge, screw.kind.as_str());
            let at = bits.iter().position(|b| *b == bit).unwrap_or(bits.len());
            if at == bits.len() {
                bits.push(bit);
            }
            driven |= 1 << at.min(63);
        }
        links.push(Link {
            screws: joint.fasteners.len() as u32,
            bits: driven,
            joint: j,
            items: [a, b],
            kind: joint.kind,
            fastens: screwed || joint.glue && !guided || joint.kind == JointKind::Hinge,
            glue: joint.glue,
            cures: joint.cures(),
            rooms: tools.iter().map(all).collect(),
            clamping: Clamping::new(assembly, joint, items, workshop),
        });
    }
    links
}
