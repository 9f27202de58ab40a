//! Laying parts out on sheets and scraps, so that a saw can cut them.
//!
//! A [`Job`] (stock, parts, kerf, stages) goes in; a [`Search`] lays out what it can at once and then looks for better,
//! step by step; [`Search::best`] gives the [`Layout`] so far: a tree of cuts for each sheet, each from edge to edge.
//! Lengths are micrometres. x runs along a sheet's length, y along its width, from an untrimmed corner.
//!
//! The kerf is lost between any two pieces and nowhere else: a blade that takes the last of a strip may run off its far
//! edge, unless a smallest safe cut is asked for. A layout is *proved* when its price meets the [`Bound`] that no
//! layout can do better than; nothing is said then about its offcuts.
//!
//! ```
//! use jointwise::assembly::Grain;
//! use jointwise::cutting::{Becomes, CutPart, GrainRule, Job, Search, Stock, Trim};
//!
//! let sheet = Stock {
//!     id: "birch 18".to_owned(),
//!     material: "birch".to_owned(),
//!     length: 2_440_000,
//!     width: 1_220_000,
//!     count: None,
//!     price: 8_900,
//!     trim: Trim::all(5_000),
//!     grain: Grain::Length,
//!     scrap: false,
//! };
//! let side = CutPart {
//!     id: "side".to_owned(),
//!     material: "birch".to_owned(),
//!     length: 720_000,
//!     width: 560_000,
//!     count: 6,
//!     grain: GrainRule::Locked,
//!     hidden: false,
//!     value: 0,
//! };
//! let job = Job { stock: vec![sheet], parts: vec![side], kerf: 3_200, ..Job::default() };
//!
//! let mut search = Search::new(&job);
//! assert!(search.findings().is_empty());
//! search.step(100);
//! let layout = search.best();
//!
//! // Two strips of three: 3 * 720 + 2 * 3.2 of 2430 mm, 2 * 560 + 3.2 of 1210 mm.
//! assert_eq!((layout.score.sheets, layout.score.unplaced, layout.proved), (1, 0, true));
//! let leaves = layout.sheets[0].root.leaves();
//! let sides = leaves.iter().filter(|l| matches!(l.becomes, Becomes::Part { .. })).count();
//! assert_eq!(sides, 6);
//! ```
//!
//! How it works: `problem` makes numbers of one material; `tree` holds the cuts as the search changes them; `place` says
//! where a part goes best and fills a plan up; `greedy` makes the first plan, `improve` fewer sheets, `polish` a
//! bigger offcut and fewer settings; `bounds` says when it cannot be done with less; `material` puts these together;
//! `describe` turns a tree into a layout.

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
