//! Every kind of unit, from scenario files made by chance: what must hold of its parts whatever its
//! sizes, and published sizes that it must come to.
//!
//! Facts of the trade without a published source say so.

use jointwise::assembly::Kind;
use jointwise::design::{Design, design};
use jointwise::findings::{Finding, Severity, has_stop};
use jointwise::geometry::Box3;
use jointwise::scenario;
use jointwise::units::Length;
use jointwise_tests::dice::Dice;
use serde_json::{Value, json};

/// Names of the kinds, in the order of [`spec`].
const KINDS: [&str; 10] = [
    "pull-out",
    "drawers",
    "doors",
    "drawer over doors",
    "locker",
    "wall unit",
    "bench",
    "open shelves",
    "false front",
    "open base",
];

/// A scenario of a kind, sizes in millimetres.
fn spec(kind: usize, dice: &mut Dice) -> Value {
    let mut mm = |least: i64, most: i64| json!(dice.between(least, most));
    let (mut width, mut height, mut depth) = (mm(360, 900), mm(700, 900), mm(420, 640));
    let mut build = match kind {
        0 | 8 => json!({ "pull_out": { "side_height": mm(90, 200) } }),
        1 => json!({ "drawers": { "count": mm(1, 5) } }),
        2 => json!({ "doors": {}, "shelves": { "count": mm(0, 2) } }),
        3 => json!({ "drawers": { "count": 1, "heights": [mm(130, 180)] }, "doors": {} }),
        4 => json!({ "doors": { "count": 1 }, "shelves": { "count": mm(1, 4) } }),
        5 => json!({ "doors": {}, "shelves": { "count": mm(1, 3) } }),
        9 => json!({ "shelves": { "count": mm(1, 3), "setback": mm(0, 20) } }),
        6 => json!({ "pull_out": { "side_height": mm(90, 140) }, "dividers": { "count": 1 } }),
        _ => json!({ "shelves": { "count": mm(1, 3) }, "dividers": { "count": mm(1, 3) } }),
    };
    let carcass = match kind {
        4 => json!({ "top": "panel" }),
        5 => json!({ "top": "panel", "toe_height": 0 }),
        6 => {
            json!({ "top": "over", "foot": "platform", "stretcher_width": 80, "nailer_height": 80, "toe_height": 70 })
        }
        7 => json!({ "top": "panel", "dado_depth": 5 }),
        _ => json!({}),
    };
    build["carcass"] = carcass;
    match kind {
        0 => build["front"] = json!({ "reveal": mm(2, 5) }),
        4 => (width, height) = (mm(320, 500), mm(1500, 1900)),
        5 => (height, depth) = (mm(500, 800), mm(280, 380)),
        6 => (width, height) = (mm(900, 1300), mm(420, 520)),
        7 => (width, depth) = (mm(700, 1400), mm(260, 400)),
        8 => build["front"] = json!({ "style": "drawer-over-doors" }),
        _ => {}
    }
    let mut pick = |from: &[&str]| json!(dice.pick(from).unwrap_or_default());
    build["carcass"]["joint"] = pick(&["butt", "dado", "rabbet"]);
    build["back"] = json!({ "set": pick(&["applied", "rabbet", "groove"]) });
    if [2, 4, 7, 9].contains(&kind) {
        build["shelves"]["fixing"] = pick(&["fixed", "pins"]);
    }
    if kind != 6 {
        build["carcass"]["foot"] = pick(&["integral", "platform", "legs"]);
    }
    if [1, 2, 3, 4, 5].contains(&kind) {
        build["front"] = json!({ "mount": pick(&["overlay", "inset"]) });
    }
    let side_mount = pick(&["undermount", "side-mount"]);
    match kind {
        1 | 3 => build["drawers"]["box"] = json!({ "runner": { "kind": side_mount } }),
        0 | 6 | 8 => build["pull_out"]["runner"] = json!({ "kind": side_mount }),
        _ => {}
    }
    if dice.once_in(3) {
        build["banding"] = json!({ "thickness": "1 mm" });
    }
    json!({
        "format": "jointwise-scenario/1",
        "unit": "mm",
        "print": "mm-tenth",
        "space": { "widths": [{ "at": 100, "width": width }], "height": height, "depth": depth },
        "contents": if [0, 6, 8].contains(&kind) {
            json!([{ "width": 120, "depth": 100, "height": 120 }])
        } else { json!([]) },
        "build": build,
    })
}

