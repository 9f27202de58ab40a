//! `jointwise compare-cuts`: lays out published instances and compares with the best known.
//!
//! The best-known values are the least of what several searches reached with cuts from edge to edge, some with a limit
//! on the stages and some without; so there is no limit here. The clock is read here alone: the search counts steps.

use std::collections::BTreeMap;
use std::fs;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use jointwise::assembly::Grain;
use jointwise::cutting::{Aim, CutPart, GrainRule, Job, Search, Stages, Stock, Trim};
use serde::Serialize;

use crate::build::{DONE, UNREADABLE};
use crate::report;

/// Micrometres a unit of the files stands for.
const UNIT: i64 = 1000;
/// The search is asked for the time only so often.
const STEPS: u32 = 8;

/// Whether parts may turn.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
enum Mode {
    Fixed,
    Rotate,
}

/// One instance laid out in one mode.
#[derive(Debug, Serialize)]
struct Row {
    /// As the tables of best-known values name it.
    instance: String,
    mode: Mode,
    sheets: u32,
    /// Least number of sheets, or least area where the sheets differ.
    bound: i64,
    /// Of the sheets used, in the files' units.
    area: i64,
    ms: u128,
    #[serde(skip)]
    best: Option<i64>,
    #[serde(skip)]
    by_area: bool,
    #[serde(skip)]
    unplaced: u32,
}

/// Lays out every instance below a folder; the exit code.
pub fn run(
    folder: &Path,
    budget: Duration,
    json: bool,
    out: &mut impl Write,
    err: &mut impl Write,
) -> u8 {
    match rows(folder, budget) {
        Ok(rows) => {
            let text = if json {
                serde_json::to_string_pretty(&rows).unwrap_or_default() + "\n"
            } else {
                table(&rows)
            };
            let _ = out.write_all(text.as_bytes());
            DONE
        }
        Err(message) => {
            let _ = writeln!(err, "error: {}", report::plain(&message));
            UNREADABLE
        }
    }
}

fn rows(folder: &Path, budget: Duration) -> Result<Vec<Row>, String> {
    let base = base(folder);
    let best = best_known(&base)?;
    let mut files = Vec::new();
    walk(folder, &mut files)?;
    let mut rows = Vec::new();
    for items in files {
        let text = items.to_string_lossy().into_owned();
        let Some(stem) = text.strip_suffix("_items.csv") else { continue };
        let name = Path::new(stem).strip_prefix(&base).unwrap_or(Path::new(stem));
        let name = name.to_string_lossy().replace('\\', "/");
        let bins = Table::read(Path::new(&format!("{stem}_bins.csv")))?;
        let items = Table::read(&items)?;
        for mode in [Mode::Fixed, Mode::Rotate] {
            let known = best.get(&(name.clone(), mode == Mode::Rotate)).copied();
            rows.push(lay_out(&name, &items, &bins, mode, known, budget)?);
        }
    }
    if rows.is_empty() {
        return Err(format!(
            "There is no file that ends in _items.csv below {}.",
            folder.display()
        ));
    }
    Ok(rows)
}

fn lay_out(
    name: &str,
    items: &Table,
    bins: &Table,
    mode: Mode,
    best: Option<i64>,
    budget: Duration,
) -> Result<Row, String> {
    let job = job(items, bins, mode)?;
    let by_area = job.stock.len() > 1;
    let start = Instant::now();
    let mut search = Search::new(&job);
    while start.elapsed() < budget && search.step(STEPS) {}
    let ms = start.elapsed().as_millis();
    let layout = search.best();
    let area = |s: usize| (job.stock[s].length / UNIT) * (job.stock[s].width / UNIT);
    Ok(Row {
        instance: name.to_owned(),
        mode,
        sheets: layout.score.sheets,
        bound: if by_area { layout.bound.price } else { layout.bound.sheets },
        area: layout.sheets.iter().map(|s| area(s.stock)).sum(),
        ms,
        best,
        by_area,
        unplaced: layout.score.unplaced,
    })
}

