//! Edges put together to a closed outline.

use std::collections::BTreeMap;

use kurbo::{Affine, Point};

use super::cross::crosses_itself;
use super::desk::{Desk, Drawn};
use super::path::Path;
use super::piece::{Dart, Drill, Edge, Finish, Mark, MarkKind, Notch};
use crate::fault::{Code, Fault, Place};

/// How far the end of an edge may miss the start of the next, mm; what is less is closed.
const GAP: f64 = 0.05;
/// The smallest piece, mm².
const SMALLEST: f64 = 1.0;

/// An edge before its allowance is known.
#[derive(Debug, Clone)]
pub(crate) struct RawEdge {
    pub name: String,
    pub path: Path,
    pub turned: bool,
    /// Taken up by darts: from, to, along `path`.
    pub darts: Vec<(f64, f64)>,
    pub allowance: Option<f64>,
    pub finish: Option<Finish>,
}

impl RawEdge {
    pub fn new(name: &str, path: Path) -> RawEdge {
        RawEdge { name: name.to_string(), path, turned: false, darts: Vec::new(), allowance: None, finish: None }
    }

    pub fn of(edge: &Edge) -> RawEdge {
        RawEdge {
            name: edge.name.clone(),
            path: edge.path.clone(),
            turned: edge.turned,
            darts: edge.darts.iter().map(|(from, to)| (from.to_mm(), to.to_mm())).collect(),
            allowance: Some(edge.allowance.to_mm()),
            finish: edge.finish,
        }
    }

    pub fn reversed(self) -> RawEdge {
        let length = self.path.length();
        let mut darts: Vec<(f64, f64)> = self.darts.iter().map(|(from, to)| (length - to, length - from)).collect();
        darts.reverse();
        RawEdge { path: self.path.reversed(), turned: !self.turned, darts, ..self }
    }

    pub fn moved(self, by: Affine) -> RawEdge {
        RawEdge { path: self.path.moved(by), ..self }
    }

    /// Where `by` mm from the start as written lies on `path`, darts not yet sewn.
    pub fn on_path(&self, by: f64) -> f64 {
        if self.turned { self.path.length() - by } else { by }
    }
}

/// What stands before the allowances: a drafted, supplied, derived or imported outline.
#[derive(Debug, Clone, Default)]
pub(crate) struct Body {
    /// The edges; in any direction, one after the other.
    pub edges: Vec<RawEdge>,
    /// Named points.
    pub points: BTreeMap<String, Point>,
    /// Lines that belong to it: name, kind, line.
    pub lines: Vec<(String, MarkKind, Path)>,
    /// What was taken over from another piece.
    pub darts: Vec<Dart>,
    pub notches: Vec<Notch>,
    pub marks: Vec<Mark>,
    pub drills: Vec<Drill>,
    pub fold: Option<String>,
    /// The way the grain runs where the piece does not say; from down the page, clockwise, in radians.
    pub grain: Option<f64>,
}

/// Puts the edges together and turns them clockwise.
pub(crate) fn close(desk: &Desk, edges: Vec<RawEdge>) -> Drawn<Vec<RawEdge>> {
    let drafted = desk.shape.shape.is_none();
    let place = |name: &str| {
        if drafted { Place::Key(desk.route.key("edges").key(name)) } else { Place::Key(desk.route.key("shape")) }
    };
    let count = edges.len();
    let mut done: Vec<RawEdge> = Vec::with_capacity(count);
    let near = |a: Point, b: Point| a.distance(b) < GAP;
    let mut waiting = edges.into_iter().peekable();
    while let Some(edge) = waiting.next() {
        let Some(last) = done.last() else {
            // The first edge runs so that the second goes on from its end.
            let turn = waiting.peek().is_some_and(|next| {
                let (start, end) = (edge.path.start(), edge.path.end());
                let goes_on = near(next.path.start(), end) || near(next.path.end(), end);
                !goes_on && (near(next.path.start(), start) || near(next.path.end(), start))
            });
            done.push(if turn { edge.reversed() } else { edge });
            continue;
        };
        let end = last.path.end();
        if near(edge.path.start(), end) {
            done.push(edge);
        } else if near(edge.path.end(), end) {
            done.push(edge.reversed());
        } else {
            let gap = edge.path.start().distance(end).min(edge.path.end().distance(end));
            let message = format!(
                "the edge `{}` does not meet `{}`: they are {} apart",
                edge.name,
                last.name,
                super::words::mm(gap)
            );
            let fault =
                Fault::new(Code::Outline, place(&edge.name), message).also(place(&last.name), "the edge before it");
            return Err(desk.fault(
                fault.help("list the edges in order round the piece, each from the point where the last one ended"),
            ));
        }
    }
    let (Some(first), Some(last)) = (done.first(), done.last()) else {
        let place = Place::Key(desk.route.clone());
        let fault = Fault::new(Code::MissingKey, place, format!("the piece `{}` has no outline", desk.name));
        return Err(desk.fault(fault.help("give a `shape` with its `kind`, or draw it with `points` and `edges`")));
    };
    let gap = first.path.start().distance(last.path.end());
    if gap > GAP {
        let message = format!(
            "the outline is not closed: `{}` ends {} from where `{}` begins",
            last.name,
            super::words::mm(gap),
            first.name
        );
        let fault = Fault::new(Code::Outline, place(&last.name), message).also(place(&first.name), "the first edge");
        return Err(desk.fault(fault.help("the last edge must end where the first begins")));
    }
    let area: f64 = done.iter().map(|edge| edge.path.signed_area()).sum();
    if area < 0.0 {
        done = done.into_iter().rev().map(RawEdge::reversed).collect();
    }
    check(desk, &done, area.abs())?;
    Ok(done)
}

fn check(desk: &Desk, edges: &[RawEdge], area: f64) -> Drawn<()> {
    let drafted = desk.shape.shape.is_none();
    let place = Place::Key(if drafted { desk.route.key("edges") } else { desk.route.key("shape") });
    if area < SMALLEST {
        let fault = Fault::new(Code::Outline, place, format!("the outline of `{}` encloses no cloth", desk.name));
        return Err(desk.fault(fault.help("look whether two edges run on each other")));
    }
    let points: Vec<Point> = edges.iter().flat_map(|edge| edge.path.flat(0.05)).collect();
    if let Some(at) = crosses_itself(&dedup(&points)) {
        let nearest = edges.iter().map(|edge| (edge.path.nearest(at).1, edge.name.as_str()));
        let mut close: Vec<(f64, &str)> = nearest.collect();
        close.sort_by(|a, b| a.0.total_cmp(&b.0));
        let names: Vec<String> = close.iter().take(2).map(|(_, name)| format!("`{name}`")).collect();
        let message = format!(
            "the outline crosses itself {} right of and {} below the origin",
            super::words::mm(at.x),
            super::words::mm(at.y)
        );
        let fault = Fault::new(Code::Outline, place, message).label(format!("near {}", names.join(" and ")));
        return Err(desk.fault(fault.help("move the points of one of these edges")));
    }
    Ok(())
}

/// Without points that follow each other in the same place.
pub(crate) fn dedup(points: &[Point]) -> Vec<Point> {
    let mut kept: Vec<Point> = Vec::with_capacity(points.len());
    for p in points {
        if kept.last().is_none_or(|last| last.distance(*p) > GAP) {
            kept.push(*p);
        }
    }
    while kept.len() > 1 && kept[0].distance(kept[kept.len() - 1]) <= GAP {
        kept.pop();
    }
    kept
}
