//! Pieces whose outline moved.

use serde::Serialize;

use crate::book::Account;
use crate::draft::Piece;
use crate::units::Length;

/// How far an outline must move before it counts, mm: under what scissors cut.
const MOVED: f64 = 0.1;
/// How close together an outline is looked at, mm.
const STEP: f64 = 2.0;
/// How exactly curves are followed, mm.
const FLAT: f64 = 0.02;

/// A piece that is not what it was.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PieceChange {
    /// Its name in the file.
    pub name: String,
    /// Its name on the pattern.
    pub title: String,
    /// What happened to it.
    pub what: PieceFate,
    /// The sizes in which its cut line moved, each with the largest distance.
    pub moved: Vec<(String, Length)>,
    /// Old and new cut line of the size in which it moved the most.
    #[serde(skip)]
    pub overlay: Option<Overlay>,
}

/// What happened to a piece.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum PieceFate {
    /// It is new.
    New,
    /// It is gone.
    Gone,
    /// Its cut line moved.
    Moved,
    /// Its line is the same, but it is cut otherwise: how many, of which cloth.
    Cut,
}

/// Two cut lines laid on each other, mm, x to the right and y down.
#[derive(Debug, Clone, PartialEq)]
pub struct Overlay {
    /// The size.
    pub size: String,
    /// The old line, closed.
    pub old: Vec<[f64; 2]>,
    /// The new line, closed.
    pub new: Vec<[f64; 2]>,
    /// Where they are farthest apart: a place on one, and the nearest on the other.
    pub apart: ([f64; 2], [f64; 2]),
}

/// Every piece that is not what it was, in the sizes both have.
pub(super) fn pieces(old: &Account, new: &Account) -> Vec<PieceChange> {
    let mut names: Vec<&String> = new.sizes.iter().flat_map(|sized| sized.pieces.keys()).collect();
    names.extend(old.sizes.iter().flat_map(|sized| sized.pieces.keys()));
    let mut done: Vec<PieceChange> = Vec::new();
    for name in names {
        if done.iter().any(|change| change.name == *name) {
            continue;
        }
        let find = |account: &'_ Account| account.sizes.iter().find_map(|sized| sized.pieces.get(name)).cloned();
        let change = match (find(old), find(new)) {
            (None, Some(piece)) => Some(plain(&piece, PieceFate::New)),
            (Some(piece), None) => Some(plain(&piece, PieceFate::Gone)),
            (Some(_), Some(piece)) => moved(old, new, &piece),
            (None, None) => None,
        };
        done.extend(change);
    }
    done
}

fn plain(piece: &Piece, what: PieceFate) -> PieceChange {
    PieceChange { name: piece.name.clone(), title: piece.title.clone(), what, moved: Vec::new(), overlay: None }
}

fn moved(old: &Account, new: &Account, piece: &Piece) -> Option<PieceChange> {
    let mut change = plain(piece, PieceFate::Moved);
    let mut most = 0.0;
    let mut cut_otherwise = false;
    for before in &old.sizes {
        let Some(after) = new.sizes.iter().find(|sized| sized.size == before.size) else { continue };
        let (Some(was), Some(is)) = (before.pieces.get(&piece.name), after.pieces.get(&piece.name)) else { continue };
        cut_otherwise |= was.cuts != is.cuts;
        let (old_line, new_line) = laid(&outline(was), &outline(is));
        let (distance, apart) = farthest(&old_line, &new_line);
        if distance < MOVED {
            continue;
        }
        change.moved.push((before.size.clone(), Length::mm(distance)));
        if distance > most {
            most = distance;
            change.overlay = Some(Overlay { size: before.size.clone(), old: old_line, new: new_line, apart });
        }
    }
    match (change.moved.is_empty(), cut_otherwise) {
        (false, _) => Some(change),
        (true, true) => Some(PieceChange { what: PieceFate::Cut, ..change }),
        (true, false) => None,
    }
}

fn outline(piece: &Piece) -> Vec<[f64; 2]> {
    piece.full_cut().flat(FLAT).into_iter().map(|point| [point.x, point.y]).collect()
}