fn job(items: &Table, bins: &Table, mode: Mode) -> Result<Job, String> {
    let mut job = Job { stages: Stages::Unlimited, aim: Aim::CostAlone, ..Job::default() };
    let several = bins.rows.len() > 1;
    for row in &bins.rows {
        let (length, width) = (bins.number(row, "WIDTH")?, bins.number(row, "HEIGHT")?);
        let price = if several { length * width } else { 1 };
        let count = bins.optional(row, "COPIES")?.filter(|_| several);
        job.stock.push(Stock {
            id: format!("sheet {}", job.stock.len()),
            material: "sheet".to_owned(),
            length: length * UNIT,
            width: width * UNIT,
            count: count.and_then(|n| u32::try_from(n).ok()),
            price,
            trim: Trim::default(),
            grain: Grain::Length,
            scrap: false,
        });
    }
    for row in &items.rows {
        let count = items.optional(row, "COPIES")?.unwrap_or(1);
        job.parts.push(CutPart {
            id: format!("part {}", job.parts.len()),
            material: "sheet".to_owned(),
            length: items.number(row, "WIDTH")? * UNIT,
            width: items.number(row, "HEIGHT")? * UNIT,
            count: u32::try_from(count).map_err(|_| format!("{count} copies are too many."))?,
            grain: if mode == Mode::Fixed { GrainRule::Locked } else { GrainRule::Free },
            hidden: false,
            value: 0,
        });
    }
    Ok(job)
}

fn table(rows: &[Row]) -> String {
    let mut text = format!(
        "{:<36} {:<7} {:>8} {:>8} {:>8} {:>7} {:>6}\n",
        "instance", "mode", "sheets", "bound", "best", "gap %", "ms"
    );
    let (mut found, mut known, mut proved, mut of) = (0, 0, 0, 0);
    for row in rows {
        let value = if row.by_area { row.area } else { i64::from(row.sheets) };
        let gap = row.best.map_or(String::new(), |b| percent(value - b, b));
        let best = row.best.map_or(String::new(), |b| b.to_string());
        let note =
            if row.unplaced > 0 { format!(" {} unplaced", row.unplaced) } else { String::new() };
        text.push_str(&format!(
            "{:<36} {:<7} {value:>8} {:>8} {best:>8} {gap:>7} {:>6}{note}\n",
            report::plain(&row.instance),
            if row.mode == Mode::Fixed { "fixed" } else { "rotate" },
            row.bound,
            row.ms
        ));
        if !row.by_area && row.unplaced == 0 {
            if let Some(b) = row.best {
                found += value;
                known += b;
            }
            proved += u32::from(value == row.bound);
            of += 1;
        }
    }
    text.push_str(&format!(
        "sheets where one size: {found}, best known {known}, gap {} %; proved {proved} of {of}\n",
        percent(found - known, known)
    ));
    text
}

/// Hundredths of a percent, rounded to nearest.
fn percent(more: i64, of: i64) -> String {
    if of == 0 {
        return String::new();
    }
    let hundredths = (more * 20_000 + of).div_euclid(2 * of);
    let sign = if hundredths < 0 { "-" } else { "" };
    format!("{sign}{}.{:02}", hundredths.abs() / 100, hundredths.abs() % 100)
}

/// The folder that names in the tables start from: this or the one above it, whichever holds the tables.
fn base(folder: &Path) -> PathBuf {
    let holds = |dir: &Path| dir.join("best-known-sheets.csv").is_file();
    match folder.parent() {
        Some(above) if !holds(folder) && holds(above) => above.to_owned(),
        _ => folder.to_owned(),
    }
}

/// Best-known values by instance, and whether parts may turn.
fn best_known(base: &Path) -> Result<BTreeMap<(String, bool), i64>, String> {
    let mut best = BTreeMap::new();
    for (file, value) in [
        ("best-known-sheets.csv", "best_guillotine"),
        ("best-known-area.csv", "best_guillotine_area"),
    ] {
        let path = base.join(file);
        if !path.is_file() {
            continue;
        }
        let table = Table::read(&path)?;
        for row in &table.rows {
            let name = table.text(row, "instance").unwrap_or_default().to_owned();
            for (mode, turns) in [("fixed", false), ("rotate", true)] {
                if let Some(n) = table.optional(row, &format!("{value}_{mode}"))? {
                    best.insert((name.clone(), turns), n);
                }
            }
        }
    }
    Ok(best)
}

/// Comma-separated values with a line of names above them.
struct Table {
    path: PathBuf,
    names: Vec<String>,
    rows: Vec<Vec<String>>,
}

