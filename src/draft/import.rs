//! Outlines from drawings.

mod dxf;
mod features;
mod layers;
mod svg;

use std::collections::BTreeMap;

use kurbo::{Affine, PathSeg, Point, Vec2};

use super::cross::crosses_itself;
use super::desk::{Desk, Drawn};
use super::outline::{Body, RawEdge, dedup};
use super::path::{Path, seg_dir};
use super::piece::MarkKind;
use super::words::mm;
use crate::fault::{Code, Fault, Place, Route};
use crate::shape::{BodyShape, ImportShape};

/// What the drawings of a garment's folder say, by file: the text, or in words why it could not be read.
pub type Texts = BTreeMap<String, Result<String, String>>;

/// The drawings a piece of one size may come from.
#[derive(Debug, Clone, Copy)]
pub struct Files<'a> {
    /// The drawings of the folder.
    pub texts: &'a Texts,
    /// The name of the size that is drawn, for `{size}`.
    pub size: &'a str,
}

impl<'a> Files<'a> {
    fn text(&self, file: &str) -> Result<&'a str, String> {
        match self.texts.get(file) {
            Some(Ok(text)) => Ok(text),
            Some(Err(why)) => Err(why.clone()),
            None => Err("there is no folder to read it from".to_string()),
        }
    }
}

/// A turn sharper than this is a corner where nothing is said, degrees.
const CORNER: f64 = 25.0;
/// How far the ends of an outline may be apart and still be closed, mm.
const CLOSED: f64 = 0.5;
/// How far the scale declared may be from the one the drawing states: one in a thousand.
const SCALE: f64 = 1e-3;
/// No piece is larger, mm.
const HUGE: f64 = 2e4;

/// What a drawing holds of one piece, in its own units, y down the page.
#[derive(Debug, Clone, Default, PartialEq)]
pub(super) struct Sketch {
    /// The outline; closed is said apart.
    pub outline: Path,
    /// Whether the drawing closes it.
    pub closed: bool,
    /// Lines within it, and what they are for.
    pub lines: Vec<(MarkKind, Path)>,
    /// Points the drawing says the outline turns at.
    pub turns: Vec<Point>,
    /// Points the drawing says lie on a curve, so that there is no corner.
    pub curves: Vec<Point>,
    /// Notches, on the seam line or on the cut line.
    pub notches: Vec<Point>,
    /// The line the piece is mirrored at.
    pub fold: Option<(Point, Point)>,
    /// The way the grain runs.
    pub grain: Option<Vec2>,
    /// Drill marks.
    pub drills: Vec<Point>,
    /// What one unit is, mm, where the drawing says so.
    pub unit: Option<f64>,
}

/// Why a drawing cannot be used.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Unread {
    /// The file itself.
    File(String),
    /// There is nothing of that name; the names there are.
    Name(Vec<String>),
    /// What is there is no outline.
    Outline(String),
}

pub(super) fn imported(desk: &Desk, body: &BodyShape, route: &Route, files: Files<'_>) -> Drawn<Body> {
    let BodyShape::Imported(shape) = body else {
        let message = "this kind of shape cannot be drawn";
        return Err(desk.cannot(Place::Key(route.clone()), message, "choose another"));
    };
    let fill = |text: &str| text.replace("{size}", files.size);
    let (file, name) = (fill(&shape.file), fill(&shape.name));
    let at = route.key("file");
    let ending = file.rsplit('.').next().map(str::to_ascii_lowercase);
    let read: fn(&str, &str) -> Result<Sketch, Unread> = match ending.as_deref() {
        Some("svg") => svg::read,
        Some("dxf") => dxf::read,
        _ => {
            let message = format!("`{file}` is neither an SVG nor a DXF drawing");
            return Err(desk.fault(Fault::new(Code::File, &at, message).help("its name must end in `.svg` or `.dxf`")));
        }
    };
    let text = files.text(&file).map_err(|why| {
        let fault = Fault::new(Code::File, &at, format!("`{file}` cannot be read: {why}"));
        desk.fault(fault.help("the drawing lies in the garment's folder"))
    })?;
    let sketch = read(text, &name).map_err(|why| match why {
        Unread::File(why) => {
            let fault = Fault::new(Code::File, &at, format!("`{file}` cannot be read: {why}"));
            desk.fault(fault.help("save the drawing again as plain SVG, or as a DXF in text form"))
        }
        Unread::Name(known) => {
            let known: Vec<&str> = known.iter().map(String::as_str).collect();
            let fault =
                Fault::new(Code::UnknownName, route.key("name"), format!("`{file}` has nothing called `{name}`"));
            desk.fault(fault.help(crate::fault::did_you_mean(&name, &known)))
        }
        Unread::Outline(why) => {
            let fault = Fault::new(Code::Outline, route.key("name"), format!("`{name}` in `{file}` {why}"));
            desk.fault(fault.help("mend it in the drawing, or name the outline that is meant"))
        }
    })?;
    let scale = scale(desk, shape, &sketch, route)?;
    place(desk, shape, sketch, scale, &format!("`{name}` in `{file}`"), route)
}