fn designed(file: &Value) -> (Option<Design>, Vec<Finding>) {
    let (read, mut findings) = scenario::read(&file.to_string());
    let Some(read) = read else { return (None, findings) };
    let (design, said) = design(&read);
    findings.extend(said);
    (design, findings)
}

/// A design and its file, when nothing is to be put right but perhaps a screw that is not on hand.
fn sound(kind: usize, seed: u64) -> Option<(Value, Design)> {
    let file = spec(kind, &mut Dice::new(seed));
    let (design, findings) = designed(&file);
    let bad = |f: &&Finding| f.severity <= Severity::Fix && f.code != "no-screw";
    if let Some(first) = findings.iter().find(bad) {
        // Sizes by chance may leave no room; then a finding says so with a cure. An unsound assembly is
        // never what comes of them.
        let room = ["room", "height", "runner", "hinge", "contents", "too", "vanish", "shelf"];
        let told = room.iter().any(|r| first.code.contains(r));
        assert!(told, "{}, seed {seed}: {first:#?}\n{file:#}", KINDS[kind]);
        return None;
    }
    assert!(design.is_some(), "{}, seed {seed}: no design and no finding", KINDS[kind]);
    Some((file, design?))
}

/// Of every kind, so many that are sound.
fn each(mut check: impl FnMut(usize, &Value, &Design)) {
    for (kind, name) in KINDS.iter().enumerate() {
        let found = (0..60).filter_map(|n| sound(kind, 1000 * kind as u64 + n)).take(24);
        let mut count = 0;
        for (file, design) in found {
            check(kind, &file, &design);
            count += 1;
        }
        assert!(count >= 12, "only {count} sound specs of {name}");
    }
}

fn row(d: &Design, id: &str) -> Option<i64> {
    d.sizes.iter().find(|r| r.id == id).map(|r| r.value)
}

#[test]
fn parts_fit_the_opening_with_the_gaps() {
    each(|kind, file, d| {
        let all = d.assembly.parts.iter().map(|p| p.solid.bounds());
        let all = all.reduce(|a, b| a.union(&b)).expect("parts");
        let um = |v: &Value| v.as_i64().expect("a number") * 1000;
        let space = &file["space"];
        // 1.5 mm at each side and 3 mm above are the defaults.
        assert_eq!(all.extent(0), um(&space["widths"][0]["width"]) - 3_000, "{}", KINDS[kind]);
        assert_eq!(all.max[2], um(&space["height"]) - 3_000);
        assert!(all.extent(1) <= um(&space["depth"]), "{}: {all:?}", KINDS[kind]);
        assert_eq!((all.min[0], all.min[2]), (0, 0), "{}", KINDS[kind]);
    });
}

