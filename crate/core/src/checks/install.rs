//! Install in the room: studs, and the length of each kind of screw.

use crate::assembly::Role;
use crate::assembly::lengths::{BITE, CABLE, HALF_STUD, SHORT, SHORT_IN_SIDE};
use crate::findings::{JobStage, Severity};
use crate::measure::rectangle;

use super::facts::Facts;
use super::row::{CheckRow, Said, Theme};

const INTO: &str = "1 in or more into the stud: common practice, no source; a cable may lie 1 1/4 in (32 mm) behind a stud's face without a steel plate: NEC 300.4 (read). Old wiring may lie nearer. Local codes and a licensed person come first";
const STUDS: &str = "two studs, one where the rail is short: common practice, no source";
const COUNTER: &str = "1/8 in short of the counter's face: common practice, no source";
const JOIN: &str = "1 1/8 in screws for two 3/4 in sides: common practice, no source";

pub fn check(f: &Facts, said: &mut Said) {
    nailer(f, said);
    counter(f, said);
    joining(f, said);
}

fn row(rule: &str, place: &str) -> CheckRow {
    CheckRow::new(rule, Theme::Install, JobStage::Install, place)
}

fn nailer(f: &Facts, said: &mut Said) {
    let Some(nailer) = f.with_role(Role::Nailer).next() else { return };
    let (decided, b) = (f.install(), &f.bounds[nailer]);
    // What lies between the nailer and the wall.
    let behind = f.with_role(Role::Back).filter(|&i| {
        let o = &f.bounds[i];
        o.min[1] >= b.max[1] && (0..3).all(|a| a == 1 || o.overlap(b, a) > 0)
    });
    let back = behind.map(|i| f.bounds[i].extent(1)).max().unwrap_or(0);
    let through = b.extent(1) + back + decided.wall_board.get();
    let row_into = row("wall-screw", "install.wall_screw")
        .says(
            "How far do the wall screws go into the studs?",
            "length − nailer − back − wall board",
            INTO,
        )
        .with("nailer", f.length(b.extent(1)))
        .with("back", f.length(back))
        .with("wall board", f.length(decided.wall_board.get()));
    let window = format!("{} to {}", f.length(BITE), f.length(CABLE));
    let buy = format!(
        "Use screws from {} to {} long.",
        f.length(through + BITE),
        f.length(through + CABLE)
    );
    match decided.wall_screw.map(|l| l.get()) {
        Some(length) => {
            let into = length - through;
            let short = into < BITE;
            let severity = if short { Severity::Fix } else { Severity::Caution };
            let row = row_into.with("length", f.length(length)).gives(f.length(into), window);
            said.judge(row, !short && into <= CABLE, severity, || {
                let message = if short {
                    format!(
                        "Wall screws of {} go only {} into a stud: they do not hold.",
                        f.length(length),
                        f.length(into.max(0))
                    )
                } else {
                    format!(
                        "Wall screws of {} go {} into a stud: a cable may lie {} behind its face.",
                        f.length(length),
                        f.length(into),
                        f.length(CABLE)
                    )
                };
                [message, format!("{buy} Find wires and pipes first, and cut the power.")]
            });
        }
        None => said.tell(row_into.gives(
            format!(
                "use screws from {} to {} long",
                f.length(through + BITE),
                f.length(through + CABLE)
            ),
            window,
        )),
    }
    if decided.studs.is_empty() {
        return;
    }
    // It stands in the middle of the rectangle that fits.
    let wide = f.around(f.standing()).map_or(0, |s| s.extent(0));
    let rest = f
        .cabinet()
        .and_then(|c| rectangle::sides(&c.space))
        .map_or(0, |[left, right]| left + (right - left - wide) / 2);
    let met = decided.studs.iter().filter(|s| {
        let at = s.get() - rest;
        at - HALF_STUD >= b.min[0] && at + HALF_STUD <= b.max[0]
    });
    let met = met.count();
    let wanted = if b.extent(0) < 600_000 { 1 } else { 2 };
    let row = row("studs", "install.studs")
        .says(
            "Does the nailer lie before studs?",
            "studs whose middle lies within the nailer",
            STUDS,
        )
        .with("nailer", f.length(b.extent(0)))
        .with(
            "studs from the left of the opening",
            decided.studs.iter().map(|s| f.length(s.get())).collect::<Vec<_>>().join(", "),
        )
        .gives(met.to_string(), format!("at least {wanted}"));
    let passed = met >= wanted || decided.rail;
    said.judge(row, passed, Severity::Fix, || {
        [
            format!("The nailer meets {met} of the studs: the wall board alone does not hold."),
            "Screw a rail across two studs first and the nailer to it, and say so: `install.rail` true.".to_owned(),
        ]
    });
}

fn counter(f: &Facts, said: &mut Said) {
    let (Some(stretcher), Some(thick)) = (f.with_role(Role::Stretcher).next(), f.install().counter)
    else {
        return;
    };
    let through = f.bounds[stretcher].extent(2);
    let most = through + thick.get() - SHORT;
    let row = row("counter-screw", "install.counter_screw")
        .says(
            "Do the screws into the counter stay inside?",
            "stretcher + counter − length",
            COUNTER,
        )
        .with("stretcher", f.length(through))
        .with("counter", f.length(thick.get()));
    match f.install().counter_screw.map(|l| l.get()) {
        Some(length) => {
            let left = through + thick.get() - length;
            let row = row
                .with("length", f.length(length))
                .gives(f.length(left), format!("at least {}", f.length(SHORT)));
            said.judge(row, left >= SHORT, Severity::Fix, || {
                [
                    format!("Screws of {} come through the counter, or nearly.", f.length(length)),
                    format!("Use {} at most.", f.length(most - 800)),
                ]
            });
        }
        None => said.tell(row.gives(format!("use {} at most", f.length(most)), "")),
    }
}

fn joining(f: &Facts, said: &mut Said) {
    let Some(length) = f.install().joining_screw.map(|l| l.get()) else { return };
    let Some(side) = f.with_role(Role::Side).next() else { return };
    let own = f.part(side).thickness;
    let theirs = f.install().neighbour_side.get();
    let most = own + theirs - SHORT_IN_SIDE;
    let row = row("joining-screw", "install.joining_screw")
        .says(
            "Do the screws between this and the next cabinet stay inside?",
            "both sides − length",
            JOIN,
        )
        .with("own side", f.length(own))
        .with("next side", f.length(theirs))
        .with("length", f.length(length))
        .gives(f.length(own + theirs - length), format!("at least {}", f.length(SHORT_IN_SIDE)));
    said.judge(row, length <= most, Severity::Fix, || {
        [
            format!("Joining screws of {} come out inside the next cabinet.", f.length(length)),
            format!("Use {} at most.", f.length(most - 800)),
        ]
    });
}
