//! Points by formula.

use kurbo::{Affine, Point, Vec2};

use super::cross::crossings;
use super::curve;
use super::desk::{Desk, Drawn, Slot, Stuck};
use super::path::{FAR, Path, SAME};
use crate::fault::{Code, Fault, Place, Route, did_you_mean};
use crate::shape::PointShape;

/// A form of point: the keys it needs, and how it reads.
const FORMS: &str = "`x` and `y`; `from` with `right`, `left`, `down` or `up`; `from`, `toward` and `by` or `share`; `from`, `angle` and \
                     `by`; `from`, `reach` and `on`; `on` and `by` or `share`; `cross`; `mirror` and `over`; `turn`, `about` and \
                     `angle`; `foot` and `on`; `square_off`, `by` or `share`, and `out`; `same_as`";

impl Desk<'_> {
    /// A point by name. `asker` is where it is named, for the fault when there is none.
    pub fn point(&self, name: &str, asker: Option<&Route>) -> Drawn<Point> {
        let slot = self.points.borrow().get(name).cloned();
        match slot {
            Some(Slot::Done(point)) => return Ok(point),
            Some(Slot::Stuck) => return Err(Stuck),
            Some(Slot::Open) => return Err(self.ring("point", name, "points")),
            None => {}
        }
        let Some(shape) = self.shape.points.get(name) else {
            if let Some((piece, point)) = name.split_once('.')
                && let Some(piece) = self.others.piece(piece)
                && let Some(spot) = piece.points.get(point)
            {
                return Ok(spot.0);
            }
            let Some(asker) = asker else { return Err(Stuck) };
            let points = self.points.borrow();
            let known: Vec<&str> =
                self.shape.points.keys().map(String::as_str).chain(points.keys().map(String::as_str)).collect();
            let fault = Fault::new(Code::UnknownName, asker, format!("no point of this piece is called `{name}`"));
            return Err(self.fault(fault.help(did_you_mean(name, &known))));
        };
        self.points.borrow_mut().insert(name.to_string(), Slot::Open);
        let route = self.route.key("points").key(name);
        let drawn = self.deeper(Place::Key(route.clone()), || self.plot(shape, &route));
        let slot = drawn.map_or(Slot::Stuck, Slot::Done);
        self.points.borrow_mut().insert(name.to_string(), slot);
        drawn
    }

    pub(super) fn ring(&self, kind: &str, name: &str, section: &str) -> Stuck {
        let place = Place::Key(self.route.key(section).key(name));
        let fault = Fault::new(Code::Cycle, place, format!("the {kind} `{name}` is drawn from itself"));
        self.fault(fault.help("draw it from points that do not depend on it"))
    }

    fn plot(&self, shape: &PointShape, route: &Route) -> Drawn<Point> {
        let wrong = |message: &str| self.cannot(Place::Key(route.clone()), message, format!("give one of: {FORMS}"));
        if let Some(other) = &shape.same_as {
            return self.same_as(other, &route.key("same_as"));
        }
        if shape.x.is_some() || shape.y.is_some() {
            let (Some(x), Some(y)) = (&shape.x, &shape.y) else {
                return Err(wrong("this point has only one of `x` and `y`"));
            };
            return Ok(Point::new(self.mm(x, &route.key("x"))?, self.mm(y, &route.key("y"))?));
        }
        if let [first, second] = shape.cross.as_slice() {
            return self.crossing(shape, first, second, route);
        }
        if !shape.cross.is_empty() {
            return Err(self.cannot(
                route.key("cross"),
                "expected two lines that cross",
                "name two edges, guides or lines `a to b`",
            ));
        }
        if let Some(point) = &shape.mirror {
            let Some(over) = &shape.over else {
                return Err(wrong("a mirrored point needs `over`, the line of the mirror"));
            };
            let (a, b) = self.two_points(over, &route.key("over"))?;
            return Ok(Affine::reflect(a, b - a) * self.point(point, Some(&route.key("mirror")))?);
        }
        if let Some(point) = &shape.turn {
            let (Some(about), Some(angle)) = (&shape.about, &shape.angle) else {
                return Err(wrong("a turned point needs `about` and `angle`"));
            };
            let (point, about) =
                (self.point(point, Some(&route.key("turn")))?, self.point(about, Some(&route.key("about")))?);
            return Ok(Affine::rotate_about(self.angle(angle, &route.key("angle"))?, about) * point);
        }
        if let Some(foot) = &shape.foot {
            let Some(on) = &shape.on else { return Err(wrong("`foot` needs `on`, the line it is dropped to")) };
            let from = self.point(foot, Some(&route.key("foot")))?;
            let line = self.any_line(on, &route.key("on"))?;
            let (along, _) = line.nearest(from);
            return Ok(line.at(along).0);
        }
        if let Some(edge) = &shape.square_off {
            let Some(out) = &shape.out else { return Err(wrong("`square_off` needs `out`, how far")) };
            let line = self.own_line(edge, &route.key("square_off"))?;
            let (at, dir) = line.at(self.along(shape, &line, route)?);
            return Ok(at + Vec2::new(-dir.y, dir.x) * self.mm(out, &route.key("out"))?);
        }
        match (&shape.from, &shape.on) {
            (Some(from), on) => {
                let from = self.point(from, Some(&route.key("from")))?;
                self.from(shape, from, on.as_deref(), route)
            }
            (None, Some(on)) => {
                let line = self.own_line(on, &route.key("on"))?;
                Ok(line.at(self.along(shape, &line, route)?).0)
            }
            (None, None) => Err(wrong("this point is given by nothing")),
        }
    }

    fn same_as(&self, other: &str, route: &Route) -> Drawn<Point> {
        let Some((piece, point)) = other.split_once('.') else {
            let message = format!("expected a point of another piece, but found `{other}`");
            return Err(self.cannot(route, message, "write them with a dot between: `bodice_front.underarm`"));
        };
        let piece = self.piece(piece, route)?;
        piece.points.get(point).map(|spot| spot.0).ok_or_else(|| {
            let known: Vec<&str> = piece.points.keys().map(String::as_str).collect();
            let message = format!("the piece `{}` has no point `{point}`", piece.name);
            self.fault(Fault::new(Code::UnknownName, route, message).help(did_you_mean(point, &known)))
        })
    }

    fn from(&self, shape: &PointShape, from: Point, on: Option<&str>, route: &Route) -> Drawn<Point> {
        if let Some(toward) = &shape.toward {
            let toward = self.point(toward, Some(&route.key("toward")))?;
            let way = toward - from;
            if let Some(share) = &shape.share {
                return Ok(from + way * self.number(share, &route.key("share"))?);
            }
            let Some(by) = &shape.by else {
                return Err(self.cannot(
                    Place::Key(route.clone()),
                    "how far to go toward the point is missing",
                    "add `by` or `share`",
                ));
            };
            if way.hypot() < SAME {
                let message = "`from` and `toward` lie in the same place, so there is no direction";
                return Err(self.cannot(
                    route.key("toward"),
                    message,
                    "choose two points that lie apart in every size",
                ));
            }
            return Ok(from + way / way.hypot() * self.mm(by, &route.key("by"))?);
        }
        if let Some(reach) = &shape.reach {
            let Some(on) = on else {
                return Err(self.cannot(
                    Place::Key(route.clone()),
                    "`reach` needs `on`, the line to be reached",
                    "add `on: a to b`",
                ));
            };
            let radius = self.positive(reach, &route.key("reach"), "`reach`")?;
            let line = self.any_line(on, &route.key("on"))?;
            let (east, west) = (from + Vec2::new(radius, 0.0), from - Vec2::new(radius, 0.0));
            let pi = std::f64::consts::PI;
            let circle =
                curve::arc(from, radius, 0.0, pi, east, west).then(&curve::arc(from, radius, pi, pi, west, east));
            let gap = line.nearest(from).1;
            let message =
                format!("`{on}` is {} away, and the reach is {}", super::words::mm(gap), super::words::mm(radius));
            return self.choose(&circle, &line, shape, &route.key("reach"), &message);
        }
        if let Some(angle) = &shape.angle {
            let Some(by) = &shape.by else {
                return Err(self.cannot(Place::Key(route.clone()), "how far to go is missing", "add `by`"));
            };
            let dir = Vec2::from_angle(self.angle(angle, &route.key("angle"))?);
            return Ok(from + dir * self.mm(by, &route.key("by"))?);
        }
        let mut at = from;
        let mut moved = false;
        let ways = [
            ("right", &shape.right, Vec2::new(1.0, 0.0)),
            ("left", &shape.left, Vec2::new(-1.0, 0.0)),
            ("down", &shape.down, Vec2::new(0.0, 1.0)),
            ("up", &shape.up, Vec2::new(0.0, -1.0)),
        ];
        for (key, expr, dir) in ways {
            if let Some(expr) = expr {
                at += dir * self.mm(expr, &route.key(key))?;
                moved = true;
            }
        }
        if moved {
            return Ok(at);
        }
        Err(self.cannot(
            Place::Key(route.clone()),
            "where the point lies from there is missing",
            format!("give one of: {FORMS}"),
        ))
    }

    /// `by` or `share` along a line.
    fn along(&self, shape: &PointShape, line: &Path, route: &Route) -> Drawn<f64> {
        let length = line.length();
        let at = match (&shape.by, &shape.share) {
            (Some(by), None) => self.mm(by, &route.key("by"))?,
            (None, Some(share)) => self.number(share, &route.key("share"))? * length,
            _ => {
                let message = "how far along is missing, or given twice";
                return Err(self.cannot(Place::Key(route.clone()), message, "give one of `by` (a length) and `share`"));
            }
        };
        Ok(if shape.from_end.0 { length - at } else { at })
    }

    fn crossing(&self, shape: &PointShape, first: &str, second: &str, route: &Route) -> Drawn<Point> {
        let at = route.key("cross");
        let (a, b) = (self.any_line(first, &at.index(0))?, self.any_line(second, &at.index(1))?);
        self.choose(&a, &b, shape, &at, &format!("`{first}` and `{second}` do not cross"))
    }

    fn choose(&self, a: &Path, b: &Path, shape: &PointShape, route: &Route, none: &str) -> Drawn<Point> {
        let found = crossings(a, b);
        match (found.as_slice(), &shape.near) {
            ([], _) => Err(self.cannot(route, none, "move one of them, so that they meet in every size")),
            ([only], _) => Ok(only.at),
            (many, Some(near)) => {
                let near = self.point(near, Some(&route.key("near")))?;
                let best = many.iter().min_by(|x, y| x.at.distance(near).total_cmp(&y.at.distance(near)));
                best.map(|hit| hit.at).ok_or(Stuck)
            }
            (many, None) => {
                let message = format!("there are {} such points", many.len());
                Err(self.cannot(route, message, "say which with `near`, a point close to the one you mean"))
            }
        }
    }

    /// The two points of `a to b`.
    pub fn two_points(&self, text: &str, route: &Route) -> Drawn<(Point, Point)> {
        let Some((a, b)) = text.split_once(" to ") else {
            let message = format!("expected two points, but found `{text}`");
            return Err(self.cannot(route, message, "write them as `a to b`"));
        };
        let (a_at, b_at) = (self.point(a.trim(), Some(route))?, self.point(b.trim(), Some(route))?);
        if a_at.distance(b_at) < SAME {
            let message = format!("`{}` and `{}` lie in the same place, so there is no line", a.trim(), b.trim());
            return Err(self.cannot(route, message, "choose two points that lie apart in every size"));
        }
        Ok((a_at, b_at))
    }

    /// An edge, a guide, or the line `a to b` without end.
    pub fn any_line(&self, text: &str, route: &Route) -> Drawn<Path> {
        if text.contains(" to ") {
            let (a, b) = self.two_points(text, route)?;
            let dir = (b - a) / (b - a).hypot();
            return Ok(Path::straight(&[a - dir * FAR, b + dir * FAR]));
        }
        self.line(text, Some(route))
    }

    /// An edge, a guide, or the stretch from `a` to `b`.
    pub fn own_line(&self, text: &str, route: &Route) -> Drawn<Path> {
        if text.contains(" to ") {
            let (a, b) = self.two_points(text, route)?;
            return Ok(Path::straight(&[a, b]));
        }
        self.line(text, Some(route))
    }
}
