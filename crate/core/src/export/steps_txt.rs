//! `steps.txt`: the build on paper, for the day the tablet stays dark.

use crate::assembly::MAIN;
use crate::findings::Severity;
use crate::plan::{Action, CheckKind, HoldWith, Plan, Stage, Step};

use super::words::{self, COLUMNS};

/// Width of the words that head a line of a step.
const HEAD: usize = 11;

/// The reason that tells what can be done while glue cures.
const MEANWHILE: &str = "meanwhile";

/// What holds for any build and stands before the plan's own cautions: the usual words of any
/// shop, common practice, no source.
const USUAL: [&str; 3] = [
    "Protect eyes, ears and lungs. Follow the instructions of each tool's maker, and take the \
     battery or plug out before changing a bit or blade.",
    "No load is rated here. Fix the finished piece so that it cannot tip; where local codes or \
     the makers of fittings ask for more, they come first.",
    "Before drilling into a wall or floor, make sure that no pipe or wire runs there.",
];

/// The plan as numbered text in lines of at most 78 characters, ended by LF. Sizes are in the
/// plan's notation, pilots to its finest step. Faces are those of the finished, standing piece.
pub fn steps_txt(plan: &Plan) -> String {
    let mut out = words::title(&plan.title);
    out.push_str(&words::wrap("", &summary(plan), COLUMNS));
    out.push_str(&words::wrap(
        "",
        "Left, right, front, back, top and underside are those of the finished piece as it \
         stands, however it lies on the bench.",
        COLUMNS,
    ));
    cautions(&mut out, plan);
    out.push_str("\nSteps\n-----\n");
    write_steps(&mut out, plan);
    if let Some(install) = &plan.install {
        out.push_str("\nIn the room\n===========\n");
        cautions(&mut out, install);
        out.push_str("\nSteps\n-----\n");
        write_steps(&mut out, install);
    }
    out
}

fn write_steps(out: &mut String, plan: &Plan) {
    let mut before = None;
    for step in &plan.steps {
        out.push('\n');
        write_step(out, plan, step, before);
        before = Some(step);
    }
}

/// What is to come, in a sentence.
fn summary(plan: &Plan) -> String {
    let screws: usize = plan.steps.iter().map(|s| words::screws(plan, s).len()).sum();
    let minutes: u64 = plan.steps.iter().map(|s| u64::from(s.minutes)).sum();
    let people = plan.steps.iter().map(|s| s.people).max().unwrap_or(1);
    let two = plan.steps.iter().filter(|s| s.people > 1).count();
    let mut text = format!(
        "{}, {}, {}, about {} of work.",
        count(plan.parts.len(), "part"),
        count(screws, "screw"),
        count(plan.steps.len(), "step"),
        if minutes == 1 { "1 minute".to_owned() } else { format!("{minutes} minutes") },
    );
    if people > 1 {
        text.push_str(&format!(" {} asks for {people} people.", count(two, "step")));
    }
    text
}

/// `1 part`, `2 parts`.
fn count(n: usize, noun: &str) -> String {
    format!("{n} {noun}{}", if n == 1 { "" } else { "s" })
}

/// The plan's own cautions, what is left to put right, and the usual words.
fn cautions(out: &mut String, plan: &Plan) {
    out.push_str("\nTake care\n---------\n");
    for f in &plan.findings {
        let head = match f.severity {
            Severity::Stop => "Do not build this yet: ",
            Severity::Fix => "Put right first: ",
            Severity::Caution => "",
            Severity::Note => continue,
        };
        let at = f.step.map(|n| format!("Step {n}: ")).unwrap_or_default();
        let text = match &f.accepted {
            Some(reason) => format!("{at}{} Accepted: {reason}", f.message),
            None => format!("{head}{at}{} {}", f.message, f.hint),
        };
        out.push_str(&words::wrap("- ", &text, COLUMNS));
    }
    for text in USUAL {
        out.push_str(&words::wrap("- ", text, COLUMNS));
    }
}

