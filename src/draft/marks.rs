//! Notches, lines within the piece, drill marks, the grain line, the label.

use kurbo::{Point, Vec2};

use super::cross::{Crossing, crossings};
use super::desk::{Desk, Drawn, length};
use super::offset::{beside, outward};
use super::path::{FAR, Path, SAME, tidy};
use super::piece::{Drill, Edge, Mark, MarkKind, Notch, Spot};
use super::words::mm;
use crate::fault::{Code, Fault, Place, Route, did_you_mean};
use crate::shape::{EdgeShape, LongGrain, MarkKindShape, MarkShape, NotchShape};
use crate::units::Length;

/// The most lines one grid may have.
const MOST_LINES: f64 = 4000.0;
/// The grain line takes this much of the room there is for it.
const GRAIN_SHARE: f64 = 0.7;

pub(super) fn spot(p: Point) -> Spot {
    Spot(Point::new(tidy(p.x), tidy(p.y)))
}

/// An edge by name.
pub(super) fn edge_named<'e>(desk: &Desk, edges: &'e [Edge], name: &str, route: &Route) -> Drawn<&'e Edge> {
    edges.iter().find(|edge| edge.name == name).ok_or_else(|| {
        let known: Vec<&str> = edges.iter().map(|edge| edge.name.as_str()).collect();
        let fault = Fault::new(Code::UnknownName, route, format!("no edge of this piece is called `{name}`"));
        desk.fault(fault.help(did_you_mean(name, &known)))
    })
}

/// The notches of the piece: those taken over, then its own; in the order of the edges and along them.
pub(super) fn notches(desk: &Desk, edges: &[Edge], taken_over: &[Notch]) -> Drawn<Vec<Notch>> {
    let mut notches = Vec::new();
    for old in taken_over {
        if let Some(edge) = edges.iter().find(|edge| edge.name == old.edge && old.along <= edge.length) {
            notches.push(set(edge, old.along, old.double, old.name.clone()));
        }
    }
    let mut stuck = None;
    for (index, shape) in desk.shape.notches.iter().enumerate() {
        match notch(desk, edges, shape, &desk.route.key("notches").index(index)) {
            Ok(notch) => notches.push(notch),
            Err(fault) => stuck = Some(fault),
        }
    }
    let order = |notch: &Notch| edges.iter().position(|edge| edge.name == notch.edge);
    notches.sort_by(|a, b| order(a).cmp(&order(b)).then(a.along.to_mm().total_cmp(&b.along.to_mm())));
    stuck.map_or(Ok(notches), Err)
}

fn notch(desk: &Desk, edges: &[Edge], shape: &NotchShape, route: &Route) -> Drawn<Notch> {
    let edge = edge_named(desk, edges, &shape.edge, &route.key("edge"))?;
    let whole = edge.length.to_mm();
    let (along, at) = match (&shape.by, &shape.share, &shape.at) {
        (Some(by), None, None) => (desk.mm(by, &route.key("by"))?, route.key("by")),
        (None, Some(share), None) => (desk.number(share, &route.key("share"))? * whole, route.key("share")),
        (None, None, Some(point)) => {
            let at = route.key("at");
            let (on_path, gap) = edge.path.nearest(desk.point(point, Some(&at))?);
            if gap > 0.5 {
                let message = format!("the point `{point}` lies {} off the edge `{}`", mm(gap), edge.name);
                return Err(desk.cannot(&at, message, "a notch lies on the seam line"));
            }
            (edge.along(on_path).to_mm(), at)
        }
        _ => {
            let message = "where the notch lies is missing, or given twice";
            return Err(desk.cannot(Place::Key(route.clone()), message, "give one of `by`, `share` and `at`"));
        }
    };
    let along = if shape.from_end.0 && shape.at.is_none() { whole - along } else { along };
    if along < -SAME || along > whole + SAME {
        let message = format!("this notch lies {} along `{}`, which is {} long", mm(along), edge.name, mm(whole));
        return Err(desk.cannot(&at, message, "a notch lies on its edge in every size"));
    }
    Ok(set(edge, length(along.clamp(0.0, whole)), shape.double.0, shape.name.clone()))
}

