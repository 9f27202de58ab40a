//! Runs the checks in order, each with its time, and stops at the first that fails.

use std::time::Instant;

use crate::Failure;
use crate::places::Places;
use crate::stages::{STAGES, Stage};

/// Runs every check, or those named by `--only`.
pub fn test(places: &Places, words: &[String]) -> Result<(), Failure> {
    if words == ["--list"] {
        for stage in &STAGES {
            println!("{:12} {}", stage.name, stage.what);
        }
        return Ok(());
    }
    let chosen = choose(words)?;
    let all = Instant::now();
    for stage in &chosen {
        println!("\n==> {}: {}", stage.name, stage.what);
        let start = Instant::now();
        (stage.run)(places).map_err(|failure| {
            format!("{failure}\n\n==> {} failed after {}", stage.name, seconds(start))
        })?;
        println!("==> {} passed in {}", stage.name, seconds(start));
    }
    let which = if chosen.len() == STAGES.len() { "all" } else { "the chosen" };
    println!("\n{which} checks passed in {}", seconds(all));
    if chosen.len() == STAGES.len() {
        println!("all checks passed");
    }
    Ok(())
}

fn seconds(start: Instant) -> String {
    format!("{:.1} s", start.elapsed().as_secs_f64())
}

/// The checks asked for, in their own order.
fn choose(words: &[String]) -> Result<Vec<&'static Stage>, Failure> {
    let mut names = Vec::new();
    let mut words = words.iter();
    while let Some(word) = words.next() {
        let name = match word.strip_prefix("--only=") {
            Some(name) => name,
            None if word == "--only" => words.next().ok_or("--only takes the name of a check")?,
            None => return Err(format!("test takes --only NAME or --list, not: {word}")),
        };
        if !STAGES.iter().any(|stage| stage.name == name) {
            let known: Vec<&str> = STAGES.iter().map(|stage| stage.name).collect();
            return Err(format!("no check is named {name}; there are: {}", known.join(", ")));
        }
        names.push(name);
    }
    Ok(STAGES.iter().filter(|stage| names.is_empty() || names.contains(&stage.name)).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn chosen(words: &[&str]) -> Result<Vec<&'static str>, Failure> {
        let words: Vec<String> = words.iter().map(|&word| word.to_owned()).collect();
        Ok(choose(&words)?.iter().map(|stage| stage.name).collect())
    }

    #[test]
    fn none_named_means_all() {
        assert_eq!(chosen(&[]).unwrap().len(), STAGES.len());
    }

    #[test]
    fn named_ones_run_in_their_own_order() {
        assert_eq!(chosen(&["--only", "doc", "--only=format"]).unwrap(), ["format", "doc"]);
    }

    #[test]
    fn an_unknown_name_lists_the_known() {
        assert!(chosen(&["--only", "docs"]).unwrap_err().contains("browser"));
        assert!(chosen(&["--only"]).is_err());
        assert!(chosen(&["doc"]).is_err());
    }
}
