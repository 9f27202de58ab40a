//! What to do when something measured at the bench is not what the plan says.

use serde::{Deserialize, Serialize};

use crate::findings::{Finding, Severity};
use crate::geometry::Point;
use crate::json;
use crate::order::checks::{FLUSH_TOLERANCE, distance, root};
use crate::order::square::{Lines, longer_side, shear};
use crate::plan::{Check, CheckKind, Plan, PlanPart};
use crate::units::{Length, Notation, parse_length};

/// What was measured, each value as the maker typed it.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub enum Measured {
    /// A check of a step: one value for each of its lines.
    Check {
        /// The step's number.
        step: u32,
        /// Which of its checks, from 0.
        at: usize,
        /// As typed.
        values: Vec<String>,
    },
    /// A part: length, width and thickness; empty where it was not measured.
    Part {
        /// Its id.
        id: String,
        /// As typed.
        values: Vec<String>,
    },
}

/// How it stands, the graver the later.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Verdict {
    /// Within the tolerance: go on.
    Good,
    /// It can be put right here.
    Mend,
    /// It cannot be pushed right: something is cut, measured or planned otherwise.
    Wrong,
    /// What was typed cannot be read: see the findings.
    Unread,
}

/// What to do.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Remedy {
    /// How it stands.
    pub verdict: Verdict,
    /// What to do, a sentence each, in order.
    pub text: Vec<String>,
    /// Of diagonals: by how much the long sides shift against each other, in micrometres.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub push: Option<i64>,
    /// What cannot be read: the place is `values[N]`.
    pub findings: Vec<Finding>,
}

impl Remedy {
    fn new(verdict: Verdict, text: Vec<String>) -> Remedy {
        Remedy { verdict, text, push: None, findings: Vec::new() }
    }

    fn unread(findings: Vec<Finding>) -> Remedy {
        Remedy { verdict: Verdict::Unread, text: Vec::new(), push: None, findings }
    }
}

/// A remedy for a question in JSON; one that cannot be understood is a finding.
pub fn remedy_json(plan: &Plan, question: &str) -> Remedy {
    match json::read_text(question) {
        Ok(measured) => remedy(plan, &measured),
        Err(error) => Remedy::unread(vec![Finding::new(
            Severity::Stop,
            "question",
            "file",
            format!("This is not a measurement: {error}."),
            "Give a check with its values, or a part with its sizes.",
        )]),
    }
}

/// What to do about what was measured.
pub fn remedy(plan: &Plan, measured: &Measured) -> Remedy {
    match measured {
        Measured::Check { step, at, values } => {
            let step = plan.steps.iter().find(|s| s.n == *step);
            match step.and_then(|s| s.checks.get(*at)).filter(|c| !c.between.is_empty()) {
                Some(check) => of_check(plan.unit, check, values),
                None => Remedy::unread(vec![missing("That step has no such measurement.")]),
            }
        }
        Measured::Part { id, values } => match plan.parts.iter().find(|p| p.id == *id) {
            Some(part) => of_part(plan.unit, part, values),
            None => Remedy::unread(vec![missing("The plan has no such part.")]),
        },
    }
}

fn missing(message: &str) -> Finding {
    Finding::new(
        Severity::Stop,
        "question",
        "file",
        message,
        "Load the page again and choose anew.",
    )
}

/// A typed length, or a finding that names its place.
fn read(values: &[String], i: usize, unit: Notation) -> Result<i64, Box<Finding>> {
    let text = values.get(i).map_or("", String::as_str);
    let wrong = |message: String| {
        Box::new(Finding::new(
            Severity::Stop,
            "length",
            format!("values[{i}]"),
            message,
            format!("Type it as the tape shows it, such as {}.", unit.print(Length::mm(600))),
        ))
    };
    match parse_length(text, unit.unit()) {
        Ok(Length(0)) => Err(wrong("Nothing measures zero.".to_owned())),
        Ok(length) => Ok(length.get()),
        Err(error) => Err(wrong(error.to_string())),
    }
}

