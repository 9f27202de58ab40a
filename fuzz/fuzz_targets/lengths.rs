#![no_main]

use jointwise_tests::fuzzed;
use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| fuzzed::lengths::run(bytes));
