//! Darts: legs of the same length, and the edge over the mouth shaped for folding.

use kurbo::{Affine, CubicBez, PathSeg, Point, Vec2};

use super::cross::crossings;
use super::desk::{Desk, Drawn, length};
use super::outline::RawEdge;
use super::path::{Path, SAME};
use super::piece::Dart;
use super::words::mm;
use crate::fault::{Code, Fault, Place, Route, did_you_mean};
use crate::shape::{DartShape, FoldTowardShape};

/// Legs that differ by less are the same already, mm.
const EQUAL: f64 = 1e-6;

/// A dart as written, with the edge and the place on it where it opens.
type Placed<'a> = (&'a String, &'a DartShape, Option<(usize, f64)>);

/// How much of the edge beside a mouth may be redrawn, as a share of the way to the next dart.
const BLEND_SHARE: f64 = 0.9;

/// Opens the darts of a piece on its edges.
pub(super) fn open(desk: &Desk, edges: &mut [RawEdge]) -> Drawn<Vec<Dart>> {
    let mut darts: Vec<Dart> = Vec::new();
    let mut stuck = None;
    // From the far end of each edge to its start, so that earlier places stay where they are.
    let mut order: Vec<Placed> = Vec::new();
    for (name, shape) in &desk.shape.darts {
        match place(desk, edges, name, shape) {
            Ok(at) => order.push((name, shape, at)),
            Err(fault) => stuck = Some(fault),
        }
    }
    order.sort_by(|a, b| match (a.2, b.2) {
        (Some(x), Some(y)) => x.0.cmp(&y.0).then(y.1.total_cmp(&x.1)),
        (x, y) => x.is_some().cmp(&y.is_some()),
    });
    for (position, (name, shape, at)) in order.iter().enumerate() {
        let drawn = match *at {
            Some((index, along)) => {
                // The dart before it on the same edge is opened next.
                let before = order.get(position + 1).and_then(|other| other.2).filter(|other| other.0 == index);
                cut_in(desk, &mut edges[index], name, shape, along, before.map_or(0.0, |other| other.1))
            }
            None => two_points(desk, name, shape),
        };
        match drawn {
            Ok(dart) => darts.push(dart),
            Err(fault) => stuck = Some(fault),
        }
    }
    if let Some(fault) = stuck {
        return Err(fault);
    }
    let order: Vec<&String> = desk.shape.darts.keys().collect();
    darts.sort_by_key(|dart| order.iter().position(|name| **name == dart.name));
    check(desk, edges, &darts)?;
    Ok(darts)
}

fn route(desk: &Desk, name: &str) -> Route {
    desk.route.key("darts").key(name)
}

/// The edge and the place on its path of the middle of the mouth; none for a dart with two points.
fn place(desk: &Desk, edges: &[RawEdge], name: &str, shape: &DartShape) -> Drawn<Option<(usize, f64)>> {
    let route = route(desk, name);
    let Some(edge) = &shape.edge else { return Ok(None) };
    let at = route.key("edge");
    let Some(index) = edges.iter().position(|known| known.name == *edge) else {
        let known: Vec<&str> = edges.iter().map(|edge| edge.name.as_str()).collect();
        let fault = Fault::new(Code::UnknownName, &at, format!("no edge of this piece is called `{edge}`"));
        return Err(desk.fault(fault.help(did_you_mean(edge, &known))));
    };
    let line = &edges[index];
    let whole = line.path.length();
    let along = match (&shape.by, &shape.share, &shape.at) {
        (Some(by), None, None) => line.on_path(desk.mm(by, &route.key("by"))?),
        (None, Some(share), None) => line.on_path(desk.number(share, &route.key("share"))? * whole),
        (None, None, Some(point)) => {
            let at = route.key("at");
            let (along, gap) = line.path.nearest(desk.point(point, Some(&at))?);
            if gap > 0.5 {
                let message = format!("the point `{point}` lies {} off the edge `{edge}`", mm(gap));
                return Err(desk.cannot(&at, message, "the middle of a dart's mouth lies on its edge"));
            }
            along
        }
        _ => {
            let message = "where the dart opens is missing, or given twice";
            return Err(desk.cannot(Place::Key(route), message, "give one of `by`, `share` and `at`"));
        }
    };
    Ok(Some((index, along)))
}

