//! Documents: from numbers, words and drawings to a PDF a buyer can sew from.
//!
//! The caller fills a [`view::Book`], which is plain data; [`compile`] sets one kind of document
//! ([`DocKind`]) from it on one paper and returns its bytes with the [`Lint`]s found on the
//! finished pages. [`preview`] renders one page as a picture.
//!
//! The templates under `templates/` are typst files embedded in the program. They read the view as
//! virtual JSON files (`/data/*.json`, one a chapter and figure) and nothing else: no disk, no
//! network, no clock. A text from the view is only ever a string to them, so nothing in it can act
//! as markup. Everything here is a plain function over shared constants and may be called from
//! several threads at once.

mod accent;
mod check;
mod diagnose;
mod digest;
mod fonts;
mod kind;
mod lint;
mod notice;
mod paper;
mod press;
pub mod view;
mod world;

pub use accent::{Accent, Colour, contrast};
pub use kind::DocKind;
pub use lint::{Lint, LintKind};
pub use paper::{Paper, Print, Setting};
pub use press::{Job, SetDocument, Typeset, compile, forget, preview, typeset};
