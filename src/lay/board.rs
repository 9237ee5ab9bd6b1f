//! A layout being worked on: where every unit lies, which pairs violate their gap, and how much each such
//! violation counts.

use crate::lay::geom::Point;
use crate::lay::masks::Masks;
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
    /// Every pair that is violated or counts more than at first, and maybe some that are not and do not: `a * n + b`,
    /// `a < b`; and which pairs these are.
    raised: Vec<usize>,
    is_raised: Vec<bool>,
    /// Room for what a place may violate.
    hits: Vec<Hit>,
}

/// Something a place may violate: a field, the place in it, the cell, and weight times the least depth there.
#[derive(Debug, Clone, Copy)]
struct Hit {
    field: u32,
    cell: u32,
    at: Point,
    weight: f64,
    least: f64,
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
            raised: Vec::new(),
            is_raised: vec![false; n * n],
            hits: Vec::with_capacity(n),
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

    /// Every pair counts as at first.
    pub fn reset_weights(&mut self) {
        self.weights.clone_from(&self.base);
        let (depths, raised) = (&self.depths, &mut self.is_raised);
        self.raised.retain(|&pair| {
            raised[pair] = depths[pair] > 0.0;
            raised[pair]
        });
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
            self.masks.change(u, seat.at, seat.far, seat.clearance, true);
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
            let pair = unit.min(other) * n + unit.max(other);
            if depth > 0.0 && !self.is_raised[pair] {
                self.is_raised[pair] = true;
                self.raised.push(pair);
            }
        }
    }

    /// Put a unit somewhere else.
    pub fn place(&mut self, unit: usize, spot: Spot) {
        let old = self.seats[unit];
        self.masks.change(unit, old.at, old.far, old.clearance, false);
        let seat = self.seat(unit, spot);
        self.masks.change(unit, seat.at, seat.far, seat.clearance, true);
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
    ///
    /// First only what the cells say at least: most places are too bad already by that.
    #[inline]
    pub fn cost(&mut self, unit: usize, spot: Spot, limit: f64) -> f64 {
        self.spent += 1;
        let seat = self.seat(unit, spot);
        let mut hits = std::mem::take(&mut self.hits);
        hits.clear();
        let weights = &self.weights[unit * self.spots.len()..(unit + 1) * self.spots.len()];
        let mut rest = 0.0;
        self.each_neighbour(unit, &seat, |other, t| {
            let (field, at) = self.table.ask(self.seats[other].shape, seat.shape, t);
            if let Some((least, cell)) = self.table.fields[field as usize].glance(at) {
                let weight = weights[other];
                let least = weight * least;
                rest += least;
                hits.push(Hit { field, cell, at, weight, least });
            }
            rest < limit
        });
        let mut sum = 0.0;
        if rest >= limit {
            sum = rest;
        } else {
            for hit in &hits {
                sum += hit.weight * self.table.fields[hit.field as usize].depth(hit.at, hit.cell);
                rest -= hit.least;
                if sum + rest >= limit {
                    sum += rest;
                    break;
                }
            }
        }
        self.hits = hits;
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
        self.raised.iter().map(|&pair| self.depths[pair]).sum()
    }

    /// Units deeper in others than `nothing`, mm, in the order of their index.
    pub fn crowded(&self, nothing: f64, into: &mut Vec<usize>) {
        let n = self.units();
        let mut depths = vec![0.0; n];
        for &pair in &self.raised {
            depths[pair / n] += self.depths[pair];
            depths[pair % n] += self.depths[pair];
        }
        into.clear();
        into.extend((0..n).filter(|&unit| depths[unit] > nothing));
    }

    /// Guided weights: what is violated counts more next time, up to `most`; what is not, slowly less again.
    pub fn reweigh(&mut self, least: f64, most: f64, decay: f64) {
        let n = self.units();
        let deepest = self.raised.iter().map(|&pair| self.depths[pair]).fold(0.0, f64::max);
        if deepest <= 0.0 {
            return;
        }
        let (weights, raised) = (&mut self.weights, &mut self.is_raised);
        self.raised.retain(|&pair| {
            let (w, d, base) = (weights[pair], self.depths[pair], self.base[pair]);
            let new = if d > 0.0 { w * (least + (most - least) * d / deepest) } else { (w * decay).max(base) };
            weights[pair] = new;
            weights[pair % n * n + pair / n] = new;
            raised[pair] = d > 0.0 || new > base;
            raised[pair]
        });
    }
}

fn base_weights(table: &Table) -> Vec<f64> {
    let areas: Vec<f64> = table.units.iter().map(|u| table.areas[u.kind]).collect();
    let mean = areas.iter().sum::<f64>() / areas.len() as f64;
    areas.iter().flat_map(|a| areas.iter().map(move |b| (a.min(*b) / mean).sqrt())).collect()
}
