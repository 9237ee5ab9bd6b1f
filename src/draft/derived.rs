//! Outlines made from other pieces.

use kurbo::{Affine, Point};

use super::copied::copy;
use super::cross::crossings;
use super::desk::{Desk, Drawn, Stuck};
use super::offset::beside;
use super::outline::{Body, RawEdge};
use super::path::{FAR, Path, SAME};
use super::piece::{Dart, Drill, Finish, Mark, Notch, Piece, Spot};
use crate::fault::{Code, Fault, Place, Route, did_you_mean};
use crate::shape::{BodyShape, FacingShape, JoinedShape, SplitShape};

/// How near to the cutting line an edge may end and still end on it, mm.
const ON_LINE: f64 = 0.05;

/// The outline of a body that is made from other pieces.
pub(super) fn derived(desk: &Desk, body: &BodyShape, route: &Route) -> Drawn<Option<Body>> {
    Ok(Some(match body {
        BodyShape::Mirrored(shape) => {
            let piece = desk.piece(&shape.of, &route.key("of"))?;
            let middle = piece.extent.min.0.midpoint(piece.extent.max.0);
            moved(piece, Affine::new([-1.0, 0.0, 0.0, 1.0, 2.0 * middle.x, 0.0]))
        }
        BodyShape::Copy(shape) => copy(desk, shape, route)?,
        BodyShape::Split(shape) => split(desk, shape, route)?,
        BodyShape::Joined(shape) => joined(desk, shape, route)?,
        BodyShape::Facing(shape) => facing(desk, shape, route)?,
        _ => return Ok(None),
    }))
}

/// A piece as the beginning of another one, moved, turned or mirrored.
pub(super) fn moved(piece: &Piece, by: Affine) -> Body {
    let spot = |spot: &Spot| Spot(by * spot.0);
    Body {
        edges: piece.edges.iter().map(|edge| RawEdge::of(edge).moved(by)).collect(),
        points: piece.points.iter().map(|(name, at)| (name.clone(), by * at.0)).collect(),
        lines: Vec::new(),
        darts: piece
            .darts
            .iter()
            .map(|dart| Dart {
                legs: (dart.legs.0.moved(by), dart.legs.1.moved(by)),
                centre: dart.centre.moved(by),
                ..dart.clone()
            })
            .collect(),
        notches: piece.notches.clone(),
        marks: piece.marks.iter().map(|mark| Mark { path: mark.path.moved(by), ..mark.clone() }).collect(),
        drills: piece.drills.iter().map(|drill| Drill { at: spot(&drill.at), title: drill.title.clone() }).collect(),
        fold: piece.fold.clone(),
        grain: None,
    }
}

