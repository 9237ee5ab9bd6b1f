//! How much to search, and the search from several starts.

use crate::lay::board::Spot;
use crate::lay::problem::{Problem, Unfit};
use crate::lay::result::Layout;
use crate::lay::shrink::Shrink;
use crate::lay::table::Table;
use crate::lay::tidy::tidy;
use rayon::prelude::{IntoParallelIterator, ParallelIterator};
use serde::{Deserialize, Serialize};

/// How much to search. Never a time: the same effort gives the same layout on any machine.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Effort {
    /// Places evaluated, over all starts. 0 gives the bottom-left fill.
    pub evaluations: u64,
    /// Independent searches; the shortest layout wins. They run in parallel where there are threads.
    pub starts: u32,
    /// Mixed into the seed, which otherwise comes from the problem alone.
    pub seed: u64,
}

impl Effort {
    /// A bottom-left fill only: for a first look, in milliseconds.
    pub const DRAFT: Self = Self { evaluations: 0, starts: 1, seed: 0 };
    /// A fraction of a second of processor time.
    pub const QUICK: Self = Self { evaluations: 2_000_000, starts: 2, seed: 0 };
    /// For what is published: a second or two of processor time for each folding of a garment.
    pub const THOROUGH: Self = Self { evaluations: 8_000_000, starts: 2, seed: 0 };
    /// For the last few millimetres: ten seconds and more.
    pub const EXHAUSTIVE: Self = Self { evaluations: 60_000_000, starts: 3, seed: 0 };
}

/// What one start found: length, spots, evaluations.
type Found = Result<(f64, Vec<Spot>, u64), Unfit>;

/// Lays the items on as short a strip as the effort allows.
///
/// The layout depends on what the items are and on the effort; not on the order of the items, nor on the number
/// of threads.
///
/// # Errors
/// [`Unfit`] when the problem makes no sense, an item fits in no pose, or items held in place collide.
pub fn search(problem: &Problem, effort: &Effort) -> Result<Layout, Unfit> {
    let table = Table::new(problem)?;
    let starts = effort.starts.max(1);
    let each = effort.evaluations / u64::from(starts);
    let mut found: Vec<Found> = (0..starts)
        .into_par_iter()
        .map(|start| {
            let seed = table.digest ^ effort.seed.wrapping_mul(0xd6e8_feb8_6659_fd93) ^ (u64::from(start) << 56);
            Shrink::new(&table, seed, each, start).map(Shrink::run)
        })
        .collect();
    let mut best: Option<(f64, usize)> = None;
    for (start, result) in found.iter().enumerate() {
        if let Ok((length, ..)) = result
            && best.is_none_or(|b| *length < b.0)
        {
            best = Some((*length, start));
        }
    }
    let spent = found.iter().flatten().map(|f| f.2).sum();
    let (length, spots, _) = found.swap_remove(best.map_or(0, |b| b.1))?;
    let (length, spots) = tidy(&table, length, spots);
    Ok(Layout::new(problem, &table, length, &spots, spent))
}
