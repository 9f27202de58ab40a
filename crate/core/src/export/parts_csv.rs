//! `parts.csv`: the part list for a spreadsheet, after RFC 4180.

use crate::assembly::{Grain, Kind};
use crate::plan::{Plan, mark};

use super::words;

/// The columns, in their order.
const HEADER: [&str; 14] = [
    "label",
    "id",
    "name",
    "body",
    "kind",
    "length",
    "width",
    "thickness",
    "length_mm",
    "width_mm",
    "thickness_mm",
    "material",
    "grain",
    "mass_g",
];

/// One row a part, in the plan's order, lines ended by CR LF. Sizes stand twice: as text in the
/// plan's notation, and as plain numbers of millimetres to 0.1 for sums. Thickness is printed to
/// the finest step of the notation, because it is measured.
pub fn parts_csv(plan: &Plan) -> String {
    let mut out = String::new();
    row(&mut out, HEADER.map(str::to_owned).as_slice());
    for (i, part) in plan.parts.iter().enumerate() {
        let kind = match part.kind {
            Kind::Panel => "panel",
            Kind::Hardware => "hardware",
        };
        let grain = match part.grain {
            Grain::Length => "length",
            Grain::Width => "width",
            Grain::None => "none",
        };
        let [length, width] = part.as_cut();
        let cells = [
            mark(i),
            text(&part.id),
            text(&part.name),
            text(&part.group),
            text(kind),
            text(&words::length(plan.unit, length)),
            text(&words::length(plan.unit, width)),
            text(&words::length(plan.unit.finest(), part.thickness)),
            tenths(length),
            tenths(width),
            tenths(part.thickness),
            text(&part.material_name),
            text(grain),
            part.mass_g.to_string(),
        ];
        row(&mut out, &cells);
    }
    out
}

/// A text cell that no spreadsheet takes for a formula: an apostrophe goes before a leading
/// `= + - @`, tab or carriage return, since a scenario may come from anywhere.
pub(super) fn text(cell: &str) -> String {
    if cell.starts_with(['=', '+', '-', '@', '\t', '\r']) {
        format!("'{cell}")
    } else {
        cell.to_owned()
    }
}

/// Micrometres as millimetres to 0.1, halves away from zero.
pub(super) fn tenths(um: i64) -> String {
    let sign = if um < 0 { "-" } else { "" };
    let tenths = (um.unsigned_abs() / 50).div_ceil(2);
    let sign = if tenths == 0 { "" } else { sign };
    format!("{sign}{}.{}", tenths / 10, tenths % 10)
}

/// Appends a record; cells with a comma, quote or line break are quoted, quotes doubled.
pub(super) fn row(out: &mut String, cells: &[String]) {
    for (i, cell) in cells.iter().enumerate() {
        if i > 0 {
            out.push(',');
        }
        if cell.contains([',', '"', '\r', '\n']) {
            out.push('"');
            out.push_str(&cell.replace('"', "\"\""));
            out.push('"');
        } else {
            out.push_str(cell);
        }
    }
    out.push_str("\r\n");
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::export::sample;
    use crate::units::Length;

    fn read(text: &str) -> (Vec<String>, Vec<Vec<String>>) {
        let mut reader = csv::Reader::from_reader(text.as_bytes());
        let header = reader.headers().unwrap().iter().map(str::to_owned).collect();
        let rows =
            reader.records().map(|r| r.unwrap().iter().map(str::to_owned).collect()).collect();
        (header, rows)
    }

    #[test]
    fn a_reader_of_the_standard_gets_every_part_back() {
        let plan = sample::plan();
        let (header, rows) = read(&parts_csv(&plan));
        assert_eq!(header, HEADER);
        assert_eq!(rows.len(), plan.parts.len());
        for (row, part) in rows.iter().zip(&plan.parts) {
            assert_eq!(row[1], part.id);
            assert_eq!(row[2], part.name);
            assert_eq!(row[3], part.group);
            assert_eq!(row[5], plan.unit.print(Length::um(part.as_cut()[0])));
            let mm: f64 = row[8].parse().unwrap();
            assert!((mm - part.as_cut()[0] as f64 / 1000.0).abs() <= 0.05, "{mm}");
            assert_eq!(row[11], part.material_name);
            assert_eq!(row[13].parse::<i64>().unwrap(), part.mass_g);
        }
    }

    #[test]
    fn hostile_names_stay_one_cell_and_no_formula() {
        let mut plan = sample::plan();
        let names = ["=1+1", "@SUM(A1)", "+x", "-x", "a,\"b\"\r\nc", "\tx", "plain"];
        for (part, name) in plan.parts.iter_mut().zip(names) {
            part.name = name.to_owned();
        }
        let (_, rows) = read(&parts_csv(&plan));
        let cells: Vec<_> = rows.iter().map(|r| r[2].as_str()).take(7).collect();
        let wanted = ["'=1+1", "'@SUM(A1)", "'+x", "'-x", "a,\"b\"\r\nc", "'\tx", "plain"];
        assert_eq!(cells, wanted[..cells.len()]);
        assert!(rows.iter().all(|r| r.len() == HEADER.len()));
    }

    #[test]
    fn every_line_ends_with_cr_lf() {
        let text = parts_csv(&sample::plan());
        assert_eq!(text.matches('\n').count(), text.matches("\r\n").count());
        assert!(text.ends_with("\r\n"));
    }

    #[test]
    fn tenths_round_half_away_from_zero_and_never_overflow() {
        for (um, wanted) in [
            (0, "0.0"),
            (49, "0.0"),
            (50, "0.1"),
            (149, "0.1"),
            (150, "0.2"),
            (19_050, "19.1"),
            (-49, "0.0"),
            (-50, "-0.1"),
            (i64::MIN, "-9223372036854775.8"),
        ] {
            assert_eq!(tenths(um), wanted, "{um}");
        }
    }

    #[test]
    fn labels_go_on_after_z() {
        let wanted = [(0, "A"), (25, "Z"), (26, "AA"), (27, "AB"), (701, "ZZ"), (702, "AAA")];
        for (i, l) in wanted {
            assert_eq!(mark(i), l);
        }
    }
}