#[test]
fn fronts_and_reveals_fill_the_front() {
    each(|kind, file, d| {
        let fronts = d.assembly.parts.iter().filter(|p| {
            let id = p.id.as_str();
            let drawer = id.strip_prefix("front-").is_some_and(|n| n.parse::<u8>().is_ok());
            id == "front"
                || drawer
                || id.ends_with("door")
                || id.ends_with("door-front")
                || id == "drawer-front"
        });
        let mut boxes: Vec<_> = fronts.map(|p| p.solid.bounds()).collect();
        if boxes.is_empty() {
            return;
        }
        // Down the middle of the left half: fronts and gaps from the lowest to the highest edge.
        boxes.retain(|b| b.min[0] < row(d, "carcass-width").unwrap_or(0) / 4);
        boxes.sort_by_key(|b| b.min[2]);
        let reveal = match &file["build"]["front"]["reveal"] {
            Value::Number(n) => n.as_i64().unwrap_or(0) * 1000,
            _ => 3_000,
        };
        for pair in boxes.windows(2) {
            assert_eq!(pair[1].min[2] - pair[0].max[2], reveal, "{}", KINDS[kind]);
        }
        let inset = file["build"]["front"]["mount"] == "inset";
        let height = row(d, "carcass-height").expect("a row");
        let top = boxes.last().expect("one").max[2];
        let seat = if kind == 6 { 18_000 } else { 0 };
        let under = if inset { 18_000 } else { 0 };
        assert_eq!(top, height - reveal - seat - under, "{} {file:#}", KINDS[kind]);
    });
}

#[test]
fn masses_add_up_and_nothing_overlaps() {
    each(|kind, _, d| {
        let parts = &d.assembly.parts;
        for (n, p) in parts.iter().enumerate() {
            assert!(parts[n + 1..].iter().all(|q| !p.solid.intersects(&q.solid)), "{}", p.id);
            let kilo = i128::from(p.mass_g) * 1_000_000_000_000_000;
            let density = if p.material.starts_with("mdf") { 750 } else { 600 };
            // Pins that stand out of a panel are not of its sheet.
            let holes = |m: &jointwise::plan::Making| m.work.iter().any(|w| w.row.is_some());
            let pinned = d.making[n].as_ref().is_some_and(holes);
            if p.kind == Kind::Panel && !pinned {
                assert!(
                    (p.solid.volume() * density - kilo).abs() <= 500_000_000_000_000,
                    "{}",
                    p.id
                );
            }
        }
        // What is joined touches; what is screwed has its screws.
        for j in &d.assembly.joints {
            let [a, b] = j.parts.map(|i| &parts[i]);
            assert!(!a.solid.contacts(&b.solid).is_empty(), "{}: {}", KINDS[kind], j.id);
        }
    });
}

/// A unit without anything that is hung on one side is its own mirror image, and each left part says
/// that the right one mirrors it, or is the same.
#[test]
fn a_mirrored_spec_gives_mirrored_parts() {
    let mut pairs = 0;
    each(|kind, file, d| {
        let mut turned = file.clone();
        // Of two leaves each hangs on its own side, whatever is said.
        if file["build"]["doors"].is_object() {
            turned["build"]["doors"]["hung"] = json!("right");
        }
        // Fixed shelves beside dividers are let in on their left only.
        if kind == 7 {
            return;
        }
        let (other, _) = designed(&turned);
        let other = other.expect("a mirrored design");
        let w = row(d, "carcass-width").expect("a row");
        let solids = |d: &Design, flip: bool| {
            let all = d.assembly.parts.iter().filter(|p| p.kind == Kind::Panel).map(|p| {
                let mut b = p.solid.bounds();
                if flip {
                    (b.min[0], b.max[0]) = (w - b.max[0], w - b.min[0]);
                }
                (b, p.solid.volume())
            });
            all.collect::<Vec<(Box3, i128)>>()
        };
        // Odd micrometres fall to one side or the other.
        let close = |a: i64, b: i64| (a - b).abs() <= 2;
        let (a, b) = (solids(d, true), solids(&other, false));
        assert_eq!(a.len(), b.len());
        for x in &a {
            // What is cut out of it is mirrored, too: a dado is more than a thousandth of its board.
            let same = |(other, volume): &(Box3, i128)| {
                (0..3).all(|i| close(x.0.min[i], other.min[i]) && close(x.0.max[i], other.max[i]))
                    && (x.1 - volume).abs() <= x.1 / 1000
            };
            assert!(b.iter().any(same), "{} {file:#}\n{x:?}", KINDS[kind]);
        }
        pairs += d.making.iter().flatten().filter(|m| m.mirrors.is_some()).count();
    });
    assert!(pairs > 50, "{pairs} mirror pairs marked");
}

