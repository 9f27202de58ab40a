//! The writers: each takes the finished plan, and nothing else, and gives the text of one file.
//!
//! They know nothing of how the plan came about: a plan read back from `plan.json` draws and
//! prints the same.

pub mod clamp;
mod labels;
mod marks;
mod outline;
mod painter;
mod parts_csv;
mod plan_json;
pub mod pose;
mod projection;
#[cfg(test)]
pub(crate) mod sample;
mod scene;
mod sheet;
mod step_svg;
mod steps_txt;
mod words;

pub use parts_csv::parts_csv;
pub use plan_json::plan_json;
pub use step_svg::step_svg;
pub use steps_txt::steps_txt;
