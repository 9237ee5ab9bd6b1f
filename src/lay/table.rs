//! Everything about a problem that does not change while it is searched: shapes, who may lie how, and
//! how deep any shape stands in any other.

use crate::lay::field::Field;
use crate::lay::geom::{Bounds, Point};
use crate::lay::nfp::{Corner, GRID, no_fit, normal_start, on_grid, twice_area};
use crate::lay::pose::Pose;
use crate::lay::problem::{Axis, Domain, Problem, Unfit};
use crate::lay::rng::Digest;
use rayon::prelude::{IntoParallelRefIterator, ParallelIterator};
use std::collections::BTreeMap;

/// An outline on the grid with the clearance it asks for.
#[derive(Debug)]
pub(crate) struct Shape {
    pub size: Point,
    pub corners: Vec<Corner>,
    pub clearance: f64,
}

/// A way a unit may lie.
#[derive(Debug, Clone)]
pub(crate) struct Way {
    pub shape: usize,
    pub domain: Domain,
    /// The range of y on this strip.
    pub across: (f64, f64),
    /// Place of the choice in the item as given, and what to add to a position to move the given outline.
    pub choice: usize,
    pub shift: Point,
}

/// One copy of an item.
#[derive(Debug, Clone)]
pub(crate) struct Unit {
    /// Index among the ways lists, in canonical order.
    pub kind: usize,
    /// Index of the item as given, and which copy.
    pub item: usize,
    pub copy: usize,
}

/// Where to look up a pair of shapes: `field` at `flip * t + offset`, for `t` from the standing to the moving one.
#[derive(Debug, Clone, Copy)]
pub(crate) struct PairRef {
    pub field: u32,
    pub flip: Point,
    pub offset: Point,
}

/// The unchanging part of a search.
#[derive(Debug)]
pub(crate) struct Table {
    pub width: f64,
    pub shapes: Vec<Shape>,
    pub kinds: Vec<Vec<Way>>,
    pub units: Vec<Unit>,
    /// Area of one copy of each kind, mm².
    pub areas: Vec<f64>,
    pub digest: u64,
    pub fields: Vec<Field>,
    pairs: Vec<PairRef>,
}

type ShapeKey = (Vec<Corner>, i64);

struct Drafted {
    key: Vec<i64>,
    item: usize,
    clearance: i64,
    ways: Vec<(Vec<Corner>, Way)>,
}

impl Table {
    /// Canonical order, shapes told apart, no-fit polygons of all pairs that can meet.
    pub fn new(problem: &Problem) -> Result<Self, Unfit> {
        problem.check()?;
        let drafted = drafts(problem);
        let mut digest = Digest::new();
        digest.add(steps(problem.width));
        let mut ids: BTreeMap<ShapeKey, usize> = BTreeMap::new();
        let mut shapes = Vec::new();
        let (mut kinds, mut units, mut areas) = (Vec::new(), Vec::new(), Vec::new());
        for draft in &drafted {
            draft.key.iter().for_each(|v| digest.add(*v));
            let mut ways = Vec::new();
            for (corners, way) in &draft.ways {
                let id = *ids.entry((corners.clone(), draft.clearance)).or_insert_with(|| {
                    let far = [0, 1].map(|axis| corners.iter().map(|c| c[axis]).max().unwrap_or(0) as f64 / GRID);
                    let clearance = draft.clearance as f64 / GRID;
                    shapes.push(Shape { size: far, corners: corners.clone(), clearance });
                    shapes.len() - 1
                });
                ways.push(Way { shape: id, ..way.clone() });
            }
            let kind = kinds.len();
            kinds.push(ways);
            areas.push(draft.ways.first().map_or(0.0, |w| twice_area(&w.0) as f64 / (2.0 * GRID * GRID)));
            units.extend((0..problem.items[draft.item].copies).map(|copy| Unit { kind, item: draft.item, copy }));
        }
        let mut table = Self {
            width: problem.width,
            shapes,
            kinds,
            units,
            areas,
            digest: digest.value(),
            fields: Vec::new(),
            pairs: Vec::new(),
        };
        table.meet(&ids);
        Ok(table)
    }

