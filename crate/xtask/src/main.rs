//! Builds, serves and tests the project.
fn main() {}
