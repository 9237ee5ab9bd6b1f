//! The canonical problem: pieces with their poses on a strip of given width.
//!
//! The frame: x runs along the length of the cloth, which is free; y runs across it, from 0 to the width.
//! A position is the place of the lower left corner of the bounding box of the piece in its pose.

use crate::lay::geom::{Bounds, Point, signed_area};
use crate::lay::pose::Pose;
use serde::{Deserialize, Serialize};
use std::fmt;

/// Where the lower left corner of a piece may lie along one axis, millimetres.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub enum Axis {
    /// Anywhere, `before` away from the low end and `after` away from the high end.
    Span {
        /// Distance kept from the low end.
        before: f64,
        /// Distance kept from the high end.
        after: f64,
    },
    /// Only here.
    Pinned {
        /// The place.
        at: f64,
    },
    /// On a repeat of the cloth: `first`, `first + step`, `first + 2 step`, ...
    Lattice {
        /// The first place.
        first: f64,
        /// From one to the next; more than 0.
        step: f64,
        /// Distance kept from the high end.
        after: f64,
    },
}

impl Axis {
    /// Anywhere.
    pub const FREE: Self = Self::Span { before: 0.0, after: 0.0 };

    /// The lowest and the highest place for a piece of this size on an extent; nothing if it cannot lie.
    #[must_use]
    pub fn range(&self, size: f64, extent: f64) -> Option<(f64, f64)> {
        let high = extent - size + SLACK;
        let (low, high) = match *self {
            Self::Span { before, after } => (before, high - after),
            Self::Pinned { at } => (at, if high >= at { at } else { f64::NEG_INFINITY }),
            Self::Lattice { first, step, after } => (first, first + ((high - after - first) / step).floor() * step),
        };
        (low >= -SLACK && high - low > -SLACK).then(|| (low, high.max(low)))
    }

    /// The allowed place nearest to `at`, given the range.
    pub(crate) fn project(&self, at: f64, (low, high): (f64, f64)) -> f64 {
        let inside = at.max(low).min(high);
        match *self {
            Self::Span { .. } => inside,
            Self::Pinned { at } => at,
            Self::Lattice { first, step, .. } => (first + ((inside - first) / step).round() * step).min(high),
        }
    }

    /// The first allowed place at or after `at`, given the range; nothing beyond its end.
    pub(crate) fn next(&self, at: f64, (low, high): (f64, f64)) -> Option<f64> {
        let place = match *self {
            Self::Span { .. } => at.max(low),
            Self::Pinned { at: pin } if at <= pin => pin,
            Self::Pinned { .. } => return None,
            Self::Lattice { first, step, .. } => first + ((at.max(low) - first) / step - 1e-9).ceil().max(0.0) * step,
        };
        (place <= high).then_some(place)
    }
}

/// A difference no pair of scissors can make, millimetres; what is this near to fitting fits.
pub(crate) const SLACK: f64 = 1e-6;

/// Where a piece may lie: along the cloth (x) and across it (y).
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Domain {
    /// Along the length.
    pub along: Axis,
    /// Across the width.
    pub across: Axis,
}

impl Domain {
    /// Anywhere on the cloth.
    pub const FREE: Self = Self { along: Axis::FREE, across: Axis::FREE };

    /// Low edge held at `y`: on a lengthwise fold or a selvage.
    #[must_use]
    pub fn pin_y(y: f64) -> Self {
        Self { along: Axis::FREE, across: Axis::Pinned { at: y } }
    }

    /// Left edge held at `x`: on a crosswise fold.
    #[must_use]
    pub fn pin_x(x: f64) -> Self {
        Self { along: Axis::Pinned { at: x }, across: Axis::FREE }
    }

    /// Held altogether.
    #[must_use]
    pub fn fixed(x: f64, y: f64) -> Self {
        Self { along: Axis::Pinned { at: x }, across: Axis::Pinned { at: y } }
    }
}

/// One way an item may lie.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Choice {
    /// What it means to the person cutting; the search itself reads only the outline.
    pub pose: Pose,
    /// The outline in this pose, millimetres, a simple polygon; where it stands in the plane is free.
    pub outline: Vec<Point>,
    /// Where it may lie.
    pub domain: Domain,
}

/// A shape to be laid, perhaps several times.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Item {
    /// For messages and for the caller; does not influence the layout.
    pub name: String,
    /// How many times it must be laid; at least 1.
    pub copies: usize,
    /// Clearance this item asks for, mm. Between two items the larger of their clearances is kept.
    pub clearance: f64,
    /// The ways it may lie; at least one.
    pub choices: Vec<Choice>,
}

/// Items to be laid on a strip as short as possible.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Problem {
    /// Width of the strip (across the cloth), mm.
    pub width: f64,
    /// What to lay.
    pub items: Vec<Item>,
}