/// Every length of a file in inches, none of them left to a default.
#[test]
fn inches_and_millimetres_of_one_size_make_one_cabinet() {
    each(|kind, file, d| {
        let mut inches = file.clone();
        inches["print"] = json!("inch-64");
        let (other, _) = designed(&inches);
        let other = other.expect("a design");
        assert_eq!(d.assembly.parts, other.assembly.parts, "{}", KINDS[kind]);
        // 25.4 mm are an inch: the same lengths written in inches.
        let mut metric = file.clone();
        for (at, key) in [("height", "height"), ("depth", "depth")] {
            let mm = file["space"][at].as_i64().expect("a number");
            metric["space"][key] = json!(format!("{}/254 in", mm * 10));
        }
        let (written, findings) = designed(&metric);
        let written = written.unwrap_or_else(|| panic!("{findings:#?}"));
        assert_eq!(d.assembly.parts, written.assembly.parts, "{}", KINDS[kind]);
    });
}

/// Up to three entries of things, as they may stand on a shelf, in a drawer or in a box.
fn things(dice: &mut Dice) -> Value {
    let entries = dice.between(1, 3);
    let mut list = Vec::new();
    for _ in 0..entries {
        let (width, depth) = (dice.between(60, 220), dice.between(60, 260));
        let how = dice.pick(&["side-by-side", "in-line", "grid"]).unwrap_or_default();
        list.push(json!({
            "width": width, "depth": depth, "height": dice.between(50, 320),
            "count": dice.between(1, 4), "clearance": dice.between(0, 8), "arrange": how,
        }));
    }
    Value::Array(list)
}

/// Whether what goes in fits; none where something else stops the design.
fn fits(file: &Value) -> Option<bool> {
    let (design, said) = designed(file);
    let stops = || said.iter().filter(|f| f.severity == Severity::Stop);
    let about = |f: &&Finding| f.code.starts_with("contents");
    (design.is_some() && stops().all(|f| about(&f))).then(|| stops().count() == 0)
}

#[test]
fn growing_the_opening_never_makes_contents_stop_fitting() {
    let mut seen = [[0; 2]; KINDS.len()];
    for seed in 0..24 {
        for (kind, name) in KINDS.iter().enumerate() {
            let mut dice = Dice::new(900 + seed);
            let mut file = spec(kind, &mut dice);
            file["contents"] = things(&mut dice);
            let mut before = false;
            for at in ["height", "depth", "width"].into_iter().cycle().take(12) {
                let slot = match at {
                    "width" => &mut file["space"]["widths"][0]["width"],
                    at => &mut file["space"][at],
                };
                *slot = json!(slot.as_i64().expect("a number") + dice.between(1, 60));
                let Some(now) = fits(&file) else { continue };
                assert!(now || !before, "{name}, seed {seed}: {at}\n{file:#}");
                before |= now;
                seen[kind][usize::from(now)] += 1;
            }
        }
    }
    // Each kind has been seen full and too full.
    for (name, [not, yes]) in KINDS.iter().zip(seen) {
        assert!(not >= 5 && yes >= 30, "{name}: {not} times not, {yes} times");
    }
}

#[test]
fn entries_share_levels_that_one_would_not_hold() {
    let mut file = spec(2, &mut Dice::new(7));
    let jars = json!({ "name": "jar", "width": 120, "depth": 180, "height": 200, "count": 2, "clearance": 4 });
    file["build"]["shelves"] = json!({ "count": 2, "fixing": "fixed" });
    file["space"]["height"] = json!(900);
    file["space"]["depth"] = json!(380);
    file["contents"] = json!([jars, jars, jars]);
    assert_eq!(fits(&file), Some(true), "three levels, one entry on each");
    let rows = |d: &Design| d.sizes.iter().filter(|r| r.id.starts_with("contents-on-")).count();
    assert_eq!(designed(&file).0.as_ref().map(rows), Some(3));
    file["contents"] = json!([jars, jars, jars, jars]);
    assert_eq!(fits(&file), Some(false));
    let code = |f: &Finding| f.severity == Severity::Stop && f.code == "contents-too-many";
    assert!(designed(&file).1.iter().any(code));
}

