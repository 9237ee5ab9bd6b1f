//! How deep a shape stands in another: a no-fit polygon made ready to be asked millions of times.
//!
//! The polygon's box (widened by the gap to keep) is cut into cells. A cell knows whether it lies wholly
//! outside, wholly inside or on the boundary, and which edges can be nearest to a point in it. In boundary
//! cells the nearest edge tells inside from outside: a point is inside if it lies to the left of it, or, when an end of
//! the edge is nearest, if the polygon is hollow at that corner. Only where corners coincide crossings are counted.

use crate::lay::edge::{Corner, Edge, mark_corners};
use crate::lay::geom::{Bounds, Point};

/// Signed distance to a no-fit polygon, with a gap.
#[derive(Debug)]
pub(crate) struct Field {
    low: Point,
    high: Point,
    per_cell: Point,
    columns: usize,
    gap: f64,
    cells: Vec<Cell>,
    near: Vec<u16>,
    rows: Vec<(u32, u32)>,
    row_edges: Vec<u16>,
    edges: Vec<Edge>,
}

#[derive(Debug, Clone, Copy)]
struct Cell {
    start: u32,
    count: u16,
    kind: Kind,
    /// By how much every place in the cell violates the gap, at least, mm.
    least: f32,
}

#[derive(Debug, Clone, Copy, PartialEq)]
enum Kind {
    /// Farther away than the gap.
    Clear,
    Outside,
    Inside,
    Mixed,
}

impl Field {
    /// From the contours of a no-fit polygon, mm, and the gap to keep outside it, mm.
    pub fn new(contours: &[Vec<Point>], gap: f64) -> Self {
        let (mut edges, mut ends) = (Vec::new(), Vec::new());
        for contour in contours {
            for (i, a) in contour.iter().enumerate() {
                let b = contour[(i + 1) % contour.len()];
                let along = [b[0] - a[0], b[1] - a[1]];
                let squared = along[0] * along[0] + along[1] * along[1];
                if squared > 0.0 {
                    let slope = if along[1] == 0.0 { 0.0 } else { along[0] / along[1] };
                    edges.push(Edge {
                        from: *a,
                        along,
                        inverse: 1.0 / squared,
                        to_y: b[1],
                        slope,
                        ends: [Corner::Unsure; 2],
                    });
                    ends.push((*a, b));
                }
            }
        }
        mark_corners(&mut edges, &ends);
        let all: Vec<Point> = contours.iter().flatten().copied().collect();
        let bounds = Bounds::of(&all);
        let low = [bounds.min[0] - gap, bounds.min[1] - gap];
        let high = [bounds.max[0] + gap, bounds.max[1] + gap];
        let side = (8.0 + (edges.len() as f64).sqrt() * 2.0).min(40.0) as usize / BLOCK * BLOCK + BLOCK;
        let size = [(high[0] - low[0]) / side as f64, (high[1] - low[1]) / side as f64];
        let mut field = Self {
            low,
            high,
            per_cell: [1.0 / size[0], 1.0 / size[1]],
            columns: side,
            gap,
            cells: vec![Cell { start: 0, count: 0, kind: Kind::Clear, least: 0.0 }; side * side],
            near: Vec::new(),
            rows: Vec::with_capacity(side),
            row_edges: Vec::new(),
            edges,
        };
        field.fill_rows(side, size[1]);
        field.fill_cells(side, size);
        field
    }

    fn fill_rows(&mut self, side: usize, height: f64) {
        let pad = height * 1e-6;
        for row in 0..side {
            let bottom = self.low[1] + row as f64 * height - pad;
            let top = bottom + height + 2.0 * pad;
            let start = self.row_edges.len() as u32;
            for (i, e) in self.edges.iter().enumerate() {
                if e.from[1].min(e.to_y) <= top && e.from[1].max(e.to_y) >= bottom {
                    self.row_edges.push(i as u16);
                }
            }
            self.rows.push((start, self.row_edges.len() as u32));
        }
    }

    fn fill_cells(&mut self, side: usize, size: Point) {
        let every: Vec<u16> = (0..self.edges.len() as u16).collect();
        let half = (size[0] * size[0] + size[1] * size[1]).sqrt() / 2.0;
        let mut block = Vec::new();
        let mut list = Vec::new();
        for by in (0..side).step_by(BLOCK) {
            for bx in (0..side).step_by(BLOCK) {
                let centre = |cx: usize, cy: usize, cells: f64| {
                    [
                        self.low[0] + (cx as f64 + cells / 2.0) * size[0],
                        self.low[1] + (cy as f64 + cells / 2.0) * size[1],
                    ]
                };
                let around = half * BLOCK as f64;
                self.nearest(&every, centre(bx, by, BLOCK as f64), around, &mut block);
                let mut filled = Vec::with_capacity(BLOCK * BLOCK);
                for cy in by..by + BLOCK {
                    for cx in bx..bx + BLOCK {
                        let p = centre(cx, cy, 1.0);
                        let distance = self.nearest(&block, p, half, &mut list);
                        let inside = self.crossings(p, cy);
                        let kind = match (inside, distance > half * 1.0001) {
                            (false, true) if distance - half >= self.gap => Kind::Clear,
                            (false, true) => Kind::Outside,
                            (true, true) => Kind::Inside,
                            _ => Kind::Mixed,
                        };
                        let least = match kind {
                            Kind::Inside => self.gap + distance - half,
                            _ => self.gap - distance - half,
                        };
                        filled.push((cy * side + cx, kind, least.max(0.0), list.clone()));
                    }
                }
                for (index, kind, least, list) in filled {
                    let start = self.near.len() as u32;
                    if kind != Kind::Clear {
                        self.near.extend_from_slice(&list);
                    }
                    let count = (self.near.len() as u32 - start) as u16;
                    self.cells[index] = Cell { start, count, kind, least: (least * SURELY) as f32 };
                }
            }
        }
    }

