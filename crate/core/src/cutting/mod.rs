//! Laying parts out on sheets.

mod bounds;
mod chance;
mod check;
mod describe;
mod greedy;
mod improve;
mod job;
mod layout;
mod material;
mod measure;
mod place;
mod polish;
mod problem;
mod ruin;
mod search;
mod stock;
mod tree;
mod worth;

pub use check::{MOST_KERF, MOST_PIECES, MOST_PRICE, MOST_SIDE};
pub use job::{Aim, CutPart, GrainRule, Job, Keep, Stages};
pub use layout::{
    Becomes, Bound, CutLine, CutNode, CutRect, CutSheet, Layout, Score, Unplaced, Why,
};
pub use search::Search;
pub use stock::{Stock, Trim};
