//! Prints what is wrong with the plans named.
fn main() {
    for name in std::env::args().skip(1) {
        let text = std::fs::read_to_string(&name).unwrap_or_default();
        for v in jointwise_tests::verifier::verify(&text) {
            println!("{name}: {v}");
        }
    }
}