    /// The pair of a standing shape and a moving one.
    #[inline]
    pub fn pair(&self, standing: usize, moving: usize) -> &PairRef {
        &self.pairs[standing * self.shapes.len() + moving]
    }

    /// The field that knows how `moving` stands at `t` from `standing`, and the place to ask it about.
    #[inline]
    pub fn ask(&self, standing: usize, moving: usize, t: Point) -> (u32, Point) {
        let pair = self.pair(standing, moving);
        (pair.field, [t[0] * pair.flip[0] + pair.offset[0], t[1] * pair.flip[1] + pair.offset[1]])
    }

    /// By how much `moving` at `t` from `standing` violates their gap, mm.
    #[inline]
    pub fn depth(&self, standing: usize, moving: usize, t: Point) -> f64 {
        let (field, q) = self.ask(standing, moving, t);
        let field = &self.fields[field as usize];
        field.glance(q).map_or(0.0, |(_, cell)| field.depth(q, cell))
    }

    /// The shortest way for `moving` at `t` from `standing` to keep their gap.
    pub fn way_out(&self, standing: usize, moving: usize, t: Point) -> Option<Point> {
        let pair = self.pair(standing, moving);
        let q = [t[0] * pair.flip[0] + pair.offset[0], t[1] * pair.flip[1] + pair.offset[1]];
        self.fields[pair.field as usize].way_out(q).map(|v| [v[0] * pair.flip[0], v[1] * pair.flip[1]])
    }

    fn meet(&mut self, ids: &BTreeMap<ShapeKey, usize>) {
        let count = self.shapes.len();
        let images: Vec<[Option<usize>; 4]> = self.shapes.iter().map(|s| images(s, ids)).collect();
        let mut wanted: BTreeMap<(usize, usize), u32> = BTreeMap::new();
        let none = PairRef { field: u32::MAX, flip: [1.0; 2], offset: [0.0; 2] };
        let mut pairs = vec![none; count * count];
        for a in 0..count {
            for b in 0..count {
                if !self.may_meet(a, b) {
                    continue;
                }
                let (key, flip, offset) = self.canonical(a, b, &images);
                let next = wanted.len() as u32;
                let field = *wanted.entry(key).or_insert(next);
                pairs[a * count + b] = PairRef { field, flip, offset };
            }
        }
        let mut order: Vec<((usize, usize), u32)> = wanted.into_iter().collect();
        order.sort_by_key(|o| o.1);
        let shapes = &self.shapes;
        self.fields = order
            .par_iter()
            .map(|((a, b), _)| {
                let gap = shapes[*a].clearance.max(shapes[*b].clearance);
                Field::new(&no_fit(&shapes[*a].corners, &shapes[*b].corners), gap)
            })
            .collect();
        self.pairs = pairs;
    }

    /// Whether two different units can show these shapes at once.
    fn may_meet(&self, a: usize, b: usize) -> bool {
        let shows = |kind: usize, shape: usize| self.kinds[kind].iter().any(|w| w.shape == shape);
        let mut showing = [0usize; 3];
        for unit in &self.units {
            let (sa, sb) = (shows(unit.kind, a), shows(unit.kind, b));
            showing[0] += usize::from(sa);
            showing[1] += usize::from(sb);
            showing[2] += usize::from(sa && sb);
        }
        showing[0] > 0 && showing[1] > 0 && !(showing[0] == 1 && showing[1] == 1 && showing[2] == 1)
    }

