//! Shapes as cells, for placing them on paper.

use std::collections::BTreeMap;

use kurbo::{Point, Rect};

/// A shape as runs of cells, row by row. Cells are counted from the upper left corner of its box.
#[derive(Debug, Clone, Default)]
pub struct Cells {
    /// Rows of runs: first cell and the one after the last.
    rows: Vec<Vec<(usize, usize)>>,
    /// Cells across.
    pub wide: usize,
}

/// The size of a cell, mm.
#[derive(Debug, Clone, Copy)]
pub struct Grain {
    /// Across.
    pub x: f64,
    /// Down.
    pub y: f64,
}

#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
fn cell(value: f64) -> usize {
    value.max(0.0).floor() as usize
}

impl Cells {
    /// Every cell that comes nearer than `gap` to one of the shapes; `frame` is the box they are counted from and must hold
    /// them with the gap.
    #[must_use]
    pub fn covering(shapes: &[Vec<Point>], frame: Rect, gap: f64, grain: Grain) -> Cells {
        let wide = cell((frame.width() / grain.x - 1e-6).ceil()).max(1);
        let high = cell((frame.height() / grain.y - 1e-6).ceil()).max(1);
        let mut filled = vec![vec![false; wide]; high];
        for shape in shapes {
            for (row, cells) in filled.iter_mut().enumerate() {
                let top = frame.y0 + row_mm(row, grain) - gap;
                let bottom = top + grain.y + 2.0 * gap;
                for (from, to) in spans(shape, top, bottom) {
                    let first = cell((from - gap - frame.x0) / grain.x);
                    let last = cell((to + gap - frame.x0) / grain.x).min(wide - 1);
                    cells.iter_mut().take(last + 1).skip(first).for_each(|cell| *cell = true);
                }
            }
        }
        Cells { rows: filled.iter().map(|cells| runs(cells)).collect(), wide }
    }

    /// Cells down.
    #[must_use]
    pub fn high(&self) -> usize {
        self.rows.len()
    }

    /// The tiles it touches when its corner lies so many cells into a tile, as steps from that tile.
    #[must_use]
    pub fn tiles(&self, x: usize, y: usize, tile: (usize, usize)) -> Vec<(usize, usize)> {
        let (wide, high) = ((x + self.wide).div_ceil(tile.0), (y + self.high()).div_ceil(tile.1));
        let mut touched = vec![false; wide * high];
        for (row, runs) in self.rows.iter().enumerate() {
            let down = (y + row) / tile.1 * wide;
            for (from, to) in runs {
                let (first, last) = ((x + from) / tile.0, (x + to - 1) / tile.0);
                touched.iter_mut().take(down + last + 1).skip(down + first).for_each(|tile| *tile = true);
            }
        }
        let all = touched.iter().enumerate().filter(|(_, touched)| **touched);
        all.map(|(at, _)| (at % wide, at / wide)).collect()
    }
}

#[allow(clippy::cast_precision_loss)]
fn row_mm(row: usize, grain: Grain) -> f64 {
    row as f64 * grain.y
}

fn runs(cells: &[bool]) -> Vec<(usize, usize)> {
    let mut runs: Vec<(usize, usize)> = Vec::new();
    for (at, _) in cells.iter().enumerate().filter(|(_, filled)| **filled) {
        match runs.last_mut() {
            Some((_, end)) if *end == at => *end = at + 1,
            _ => runs.push((at, at + 1)),
        }
    }
    runs
}

/// Where a shape lies within a band across the page: stretches of x. Between the sides that cross the band's middle it is
/// inside; every side is taken with all of it that lies in the band.
fn spans(shape: &[Point], top: f64, bottom: f64) -> Vec<(f64, f64)> {
    let middle = top.midpoint(bottom);
    let mut found = Vec::new();
    let mut crossings = Vec::new();
    for (at, a) in shape.iter().enumerate() {
        let Some(b) = shape.get((at + 1) % shape.len()) else { continue };
        let (low, high) = if a.y < b.y { (a, b) } else { (b, a) };
        if low.y > bottom || high.y < top {
            continue;
        }
        let x_at = |y: f64| {
            if high.y - low.y < 1e-9 { low.x } else { low.x + (high.x - low.x) * (y - low.y) / (high.y - low.y) }
        };
        let ends =
            if high.y - low.y < 1e-9 { (low.x, high.x) } else { (x_at(low.y.max(top)), x_at(high.y.min(bottom))) };
        found.push((ends.0.min(ends.1), ends.0.max(ends.1)));
        if low.y <= middle && middle < high.y {
            crossings.push(x_at(middle));
        }
    }
    crossings.sort_by(f64::total_cmp);
    found.extend(crossings.chunks_exact(2).filter_map(|pair| match pair {
        [from, to] => Some((*from, *to)),
        _ => None,
    }));
    found
}

