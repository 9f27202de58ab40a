//! `index.html`: the page of many builds, each with its picture, its figures and what was found. Nothing in it runs,
//! and nothing is fetched but what lies beside it.

use std::fmt::Write as _;

use super::sheet::escape;
use super::words;
use crate::findings::{Finding, Severity};
use crate::plan::Plan;

/// One build as the page lists it.
#[derive(Debug, Clone)]
pub struct IndexRow {
    /// The folder that holds its files, beside the page.
    pub folder: String,
    /// What its plan says; none where nothing came of it.
    pub planned: Option<IndexFigures>,
    /// What was found, the gravest first.
    pub findings: Vec<Finding>,
}

/// The figures of a plan.
#[derive(Debug, Clone)]
pub struct IndexFigures {
    title: String,
    size: String,
    parts: usize,
    steps: usize,
    minutes: u32,
    cut: bool,
}

impl IndexFigures {
    /// Of a plan, in its own units.
    pub fn of(plan: &Plan) -> IndexFigures {
        let boxes = plan.parts.iter().flat_map(|p| &p.boxes).copied();
        let whole = boxes.reduce(|a, b| a.union(&b));
        let extent = |axis: usize| words::length(plan.unit, whole.map_or(0, |b| b.extent(axis)));
        IndexFigures {
            title: words::tidy(&plan.title),
            size: [0, 1, 2].map(extent).join(" × "),
            parts: plan.parts.len(),
            steps: plan.steps.len(),
            minutes: plan.cost.minutes,
            cut: plan.cutting.is_some(),
        }
    }
}

/// The name of the page's style sheet.
pub const INDEX_STYLE_NAME: &str = "index.css";