    /// Edges that can be nearest to some point within `around` of `p`; the distance of the nearest to `p`.
    fn nearest(&self, among: &[u16], p: Point, around: f64, list: &mut Vec<u16>) -> f64 {
        let distances: Vec<f64> =
            among.iter().map(|&e| self.edges[usize::from(e)].squared_distance(p).sqrt()).collect();
        let least = distances.iter().copied().fold(f64::INFINITY, f64::min);
        let limit = (least + 2.0 * around) * 1.000_001;
        list.clear();
        list.extend(among.iter().zip(&distances).filter(|(_, d)| **d <= limit).map(|(e, _)| *e));
        least
    }

    fn crossings(&self, p: Point, row: usize) -> bool {
        let (from, to) = self.rows[row];
        let row = &self.row_edges[from as usize..to as usize];
        row.iter().fold(false, |inside, &e| inside ^ self.edges[usize::from(e)].crosses(p))
    }

    /// The cell of a place and by how much the gap is violated there at least, mm; nothing where it is surely kept.
    #[inline]
    pub fn glance(&self, p: Point) -> Option<(f64, u32)> {
        if !(p[0] > self.low[0] && p[0] < self.high[0] && p[1] > self.low[1] && p[1] < self.high[1]) {
            return None;
        }
        let column = (((p[0] - self.low[0]) * self.per_cell[0]) as usize).min(self.columns - 1);
        let row = (((p[1] - self.low[1]) * self.per_cell[1]) as usize).min(self.columns - 1);
        let index = row * self.columns + column;
        let cell = &self.cells[index];
        if cell.kind == Kind::Clear { None } else { Some((f64::from(cell.least), index as u32)) }
    }

    /// Whether `p`, in this cell, is inside, how far from the outline, squared, and the edge nearest to it; nothing
    /// where it is outside and no gap is to be kept.
    #[inline]
    fn look(&self, p: Point, index: u32) -> Option<(bool, f64, &Edge)> {
        let cell = &self.cells[index as usize];
        let mut near = self.near[cell.start as usize..cell.start as usize + usize::from(cell.count)].iter();
        let mut edge = &self.edges[usize::from(*near.next()?)];
        let mut squared = edge.squared_distance(p);
        for &e in near {
            let other = &self.edges[usize::from(e)];
            let d = other.squared_distance(p);
            if d < squared {
                (squared, edge) = (d, other);
            }
        }
        let inside = match cell.kind {
            Kind::Clear => return None,
            Kind::Outside => false,
            Kind::Inside => true,
            Kind::Mixed => edge.holds(p).unwrap_or_else(|| self.crossings(p, index as usize / self.columns)),
        };
        (inside || self.gap > 0.0).then_some((inside, squared, edge))
    }

    /// By how much the place `p`, in this cell, violates the gap, mm: 0 when the gap is kept, the gap plus the depth
    /// inside.
    #[inline]
    pub fn depth(&self, p: Point, index: u32) -> f64 {
        let Some((inside, squared, _)) = self.look(p, index) else { return 0.0 };
        let distance = squared.sqrt();
        if inside { self.gap + distance } else { (self.gap - distance).max(0.0) }
    }

    /// The shortest way out from `p` (a vector, mm), so that the gap is just kept; nothing when it is kept.
    pub fn way_out(&self, p: Point) -> Option<Point> {
        let (inside, squared, edge) = self.look(p, self.glance(p)?.1)?;
        let distance = squared.sqrt();
        let depth = if inside { self.gap + distance } else { self.gap - distance };
        if depth <= 0.0 {
            return None;
        }
        let d = [p[0] - edge.from[0], p[1] - edge.from[1]];
        let t = ((d[0] * edge.along[0] + d[1] * edge.along[1]) * edge.inverse).clamp(0.0, 1.0);
        let to = [t * edge.along[0] - d[0], t * edge.along[1] - d[1]];
        if distance > 1e-9 {
            let scale = if inside { depth / distance } else { -depth / distance };
            Some([to[0] * scale, to[1] * scale])
        } else {
            let per = depth * edge.inverse.sqrt();
            Some([edge.along[1] * per, -edge.along[0] * per])
        }
    }

    /// The intervals of x on the level `y` where the gap is violated, mm, in no order.
    pub fn forbidden(&self, y: f64, into: &mut Vec<(f64, f64)>, shift: Point, flip: Point) {
        let y = (y - shift[1]) * flip[1];
        if y <= self.low[1] + TOUCH || y >= self.high[1] - TOUCH {
            return;
        }
        let mut push = |a: f64, b: f64| {
            let (a, b) = (a * flip[0] + shift[0], b * flip[0] + shift[0]);
            into.push((a.min(b), a.max(b)));
        };
        let mut xs: Vec<f64> = self
            .edges
            .iter()
            .filter(|e| (e.from[1] > y) != (e.to_y > y))
            .map(|e| e.from[0] + (y - e.from[1]) * e.slope)
            .collect();
        xs.sort_by(f64::total_cmp);
        for pair in xs.chunks_exact(2) {
            push(pair[0], pair[1]);
        }
        if self.gap > 0.0 {
            for e in &self.edges {
                if let Some((a, b)) = e.band(y, self.gap) {
                    push(a, b);
                }
            }
        }
    }
}

/// A share of what is reckoned that rounding cannot take away.
const SURELY: f64 = 0.999_999;

/// Levels this near to the end of a no-fit polygon only touch it, mm.
const TOUCH: f64 = 1e-7;

/// Cells along the side of a block of cells.
const BLOCK: usize = 4;
