//! The tidy pass: a layout that a person can follow on a table, never longer than the search left it.
//!
//! Everything is pushed to the beginning of the cloth and to its low edge (`push`), copies are brought next to each
//! other where there is room (`group`), and edges that nearly lie on a line are laid on it (`align`).

mod align;
mod group;
mod pass;
mod push;

pub(crate) use pass::tidy;