/// The style sheet, which lies beside the page: its policy allows none within.
pub const INDEX_STYLE: &str = "\
:root{color-scheme:light dark}
body{font:1.05rem/1.45 system-ui,sans-serif;margin:0 auto;padding:1.5rem;max-width:80rem}
ul.builds{list-style:none;margin:0;padding:0;display:grid;gap:1.5rem;\
grid-template-columns:repeat(auto-fill,minmax(min(20rem,100%),1fr))}
ul.builds>li{border:1px solid #857d6c;padding:1rem;overflow-wrap:anywhere}
li.failed{border-width:4px}
img{width:100%;aspect-ratio:11/8;object-fit:contain;background:#fff}
h2{font-size:1.15rem;margin:.6rem 0}
dl{display:grid;grid-template-columns:auto 1fr;gap:.1rem .8rem;margin:0}
dd{margin:0}
p.files a{display:inline-block;padding:.7rem .8rem .7rem 0}
";

const HEAD: &str = "<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n\
<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; img-src 'self'; style-src 'self'; \
base-uri 'none'; form-action 'none'\">\n\
<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n\
<title>Builds</title>\n<link rel=\"stylesheet\" href=\"index.css\">\n</head>\n<body>\n<main>\n";

/// The page, its rows in the order given.
pub fn index_html(rows: &[IndexRow]) -> String {
    let mut out = HEAD.to_owned();
    let planned = rows.iter().filter(|r| r.planned.is_some()).count();
    // Writing to a String cannot fail; the results are let go.
    let _ = writeln!(
        out,
        "<h1>{}</h1>\n<p>{planned} planned, {} not.</p>\n<ul class=\"builds\">",
        count(rows.len(), "build"),
        rows.len() - planned
    );
    for row in rows {
        match &row.planned {
            Some(figures) => build(&mut out, &row.folder, figures, &row.findings),
            None => failed(&mut out, row),
        }
    }
    out.push_str("</ul>\n</main>\n</body>\n</html>\n");
    out
}

fn build(out: &mut String, folder: &str, figures: &IndexFigures, findings: &[Finding]) {
    let at = href(folder);
    let title = escape(&figures.title);
    let _ = writeln!(
        out,
        "<li>\n<img src=\"{at}/finished.svg\" alt=\"The finished piece\" loading=\"lazy\">\n<h2>{title}</h2>\n<dl>\n\
         <dt>Size</dt><dd>{}</dd>\n<dt>Parts</dt><dd>{}</dd>\n<dt>Steps</dt><dd>{}</dd>\n\
         <dt>Work</dt><dd>about {} min</dd>\n<dt>Findings</dt><dd>{}</dd>\n</dl>",
        escape(&figures.size),
        figures.parts,
        figures.steps,
        figures.minutes,
        tally(findings),
    );
    let mut files = vec![
        ("steps.txt", "Steps"),
        ("parts.csv", "Cut list"),
        ("numbers.txt", "Numbers"),
        ("plan.json", "Plan"),
    ];
    if figures.cut {
        files.push(("cutting/labels.html", "Labels"));
    }
    out.push_str("<p class=\"files\">");
    for (file, name) in files {
        // Of many links of one name, each says which build it is of.
        let _ = write!(out, "<a href=\"{at}/{file}\" aria-label=\"{name}: {title}\">{name}</a> ");
    }
    out.push_str("</p>\n");
    remarks(out, findings);
    out.push_str("</li>\n");
}

fn failed(out: &mut String, row: &IndexRow) {
    let _ = writeln!(
        out,
        "<li class=\"failed\">\n<h2>{}</h2>\n<p>Not planned: {}.</p>",
        escape(&words::tidy(&row.folder)),
        tally(&row.findings)
    );
    remarks(out, &row.findings);
    out.push_str("</li>\n");
}

/// What must be put right, in words; the rest is in the build's own files.
fn remarks(out: &mut String, findings: &[Finding]) {
    let grave =
        |f: &&Finding| matches!(f.severity, Severity::Stop | Severity::Fix) && f.accepted.is_none();
    let mut grave = findings.iter().filter(grave).peekable();
    if grave.peek().is_none() {
        return;
    }
    out.push_str("<ul>\n");
    for f in grave {
        let said = |text: &str| escape(&words::tidy(text));
        let _ = writeln!(
            out,
            "<li><code>{}</code>: {} {}</li>",
            said(&f.place),
            said(&f.message),
            said(&f.hint)
        );
    }
    out.push_str("</ul>\n");
}

/// `1 stop, 2 notes`.
fn tally(findings: &[Finding]) -> String {
    let kinds = [
        (Severity::Stop, "stop"),
        (Severity::Fix, "fix"),
        (Severity::Caution, "caution"),
        (Severity::Note, "note"),
    ];
    let said: Vec<String> = kinds
        .iter()
        .map(|(kind, word)| (findings.iter().filter(|f| f.severity == *kind).count(), word))
        .filter(|(n, _)| *n > 0)
        .map(|(n, word)| if *word == "fix" { format!("{n} to fix") } else { count(n, word) })
        .collect();
    if said.is_empty() { "none".to_owned() } else { said.join(", ") }
}

/// `1 note`, `2 notes`.
fn count(n: usize, noun: &str) -> String {
    format!("{n} {noun}{}", if n == 1 { "" } else { "s" })
}

/// A folder's name as a segment of a relative address (RFC 3986, 2.3 and 3.3).
fn href(folder: &str) -> String {
    let mut out = String::new();
    for byte in folder.bytes() {
        if byte.is_ascii_alphanumeric() || b"-._~".contains(&byte) {
            out.push(char::from(byte));
        } else {
            let _ = write!(out, "%{byte:02X}");
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::export::sample;

    fn row(folder: &str, planned: bool) -> IndexRow {
        let mut plan = sample::plan();
        plan.title = "A <b> & \"c\"".to_owned();
        let finding = Finding::new(Severity::Fix, "x", "title", "It is <i>so</i>.", "Do so.");
        IndexRow {
            folder: folder.to_owned(),
            planned: planned.then(|| IndexFigures::of(&plan)),
            findings: vec![finding],
        }
    }

    /// The page as a reader of XML sees it; it has no void elements but these.
    fn read(page: &str) -> String {
        let body = page.split_once("<body>").unwrap().1.replace("loading=\"lazy\">", "/>");
        format!("<body>{}", body.replace("</html>", ""))
    }

    #[test]
    fn builds_are_linked_beside_the_page_and_names_are_text() {
        let page = index_html(&[row("a b#?\"<ä", true), row("<script>", false)]);
        let body = read(&page);
        let doc = roxmltree::Document::parse(&body).unwrap();
        let links: Vec<&str> = doc.descendants().filter_map(|n| n.attribute("href")).collect();
        assert_eq!(links[0], "a%20b%23%3F%22%3C%C3%A4/steps.txt");
        for file in ["parts.csv", "numbers.txt", "plan.json"] {
            assert!(links.iter().any(|l| l.ends_with(file)), "{file}: {links:?}");
        }
        assert!(links.iter().all(|l| !l.starts_with('/') && !l.contains(':')), "{links:?}");
        let elements = doc.descendants().map(|n| n.tag_name().name());
        assert_eq!(elements.filter(|n| ["script", "b", "i"].contains(n)).count(), 0);
        let text: String = doc.descendants().filter_map(|n| n.text()).collect();
        for wanted in [
            "A <b> & \"c\"",
            "It is <i>so</i>.",
            "<script>",
            "2 builds",
            "1 planned, 1 not",
            "1 to fix",
        ] {
            assert!(text.contains(wanted), "{wanted}: {text}");
        }
    }

    #[test]
    fn the_size_is_that_of_all_parts_together() {
        let mut plan = sample::plan();
        let um = |min, max| crate::geometry::Box3::new(min, max);
        plan.parts.truncate(2);
        plan.parts[0].boxes = vec![um([0, 0, 0], [18_000, 560_000, 720_000])];
        plan.parts[1].boxes = vec![um([582_000, -20_000, 0], [600_000, 560_000, 700_000])];
        let wanted = [600_000, 580_000, 720_000].map(|n| words::length(plan.unit, n)).join(" × ");
        assert_eq!(IndexFigures::of(&plan).size, wanted);
    }
}
