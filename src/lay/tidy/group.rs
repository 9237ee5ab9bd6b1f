//! Copies of a piece brought next to each other: left and right too, as they are one piece to the person cutting.

use super::pass::may_lie;
use crate::lay::board::{Board, Spot};
use crate::lay::geom::Point;

/// Moves units to the side of their copies, or swaps places with others, as long as the copies lie nearer together
/// for it; whether anything moved.
pub(super) fn group(board: &mut Board) -> bool {
    let families = families(board);
    let mut moved = false;
    for _ in 0..ROUNDS {
        let mut better = false;
        // The small ones first: there is room for them.
        for unit in (0..board.units()).rev() {
            better |= beside_a_copy(board, unit, &families) || swapped(board, unit, &families);
        }
        moved |= better;
        if !better {
            break;
        }
    }
    moved
}

const ROUNDS: usize = 4;

/// What must be won for a move, mm.
const WORTH: f64 = 5.0;

/// Units that are copies of one another or mirror images: the same sizes and area.
fn families(board: &Board) -> Vec<Vec<usize>> {
    let table = board.table;
    let key = |unit: usize| {
        let kind = table.units[unit].kind;
        let mut sizes: Vec<[i64; 2]> =
            table.kinds[kind].iter().map(|way| table.shapes[way.shape].size.map(|v| (v * 100.0) as i64)).collect();
        sizes.sort_unstable();
        sizes.dedup();
        ((table.areas[kind] * 100.0) as i64, sizes)
    };
    let keys: Vec<_> = (0..board.units()).map(key).collect();
    let members = |unit: usize| (0..keys.len()).filter(|&other| other != unit && keys[other] == keys[unit]).collect();
    (0..keys.len()).map(members).collect()
}

fn size(board: &Board, unit: usize, way: usize) -> Point {
    board.table.shapes[board.way(unit, way).shape].size
}

fn centre(board: &Board, unit: usize) -> Point {
    let spot = board.spots[unit];
    let size = size(board, unit, spot.way);
    [spot.at[0] + size[0] / 2.0, spot.at[1] + size[1] / 2.0]
}

/// How far a unit in a place would be from its copies: the nearest, and a little of all others, mm.
fn loneliness(board: &Board, unit: usize, middle: Point, families: &[Vec<usize>], apart_from: usize) -> f64 {
    let others = families[unit].iter().filter(|&&other| other != apart_from);
    let (mut nearest, mut sum, mut count) = (f64::INFINITY, 0.0, 0.0);
    for &other in others {
        let c = centre(board, other);
        let d = [c[0] - middle[0], c[1] - middle[1]];
        let distance = (d[0] * d[0] + d[1] * d[1]).sqrt();
        nearest = nearest.min(distance);
        sum += distance;
        count += 1.0;
    }
    if count > 0.0 { nearest + sum / count } else { 0.0 }
}

/// Puts a unit beside, above or below one of its copies, edges in line, where it is less lonely than now.
fn beside_a_copy(board: &mut Board, unit: usize, families: &[Vec<usize>]) -> bool {
    let here = board.spots[unit];
    let allowed = board.standing(unit);
    let mut best = (loneliness(board, unit, centre(board, unit), families, unit) - WORTH, here);
    let ways = board.table.kinds[board.table.units[unit].kind].len();
    for &copy in &families[unit] {
        let (beside, its) = (board.spots[copy], size(board, copy, board.spots[copy].way));
        for way in 0..ways {
            let own = size(board, unit, way);
            let shape = |u: usize, w: usize| &board.table.shapes[board.way(u, w).shape];
            let gap = shape(unit, way).clearance.max(shape(copy, beside.way).clearance);
            let [x, y] = beside.at;
            let places = [
                [x, y + its[1] + gap],
                [x, y - own[1] - gap],
                [x + its[0] + gap, y],
                [x - own[0] - gap, y],
                [x + its[0] + gap, y + its[1] - own[1]],
                [x - own[0] - gap, y + its[1] - own[1]],
            ];
            for at in places {
                let middle = [at[0] + own[0] / 2.0, at[1] + own[1] / 2.0];
                let lonely = loneliness(board, unit, middle, families, unit);
                let spot = Spot { way, at };
                if lonely < best.0 && may_lie(board, unit, spot, allowed) {
                    best = (lonely, spot);
                }
            }
        }
    }
    if best.1 == here {
        return false;
    }
    // The copies it leaves must not be lonelier by more than it wins.
    let before = all_of(board, unit, families);
    board.place(unit, best.1);
    if all_of(board, unit, families) < before - WORTH {
        return true;
    }
    board.place(unit, here);
    false
}

/// Loneliness of a unit and its copies, mm.
fn all_of(board: &Board, unit: usize, families: &[Vec<usize>]) -> f64 {
    let one = |u: usize| loneliness(board, u, centre(board, u), families, u);
    families[unit].iter().map(|&u| one(u)).sum::<f64>() + one(unit)
}

/// Swaps a unit with one of another family, lower left corners exchanged, where both families gain.
fn swapped(board: &mut Board, unit: usize, families: &[Vec<usize>]) -> bool {
    if families[unit].is_empty() {
        return false;
    }
    for other in 0..board.units() {
        if other == unit || families[unit].contains(&other) {
            continue;
        }
        let (a, b) = (board.spots[unit], board.spots[other]);
        let allowed = [board.standing(unit), board.standing(other)];
        let before = all_of(board, unit, families) + all_of(board, other, families);
        board.place(unit, Spot { way: a.way, at: b.at });
        board.place(other, Spot { way: b.way, at: a.at });
        let better = all_of(board, unit, families) + all_of(board, other, families) < before - WORTH;
        let (there, back) = (board.spots[unit], board.spots[other]);
        if better && may_lie(board, unit, there, allowed[0]) && may_lie(board, other, back, allowed[1]) {
            return true;
        }
        board.place(unit, a);
        board.place(other, b);
    }
    false
}
