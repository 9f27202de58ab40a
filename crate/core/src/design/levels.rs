//! Which of the things that go in stand where: in a box, in drawers, or on the bottom and the shelves.
//!
//! Things of one entry stay together as they are arranged; entries that share a level stand one behind the other.
//! All ways to share them out are tried, so that more room never makes them stop fitting.

use super::contents::{Need, need_of};
use super::fit;
use super::shelves::CLEAR;
use super::{Job, sizes};
use crate::findings::{Finding, Severity};
use crate::scenario::Content;
use crate::units::Length;

/// Entries that are shared out one by one; what is listed after them stays with the last of them.
const APART: usize = 8;

/// A place to stand, with its clear width, depth and height.
#[derive(Debug, Clone)]
pub struct Level {
    /// As a maker says it: `Shelf 1`.
    pub name: String,
    pub room: [i64; 3],
}

/// Shelves that lie on pins and may be set on other holes.
#[derive(Debug, Clone, Copy)]
pub struct Loose {
    /// The bottom's upper face and what closes the room above; the highest a shelf may lie.
    pub z: [i64; 2],
    pub most: i64,
    /// The lowest hole that a shelf lies on, distance from hole to hole, and the shelf's thickness.
    pub first: i64,
    pub pitch: i64,
    pub thick: i64,
}

/// The places of a bay.
#[derive(Debug, Clone, Default)]
pub struct Levels {
    /// Bottom and shelves from the lowest up, then what slides.
    pub all: Vec<Level>,
    /// How many of them the shelves part, and how, where these may be moved.
    pub loose: Option<(usize, Loose)>,
}

/// Entries that are shared out together, and what every choice of them needs.
struct Blocks {
    entries: Vec<Vec<usize>>,
    needs: Vec<Option<Need>>,
}

impl Blocks {
    fn of(things: &[Content]) -> Blocks {
        let alone = things.len().min(APART);
        let mut entries: Vec<Vec<usize>> = (0..alone).map(|n| vec![n]).collect();
        if let Some(last) = entries.last_mut() {
            last.extend(alone..things.len());
        }
        let needs = (0..1_usize << alone).map(|set| {
            let chosen = entries.iter().enumerate().filter(|(n, _)| set >> n & 1 == 1);
            let chosen: Vec<&Content> =
                chosen.flat_map(|(_, e)| e).filter_map(|n| things.get(*n)).collect();
            need_of(chosen.into_iter())
        });
        let needs = needs.collect();
        Blocks { entries, needs }
    }

    fn everything(&self) -> usize {
        self.needs.len() - 1
    }

    /// What a choice needs; nothing needs no room.
    fn need(&self, set: usize) -> [i64; 3] {
        self.needs.get(set).copied().flatten().map_or([0; 3], |n| [n.width, n.depth, n.height])
    }

    /// The places of the entries in the list, of a choice of blocks.
    fn listed(&self, set: usize) -> Vec<usize> {
        let chosen = self.entries.iter().enumerate().filter(|(n, _)| set >> n & 1 == 1);
        chosen.flat_map(|(_, entries)| entries.iter().copied()).collect()
    }

    /// All choices out of the blocks that are left, the largest first, the empty one last.
    fn choices(left: usize) -> impl Iterator<Item = usize> {
        let mut next = Some(left);
        std::iter::from_fn(move || {
            let now = next?;
            next = now.checked_sub(1).map(|less| less & left);
            Some(now)
        })
    }

    fn fit(&self, set: usize, room: [i64; 3]) -> bool {
        self.need(set).iter().zip(room).all(|(need, room)| *need <= room)
    }

    /// Which blocks go to which level, as it is; none when there is no way.
    fn share(&self, levels: &[Level]) -> Option<Vec<usize>> {
        let everything = self.everything();
        // By what stands on the levels so far: what stands on each of them.
        let mut ways: Vec<Option<Vec<usize>>> = vec![None; everything + 1];
        ways[0] = Some(Vec::new());
        for level in levels {
            let mut more = vec![None; everything + 1];
            for (set, way) in ways.iter().enumerate().rev() {
                let Some(way) = way else { continue };
                for chosen in Blocks::choices(everything & !set) {
                    let slot: &mut Option<Vec<usize>> = &mut more[set | chosen];
                    if slot.is_none() && self.fit(chosen, level.room) {
                        *slot = Some(way.iter().copied().chain([chosen]).collect());
                    }
                }
            }
            ways = more;
        }
        ways.swap_remove(everything)
    }