fn scale(desk: &Desk, shape: &ImportShape, sketch: &Sketch, route: &Route) -> Drawn<f64> {
    let at = route.key("scale");
    let scale = desk.positive(&shape.scale, &at, "one unit of the drawing")?;
    if let Some(unit) = sketch.unit
        && (scale / unit - 1.0).abs() > SCALE
    {
        let message = format!("the drawing says that one unit is {unit:.4} mm, and here it is {scale:.4} mm");
        let fault = Fault::new(Code::Outline, &at, message);
        return Err(desk.fault(fault.help("measure a known distance of the drawing, and mend the one that is wrong")));
    }
    Ok(scale)
}

fn place(desk: &Desk, shape: &ImportShape, sketch: Sketch, scale: f64, name: &str, route: &Route) -> Drawn<Body> {
    let at = route.key("name");
    let outline = |message: String, help: &str| desk.fault(Fault::new(Code::Outline, &at, message).help(help));
    let bounds = sketch.outline.bounds();
    if !(bounds.width() * scale < HUGE && bounds.height() * scale < HUGE) {
        let message = format!("{name} would be {:.1} m wide", bounds.width() * scale / 1000.0);
        return Err(outline(message, "look at `scale`"));
    }
    let to = Affine::scale(scale) * Affine::translate((-bounds.x0, -bounds.y0));
    let mut path = sketch.outline.moved(to);
    let gap = path.start().distance(path.end());
    if !sketch.closed && gap > CLOSED {
        let message = format!("{name} is not closed: its ends are {} apart", mm(gap));
        return Err(outline(message, "close the outline in the drawing"));
    }
    if gap > 1e-6 {
        path = path.then(&Path::straight(&[path.end(), path.start()]));
    }
    if path.signed_area() < 0.0 {
        path = path.reversed();
    }
    if path.signed_area() < 1.0 {
        return Err(outline(format!("{name} encloses no cloth"), "look whether it is the outline that is named"));
    }
    if let Some(at) = crosses_itself(&dedup(&path.flat(0.05))) {
        let message = format!("{name} crosses itself {} from its left and {} from its top", mm(at.x), mm(at.y));
        return Err(outline(message, "mend it in the drawing"));
    }
    let corner = match &shape.corner {
        Some(corner) => desk.angle(corner, &route.key("corner"))?,
        None => CORNER.to_radians(),
    };
    let sketch = sketch.moved(to);
    let wanted = shape.edges.len();
    let runs = divided(&path, &|at, turn| turn > corner && !near_any(&sketch.curves, at));
    // Where the turns do not tell, the points may that the drawing marks as turning.
    let runs = if runs.len() == wanted || sketch.turns.is_empty() {
        runs
    } else {
        Some(divided(&path, &|at, _| near_any(&sketch.turns, at)))
            .filter(|marked| marked.len() == wanted)
            .unwrap_or(runs)
    };
    if runs.len() != wanted {
        let places: Vec<String> =
            runs.iter().map(|run| format!("{:.0} | {:.0}", run.start().x, run.start().y)).collect();
        let message = format!("{name} has {} corners, and {wanted} edges are named", runs.len());
        let fault = Fault::new(Code::Outline, route.key("edges"), message);
        return Err(desk.fault(fault.help(format!(
            "corners lie at (mm from the left | from the top) {}; name the edges clockwise from the first, or give `corner`",
            places.join(", ")
        ))));
    }
    let mut body = Body::default();
    for (edge, run) in shape.edges.iter().zip(runs) {
        body.points.insert(format!("{edge}_start"), run.start());
        body.edges.push(RawEdge::new(edge, run));
    }
    features::add(&mut body, sketch);
    Ok(body)
}

/// How near to a corner a point lies that marks it, mm.
const MARKED: f64 = 0.1;

fn near_any(points: &[Point], at: Point) -> bool {
    points.iter().any(|point| point.distance(at) < MARKED)
}

/// The outline divided at its corners, from the one nearest the upper left.
/// `corner` says whether there is one at a place, from the angle the outline turns by.
fn divided(path: &Path, corner: &dyn Fn(Point, f64) -> bool) -> Vec<Path> {
    let segs = path.segs();
    let n = segs.len();
    let start = |seg: &PathSeg| {
        use kurbo::ParamCurve;
        seg.start()
    };
    let turns = |i: usize| {
        let (u, v) = (seg_dir(&segs[(i + n - 1) % n], 1.0), seg_dir(&segs[i], 0.0));
        corner(start(&segs[i]), u.cross(v).atan2(u.dot(v)).abs())
    };
    let bounds = path.bounds();
    let away = |p: Point| (p.x - bounds.x0) + (p.y - bounds.y0);
    let mut corners: Vec<usize> = (0..n).filter(|i| turns(*i)).collect();
    let first = corners.iter().copied().min_by(|a, b| away(start(&segs[*a])).total_cmp(&away(start(&segs[*b]))));
    let Some(first) = first else { return vec![path.clone()] };
    let at = corners.iter().position(|corner| *corner == first).unwrap_or(0);
    corners.rotate_left(at);
    let count = corners.len();
    (0..count)
        .map(|i| {
            let (from, to) = (corners[i], corners[(i + 1) % count]);
            let length = if count == 1 { n } else { (to + n - from) % n };
            Path::of((0..length).map(|step| segs[(from + step) % n])).joined_up()
        })
        .collect()
}

#[cfg(test)]
#[path = "tests/import.rs"]
mod tests;
