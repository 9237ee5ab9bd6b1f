//! Bottom-left fill: one unit after the other as far to the left as it goes.
//!
//! On a level y, what stands already forbids intervals of x, read off the no-fit polygons; the first free x is
//! exact. The levels tried are those at which the unit touches something from above or below, the ends of its
//! range, and an even raster.

use crate::lay::board::Spot;
use crate::lay::geom::Point;
use crate::lay::problem::{Axis, Unfit};
use crate::lay::table::{Table, Way};

/// Even levels tried besides the touching ones.
const RASTER: usize = 24;

/// A layout without violations and its length, mm; units are placed in the given order, each where it ends first, or
/// `narrow`: first of all in the pose that takes least of the width (for units held at one end side by side).
///
/// # Errors
/// [`Unfit::Crowded`] when units that are held in place leave no room for one another.
pub(crate) fn fill(table: &Table, order: &[usize], narrow: bool) -> Result<(f64, Vec<Spot>), Unfit> {
    let mut spots: Vec<Option<Spot>> = vec![None; table.units.len()];
    let mut placed: Vec<(usize, Point)> = Vec::new();
    let mut length: f64 = 0.0;
    for &unit in order {
        let ways = &table.kinds[table.units[unit].kind];
        let mut best: Option<([f64; 4], Spot)> = None;
        for (index, way) in ways.iter().enumerate() {
            for y in levels(table, way, &placed) {
                let size = table.shapes[way.shape].size;
                let first = if narrow { size[1] } else { 0.0 };
                let end = best.as_ref().filter(|b| b.0[0] <= first).map_or(f64::INFINITY, |b| b.0[1]);
                let Some(x) = first_free(table, way, y, &placed, end - size[0]) else { continue };
                let rank = [first, x + size[0], x, y];
                if best.as_ref().is_none_or(|b| rank < b.0) {
                    best = Some((rank, Spot { way: index, at: [x, y] }));
                }
            }
        }
        let Some((rank, spot)) = best else { return Err(Unfit::Crowded) };
        length = length.max(rank[1]);
        placed.push((ways[spot.way].shape, spot.at));
        spots[unit] = Some(spot);
    }
    let after = |unit: usize, spot: &Spot| match table.kinds[table.units[unit].kind][spot.way].domain.along {
        Axis::Span { after, .. } | Axis::Lattice { after, .. } => after,
        _ => 0.0,
    };
    let spots: Vec<Spot> = spots.into_iter().flatten().collect();
    let keep_off = spots.iter().enumerate().map(|(u, s)| after(u, s)).fold(0.0, f64::max);
    Ok((length + keep_off, spots))
}

fn levels(table: &Table, way: &Way, placed: &[(usize, Point)]) -> Vec<f64> {
    let range = way.across;
    let shape = &table.shapes[way.shape];
    let mut levels = vec![range.0, range.1];
    for (other, at) in placed {
        let gap = shape.clearance.max(table.shapes[*other].clearance);
        levels.push(at[1] + table.shapes[*other].size[1] + gap);
        levels.push(at[1] - shape.size[1] - gap);
    }
    levels.extend((1..RASTER).map(|i| range.0 + (range.1 - range.0) * i as f64 / RASTER as f64));
    levels.retain(|y| *y >= range.0 && *y <= range.1);
    for y in &mut levels {
        *y = way.domain.across.project(*y, range);
    }
    levels.sort_by(f64::total_cmp);
    levels.dedup();
    levels
}

fn first_free(table: &Table, way: &Way, y: f64, placed: &[(usize, Point)], end: f64) -> Option<f64> {
    let mut forbidden = Vec::new();
    for (other, at) in placed {
        let pair = table.pair(*other, way.shape);
        // q = flip (p - at) + offset, so p = at + flip (q - offset), a flip being its own inverse.
        let shift = [at[0] - pair.flip[0] * pair.offset[0], at[1] - pair.flip[1] * pair.offset[1]];
        table.fields[pair.field as usize].forbidden(y, &mut forbidden, shift, pair.flip);
    }
    forbidden.sort_by(|a, b| a.0.total_cmp(&b.0));
    let range = way.domain.along.range(table.shapes[way.shape].size[0], f64::MAX / 4.0)?;
    let mut x = way.domain.along.next(range.0, range)?;
    for (from, to) in forbidden {
        if from > x {
            break;
        }
        if to > x {
            x = way.domain.along.next(to, range)?;
        }
        if x > end {
            return None;
        }
    }
    (x <= end).then_some(x)
}
