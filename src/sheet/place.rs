//! Finding places for the pieces, so that as few tiles as possible have anything on them.

use kurbo::{Point, Rect, Vec2};

use super::raster::{Board, Cells, Grain};

/// How far pieces stay apart on the paper, mm.
const GAP: f64 = 3.0;
/// Room kept round a part, so that its line is printed in its full thickness, mm.
const LINE: f64 = 0.6;
/// No part is placed farther down than so many rows of tiles.
const ROWS: usize = 1000;

/// One way a part may lie on the paper.
#[derive(Debug, Clone)]
pub struct Pose {
    /// What it covers, corner by corner, mm.
    pub shapes: Vec<Vec<Point>>,
}

impl Pose {
    /// The box about it.
    #[must_use]
    pub fn bounds(&self) -> Rect {
        let points = self.shapes.iter().flatten();
        points.map(|p| Rect::from_points(*p, *p)).reduce(|a, b| a.union(b)).unwrap_or(Rect::ZERO)
    }

    fn area(&self) -> f64 {
        self.shapes.iter().map(|shape| area(shape)).fold(0.0, f64::max)
    }
}

/// The area of a shape, mm².
#[must_use]
pub fn area(shape: &[Point]) -> f64 {
    let next = shape.iter().cycle().skip(1);
    (shape.iter().zip(next).map(|(a, b)| a.x * b.y - b.x * a.y).sum::<f64>() / 2.0).abs()
}

/// The paper.
#[derive(Debug, Clone, Copy)]
pub struct Paper {
    /// The size of a tile, mm.
    pub tile: (f64, f64),
    /// Cells of the search across and down a tile.
    pub cells: (usize, usize),
    /// The most tiles side by side; none for as many as turn out best.
    pub columns: Option<usize>,
    /// Whether a part must lie on no more tiles than it needs at least.
    pub whole: bool,
}

/// Where a part lies.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spot {
    /// Which of its poses.
    pub pose: usize,
    /// How far the pose is moved, mm.
    pub by: Vec2,
}

/// Places for all parts.
#[derive(Debug, Clone, Default)]
pub struct Placed {
    /// One for each part, in the order given.
    pub spots: Vec<Spot>,
    /// Tiles side by side.
    pub columns: usize,
    /// Rows of tiles.
    pub rows: usize,
    /// Tiles with something on them.
    pub used: usize,
}

/// A pose in cells.
struct Shape {
    cells: Cells,
    tight: Cells,
    corner: Point,
    /// Its width and height, mm.
    extent: (f64, f64),
    /// The tiles it may touch, as steps from the tile its corner lies in.
    masks: Vec<Vec<(usize, usize)>>,
    /// Which of them it touches, for each cell of a tile its corner may lie in.
    mask_at: Vec<usize>,
}

/// Which poses a trial allows, where a part has others to choose from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Lie {
    /// All, and the whole may grow long.
    Free,
    /// All.
    Any,
    /// Longer across than down: long strips then lie side by side over one row of tiles.
    Across,
    /// Longer down than across.
    Down,
}

impl Lie {
    const ALL: [Lie; 4] = [Lie::Free, Lie::Any, Lie::Across, Lie::Down];

    fn allows(self, shape: &Shape) -> bool {
        let (width, height) = shape.extent;
        match self {
            Lie::Free | Lie::Any => true,
            Lie::Across => width >= height,
            Lie::Down => height >= width,
        }
    }
}

/// Places the parts. `parts` holds the poses of each. The largest come first; each goes where it needs the fewest tiles that
/// are not in use yet, then the fewest tiles, then where the whole stays nearest to a square, then as far up and to the
/// left as it can. Several numbers of columns, two orders and four ways of lying are tried, and the best is taken.
#[must_use]
#[allow(clippy::cast_precision_loss)]
pub fn place(parts: &[Vec<Pose>], paper: &Paper) -> Placed {
    let grain = Grain { x: paper.tile.0 / paper.cells.0 as f64, y: paper.tile.1 / paper.cells.1 as f64 };
    let shapes: Vec<Vec<Shape>> =
        parts.iter().map(|poses| poses.iter().map(|pose| shape(pose, grain, paper.cells)).collect()).collect();
    let across = |shape: &Shape| shape.tight.wide.div_ceil(paper.cells.0);
    let narrowest = |poses: &Vec<Shape>| poses.iter().map(across).min().unwrap_or(1);
    let least = shapes.iter().map(narrowest).max().unwrap_or(1);
    let trials: Vec<usize> = match paper.columns {
        Some(columns) => vec![columns],
        None => (0..5).map(|more| least.max(4) + more).collect(),
    };
    let mut orders: Vec<Vec<usize>> = Vec::new();
    let extent = |part: &usize, by: &dyn Fn(&Pose) -> f64| parts[*part].iter().map(by).fold(0.0, f64::max);
    for by in [&(|pose: &Pose| pose.area()) as &dyn Fn(&Pose) -> f64, &|pose: &Pose| {
        pose.bounds().width().max(pose.bounds().height())
    }] {
        let mut order: Vec<usize> = (0..parts.len()).collect();
        order.sort_by(|a, b| extent(b, by).total_cmp(&extent(a, by)).then(a.cmp(b)));
        if !orders.contains(&order) {
            orders.push(order);
        }
    }
    let mut best: Option<Placed> = None;
    for columns in trials {
        for (order, lie) in orders.iter().flat_map(|order| Lie::ALL.map(|lie| (order, lie))) {
            let found = run(&shapes, order, columns, lie, paper, grain);
            let better = |best: &Placed| {
                let key =
                    |placed: &Placed| (placed.used, placed.rows.max(placed.columns), placed.rows * placed.columns);
                key(&found) < key(best)
            };
            if best.as_ref().is_none_or(better) {
                best = Some(found);
            }
        }
    }
    best.unwrap_or_default()
}