fn split(desk: &Desk, shape: &SplitShape, route: &Route) -> Drawn<Body> {
    let piece = desk.piece(&shape.of, &route.key("of"))?;
    let at = route.key("along");
    let spot = |name: &str, at: &Route| {
        piece.points.get(name).map(|spot| spot.0).ok_or_else(|| {
            let known: Vec<&str> = piece.points.keys().map(String::as_str).collect();
            let message = format!("the piece `{}` has no point `{name}`", piece.name);
            desk.fault(Fault::new(Code::UnknownName, at, message).help(did_you_mean(name, &known)))
        })
    };
    let Some((a, b)) = shape.along.split_once(" to ") else {
        return Err(desk.cannot(
            &at,
            format!("expected two points, but found `{}`", shape.along),
            "write them as `a to b`",
        ));
    };
    let (a, b) = (spot(a.trim(), &at)?, spot(b.trim(), &at)?);
    if a.distance(b) < SAME {
        return Err(desk.cannot(&at, "the two points lie in the same place", "choose two that lie apart"));
    }
    let dir = (b - a) / a.distance(b);
    let side = |p: Point| dir.cross(p - a);
    let kept = match (&shape.keep, &shape.keep_edge) {
        (Some(point), None) => side(spot(point, &route.key("keep"))?),
        (None, Some(edge)) => {
            let at = route.key("keep_edge");
            let edge = piece.edge(edge).ok_or_else(|| {
                let message = format!("the piece `{}` has no edge `{edge}`", piece.name);
                desk.fault(Fault::new(Code::UnknownName, &at, message).help(did_you_mean(edge, &piece.edge_names())))
            })?;
            side(edge.path.at(edge.path.length() / 2.0).0)
        }
        _ => {
            let message = "which part is kept is missing, or given twice";
            return Err(desk.cannot(
                Place::Key(route.clone()),
                message,
                "give one of `keep` (a point) and `keep_edge`",
            ));
        }
    };
    if kept.abs() < SAME {
        return Err(desk.cannot(
            Place::Key(route.clone()),
            "the part that is kept lies on the cutting line",
            "name a point or edge well inside it",
        ));
    }
    let knife = Path::straight(&[a - dir * FAR, b + dir * FAR]);
    let mut edges: Vec<RawEdge> = Vec::new();
    for edge in &piece.edges {
        edges.extend(parts_on_side(edge, &knife, |p| side(p) * kept.signum()));
    }
    // Where the kept edges leave off is the new one.
    let n = edges.len();
    let gaps: Vec<usize> =
        (0..n).filter(|&i| edges[i].path.end().distance(edges[(i + 1) % n].path.start()) > ON_LINE).collect();
    let [gap] = gaps.as_slice() else {
        let message = format!("the line `{}` cuts the piece {} times", shape.along, 2 * gaps.len());
        return Err(desk.cannot(&at, message, "it must run through the piece once, from edge to edge"));
    };
    let line = Path::straight(&[edges[*gap].path.end(), edges[(*gap + 1) % n].path.start()]);
    edges.insert(*gap + 1, RawEdge::new(&shape.edge, line));
    let within = |p: Point| side(p) * kept.signum() > -ON_LINE;
    let whole = moved(piece, Affine::IDENTITY);
    let fold = whole.fold.filter(|fold| edges.iter().any(|edge| edge.name == *fold));
    Ok(Body {
        points: whole.points.into_iter().filter(|(_, at)| within(*at)).collect(),
        darts: whole
            .darts
            .into_iter()
            .filter(|dart| within(dart.centre.start()) && within(dart.centre.end()))
            .collect(),
        marks: whole.marks.into_iter().filter(|mark| within(mark.path.start()) && within(mark.path.end())).collect(),
        drills: whole.drills.into_iter().filter(|drill| within(drill.at.0)).collect(),
        edges,
        fold,
        ..Body::default()
    })
}

/// The stretches of an edge on the kept side of the knife.
fn parts_on_side(edge: &super::piece::Edge, knife: &Path, side: impl Fn(Point) -> f64) -> Vec<RawEdge> {
    let raw = RawEdge::of(edge);
    let length = raw.path.length();
    let mut cuts: Vec<f64> = crossings(&raw.path, knife).into_iter().map(|hit| hit.first).collect();
    cuts.insert(0, 0.0);
    cuts.push(length);
    let mut parts = Vec::new();
    for pair in cuts.windows(2) {
        let (from, to) = (pair[0], pair[1]);
        if to - from < ON_LINE || side(raw.path.at(from.midpoint(to)).0) < 0.0 {
            continue;
        }
        let darts =
            raw.darts.iter().filter(|(a, b)| *a >= from && *b <= to).map(|(a, b)| (a - from, b - from)).collect();
        parts.push(RawEdge { path: raw.path.slice(from, to), darts, ..raw.clone() });
    }
    parts
}

