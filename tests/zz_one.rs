//! x
use jointwise_tests::chance;
#[test]
fn one() {
    let seed: u64 = std::env::var("SEED").unwrap().parse().unwrap();
    let parts: usize = std::env::var("PARTS").unwrap().parse().unwrap();
    let (a, w) = chance::assembly(seed, parts);
    for j in &a.joints {
        println!("{} {:?} glue {} screws {}", j.id, j.kind, j.glue, j.fasteners.len());
    }
    for p in &a.parts {
        println!(
            "{} {} {:?} {}g after {:?}",
            p.id,
            p.group,
            p.solid.boxes(),
            p.mass_g,
            p.set_against
        );
    }
    println!("clamps {:?} bearers {}", w.clamps, w.bearers);
    let plan = chance::plan::planned(&a, &w).unwrap();
    for s in &plan.steps {
        println!(
            "{} {} {:?} {} p{} | {} | hold {:?} | clamps {} | {:?} | {:?}",
            s.n,
            s.body,
            s.action,
            s.bench_face.code(),
            s.people,
            s.text,
            s.hold
                .iter()
                .map(|h| (h.what.clone(), h.with, h.clamp.as_ref().map(|c| c.opening)))
                .collect::<Vec<_>>(),
            s.clamps.len(),
            s.checks.iter().map(|c| c.text.clone()).collect::<Vec<_>>(),
            s.spacer.as_ref().map(|s| s.part.clone())
        );
    }
    println!("{:?}", plan.cost);
}