impl Table {
    fn read(path: &Path) -> Result<Table, String> {
        let text = fs::read_to_string(path).map_err(|e| format!("{}: {e}", path.display()))?;
        let cells = |line: &str| line.split(',').map(|c| c.trim().to_owned()).collect();
        let mut lines = text.lines().filter(|l| !l.trim().is_empty());
        let names = lines.next().map(cells).unwrap_or_default();
        Ok(Table { path: path.to_owned(), names, rows: lines.map(cells).collect() })
    }

    fn text<'a>(&self, row: &'a [String], name: &str) -> Option<&'a str> {
        let at = self.names.iter().position(|n| n == name)?;
        row.get(at).map(String::as_str).filter(|t| !t.is_empty())
    }

    fn optional(&self, row: &[String], name: &str) -> Result<Option<i64>, String> {
        self.text(row, name)
            .map(|t| {
                let value: Option<i64> = t.parse().ok().filter(|n| (0..=100_000_000).contains(n));
                value.ok_or_else(|| {
                    format!("{}: {name} is {t}, not a whole number.", self.path.display())
                })
            })
            .transpose()
    }

    fn number(&self, row: &[String], name: &str) -> Result<i64, String> {
        self.optional(row, name)?
            .ok_or_else(|| format!("{}: there is no {name}.", self.path.display()))
    }
}

fn walk(folder: &Path, found: &mut Vec<PathBuf>) -> Result<(), String> {
    let entries = fs::read_dir(folder).map_err(|e| format!("{}: {e}", folder.display()))?;
    let mut paths: Vec<PathBuf> = entries.flatten().map(|e| e.path()).collect();
    paths.sort();
    for path in paths {
        if path.is_dir() {
            walk(&path, found)?;
        } else {
            found.push(path);
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn gaps_are_rounded_to_hundredths_of_a_percent() {
        assert_eq!(percent(2, 466), "0.43");
        assert_eq!(percent(0, 466), "0.00");
        assert_eq!(percent(-1, 200), "-0.50");
        assert_eq!(percent(1, 0), "");
    }

    #[test]
    fn an_instance_is_laid_out_in_both_modes_and_compared() {
        let dir = std::env::temp_dir().join(format!("jointwise-cuts-{}", std::process::id()));
        let inner = dir.join("few");
        fs::create_dir_all(&inner).unwrap();
        let write = |path: PathBuf, text: &str| fs::write(path, text).unwrap();
        // Two of 6 by 4 on a sheet of 8 by 6: one each, two turned.
        write(inner.join("a_items.csv"), "ID,WIDTH,HEIGHT,COPIES\n0,6,4,2\n");
        write(inner.join("a_bins.csv"), "ID,WIDTH,HEIGHT\n0,8,6\n");
        write(
            dir.join("best-known-sheets.csv"),
            "instance,best_guillotine_fixed,best_guillotine_rotate\nfew/a,2,1\n",
        );
        for folder in [&dir, &inner] {
            let rows = rows(folder, Duration::from_millis(50)).unwrap();
            let seen: Vec<_> = rows
                .iter()
                .map(|r| (r.instance.as_str(), r.mode, r.sheets, r.bound, r.area, r.best))
                .collect();
            let wanted = [
                ("few/a", Mode::Fixed, 2, 2, 96, Some(2)),
                ("few/a", Mode::Rotate, 1, 1, 48, Some(1)),
            ];
            assert_eq!(seen, wanted);
            assert!(table(&rows).contains("gap 0.00 %; proved 2 of 2"), "{}", table(&rows));
            let json = serde_json::to_value(&rows).unwrap();
            let keys: Vec<_> = json[1].as_object().unwrap().keys().map(String::as_str).collect();
            assert_eq!(keys.len(), 6, "{keys:?}");
            assert_eq!((&json[1]["mode"], &json[1]["area"]), (&"rotate".into(), &48.into()));
        }
        write(inner.join("b_items.csv"), "ID,WIDTH,HEIGHT\n0,6,wide\n");
        assert!(rows(&dir, Duration::from_millis(1)).unwrap_err().contains("b_bins.csv"));
        write(inner.join("b_bins.csv"), "ID,WIDTH,HEIGHT\n0,8,6\n");
        assert!(rows(&dir, Duration::from_millis(1)).unwrap_err().contains("HEIGHT is wide"));
        fs::remove_dir_all(&dir).unwrap();
    }
}
