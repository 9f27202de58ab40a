//! The checks against what is published, against independent ways to the same number, and each rule
//! tripped, just inside, and cleared by its own hint.

// A test may stop at the first thing that is not as it must be.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

#[path = "published_checks/lifting.rs"]
mod lifting;
#[path = "published_checks/limits.rs"]
mod limits;
#[path = "published_checks/limits_of_moving.rs"]
mod limits_of_moving;
#[path = "published_checks/limits_of_wood.rs"]
mod limits_of_wood;
#[path = "published_checks/oracles.rs"]
mod oracles;
#[path = "published_checks/plans.rs"]
mod plans;
#[path = "published_checks/rules.rs"]
mod rules;
#[path = "published_checks/sag.rs"]
mod sag;
#[path = "published_checks/screws.rs"]
mod screws;
#[path = "published_checks/square.rs"]
mod square;
#[path = "published_checks/tipping.rs"]
mod tipping;
