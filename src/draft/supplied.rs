//! Ready-made outlines: panels, strips, bands, circles, gores.

use std::f64::consts::TAU;

use kurbo::{Point, Vec2};

use super::curve;
use super::desk::{Desk, Drawn};
use super::dip::Dip;
use super::outline::{Body, RawEdge};
use super::path::Path;
use super::piece::MarkKind;
use crate::fault::{Code, Fault, Route};
use crate::shape::{
    BandShape, BodyShape, CasingShape, CircleShape, GoreShape, PanelShape, PlacketShape, SmockedShape, StripShape,
};

/// The outline of a body that needs no other piece.
pub(super) fn supplied(desk: &Desk, body: &BodyShape, route: &Route) -> Drawn<Option<Body>> {
    Ok(Some(match body {
        BodyShape::Panel(shape) => panel(desk, shape, route)?,
        BodyShape::Strip(shape) => strip(desk, shape, route)?,
        BodyShape::Band(shape) => band(desk, shape, route)?,
        BodyShape::Circle(shape) => circle(desk, shape, route)?,
        BodyShape::Gore(shape) => gore(desk, shape, route)?,
        BodyShape::Placket(shape) => placket(desk, shape, route)?,
        BodyShape::Casing(shape) => casing(desk, shape, route)?,
        BodyShape::Smocked(shape) => smocked(desk, shape, route)?,
        _ => return Ok(None),
    }))
}

/// Four edges from their lines: top and bottom from the left, sides from the top.
fn four(top: Path, right: Path, bottom: Path, left: Path) -> Body {
    let points = [
        ("top_left", top.start()),
        ("top_right", top.end()),
        ("bottom_right", bottom.end()),
        ("bottom_left", bottom.start()),
    ];
    Body {
        edges: vec![
            RawEdge::new("top", top),
            RawEdge::new("right", right),
            RawEdge::new("bottom", bottom),
            RawEdge::new("left", left),
        ],
        points: points.into_iter().map(|(name, point)| (name.to_string(), point)).collect(),
        ..Body::default()
    }
}

/// Between an upper and a lower line, both from the left, with straight sides.
fn between(top: Path, bottom: Path) -> Body {
    let right = Path::straight(&[top.end(), bottom.end()]);
    let left = Path::straight(&[top.start(), bottom.start()]);
    four(top, right, bottom, left)
}

fn level(width: f64, y: f64) -> Path {
    Path::straight(&[Point::new(0.0, y), Point::new(width, y)])
}

/// A rectangle with a line to fold on along its middle.
fn folded(mut body: Body, width: f64, y: f64) -> Body {
    body.lines.push(("fold_line".to_string(), MarkKind::Fold, level(width, y)));
    body
}

fn panel(desk: &Desk, shape: &PanelShape, route: &Route) -> Drawn<Body> {
    let width = desk.positive(&shape.width, &route.key("width"), "the width")?;
    let height = desk.positive(&shape.height, &route.key("height"), "the height")?;
    let top = match &shape.dip {
        None => level(width, 0.0),
        Some(dip) => {
            let at = route.key("dip");
            let centre = match &dip.centre {
                Some(centre) => desk.mm(centre, &at.key("centre"))?,
                None => width / 2.0,
            };
            let line = Dip::read(desk, dip, &at)?.edge(width, centre);
            if line.bounds().y1 > height - 1.0 {
                let message = "the dip is as deep as the panel is high";
                return Err(desk.cannot(&at, message, "look at the units of `depth` and `height`"));
            }
            line
        }
    };
    Ok(between(top, level(width, height)))
}

fn strip(desk: &Desk, shape: &StripShape, route: &Route) -> Drawn<Body> {
    let length = desk.positive(&shape.length, &route.key("length"), "the length")?;
    let width = desk.positive(&shape.width, &route.key("width"), "the width")?;
    let body = between(level(length, 0.0), level(length, width));
    Ok(if shape.folded.0 { folded(body, length, width / 2.0) } else { body })
}

