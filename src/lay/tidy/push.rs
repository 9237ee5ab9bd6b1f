//! Everything pushed to the beginning of the cloth and to one edge.

use crate::lay::board::{Board, Spot};
use crate::lay::problem::Axis;

/// Pushes units left and down as far as they slide, without making anything worse.
pub(super) fn push(board: &mut Board) {
    let mut order: Vec<usize> = (0..board.units()).collect();
    for _ in 0..8 {
        let mut moved = false;
        for axis in [0, 1] {
            order.sort_by(|&a, &b| board.spots[a].at[axis].total_cmp(&board.spots[b].at[axis]).then(a.cmp(&b)));
            for &unit in &order {
                moved |= slide(board, unit, axis);
            }
        }
        if !moved {
            break;
        }
    }
}

/// How long the strip must be for what lies on it, mm.
pub(super) fn used_length(board: &Board) -> f64 {
    (0..board.units())
        .map(|unit| {
            let spot = board.spots[unit];
            let way = board.way(unit, spot.way);
            let after =
                if let Axis::Span { after, .. } | Axis::Lattice { after, .. } = way.domain.along { after } else { 0.0 };
            spot.at[0] + board.table.shapes[way.shape].size[0] + after
        })
        .fold(0.0, f64::max)
}

/// Slides one unit towards lower x (axis 0) or y (1), never through another; whether it moved.
fn slide(board: &mut Board, unit: usize, axis: usize) -> bool {
    let start = board.spots[unit];
    let way = board.way(unit, start.way);
    let Some(along) = board.along(way) else { return false };
    let allowed = board.cost(unit, start, f64::INFINITY);
    let mut spot = start;
    let mut step = board.table.width * 0.02;
    let least = board.table.width * 1e-5;
    while step > least {
        let mut at = spot.at;
        at[axis] -= step;
        let next = Spot { way: spot.way, at: Board::project(way, at, along) };
        let free = next.at[axis] < spot.at[axis] - 1e-9 && board.cost(unit, next, f64::INFINITY) <= allowed;
        if free {
            spot = next;
        } else {
            step /= 2.0;
        }
    }
    if spot.at[axis] < start.at[axis] - least {
        board.place(unit, spot);
        return true;
    }
    false
}
