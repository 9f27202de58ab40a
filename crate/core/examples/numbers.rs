//! Prints every check of a scenario, and what is found: `cargo run --example numbers -- FILE`.

fn main() -> std::io::Result<()> {
    for file in std::env::args().skip(1) {
        let outcome = jointwise::build(&std::fs::read_to_string(&file)?);
        println!("{}", jointwise::export::numbers_txt(&file, &outcome.checks));
        for f in &outcome.findings {
            println!(
                "{:?} {} [{} {:?}]: {} {}",
                f.severity, f.code, f.place, f.step, f.message, f.hint
            );
        }
    }
    Ok(())
}
