//! What is cut already against the design: the rest follows what came out different, and each
//! thing that is cut is fine, to be trimmed, or to be made again.
//!
//! A size that was measured a little off is taken over by the size of the design that it hangs on, found
//! by trying: each size is moved by a millimetre once, to see which parts' sizes move with it.

mod compare;
mod pins;

use serde::{Deserialize, Serialize};

use crate::assembly::{Assembly, Part};
use crate::design::{self, Design};
use crate::findings::{Finding, Severity};
use crate::scenario::{MadePart, Scenario, Subject};
use crate::units::{Length, Notation};
use compare::Verdict;

/// Up to here a part came out different, and the rest follows it; beyond, the design was changed since, and
/// the part is judged against it (common practice, no source).
const FOLLOW: i64 = 3_000;

/// What becomes of a part that is cut.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct MadeRow {
    /// Id of the part.
    pub part: String,
    /// `fine`, `trim`, `remake`, or `spoiled` when the file says so.
    pub verdict: String,
    /// In words.
    pub text: String,
}

/// The scenario with what was measured taken over, the design that follows, and what is cut already.
#[derive(Debug)]
pub struct Followed {
    /// With the sizes that were taken over.
    pub scenario: Scenario,
    /// As [`design::design`] gives it.
    pub designed: Option<Design>,
    /// One for each part in `made.parts` that the piece has.
    pub rows: Vec<MadeRow>,
    /// Those of the design, then what came of the parts.
    pub findings: Vec<Finding>,
}

/// Designs a scenario, following what is cut already.
pub fn follow(s: &Scenario) -> Followed {
    let (planned, said) = design::design(s);
    let made = &s.made;
    let (Some(before), false) = (&planned, made.parts.is_empty() && made.sheets.is_empty()) else {
        return Followed {
            scenario: s.clone(),
            designed: planned,
            rows: Vec::new(),
            findings: said,
        };
    };
    let s = &as_built(s, before);
    let mut findings = Vec::new();
    let mut scenario = s.clone();
    sheets(&mut scenario, &mut findings);
    let cut = cut(s, &before.assembly, &scenario);
    let (designed, said) = if matches!(s.subject, Subject::Cabinet(_)) {
        take_over(&mut scenario, &cut, &mut findings)
    } else {
        design::design(&scenario)
    };
    findings.splice(0..0, said);
    let mut rows = Vec::new();
    if let Some(designed) = &designed {
        judge(&scenario, &cut, &designed.assembly, &mut rows, &mut findings);
    }
    Followed { scenario, designed, rows, findings }
}

/// What was measured on parts as cut, as the sizes they will have in the piece: with their banding on,
/// and without the air they have in grooves.
fn as_built(s: &Scenario, design: &Design) -> Scenario {
    let mut s = s.clone();
    for said in &mut s.made.parts {
        let Some(i) = design.assembly.index_of(&said.id) else { continue };
        let Some(making) = design.making.get(i).and_then(Option::as_ref) else { continue };
        let part = &design.assembly.parts[i];
        let ways = [(&mut said.length, part.length), (&mut said.width, part.width)];
        for ((measured, planned), cut) in ways.into_iter().zip(making.cut) {
            if let Some(measured) = measured {
                *measured = Length::um(measured.get() + planned.get() - cut);
            }
        }
    }
    s
}

/// A part that is cut: where it stands in the file, and as it is.
struct Cut<'a> {
    n: usize,
    said: &'a MadePart,
    /// As it was planned, with the sizes that were measured.
    part: Part,
}

