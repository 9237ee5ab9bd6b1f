//! Swatches of the key: what each side of cloth and each line looks like.

use kurbo::Vec2;

use super::figure::{Drawn, KeyEntry, Scale};
use super::geom::{line, pt, rect};
use super::hand::{DOWN, Up};
use super::look::Look;
use super::pen::Pen;
use super::scene::{Scene, Words};

/// Width of a swatch without its margin, mm.
const WIDE: f64 = 14.0;
/// Height of the same, mm.
const HIGH: f64 = 8.0;

/// A small drawing of one entry of the key, without words; the words are [`KeyEntry::words`].
///
/// # Errors
/// None in practice; it draws fixed shapes.
pub fn key_swatch(entry: KeyEntry, look: &Look) -> Drawn {
    let mut s = Scene::new(look);
    let area = rect(0.0, 0.0, WIDE, HIGH);
    let (left, right) = (pt(1.0, HIGH / 2.0), pt(WIDE - 1.0, HIGH / 2.0));
    let middle = line(left, right);
    // An unseen frame, so that all swatches are of one size.
    s.fill(area.clone(), super::look::Paint::White);
    match entry {
        KeyEntry::RightSide | KeyEntry::WrongSide | KeyEntry::UnderCloth | KeyEntry::Interlining => {
            let up = match entry {
                KeyEntry::RightSide => Up::Right,
                KeyEntry::WrongSide => Up::Wrong,
                KeyEntry::UnderCloth => Up::Under,
                _ => Up::Interlining,
            };
            s.cloth(area.clone(), up, DOWN);
            s.stroke(area, Pen::THIN);
        }
        KeyEntry::InSection => s.section(&middle, Up::Right, false, (true, false)),
        KeyEntry::CutEdge | KeyEntry::FoldedEdge => {
            s.cloth(rect(0.0, HIGH / 2.0, WIDE, HIGH), Up::Right, DOWN);
            let edge = line(pt(0.35, HIGH / 2.0), pt(WIDE - 0.35, HIGH / 2.0));
            if entry == KeyEntry::CutEdge { s.cut(edge) } else { s.fold(edge) }
        }
        KeyEntry::FoldLine => s.fold_line(middle),
        KeyEntry::SeamLine => s.seam_line(middle),
        KeyEntry::MachineStitch => s.machine(middle),
        KeyEntry::HandStitch => {
            let points: Vec<_> = (0..=6).map(|i| pt(1.0 + 2.0 * f64::from(i), HIGH / 2.0)).collect();
            s.uses(entry);
            s.running(&points);
        }
        KeyEntry::GatherThread => {
            s.uses(entry);
            s.knot(pt(2.0, HIGH / 2.0 - 0.4));
            s.stroke(line(pt(2.0, HIGH / 2.0 - 0.4), pt(8.0, HIGH / 2.0 - 0.4)), Pen::THREAD);
            s.tail(pt(8.0, HIGH / 2.0 - 0.4), Vec2::new(1.0, 0.1), 5.0);
        }
        KeyEntry::Mark => s.mark(middle),
        KeyEntry::Grain => s.grain(left, right),
        KeyEntry::Movement => s.arrow(&[left, right]),
    }
    let words = entry.words();
    s.finish(Words { caption: words.to_string(), alt: format!("Key: {words}.") }, Scale::NotToScale)
}
