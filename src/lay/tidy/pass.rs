//! The passes one after the other.

use super::align::align;
use super::group::group;
use super::push::{push, used_length};
use crate::lay::board::{Board, Spot};
use crate::lay::table::Table;

/// Tidies what lies on a strip, without making anything worse; returns the length used, mm.
pub(crate) fn tidy(table: &Table, length: f64, spots: Vec<Spot>) -> (f64, Vec<Spot>) {
    let mut board = Board::new(table, length, spots);
    push(&mut board);
    let pushed = used_length(&board).min(length);
    let spots = board.spots.clone();
    board.set_length(pushed, &spots);
    if group(&mut board) {
        push(&mut board);
    }
    align(&mut board);
    let used = used_length(&board);
    (used, board.spots)
}

/// Whether a unit may lie at a spot: where its domain lets it, on the length there is, and no deeper in others than
/// it was already.
pub(super) fn may_lie(board: &mut Board, unit: usize, spot: Spot, allowed: f64) -> bool {
    let way = board.way(unit, spot.way);
    let Some(along) = board.along(way) else { return false };
    let at = Board::project(way, spot.at, along);
    let there = (0..2).all(|axis| (at[axis] - spot.at[axis]).abs() <= NOTHING);
    there && board.cost(unit, spot, f64::INFINITY) <= allowed.max(NOTHING)
}

/// A distance that is none, mm.
pub(super) const NOTHING: f64 = 1e-9;

#[cfg(test)]
mod tests {
    use super::tidy;
    use crate::lay::board::{Board, Spot};
    use crate::lay::pose::Pose;
    use crate::lay::problem::{Choice, Domain, Item, Problem};
    use crate::lay::table::Table;

    fn item(name: &str, w: f64, h: f64, copies: usize) -> Item {
        let outline = vec![[0.0, 0.0], [w, 0.0], [w, h], [0.0, h]];
        let choice = Choice { pose: Pose::AS_DRAFTED, outline, domain: Domain::FREE };
        Item { name: name.to_owned(), copies, clearance: 2.0, choices: vec![choice] }
    }

    /// Two panels with a band of room above them and four tabs laid all over it: they come together in rows and
    /// columns, so that each stands in line with another on both sides of a corner, and the strip is no longer.
    #[test]
    fn copies_come_together_on_a_line() {
        let items = vec![item("panel", 400.0, 300.0, 2), item("tab", 50.0, 40.0, 4)];
        let table = Table::new(&Problem { width: 400.0, items }).expect("a problem");
        let spot = |x: f64, y: f64| Spot { way: 0, at: [x, y] };
        let tabs = [[30.0, 330.0], [250.0, 309.0], [420.0, 350.0], [700.0, 320.0]];
        let mut spots = vec![spot(0.0, 0.0), spot(402.0, 0.0)];
        spots.extend(tabs.map(|t| spot(t[0], t[1])));
        let (length, tidied) = tidy(&table, 802.0, spots);
        assert!((length - 802.0).abs() < 1e-6, "{length}");
        let tabs: Vec<[f64; 2]> = tidied[2..].iter().map(|s| s.at).collect();
        let extent = |axis: usize| {
            let values = || tabs.iter().map(|t| t[axis]);
            values().fold(f64::NEG_INFINITY, f64::max) - values().fold(f64::INFINITY, f64::min)
        };
        assert!(extent(0) < 3.0 * 52.0 + 0.1 && extent(1) < 42.0 + 0.1, "together: {tabs:?}");
        for (k, tab) in tabs.iter().enumerate() {
            let in_line =
                |axis: usize| tabs.iter().enumerate().any(|(j, t)| j != k && (t[axis] - tab[axis]).abs() < 1e-6);
            assert!(in_line(0) || in_line(1), "in line: {tabs:?}");
        }
    }

    /// Copies stay where no room is beside the others, and nothing ever gets longer or overlaps.
    #[test]
    fn tidying_makes_nothing_worse() {
        let items = vec![item("panel", 300.0, 200.0, 3), item("tab", 50.0, 40.0, 5), item("band", 280.0, 60.0, 2)];
        let table = Table::new(&Problem { width: 420.0, items }).expect("a problem");
        let n = table.units.len();
        for turn in 0..n {
            let mut order: Vec<usize> = (0..n).collect();
            order.rotate_left(turn);
            let (length, spots) = crate::lay::fill::fill(&table, &order, false).expect("room");
            let (once, spots) = tidy(&table, length, spots);
            let (twice, again) = tidy(&table, once, spots);
            assert!(once <= length + 1e-9 && twice <= once + 1e-9, "{length} {once} {twice}");
            assert!(Board::new(&table, twice, again).total() < 1e-6);
        }
    }
}