/// The finished carcass is screwed down on its platform from inside: above each screw there is room for a drill.
#[test]
fn the_drill_stands_over_every_screw_of_a_platform() {
    for seed in 0..40 {
        for kind in [1, 2, 4, 6] {
            let mut file = spec(kind, &mut Dice::new(300 + seed));
            file["build"]["carcass"]["foot"] = json!("platform");
            let (Some(design), _) = designed(&file) else { continue };
            let parts = &design.assembly.parts;
            for joint in &design.assembly.joints {
                let names = joint.parts.map(|p| parts[p].id.as_str());
                if names[0] != "bottom" || !names[1].starts_with("platform") {
                    continue;
                }
                for screw in &joint.fasteners {
                    let [x, y, z] = screw.entry;
                    let drill = Box3::new(
                        [x - 35_000, y - 35_000, z],
                        [x + 35_000, y + 35_000, z + 250_000],
                    );
                    let closed = ["back", "nailer", "left-side", "right-side", "divider", "bottom"];
                    for part in parts.iter().filter(|p| closed.contains(&p.id.as_str())) {
                        let clear = part.solid.boxes().iter().all(|b| !b.intersects(&drill));
                        assert!(
                            clear,
                            "{}, seed {seed}: {} over {}",
                            KINDS[kind], part.id, screw.id
                        );
                    }
                }
            }
        }
    }
}

#[test]
fn banding_is_taken_off_the_part_as_cut() {
    each(|kind, file, d| {
        let band = if file["build"]["banding"].is_object() { 1_000 } else { 0 };
        for (p, m) in d.assembly.parts.iter().zip(&d.making) {
            let Some(m) = m else { continue };
            let off: i64 = p.length.get() + p.width.get() - m.cut[0] - m.cut[1];
            let play = if p.id.starts_with("shelf") && file["build"]["shelves"]["fixing"] == "pins"
            {
                2_000
            } else {
                0
            };
            let bands = i64::try_from(m.banded.len()).unwrap_or(0) * band;
            assert_eq!(off, bands + play, "{}: {}", KINDS[kind], p.id);
            assert!(band > 0 || m.banded.is_empty());
            let door = p.id.ends_with("door");
            assert!(!door || band == 0 || m.banded.len() == 4, "{} is banded all round", p.id);
        }
    });
}

/// What is cut into a part, taken from its outer box, leaves its volume.
#[test]
fn work_on_parts_takes_away_what_is_missing_of_them() {
    let mut grooves = 0;
    each(|kind, _, d| {
        for (p, m) in d.assembly.parts.iter().zip(&d.making) {
            let Some(m) = m else { continue };
            let missing = p.solid.bounds().volume() - p.solid.volume();
            let told = |w: &jointwise::plan::Work| {
                i128::from(w.size[0]) * i128::from(w.size[1]) * i128::from(w.depth)
            };
            let cut: i128 = m.work.iter().filter(|w| w.row.is_none()).map(told).sum();
            grooves += m.work.len();
            // Out of panels with rows of holes stand pins.
            if m.work.iter().any(|w| w.row.is_some()) {
                continue;
            }
            // Cuts that cross are counted twice.
            assert!(cut >= missing, "{} {}: {cut} < {missing}", KINDS[kind], p.id);
            assert_eq!(missing == 0, cut == 0, "{} {}", KINDS[kind], p.id);
            for w in &m.work {
                assert!(w.depth > 0 && w.size[0] > 0 && w.size[1] > 0, "{} {w:?}", p.id);
            }
        }
    });
    assert!(grooves > 500);
}

