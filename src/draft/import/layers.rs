//! What the layers of a piece block mean: those of ASTM D6673 as restated in public sources.

use kurbo::{Point, Vec2};

use super::dxf::Line;
use super::{CLOSED, Sketch, Unread};
use crate::draft::curve;
use crate::draft::path::Path;
use crate::draft::piece::MarkKind;

/// The cut line.
const BOUNDARY: &str = "1";
/// Points at which the outline turns.
const TURNS: &str = "2";
/// Points on a curve.
const CURVES: &str = "3";
const NOTCHES: &str = "4";
const MIRROR: &str = "6";
const GRAIN: &str = "7";
/// Lines within.
const WITHIN: &str = "8";
const CUT_OUTS: &str = "11";
const DRILLS: &str = "13";
/// The seam line.
const SEAM: &str = "14";

/// The layers that are read.
const READ: [&str; 7] = [BOUNDARY, MIRROR, GRAIN, WITHIN, CUT_OUTS, DRILLS, SEAM];

/// The piece a block holds. Its seam line (layer 14) is the outline; where there is none, its boundary (layer 1).
pub(super) fn sketch(lines: &[Line], unit: Option<f64>) -> Result<Sketch, Unread> {
    if let Some((line, name)) = lines
        .iter()
        .find_map(|line| Some((line, line.unread.as_ref()?)))
        .filter(|(line, _)| READ.contains(&&*line.layer))
    {
        let message =
            format!("has a curve of the kind {name} on layer {}; save curves as polylines or arcs", line.layer);
        return Err(Unread::Outline(message));
    }
    let on = |layer: &'static str| lines.iter().filter(move |line| line.layer == layer && line.unread.is_none());
    let points =
        |layer: &'static str| on(layer).filter_map(|line| line.corners.first()).map(|corner| corner.0).collect();
    let drawn = |layer: &'static str| on(layer).filter(|line| line.corners.len() > 1).collect::<Vec<_>>();
    let outline = match outlines(&drawn(SEAM), unit).as_slice() {
        [one] => one.clone(),
        [] => match outlines(&drawn(BOUNDARY), unit).as_slice() {
            [one] => one.clone(),
            [] => return Err(Unread::Outline("has no outline on layer 14 (seam) or 1 (boundary)".to_string())),
            many => {
                return Err(Unread::Outline(format!("has {} outlines on layer 1, and a piece has one", many.len())));
            }
        },
        many => return Err(Unread::Outline(format!("has {} outlines on layer 14, and a piece has one", many.len()))),
    };
    let within = |layer: &'static str, kind: MarkKind| {
        on(layer).map(path).filter(|path| !path.is_empty()).map(move |path| (kind, path))
    };
    let ends = |layer: &'static str| {
        drawn(layer).first().and_then(|line| Some((line.corners.first()?.0, line.corners.last()?.0)))
    };
    Ok(Sketch {
        outline: outline.0,
        closed: outline.1,
        lines: within(WITHIN, MarkKind::Stitch).chain(within(CUT_OUTS, MarkKind::Cut)).collect(),
        turns: points(TURNS),
        curves: points(CURVES),
        notches: points(NOTCHES),
        fold: ends(MIRROR),
        grain: ends(GRAIN).map(|(from, to)| to - from).filter(|way| way.hypot() > 0.0),
        drills: on(DRILLS).filter_map(middle).collect(),
        unit,
    })
}

/// The middle of a point, a cross or a circle.
fn middle(line: &Line) -> Option<Point> {
    let sum = line.corners.iter().fold(Vec2::ZERO, |sum, (at, _)| sum + at.to_vec2());
    let count = u32::try_from(line.corners.len()).ok().filter(|count| *count > 0)?;
    Some((sum / f64::from(count)).to_point())
}

/// The outlines on a layer, each with whether it is closed. Lines that end where others begin are one.
fn outlines(lines: &[&Line], unit: Option<f64>) -> Vec<(Path, bool)> {
    let near = CLOSED / unit.unwrap_or(1.0);
    let mut done: Vec<(Path, bool)> = Vec::new();
    let mut open: Vec<Path> = Vec::new();
    for line in lines {
        let path = path(line);
        if path.is_empty() {
            continue;
        }
        if line.closed { done.push((path, true)) } else { open.push(path) }
    }
    while let Some(mut chain) = open.pop() {
        loop {
            let end = chain.end();
            if chain.start().distance(end) <= near {
                break;
            }
            let next =
                open.iter().position(|path| path.start().distance(end) <= near || path.end().distance(end) <= near);
            let Some(next) = next else { break };
            let more = open.swap_remove(next);
            let more = if more.start().distance(end) <= near { more } else { more.reversed() };
            chain = chain.then(&more);
        }
        done.push((chain, false));
    }
    done
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
            let right = Vec2::new(-way.y, way.x);
            let top = a.midpoint(b) + right * (bulge / 2.0);
            curve::arc_through(a, top, b).unwrap_or(straight)
        };
        whole = whole.then(&piece);
    }
    whole
}
