//! Laying parts out on sheets.

mod bounds;
mod chance;
mod check;
mod describe;
mod greedy;
mod improve;
mod job;
mod layout;
mod place;
mod problem;
mod search;
mod stock;
mod tree;
mod worth;

pub use job::{Aim, CutPart, GrainRule, Job, Keep, Stages};
pub use layout::{
    Becomes, Bound, CutLine, CutNode, CutRect, CutSheet, Layout, Score, Unplaced, Why,
};
pub use search::Search;
pub use stock::{Stock, Trim};
