//! The largest rectangle of cloth left over.

use super::result::Spare;
use crate::lay::geom::Point;

/// Side of a square of the raster, mm. What is found is free to within the raster, on the safe side.
const CELL: f64 = 5.0;

/// Remnants narrower than this are not kept, mm.
const LEAST: f64 = 100.0;

/// The largest free rectangle on a strip, if both its sides are worth keeping.
pub(super) fn spare(outlines: &[&[Point]], length: f64, width: f64) -> Option<Spare> {
    let (columns, rows) = ((length / CELL).floor() as usize, (width / CELL).floor() as usize);
    if columns == 0 || rows == 0 || columns * rows > 50_000_000 {
        return None;
    }
    let mut taken = vec![false; columns * rows];
    for outline in outlines {
        mark(outline, &mut taken, columns, rows);
    }
    let (x, y, w, h) = largest(&taken, columns, rows)?;
    let spare = Spare { at: [x as f64 * CELL, y as f64 * CELL], length: w as f64 * CELL, width: h as f64 * CELL };
    (spare.length >= LEAST && spare.width >= LEAST).then_some(spare)
}

/// Marks every cell an outline touches: row by row, the extent of the outline within the band of the row.
fn mark(outline: &[Point], taken: &mut [bool], columns: usize, rows: usize) {
    let n = outline.len();
    for row in 0..rows {
        let (bottom, top) = (row as f64 * CELL, (row + 1) as f64 * CELL);
        // Inside stretches at both rims of the band, and every edge within the band.
        let mut spans: Vec<(f64, f64)> = Vec::new();
        for level in [bottom, (bottom + top) / 2.0, top] {
            let mut xs: Vec<f64> = Vec::new();
            for i in 0..n {
                let (a, b) = (outline[i], outline[(i + 1) % n]);
                if (a[1] > level) != (b[1] > level) {
                    xs.push(a[0] + (level - a[1]) / (b[1] - a[1]) * (b[0] - a[0]));
                }
            }
            xs.sort_by(f64::total_cmp);
            spans.extend(xs.chunks_exact(2).map(|p| (p[0], p[1])));
        }
        for i in 0..n {
            let (a, b) = (outline[i], outline[(i + 1) % n]);
            if a[1].max(b[1]) < bottom || a[1].min(b[1]) > top {
                continue;
            }
            let at = |level: f64| {
                if a[1] == b[1] {
                    a[0]
                } else {
                    a[0] + ((level - a[1]) / (b[1] - a[1])).clamp(0.0, 1.0) * (b[0] - a[0])
                }
            };
            let (p, q) = if a[1] == b[1] { (a[0], b[0]) } else { (at(bottom), at(top)) };
            spans.push((p.min(q), p.max(q)));
        }
        for (from, to) in spans {
            let first = (from / CELL).floor().max(0.0) as usize;
            let last = (to / CELL).floor().max(0.0) as usize;
            if first < columns {
                taken[row * columns + first..=row * columns + last.min(columns - 1)].fill(true);
            }
        }
    }
}

/// The largest rectangle of free cells: `(column, row, columns, rows)`.
fn largest(taken: &[bool], columns: usize, rows: usize) -> Option<(usize, usize, usize, usize)> {
    let mut free = vec![0usize; columns];
    let mut best: Option<(usize, (usize, usize, usize, usize))> = None;
    for row in 0..rows {
        for column in 0..columns {
            free[column] = if taken[row * columns + column] { 0 } else { free[column] + 1 };
        }
        // Bars of free cells above this row; the stack holds rising bars with their beginnings.
        let mut stack: Vec<(usize, usize)> = Vec::new();
        for column in 0..=columns {
            let height = free.get(column).copied().unwrap_or(0);
            let mut begin = column;
            while let Some(&(start, h)) = stack.last() {
                if h <= height {
                    break;
                }
                stack.pop();
                begin = start;
                let area = h * (column - start);
                if best.as_ref().is_none_or(|b| area > b.0) {
                    best = Some((area, (start, row + 1 - h, column - start, h)));
                }
            }
            if height > 0 && stack.last().is_none_or(|s| s.1 < height) {
                stack.push((begin, height));
            }
        }
    }
    best.map(|b| b.1)
}

#[cfg(test)]
mod tests {
    use super::spare;

    /// Closed form: a strip of 1000 by 600 with a 400 by 600 block and a 600 by 200 block leaves 600 by 400.
    #[test]
    fn what_rectangles_leave() {
        let a = [[0.0, 0.0], [400.0, 0.0], [400.0, 600.0], [0.0, 600.0]];
        let b = [[400.0, 0.0], [1000.0, 0.0], [1000.0, 200.0], [400.0, 200.0]];
        let left = spare(&[&a, &b], 1000.0, 600.0).expect("a remnant");
        // Cells that are touched at their rim count as taken, so up to one cell a side is lost.
        assert!(left.length <= 600.0 && left.length >= 590.0, "{left:?}");
        assert!(left.width <= 400.0 && left.width >= 390.0, "{left:?}");
        assert!(left.at[0] >= 400.0 && left.at[1] >= 200.0);
    }

    #[test]
    fn a_remnant_never_touches_a_piece() {
        let triangle = [[0.0, 0.0], [1000.0, 0.0], [0.0, 800.0]];
        let left = spare(&[&triangle], 1000.0, 800.0).expect("a remnant");
        // The nearest corner of the rectangle is the lower left one; it must lie beyond the slanted edge.
        assert!(left.at[0] / 1000.0 + left.at[1] / 800.0 >= 1.0, "{left:?}");
        // Closed form: the largest rectangle in a right triangle has half its area.
        assert!(left.length * left.width > 0.95 * 200_000.0, "{left:?}");
    }
}
