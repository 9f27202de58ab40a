//! What the picture shows, worked out from the plan without touching the graphics processor.
//!
//! [`Model`] holds the look of every part and screw; [`Station`] what a step has on the bench;
//! [`Moment`] where everything is at one instant of a step's motion.

mod apart;
mod bearers;
mod drawn;
mod home;
mod manner;
mod model;
mod moment;
mod section;
mod station;

pub use home::View;
pub use manner::{Glass, Manner};
pub use model::{Model, PartLook};
pub use moment::{Item, Measure, Moment, Role};
pub use section::Section;
pub use station::{Clamp, Motion, Station};