fn band(desk: &Desk, shape: &BandShape, route: &Route) -> Drawn<Body> {
    let length = desk.positive(&shape.length, &route.key("length"), "the length")?;
    let width = desk.positive(&shape.width, &route.key("width"), "the width")?;
    let underlap = match &shape.underlap {
        Some(underlap) => desk.mm(underlap, &route.key("underlap"))?,
        None => 0.0,
    };
    if underlap < 0.0 {
        return Err(desk.cannot(
            route.key("underlap"),
            "an underlap adds to the band",
            "give a length of nothing or more",
        ));
    }
    let whole = length + underlap;
    let Some(dip) = &shape.dip else {
        let mut body = between(level(whole, 0.0), level(whole, width));
        if underlap > 0.0 {
            let line = Path::straight(&[Point::new(length, 0.0), Point::new(length, width)]);
            body.lines.push(("underlap".to_string(), MarkKind::Place, line));
        }
        return Ok(if shape.folded.0 { folded(body, whole, width / 2.0) } else { body });
    };
    let at = route.key("dip");
    if shape.folded.0 {
        let message = "a band that follows a dip cannot be folded along its middle";
        return Err(desk.cannot(
            route.key("folded"),
            message,
            "cut it twice, an outer and a facing, and seam them along the top",
        ));
    }
    if dip.ratio.is_some() {
        return Err(desk.cannot(
            at.key("ratio"),
            "a band is not drawn up, so its dip has no ratio",
            "leave `ratio` out",
        ));
    }
    let centre = match &dip.centre {
        Some(centre) => desk.mm(centre, &at.key("centre"))?,
        None => length / 2.0,
    };
    // On the body the dip is measured straight across, and so it is drawn: `length` is the level waist.
    let line = on_body(&Dip::read(desk, dip, &at)?, whole, centre);
    let lower = line.moved(kurbo::Affine::translate((0.0, width)));
    let mut body = between(line, lower);
    if underlap > 0.0 {
        let line = Path::straight(&[Point::new(length, 0.0), Point::new(length, width)]);
        body.lines.push(("underlap".to_string(), MarkKind::Place, line));
    }
    Ok(body)
}

fn on_body(dip: &Dip, width: f64, centre: f64) -> Path {
    match dip {
        Dip::Line { line, half, depth, .. } => super::dip::band_edge(*line, *half, *depth, width, centre),
        Dip::Depths(_) => dip.edge(width, centre),
    }
}

fn circle(desk: &Desk, shape: &CircleShape, route: &Route) -> Drawn<Body> {
    let length = desk.positive(&shape.length, &route.key("length"), "the length")?;
    let share_at = route.key("share");
    let share = desk.number(&shape.share, &share_at)?;
    if !(0.005..0.999).contains(&share) {
        let message = format!("expected a share of a circle below 1, but found {share}");
        return Err(desk.cannot(
            &share_at,
            message,
            "for a whole circle cut two halves, or a half with one edge on the fold",
        ));
    }
    let sweep = TAU * share;
    let radius = match (&shape.seam, &shape.radius) {
        (Some(seam), None) => desk.positive(seam, &route.key("seam"), "the seam")? / sweep,
        (None, Some(radius)) => desk.positive(radius, &route.key("radius"), "the radius")?,
        _ => {
            let place = crate::fault::Place::Key(route.clone());
            return Err(desk.cannot(
                place,
                "expected one of `seam` and `radius`",
                "the seam is the length of the smaller arc of this piece",
            ));
        }
    };
    // The middle of the piece hangs straight down from the centre of the circle.
    let (left, right) = (0.25 * TAU + sweep / 2.0, 0.25 * TAU - sweep / 2.0);
    let on = |radius: f64, angle: f64| Point::ZERO + Vec2::from_angle(angle) * radius;
    let ring = |radius: f64| curve::arc(Point::ZERO, radius, left, -sweep, on(radius, left), on(radius, right));
    let (top, bottom) = (ring(radius), ring(radius + length));
    Ok(between(top, bottom))
}

