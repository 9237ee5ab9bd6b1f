//! How each kind of line is drawn.

use super::drawing::Kind;
use super::page::{Pen, Sizes};
use crate::draft::MarkKind;

/// The lines of the sizes, told apart without colour: lengths of dashes and gaps, mm.
const SIZES: [&[f64]; 9] = [
    &[],
    &[9.0, 2.0],
    &[4.0, 1.6],
    &[1.6, 1.2],
    &[9.0, 1.4, 0.6, 1.4],
    &[9.0, 1.4, 0.6, 1.4, 0.6, 1.4],
    &[9.0, 1.6, 3.0, 1.6],
    &[4.0, 1.4, 0.6, 1.4],
    &[14.0, 1.6, 1.6, 1.6, 1.6, 1.6],
];

/// The line of a size among several. After nine the pattern repeats, half as thick again.
#[must_use]
pub fn size_pen(index: usize, save_ink: bool) -> Pen {
    let thin = if save_ink { 0.25 } else { 0.4 };
    let width = if (index / SIZES.len()) % 2 == 1 { thin * 1.6 } else { thin };
    Pen { width, dash: SIZES.get(index % SIZES.len()).copied().unwrap_or(&[]), grey: 0.0 }
}

/// The pen of a line. `several`: whether there are several sizes on the sheet.
#[must_use]
pub fn pen(kind: Kind, sizes: Sizes, several: bool, save_ink: bool, boldness: f64) -> Pen {
    let ink = if save_ink { 0.6 } else { 1.0 };
    let usual = match kind {
        Kind::Cut if several && sizes.len() == 1 => size_pen(sizes.first().unwrap_or(0), save_ink),
        Kind::Cut if several => Pen::solid(0.4 * ink),
        Kind::Cut => Pen::solid(0.6 * ink),
        Kind::Fold => Pen::solid(0.5 * ink).dashed(&[12.0, 2.0, 3.0, 2.0, 3.0, 2.0]),
        Kind::Seam => Pen::solid(0.25).dashed(&[3.0, 1.8]),
        Kind::Notch => Pen::solid(0.5 * ink),
        Kind::Grain | Kind::Arrow => Pen::solid(0.3),
        Kind::Dart => Pen::solid(0.3).dashed(&[3.0, 1.8]),
        Kind::Drill => Pen::solid(0.25),
        Kind::Mark(MarkKind::Fold | MarkKind::Centre) => Pen::solid(0.25).dashed(&[8.0, 1.6, 1.6, 1.6]),
        Kind::Mark(MarkKind::Stitch | MarkKind::Row) => Pen::solid(0.25).dashed(&[1.8, 1.4]),
        Kind::Mark(MarkKind::Channel | MarkKind::Place) => Pen::solid(0.25),
        Kind::Mark(MarkKind::Cut) => Pen::solid(0.4 * ink).dashed(&[5.0, 1.2]),
        Kind::Mark(MarkKind::Guide) => Pen::solid(0.15),
    };
    // What lies within a piece, in the dashes of its size.
    let own = several && sizes.len() == 1 && matches!(kind, Kind::Seam | Kind::Dart | Kind::Mark(_));
    let dash = if own { size_pen(sizes.first().unwrap_or(0), save_ink).dash } else { usual.dash };
    Pen { width: usual.width * boldness, dash, ..usual }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_two_of_eighteen_sizes_look_alike() {
        let pens: Vec<Pen> = (0..18).map(|index| size_pen(index, false)).collect();
        for (at, pen) in pens.iter().enumerate() {
            assert!(!pens[..at].contains(pen), "size {at}");
        }
    }
}