fn of_check(unit: Notation, check: &Check, values: &[String]) -> Remedy {
    let mut found = Vec::new();
    let mut wrong = Vec::new();
    for i in 0..check.between.len() {
        match read(values, i, unit) {
            Ok(value) => found.push(value),
            Err(finding) => wrong.push(*finding),
        }
    }
    if !wrong.is_empty() {
        return Remedy::unread(wrong);
    }
    let lines: Result<Lines, _> = check.between.clone().try_into();
    match (check.kind, lines, found.as_slice()) {
        (CheckKind::Diagonals, Ok(lines), &[d1, d2]) => {
            of_diagonals(unit.finest(), check, &lines, d1, d2)
        }
        _ => of_widths(unit.finest(), check, &found),
    }
}

fn of_diagonals(unit: Notation, check: &Check, lines: &Lines, d1: i64, d2: i64) -> Remedy {
    let say = |um: i64| unit.print(Length(um));
    let names = lines.map(|line| across(line, lines));
    let expected = lines.map(|[p, q]| distance(p, q));
    for ((d, wanted), name) in [d1, d2].into_iter().zip(expected).zip(&names) {
        // A twentieth is more than any frame leans (common practice, no source); then the tape was
        // hooked elsewhere.
        if (d - wanted).abs() > wanted / 20 {
            return Remedy::new(
                Verdict::Wrong,
                vec![
                    format!("The diagonal from the {name} should be near {}.", say(wanted)),
                    "Measure it again, from corner to corner.".to_owned(),
                ],
            );
        }
    }
    let difference = d1 - d2;
    // What squeezing changes is only the lean: the squares' sum stays, by the parallelogram law.
    let squares = i128::from(d1) * i128::from(d1) + i128::from(d2) * i128::from(d2);
    let even = root(squares / 2);
    let planned = expected[0];
    let sides_off = (even - planned).abs() > 2 * check.tolerance;
    let size = |text: &mut Vec<String>| {
        if sides_off {
            let more = if even > planned { "longer" } else { "shorter" };
            text.push(format!(
                "Even then both are {more} than planned by {}: a side is not as planned. Measure the parts.",
                say((even - planned).abs())
            ));
        }
    };
    if difference.abs() <= check.tolerance {
        let mut text = vec![format!(
            "The diagonals agree within {}: it is square. Go on.",
            say(check.tolerance)
        )];
        size(&mut text);
        let verdict = if sides_off { Verdict::Wrong } else { Verdict::Good };
        return Remedy { push: Some(0), ..Remedy::new(verdict, text) };
    }
    let longer = if difference > 0 { &names[0] } else { &names[1] };
    let push = shear(d1, d2, longer_side(lines)).abs();
    let mut text = vec![
        format!(
            "The diagonal from the {longer} is longer by {}. Squeeze along it.",
            say(difference.abs())
        ),
        format!(
            "It is square when both read {}. The long sides shift against each other by {} until then.",
            say(even),
            say(push)
        ),
        "Hold it so until it is fastened, and measure again.".to_owned(),
    ];
    size(&mut text);
    Remedy { push: Some(push), ..Remedy::new(Verdict::Mend, text) }
}

/// The low and the high end of each axis, as a maker says them.
const ENDS: [[&str; 2]; 3] = [["left", "right"], ["front", "back"], ["bottom", "top"]];

/// `bottom left corner to the top right corner`.
fn across([p, q]: [Point; 2], [first, _]: &Lines) -> String {
    let corner = |at: Point| {
        // Upright first, as in `top left`; else `front left`.
        let words: Vec<&str> = [2, 1, 0]
            .into_iter()
            .filter(|&axis| first[0][axis] != first[1][axis])
            .map(|axis| ENDS[axis][usize::from(at[axis] > first[0][axis].min(first[1][axis]))])
            .collect();
        format!("{} corner", words.join(" "))
    };
    format!("{} to the {}", corner(p), corner(q))
}