    /// The same with shelves set on whatever holes it takes: what stands on each level, and the upper faces of the
    /// shelves.
    fn share_moving(&self, levels: &[Level], loose: &Loose) -> Option<(Vec<usize>, Vec<i64>)> {
        type Way = (Vec<usize>, Vec<i64>);
        let everything = self.everything();
        let mut ways: Vec<Option<Way>> = vec![None; everything + 1];
        ways[0] = Some((Vec::new(), Vec::new()));
        for (n, level) in levels.iter().enumerate() {
            let last = n + 1 == levels.len();
            let mut more: Vec<Option<Way>> = vec![None; everything + 1];
            for (set, way) in ways.iter().enumerate().rev() {
                let Some((chosen_below, tops)) = way else { continue };
                let floor = tops.last().copied().unwrap_or(loose.z[0]);
                for chosen in Blocks::choices(everything & !set) {
                    let [width, depth, height] = self.need(chosen);
                    let above = floor + height.max(CLEAR);
                    let up = (above - loose.first).max(0);
                    let holes = (up + loose.pitch - 1) / loose.pitch;
                    let top = loose.first + holes * loose.pitch + loose.thick;
                    let room = if last { floor + height <= loose.z[1] } else { top <= loose.most };
                    if width > level.room[0] || depth > level.room[1] || !room {
                        continue;
                    }
                    let slot = &mut more[set | chosen];
                    // The lower the shelf, the more is left above it.
                    let lower = |w: &Way| w.1.last().is_none_or(|t| last || *t <= top);
                    if slot.as_ref().is_some_and(lower) {
                        continue;
                    }
                    let mut way = (chosen_below.clone(), tops.clone());
                    way.0.push(chosen);
                    if !last {
                        way.1.push(top);
                    }
                    *slot = Some(way);
                }
            }
            ways = more;
        }
        ways.swap_remove(everything)
    }
}

/// Whether what goes in finds room, and where: rows of the size table, and findings where it does not.
pub fn judge(s: &Job, levels: &Levels, rows: &mut sizes::Rows, findings: &mut Vec<Finding>) {
    if s.contents.is_empty() || levels.all.is_empty() {
        return;
    }
    let blocks = Blocks::of(s.contents);
    let as_set = blocks.share(&levels.all);
    let moved = match (&as_set, &levels.loose) {
        (None, Some((n, loose))) => blocks.share_moving(levels.all.get(..*n).unwrap_or(&[]), loose),
        _ => None,
    };
    if let Some((_, tops)) = &moved {
        findings.push(move_shelves(s, tops));
    }
    let Some(way) = as_set.or(moved.map(|(way, _)| way)) else {
        too_much(s, &blocks, &levels.all, findings);
        return;
    };
    for (level, set) in levels.all.iter().zip(&way).filter(|(_, set)| **set != 0) {
        let listed = blocks.listed(*set);
        let named = listed.iter().filter_map(|n| s.contents.get(*n));
        let things: Vec<String> = named.map(|c| format!("{} × {}", c.count, c.name)).collect();
        rows.level(level, &things.join(", "), blocks.need(*set));
    }
}

/// Shelves as they are spread leave no level as high as a thing is, but on other holes they do.
fn move_shelves(s: &Job, tops: &[i64]) -> Finding {
    let p = |um: &i64| s.notation.print(Length(*um));
    let tops: Vec<String> = tops.iter().map(p).collect();
    Finding::new(
        Severity::Note,
        "shelves-to-move",
        "build.shelves.heights",
        format!(
            "Spread evenly, the shelves leave no room for all that goes in; with their upper faces at {} they do.",
            tops.join(", ")
        ),
        "Set the loose shelves there, or give these heights.",
    )
    .number("heights", tops.join(", "))
}