/// Why a problem cannot be laid at all.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub enum Unfit {
    /// Nothing to lay.
    Empty,
    /// The width is not a positive number below a hundred metres.
    Width {
        /// Width found, mm.
        width: f64,
    },
    /// An outline, a clearance, a domain or a number of copies that makes no sense.
    Outline {
        /// Name of the item.
        item: String,
        /// What is wrong with it.
        why: String,
    },
    /// In none of its poses the item fits between the edges.
    TooWide {
        /// Name of the item.
        item: String,
        /// The least extent across the cloth among its poses, mm.
        needs: f64,
        /// Room across the cloth, mm.
        has: f64,
    },
    /// Items held in place overlap in every arrangement that could be found.
    Crowded,
}

impl fmt::Display for Unfit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty => write!(f, "there is nothing to lay"),
            Self::Width { width } => write!(f, "the width {width} mm is not one a cloth can have"),
            Self::Outline { item, why } => write!(f, "{item}: {why}"),
            Self::TooWide { item, needs, has } => {
                write!(f, "{item} needs {needs:.1} mm across the cloth and there are {has:.1} mm")
            }
            Self::Crowded => write!(f, "no arrangement without overlaps was found"),
        }
    }
}

impl std::error::Error for Unfit {}

/// The longest outline coordinate or width accepted, mm: a hundred metres of cloth.
const FARTHEST: f64 = 100_000.0;

impl Problem {
    /// Sum of the areas of all copies, mm².
    #[must_use]
    pub fn area(&self) -> f64 {
        self.items
            .iter()
            .map(|item| {
                let area = item.choices.first().map_or(0.0, |c| signed_area(&c.outline).abs());
                area * item.copies as f64
            })
            .sum()
    }

    /// Whether the numbers make sense and each item fits across the strip.
    ///
    /// # Errors
    /// The first thing found wrong, as [`Unfit`].
    pub fn check(&self) -> Result<(), Unfit> {
        if self.items.is_empty() {
            return Err(Unfit::Empty);
        }
        if !(self.width > 0.0 && self.width < FARTHEST) {
            return Err(Unfit::Width { width: self.width });
        }
        self.items.iter().try_for_each(|item| self.check_item(item))
    }

    fn check_item(&self, item: &Item) -> Result<(), Unfit> {
        let fault = |why: &str| Err(Unfit::Outline { item: item.name.clone(), why: why.to_owned() });
        if item.copies == 0 {
            return fault("is to be laid no times");
        }
        if !(item.clearance >= 0.0 && item.clearance < FARTHEST) {
            return fault("asks for a clearance that is no distance");
        }
        if item.choices.is_empty() {
            return fault("has no pose it may lie in");
        }
        let mut needs = f64::INFINITY;
        let mut fits = false;
        for choice in &item.choices {
            if choice.outline.len() < 3 || signed_area(&choice.outline).abs() < 1e-9 {
                return fault("its outline encloses no area");
            }
            if choice.outline.iter().flatten().any(|c| c.is_nan() || c.abs() >= FARTHEST) {
                return fault("its outline leaves the plane a cloth can have");
            }
            if crosses_itself(&choice.outline) {
                return fault("its outline crosses itself");
            }
            for axis in [choice.domain.along, choice.domain.across] {
                let sane = match axis {
                    Axis::Span { before, after } => before.is_finite() && after.is_finite(),
                    Axis::Pinned { at } => at.is_finite(),
                    Axis::Lattice { first, step, after } => {
                        first.is_finite() && step > 0.0 && step.is_finite() && after.is_finite()
                    }
                };
                if !sane {
                    return fault("its place on the cloth is not given by numbers");
                }
            }
            let height = Bounds::of(&choice.outline).height();
            let used = match choice.domain.across {
                Axis::Span { before, after } => height + before + after,
                Axis::Pinned { at } => height + at,
                Axis::Lattice { first, after, .. } => height + first + after,
            };
            needs = needs.min(used);
            fits |= choice.domain.across.range(height, self.width).is_some();
        }
        if fits { Ok(()) } else { Err(Unfit::TooWide { item: item.name.clone(), needs, has: self.width }) }
    }
}

/// Whether two edges of an outline cross properly (touching does not count).
fn crosses_itself(outline: &[Point]) -> bool {
    let n = outline.len();
    let edge = |i: usize| (outline[i], outline[(i + 1) % n]);
    let side = |(a, b): (Point, Point), p: Point| {
        let cross = (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]);
        if cross.abs() < 1e-9 { 0.0 } else { cross.signum() }
    };
    (0..n).any(|i| {
        let (a, b) = edge(i);
        let (low, high) = (a[0].min(b[0]), a[0].max(b[0]));
        (i + 2..n).any(|j| {
            let (p, q) = edge(j);
            p[0].min(q[0]) <= high
                && p[0].max(q[0]) >= low
                && side((a, b), p) * side((a, b), q) < 0.0
                && side((p, q), a) * side((p, q), b) < 0.0
        })
    })
}
