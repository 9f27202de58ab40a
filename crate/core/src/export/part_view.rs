//! How a part lies on its drawing: which face is seen, and where the corner is that all is measured from.

use crate::assembly::Fastener;
use crate::geometry::Direction;
use crate::plan::{Making, Plan, PlanPart, WorkKind};
use crate::sawing::Frame;

/// A panel as cut, seen on the face that is worked. Distances run from the lower or left corner of the
/// part as cut, along its two axes of the standing piece.
pub struct PartView<'a> {
    pub part: &'a PlanPart,
    pub making: &'a Making,
    /// The face that is seen.
    pub face: Direction,
    /// The axes along the sheet and up it.
    pub axes: [usize; 2],
    /// Whether the first axis runs to the left on the sheet.
    pub mirrored: bool,
    /// Sizes along the axes, as cut.
    pub whole: [i64; 2],
    /// The part as it is cut.
    frame: Frame,
    /// Screws that enter through the seen face or the one behind it.
    pub pilots: Vec<&'a Fastener>,
}

impl<'a> PartView<'a> {
    /// Nothing of a bought part, or when the plan has none of that id or does not say how it is made.
    pub fn of(plan: &'a Plan, id: &str) -> Option<PartView<'a>> {
        let part = plan.parts.iter().find(|p| p.id == id)?;
        let making = part.making.as_ref()?;
        let frame = Frame::of(part);
        let thin = frame.through;
        let axes = [frame.along.min(frame.across), frame.along.max(frame.across)];
        let whole = by_axis(&frame, frame.size());
        let own = plan.joints.iter().filter(|j| j.parts[0] == part.id);
        let all = own.flat_map(|j| &j.fasteners);
        let pilots: Vec<_> = all.filter(|f| f.direction.axis() == thin).collect();
        let face = seen(making, thin, &pilots);
        // From the right, the front, or above, the first axis runs to the right.
        let mirrored = match face {
            Direction::Left | Direction::Back | Direction::Down => true,
            Direction::Right | Direction::Front | Direction::Up => false,
        };
        Some(PartView { part, making, face, axes, mirrored, whole, frame, pilots })
    }

    /// Distances of a place of the standing piece from the corner.
    pub fn off_corner(&self, at: [i64; 3]) -> [i64; 2] {
        by_axis(&self.frame, self.frame.place(at))
    }

    /// The edge at the start of an axis, or at its end.
    pub fn edge(&self, n: usize, end: bool) -> Direction {
        Direction::from_axis(self.axes[n], end)
    }

    /// The face a screw enters through.
    pub fn entered(screw: &Fastener) -> Direction {
        screw.direction.opposite()
    }
}

/// Along and across, in the order of the axes.
fn by_axis(frame: &Frame, [along, across]: [i64; 2]) -> [i64; 2] {
    if frame.along < frame.across { [along, across] } else { [across, along] }
}

/// The face that is worked; of a part that is only screwed through, the one that most screws enter by.
fn seen(making: &Making, thin: usize, pilots: &[&Fastener]) -> Direction {
    // A notch goes through: either face would do.
    if let Some(work) = making.work.iter().find(|w| w.kind != WorkKind::Notch) {
        return work.face;
    }
    let usual = Direction::from_axis(thin, thin != 1);
    let here = pilots.iter().filter(|f| PartView::entered(f) == usual).count();
    if here * 2 >= pilots.len() { usual } else { usual.opposite() }
}
