//! A layout being worked on: where every unit lies, which pairs violate their gap, and how much each such
//! violation counts.

use crate::lay::geom::Point;
use crate::lay::table::{Table, Way};

/// Where a unit lies, and how.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Spot {
    pub way: usize,
    pub at: Point,
}

/// A unit as the inner loop wants it.
#[derive(Debug, Clone, Copy)]
struct Seat {
    at: Point,
    far: Point,
    shape: usize,
    clearance: f64,
}

/// Positions, violations and weights.
#[derive(Debug, Clone)]
pub(crate) struct Board<'a> {
    pub table: &'a Table,
    pub length: f64,
    pub spots: Vec<Spot>,
    /// Evaluations made so far.
    pub spent: u64,
    seats: Vec<Seat>,
    masks: Masks,
    /// How much a violation of a pair counts; symmetric, n x n.
    weights: Vec<f64>,
    /// What the weights begin with and never fall below: the root of the smaller area over the mean area, so
    /// that large units sort themselves out first.
    base: Vec<f64>,
    /// Depth of every pair, mm; symmetric, n x n.
    depths: Vec<f64>,
}

impl<'a> Board<'a> {
    pub fn new(table: &'a Table, length: f64, spots: Vec<Spot>) -> Self {
        let n = table.units.len();
        let mut board = Self {
            table,
            length,
            spots,
            spent: 0,
            seats: Vec::with_capacity(n),
            masks: Masks::new(n, length, table.width),
            weights: Vec::new(),
            base: base_weights(table),
            depths: vec![0.0; n * n],
        };
        board.reset_weights();
        board.reseat();
        board
    }

    pub fn units(&self) -> usize {
        self.spots.len()
    }

    pub fn way(&self, unit: usize, way: usize) -> &'a Way {
        &self.table.kinds[self.table.units[unit].kind][way]
    }

    /// The range of x for a way on the present length; nothing if it does not fit along it.
    pub fn along(&self, way: &Way) -> Option<(f64, f64)> {
        way.domain.along.range(self.table.shapes[way.shape].size[0], self.length)
    }

    /// The allowed position nearest to `at`.
    pub fn project(way: &Way, at: Point, along: (f64, f64)) -> Point {
        [way.domain.along.project(at[0], along), way.domain.across.project(at[1], way.across)]
    }

    /// All spots replaced.
    pub fn set_spots(&mut self, spots: &[Spot]) {
        self.spots.clear();
        self.spots.extend_from_slice(spots);
        self.reseat();
    }

    /// Another length; every spot must lie on it (the caller projects first).
    pub fn set_length(&mut self, length: f64, spots: &[Spot]) {
        self.length = length;
        self.masks = Masks::new(self.units(), length, self.table.width);
        self.set_spots(spots);
    }

    pub fn reset_weights(&mut self) {
        self.weights.clone_from(&self.base);
    }

    fn seat(&self, unit: usize, spot: Spot) -> Seat {
        let way = self.way(unit, spot.way);
        let shape = &self.table.shapes[way.shape];
        Seat {
            at: spot.at,
            far: [spot.at[0] + shape.size[0], spot.at[1] + shape.size[1]],
            shape: way.shape,
            clearance: shape.clearance,
        }
    }

    fn reseat(&mut self) {
        let n = self.units();
        self.seats = (0..n).map(|u| self.seat(u, self.spots[u])).collect();
        self.masks.clear();
        for u in 0..n {
            let seat = self.seats[u];
            self.masks.set(u, seat.at, seat.far, seat.clearance);
        }
        for u in 0..n {
            self.measure(u);
        }
    }

    fn measure(&mut self, unit: usize) {
        let n = self.units();
        for other in 0..n {
            self.depths[unit * n + other] = 0.0;
            self.depths[other * n + unit] = 0.0;
        }
        let seat = self.seats[unit];
        let mut found = Vec::new();
        self.each_neighbour(unit, &seat, |other, t| {
            found.push((other, self.table.depth(self.seats[other].shape, seat.shape, t)));
            true
        });
        for (other, depth) in found {
            self.depths[unit * n + other] = depth;
            self.depths[other * n + unit] = depth;
        }
    }

    /// Put a unit somewhere else.
    pub fn place(&mut self, unit: usize, spot: Spot) {
        let old = self.seats[unit];
        self.masks.unset(unit, old.at, old.far, old.clearance);
        let seat = self.seat(unit, spot);
        self.masks.set(unit, seat.at, seat.far, seat.clearance);
        self.seats[unit] = seat;
        self.spots[unit] = spot;
        self.measure(unit);
    }

    #[inline]
    fn each_neighbour(&self, unit: usize, seat: &Seat, mut visit: impl FnMut(usize, Point) -> bool) {
        let c = seat.clearance;
        self.masks.each([seat.at[0] - c, seat.at[1] - c], [seat.far[0] + c, seat.far[1] + c], |other| {
            let o = &self.seats[other];
            let gap = c.max(o.clearance);
            if other == unit
                || seat.at[0] >= o.far[0] + gap
                || o.at[0] >= seat.far[0] + gap
                || seat.at[1] >= o.far[1] + gap
                || o.at[1] >= seat.far[1] + gap
            {
                return true;
            }
            visit(other, [seat.at[0] - o.at[0], seat.at[1] - o.at[1]])
        });
    }

    /// Weighted violation of a unit at a spot; where it exceeds `limit`, anything above `limit`.
    #[inline]
    pub fn cost(&mut self, unit: usize, spot: Spot, limit: f64) -> f64 {
        self.spent += 1;
        let seat = self.seat(unit, spot);
        let weights = &self.weights[unit * self.spots.len()..(unit + 1) * self.spots.len()];
        let mut sum = 0.0;
        self.each_neighbour(unit, &seat, |other, t| {
            sum += weights[other] * self.table.depth(self.seats[other].shape, seat.shape, t);
            sum < limit
        });
        sum
    }

    /// The units violated by a unit at a spot: weight times depth, and the shortest way out of each.
    pub fn ways_out(&mut self, unit: usize, spot: Spot, into: &mut Vec<(f64, Point)>) {
        self.spent += 1;
        into.clear();
        let seat = self.seat(unit, spot);
        let row = unit * self.spots.len();
        self.each_neighbour(unit, &seat, |other, t| {
            if let Some(v) = self.table.way_out(self.seats[other].shape, seat.shape, t) {
                into.push((self.weights[row + other] * (v[0] * v[0] + v[1] * v[1]).sqrt(), v));
            }
            true
        });
    }

    /// Weighted violation of a unit where it lies.
    pub fn standing(&self, unit: usize) -> f64 {
        let row = unit * self.units()..(unit + 1) * self.units();
        self.depths[row.clone()].iter().zip(&self.weights[row]).map(|(d, w)| d * w).sum()
    }

    /// Sum of the depths of a unit, mm.
    pub fn depth_of(&self, unit: usize) -> f64 {
        self.depths[unit * self.units()..(unit + 1) * self.units()].iter().sum()
    }

    /// Sum of the depths of all pairs, mm.
    pub fn total(&self) -> f64 {
        self.depths.iter().sum::<f64>() / 2.0
    }

    /// Guided weights: what is violated counts more next time, up to `most`; what is not, slowly less again.
    pub fn reweigh(&mut self, least: f64, most: f64, decay: f64) {
        let deepest = self.depths.iter().copied().fold(0.0, f64::max);
        if deepest <= 0.0 {
            return;
        }
        for ((w, d), base) in self.weights.iter_mut().zip(&self.depths).zip(&self.base) {
            *w = if *d > 0.0 { *w * (least + (most - least) * d / deepest) } else { (*w * decay).max(*base) };
        }
    }
}

