//! Places divided evenly between fixed ones.

use crate::units::Length;

/// Rounding that arithmetic may have moved by a hair.
const SLACK: f64 = 1e-9;

/// Places from the first end to the last, through every fixed one (sorted, inside the ends), with no gap
/// wider than `widest`, evenly spaced between each two that are fixed.
pub(super) fn places(ends: (Length, Length), fixed: &[Length], widest: Length) -> Vec<Length> {
    let (first, last) = ends;
    let mut stops = vec![first];
    stops.extend(
        fixed.iter().copied().filter(|place| place.base() > first.base() + SLACK && place.base() < last.base() - SLACK),
    );
    stops.push(last);
    let mut places = vec![first];
    for pair in stops.windows(2) {
        let [from, to] = pair else { continue };
        let part = *to - *from;
        let gaps = (part / widest - SLACK).ceil();
        let mut done = 1.0;
        while done <= gaps {
            // The far end itself, not a sum of gaps, so that it stays where it was put.
            places.push(if done == gaps { *to } else { *from + part * (done / gaps) });
            done += 1.0;
        }
    }
    places
}
