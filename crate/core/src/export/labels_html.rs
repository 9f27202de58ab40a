//! `labels.html`: a label for every part, to be printed and stuck on.

use std::fmt::Write as _;

use super::sheet::escape;
use super::words;
use crate::assembly::{Grain, Kind};
use crate::plan::{Plan, mark};

/// Three columns of labels; nothing in it is fetched from anywhere.
const HEAD: &str = "<!doctype html>\n<html lang=\"en\">\n<meta charset=\"utf-8\">\n<title>Labels</title>\n<style>\n\
body{font:11pt sans-serif;margin:8mm;color:#000;background:#fff}\n\
ul{list-style:none;margin:0;padding:0;display:grid;grid-template-columns:repeat(3,1fr);gap:3mm}\n\
li{border:0.3mm solid #000;padding:2.5mm;min-height:30mm;break-inside:avoid;overflow-wrap:anywhere}\n\
b{font-size:26pt;float:right;line-height:1;margin-left:2mm}\nstrong{font-size:13pt}\nsmall{display:block}\n</style>\n";

/// A whole page, self-contained.
pub fn labels_html(plan: &Plan) -> String {
    let mut out = HEAD.to_owned();
    let _ = writeln!(out, "<h1>{}</h1>\n<ul>", escape(&plan.title));
    let sheets = plan.cutting.as_ref().map(|c| c.sheets.as_slice()).unwrap_or_default();
    for (index, part) in plan.parts.iter().enumerate().filter(|(_, p)| p.kind == Kind::Panel) {
        let on = sheets.iter().find(|s| s.parts.iter().any(|p| p.part == part.id));
        let sheet = on.map(|s| format!(", sheet {}", s.n)).unwrap_or_default();
        let grain = match part.grain {
            Grain::Length => "grain along",
            Grain::Width => "grain across",
            Grain::None => "no grain",
        };
        let [long, across] = part.as_cut();
        let length = |um: i64| escape(&words::length(plan.unit, um));
        let thick = escape(&words::length(plan.unit.finest(), part.thickness));
        let _ = writeln!(
            out,
            "<li><b>{}</b><strong>{}</strong><small>{} × {} × {thick}</small><small>{}{sheet}</small>\
             <small>{grain}, {}</small></li>",
            mark(index),
            escape(&part.name),
            length(long),
            length(across),
            escape(&part.material_name),
            escape(plan.name_of(&part.group)),
        );
    }
    out.push_str("</ul>\n</html>\n");
    out
}
