//! Prose: what a maker writes once, rendered for every size and merged into one text.
//!
//! A template is plain paragraphs with numbers by name: `Draw it up to {{ skirt.drawn | sixteenths }}.`
//! It is rendered once for each size of the edition. Values print themselves in both unit systems and
//! leave a mark where they stand, so the renderings can be laid over each other: numbers that differ
//! stand in the sentence with their sizes, or, where there are more than three, in a size strip under
//! the paragraph; wording that differs is split by size.
//!
//! # What a template may hold
//! - `{{ name }}`, with filters: `{{ skirt.flat | half | eighths }}`; the filters are in [`FILTERS`].
//! - `{% if skirt.pleats > 300 %} ... {% elif hip < "100 cm" %} ... {% else %} ... {% endif %}`, with
//!   `and`, `or`, `not`, brackets, and `size in ["6", "8"]`. Nothing else: no loops, no includes, no
//!   arithmetic (that is what `numbers` in the garment file are for).
//! - `{# a remark #}`.
//! - `**strong**`, `*emphasis*`, lists (`- ` and `1. `), a blank line between paragraphs, `> ` before a
//!   note on what to do when it goes wrong.
//! - References: `[step: hem_first]`, `[figure: grid]`, `[piece: skirt_panel]`, `[section: swatch]`,
//!   `[page: swatch]`, `[term: selvedge]`; other words than the usual ones follow a bar:
//!   `[term: selvedge | selvedges]`.
//! - A backslash before a sign of punctuation takes its meaning away: `\*`, `\[`.
//!
//! Everything else is taken as it stands. Nothing of it is evaluated later: the result is data
//! ([`Block`]s of [`Run`]s).

mod block;
mod condition;
mod markup;
mod merge;
mod number;
mod refs;
mod render;
mod scan;
mod sizes;
mod tags;
mod token;
mod typography;

pub use crate::words::ProseWords as Words;
pub use block::{Block, Cell, RefTarget, Run, StripRow};
pub use number::{FILTERS, Filter, Numbers, PrintedNumber, Shown, Takes};
pub use refs::Refs;
pub use render::{Rendered, Setting, render};
pub use scan::{Template, names_used};
pub use sizes::size_words;
