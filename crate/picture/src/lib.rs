//! The page's first module: a view of the plan in 3D.
//!
//! The only crate that knows of graphics. It is apart from the planner's module, so that a page that
//! has a plan shows its first step after a seventh of the whole is there. The view is in three layers:
//! [`scene`] works out what a step shows, [`camera`] from where, and on the page a painter puts it on
//! the canvas. The first two are plain values and run anywhere, so their tests do too.

pub mod camera;
pub mod cutaway;
pub mod edges;
pub mod labels;
pub mod pick;
pub mod pose;
pub mod scene;
pub mod screw;
pub mod shapes;
pub mod sight;
pub mod theme;

#[cfg(target_arch = "wasm32")]
mod paint;
#[cfg(target_arch = "wasm32")]
mod panic;
#[cfg(target_arch = "wasm32")]
mod view;
