//! A better place for one unit: sampled all over the cloth and around where it lies, then walked downhill.

use crate::lay::board::{Board, Spot};
use crate::lay::geom::Point;
use crate::lay::rng::Rng;

/// How many places are tried for a unit.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Sampling {
    /// All over the cloth.
    pub wide: usize,
    /// Around where the unit lies.
    pub near: usize,
    /// How many of the best are moved to where violations just vanish.
    pub kept: usize,
}

/// Moves a unit to the best place found, if that is better than where it lies.
pub(crate) fn relocate(board: &mut Board, unit: usize, sampling: &Sampling, rng: &mut Rng, scratch: &mut Scratch) {
    let here = board.spots[unit];
    let now = board.standing(unit);
    scratch.best.clear();
    scratch.keep(sampling.kept, now, here);
    sample(board, unit, sampling, rng, scratch);
    let mut best = (now, here);
    for k in 0..scratch.best.len() {
        let (cost, spot) = scratch.best[k];
        let way = board.way(unit, spot.way);
        let Some(along) = board.along(way) else { continue };
        let mut place = (cost, spot.at);
        jump(board, unit, spot.way, along, &mut place, &mut scratch.out);
        if place.0 < best.0 {
            best = (place.0, Spot { way: spot.way, at: place.1 });
        }
        if best.0 <= 0.0 {
            break;
        }
    }
    if best.0 > 0.0 {
        best = walk(board, unit, best, rng, &mut scratch.out);
    }
    if best.0 < now {
        board.place(unit, best.1);
    }
}

/// Room for candidates, reused from unit to unit.
#[derive(Debug, Default)]
pub(crate) struct Scratch {
    best: Vec<(f64, Spot)>,
    out: Vec<(f64, Point)>,
}

impl Scratch {
    /// The cost to beat.
    fn limit(&self, most: usize) -> f64 {
        if self.best.len() < most { f64::INFINITY } else { self.best[self.best.len() - 1].0 }
    }

    fn keep(&mut self, most: usize, cost: f64, spot: Spot) {
        if cost >= self.limit(most) {
            return;
        }
        let at = self.best.partition_point(|b| b.0 <= cost);
        self.best.insert(at, (cost, spot));
        self.best.truncate(most);
    }
}

fn sample(board: &mut Board, unit: usize, sampling: &Sampling, rng: &mut Rng, scratch: &mut Scratch) {
    let table = board.table;
    let here = board.spots[unit];
    let ways = table.kinds[table.units[unit].kind].len();
    let size_of = |board: &Board, way: usize| table.shapes[board.way(unit, way).shape].size;
    let old = size_of(board, here.way);
    for k in 0..sampling.wide + sampling.near {
        let wide = k < sampling.wide;
        // Near where it lies, mostly as it lies, sometimes turned about its middle.
        let turned = ways > 1 && (wide || rng.unit() < TURNED);
        let index = if turned { rng.below(ways) } else { here.way };
        let way = board.way(unit, index);
        let Some(along) = board.along(way) else { continue };
        let at = if wide {
            [rng.within(along.0, along.1), rng.within(way.across.0, way.across.1)]
        } else {
            let size = size_of(board, index);
            let reach = NEAR * (size[0] + size[1]);
            let corner = [0, 1].map(|axis| here.at[axis] + (old[axis] - size[axis]) / 2.0);
            [corner[0] + rng.within(-reach, reach), corner[1] + rng.within(-reach, reach)]
        };
        let spot = Spot { way: index, at: Board::project(way, at, along) };
        let cost = board.cost(unit, spot, scratch.limit(sampling.kept));
        scratch.keep(sampling.kept, cost, spot);
    }
}

/// How far near places are, as a share of the sides of the unit, and how many of them are tried turned.
const NEAR: f64 = 0.1;
const TURNED: f64 = 0.4;

/// Downhill from a place: along the shortest ways out of what is violated now and then, and between in steps along
/// the axes and the diagonals, shorter after each failure.
fn walk(
    board: &mut Board,
    unit: usize,
    (cost, spot): (f64, Spot),
    rng: &mut Rng,
    out: &mut Vec<(f64, Point)>,
) -> (f64, Spot) {
    let table = board.table;
    let way = board.way(unit, spot.way);
    let Some(along) = board.along(way) else { return (f64::INFINITY, spot) };
    let size = table.shapes[way.shape].size;
    let mut best = (cost, spot.at);
    let mut step = FIRST_STEP * (size[0] + size[1]);
    let mut turns = 0;
    while step > LAST_STEP * table.width {
        if turns % 6 == 0 {
            jump(board, unit, spot.way, along, &mut best, out);
        }
        if best.0 <= 0.0 {
            break;
        }
        turns += 1;
        let (dx, dy) = match rng.next() & 3 {
            0 => (step, 0.0),
            1 => (0.0, step),
            2 => (step * DIAGONAL, step * DIAGONAL),
            _ => (step * DIAGONAL, -step * DIAGONAL),
        };
        let mut better = false;
        for sign in [1.0, -1.0] {
            let at = Board::project(way, [best.1[0] + sign * dx, best.1[1] + sign * dy], along);
            if at == best.1 {
                continue;
            }
            let c = board.cost(unit, Spot { way: spot.way, at }, best.0);
            if c < best.0 {
                best = (c, at);
                better = true;
                break;
            }
        }
        step *= if better { 1.1 } else { 0.5 };
    }
    (best.0, Spot { way: spot.way, at: best.1 })
}

/// First step of a walk as a share of the sides of the unit; last step as a share of the width.
const FIRST_STEP: f64 = 0.05;
const LAST_STEP: f64 = 1e-3;

const DIAGONAL: f64 = std::f64::consts::FRAC_1_SQRT_2;

/// Tries the places at which one, or two, of the present violations just vanish.
fn jump(
    board: &mut Board,
    unit: usize,
    way_index: usize,
    along: (f64, f64),
    best: &mut (f64, Point),
    out: &mut Vec<(f64, Point)>,
) {
    let way = board.way(unit, way_index);
    for _ in 0..4 {
        let from = best.1;
        board.ways_out(unit, Spot { way: way_index, at: from }, out);
        out.sort_by(|a, b| b.0.total_cmp(&a.0));
        let mut tries: [Option<Point>; 3] = [None; 3];
        if let [a, b, ..] = out[..] {
            tries[0] = both(a.1, b.1);
        }
        if let [a, _, c, ..] = out[..] {
            tries[1] = both(a.1, c.1);
        }
        tries[2] = out.first().map(|a| a.1);
        let mut better = false;
        for v in tries.into_iter().flatten() {
            let at = Board::project(way, [from[0] + v[0], from[1] + v[1]], along);
            let c = board.cost(unit, Spot { way: way_index, at }, best.0);
            if c < best.0 {
                *best = (c, at);
                better = true;
                break;
            }
        }
        if !better || best.0 <= 0.0 {
            return;
        }
    }
}

/// The vector that goes all of `a` in the direction of `a`, and all of `b` in the direction of `b`.
fn both(a: Point, b: Point) -> Option<Point> {
    let (aa, bb) = (a[0] * a[0] + a[1] * a[1], b[0] * b[0] + b[1] * b[1]);
    let cross = a[0] * b[1] - a[1] * b[0];
    if cross * cross < 1e-4 * aa * bb {
        return None;
    }
    Some([(aa * b[1] - bb * a[1]) / cross, (bb * a[0] - aa * b[0]) / cross])
}