fn joined(desk: &Desk, shape: &JoinedShape, route: &Route) -> Drawn<Body> {
    let (first, first_edge) = desk.piece_edge(&shape.of, &route.key("of"))?;
    let (second, second_edge) = desk.piece_edge(&shape.to, &route.key("to"))?;
    let (a, mut b) = (first_edge.as_written(), second_edge.as_written());
    if shape.turned.0 {
        b = b.reversed();
    }
    let gap = (a.length() - b.length()).abs();
    if gap > 1.0 {
        let message = format!("`{}` and `{}` differ by {}", shape.of, shape.to, super::words::mm(gap));
        return Err(desk.cannot(
            Place::Key(route.clone()),
            message,
            "only edges of the same length can be laid together",
        ));
    }
    let chord = |path: &Path| path.end() - path.start();
    let (from, to) = (chord(&b), chord(&a));
    // Both outlines run clockwise; laid together, the edges must run against each other, else one piece is turned over.
    let against = (first_edge.turned == second_edge.turned) == shape.turned.0;
    let flip = if against { Affine::IDENTITY } else { Affine::reflect(b.start(), from) };
    let lay = Affine::translate(a.start().to_vec2())
        * Affine::rotate(to.atan2() - from.atan2())
        * Affine::translate(-b.start().to_vec2())
        * flip;
    let (one, two) = (moved(first, Affine::IDENTITY), moved(second, lay));
    let mut edges: Vec<RawEdge> = one.edges;
    let mut more: Vec<RawEdge> = two.edges;
    if !against {
        more = more.into_iter().rev().map(RawEdge::reversed).collect();
    }
    let (Some(hole), Some(other)) = (
        edges.iter().position(|edge| edge.name == first_edge.name),
        more.iter().position(|edge| edge.name == second_edge.name),
    ) else {
        return Err(Stuck);
    };
    edges.rotate_left(hole);
    more.rotate_left(other);
    edges.remove(0);
    more.remove(0);
    for edge in &mut more {
        if edges.iter().any(|known| known.name == edge.name) {
            edge.name = format!("{}_{}", second.name, edge.name);
        }
    }
    edges.extend(more);
    let mut points = two.points;
    points.extend(one.points);
    let mut body = Body { edges, points, ..Body::default() };
    body.darts = one.darts.into_iter().chain(two.darts).collect();
    body.marks = one.marks.into_iter().chain(two.marks).collect();
    body.drills = one.drills.into_iter().chain(two.drills).collect();
    Ok(body)
}

fn facing(desk: &Desk, shape: &FacingShape, route: &Route) -> Drawn<Body> {
    let (piece, edge) = desk.piece_edge(&shape.of, &route.key("of"))?;
    let at = route.key("depth");
    let depth = desk.positive(&shape.depth, &at, "the depth of the facing")?;
    let too_deep = || {
        desk.cannot(
            &at,
            format!("a facing {} deep runs out of the piece", super::words::mm(depth)),
            "make it shallower",
        )
    };
    let n = piece.edges.len();
    let index = piece.edges.iter().position(|known| known.name == edge.name).ok_or(Stuck)?;
    let (before, after) = (&piece.edges[(index + n - 1) % n], &piece.edges[(index + 1) % n]);
    let inner = beside(&edge.path, -depth);
    let long = inner.extended(4.0 * depth);
    let nearest = |path: &Path, to: Point| {
        crossings(&long, path).into_iter().min_by(|x, y| x.at.distance(to).total_cmp(&y.at.distance(to)))
    };
    let start = nearest(&before.path, inner.start()).ok_or_else(too_deep)?;
    let end = nearest(&after.path, inner.end()).ok_or_else(too_deep)?;
    if end.first <= start.first {
        return Err(too_deep());
    }
    let part = |edge: &super::piece::Edge, from: f64, to: f64| RawEdge {
        path: edge.path.slice(from, to),
        darts: Vec::new(),
        ..RawEdge::of(edge)
    };
    let inner = RawEdge {
        finish: Some(Finish::Free),
        allowance: Some(0.0),
        ..RawEdge::new("inner", long.slice(start.first, end.first).reversed())
    };
    let edges =
        vec![part(before, start.second, before.path.length()), RawEdge::of(edge), part(after, 0.0, end.second), inner];
    let fold = piece.fold.clone().filter(|fold| *fold == before.name || *fold == after.name);
    let notches: Vec<Notch> = piece.notches.iter().filter(|notch| notch.edge == edge.name).cloned().collect();
    Ok(Body { edges, fold, notches, ..Body::default() })
}
