//! The page's module.