#[test]
fn two_side_thicknesses_give_one_inside_width() {
    // Both rules of drawer-box makers' measuring pages, outside = opening − 5/8 in for 1/2 in sides and
    // − 3/8 in for 5/8 in sides, come to inside = opening − 1 5/8 in (41.3 mm); the metric rule,
    // opening − 42 mm, is from memory: within 1 mm of it.
    let opening = 564_000;
    let inside = |thickness: &str| {
        let file = json!({
            "format": "jointwise-scenario/1", "unit": "mm",
            "space": { "height": 880, "depth": 560 },
            "shop": { "materials": [
                { "id": "a", "name": "a", "kind": "plywood", "thickness": 18 },
                { "id": "s", "name": "s", "kind": "plywood", "thickness": thickness },
                { "id": "b", "name": "b", "kind": "plywood", "thickness": 6 }
            ] },
            "build": { "carcass": { "width": 600 }, "back": {}, "drawers": { "box": { "material": "s" } } },
        });
        let (d, f) = designed(&file);
        row(&d.unwrap_or_else(|| panic!("{f:#?}")), "box-inside-width").expect("a row")
    };
    let (half, five_eighths) = (inside("1/2 in"), inside("5/8 in"));
    assert_eq!(half, five_eighths);
    assert!((half - (opening - Length::inch(13, 8).get())).abs() <= 1_000);
}

#[test]
fn defaults_are_those_published() {
    let base = |unit: &str| {
        let height = if unit == "in" { json!("34 5/8") } else { json!(873) };
        let file = json!({
            "format": "jointwise-scenario/1", "unit": unit,
            "space": { "widths": [{ "at": 1, "width": "24 in" }], "height": height, "depth": "24 in" },
            "build": { "doors": {} },
        });
        let (d, f) = designed(&file);
        d.unwrap_or_else(|| panic!("{f:#?}"))
    };
    // A base is 34 1/2 in high without its top, 36 in with one of 1 1/2 in (trade installation manual,
    // seller's page); a metric one 870 mm (EN 1116, quoted in a glossary). The gap above is ours.
    assert_eq!(row(&base("in"), "carcass-height"), Some(Length::inch(69, 2).get()));
    assert_eq!(row(&base("mm"), "carcass-height"), Some(870_000));
    // Toe kick 3 1/2 to 4 1/2 in high and 3 in deep (from memory); plinth 100 mm or more (EN 1116, quoted).
    let inch = |n, d| Length::inch(n, d).get();
    for (unit, low, high) in [("in", inch(7, 2), inch(9, 2)), ("mm", 100_000, inch(9, 2))] {
        let d = base(unit);
        let toe = d
            .assembly
            .parts
            .iter()
            .find(|p| p.id == "toe-kick")
            .expect("a toe kick")
            .solid
            .bounds();
        assert!((low..=high).contains(&toe.extent(2)), "{unit}: {}", toe.extent(2));
        assert!((inch(5, 2)..=inch(7, 2)).contains(&toe.min[1]));
    }
}

