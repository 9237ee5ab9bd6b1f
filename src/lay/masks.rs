//! A coarse raster of the cloth that tells which units a box may touch.

use crate::lay::geom::Point;

/// Which units reach to where, as bits: for each column of a coarse raster of the cloth those that begin in it or
/// before, and those that end in it or after; for each row likewise. What a box may touch is four words and-ed.
#[derive(Debug, Clone)]
pub(crate) struct Masks {
    words: usize,
    per: Point,
    /// Begun, ended by column; begun, ended by row.
    reach: [Vec<u64>; 4],
}

const CELLS: [usize; 2] = [96, 48];

impl Masks {
    pub fn new(units: usize, length: f64, width: f64) -> Self {
        let words = units.div_ceil(64);
        Self {
            words,
            per: [CELLS[0] as f64 / length, CELLS[1] as f64 / width],
            reach: [0, 0, 1, 1].map(|axis: usize| vec![0; CELLS[axis] * words]),
        }
    }

    pub fn clear(&mut self) {
        self.reach.iter_mut().for_each(|r| r.fill(0));
    }

    #[inline]
    fn cell(&self, axis: usize, at: f64) -> usize {
        ((at * self.per[axis]) as usize).min(CELLS[axis] - 1)
    }

    /// A unit comes to lie in a box, or leaves it.
    pub fn change(&mut self, unit: usize, low: Point, high: Point, clearance: f64, set: bool) {
        let (word, bit) = (unit / 64, 1u64 << (unit % 64));
        for axis in [0, 1] {
            let first = self.cell(axis, low[axis] - clearance);
            let last = self.cell(axis, high[axis] + clearance);
            for (reach, cells) in [(2 * axis, first..CELLS[axis]), (2 * axis + 1, 0..last + 1)] {
                for cell in cells {
                    let bits = &mut self.reach[reach][cell * self.words + word];
                    *bits = if set { *bits | bit } else { *bits & !bit };
                }
            }
        }
    }

    /// Units that may touch a box, in order of their index, until `visit` says to stop.
    #[inline]
    pub fn each(&self, low: Point, high: Point, mut visit: impl FnMut(usize) -> bool) {
        let from = [0, 1].map(|axis| self.cell(axis, low[axis]) * self.words);
        let to = [0, 1].map(|axis| self.cell(axis, high[axis]) * self.words);
        for word in 0..self.words {
            let mut bits = self.reach[0][to[0] + word]
                & self.reach[1][from[0] + word]
                & self.reach[2][to[1] + word]
                & self.reach[3][from[1] + word];
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
