//! DXF: blocks of pieces, with the layers of ASTM D6673 as restated in public sources.

use kurbo::Point;

use super::{Sketch, Unread};
use crate::draft::curve;
use crate::draft::path::Path;

/// Layers: the cut line, the seam line, lines within.
const BOUNDARY: &str = "1";
const SEAM: &str = "14";
const WITHIN: &str = "8";

/// A code and its value.
type Pair<'a> = (i32, &'a str);

/// A line of an entity: its corners with their bulges, and whether it is closed.
#[derive(Debug, Clone, Default)]
struct Line {
    layer: String,
    corners: Vec<(Point, f64)>,
    closed: bool,
}

fn pairs(text: &str) -> Result<Vec<Pair<'_>>, Unread> {
    let lines: Vec<&str> = text.lines().map(str::trim).collect();
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

/// Reads the block of that name. Its seam line (layer 14) is the outline; where there is none, its boundary (layer 1).
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
                lines.push(Line { layer, corners: Vec::new(), closed: flags & 1 == 1 });
                open = true;
            }
            "VERTEX" if open => {
                if let (Some(x), Some(y), Some(line)) = (number(10), number(20), lines.last_mut()) {
                    line.corners.push((Point::new(x, -y), number(42).unwrap_or(0.0)));
                }
            }
            "SEQEND" => open = false,
            "LWPOLYLINE" => lines.push(Line { layer, corners: light(entity), closed: flags & 1 == 1 }),
            "LINE" => {
                if let (Some(x0), Some(y0), Some(x1), Some(y1)) = (number(10), number(20), number(11), number(21)) {
                    let corners = vec![(Point::new(x0, -y0), 0.0), (Point::new(x1, -y1), 0.0)];
                    lines.push(Line { layer, corners, closed: false });
                }
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

fn sketch(lines: &[Line], unit: Option<f64>) -> Result<Sketch, Unread> {
    let on =
        |layer: &str| lines.iter().filter(|line| line.layer == layer && line.corners.len() > 2).collect::<Vec<_>>();
    let (seam, boundary) = (on(SEAM), on(BOUNDARY));
    let outline = match (seam.as_slice(), boundary.as_slice()) {
        ([one], _) | ([], [one]) => *one,
        ([], []) => return Err(Unread::Outline("has no outline on layer 14 (seam) or 1 (boundary)".to_string())),
        _ => return Err(Unread::Outline("has more than one outline on its layer".to_string())),
    };
    let within = lines.iter().filter(|line| line.layer == WITHIN).map(path).filter(|path| !path.is_empty()).collect();
    Ok(Sketch { outline: path(outline), closed: outline.closed, lines: within, unit })
}

/// The corners joined; a bulge is the tangent of a quarter of the arc's angle, to the left hand with y up.
fn path(line: &Line) -> Path {
    let n = line.corners.len();
    let last = if line.closed { n } else { n.saturating_sub(1) };
    let mut whole = Path::default();
    for i in 0..last {
        let ((a, bulge), (b, _)) = (line.corners[i], line.corners[(i + 1) % n]);
        let straight = Path::straight(&[a, b]);
        let piece = if bulge.abs() < 1e-9 {
            straight
        } else {
            // The height of the arc over its chord is bulge times half of it; a bulge above nothing is to the right of the way.
            let way = b - a;
            let right = kurbo::Vec2::new(-way.y, way.x);
            let top = a.midpoint(b) + right * (bulge / 2.0);
            curve::arc_through(a, top, b).unwrap_or(straight)
        };
        whole = whole.then(&piece);
    }
    whole
}