/// The cells taken of the paper.
#[derive(Debug, Clone, Default)]
pub struct Board {
    rows: BTreeMap<usize, Vec<u64>>,
}

impl Board {
    /// Whether a shape can lie with its corner at a cell.
    #[must_use]
    pub fn free(&self, cells: &Cells, x: usize, y: usize) -> bool {
        cells.rows.iter().enumerate().all(|(row, runs)| {
            let Some(taken) = self.rows.get(&(y + row)) else { return true };
            runs.iter()
                .all(|(from, to)| words(x + from, x + to).all(|(at, bits)| taken.get(at).is_none_or(|w| w & bits == 0)))
        })
    }

    /// Takes the cells of a shape.
    pub fn take(&mut self, cells: &Cells, x: usize, y: usize) {
        for (row, runs) in cells.rows.iter().enumerate() {
            let taken = self.rows.entry(y + row).or_default();
            for (from, to) in runs {
                for (at, bits) in words(x + from, x + to) {
                    if taken.len() <= at {
                        taken.resize(at + 1, 0);
                    }
                    if let Some(word) = taken.get_mut(at) {
                        *word |= bits;
                    }
                }
            }
        }
    }
}

/// The words and bits of a run of cells.
fn words(from: usize, to: usize) -> impl Iterator<Item = (usize, u64)> {
    (from / 64..=(to.max(from + 1) - 1) / 64).map(move |at| {
        let low = from.saturating_sub(at * 64).min(63);
        let high = (to - at * 64).min(64);
        let bits = if high - low == 64 { u64::MAX } else { ((1u64 << (high - low)) - 1) << low };
        (at, bits)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    const MM: Grain = Grain { x: 1.0, y: 1.0 };

    fn square(side: f64) -> Vec<Point> {
        vec![Point::ZERO, Point::new(side, 0.0), Point::new(side, side), Point::new(0.0, side)]
    }

    /// A square of 100 cells covers 100 rows of 100, wherever words of 64 bits begin.
    #[test]
    fn squares() {
        let cells = Cells::covering(&[square(99.5)], Rect::new(0.0, 0.0, 100.0, 100.0), 0.0, MM);
        assert_eq!((cells.wide, cells.high()), (100, 100));
        let mut board = Board::default();
        board.take(&cells, 30, 10);
        for (x, y, free) in [(0, 0, false), (130, 10, true), (129, 10, false), (30, 110, true), (30, 109, false)] {
            assert_eq!(board.free(&cells, x, y), free, "{x} {y}");
        }
        assert_eq!(cells.tiles(30, 0, (60, 200)).len(), 3);
        assert_eq!(cells.tiles(0, 0, (100, 100)), [(0, 0)]);
    }

    /// Every point of a shape lies in one of its cells: checked on a slanting sliver thinner than a cell.
    #[test]
    fn slivers_are_covered() {
        let sliver = vec![Point::new(0.0, 0.0), Point::new(40.0, 13.0), Point::new(40.0, 13.2), Point::new(0.0, 0.2)];
        let cells = Cells::covering(&[sliver], Rect::new(0.0, 0.0, 41.0, 14.0), 0.0, MM);
        for step in 0..400 {
            let (x, y) = (f64::from(step) * 0.1, f64::from(step) * 0.1 * 13.0 / 40.0 + 0.1);
            let row = &cells.rows[cell(y)];
            assert!(row.iter().any(|(from, to)| (*from..*to).contains(&cell(x))), "{x} {y}");
        }
    }
}
