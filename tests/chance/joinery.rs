//! How the parts meet, and what holds them together.

use jointwise::assembly::check::check;
use jointwise::assembly::{Assembly, Fastener, Grain, Joint, JointKind, Kind, MAIN, Part, probe};
use jointwise::geometry::{Box3, Contact, Direction};
use jointwise::units::Length;

use super::shape::{Channel, Draft};
use crate::dice::Dice;

const MM: i64 = 1000;

/// Joins everything that touches; nothing when it does not hang together.
pub fn join(draft: &Draft, dice: &mut Dice) -> Option<Assembly> {
    let density = if dice.once_in(10) { 2200 } else { dice.between(450, 780) };
    let parts: Vec<Part> =
        (0..draft.parts.len()).map(|n| part(draft, n, density)).collect::<Option<_>>()?;
    let mut joints = Vec::new();
    for i in 0..parts.len() {
        for j in i + 1..parts.len() {
            let contacts = parts[i].solid.contacts(&parts[j].solid);
            let largest = contacts.iter().copied().max_by_key(Contact::area);
            if let Some(contact) = largest {
                joints.push(joint(draft, &parts, [i, j], contact, dice));
            }
        }
    }
    let mut assembly = Assembly {
        title: "by chance".to_owned(),
        parts,
        joints,
        stands_on: if dice.once_in(3) {
            dice.pick(&Direction::ALL).unwrap_or(Direction::Down)
        } else {
            Direction::Down
        },
        bodies: vec![(MAIN.to_owned(), "piece".to_owned())],
    };
    drop_bad_screws(&mut assembly);
    if dice.once_in(5) && assembly.parts.len() > 3 {
        own_body(&mut assembly, dice);
    }
    if dice.once_in(4) {
        set_against(&mut assembly, dice);
    }
    is_connected(&assembly).then_some(assembly)
}

fn part(draft: &Draft, n: usize, density: i64) -> Option<Part> {
    let piece = &draft.parts[n];
    let mut sizes = [0, 1, 2].map(|a| piece.outer.extent(a));
    sizes.sort_unstable();
    // um3 times kg/m3 is 1e-15 g.
    let grams = piece.solid.volume() * i128::from(density) / 1_000_000_000_000_000;
    // Anything may have been cut off it: what is left decides.
    if piece.solid.boxes().is_empty() || piece.solid.bounds() != piece.outer {
        return None;
    }
    Some(Part {
        id: format!("part-{}", n + 1),
        name: format!("part {}", n + 1),
        group: MAIN.to_owned(),
        material: "board".to_owned(),
        kind: piece.kind,
        role: Default::default(),
        length: Length(sizes[2]),
        width: Length(sizes[1]),
        thickness: Length(sizes[0]),
        grain: Grain::None,
        mass_g: i64::try_from(grams).unwrap_or(i64::MAX).max(1),
        solid: piece.solid.clone(),
        set_against: Vec::new(),
    })
}

/// How two parts that touch are joined.
fn joint(
    draft: &Draft,
    parts: &[Part],
    [i, j]: [usize; 2],
    contact: Contact,
    dice: &mut Dice,
) -> Joint {
    let channel = |c: &&(usize, usize, Channel)| (c.0, c.1) == (i, j) || (c.0, c.1) == (j, i);
    let channel = draft.channels.iter().find(channel).map(|c| c.2);
    let carried = |a: usize, b: usize| draft.parts[a].host == Some(b);
    let hardware = [i, j].iter().any(|&p| parts[p].kind == Kind::Hardware);
    let kind = match channel {
        Some(Channel::Dado) => JointKind::Dado,
        Some(Channel::Groove) => JointKind::Groove,
        None if carried(i, j) || carried(j, i) => JointKind::Butt,
        None if hardware || dice.once_in(12) => {
            if dice.once_in(2) {
                JointKind::Slide
            } else {
                JointKind::Touch
            }
        }
        None if dice.once_in(3) => JointKind::Overlay,
        None => JointKind::Butt,
    };
    let mut joint = Joint {
        id: format!("{}+{}", parts[i].id, parts[j].id),
        parts: [i, j],
        kind,
        glue: false,
        fasteners: Vec::new(),
    };
    match kind {
        JointKind::Slide | JointKind::Touch => return joint,
        JointKind::Groove => {
            joint.glue = dice.once_in(6);
            return joint;
        }
        _ => {}
    }
    let (glue, screws) = match dice.between(1, 20) {
        _ if carried(i, j) || carried(j, i) => (false, true),
        1..=9 => (false, true),
        10..=14 => (true, true),
        15..=18 => (true, false),
        _ => (false, false),
    };
    joint.glue = glue;
    if screws {
        drive(parts, &mut joint, contact, dice);
        // Screws that do not fit in are left out; then glue holds it.
        joint.glue |= joint.fasteners.is_empty();
    }
    joint
}