/// Two lines laid on each other the way they fit best: as drawn, or by the middles of their upper or lower edges, or by an
/// upper corner of the boxes about them.
fn laid(old: &[[f64; 2]], new: &[[f64; 2]]) -> (Vec<[f64; 2]>, Vec<[f64; 2]>) {
    let (a, b) = (frame(old), frame(new));
    let middle = (a[0] + a[2] - b[0] - b[2]) / 2.0;
    let ways = [
        [0.0, 0.0],
        [middle, a[1] - b[1]],
        [middle, a[3] - b[3]],
        [a[0] - b[0], a[1] - b[1]],
        [a[2] - b[2], a[1] - b[1]],
    ];
    let shifted = |by: [f64; 2]| new.iter().map(|[x, y]| [x + by[0], y + by[1]]).collect::<Vec<_>>();
    let mut best = (f64::INFINITY, new.to_vec());
    for by in ways {
        let line = shifted(by);
        let (distance, _) = farthest(old, &line);
        if distance < best.0 - 1e-9 {
            best = (distance, line);
        }
    }
    (old.to_vec(), best.1)
}

fn frame(line: &[[f64; 2]]) -> [f64; 4] {
    line.iter().fold([f64::INFINITY, f64::INFINITY, f64::NEG_INFINITY, f64::NEG_INFINITY], |[l, t, r, b], [x, y]| {
        [l.min(*x), t.min(*y), r.max(*x), b.max(*y)]
    })
}

/// The Hausdorff distance of two closed lines, and where it is: the largest way from a place of either to the other.
pub(super) fn farthest(a: &[[f64; 2]], b: &[[f64; 2]]) -> (f64, ([f64; 2], [f64; 2])) {
    let mut most = (0.0, ([0.0; 2], [0.0; 2]));
    for (one, other) in [(a, b), (b, a)] {
        for place in dense(one) {
            let Some((distance, near)) = nearest(place, other) else { continue };
            if distance > most.0 {
                most = (distance, (place, near));
            }
        }
    }
    most
}

/// The corners of a closed line, and places between them no farther apart than the step.
fn dense(line: &[[f64; 2]]) -> Vec<[f64; 2]> {
    let mut places = Vec::new();
    for (from, to) in sides(line) {
        let long = (to[0] - from[0]).hypot(to[1] - from[1]);
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
        let parts = (long / STEP).ceil().clamp(1.0, 10_000.0) as u32;
        for at in 0..parts {
            let share = f64::from(at) / f64::from(parts);
            places.push([from[0] + (to[0] - from[0]) * share, from[1] + (to[1] - from[1]) * share]);
        }
    }
    places
}

fn sides(line: &[[f64; 2]]) -> impl Iterator<Item = ([f64; 2], [f64; 2])> + '_ {
    let next = line.iter().skip(1).chain(line.first());
    line.iter().copied().zip(next.copied())
}

fn nearest(place: [f64; 2], line: &[[f64; 2]]) -> Option<(f64, [f64; 2])> {
    let mut best: Option<(f64, [f64; 2])> = None;
    for (from, to) in sides(line) {
        let (dx, dy) = (to[0] - from[0], to[1] - from[1]);
        let square = dx * dx + dy * dy;
        let share = if square > 0.0 {
            (((place[0] - from[0]) * dx + (place[1] - from[1]) * dy) / square).clamp(0.0, 1.0)
        } else {
            0.0
        };
        let near = [from[0] + dx * share, from[1] + dy * share];
        let distance = (place[0] - near[0]).hypot(place[1] - near[1]);
        if best.is_none_or(|(least, _)| distance < least) {
            best = Some((distance, near));
        }
    }
    best
}

#[cfg(test)]
mod tests {
    use super::{farthest, laid};

    /// Closed forms: a square against a larger one of the same centre (a corner is farthest: the distance times the root of
    /// two), a square against itself moved, a bump on one side.
    #[test]
    fn distances_of_known_shapes() {
        let square = |x: f64, y: f64, side: f64| vec![[x, y], [x + side, y], [x + side, y + side], [x, y + side]];
        let (apart, _) = farthest(&square(0.0, 0.0, 100.0), &square(-5.0, -5.0, 110.0));
        assert!((apart - 5.0 * 2.0_f64.sqrt()).abs() < 1e-9);
        let (apart, _) = farthest(&square(0.0, 0.0, 100.0), &square(3.0, 0.0, 100.0));
        assert!((apart - 3.0).abs() < 1e-9);
        let bump = vec![[0.0, 0.0], [50.0, -7.0], [100.0, 0.0], [100.0, 100.0], [0.0, 100.0]];
        let (apart, (place, near)) = farthest(&square(0.0, 0.0, 100.0), &bump);
        assert!((apart - 7.0).abs() < 1e-9);
        assert_eq!((place, near), ([50.0, -7.0], [50.0, 0.0]));
        let (old, new) = laid(&square(0.0, 0.0, 100.0), &square(400.0, -20.0, 100.0));
        assert!(farthest(&old, &new).0 < 1e-9, "where a piece lies on the page does not count");
    }
}
