//! One search: fill, then shorten the strip and separate what then overlaps, again and again.
//!
//! After Gardeyn, Vanden Berghe and Wauters (arXiv 2509.13329): exploration, with disruptions between failures, then
//! compression in ever smaller steps, each a guided local search over single moves. Here the depth of an overlap
//! is exact, pieces move only where their domain lets them, and the budget is a number of evaluations.

use crate::lay::board::{Board, Spot};
use crate::lay::fill::fill;
use crate::lay::problem::{Axis, Unfit};
use crate::lay::rng::Rng;
use crate::lay::separate::Separator;
use crate::lay::table::{Table, Way};

/// Share of the budget for exploration.
const EXPLORE: f64 = 0.7;
/// First shortening in exploration, its floor, and what it is multiplied by after a success and a failure.
const SHORTEN: f64 = 0.01;
const SHORTEN_LEAST: f64 = 0.001;
const BOLDER: f64 = 1.1;
const HUMBLER: f64 = 0.6;
/// Shortening in compression, at its beginning and at its end.
const COMPRESS: (f64, f64) = (0.003, 0.0001);
/// Failed arrangements kept to begin again from.
const POOL: usize = 10;

/// A search in progress.
#[derive(Debug)]
pub(crate) struct Shrink<'a> {
    board: Board<'a>,
    rng: Rng,
    separator: Separator,
    budget: u64,
    best: (f64, Vec<Spot>),
    floor: f64,
}

impl<'a> Shrink<'a> {
    /// Begins with a bottom-left fill; later starts fill in another order.
    pub fn new(table: &'a Table, seed: u64, budget: u64, start: u32) -> Result<Self, Unfit> {
        let mut rng = Rng::new(seed);
        let mut order: Vec<usize> = (0..table.units.len()).collect();
        // Held along the length first, else they would find their place taken; then the large ones.
        let pinned = |w: &Way| matches!(w.domain.along, Axis::Pinned { .. });
        let held = |u: usize| table.kinds[table.units[u].kind].iter().all(pinned);
        let jitter: Vec<f64> = order.iter().map(|_| if start == 0 { 1.0 } else { rng.within(0.7, 1.3) }).collect();
        let size = |u: usize| table.areas[table.units[u].kind] * jitter[u];
        order.sort_by(|&a, &b| held(b).cmp(&held(a)).then(size(b).total_cmp(&size(a))).then(a.cmp(&b)));
        let (length, spots) = fill(table, &order, false).or_else(|_| fill(table, &order, true))?;
        let separator = Separator::new(1e-6 * table.width);
        let board = Board::new(table, length, spots.clone());
        let best = (length, spots);
        Ok(Self { board, rng, separator, budget, best, floor: floor(table) })
    }

    /// The shortest length found, where every unit lies on it, and the evaluations spent.
    pub fn run(mut self) -> (f64, Vec<Spot>, u64) {
        if self.budget > 0 && self.best.0 > self.floor {
            self.explore((self.budget as f64 * EXPLORE) as u64);
            self.compress();
        }
        (self.best.0, self.best.1, self.board.spent)
    }

    fn keep(&mut self) {
        self.best = (self.board.length, self.board.spots.clone());
    }

    fn target(&self, shorten: f64) -> f64 {
        (self.best.0 * (1.0 - shorten)).max(self.floor)
    }

    fn explore(&mut self, until: u64) {
        let mut shorten = SHORTEN;
        let mut pool: Vec<(f64, Vec<Spot>)> = Vec::new();
        self.cut_to(self.target(shorten));
        while self.board.spent < until {
            if self.separator.separate(&mut self.board, &mut self.rng, until) {
                self.keep();
                pool.clear();
                if self.best.0 <= self.floor {
                    return;
                }
                self.cut_to(self.target(shorten));
                shorten *= BOLDER;
                continue;
            }
            shorten = (shorten * HUMBLER).max(SHORTEN_LEAST);
            let total = self.board.total();
            let at = pool.partition_point(|p| p.0 <= total);
            pool.insert(at, (total, self.board.spots.clone()));
            pool.truncate(POOL);
            let target = self.target(shorten);
            if self.rng.unit() < 0.5 {
                // Again from the best layout, half the time with a disruption.
                self.restore();
                if self.rng.unit() < 0.5 {
                    self.disrupt();
                }
                self.cut_to(target);
            } else {
                // On from a failed arrangement, the less overlap the likelier, disrupted.
                let u = self.rng.unit();
                let pick = ((u * u * pool.len() as f64) as usize).min(pool.len() - 1);
                self.lie(target, pool[pick].1.clone());
                self.disrupt();
            }
        }
    }