fn cut_in(desk: &Desk, edge: &mut RawEdge, name: &str, shape: &DartShape, middle: f64, before: f64) -> Drawn<Dart> {
    let route = route(desk, name);
    let width = desk.positive(&shape.width, &route.key("width"), "the width of the dart")?;
    let Some(tip) = &shape.tip else {
        return Err(desk.cannot(
            Place::Key(route),
            "a dart from an edge needs `tip`, the point it runs to",
            "add `tip`",
        ));
    };
    let tip = desk.point(tip, Some(&route.key("tip")))?;
    let whole = edge.path.length();
    let (from, to) = (middle - width / 2.0, middle + width / 2.0);
    let later = edge.darts.first().map_or(whole, |dart| dart.0);
    if from < SAME || to > later - SAME {
        let message = format!("the mouth of this dart runs from {} to {} along `{}`", mm(from), mm(to), edge.name);
        let fault = if later < whole {
            let message =
                format!("the dart `{name}` crosses its neighbour: {message}, and the next one opens at {}", mm(later));
            Fault::new(Code::Piece, Place::Key(route), message)
        } else {
            Fault::new(Code::Piece, Place::Key(route), format!("{message}, which is {} long", mm(whole)))
        };
        return Err(desk.fault(fault.help("move it along, or make it narrower")));
    }
    let (left, right) = (edge.path.slice(0.0, from), edge.path.slice(to, whole));
    let (a, b) = (left.end().distance(tip), right.start().distance(tip));
    if a.min(b) < width / 2.0 {
        let message = format!("this dart is {} wide and only {} long", mm(width), mm(a.min(b)));
        return Err(desk.cannot(Place::Key(route), message, "its point must lie well inside the piece"));
    }
    let fold_start = (shape.fold_toward == FoldTowardShape::Start) != edge.turned;
    // The dart before may be as wide as this one.
    let room = if before > 0.0 { from - before - width / 2.0 } else { from };
    let old_right = right.length();
    let done = mouth(left, right, tip, width, fold_start, (room, later - to));
    let (l, r, taken) = (done.left.end(), done.right.start(), done.taken());
    let moved = taken.1 + (done.right.length() - old_right) - to;
    for dart in &mut edge.darts {
        dart.0 += moved;
        dart.1 += moved;
    }
    edge.darts.insert(0, taken);
    edge.path = done.left.then(&Path::straight(&[l, done.peak, r])).then(&done.right);
    Ok(Dart {
        name: name.to_string(),
        edge: Some(edge.name.clone()),
        legs: (Path::straight(&[l, tip]).rounded(), Path::straight(&[r, tip]).rounded()),
        centre: Path::straight(&[done.peak, tip]).rounded(),
        leg: length(l.distance(tip)),
        width: length(l.distance(r)),
    })
}

/// The mouth of a dart: the edge before and behind it, and the corner over it.
pub(super) struct Mouth {
    pub left: Path,
    pub right: Path,
    pub peak: Point,
}

impl Mouth {
    /// What it takes up of the edge: from, to.
    pub fn taken(&self) -> (f64, f64) {
        let (l, r) = (self.left.end(), self.right.start());
        (self.left.length(), self.left.length() + l.distance(self.peak) + self.peak.distance(r))
    }
}

/// Shapes a mouth between two stretches of an edge, about `width` wide, so that its legs are the same length and, folded toward the
/// start or the end of the path, it lies on the edge beside it. `before` and `behind` are how far the edge may be redrawn.
pub(super) fn mouth(
    mut left: Path,
    mut right: Path,
    tip: Point,
    width: f64,
    fold_start: bool,
    (before, behind): (f64, f64),
) -> Mouth {
    let (a, b) = (left.end().distance(tip), right.start().distance(tip));
    // True the legs: the difference is shared by both, and the edge led smoothly to their ends.
    let leg = a.midpoint(b);
    let blend = |room: f64| (3.0 * width).max(30.0).min(room.max(SAME) * BLEND_SHARE);
    if (leg - a).abs() > EQUAL {
        let end = tip + (left.end() - tip) * (leg / a);
        left = led_to(&left, end, blend(before));
    }
    if (leg - b).abs() > EQUAL {
        let start = tip + (right.start() - tip) * (leg / b);
        right = led_to(&right.reversed(), start, blend(behind)).reversed();
    }
    let (l, r) = (left.end(), right.start());
    let centre = l.midpoint(r);
    // Folded, the mouth lies on the edge beside it: seen open, the edge mirrored at the leg.
    let (foot, away) = if fold_start { (l, -left.end_dir()) } else { (r, right.start_dir()) };
    let mirrored = Affine::reflect(foot, tip - foot) * (foot + away) - foot;
    let peak =
        meeting(foot, mirrored, tip, centre - tip).filter(|p| p.distance(centre) < width * 2.0).unwrap_or(centre);
    Mouth { left, right, peak }
}