#[test]
fn rows_of_holes_lie_on_the_grid() {
    // Holes of 5 mm every 32 mm, the front row 37 mm from the front edge
    // (32mm.dalrun.com/System_Design/Introduction.html).
    let file = json!({
        "format": "jointwise-scenario/1", "unit": "mm",
        "space": { "widths": [{ "at": 1, "width": 600 }], "height": 880, "depth": 580 },
        "build": { "doors": {}, "shelves": { "count": 2, "fixing": "pins" } },
    });
    let (d, f) = designed(&file);
    let d = d.unwrap_or_else(|| panic!("{f:#?}"));
    let at = d.assembly.index_of("left-side").expect("a side");
    let work = &d.making[at].as_ref().expect("made").work;
    let rows: Vec<_> = work.iter().filter_map(|w| w.row.map(|r| (w, r))).collect();
    assert_eq!(rows.len(), 2, "a row in front and one behind: {work:#?}");
    assert_eq!(rows[0].0.from[0].1, 37_000);
    for (w, (_, pitch, count)) in &rows {
        assert_eq!((w.size[0], *pitch), (5_000, 32_000));
        assert!(*count > 10);
        // Every pin of a shelf is in one of the holes.
        for p in d.assembly.parts.iter().filter(|p| p.id.starts_with("shelf")) {
            let z = p.solid.bounds().min[2] - 2_500 - w.from[1].1;
            assert_eq!(z.rem_euclid(32_000), 0, "{} at {z}", p.id);
        }
    }
    // Screws of the hinges' plates: in the same rows' line, 32 mm apart.
    let hinge = d
        .assembly
        .joints
        .iter()
        .find(|j| j.id == "door-hinge-1+left-side")
        .or_else(|| d.assembly.joints.iter().find(|j| j.id == "left-door-hinge-1+left-side"))
        .expect("a hinge on the side");
    let z: Vec<i64> = hinge.fasteners.iter().map(|f| f.entry[2]).collect();
    assert_eq!(z[1] - z[0], 32_000);
    assert!(hinge.fasteners.iter().all(|f| f.entry[1] == 37_000));
}

#[test]
fn default_sheets_are_as_thick_as_published() {
    // PS 1-19, performance category: 1/4 in 0.219–0.281, 1/2 in 0.469–0.531, 23/32 in 0.688–0.750 in
    // (dev.carverwilde.com/apawood-europe/products-trademarks/plywood/trademarks/performance-category).
    // MDF, ANSI A208.2-2009: the panel's average within 0.125 mm (issuu.com/surfaceandpanel/docs/sandp_bg2014/16).
    let ranges = [
        ("ply-1/4", 219, 281),
        ("ply-1/2", 469, 531),
        ("ply-3/4", 688, 750),
        ("mdf-3/4", 745, 755),
    ];
    let file = json!({ "format": "jointwise-scenario/1", "unit": "in",
        "space": { "widths": [{ "at": 1, "width": 24 }], "height": 34, "depth": 24 }, "build": { "doors": {} } });
    let (read, _) = scenario::read(&file.to_string());
    let shop = read.expect("a scenario").shop;
    for (id, low, high) in ranges {
        // Published to a thousandth of an inch.
        let t = shop.material(id).expect(id).thickness.get() * 10;
        assert!((low * 254 - 127..=high * 254 + 127).contains(&t), "{id}: {t}");
    }
}

#[test]
fn pins_are_met_or_say_what_clashes() {
    let mut met = 0;
    each(|kind, file, d| {
        for (id, by) in [
            ("carcass-inside-width", 7_000),
            ("carcass-inside-height", 5_000),
            ("carcass-inside-depth", 3_000),
        ] {
            let mut pinned = file.clone();
            let value = row(d, id).expect("a row") - by;
            pinned["build"]["pins"] =
                json!({ id: format!("{}.{:03} mm", value / 1000, value % 1000) });
            let (other, findings) = designed(&pinned);
            let stop = has_stop(&findings);
            if let Some(other) = other.filter(|_| !stop) {
                assert_eq!(row(&other, id), Some(value), "{} {id}", KINDS[kind]);
                met += 1;
            } else {
                let told = findings.iter().find(|f| f.severity == Severity::Stop).expect("a stop");
                assert!(!told.hint.is_empty());
            }
        }
    });
    assert!(met > 400, "{met} pins met");
    let mut file = spec(2, &mut Dice::new(5));
    file["build"]["pins"] = json!({ "carcass-width": 500, "carcass-inside-width": 470 });
    let (_, findings) = designed(&file);
    let clash = findings.iter().find(|f| f.code == "pin-clash").expect("a clash");
    assert!(
        clash.hint.contains("carcass-width") && clash.hint.contains("carcass-inside-width"),
        "{clash:#?}"
    );
}
