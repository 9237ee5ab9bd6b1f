//! A piece drawn again, with some of its edges moved out or in: a lining, an interlining cut short.

use kurbo::{Affine, Point};

use super::cross::crossings;
use super::darts::{Mouth, mouth};
use super::derived::moved;
use super::desk::{Desk, Drawn, length};
use super::offset::{self, Side};
use super::outline::{Body, RawEdge};
use super::path::{FAR, Path, SAME};
use super::piece::{Dart, Edge, Notch};
use crate::fault::{Code, Fault, Place, Route, did_you_mean};
use crate::shape::CopyShape;

pub(super) fn copy(desk: &Desk, shape: &CopyShape, route: &Route) -> Drawn<Body> {
    let piece = desk.piece(&shape.of, &route.key("of"))?;
    let mut body = moved(piece, Affine::IDENTITY);
    if shape.moved.is_empty() {
        return Ok(body);
    }
    let at = route.key("moved");
    let mut sides: Vec<Side> = (piece.edges.iter())
        .map(|edge| Side { path: closed(edge), width: 0.0, start: None, end: None, fold: false })
        .collect();
    for (name, by) in &shape.moved {
        let key = at.key(name.as_str());
        let Some(index) = piece.edges.iter().position(|edge| edge.name == *name) else {
            let message = format!("the piece `{}` has no edge `{name}`", piece.name);
            let fault = Fault::new(Code::UnknownName, Place::Key(key), message);
            return Err(desk.fault(fault.help(did_you_mean(name, &piece.edge_names()))));
        };
        sides[index].width = desk.mm(by, &key)?;
    }
    let line = offset::cut_line(&sides).ok().filter(|line| !line.trimmed);
    let Some(line) = line else {
        let message = "moved so far, the edges run into each other";
        return Err(desk.cannot(&at, message, "move them less, or draw the piece by points"));
    };
    for (edge, run) in body.edges.iter_mut().zip(line.runs) {
        edge.path = run;
        edge.darts = Vec::new();
    }
    for dart in &mut body.darts {
        let Some(name) = dart.edge.clone() else { continue };
        let Some(edge) = body.edges.iter_mut().find(|edge| edge.name == name) else { continue };
        if !open_again(edge, dart) {
            let message = format!("moved so far, the edge `{name}` runs past the point of the dart `{}`", dart.name);
            return Err(desk.cannot(at.key(name.as_str()), message, "move it less, or draw the piece by points"));
        }
    }
    // What lies on an edge keeps its place; the edge may have grown or lost something before it.
    body.notches = piece.notches.iter().filter_map(|notch| placed_again(&body.edges, notch)).collect();
    Ok(body)
}

/// The seam line with a straight line across the mouth of every dart.
fn closed(edge: &Edge) -> Path {
    let mut path = Path::default();
    let mut from = 0.0;
    for (start, end) in &edge.darts {
        path = path.then(&edge.path.slice(from, start.to_mm()));
        path = path.then(&Path::straight(&[edge.path.at(start.to_mm()).0, edge.path.at(end.to_mm()).0]));
        from = end.to_mm();
    }
    if edge.darts.is_empty() { edge.path.clone() } else { path.then(&edge.path.slice(from, edge.path.length())) }
}

/// Opens a dart on its edge where that lies now: its legs are run on or cut back to it.
fn open_again(edge: &mut RawEdge, dart: &mut Dart) -> bool {
    let (l, r, tip) = (dart.legs.0.start(), dart.legs.1.start(), dart.legs.0.end());
    let foot = |at: Point| -> Option<f64> {
        let way = (at - tip) / at.distance(tip).max(1e-9);
        let leg = Path::straight(&[tip, tip + way * FAR]);
        crossings(&edge.path, &leg)
            .into_iter()
            .min_by(|a, b| a.at.distance(at).total_cmp(&b.at.distance(at)))
            .map(|hit| hit.first)
    };
    let (Some(from), Some(to)) = (foot(l), foot(r)) else { return false };
    if to <= from {
        return false;
    }
    let whole = edge.path.length();
    let (left, right) = (edge.path.slice(0.0, from), edge.path.slice(to, whole));
    let next = edge.darts.iter().map(|dart| dart.0).filter(|at| *at > to).fold(whole, f64::min);
    let before = edge.darts.iter().map(|dart| dart.1).filter(|at| *at < from).fold(0.0, f64::max);
    let room = (from - before, next - to);
    // Folded to the side the peak over the old mouth tells of.
    let old = dart.centre.start();
    let lean = |fold_start: bool| mouth(left.clone(), right.clone(), tip, to - from, fold_start, room);
    let away = |mouth: &Mouth| {
        let middle = mouth.left.end().midpoint(mouth.right.start());
        (mouth.peak - middle).dot(r - l) - (old - l.midpoint(r)).dot(r - l)
    };
    let (a, b) = (lean(true), lean(false));
    let done = if away(&a).abs() <= away(&b).abs() { a } else { b };
    let (l, r) = (done.left.end(), done.right.start());
    let taken = done.taken();
    let shift = taken.1 + done.right.length() - whole;
    for other in &mut edge.darts {
        if other.0 >= to - SAME {
            other.0 += shift;
            other.1 += shift;
        }
    }
    edge.darts.push(taken);
    edge.darts.sort_by(|a, b| a.0.total_cmp(&b.0));
    edge.path = done.left.then(&Path::straight(&[l, done.peak, r])).then(&done.right);
    dart.legs = (Path::straight(&[l, tip]).rounded(), Path::straight(&[r, tip]).rounded());
    dart.centre = Path::straight(&[done.peak, tip]).rounded();
    dart.leg = length(l.distance(tip));
    dart.width = length(l.distance(r));
    true
}

/// A notch at the place of its edge that is nearest to where it was.
fn placed_again(edges: &[RawEdge], notch: &Notch) -> Option<Notch> {
    let edge = edges.iter().find(|edge| edge.name == notch.edge)?;
    let on_path = edge.path.nearest(notch.at.0).0;
    let sewn = |upto: f64| -> f64 {
        let taken: f64 = edge.darts.iter().map(|(from, to)| (upto.min(*to) - from).max(0.0)).sum();
        upto - taken
    };
    let along = sewn(on_path);
    let along = if edge.turned { sewn(edge.path.length()) - along } else { along };
    Some(Notch { along: length(along), ..notch.clone() })
}
