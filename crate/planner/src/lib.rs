//! The page's second module: a session on the core, JSON in and JSON out. The page runs it in a worker,
//! and where there are no workers itself.

pub mod session;

// What says that a module stops is the same for both.
#[cfg(target_arch = "wasm32")]
#[path = "../../picture/src/panic.rs"]
mod panic;
