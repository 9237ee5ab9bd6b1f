//! Edges that nearly lie on a line, laid on it.

use super::pass::{NOTHING, may_lie};
use crate::lay::board::{Board, Spot};

/// How far a unit may be moved for a line, mm.
const REACH: f64 = 12.0;

/// What counts as on the line, mm.
const ON: f64 = 1e-6;

/// Moves units a little so that their low or high edges lie on the line of another's, across the cloth and along it.
pub(super) fn align(board: &mut Board) {
    let mut order: Vec<usize> = (0..board.units()).collect();
    for axis in [1, 0] {
        order.sort_by(|&a, &b| board.spots[a].at[axis].total_cmp(&board.spots[b].at[axis]).then(a.cmp(&b)));
        for &unit in &order {
            lay_on_a_line(board, unit, axis);
        }
    }
}

/// Low and high end of a unit along an axis, mm.
fn ends(board: &Board, unit: usize, axis: usize) -> [f64; 2] {
    let spot = board.spots[unit];
    let low = spot.at[axis];
    [low, low + board.table.shapes[board.way(unit, spot.way).shape].size[axis]]
}

/// How many ends of other units lie on the line of the same end of this one, were it moved by so much.
fn on_line(board: &Board, unit: usize, axis: usize, by: f64) -> usize {
    let own = ends(board, unit, axis);
    (0..board.units())
        .filter(|&other| other != unit)
        .map(|other| {
            let its = ends(board, other, axis);
            (0..2).filter(|&end| (own[end] + by - its[end]).abs() <= ON).count()
        })
        .sum()
}

fn lay_on_a_line(board: &mut Board, unit: usize, axis: usize) {
    let here = board.spots[unit];
    let own = ends(board, unit, axis);
    let mut shifts: Vec<f64> = (0..board.units())
        .filter(|&other| other != unit)
        .flat_map(|other| {
            let its = ends(board, other, axis);
            [its[0] - own[0], its[1] - own[1]]
        })
        .filter(|by| by.abs() > ON && by.abs() <= REACH)
        .collect();
    shifts.sort_by(|a, b| a.abs().total_cmp(&b.abs()).then(a.total_cmp(b)));
    shifts.dedup_by(|a, b| (*a - *b).abs() <= NOTHING);
    let allowed = board.standing(unit);
    let now = on_line(board, unit, axis, 0.0);
    for by in shifts {
        let mut at = here.at;
        at[axis] += by;
        let spot = Spot { way: here.way, at };
        if on_line(board, unit, axis, by) > now && may_lie(board, unit, spot, allowed) {
            board.place(unit, spot);
            return;
        }
    }
}
