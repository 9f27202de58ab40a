//! Judges of sheet layouts that share no code with the search.

pub mod checker;
pub mod jobs;
pub mod oracle;
pub mod sawn;
