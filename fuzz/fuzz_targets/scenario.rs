#![no_main]

use jointwise_tests::fuzzed;
use libfuzzer_sys::{fuzz_mutator, fuzz_target, fuzzer_mutate};

fuzz_target!(|bytes: &[u8]| fuzzed::scenario::run(bytes));

// Most changes are made to the tree, so that its text stays one.
fuzz_mutator!(|data: &mut [u8], size: usize, max_size: usize, seed: u32| {
    let changed = if seed.is_multiple_of(4) { None } else { fuzzed::changed(&data[..size], seed) };
    match changed {
        Some(text) if text.len() <= max_size => {
            data[..text.len()].copy_from_slice(text.as_bytes());
            text.len()
        }
        _ => fuzzer_mutate(data, size, max_size),
    }
});
