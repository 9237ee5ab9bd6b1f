//! The contact sheet: one figure of each kind, from small invented garments.

mod gown;
mod list;

pub use list::contact_sheet;
