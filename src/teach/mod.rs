//! What helps a maker begin: a garment to start from, and the schema her editor explains the file with.

mod schema;
mod starter;

pub use schema::{SCHEMA_FILE, editor_schema};
pub use starter::{Starter, starter};
