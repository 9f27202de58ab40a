//! Prints every check of a scenario, and what is found: `cargo run --example numbers -- FILE`.

fn main() -> std::io::Result<()> {
    for file in std::env::args().skip(1) {
        let outcome = jointwise::build(&std::fs::read_to_string(&file)?);
        println!("{file}");
        for r in &outcome.checks {
            let passed = r.passed.map_or("    ", |p| if p { "ok  " } else { "FAIL" });
            let inputs: Vec<String> =
                r.inputs.iter().map(|i| format!("{} {}", i.name, i.value)).collect();
            println!(
                "{passed} {:?} {} [{} {:?}]: {} | {} | {} | limit {}",
                r.theme,
                r.rule,
                r.place,
                r.step,
                r.what,
                inputs.join("; "),
                r.result,
                r.limit
            );
        }
        for f in &outcome.findings {
            println!(
                "{:?} {} [{} {:?}]: {} {}",
                f.severity, f.code, f.place, f.step, f.message, f.hint
            );
        }
    }
    Ok(())
}
