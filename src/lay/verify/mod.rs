//! The independent checker: reads a problem and a layout, and says what is wrong with it.
//!
//! It shares no code with the search. The search reasons with no-fit polygons; here the outlines are put
//! where the layout says and looked at themselves:
//!
//! - overlaps by two measures that must both pass: every stretch of one outline inside another must run within
//!   [`TOLERANCE`] of that other outline, and the common area (a boolean operation) must be no more than a
//!   sliver of that thickness;
//! - gaps by the distance between the outlines' edges;
//! - the strip, pins, repeats, poses and the number of copies by comparison.

mod plane;

use crate::lay::geom::Point;
use crate::lay::problem::{Axis, Problem};
use crate::lay::result::{Layout, Placement};
use plane::Placed;
use serde::{Deserialize, Serialize};
use std::fmt;

/// What no pair of scissors can tell apart, mm.
pub const TOLERANCE: f64 = 0.01;

/// How exact a pin must be held, mm: rounding only.
const EXACT: f64 = 1e-6;

/// Something wrong with a layout. Items by their index, copies from 0, lengths in mm.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub enum Flaw {
    /// A copy that is laid other than once, or that nobody asked for.
    Count {
        /// Index of the item.
        item: usize,
        /// Which copy.
        copy: usize,
        /// How many times it lies on the cloth.
        times: usize,
    },
    /// A copy in a pose the item does not allow.
    Pose {
        /// Index of the item.
        item: usize,
        /// Which copy.
        copy: usize,
    },
    /// A copy beyond an end or an edge, or off the distance it must keep there.
    Outside {
        /// Index of the item.
        item: usize,
        /// Which copy.
        copy: usize,
        /// By how much, mm.
        by: f64,
    },
    /// A copy off the fold, the edge or the repeat it must lie on.
    OffPlace {
        /// Index of the item.
        item: usize,
        /// Which copy.
        copy: usize,
        /// By how much, mm.
        by: f64,
    },
    /// Two copies that overlap.
    Overlap {
        /// Item and copy of the one.
        a: (usize, usize),
        /// Item and copy of the other.
        b: (usize, usize),
        /// How deep, mm.
        depth: f64,
    },
    /// Two copies nearer to each other than their gap.
    TooNear {
        /// Item and copy of the one.
        a: (usize, usize),
        /// Item and copy of the other.
        b: (usize, usize),
        /// Their distance, mm.
        distance: f64,
        /// The gap to keep, mm.
        gap: f64,
    },
}

impl fmt::Display for Flaw {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Count { item, copy, times } => write!(f, "item {item} copy {copy} is laid {times} times"),
            Self::Pose { item, copy } => write!(f, "item {item} copy {copy} lies in a pose it must not have"),
            Self::Outside { item, copy, by } => write!(f, "item {item} copy {copy} is {by:.4} mm outside"),
            Self::OffPlace { item, copy, by } => write!(f, "item {item} copy {copy} is {by:.6} mm off its place"),
            Self::Overlap { a, b, depth } => write!(f, "{a:?} and {b:?} overlap, {depth:.4} mm deep"),
            Self::TooNear { a, b, distance, gap } => {
                write!(f, "{a:?} and {b:?} are {distance:.4} mm apart and should be {gap} mm")
            }
        }
    }
}

/// Everything wrong with a layout of a problem; nothing if it may ship.
#[must_use]
pub fn verify(problem: &Problem, layout: &Layout) -> Vec<Flaw> {
    let mut flaws = counts(problem, &layout.placements);
    let mut placed = Vec::new();
    for p in &layout.placements {
        let Some(item) = problem.items.get(p.item) else { continue };
        let Some(choice) = item.choices.get(p.choice).filter(|c| c.pose == p.pose) else {
            flaws.push(Flaw::Pose { item: p.item, copy: p.copy });
            continue;
        };
        let outline: Vec<Point> = choice.outline.iter().map(|c| [c[0] + p.by[0], c[1] + p.by[1]]).collect();
        let shape = Placed::new(outline);
        let sides = [(choice.domain.along, layout.length), (choice.domain.across, problem.width)];
        for (axis, (rule, extent)) in sides.into_iter().enumerate() {
            flaws.extend(side(p, rule, shape.low[axis], shape.high[axis], extent));
        }
        placed.push((p, item.clearance, shape));
    }
    for (i, (p, clearance, shape)) in placed.iter().enumerate() {
        for (q, other_clearance, other) in &placed[..i] {
            let names = ((q.item, q.copy), (p.item, p.copy));
            flaws.extend(pair(names, other, shape, clearance.max(*other_clearance)));
        }
    }
    flaws
}

fn counts(problem: &Problem, placements: &[Placement]) -> Vec<Flaw> {
    let mut times: Vec<Vec<usize>> = problem.items.iter().map(|i| vec![0; i.copies]).collect();
    let mut flaws = Vec::new();
    for p in placements {
        match times.get_mut(p.item).and_then(|copies| copies.get_mut(p.copy)) {
            Some(count) => *count += 1,
            None => flaws.push(Flaw::Count { item: p.item, copy: p.copy, times: 1 }),
        }
    }
    for (item, copies) in times.iter().enumerate() {
        let wrong = copies.iter().enumerate().filter(|(_, t)| **t != 1);
        flaws.extend(wrong.map(|(copy, t)| Flaw::Count { item, copy, times: *t }));
    }
    flaws
}

fn side(p: &Placement, rule: Axis, low: f64, high: f64, extent: f64) -> Option<Flaw> {
    let (item, copy) = (p.item, p.copy);
    let (before, after) = match rule {
        Axis::Span { before, after } => (before, after),
        Axis::Pinned { .. } => (0.0, 0.0),
        Axis::Lattice { after, .. } => (0.0, after),
    };
    let by = (before - low).max(high - (extent - after));
    let real = low.is_finite() && high.is_finite() && extent.is_finite();
    if !real || by > TOLERANCE {
        return Some(Flaw::Outside { item, copy, by });
    }
    let off = match rule {
        Axis::Span { .. } => return None,
        Axis::Pinned { at } => (low - at).abs(),
        Axis::Lattice { first, step, .. } => {
            let steps = ((low - first) / step).round().max(0.0);
            (low - first - steps * step).abs()
        }
    };
    if off <= EXACT { None } else { Some(Flaw::OffPlace { item, copy, by: off }) }
}

fn pair((a, b): ((usize, usize), (usize, usize)), one: &Placed, two: &Placed, gap: f64) -> Option<Flaw> {
    if one.clear_of(two, gap) {
        return None;
    }
    if plane::overlaps(one, two, TOLERANCE) {
        return Some(Flaw::Overlap { a, b, depth: plane::depth(one, two) });
    }
    if gap > 0.0 {
        let distance = plane::distance(one, two);
        if distance < gap - TOLERANCE {
            return Some(Flaw::TooNear { a, b, distance, gap });
        }
    }
    None
}