/// One line of a step: what it is about, then the text beside it.
fn line(out: &mut String, head: &str, text: &str) {
    let first = format!("    {head:<HEAD$}");
    out.push_str(&words::wrap(&first, text, COLUMNS));
}

fn write_step(out: &mut String, plan: &Plan, step: &Step, before: Option<&Step>) {
    let number = format!("{}.", step.n);
    out.push_str(&words::wrap(&format!("{number:<4}"), &step.text, COLUMNS));
    let at_bench = step.stage == Stage::Bench;
    if at_bench && before.is_none_or(|b| b.bench_face != step.bench_face || b.body != step.body) {
        let named = plan.bodies.iter().any(|b| b.id == step.body);
        let what = if step.body == MAIN && !named { "piece" } else { plan.name_of(&step.body) };
        let lies = format!("the {what}, on its {}", words::face(step.bench_face));
        line(out, "On bench", &lies);
    }
    if let Some(way) = step.direction {
        line(out, "Goes in", words::way(way));
    }
    for group in words::screw_groups(plan, step) {
        let text = format!(
            "{}; pilot {}",
            words::screw_group(&group, plan.unit),
            plan.unit.finest().print(group.screw.pilot),
        );
        line(out, "Screws", &text);
    }
    for with in &step.drivers {
        line(out, "Driver", &words::driver(step, with));
    }
    for drawn in &step.lines {
        line(out, "Draw", format!("{} {}", drawn.text, drawn.tip).trim_end());
    }
    let glued = plan.joints.iter().filter(|j| j.glue && step.joints.contains(&j.id));
    for joint in glued {
        let [a, b] = [&joint.parts[0], &joint.parts[1]].map(|id| words::name(plan, id));
        line(out, "Glue", &format!("{a} to {b}"));
    }
    for hold in &step.hold {
        let own = || words::name(plan, &hold.what).to_string();
        let what = hold.name.clone().unwrap_or_else(own);
        let with = match hold.with {
            HoldWith::Bench => "lying on the bench",
            HoldWith::Clamp => "with a clamp",
            HoldWith::Spacer => "on the spacer",
            HoldWith::Hand => "with one hand",
            HoldWith::Helper => "by a second person",
        };
        let why = if hold.why.is_empty() { String::new() } else { format!(": {}", hold.why) };
        line(out, "Hold", &format!("{what}, {with}{why}"));
        if let Some(clamp) = &hold.clamp {
            line(out, "Clamp", &format!("{}, until the screws are in", words::clamp(plan, clamp)));
        }
    }
    for clamp in &step.clamps {
        line(out, "Clamp", &format!("{}, and leave it on", words::clamp(plan, clamp)));
    }
    if step.action == Action::Wait {
        let mut text = format!("{} minutes.", step.minutes);
        for reason in step.why.iter().filter(|r| r.rule == MEANWHILE) {
            text.push_str(&format!(" {}", reason.text));
        }
        line(out, "Wait", &text);
    }
    if let Some(spacer) = &step.spacer {
        let text = format!(
            "{}, sets {}. Then take it out towards the {}",
            words::spacer(plan, spacer),
            spacer.sets,
            words::face(spacer.out)
        );
        line(out, "Spacer", &text);
    }
    for check in &step.checks {
        line(out, "Check", &check_text(plan, check));
    }
    if step.people > 1 {
        line(out, "People", &step.people.to_string());
    }
    for reason in step.why.iter().filter(|r| r.rule != MEANWHILE) {
        line(out, "Why", &reason.text);
    }
    if let Some(instead) = &step.instead {
        let head = if instead.cost.is_some() { "Otherwise" } else { "Not now" };
        line(out, head, &instead.text);
    }
}