fn set(edge: &Edge, along: Length, double: bool, name: Option<String>) -> Notch {
    let (at, dir) = edge.path.at(edge.on_path(along));
    let out = outward(dir);
    let cut = at + out * edge.allowance.to_mm();
    Notch { edge: edge.name.clone(), along, at: spot(at), cut: spot(cut), out: spot(out.to_point()), double, name }
}

/// The lines within the piece.
pub(super) fn marks(desk: &Desk, edges: &[Edge], seam: &Path) -> Drawn<Vec<Mark>> {
    let mut marks = Vec::new();
    let mut stuck = None;
    for (name, shape) in &desk.shape.marks {
        match mark(desk, edges, seam, name, shape) {
            Ok(more) => marks.extend(more),
            Err(fault) => stuck = Some(fault),
        }
    }
    stuck.map_or(Ok(marks), Err)
}

pub(super) fn finished(name: &str, title: &str, kind: MarkKind, path: &Path, width: Option<Length>) -> Mark {
    let path = path.rounded();
    let long = length(path.length());
    Mark { name: name.to_string(), title: title.to_string(), kind, path, length: long, width }
}

fn mark(desk: &Desk, edges: &[Edge], seam: &Path, name: &str, shape: &MarkShape) -> Drawn<Vec<Mark>> {
    let route = desk.route.key("marks").key(name);
    let title = shape.title.clone().unwrap_or_else(|| name.replace('_', " "));
    let kind = match shape.kind {
        MarkKindShape::Fold => MarkKind::Fold,
        MarkKindShape::Stitch => MarkKind::Stitch,
        MarkKindShape::Channel => MarkKind::Channel,
        MarkKindShape::Place => MarkKind::Place,
        MarkKindShape::Centre => MarkKind::Centre,
        MarkKindShape::Cut => MarkKind::Cut,
        MarkKindShape::Grid => return grid(desk, edges, name, &title, shape, &route),
    };
    let width = match &shape.width {
        Some(width) => Some(length(desk.positive(width, &route.key("width"), "the width of the channel")?)),
        None => None,
    };
    let Some(parallel) = &shape.parallel else {
        let line = EdgeShape {
            line: shape.line.clone(),
            curve: shape.curve.clone(),
            arc: shape.arc.clone(),
            ..EdgeShape::default()
        };
        let path = desk.drawn_line(&line, &route)?;
        return Ok(vec![finished(name, &title, kind, &path, width)]);
    };
    let edge = edge_named(desk, edges, parallel, &route.key("parallel"))?;
    let at = route.key("by");
    let Some(by) = &shape.by else {
        return Err(desk.cannot(
            Place::Key(route),
            "a line beside an edge needs `by`, how far inside it runs",
            "add `by`",
        ));
    };
    let by = desk.mm(by, &at)?;
    let (part, cut) = stretch(desk, edge, shape, &route)?;
    let line = beside(&part, -by);
    let line = if by > 0.0 && !cut { within(&line, seam, 4.0 * by) } else { line };
    if line.is_empty() {
        let message = format!("nothing is left of a line {} inside `{parallel}`", mm(by));
        return Err(desk.cannot(&at, message, "run it closer to the edge"));
    }
    Ok(vec![finished(name, &title, kind, &line, width)])
}

/// The stretch of an edge between `start` and `end`, on its path, and whether it is less than the whole.
fn stretch(desk: &Desk, edge: &Edge, shape: &MarkShape, route: &Route) -> Drawn<(Path, bool)> {
    let whole = edge.length.to_mm();
    let read = |expr: &Option<_>, key: &str, other: f64| match expr {
        Some(expr) => desk.mm(expr, &route.key(key)),
        None => Ok(other),
    };
    let (start, end) = (read(&shape.start, "start", 0.0)?, read(&shape.end, "end", whole)?);
    if start < -SAME || end > whole + 0.05 || end - start < SAME {
        let message = format!(
            "the line runs from {} to {} along `{}`, which is {} long",
            mm(start),
            mm(end),
            edge.name,
            mm(whole)
        );
        return Err(desk.cannot(
            Place::Key(route.clone()),
            message,
            "`start` and `end` lie on the edge, in this order",
        ));
    }
    let (a, b) = (edge.on_path(length(start)), edge.on_path(length(end)));
    let cut = shape.start.is_some() || shape.end.is_some();
    Ok((edge.path.slice(a.min(b), a.max(b)), cut))
}