/// The path with its last inches led smoothly to another end.
fn led_to(path: &Path, end: Point, blend: f64) -> Path {
    let whole = path.length();
    let keep = (whole - blend).max(0.0);
    let (from, dir) = path.at(keep);
    let chord = end.distance(from);
    let arrive = path.end_dir();
    let third = chord / 3.0;
    let lead = PathSeg::Cubic(CubicBez::new(from, from + dir * third, end - arrive * third, end));
    path.slice(0.0, keep).then(&Path::of([lead]))
}

fn meeting(p: Point, u: Vec2, q: Point, v: Vec2) -> Option<Point> {
    let cross = u.cross(v);
    (cross.abs() > 1e-9 * u.hypot() * v.hypot()).then(|| p + u * ((q - p).cross(v) / cross))
}

fn two_points(desk: &Desk, name: &str, shape: &DartShape) -> Drawn<Dart> {
    let route = route(desk, name);
    let (Some(at), Some(above), Some(below)) = (&shape.at, &shape.above, &shape.below) else {
        let message = "a dart needs `edge` and `tip`, or, with two points, `at`, `above` and `below`";
        return Err(desk.cannot(
            Place::Key(route),
            message,
            "name the edge it opens on, or its middle and how far it reaches",
        ));
    };
    let middle = desk.point(at, Some(&route.key("at")))?;
    let width = desk.positive(&shape.width, &route.key("width"), "the width of the dart")?;
    let up = desk.positive(above, &route.key("above"), "how far it reaches above")?;
    let down = desk.positive(below, &route.key("below"), "how far it reaches below")?;
    let (top, bottom) = (middle - Vec2::new(0.0, up), middle + Vec2::new(0.0, down));
    let side = |sign: f64| Path::straight(&[top, middle + Vec2::new(sign * width / 2.0, 0.0), bottom]);
    let legs = (side(-1.0), side(1.0));
    Ok(Dart {
        name: name.to_string(),
        edge: None,
        leg: length(legs.0.length()),
        width: length(width),
        legs: (legs.0.rounded(), legs.1.rounded()),
        centre: Path::straight(&[top, bottom]).rounded(),
    })
}

/// No dart crosses another, and none runs out of the piece.
fn check(desk: &Desk, edges: &[RawEdge], darts: &[Dart]) -> Drawn<()> {
    let mut stuck = None;
    for (index, dart) in darts.iter().enumerate() {
        for other in &darts[index + 1..] {
            let pairs = [
                (&dart.legs.0, &other.legs.0),
                (&dart.legs.0, &other.legs.1),
                (&dart.legs.1, &other.legs.0),
                (&dart.legs.1, &other.legs.1),
            ];
            if pairs.iter().any(|(a, b)| !crossings(a, b).is_empty()) {
                let message = format!("the dart `{}` crosses its neighbour `{}`", other.name, dart.name);
                let fault = Fault::new(Code::Piece, Place::Key(route(desk, &other.name)), message);
                let fault = fault.also(Place::Key(route(desk, &dart.name)), "the neighbour");
                stuck = Some(desk.fault(fault.help("move their points apart, or make them narrower")));
            }
        }
        let seam: Vec<&Path> = edges.iter().map(|edge| &edge.path).collect();
        let out = [&dart.legs.0, &dart.legs.1].iter().any(|leg| {
            let whole = leg.length();
            seam.iter().any(|line| {
                crossings(leg, line)
                    .iter()
                    .any(|hit| hit.first > 0.05 && (dart.edge.is_some() || hit.first < whole - 0.05))
            })
        });
        if out {
            let message = format!("the dart `{}` runs out of the piece", dart.name);
            stuck = Some(desk.cannot(
                Place::Key(route(desk, &dart.name)),
                message,
                "its point must lie inside the outline",
            ));
        }
    }
    stuck.map_or(Ok(()), Err)
}