/// Says in which way there is too little room.
fn too_much(s: &Job, blocks: &Blocks, levels: &[Level], findings: &mut Vec<Finding>) {
    // Where there is one level, all must stand on it; else each block by itself at least on some.
    let whole = [blocks.everything()];
    let each: Vec<usize> = (0..blocks.entries.len()).map(|n| 1 << n).collect();
    let sets: &[usize] = if levels.len() == 1 { &whole } else { &each };
    let most = |way: usize| levels.iter().map(|l| l.room[way]).max().unwrap_or(0);
    let needs = |way: usize| sets.iter().map(|set| blocks.need(*set)[way]).max().unwrap_or(0);
    let boxed = s.build.boxes().is_some();
    let deep = match (boxed, levels.len()) {
        (true, 1) => "Choose longer runners and a deeper carcass, or let them stand side by side.",
        (_, 1) => "Make the carcass deeper, or let them stand side by side.",
        _ => {
            "Make the carcass deeper, let them stand side by side, or list them in parts: each entry may stand on a level of its own."
        }
    };
    let high = match (boxed, levels.len()) {
        (true, 1) => {
            "Pulled out, they pass under the stretcher: choose lower things, a lower toe kick or a higher carcass."
        }
        _ => {
            "Make the carcass higher, give fewer shelves or drawers, or set them at other heights."
        }
    };
    let before = findings.len();
    let told = findings.iter().any(|f| f.code == "contents-too-wide");
    fit::contents_in(s, "depth", "contents-too-deep", needs(1), most(1), deep, findings);
    fit::contents_in(s, "height", "contents-too-high", needs(2), most(2), high, findings);
    if findings.len() == before && !told {
        let wide = "Let them stand in line front to back, or list them in parts: each entry may stand on a level of its own.";
        fit::contents_in(s, "width", "contents-too-wide", needs(0), most(0), wide, findings);
    }
    if findings.len() == before && !told {
        let message = format!(
            "Each of the things that go in finds room by itself, but not all of them: there are {} levels.",
            levels.len()
        );
        let cure =
            "Ask for one shelf or drawer more, set them at other heights, or list fewer things.";
        let finding = Finding::new(Severity::Stop, "contents-too-many", "contents", message, cure);
        findings.push(finding.number("levels", levels.len().to_string()));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::scenario::Arrange;

    fn thing(width: i64, depth: i64, height: i64) -> Content {
        Content {
            name: "jar".to_owned(),
            width: Length::mm(width),
            depth: Length::mm(depth),
            height: Length::mm(height),
            count: 1,
            clearance: Length::ZERO,
            mass_g: 0,
            lift: Length::ZERO,
            arrange: Arrange::SideBySide,
        }
    }

    fn level(height: i64) -> Level {
        Level { name: "Shelf".to_owned(), room: [500_000, 300_000, height * 1000] }
    }

    #[test]
    fn each_stands_where_it_fits() {
        let things = [thing(400, 250, 350), thing(400, 250, 180), thing(400, 50, 180)];
        let blocks = Blocks::of(&things);
        let way = blocks.share(&[level(200), level(400)]);
        assert_eq!(way, Some(vec![0b110, 0b001]));
        assert_eq!(blocks.share(&[level(200), level(300)]), None);
    }

    #[test]
    fn loose_shelves_make_room_on_other_holes() {
        let things = [thing(400, 250, 350), thing(400, 250, 350)];
        let blocks = Blocks::of(&things);
        let levels = [level(366), level(314)];
        assert_eq!(blocks.share(&levels), None);
        let loose = |ceiling: i64| Loose {
            z: [0, ceiling],
            most: ceiling - CLEAR,
            first: 98_000,
            pitch: 32_000,
            thick: 18_000,
        };
        let (way, tops) = blocks.share_moving(&levels, &loose(730_000)).unwrap();
        assert_eq!((way, tops), (vec![0b10, 0b01], vec![98_000 + 8 * 32_000 + 18_000]));
        assert!(blocks.share_moving(&levels, &loose(721_000)).is_none());
    }

    #[test]
    fn choices_are_all_that_there_are() {
        let all: Vec<usize> = Blocks::choices(0b101).collect();
        assert_eq!(all, [0b101, 0b100, 0b001, 0]);
    }
}
