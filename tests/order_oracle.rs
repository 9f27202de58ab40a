//! scratch
use jointwise::order::plan_order;
use jointwise::units::Notation;
use jointwise_tests::{chance, order_oracle};

#[test]
fn compare() {
    let get = |k: &str, d: u64| std::env::var(k).ok().and_then(|v| v.parse().ok()).unwrap_or(d);
    let (from, to, parts) = (get("FROM", 0), get("TO", 20), get("PARTS", 4) as usize);
    let verbose = get("V", 0) > 0;
    let t = std::time::Instant::now();
    let (mut same, mut bad, mut infeasible, mut sets, mut wet, mut turns) = (0, 0, 0, 0, 0, 0);
    for seed in from..to {
        let (mut a, mut w) = chance::assembly(seed, parts);
        let nosets = std::env::var("NOSETS").is_ok();
        if nosets {
            for j in &mut a.joints {
                if j.glue {
                    j.glue = false;
                }
            }
            w.tools.clear();
            w.clamps.clear();
        }
        let t1 = std::time::Instant::now();
        let best = order_oracle::best(&a, &w);
        let mine = t1.elapsed();
        let t1 = std::time::Instant::now();
        let (order, said) =
            plan_order(&a, &w, &jointwise::order::wishes::Wishes::default(), Notation::MmTenth);
        let theirs = t1.elapsed();
        if std::env::var("T").is_ok() {
            println!("{seed}: oracle {mine:?} planner {theirs:?}");
        }
        if false
            && order.as_ref().is_some_and(|o| o.bodies.iter().any(|b| b.id.ends_with("-ready")))
        {
            continue;
        }
        let c = order.as_ref().map(|o| {
            [
                o.searched.helper_steps,
                o.searched.by_feel,
                o.searched.handlings,
                o.searched.holds,
                o.searched.measured,
                o.searched.tool_changes,
                o.searched.minutes,
                o.searched.scatter,
            ]
        });
        let b = best.as_ref().map(|b| b.spent.0);
        infeasible += u32::from(b.is_none());
        if let Some(b) = &best {
            sets += u32::from(b.built.iter().any(|x| x.is_set));
            wet += u32::from(b.built.iter().any(|x| x.moves.iter().any(|m| m.1.wet != 0)));
            turns += u32::from(
                b.built
                    .iter()
                    .any(|x| x.moves.iter().any(|m| m.0 == order_oracle::moves::Move::Turn)),
            );
        }
        let strip = |c: Option<[u32; 8]>| {
            c.map(|mut c| {
                if get("MIN", 0) == 0 {
                    c[6] = 0;
                    c[7] = 0;
                }
                c
            })
        };
        if strip(c) == strip(b) {
            same += 1;
        } else {
            bad += 1;
            println!("seed {seed}: planner {c:?} oracle {b:?}");
            if verbose {
                for (i, p) in a.parts.iter().enumerate() {
                    println!(
                        "  {i} {} {:?} {} {:?} {:?} {:?}",
                        p.id,
                        p.kind,
                        p.group,
                        p.mass_g,
                        p.set_against,
                        p.solid.boxes().iter().map(|b| (b.min, b.max)).collect::<Vec<_>>()
                    );
                }
                for j in &a.joints {
                    println!(
                        "  {:?} {:?} glue {} {:?}",
                        j.parts,
                        j.kind,
                        j.glue,
                        j.fasteners
                            .iter()
                            .map(|f| (
                                f.gauge,
                                f.kind.as_str(),
                                f.length.0,
                                f.entry,
                                f.direction.code()
                            ))
                            .collect::<Vec<_>>()
                    );
                }
                println!("  {w:?} stands on {}", a.stands_on.code());
                if let Some(b) = &best {
                    for x in &b.built {
                        println!("  oracle {:?} {}", x.items, x.is_set);
                        for m in &x.moves {
                            println!("     {m:?}");
                        }
                    }
                }
                for f in &said {
                    println!("  planner: {}", f.message);
                }
                if let Some(o) = &order {
                    for s in &o.steps {
                        println!(
                            "  {:?} {} {} {} hold {:?} joints {:?} min {} people {}",
                            s.action,
                            s.bench_face.code(),
                            s.body,
                            s.text,
                            s.hold.iter().map(|h| (&h.what, h.with)).collect::<Vec<_>>(),
                            s.joints,
                            s.minutes,
                            s.people
                        );
                    }
                }
            }
        }
    }
    println!(
        "parts {parts}: same {same} bad {bad}; infeasible {infeasible} sets {sets} wet {wet} turns {turns}; {:?}",
        t.elapsed()
    );
}