fn gore(desk: &Desk, shape: &GoreShape, route: &Route) -> Drawn<Body> {
    let at = route.key("widths");
    let mut rows: Vec<(f64, f64)> = Vec::new();
    for (index, row) in shape.widths.iter().enumerate() {
        let row_at = at.index(index);
        let down = desk.mm(&row.down, &row_at.key("down"))?;
        let width = desk.positive(&row.width, &row_at.key("width"), "the width of the gore")?;
        if rows.last().is_some_and(|last| down <= last.0 + 0.01) {
            return Err(desk.cannot(
                row_at.key("down"),
                "the widths of a gore run from the top down",
                "each lies below the one before",
            ));
        }
        rows.push((down, width / 2.0));
    }
    let (Some(first), Some(last)) = (rows.first().copied(), rows.last().copied()) else {
        return Err(desk.cannot(&at, "a gore has at least two widths", "give one at the top and one at the hem"));
    };
    if rows.len() < 2 {
        return Err(desk.cannot(&at, "a gore has at least two widths", "give one at the top and one at the hem"));
    }
    let side = |sign: f64| {
        let points: Vec<Point> = rows.iter().map(|(down, half)| Point::new(sign * half, *down)).collect();
        if shape.curved.0 { curve::through(&points, None, None) } else { Path::straight(&points) }
    };
    let (right, left) = (side(1.0), side(-1.0));
    let (top, bottom) = if shape.shaped.0 {
        (square_arc(first, right.start_dir()), square_arc(last, right.end_dir()))
    } else {
        let across = |(down, half): (f64, f64)| Path::straight(&[Point::new(-half, down), Point::new(half, down)]);
        (across(first), across(last))
    };
    Ok(four(top, right, bottom, left))
}

/// The arc between two sides that is square to both; straight where the sides are upright.
fn square_arc((down, half): (f64, f64), side: Vec2) -> Path {
    let (a, b) = (Point::new(-half, down), Point::new(half, down));
    if side.x.abs() < 1e-6 {
        return Path::straight(&[a, b]);
    }
    // The radius along the side, so that the centre lies on the middle line; below it where the side leans in.
    let radius = half / side.x.abs();
    curve::arc_of_radius(a, b, -radius * side.x.signum()).unwrap_or_else(|| Path::straight(&[a, b]))
}

fn placket(desk: &Desk, shape: &PlacketShape, route: &Route) -> Drawn<Body> {
    let opening = desk.positive(&shape.opening, &route.key("opening"), "the opening")?;
    let width = desk.positive(&shape.width, &route.key("width"), "the width")?;
    let length = if shape.both_sides.0 { 2.0 * opening } else { opening };
    Ok(folded(between(level(length, 0.0), level(length, 2.0 * width)), length, width))
}

fn casing(desk: &Desk, shape: &CasingShape, route: &Route) -> Drawn<Body> {
    let length = desk.positive(&shape.length, &route.key("length"), "the length")?;
    let width = desk.positive(&shape.width, &route.key("width"), "the width")?;
    Ok(between(level(length, 0.0), level(length, width)))
}

/// Rows at an angle, closed form: pulled down `drop` at the middle, a row lies along hypot(half width, drop); the cloth
/// keeps its height, so the panel is a band whose upper and lower edges are two straight lines that meet at the middle.
fn smocked(desk: &Desk, shape: &SmockedShape, route: &Route) -> Drawn<Body> {
    let width = desk.positive(&shape.width, &route.key("width"), "the width")?;
    let height = desk.positive(&shape.height, &route.key("height"), "the height")?;
    let ratio_at = route.key("ratio");
    let ratio = desk.number(&shape.ratio, &ratio_at)?;
    if !(1.0..=20.0).contains(&ratio) {
        let fault =
            Fault::new(Code::Piece, &ratio_at, format!("expected a ratio of flat to drawn-up, but found {ratio}"));
        return Err(desk.fault(fault.help("4 : 1 is usual")));
    }
    let drop = match &shape.drop {
        Some(drop) => desk.mm(drop, &route.key("drop"))?,
        None => 0.0,
    };
    if !shape.drawn_up.0 {
        return Ok(between(level(width, 0.0), level(width, height + drop)));
    }
    let along = width / ratio;
    let half = (along / 2.0).powi(2) - drop * drop;
    if half <= 0.0 {
        let message = format!(
            "pulled down by {}, the rows are too short: they are {} drawn up",
            super::words::mm(drop),
            super::words::mm(along)
        );
        return Err(desk.cannot(route.key("drop"), message, "the drop is less than half the drawn-up width"));
    }
    let half = half.sqrt();
    let peak = |y: f64| {
        let points = [Point::new(0.0, y), Point::new(half, y + drop), Point::new(2.0 * half, y)];
        if drop.abs() < 1e-9 { level(2.0 * half, y) } else { Path::straight(&points) }
    };
    Ok(between(peak(0.0), peak(height)))
}