/// Sheets as measured.
fn sheets(s: &mut Scenario, findings: &mut Vec<Finding>) {
    for (n, sheet) in s.made.sheets.iter().enumerate() {
        let Some(material) = s.shop.materials.iter_mut().find(|m| m.id == sheet.material) else {
            continue;
        };
        let (was, is) = (material.thickness, sheet.thickness);
        if was == is {
            continue;
        }
        let print = |l: Length| s.notation.finest().print(l);
        let listed = matches!(s.subject, Subject::Listed(_));
        let (severity, after, hint) = if listed {
            (
                Severity::Caution,
                "the parts of a listed piece stay as they are listed",
                "Change their sizes and places in the file.",
            )
        } else {
            (Severity::Note, "what is not cut yet follows", "Cut the rest to the new sizes.")
        };
        findings.push(
            Finding::new(
                severity,
                "sheet-measured",
                format!("made.sheets[{n}].thickness"),
                format!(
                    "{} is {} thick and not {}: {after}.",
                    material.name,
                    print(is),
                    print(was)
                ),
                hint,
            )
            .number("planned", print(was))
            .number("measured", print(is)),
        );
        if !listed {
            material.thickness = is;
        }
    }
}

/// The parts that are cut, as they are.
fn cut<'a>(s: &'a Scenario, planned: &Assembly, measured: &Scenario) -> Vec<Cut<'a>> {
    let parts = s.made.parts.iter().enumerate().filter(|(_, p)| !p.spoiled);
    parts
        .filter_map(|(n, said)| {
            let mut part = planned.parts.get(planned.index_of(&said.id)?)?.clone();
            let sheet = measured.shop.material(&part.material).map(|m| m.thickness);
            let was = s.shop.material(&part.material).map(|m| m.thickness);
            // Two sheets glued up are not one sheet's thickness: those stay as planned.
            let thickness = said.thickness.or(sheet.filter(|_| was == Some(part.thickness)));
            compare::resize(&mut part, [said.length, said.width, thickness]);
            Some(Cut { n, said, part })
        })
        .collect()
}

/// How good a design is for what is cut: parts to remake, parts to trim, what all are off in sum.
type Score = (usize, usize, i64);

fn score(cut: &[Cut], piece: &Assembly) -> Score {
    let mut score = (0, 0, 0);
    for c in cut {
        let Some(new) = piece.index_of(&c.part.id).map(|i| &piece.parts[i]) else {
            score.0 += 1;
            continue;
        };
        match compare::compare(&c.part, new) {
            Verdict::Fine => {}
            Verdict::Trim(_) => score.1 += 1,
            Verdict::Remake(_) => score.0 += 1,
        }
        score.2 += compare::sizes(new)
            .iter()
            .zip(compare::sizes(&c.part))
            .map(|(a, b)| (a - b).abs())
            .sum::<i64>();
    }
    score
}

/// Lets the design follow each size that came out a little different, where that is the better for
/// all that is cut. Gives the design that this leads to, as [`design::design`] does.
fn take_over(
    s: &mut Scenario,
    cut: &[Cut],
    findings: &mut Vec<Finding>,
) -> (Option<Design>, Vec<Finding>) {
    let (first, mut said) = design::design(s);
    let Some(mut now) = first else { return (None, said) };
    let rounded = half_step(s.notation);
    let mut moves = None;
    for c in cut {
        let measured = [c.said.length, c.said.width, c.said.thickness];
        for (way, measured) in measured.into_iter().enumerate() {
            let (Some(measured), Some(i)) = (measured, now.assembly.index_of(&c.said.id)) else {
                continue;
            };
            let planned = compare::sizes(&now.assembly.parts[i])[way];
            let off = measured.get() - planned;
            if off.abs() <= rounded || off.abs() > FOLLOW {
                continue;
            }
            let moves = moves.get_or_insert_with(|| pins::moves(s, &now));
            let best = pins::hanging(moves, &c.said.id, way)
                .filter_map(|(pin, sign)| {
                    let mut tried = s.clone();
                    pins::shift(&mut tried, &now, pin, sign * off)?;
                    let (design, said) = design::design(&tried);
                    let design = design?;
                    Some((score(cut, &design.assembly), pin, tried, design, said))
                })
                .min_by_key(|(score, pin, ..)| (*score, *pin));
            let Some((better, pin, tried, design, new)) = best else { continue };
            if better >= score(cut, &now.assembly) {
                continue;
            }
            findings.push(followed(s.notation, c, way, off, &pins::name(s, pin)));
            (*s, now, said) = (tried, design, new);
        }
    }
    (Some(now), said)
}