/// The sentence of a check with its wanted values.
fn check_text(plan: &Plan, check: &crate::plan::Check) -> String {
    let mut text = format!("[ ] {}", check.text);
    let wanted: Vec<_> = check.expected.iter().map(|&um| words::length(plan.unit, um)).collect();
    if check.kind == CheckKind::Flush {
        return text;
    }
    let alike = wanted.windows(2).all(|pair| matches!(pair, [a, b] if a == b));
    match (wanted.first(), alike) {
        (Some(one), true)
            if check.kind == CheckKind::Level || check.text.contains(one.as_str()) =>
        {
            // The sentence has the value already.
            text.truncate(text.trim_end_matches('.').len());
        }
        (Some(one), true) => {
            let each = if wanted.len() > 1 { "Each" } else { "Wanted" };
            text.push_str(&format!(" {each}: {one}"));
        }
        (Some(_), false) => text.push_str(&format!(" Wanted: {}", wanted.join(" and "))),
        (None, _) => return text,
    }
    if matches!(check.kind, CheckKind::DryFit) {
        return text;
    }
    let within = plan.unit.finest().print(crate::units::Length::um(check.tolerance));
    text.push_str(&format!(", to within {within}."));
    text
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::export::sample;

    #[test]
    fn no_line_is_wider_than_the_page() {
        let mut plan = sample::plan();
        plan.title = "A very long title ".repeat(12);
        plan.steps[1].text = "Ever so many words about the bottom. ".repeat(9);
        plan.steps[2].text = "W".repeat(300);
        for l in steps_txt(&plan).lines() {
            assert!(l.chars().count() <= COLUMNS, "{l}");
        }
    }

    #[test]
    fn every_step_stands_in_order_under_its_number() {
        let plan = sample::plan();
        let text = steps_txt(&plan);
        let mut rest = text.as_str();
        for step in &plan.steps {
            let head = format!("\n{:<4}{}", format!("{}.", step.n), step.text);
            let at = rest.find(&head).unwrap_or_else(|| panic!("{head}"));
            rest = &rest[at + head.len()..];
        }
    }

    #[test]
    fn screws_are_counted_by_kind_and_size() {
        let mut plan = sample::plan();
        let block = |plan: &Plan| {
            let text = steps_txt(plan);
            let from = text.find("\n7.  ").unwrap();
            let to = text.find("\n8.  ").unwrap();
            text[from..to].to_owned()
        };
        assert!(block(&plan).contains("5 pan-head screws, #6 × "), "{}", block(&plan));
        plan.joints[6].fasteners[1].gauge = 8;
        let text = block(&plan);
        assert!(text.contains("4 pan-head screws, #6 × "), "{text}");
        assert!(text.contains("1 pan-head screw, #8 × "), "{text}");
    }

    #[test]
    fn hold_spacer_check_people_and_reason_are_all_said() {
        let text = steps_txt(&sample::plan());
        for wanted in [
            "left side, with a clamp: it stands on an edge",
            "toe board, ",
            "sets the height of the",
            "[ ] Measure the width inside",
            "People     2",
            "Nothing stands in its way",
            "weighs 21 kg",
            "left side to bottom",
        ] {
            assert!(text.contains(wanted), "{wanted}\n{text}");
        }
    }

    #[test]
    fn clamps_drivers_lines_waits_and_the_rejected_way_are_all_said() {
        let text = steps_txt(&sample::clamped());
        let tidy = text.split_whitespace().collect::<Vec<_>>().join(" ");
        for wanted in [
            "Clamp left side to right side, opening 500 mm, until the screws are in",
            "Clamp left side to right side, opening 500 mm, and leave it on",
            "Driver offset driver, for 2 of the 4 screws",
            "Draw Screw line on the left side",
            "Wait 30 minutes. Meanwhile there is time for the tray.",
            "Otherwise The toe board instead: 3 minutes more.",
        ] {
            assert!(tidy.contains(wanted), "{wanted}\n{text}");
        }
        assert!(!tidy.contains("Why Screw line"), "{text}");
    }

    #[test]
    fn a_line_break_in_a_sentence_cannot_forge_a_step() {
        let mut plan = sample::plan();
        plan.steps[0].text = "Lay it.\n99. Saw it in two.".to_owned();
        let text = steps_txt(&plan);
        assert!(text.contains("1.  Lay it. 99. Saw it in two."));
        assert!(!text.lines().any(|l| l.starts_with("99.")));
    }
}
