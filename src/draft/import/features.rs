//! What a drawing says of a piece beside its outline.

use kurbo::{Affine, Point, Vec2};

use super::Sketch;
use crate::draft::desk::length;
use crate::draft::marks::{grain_between, spot};
use crate::draft::outline::{Body, RawEdge};
use crate::draft::piece::{Drill, Notch};

/// A notch that lies no farther from the seam line than this belongs to it, mm: wider than any allowance it may be snipped in.
const REACH: f64 = 60.0;
/// Notches nearer to each other than this are one double notch, mm (common practice, no source).
const TWINS: f64 = 8.0;
/// How far the ends of an edge may lie off the mirror line and still lie on it, mm.
const ON_FOLD: f64 = 0.5;

impl Sketch {
    /// The drawing moved and scaled.
    pub(super) fn moved(self, to: Affine) -> Sketch {
        let all = |points: Vec<Point>| points.into_iter().map(|point| to * point).collect();
        Sketch {
            outline: self.outline.moved(to),
            lines: self.lines.into_iter().map(|(kind, line)| (kind, line.moved(to))).collect(),
            turns: all(self.turns),
            curves: all(self.curves),
            notches: all(self.notches),
            fold: self.fold.map(|(from, to_end)| (to * from, to * to_end)),
            drills: all(self.drills),
            ..self
        }
    }
}

/// Puts the lines, notches, drill marks, fold and grain of a drawing on its outline.
pub(super) fn add(body: &mut Body, sketch: Sketch) {
    body.fold = sketch.fold.and_then(|(from, to)| on_fold(&body.edges, from, to));
    body.grain = sketch.grain.map(grain_between);
    body.notches = notches(&body.edges, &sketch.notches);
    body.lines = sketch
        .lines
        .into_iter()
        .enumerate()
        .map(|(index, (kind, line))| (format!("line_{}", index + 1), kind, line))
        .collect();
    let drill = |(index, at): (usize, Point)| Drill { at: spot(at), title: format!("mark {}", index + 1) };
    body.drills = sketch.drills.into_iter().enumerate().map(drill).collect();
}

/// The straight edge that lies on the mirror line.
fn on_fold(edges: &[RawEdge], from: Point, to: Point) -> Option<String> {
    let way = to - from;
    let way: Vec2 = way / way.hypot().max(1e-12);
    let off = |point: Point| (point - from).cross(way).abs();
    let lies =
        |edge: &&RawEdge| edge.path.is_straight() && off(edge.path.start()) < ON_FOLD && off(edge.path.end()) < ON_FOLD;
    edges.iter().find(lies).map(|edge| edge.name.clone())
}

/// Each notch on the edge it lies nearest to; two that lie close together are one double notch.
fn notches(edges: &[RawEdge], points: &[Point]) -> Vec<Notch> {
    let mut placed: Vec<(usize, f64)> = Vec::new();
    for point in points {
        let nearest = edges
            .iter()
            .enumerate()
            .map(|(index, edge)| (index, edge.path.nearest(*point)))
            .min_by(|(_, a), (_, b)| a.1.total_cmp(&b.1));
        if let Some((index, (along, gap))) = nearest
            && gap < REACH
        {
            placed.push((index, along));
        }
    }
    placed.sort_by(|a, b| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)));
    let mut notches: Vec<Notch> = Vec::new();
    let mut set = |(index, along): (usize, f64), double: bool| {
        if let Some(edge) = edges.get(index) {
            let at = spot(edge.path.at(along).0);
            let (edge, along) = (edge.name.clone(), length(along));
            notches.push(Notch { edge, along, at, cut: at, out: at, double, name: None });
        }
    };
    let mut rest = placed.as_slice();
    while let [first, more @ ..] = rest {
        match more {
            [second, after @ ..] if second.0 == first.0 && second.1 - first.1 < TWINS => {
                set((first.0, first.1.midpoint(second.1)), true);
                rest = after;
            }
            _ => {
                set(*first, false);
                rest = more;
            }
        }
    }
    notches
}
