//! The page's second module: a session on the core, JSON in and JSON out. The page runs it in a worker,
//! and where there are no workers itself.

pub mod session;

#[cfg(target_arch = "wasm32")]
mod panic;
