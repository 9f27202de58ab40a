//! `numbers.txt`: every check that was run, passed or not, with formula, inputs and source, so that
//! a maker or a teacher can follow it without the page.

use crate::checks::{CheckRow, Theme};

use super::words::{self, COLUMNS};

/// In the order in which a maker asks.
const THEMES: [(Theme, &str); 10] = [
    (Theme::Fit, "The opening"),
    (Theme::Panels, "Panels"),
    (Theme::Screws, "Screws"),
    (Theme::PullOut, "What slides out"),
    (Theme::Fronts, "Fronts and doors"),
    (Theme::TipOver, "Tipping over"),
    (Theme::Lifting, "Lifting"),
    (Theme::Install, "Fixing in the room"),
    (Theme::Materials, "Dust, vapours, glue"),
    (Theme::Tolerance, "How much may be off"),
];

/// The rows of an outcome as text in lines of at most 78 characters, ended by LF, by what they are
/// about. Sources are numbered under each heading. Values are printed as they stand in the rows, in
/// the plan's notation.
pub fn numbers_txt(title: &str, rows: &[CheckRow]) -> String {
    let mut out = words::title(title);
    let judged = rows.iter().filter(|r| r.passed.is_some()).count();
    let open = rows.iter().filter(|r| r.passed == Some(false)).count();
    for text in [
        "Checks of your own work: no ratings, and no claim that anything complies with a \
         standard. Local codes and a licensed person come first."
            .to_owned(),
        format!("{} numbers, {judged} with a limit, {open} of these marked LOOK HERE.", rows.len()),
        "Behind a source: read, it was seen there; quoted, it was seen where another quotes it; \
         from memory, look it up before you rely on it; worked out, it follows from the formula."
            .to_owned(),
    ] {
        out.push_str(&words::wrap("", &text, COLUMNS));
    }
    for (theme, heading) in THEMES {
        let rows: Vec<&CheckRow> = rows.iter().filter(|r| r.theme == theme).collect();
        if rows.is_empty() {
            continue;
        }
        out.push_str(&format!("\n{heading}\n{}\n", "-".repeat(heading.len())));
        let mut sources: Vec<&str> = Vec::new();
        for row in rows {
            let known = sources.iter().position(|s| *s == row.source);
            let source = known.unwrap_or_else(|| {
                sources.push(&row.source);
                sources.len() - 1
            });
            write_row(&mut out, row, source + 1);
        }
        out.push('\n');
        for (n, source) in sources.iter().enumerate() {
            out.push_str(&words::wrap(&format!("[{}] ", n + 1), source, COLUMNS));
        }
    }
    out
}

fn write_row(out: &mut String, row: &CheckRow, source: usize) {
    let step = row.step.map(|n| format!(" (step {n})")).unwrap_or_default();
    out.push('\n');
    out.push_str(&words::wrap("", &format!("{}{step}", row.what), COLUMNS));
    let limit =
        if row.limit.is_empty() { String::new() } else { format!("; allowed {}", row.limit) };
    let verdict = match row.passed {
        Some(true) => ": passes",
        Some(false) => ": LOOK HERE",
        None => "",
    };
    let inputs: Vec<String> =
        row.inputs.iter().map(|input| format!("{} {}", input.name, input.value)).collect();
    let lines = [
        format!("{}{limit}{verdict}", row.result),
        format!("{} [{source}]", row.formula),
        inputs.join("; "),
    ];
    for line in lines.iter().filter(|l| !l.is_empty()) {
        out.push_str(&words::wrap("  ", line, COLUMNS));
    }
}