/// Where a line lies among the others: `at the top`.
fn place(lines: &[[Point; 2]], i: usize) -> String {
    let middle = |line: &[Point; 2], axis: usize| line[0][axis] + line[1][axis];
    let spread = |axis: usize| {
        let all = || lines.iter().map(|line| middle(line, axis));
        (all().max().unwrap_or(0) - all().min().unwrap_or(0), all().min().unwrap_or(0))
    };
    let axis = (0..3).max_by_key(|&axis| (spread(axis).0, 3 - axis)).unwrap_or(0);
    let (most, low) = spread(axis);
    if most == 0 || lines.len() < 2 {
        return String::new();
    }
    let high = lines.get(i).is_some_and(|line| 2 * (middle(line, axis) - low) > most);
    format!(" at the {}", ENDS[axis][usize::from(high)])
}

fn of_widths(unit: Notation, check: &Check, found: &[i64]) -> Remedy {
    let say = |um: i64| unit.print(Length(um));
    let off: Vec<i64> = found.iter().zip(&check.expected).map(|(is, wanted)| is - wanted).collect();
    let mut text = Vec::new();
    for (i, by) in off.iter().enumerate().filter(|(_, by)| by.abs() > check.tolerance) {
        let wanted = say(check.expected.get(i).copied().unwrap_or(0));
        let at = place(&check.between, i);
        text.push(if *by > 0 {
            format!(
                "It is too wide{at} by {}. Press it together there until it reads {wanted}.",
                say(*by)
            )
        } else {
            format!(
                "It is too narrow{at} by {}. Spread it there until it reads {wanted}.",
                say(-by)
            )
        });
    }
    if text.is_empty() {
        let good = format!("That is right within {}. Go on.", say(check.tolerance));
        return Remedy::new(Verdict::Good, vec![good]);
    }
    let same = off.iter().all(|by| *by > check.tolerance);
    let less = off.iter().all(|by| *by < -check.tolerance);
    text.push(if same || less {
        "If it does not move, a part is not cut as planned, or something is between the faces: look, and measure the part."
            .to_owned()
    } else {
        "Hold it so until it is fastened, and measure again.".to_owned()
    });
    Remedy::new(Verdict::Mend, text)
}

