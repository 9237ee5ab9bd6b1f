//! The contact sheet: one figure of each kind, from small invented garments.

mod gown;
mod list;
mod page;

pub use list::contact_sheet;
pub use page::{Ask, sheet_page};