/// The line run on or cut back to the outline at both ends.
fn within(line: &Path, seam: &Path, reach: f64) -> Path {
    let long = line.extended(reach);
    let hits = crossings(&long, seam);
    let nearest = |at: f64| hits.iter().min_by(|a, b| (a.first - at).abs().total_cmp(&(b.first - at).abs()));
    let end = reach + line.length();
    match (nearest(reach), nearest(end)) {
        (Some(Crossing { first: a, .. }), Some(Crossing { first: b, .. })) if b - a > SAME => long.slice(*a, *b),
        _ => line.clone(),
    }
}

/// Rows: the edge moved straight in, along the page. Guides: upright lines from the first row to the last.
fn grid(desk: &Desk, edges: &[Edge], name: &str, title: &str, shape: &MarkShape, route: &Route) -> Drawn<Vec<Mark>> {
    let missing =
        |key: &str| desk.cannot(Place::Key(route.clone()), format!("a grid needs `{key}`"), format!("add `{key}`"));
    let edge =
        edge_named(desk, edges, shape.parallel.as_deref().ok_or_else(|| missing("parallel"))?, &route.key("parallel"))?;
    let first = desk.mm(shape.by.as_ref().ok_or_else(|| missing("by"))?, &route.key("by"))?;
    let rows = desk.count(shape.rows.as_ref().ok_or_else(|| missing("rows"))?, &route.key("rows"), 200.0)?;
    let apart = match &shape.apart {
        Some(apart) => desk.positive(apart, &route.key("apart"), "the distance between rows")?,
        None if rows == 1 => 0.0,
        None => return Err(missing("apart")),
    };
    let (part, _) = stretch(desk, edge, shape, route)?;
    let part = if edge.turned { part.reversed() } else { part };
    // Into the piece, along the page.
    let chord = part.end() - part.start();
    let inward = if edge.turned { outward(chord) } else { -outward(chord) };
    let inward = if inward.x.abs() > inward.y.abs() {
        Vec2::new(inward.x.signum(), 0.0)
    } else {
        Vec2::new(0.0, inward.y.signum())
    };
    let mut marks = Vec::new();
    let mut depth = first;
    for row in 1..=rows {
        let line = part.moved(kurbo::Affine::translate(inward * depth));
        marks.push(finished(name, &format!("{title}, row {row}"), MarkKind::Row, &line, None));
        if row < rows {
            depth += apart;
        }
    }
    if let Some(every) = &shape.every {
        let at = route.key("every");
        let every = desk.positive(every, &at, "the distance between guide lines")?;
        let axis = Vec2::new(inward.y.abs(), inward.x.abs());
        let run = (part.end() - part.start()).dot(axis);
        if run.abs() / every > MOST_LINES {
            return Err(desk.cannot(
                &at,
                format!("this makes {:.0} guide lines", run.abs() / every),
                "look at the unit",
            ));
        }
        let step = axis * run.signum() * every;
        let mut place = part.start();
        let count = run.abs() / every + 1e-6;
        let mut done = 0.0;
        while done <= count {
            let knife = Path::straight(&[place - inward * FAR, place + inward * FAR]);
            let on_edge = crossings(&part, &knife).into_iter().next().map_or(place, |hit| hit.at);
            let line = Path::straight(&[on_edge + inward * first, on_edge + inward * depth.max(first + 1.0)]);
            marks.push(finished(name, &format!("{title}, guide"), MarkKind::Guide, &line, None));
            place += step;
            done += 1.0;
        }
    }
    Ok(marks)
}

/// Drill marks.
pub(super) fn drills(desk: &Desk) -> Drawn<Vec<Drill>> {
    let mut drills = Vec::new();
    for (index, shape) in desk.shape.drills.iter().enumerate() {
        let at = desk.route.key("drills").index(index).key("at");
        let point = desk.point(&shape.at, Some(&at))?;
        drills
            .push(Drill { at: spot(point), title: shape.title.clone().unwrap_or_else(|| shape.at.replace('_', " ")) });
    }
    Ok(drills)
}

