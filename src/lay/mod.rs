//! Laying pieces on cloth: the shortest cutting layout a search can find, and the proof that it is one.
//!
//! Two levels:
//!
//! - [`cloth`] speaks of garments: pieces on the fold, mirrored pairs, grain, borders, repeats, foldings. It turns
//!   them into problems for the level below, and picks the folding that uses the least cloth.
//! - [`Problem`] and [`search`] speak of shapes with a few poses each on a strip of given width, to be laid on as
//!   little length as possible, each shape only where its [`Domain`] lets it lie.
//!
//! [`verify`](mod@verify) checks layouts independently; nothing should be shown that it has not passed.
//!
//! # How the search works
//! 1. Shapes are put on a grid of 1/4096 mm and told apart by their corners (`nfp`), so that equal shapes share
//!    everything and neither the order of pieces nor where an outline stands matters.
//! 2. For every pair of shapes that can meet, the no-fit polygon says which places of the one would overlap the
//!    other (`nfp`); it is cut into cells so that the depth of an overlap, or what is missing to a gap, is known
//!    after looking at an edge or two (`field`). Flips of both shapes, and the pair the other way round, are the same
//!    polygon (`table`).
//! 3. A bottom-left fill gives a first layout (`fill`).
//! 4. The strip is shortened and what then overlaps is separated again (`shrink`, `separate`, `relocate`): a guided
//!    local search after Gardeyn, Vanden Berghe and Wauters, "An open-source heuristic to reboot 2D nesting research",
//!    arXiv 2509.13329, written afresh from the ideas of that paper. One unit at a time moves to the best place among
//!    samples over the whole cloth and around it; samples are first carried to where the violations just vanish,
//!    which are corners of no-fit polygons, then the best is walked downhill. Pairs that keep overlapping weigh
//!    more and more. Explored boldly at first, then compressed in ever smaller steps.
//! 5. A tidy pass slides everything to the beginning of the cloth and to its low edge, brings copies together and lays
//!    edges in line (`tidy`).
//!
//! # The same on every machine
//! The budget is a number of evaluations, never seconds. Random numbers come from a digest of the canonical problem.
//! The loop uses only `+ - * /` and square roots, ties are broken by index, no hash map is walked. Starts
//! run side by side and the shortest wins, of equal ones the first. So the same pieces give the same layout for
//! any order of pieces and any number of threads.

mod board;
pub mod cloth;
mod edge;
mod field;
mod fill;
mod geom;
mod instance;
mod masks;
mod nfp;
mod pose;
mod problem;
mod relocate;
mod result;
mod rng;
mod search;
mod separate;
mod shrink;
mod table;
mod tidy;
pub mod verify;

pub use geom::{Bounds, Point, moved, signed_area};
pub use instance::{Instance, InstanceItem, InstanceShape};
pub use pose::Pose;
pub use problem::{Axis, Choice, Domain, Item, Problem, Unfit};
pub use result::{Layout, Placement};
pub use search::{Effort, search};

/// Goes up whenever the same problem and effort may give another layout than before: part of the key under which
/// layouts are kept from one run to the next.
pub const REVISION: u32 = 2;