fn base_weights(table: &Table) -> Vec<f64> {
    let areas: Vec<f64> = table.units.iter().map(|u| table.areas[u.kind]).collect();
    let mean = areas.iter().sum::<f64>() / areas.len() as f64;
    areas.iter().flat_map(|a| areas.iter().map(move |b| (a.min(*b) / mean).sqrt())).collect()
}

/// Which units touch which columns and rows of a coarse raster of the cloth, as bits.
#[derive(Debug, Clone)]
struct Masks {
    words: usize,
    per: Point,
    columns: Vec<u64>,
    rows: Vec<u64>,
}

const COLUMNS: usize = 48;
const ROWS: usize = 24;

impl Masks {
    fn new(units: usize, length: f64, width: f64) -> Self {
        let words = units.div_ceil(64);
        Self {
            words,
            per: [COLUMNS as f64 / length, ROWS as f64 / width],
            columns: vec![0; COLUMNS * words],
            rows: vec![0; ROWS * words],
        }
    }

    fn clear(&mut self) {
        self.columns.fill(0);
        self.rows.fill(0);
    }

    #[inline]
    fn span(per: f64, count: usize, low: f64, high: f64) -> (usize, usize) {
        (((low * per) as usize).min(count - 1), ((high * per) as usize).min(count - 1))
    }

    fn each_word(&mut self, low: Point, high: Point, clearance: f64, change: impl Fn(&mut [u64])) {
        let (c0, c1) = Self::span(self.per[0], COLUMNS, low[0] - clearance, high[0] + clearance);
        let (r0, r1) = Self::span(self.per[1], ROWS, low[1] - clearance, high[1] + clearance);
        (c0..=c1).for_each(|c| change(&mut self.columns[c * self.words..(c + 1) * self.words]));
        (r0..=r1).for_each(|r| change(&mut self.rows[r * self.words..(r + 1) * self.words]));
    }

    fn set(&mut self, unit: usize, low: Point, high: Point, clearance: f64) {
        self.each_word(low, high, clearance, |words| words[unit / 64] |= 1 << (unit % 64));
    }

    fn unset(&mut self, unit: usize, low: Point, high: Point, clearance: f64) {
        self.each_word(low, high, clearance, |words| words[unit / 64] &= !(1 << (unit % 64)));
    }

    /// Units that may touch a box, in order of their index, until `visit` says to stop.
    #[inline]
    fn each(&self, low: Point, high: Point, mut visit: impl FnMut(usize) -> bool) {
        let (c0, c1) = Self::span(self.per[0], COLUMNS, low[0], high[0]);
        let (r0, r1) = Self::span(self.per[1], ROWS, low[1], high[1]);
        for word in 0..self.words {
            let mut across = 0;
            for c in c0..=c1 {
                across |= self.columns[c * self.words + word];
            }
            let mut along = 0;
            for r in r0..=r1 {
                along |= self.rows[r * self.words + word];
            }
            let mut bits = across & along;
            while bits != 0 {
                let bit = bits.trailing_zeros() as usize;
                bits &= bits - 1;
                if !visit(word * 64 + bit) {
                    return;
                }
            }
        }
    }
}
