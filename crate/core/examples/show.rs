//! Prints the steps of a scenario file: `cargo run -p jointwise --example show scenarios/X.json`.
fn main() {
    let path = std::env::args().nth(1).unwrap_or_default();
    let text = std::fs::read_to_string(path).unwrap_or_default();
    let outcome = jointwise::build(&text);
    for f in &outcome.findings {
        println!("{:?} {} at {}: {} {}", f.severity, f.code, f.place, f.message, f.hint);
    }
    let Some(plan) = outcome.plan else { return };
    for s in &plan.steps {
        println!("{:2} [{}] {:?} {} | {}", s.n, s.body, s.action, s.bench_face.code(), s.text);
        for h in &s.hold {
            println!("      hold {} with {:?}: {}", h.what, h.with, h.why);
        }
        if let Some(x) = &s.spacer {
            println!("      spacer {} sets {} out {}", x.part, x.sets, x.out.code());
        }
        for c in &s.checks {
            println!("      check {}", c.text);
        }
    }
    println!("{:?}\n{:?}", plan.cost, plan.proof);
    let Some(cutting) = plan.cutting else { return };
    println!("{}", cutting.claim);
    for s in &cutting.steps {
        println!("{:2} {:?} {}", s.n, s.tool, s.text);
        for c in &s.cautions {
            println!("      caution {c}");
        }
    }
    for i in &cutting.shopping {
        println!("{}: {} {} + {}, {} to buy ({})", i.name, i.need, i.unit, i.spare, i.buy, i.id);
    }
}