/// The angle of the grain, from down the page, clockwise, in radians; between -90 and 90 degrees.
/// Where nothing is written it is `usual`.
pub(super) fn grain_angle(desk: &Desk, grain: Option<&LongGrain>, usual: f64, route: &Route) -> Drawn<f64> {
    let Some(grain) = grain else { return Ok(usual) };
    let quarter = std::f64::consts::FRAC_PI_2;
    let of_line = |name: &str, key: &str| {
        let at = if grain.word.is_some() { route.clone() } else { route.key(key) };
        let path = desk.own_line(name, &at)?;
        if !path.is_straight() {
            return Err(desk.cannot(
                &at,
                format!("`{name}` is not straight, and the grain is"),
                "name a straight edge or a line `a to b`",
            ));
        }
        Ok(grain_between(path.end() - path.start()))
    };
    let angle = match (&grain.word, &grain.along, &grain.across, &grain.turned) {
        (Some(word), None, None, None) => match word.as_str() {
            "lengthwise" => 0.0,
            "crosswise" => quarter,
            "bias" => quarter / 2.0,
            other => {
                let known = ["lengthwise", "crosswise", "bias"];
                let fault = Fault::new(Code::BadValue, route, format!("`{other}` is no way for the grain to run"));
                return Err(desk.fault(fault.help(did_you_mean(other, &known))));
            }
        },
        (None, Some(along), None, None) => of_line(along, "along")?,
        (None, None, Some(across), None) => of_line(across, "across")? + quarter,
        (None, None, None, Some(turned)) => desk.angle(turned, &route.key("turned"))?,
        _ => {
            let message = "expected one of `along`, `across` and `turned`";
            return Err(desk.cannot(
                Place::Key(route.clone()),
                message,
                "give one, or write `lengthwise`, `crosswise` or `bias`",
            ));
        }
    };
    Ok(upright(angle))
}

/// The angle of a way, from down the page, clockwise: down is 0, left is a quarter. The grain has no arrow.
pub(super) fn grain_between(way: Vec2) -> f64 {
    upright((-way.x).atan2(way.y))
}

/// An angle of the grain between -90 and 90 degrees.
fn upright(angle: f64) -> f64 {
    let quarter = std::f64::consts::FRAC_PI_2;
    let angle = angle.rem_euclid(2.0 * quarter);
    if angle > quarter + 1e-9 { angle - 2.0 * quarter } else { angle }
}

/// The middle of the outline, by area; and the grain line, in the room there is for it within the seam line.
pub(super) fn grain_line(seam: &Path, angle: f64) -> (Point, (Spot, Spot)) {
    let middle = centroid(seam);
    let dir = Vec2::new(-angle.sin(), angle.cos());
    let line = Path::straight(&[middle - dir * FAR, middle + dir * FAR]);
    let hits: Vec<f64> = crossings(&line, seam).into_iter().map(|hit| hit.first - FAR).collect();
    // The stretches inside the outline; the one about the middle, else the longest.
    let inside: Vec<(f64, f64)> = hits.chunks_exact(2).map(|pair| (pair[0], pair[1])).collect();
    let about = inside.iter().find(|(from, to)| *from < 0.0 && *to > 0.0);
    let longest = || inside.iter().max_by(|a, b| (a.1 - a.0).total_cmp(&(b.1 - b.0)));
    let (from, to) = about.or_else(longest).copied().unwrap_or((-50.0, 50.0));
    let (centre, half) = (from.midpoint(to), (to - from) / 2.0 * GRAIN_SHARE);
    let label = if about.is_some() { middle } else { middle + dir * centre };
    (label, (spot(middle + dir * (centre - half)), spot(middle + dir * (centre + half))))
}

/// The centre of area of a closed outline.
pub(super) fn centroid(outline: &Path) -> Point {
    let points = outline.flat(0.5);
    let n = points.len();
    let (mut area, mut sum) = (0.0, Vec2::ZERO);
    let origin = outline.bounds().center();
    for i in 0..n {
        let (a, b) = (points[i] - origin, points[(i + 1) % n] - origin);
        let cross = a.cross(b);
        area += cross;
        sum += (a + b) * cross;
    }
    if area.abs() < 1e-9 { origin } else { origin + sum / (3.0 * area) }
}