fn shape(pose: &Pose, grain: Grain, tile: (usize, usize)) -> Shape {
    let tight = pose.bounds().inflate(LINE, LINE);
    // The gap is kept to the right and below only, so that a part may begin at the very corner of a tile.
    let frame = Rect::new(tight.x0, tight.y0, tight.x1 + GAP, tight.y1 + GAP);
    let cells = Cells::covering(&pose.shapes, frame, GAP, grain);
    let tight_cells = Cells::covering(&pose.shapes, tight, LINE, grain);
    let (mut masks, mut mask_at) = (Vec::new(), Vec::new());
    for at in 0..tile.0 * tile.1 {
        let mask = tight_cells.tiles(at % tile.0, at / tile.0, tile);
        let known = masks.iter().position(|other| *other == mask).unwrap_or_else(|| {
            masks.push(mask);
            masks.len() - 1
        });
        mask_at.push(known);
    }
    Shape { cells, tight: tight_cells, corner: tight.origin(), extent: (tight.width(), tight.height()), masks, mask_at }
}

/// How good a place is: smaller is better.
type Score = (usize, usize, usize, usize, usize);

#[allow(clippy::cast_precision_loss)]
fn run(shapes: &[Vec<Shape>], order: &[usize], columns: usize, lie: Lie, paper: &Paper, grain: Grain) -> Placed {
    let (tile, wide) = (paper.cells, columns * paper.cells.0);
    let mut board = Board::default();
    let mut used: Vec<Vec<bool>> = Vec::new();
    let mut spots = vec![Spot { pose: 0, by: Vec2::ZERO }; shapes.len()];
    for part in order {
        let poses = &shapes[*part];
        let needs = |shape: &Shape| shape.tight.wide.div_ceil(tile.0) * shape.tight.high().div_ceil(tile.1);
        let fewest = poses.iter().map(needs).min().unwrap_or(1);
        let mut best: Option<(Score, usize, usize, usize)> = None;
        for (index, shape) in poses.iter().enumerate() {
            let fits = |shape: &Shape| shape.tight.wide <= wide && lie.allows(shape);
            // A part that can only lie the other way may.
            if shape.tight.wide > wide || (!lie.allows(shape) && poses.iter().any(fits)) {
                continue;
            }
            // One row beyond the last, as the gap below a part may reach into the next.
            let (rows, across) = ((used.len() + 1).min(ROWS), wide - shape.tight.wide);
            for (row, column) in (0..=rows).flat_map(|row| (0..=across / tile.0).map(move |column| (row, column))) {
                let is_used = |(dx, dy): &(usize, usize)| {
                    used.get(row + dy).and_then(|row| row.get(column + dx)).copied().unwrap_or(false)
                };
                let cost = |mask: &Vec<(usize, usize)>| {
                    let over = if paper.whole { mask.len().saturating_sub(fewest) } else { 0 };
                    (over * 1000 + mask.iter().filter(|step| !is_used(step)).count(), mask.len())
                };
                let costs: Vec<(usize, usize)> = shape.masks.iter().map(cost).collect();
                for (at, mask) in shape.mask_at.iter().enumerate() {
                    let (x, y) = (column * tile.0 + at % tile.0, row * tile.1 + at / tile.0);
                    let end = ((x + shape.tight.wide) / tile.0).max((y + shape.tight.high()) / tile.1);
                    let far = if lie == Lie::Free { 0 } else { end };
                    let score = (costs[*mask].0, costs[*mask].1, far, y, x);
                    if x <= across && best.is_none_or(|(least, ..)| score < least) && board.free(&shape.cells, x, y) {
                        best = Some((score, index, x, y));
                    }
                }
            }
        }
        // What fits nowhere lies below everything else, so that nothing is ever drawn over it.
        let (pose, x, y) = best.map_or((0, 0, (used.len() + 1) * tile.1), |(_, pose, x, y)| (pose, x, y));
        let shape = &poses[pose];
        board.take(&shape.cells, x, y);
        for (dx, dy) in shape.tight.tiles(x % tile.0, y % tile.1, tile) {
            let (column, row) = (x / tile.0 + dx, y / tile.1 + dy);
            if used.len() <= row {
                used.resize(row + 1, vec![false; columns]);
            }
            if let Some(cell) = used.get_mut(row).and_then(|row| row.get_mut(column)) {
                *cell = true;
            }
        }
        let corner = Vec2::new(x as f64 * grain.x, y as f64 * grain.y);
        spots[*part] = Spot { pose, by: corner - shape.corner.to_vec2() };
    }
    let count = used.iter().flatten().filter(|used| **used).count();
    let wide = used.iter().flat_map(|row| row.iter().rposition(|used| *used)).max().map_or(0, |last| last + 1);
    Placed { spots, columns: wide, rows: used.len(), used: count }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rectangle(width: f64, height: f64) -> Vec<Pose> {
        let shape = |w: f64, h: f64| Pose {
            shapes: vec![vec![Point::ZERO, Point::new(w, 0.0), Point::new(w, h), Point::new(0.0, h)]],
        };
        vec![shape(width, height), shape(height, width)]
    }

    fn paper() -> Paper {
        Paper { tile: (180.0, 270.0), cells: (20, 30), columns: None, whole: false }
    }

    /// Four pieces a little under a quarter of a tile each fit on one.
    #[test]
    fn small_pieces_share_a_tile() {
        let parts: Vec<Vec<Pose>> = (0..4).map(|_| rectangle(86.0, 130.0)).collect();
        assert_eq!(place(&parts, &paper()).used, 1);
    }

    /// A piece as large as two tiles by two needs no more when it begins at the corner of a tile.
    #[test]
    fn large_pieces_begin_at_a_tile() {
        let placed = place(&[rectangle(358.0, 538.0)], &paper());
        assert_eq!(placed.used, 4);
        assert_eq!(placed.spots[0].by, Vec2::new(LINE, LINE));
    }

    /// Nothing overlaps, and there are at least as many tiles as the area asks for.
    #[test]
    fn pieces_stay_apart() {
        let parts: Vec<Vec<Pose>> =
            (1..12).map(|i| rectangle(60.0 + 17.0 * f64::from(i), 40.0 + 23.0 * f64::from(i))).collect();
        let placed = place(&parts, &paper());
        let boxes: Vec<Rect> =
            placed.spots.iter().zip(&parts).map(|(spot, part)| part[spot.pose].bounds() + spot.by).collect();
        for (i, a) in boxes.iter().enumerate() {
            for b in &boxes[i + 1..] {
                let apart = (a.x0 - b.x1).max(b.x0 - a.x1).max(a.y0 - b.y1).max(b.y0 - a.y1);
                assert!(apart >= GAP - 1e-6, "{a:?} {b:?}");
            }
        }
        let bound = boxes.iter().map(Rect::area).sum::<f64>() / (180.0 * 270.0);
        assert!(f64::from(u32::try_from(placed.used).unwrap()) >= bound);
    }

    /// Neither on a page without end, where every row of cells counts as a tile of its own.
    #[test]
    fn pieces_stay_apart_on_a_roll() {
        let parts: Vec<Vec<Pose>> = (0..9).map(|i| rectangle(300.0 + 70.0 * f64::from(i), 200.0)).collect();
        let roll = Paper { tile: (890.0, 10.0), cells: (89, 1), columns: Some(1), whole: false };
        let placed = place(&parts, &roll);
        let boxes: Vec<Rect> =
            placed.spots.iter().zip(&parts).map(|(spot, part)| part[spot.pose].bounds() + spot.by).collect();
        for (i, a) in boxes.iter().enumerate() {
            assert!(a.x1 <= 890.0, "{a:?}");
            for b in &boxes[i + 1..] {
                let apart = (a.x0 - b.x1).max(b.x0 - a.x1).max(a.y0 - b.y1).max(b.y0 - a.y1);
                assert!(apart >= GAP - 1e-6, "{a:?} {b:?}");
            }
        }
    }

    /// On large sheets a piece that fits on one is never cut in two.
    #[test]
    fn whole_pieces_stay_whole() {
        let parts: Vec<Vec<Pose>> = (0..5).map(|_| rectangle(110.0, 160.0)).collect();
        let placed = place(&parts, &Paper { whole: true, ..paper() });
        for (spot, part) in placed.spots.iter().zip(&parts) {
            let rect = part[spot.pose].bounds() + spot.by;
            assert_eq!((rect.x0 / 180.0).floor(), ((rect.x1 - 1e-6) / 180.0).floor());
            assert_eq!((rect.y0 / 270.0).floor(), ((rect.y1 - 1e-6) / 270.0).floor());
        }
    }
}
