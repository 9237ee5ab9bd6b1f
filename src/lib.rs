//! From one description of a costume garment to the pattern a maker sells.
//!
//! The stages stand in the order of the work, each a folder: [`source`] reads the garment folder,
//! [`shape`] holds it against the types of the file, [`check`] resolves names and formulas, [`size`]
//! works every size out with the techniques of [`reckon`] and the pieces of [`draft`], [`meet`] proves
//! that the seams go together, [`lay`] lays the pieces on the cloth, [`draw`] makes the figures, [`prose`]
//! the words, [`book`] brings all that into the view of an edition, [`set`] sets it in type, and
//! [`mod@write`] brings it to the disk. [`pipeline`] strings them together; [`cli`] is the command line;
//! [`teach`] helps a maker begin.
//!
//! [`cache`] keeps what was made, by what it was made from; [`compare`] says what changed between two editions;
//! [`watch`] shows a garment while it is being written.
//!
//! [`units`] and [`fault`] are what crosses every border: quantities with dimensions, and faults with
//! places.

pub mod book;
pub mod cache;
pub mod check;
pub mod cli;
pub mod compare;
pub mod draft;
pub mod draw;
pub mod export;
pub mod fault;
pub mod formula;
pub mod meet;
pub mod pipeline;
pub mod prose;
pub mod reckon;
pub mod set;
pub mod shape;
pub mod sheet;
pub mod size;
pub mod source;
pub mod teach;
pub mod units;
pub mod watch;
pub mod words;
pub mod write;

pub use furbelow_lay as lay;