    /// The least pair of shapes with the same no-fit polygon up to flips of the axes.
    ///
    /// With `F` a flip of axes that keeps boxes in place (`F p = f p + c`, `c` the size where flipped), the pair
    /// `(F a, F b)` overlaps at `f t + c_a - c_b` exactly when `(a, b)` does at `t`; and `(b, a)` at `-t`.
    fn canonical(&self, a: usize, b: usize, images: &[[Option<usize>; 4]]) -> ((usize, usize), Point, Point) {
        let mut best = ((a, b), [1.0, 1.0], [0.0, 0.0]);
        for (flip, (fa, fb)) in images[a].iter().zip(&images[b]).enumerate() {
            let (Some(fa), Some(fb)) = (*fa, *fb) else { continue };
            let sign = [if flip & 1 == 0 { 1.0 } else { -1.0 }, if flip & 2 == 0 { 1.0 } else { -1.0 }];
            let shift = [0, 1]
                .map(|axis| if sign[axis] < 0.0 { self.shapes[a].size[axis] - self.shapes[b].size[axis] } else { 0.0 });
            if (fa, fb) < best.0 {
                best = ((fa, fb), sign, shift);
            }
            if (fb, fa) < best.0 {
                best = ((fb, fa), sign.map(|s| -s), shift.map(|s| -s));
            }
        }
        best
    }
}

/// The shapes among those present that this one becomes when x (1), y (2) or both (3) are flipped.
fn images(shape: &Shape, ids: &BTreeMap<ShapeKey, usize>) -> [Option<usize>; 4] {
    let size = shape.size.map(steps);
    [0, 1, 2, 3].map(|flip: usize| {
        let mut corners: Vec<Corner> = shape
            .corners
            .iter()
            .map(|c| {
                [if flip & 1 == 0 { c[0] } else { size[0] - c[0] }, if flip & 2 == 0 { c[1] } else { size[1] - c[1] }]
            })
            .collect();
        if flip == 1 || flip == 2 {
            corners.reverse();
        }
        normal_start(&mut corners);
        ids.get(&(corners, steps(shape.clearance))).copied()
    })
}

fn steps(v: f64) -> i64 {
    (v * GRID).round() as i64
}

/// Items and their choices in an order that depends on what they are, not on where they were written.
fn drafts(problem: &Problem) -> Vec<Drafted> {
    let mut drafted: Vec<Drafted> = Vec::new();
    for (index, item) in problem.items.iter().enumerate() {
        let mut ways: Vec<(Vec<i64>, Vec<Corner>, Way)> = Vec::new();
        for (choice, c) in item.choices.iter().enumerate() {
            let corners = on_grid(&c.outline);
            let bounds = Bounds::of(&c.outline);
            let Some(across) = c.domain.across.range(bounds.height(), problem.width) else { continue };
            let mut key = Vec::new();
            for axis in [c.domain.along, c.domain.across] {
                key.extend(match axis {
                    Axis::Span { before, after } => [0, steps(before), steps(after), 0],
                    Axis::Pinned { at } => [1, steps(at), 0, 0],
                    Axis::Lattice { first, step, after } => [2, steps(first), steps(step), steps(after)],
                });
            }
            key.push(corners.len() as i64);
            key.extend(corners.iter().flatten());
            let shift = bounds.min.map(|v| -v);
            ways.push((key, corners, Way { shape: 0, domain: c.domain, across, choice, shift }));
        }
        ways.sort_by(|a, b| a.0.cmp(&b.0));
        ways.dedup_by(|a, b| a.0 == b.0);
        let area = ways.first().map_or(0, |w| twice_area(&w.1));
        let clearance = steps(item.clearance);
        let mut key = vec![-area, item.copies as i64, clearance, ways.len() as i64];
        ways.iter().for_each(|w| key.extend(&w.0));
        let ways = ways.into_iter().map(|(_, corners, way)| (corners, way)).collect();
        drafted.push(Drafted { key, item: index, clearance, ways });
    }
    drafted.sort_by(|a, b| {
        let names = || problem.items[a.item].name.cmp(&problem.items[b.item].name);
        a.key.cmp(&b.key).then_with(names).then_with(|| a.item.cmp(&b.item))
    });
    drafted
}

/// The pose a choice of an item stands for.
pub(crate) fn pose_of(problem: &Problem, item: usize, choice: usize) -> Pose {
    problem.items[item].choices[choice].pose
}