    fn compress(&mut self) {
        let begin = self.board.spent;
        while self.board.spent < self.budget && self.best.0 > self.floor {
            let done = (self.board.spent - begin) as f64 / (self.budget - begin).max(1) as f64;
            let shorten = COMPRESS.0 + (COMPRESS.1 - COMPRESS.0) * done;
            self.restore();
            self.cut_to(self.target(shorten));
            if self.separator.separate(&mut self.board, &mut self.rng, self.budget) {
                self.keep();
            }
        }
    }

    fn restore(&mut self) {
        let (length, spots) = self.best.clone();
        self.board.set_length(length, &spots);
    }

    /// Shortens the strip: what stands right of a random place is pushed left.
    fn cut_to(&mut self, target: f64) {
        let by = self.board.length - target;
        let place = self.rng.within(0.0, target);
        let mut spots = self.board.spots.clone();
        for (unit, spot) in spots.iter_mut().enumerate() {
            let way = self.board.way(unit, spot.way);
            if spot.at[0] + self.board.table.shapes[way.shape].size[0] / 2.0 > place {
                spot.at[0] -= by;
            }
        }
        self.lie(target, spots);
    }

    /// Spots brought onto a strip of this length; a pose that does not fit it is changed for one that does.
    fn lie(&mut self, length: f64, mut spots: Vec<Spot>) {
        let table = self.board.table;
        for (unit, spot) in spots.iter_mut().enumerate() {
            let ways = &table.kinds[table.units[unit].kind];
            let along = |w: usize| ways[w].domain.along.range(table.shapes[ways[w].shape].size[0], length);
            let fits = std::iter::once(spot.way).chain(0..ways.len()).find_map(|w| along(w).map(|range| (w, range)));
            if let Some((way, range)) = fits {
                *spot = Spot { way, at: Board::project(&ways[way], spot.at, range) };
            }
        }
        self.board.set_length(length, &spots);
    }

    /// Swaps the places of two large units that differ, so that the search leaves its corner.
    fn disrupt(&mut self) {
        let table = self.board.table;
        let n = self.board.units();
        let large = n.div_ceil(3).max(2).min(n);
        let centre = |board: &Board, u: usize| {
            let spot = board.spots[u];
            let size = table.shapes[board.way(u, spot.way).shape].size;
            [spot.at[0] + size[0] / 2.0, spot.at[1] + size[1] / 2.0]
        };
        for _ in 0..20 {
            let (a, b) = (self.rng.below(large), self.rng.below(large));
            if table.units[a].kind == table.units[b].kind {
                continue;
            }
            let swapped = [(a, centre(&self.board, b)), (b, centre(&self.board, a))];
            for (unit, centre) in swapped {
                let index = self.board.spots[unit].way;
                let way = self.board.way(unit, index);
                let size = table.shapes[way.shape].size;
                if let Some(along) = self.board.along(way) {
                    let corner = [centre[0] - size[0] / 2.0, centre[1] - size[1] / 2.0];
                    self.board.place(unit, Spot { way: index, at: Board::project(way, corner, along) });
                }
            }
            return;
        }
    }
}

/// The shortest the strip can be for every unit to fit by itself, mm.
fn floor(table: &Table) -> f64 {
    let least = |way: &Way| {
        let size = table.shapes[way.shape].size[0];
        match way.domain.along {
            Axis::Span { before, after } => before + size + after,
            Axis::Pinned { at } => at + size,
            Axis::Lattice { first, after, .. } => first + size + after,
        }
    };
    let each = table.kinds.iter().map(|ways| ways.iter().map(least).fold(f64::INFINITY, f64::min));
    let area: f64 = table.units.iter().map(|u| table.areas[u.kind]).sum();
    each.fold(area / table.width, f64::max)
}