const WAYS: [&str; 3] = ["length", "width", "thickness"];

fn followed(notation: Notation, c: &Cut, way: usize, off: i64, what: &str) -> Finding {
    let print = |um: i64| notation.finest().print(Length(um));
    let (by, how) = (print(off.abs()), if off > 0 { "more" } else { "less" });
    Finding::new(
        Severity::Note,
        "as-built",
        format!("made.parts[{}].{}", c.n, WAYS[way]),
        format!("The {} came out {by} {how} in {} than planned: {what} follows it, and what is not cut yet with it.", c.part.name, WAYS[way]),
        "Cut the rest to the new sizes.",
    )
    .number("off by", by)
}

/// Half the finest step that a size is printed to: no more than rounding.
fn half_step(notation: Notation) -> i64 {
    let notation = notation.finest();
    notation.unit().micrometres() / notation.steps() / 2
}

/// A row for each part that is cut or spoiled, and a finding where something is to be done.
fn judge(
    s: &Scenario,
    cut: &[Cut],
    piece: &Assembly,
    rows: &mut Vec<MadeRow>,
    findings: &mut Vec<Finding>,
) {
    let print = |um: i64| s.notation.finest().print(Length(um));
    for (n, said) in s.made.parts.iter().enumerate() {
        let Some(new) = piece.index_of(&said.id).map(|i| &piece.parts[i]) else { continue };
        let mut row = |verdict: &str, text: String| {
            rows.push(MadeRow { part: said.id.clone(), verdict: verdict.to_owned(), text });
        };
        let Some(c) = cut.iter().find(|c| c.n == n) else {
            row("spoiled", "to be cut again".to_owned());
            continue;
        };
        let (code, what, hint) = match compare::compare(&c.part, new) {
            Verdict::Fine => {
                row("fine", "fine as it is".to_owned());
                continue;
            }
            Verdict::Trim(off) => {
                let said: Vec<String> = off
                    .iter()
                    .map(|o| match o {
                        compare::Off::Size(way, by) => {
                            format!("{} off its {}", print(*by), WAYS[*way])
                        }
                        compare::Off::Inside => "its grooves and notches cut anew".to_owned(),
                    })
                    .collect();
                let text = format!("trim: {}", said.join(", "));
                row("trim", text.clone());
                (
                    "trim-part",
                    text,
                    "Trim it before it goes in, from the end that has no groove or hole nearer to it.",
                )
            }
            Verdict::Remake(why) => {
                let text = match why {
                    compare::Short::Size(way, by) => {
                        format!("cut again: {} short in {}", print(by), WAYS[way])
                    }
                    compare::Short::Thickness(by) => {
                        format!("cut again: off by {} in thickness", print(by))
                    }
                    compare::Short::Inside => {
                        "cut again: a groove or notch is where there must be wood".to_owned()
                    }
                };
                row("remake", text.clone());
                (
                    "remake-part",
                    text,
                    "Cut it again to the new size; keep the old one as an offcut.",
                )
            }
        };
        let sizes = |p: &Part| compare::sizes(p).map(print).join(" × ");
        findings.push(
            Finding::new(
                Severity::Fix,
                code,
                format!("made.parts[{n}]"),
                format!("{}, {what}.", crate::order::words::capital(&new.name)),
                hint,
            )
            .number("as it is", sizes(&c.part))
            .number("as it must be", sizes(new))
            .source(&format!(
                "fine within {}: what a pencil line is wide (common practice, no source)",
                print(compare::FINE)
            )),
        );
    }
}