fn of_part(unit: Notation, part: &PlanPart, values: &[String]) -> Remedy {
    let say = |um: i64| unit.finest().print(Length(um));
    let [long, wide] = part.as_cut();
    let sizes = [("length", long), ("width", wide), ("thickness", part.thickness)];
    let mut text = Vec::new();
    let mut wrong = Vec::new();
    let mut verdict = Verdict::Good;
    let mut any = false;
    for (i, (name, planned)) in sizes.into_iter().enumerate() {
        if values.get(i).is_none_or(|v| v.trim().is_empty()) {
            continue;
        }
        any = true;
        let is = match read(values, i, unit) {
            Ok(is) => is,
            Err(finding) => {
                wrong.push(*finding);
                continue;
            }
        };
        let by = is - planned;
        if by.abs() <= FLUSH_TOLERANCE {
            continue;
        }
        let more = say(by.abs());
        if name == "thickness" {
            verdict = Verdict::Wrong;
            let how = if by > 0 { "thicker" } else { "thinner" };
            text.push(format!("It is {how} than planned by {more}. Give the thickness you measured under Size and plan again: other parts depend on it."));
        } else if by > 0 {
            verdict = verdict.max(Verdict::Mend);
            text.push(format!("Its {name} is {more} too much: trim it to {}.", say(planned)));
        } else {
            verdict = Verdict::Wrong;
            text.push(format!("Its {name} is {more} too little: cut it again to {}. What is trimmed to fit it would change other parts.", say(planned)));
        }
    }
    if !wrong.is_empty() {
        return Remedy::unread(wrong);
    }
    if !any {
        return Remedy::unread(vec![Finding::new(
            Severity::Stop,
            "length",
            "values[0]",
            "Nothing is written here.",
            "Type at least one of the sizes that you measured.",
        )]);
    }
    if text.is_empty() {
        text.push(format!("The part is as planned, within {}. Go on.", say(FLUSH_TOLERANCE)));
    }
    Remedy::new(verdict, text)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::export::sample;

    fn ask(step: u32, values: &[&str]) -> Remedy {
        let values = values.iter().map(|v| (*v).to_owned()).collect();
        remedy(&sample::plan(), &Measured::Check { step, at: 0, values })
    }

    #[test]
    fn the_longer_diagonal_is_squeezed_by_what_the_formula_says() {
        // 500 × 720: leaning by 5 mm along the 720, by Pythagoras: √(500² + 725²), √(500² + 715²).
        let found = ask(7, &["880.7", "872.5"]);
        assert_eq!(found.verdict, Verdict::Mend);
        let push = found.push.unwrap();
        assert!((push - 5_000).abs() < 100, "{push}");
        assert!(found.text[0].contains("bottom left corner to the top right corner"), "{found:?}");
        let other = ask(7, &["872.5", "880.7"]);
        assert!(other.text[0].contains("bottom right corner to the top left"), "{other:?}");
        assert_eq!(other.push, found.push);
        // What both read when it is square again is the planned diagonal, for sides as planned.
        assert!(found.text[1].contains("876.6 mm"), "{found:?}");
    }

    #[test]
    fn equal_diagonals_are_square_and_wrong_sizes_are_told() {
        assert_eq!(ask(7, &["876.5", "876.9"]).verdict, Verdict::Good);
        let long = ask(7, &["886.5", "886.9"]);
        assert_eq!(long.verdict, Verdict::Wrong);
        assert!(long.text[1].contains("a side is not as planned"), "{long:?}");
        let slip = ask(7, &["976.5", "876.9"]);
        assert_eq!((slip.verdict, slip.push), (Verdict::Wrong, None));
    }

    #[test]
    fn widths_name_the_end_that_is_off() {
        let found = ask(3, &["464", "466"]);
        assert_eq!(found.verdict, Verdict::Mend);
        assert!(found.text[0].contains("too wide at the top by 2 mm"), "{found:?}");
        assert!(ask(3, &["462", "464"]).text[0].contains("too narrow at the bottom by 2 mm"));
        assert_eq!(ask(3, &["464.2", "464"]).verdict, Verdict::Good);
    }

    #[test]
    fn a_part_too_long_is_trimmed_and_one_too_short_is_cut_again() {
        let ask = |values: [&str; 3]| {
            let values = values.map(str::to_owned).to_vec();
            remedy(&sample::plan(), &Measured::Part { id: "bottom".to_owned(), values })
        };
        assert_eq!(ask(["561.5", "464", ""]).verdict, Verdict::Mend);
        assert_eq!(ask(["561.5", "460", ""]).verdict, Verdict::Wrong);
        assert_eq!(ask(["560", "464", "18"]).verdict, Verdict::Good);
        assert_eq!(ask(["", "", "17"]).verdict, Verdict::Wrong);
        assert_eq!(ask(["", "", ""]).verdict, Verdict::Unread);
    }

    #[test]
    fn what_cannot_be_read_names_its_place() {
        let found = ask(7, &["876", "wide"]);
        assert_eq!(found.verdict, Verdict::Unread);
        assert_eq!(found.findings[0].place, "values[1]");
        assert_eq!(ask(99, &[]).verdict, Verdict::Unread);
        assert_eq!(ask(7, &["100000", "1"]).verdict, Verdict::Wrong);
        for text in ["", "[]", "{}", r#"{"check":{"step":-1}}"#] {
            assert_eq!(remedy_json(&sample::plan(), text).verdict, Verdict::Unread);
        }
        let asked = r#"{"check":{"step":7,"at":0,"values":["876.6","876.6"]}}"#;
        assert_eq!(remedy_json(&sample::plan(), asked).verdict, Verdict::Good);
    }
}
