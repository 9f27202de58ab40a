//! Every scenario, spoilt by seeded chance: bytes flipped, fields and entries moved, taken out and
//! doubled, numbers without end. Whatever comes of it, it is told and nothing stops the program.

#![allow(clippy::unwrap_used, reason = "a test's own files: it fails where they are missing")]

use jointwise::findings::has_stop;
use jointwise::outcome::draft;
use jointwise_tests::dice::Dice;
use jointwise_tests::fuzzed::is_planned_or_told;
use jointwise_tests::scenarios::scenarios;
use jointwise_tests::spoil::spoilt;

/// Cases that are only read and sized, and cases that are planned to the end.
const DRAFTS: u64 = 3_000;
const PLANS: u64 = 150;

/// The largest takes as long to plan as all others together; it is drafted only.
const LONGEST: &str = "workbench";

#[test]
fn spoilt_files_are_sized_or_told() {
    let all = scenarios();
    let (mut sized, mut refused) = (0, 0);
    for seed in 0..DRAFTS {
        let mut dice = Dice::new(seed);
        let (name, text) = dice.pick(&all).unwrap();
        let case = format!("seed {seed}, {name}");
        let found = draft(&spoilt(&text, &mut dice));
        match found.parts.is_empty() {
            false => sized += 1,
            true => {
                refused += 1;
                assert!(has_stop(&found.findings), "{case}: neither parts nor stop");
            }
        }
    }
    // The mutator must do both: spoil, and leave enough whole to get past the reader.
    assert!(sized >= 300 && refused >= 1_000, "{sized} sized, {refused} refused");
}

#[test]
fn spoilt_files_are_planned_or_told() {
    let all: Vec<_> = scenarios().into_iter().filter(|(name, _)| name != LONGEST).collect();
    let (mut planned, mut seed) = (0, 1 << 20);
    while planned < PLANS {
        let mut dice = Dice::new(seed);
        let (name, text) = dice.pick(&all).unwrap();
        let text = spoilt(&text, &mut dice);
        seed += 1;
        // What the reader refuses is the other test's; here the search is what is tried.
        if !has_stop(&draft(&text).findings) {
            planned += 1;
            is_planned_or_told(&jointwise::build(&text), &format!("seed {}, {name}", seed - 1));
        }
    }
}
