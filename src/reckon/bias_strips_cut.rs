//! Laying bias strips into a rectangle, and moving their joins.

use crate::units::Length;

/// One strip at 45°, between two parallel cuts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Strip {
    /// Where its nearer cut leaves the rectangle's edges, measured along them from the corner it runs across.
    pub(super) mark: Length,
    /// Its length with both ends on one straight grain, along either edge.
    pub(super) length: Length,
}

/// All strips of a rectangle with its corner at nothing: the cuts are the lines `x + y = c`, one of them
/// through the far corner of the shorter side, the others `strip × √2` apart. Longest first.
///
/// Along a cut, `t = x - y` runs from `max(-c, c - 2 height)` to `min(c, 2 width - c)`. An end on the
/// straight grain moves `t` by as much as `c` moves, one way or the other; the longer of the two ways that
/// stays inside is the usable length.
pub(super) fn cut(width: Length, height: Length, strip: Length, shortest: Length) -> Vec<Strip> {
    let (w, h) = (width.base(), height.base());
    let across = strip.base() * std::f64::consts::SQRT_2;
    let low = |c: f64| (-c).max(c - 2.0 * h);
    let high = |c: f64| c.min(2.0 * w - c);
    let through = w.min(h);
    let first = -(through / across + 1e-9).floor();
    let last = ((w + h - through) / across + 1e-9).floor();
    let mut strips = Vec::new();
    let mut k = first;
    while k < last {
        let (near, far) = (through + k * across, through + (k + 1.0) * across);
        let one = high(near) - low(far) - across;
        let other = high(far) - low(near) - across;
        let length = Length::from_base(one.max(other) / std::f64::consts::SQRT_2);
        if length >= shortest && length > Length::ZERO {
            strips.push(Strip { mark: Length::from_base(near.max(0.0)), length });
        }
        k += 1.0;
    }
    // Lengths that differ by arithmetic alone are the same length, and stay in the order they are cut.
    let thousandths = |strip: &Strip| (strip.length.base() * 1e3).round();
    strips.sort_by(|a, b| thousandths(b).total_cmp(&thousandths(a)));
    strips
}

/// The least to trim off the start so that every join lies at least `clear` from every place to be avoided,
/// not more than `most`; nothing where that cannot be.
pub(super) fn clear_start(joins: &[Length], avoid: &[Length], clear: Length, most: Length) -> Option<Length> {
    let hair = Length::mm(1e-6);
    let blocked = |trim: Length| {
        joins.iter().any(|join| avoid.iter().any(|place| (*join - trim - *place).abs() < clear - hair && *join > trim))
    };
    let mut trims: Vec<Length> = vec![Length::ZERO];
    trims.extend(joins.iter().flat_map(|join| avoid.iter().map(|place| *join - *place + clear)));
    trims.sort_by(|a, b| a.base().total_cmp(&b.base()));
    trims.into_iter().filter(|trim| *trim >= Length::ZERO && *trim <= most).find(|trim| !blocked(*trim))
}
