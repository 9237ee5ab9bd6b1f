//! Edges and guides through points.

use kurbo::{Point, Vec2};

use super::curve;
use super::desk::{Desk, Drawn, Slot, Stuck};
use super::path::{Path, SAME};
use super::piece::Edge;
use crate::fault::{Code, Fault, Place, Route, did_you_mean};
use crate::shape::EdgeShape;

/// How strongly a curve keeps to a direction given at its end, as a share of the way to the next point.
const PULL: f64 = 1.0 / 3.0;

/// How far a point may lie off the line it divides, mm.
const NEAR: f64 = 0.5;

impl Desk<'_> {
    /// Whether there is an edge or guide of that name.
    pub fn has_line(&self, name: &str) -> bool {
        self.shape.edges.contains_key(name)
            || self.shape.guides.contains_key(name)
            || self.lines.borrow().contains_key(name)
    }

    /// An edge or guide by name, in the direction written.
    pub fn line(&self, name: &str, asker: Option<&Route>) -> Drawn<Path> {
        let slot = self.lines.borrow().get(name).cloned();
        match slot {
            Some(Slot::Done(path)) => return Ok(path),
            Some(Slot::Stuck) => return Err(Stuck),
            Some(Slot::Open) => {
                let section = if self.shape.edges.contains_key(name) { "edges" } else { "guides" };
                return Err(self.ring("line", name, section));
            }
            None => {}
        }
        let (section, shape) = match (self.shape.edges.get(name), self.shape.guides.get(name)) {
            (Some(shape), _) => ("edges", shape),
            (None, Some(shape)) => ("guides", shape),
            (None, None) => {
                if let Some((piece, line)) = name.split_once('.')
                    && let Some(piece) = self.others.piece(piece)
                    && let Some(path) =
                        piece.edge(line).map(Edge::as_written).or_else(|| piece.guides.get(line).cloned())
                {
                    return Ok(path);
                }
                let Some(asker) = asker else { return Err(Stuck) };
                let lines = self.lines.borrow();
                let known: Vec<&str> = (self.shape.edges.keys().chain(self.shape.guides.keys()).chain(lines.keys()))
                    .map(String::as_str)
                    .collect();
                let message = format!("no edge or guide of this piece is called `{name}`");
                return Err(self.fault(Fault::new(Code::UnknownName, asker, message).help(did_you_mean(name, &known))));
            }
        };
        self.lines.borrow_mut().insert(name.to_string(), Slot::Open);
        let route = self.route.key(section).key(name);
        let drawn = self.deeper(Place::Key(route.clone()), || self.drawn_line(shape, &route));
        let slot = drawn.clone().map_or(Slot::Stuck, Slot::Done);
        self.lines.borrow_mut().insert(name.to_string(), slot);
        drawn
    }

    /// A line through points, as written at a route.
    pub fn drawn_line(&self, shape: &EdgeShape, route: &Route) -> Drawn<Path> {
        let kinds = [("line", &shape.line), ("curve", &shape.curve), ("arc", &shape.arc)];
        let mut given = kinds.iter().filter(|(_, points)| !points.is_empty());
        let (first, second) = (given.next(), given.next());
        if let (None, Some(along)) = (first, &shape.along) {
            return self.part(shape, along, route);
        }
        let (Some((key, names)), None, None) = (first, second, &shape.along) else {
            let message = "expected one of `line`, `curve`, `arc` and `along`";
            return Err(self.cannot(
                Place::Key(route.clone()),
                message,
                "name the points it runs through: `line: [a, b]`",
            ));
        };
        let at = route.key(*key);
        let points = names
            .iter()
            .enumerate()
            .map(|(index, name)| self.point(name, Some(&at.index(index))))
            .collect::<Vec<_>>()
            .into_iter()
            .collect::<Drawn<Vec<Point>>>()?;
        for (index, pair) in points.windows(2).enumerate() {
            if pair[0].distance(pair[1]) < SAME {
                let message = format!("`{}` and `{}` lie in the same place", names[index], names[index + 1]);
                return Err(self.cannot(at.index(index + 1), message, "the points of a line lie apart in every size"));
            }
        }
        if points.len() < 2 {
            return Err(self.cannot(&at, "one point makes no line", "name at least two points"));
        }
        match *key {
            "line" => Ok(Path::straight(&points)),
            "arc" => self.arc(shape, &points, route),
            _ => {
                let start = self.ending(shape, true, &points, route)?;
                let end = self.ending(shape, false, &points, route)?;
                Ok(curve::through(&points, start, end))
            }
        }
    }

    /// A part of another line, between two points on it.
    fn part(&self, shape: &EdgeShape, along: &str, route: &Route) -> Drawn<Path> {
        let line = self.line(along, Some(&route.key("along")))?;
        let place = |name: &Option<String>, key: &str, other: f64| {
            let Some(name) = name else { return Ok(other) };
            let at = route.key(key);
            let (along_it, gap) = line.nearest(self.point(name, Some(&at))?);
            if gap > NEAR {
                let message = format!("the point `{name}` lies {} off `{along}`", super::words::mm(gap));
                return Err(self.cannot(at, message, "draw the point on that line, with `on`"));
            }
            Ok(along_it)
        };
        let (from, to) = (place(&shape.from, "from", 0.0)?, place(&shape.to, "to", line.length())?);
        if (from - to).abs() < SAME {
            let message = format!("nothing of `{along}` lies between the two points");
            return Err(self.cannot(
                Place::Key(route.clone()),
                message,
                "choose two points that lie apart in every size",
            ));
        }
        Ok(if from < to { line.slice(from, to) } else { line.slice(to, from).reversed() })
    }

    fn arc(&self, shape: &EdgeShape, points: &[Point], route: &Route) -> Drawn<Path> {
        let at = route.key("arc");
        match (points, &shape.radius) {
            ([a, b, c], None) => curve::arc_through(*a, *b, *c).ok_or_else(|| {
                self.cannot(&at, "these three points lie on a straight line", "move the middle one, or write `line`")
            }),
            ([a, b], Some(radius)) => {
                let at = route.key("radius");
                let radius = self.mm(radius, &at)?;
                curve::arc_of_radius(*a, *b, radius).ok_or_else(|| {
                    let half = super::words::mm(a.distance(*b) / 2.0);
                    let message = format!(
                        "a radius of {} does not reach from one point to the other",
                        super::words::mm(radius.abs())
                    );
                    self.cannot(&at, message, format!("it must be at least {half}, half the way between them"))
                })
            }
            _ => Err(self.cannot(
                &at,
                "expected three points, or two points and a `radius`",
                "an arc needs one of the two",
            )),
        }
    }

    fn ending(&self, shape: &EdgeShape, start: bool, points: &[Point], route: &Route) -> Drawn<Option<(Vec2, f64)>> {
        let keys =
            if start { ("start_along", "start_square", "start_pull") } else { ("end_along", "end_square", "end_pull") };
        let (along, square, pull) = if start {
            (&shape.start_along, &shape.start_square, &shape.start_pull)
        } else {
            (&shape.end_along, &shape.end_square, &shape.end_pull)
        };
        let dir = match (along, square) {
            (None, None) => return Ok(None),
            (Some(along), None) => {
                let (a, b) = self.two_points(along, &route.key(keys.0))?;
                b - a
            }
            (None, Some(square)) => {
                let (a, b) = self.two_points(square, &route.key(keys.1))?;
                let dir = Vec2::new(-(b - a).y, (b - a).x);
                // Of the two ways square to it, the one that the curve takes anyway.
                let chord = match points {
                    [a, b, ..] if start => *b - *a,
                    [.., a, b] => *b - *a,
                    _ => dir,
                };
                if dir.dot(chord) < 0.0 { -dir } else { dir }
            }
            (Some(_), Some(_)) => {
                let message = format!("expected one of `{}` and `{}`", keys.0, keys.1);
                return Err(self.cannot(route.key(keys.1), message, "leave one of them out"));
            }
        };
        let pull = match pull {
            Some(pull) => {
                let at = route.key(keys.2);
                let value = self.number(pull, &at)?;
                if !(0.01..=3.0).contains(&value) {
                    let message = format!("expected a share of the way to the next point, but found {value}");
                    return Err(self.cannot(&at, message, "between 1/5 and 1 is usual"));
                }
                value
            }
            None => PULL,
        };
        Ok(Some((dir / dir.hypot(), pull)))
    }
}
