//! The layout search, compiled apart: it is the one stage that works for seconds, and tests and builds of garments
//! run it optimised while everything else keeps its quick build. Inside the project it is known as `crate::lay`.

#[path = "mod.rs"]
pub mod lay;

pub use lay::*;
