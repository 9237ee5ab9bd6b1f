//! DXF: the blocks of a drawing and what is drawn in them (DXF Reference, group codes).

use kurbo::Point;

use super::layers::sketch;
use super::{Sketch, Unread};

/// A code and its value.
type Pair<'a> = (i32, &'a str);

/// What an entity draws: its layer, and its corners with their bulges; a single one for a point.
#[derive(Debug, Clone, Default)]
pub(super) struct Line {
    pub(super) layer: String,
    pub(super) corners: Vec<(Point, f64)>,
    pub(super) closed: bool,
    /// An entity that is not read, by its name.
    pub(super) unread: Option<String>,
}

fn pairs(text: &str) -> Result<Vec<Pair<'_>>, Unread> {
    let lines: Vec<&str> = text.lines().map(str::trim).collect();
    if text.contains('\0') {
        return Err(Unread::File("it is no text; save the drawing as a DXF in text (ASCII) form".to_string()));
    }
    let mut pairs = Vec::with_capacity(lines.len() / 2);
    for pair in lines.chunks_exact(2) {
        let code = pair[0].parse().map_err(|_| {
            Unread::File(format!(
                "expected a group code of a text DXF, but found `{}`",
                pair[0].chars().take(20).collect::<String>()
            ))
        })?;
        pairs.push((code, pair[1]));
    }
    Ok(pairs)
}

/// Reads the block of that name.
pub(super) fn read(text: &str, name: &str) -> Result<Sketch, Unread> {
    let pairs = pairs(text)?;
    let unit = stated_unit(&pairs);
    let mut known = Vec::new();
    let mut at = 0;
    while at < pairs.len() {
        if pairs[at] == (0, "BLOCK") {
            let end =
                pairs[at..].iter().position(|pair| *pair == (0, "ENDBLK")).map_or(pairs.len(), |ahead| at + ahead);
            let head = pairs[at + 1..end].iter().take_while(|(code, _)| *code != 0).find(|(code, _)| *code == 2);
            let block = head.map_or("", |(_, value)| *value);
            if block == name {
                return sketch(&entities(&pairs[at + 1..end]), unit);
            }
            if !block.starts_with('*') {
                known.push(block.to_string());
            }
            at = end;
        }
        at += 1;
    }
    Err(Unread::Name(known))
}

/// `$INSUNITS`: 1 inches, 4 millimetres, 5 centimetres, 6 metres (DXF Reference).
fn stated_unit(pairs: &[Pair]) -> Option<f64> {
    let at = pairs.iter().position(|pair| *pair == (9, "$INSUNITS"))?;
    match pairs.get(at + 1)?.1 {
        "1" => Some(25.4),
        "4" => Some(1.0),
        "5" => Some(10.0),
        "6" => Some(1000.0),
        _ => None,
    }
}

fn entities(pairs: &[Pair]) -> Vec<Line> {
    let mut lines: Vec<Line> = Vec::new();
    let mut starts: Vec<usize> =
        pairs.iter().enumerate().filter(|(_, (code, _))| *code == 0).map(|(at, _)| at).collect();
    starts.push(pairs.len());
    let mut open = false;
    for window in starts.windows(2) {
        let entity = &pairs[window[0]..window[1]];
        let value = |wanted: i32| entity.iter().find(|(code, _)| *code == wanted).map(|(_, value)| *value);
        let number =
            |wanted: i32| value(wanted).and_then(|value| value.parse::<f64>().ok()).filter(|value| value.is_finite());
        let layer = value(8).unwrap_or("").to_string();
        let flags = value(70).and_then(|value| value.parse::<i32>().ok()).unwrap_or(0);
        match entity.first().map_or("", |(_, name)| name) {
            "POLYLINE" => {
                lines.push(Line { layer, closed: flags & 1 == 1, ..Line::default() });
                open = true;
            }
            "VERTEX" if open => {
                if let (Some(x), Some(y), Some(line)) = (number(10), number(20), lines.last_mut()) {
                    line.corners.push((Point::new(x, -y), number(42).unwrap_or(0.0)));
                }
            }
            "SEQEND" => open = false,
            "LWPOLYLINE" => lines.push(Line { layer, corners: light(entity), closed: flags & 1 == 1, unread: None }),
            "LINE" => {
                if let (Some(x0), Some(y0), Some(x1), Some(y1)) = (number(10), number(20), number(11), number(21)) {
                    let corners = vec![(Point::new(x0, -y0), 0.0), (Point::new(x1, -y1), 0.0)];
                    lines.push(Line { layer, corners, ..Line::default() });
                }
            }
            "POINT" => {
                if let (Some(x), Some(y)) = (number(10), number(20)) {
                    lines.push(Line { layer, corners: vec![(Point::new(x, -y), 0.0)], ..Line::default() });
                }
            }
            "ARC" | "CIRCLE" => {
                if let (Some(x), Some(y), Some(radius)) = (number(10), number(20), number(40)) {
                    let ends = number(50).zip(number(51));
                    lines.push(round(layer, Point::new(x, -y), radius, ends));
                }
            }
            name @ ("SPLINE" | "ELLIPSE" | "HELIX") => {
                lines.push(Line { layer, unread: Some(name.to_string()), ..Line::default() });
            }
            _ => {}
        }
    }
    lines
}

/// The corners of a light polyline: 10 and 20 for each, and perhaps 42 for its bulge.
fn light(entity: &[Pair]) -> Vec<(Point, f64)> {
    let mut corners: Vec<(Point, f64)> = Vec::new();
    let mut x = 0.0;
    for (code, value) in entity {
        let Some(number) = value.parse::<f64>().ok().filter(|value| value.is_finite()) else { continue };
        match code {
            10 => x = number,
            20 => corners.push((Point::new(x, -number), 0.0)),
            42 => {
                if let Some(last) = corners.last_mut() {
                    last.1 = number;
                }
            }
            _ => {}
        }
    }
    corners
}

/// An arc between two angles (degrees, counted to the left with y up), or a whole circle, as corners with bulges: the bulge
/// is the tangent of a quarter of the angle.
fn round(layer: String, centre: Point, radius: f64, ends: Option<(f64, f64)>) -> Line {
    let (from, sweep) = match ends {
        Some((from, to)) => (from.to_radians(), (to - from).rem_euclid(360.0).to_radians()),
        None => (0.0, std::f64::consts::TAU),
    };
    let closed = ends.is_none();
    let steps = 4;
    let step = sweep / f64::from(steps);
    let count = if closed { steps } else { steps + 1 };
    let corners = (0..count)
        .map(|index| {
            let angle = from + step * f64::from(index);
            let at = Point::new(centre.x + radius * angle.cos(), centre.y - radius * angle.sin());
            (at, if index == steps { 0.0 } else { (step / 4.0).tan() })
        })
        .collect();
    Line { layer, corners, closed, unread: None }
}