/// Puts screws into a joint, through the thinner part as a rule, along the middle of the face.
fn drive(parts: &[Part], joint: &mut Joint, contact: Contact, dice: &mut Dice) {
    let axis = contact.direction.axis();
    let [i, j] = joint.parts;
    let through = |p: usize| parts[p].solid.bounds().extent(axis);
    let hardware = |p: usize| parts[p].kind == Kind::Hardware;
    let turned = if hardware(i) || hardware(j) {
        hardware(j)
    } else {
        (through(j) < through(i)) != dice.once_in(6)
    };
    let (first, second) = if turned { (j, i) } else { (i, j) };
    let way = if turned { contact.direction.opposite() } else { contact.direction };
    joint.parts = [first, second];
    let (a, b) = probe::others(axis);
    let face: Box3 = contact.face;
    let (run, across) = if face.extent(a) >= face.extent(b) { (a, b) } else { (b, a) };
    let most = (face.extent(run) / (30 * MM)).clamp(1, 4);
    let count = dice.between(1, most);
    let gauges: &[u8] = if face.extent(across) < 16 * MM { &[4, 6] } else { &[4, 6, 8, 10] };
    let Some(gauge) = dice.pick(gauges) else { return };
    let head = if dice.once_in(5) { "pan-head screw" } else { "screw" };
    // Mixed gauges in a joint happen where one was short.
    for n in 0..count {
        let mut at = face.min;
        at[run] += face.extent(run) * (2 * n + 1) / (2 * count);
        at[across] += face.extent(across) / 2;
        let there = probe::depth_from(&parts[first].solid, at, way.opposite());
        let into = probe::depth_from(&parts[second].solid, at, way);
        let fits: Vec<i64> = [16, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 100, 120]
            .iter()
            .map(|l| l * MM)
            .filter(|l| *l >= there + 6 * MM && *l <= there + into - 3 * MM)
            .take(4)
            .collect();
        let Some(length) = dice.pick(&fits) else { continue };
        let mut entry = at;
        entry[axis] -= way.sign() * there;
        let gauge = if dice.once_in(12) { 4 } else { gauge };
        joint.fasteners.push(Fastener {
            id: format!("{}-{}", joint.id, n + 1),
            kind: head.to_owned(),
            gauge,
            length: Length(length),
            pilot: Length(i64::from(gauge) * 250 + 500),
            entry,
            direction: way,
        });
    }
}

/// Takes out the screws of which the check complains; a joint left with none is glued.
fn drop_bad_screws(assembly: &mut Assembly) {
    let bad: Vec<String> = check(assembly)
        .into_iter()
        .filter_map(|f| f.place.strip_prefix("screw ").map(str::to_owned))
        .collect();
    for joint in &mut assembly.joints {
        let before = joint.fasteners.len();
        joint.fasteners.retain(|f| !bad.contains(&f.id));
        joint.glue |= joint.fasteners.is_empty() && before > 0;
    }
}

fn fastens(joint: &Joint) -> bool {
    !joint.fasteners.is_empty()
        || joint.glue && !matches!(joint.kind, JointKind::Groove | JointKind::Slide)
}

/// Makes two or three parts that are fastened to each other a body of their own.
fn own_body(assembly: &mut Assembly, dice: &mut Dice) {
    let firm: Vec<[usize; 2]> =
        assembly.joints.iter().filter(|j| fastens(j)).map(|j| j.parts).collect();
    let Some(mut inside) = dice.pick(&firm).map(|pair| pair.to_vec()) else { return };
    if dice.once_in(2) && assembly.parts.len() > 4 {
        let next = firm.iter().find(|pair| inside.contains(&pair[0]) != inside.contains(&pair[1]));
        inside.extend(
            next.into_iter().flatten().filter(|p| !inside.contains(p)).copied().collect::<Vec<_>>(),
        );
    }
    for &p in &inside {
        assembly.parts[p].group = "box".to_owned();
    }
    assembly.bodies.push(("box".to_owned(), "box".to_owned()));
    if dice.once_in(2) {
        for joint in &mut assembly.joints {
            let [a, b] = joint.parts.map(|p| inside.contains(&p));
            if a != b && joint.kind != JointKind::Touch {
                joint.kind = JointKind::Slide;
                joint.glue = false;
                joint.fasteners.clear();
            }
        }
    }
}

/// Sets one or two parts against others, never in a circle.
fn set_against(assembly: &mut Assembly, dice: &mut Dice) {
    let mut rank: Vec<usize> = (0..assembly.parts.len()).collect();
    super::shape::shuffle(dice, &mut rank);
    for _ in 0..dice.between(1, 2) {
        let joints: Vec<[usize; 2]> = assembly.joints.iter().map(|j| j.parts).collect();
        let Some([a, b]) = dice.pick(&joints) else { return };
        let (late, early) = if rank[a] > rank[b] { (a, b) } else { (b, a) };
        let id = assembly.parts[early].id.clone();
        if !assembly.parts[late].set_against.contains(&id) {
            assembly.parts[late].set_against.push(id);
        }
    }
}

/// Whether joints that are more than a touch make one whole of it.
fn is_connected(assembly: &Assembly) -> bool {
    let mut known = vec![false; assembly.parts.len()];
    let mut open = vec![0];
    while let Some(p) = open.pop() {
        if std::mem::replace(&mut known[p], true) {
            continue;
        }
        let more = assembly.joints.iter().filter(|j| j.kind != JointKind::Touch);
        open.extend(more.filter(|j| j.parts.contains(&p)).map(|j| j.other(p)));
    }
    known.into_iter().all(|k| k)
}
