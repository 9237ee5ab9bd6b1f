//! Faults a figure may have that no reader should have to find.

use kurbo::{BezPath, Point, Rect, Shape};

use super::figure::{Figure, Label};
use super::geom::{cross, flat, pt};
use super::metric::bounds;

/// Smallest letters allowed, points.
pub const LEAST_PT: f64 = 7.0;

/// What is wrong with a figure, in words; nothing where it is fit to print.
///
/// It finds labels that overlap one another or leave the box, labels struck through by a line that is not
/// theirs, leaders that cross each other or run through other labels, letters too small, and empty words.
#[must_use]
pub fn lint(figure: &Figure) -> Vec<String> {
    let mut out = Vec::new();
    let page = Rect::new(0.0, 0.0, figure.width_mm, figure.height_mm);
    let boxes: Vec<Rect> = figure.labels.iter().map(bounds).collect();
    for (label, area) in figure.labels.iter().zip(&boxes) {
        if label.text.trim().is_empty() {
            out.push("a label has no words".to_string());
        }
        if label.size_pt < LEAST_PT {
            out.push(format!("`{}` is set in {} pt, less than {LEAST_PT}", label.text, label.size_pt));
        }
        if !area.is_finite() || page.union(*area) != page {
            out.push(format!("`{}` leaves the box", label.text));
        }
    }
    for (i, (label, area)) in figure.labels.iter().zip(&boxes).enumerate() {
        for (other, over) in figure.labels.iter().zip(&boxes).skip(i + 1) {
            if meets(*area, *over) {
                out.push(format!("`{}` overlaps `{}`", label.text, other.text));
            }
            if let (Some(a), Some(b)) = (leader(label), leader(other))
                && cross(a, b)
            {
                out.push(format!("the leaders of `{}` and `{}` cross", label.text, other.text));
            }
        }
        for (j, over) in boxes.iter().enumerate() {
            if let Some(a) = leader(label)
                && i != j
                && hits(a, over.inset(-0.05))
            {
                let text = figure.labels.get(j).map_or("", |l| l.text.as_str());
                out.push(format!("the leader of `{}` runs through `{text}`", label.text));
            }
        }
    }
    struck(figure, &boxes, &mut out);
    if figure.caption.trim().is_empty() || figure.alt.trim().is_empty() {
        out.push("the figure has no caption or no alternative text".to_string());
    }
    out
}

/// Labels with a line of the drawing through them.
fn struck(figure: &Figure, boxes: &[Rect], out: &mut Vec<String>) {
    // Within a magnified circle only what lies in the circle is seen.
    let mut seen: Option<Rect> = None;
    for line in figure.svg.lines() {
        if line.starts_with("<clipPath") {
            seen = attribute(line, "d").and_then(|d| BezPath::from_svg(d).ok()).map(|path| path.bounding_box());
        } else if line.starts_with("</g>") {
            seen = None;
        }
        if !line.contains(" stroke=") {
            continue;
        }
        let Some(path) = attribute(line, "d").and_then(|d| BezPath::from_svg(d).ok()) else { continue };
        let class = attribute(line, "class").unwrap_or_default();
        if class == "leader" {
            continue;
        }
        for part in flat(&path, 0.1) {
            for pair in part.windows(2) {
                for (label, area) in figure.labels.iter().zip(boxes) {
                    let message = format!("`{}` is struck by a {class} line", label.text);
                    let shown = seen.map_or(*area, |window| window.intersect(*area));
                    if hits((pair[0], pair[1]), shown.inset(-0.25)) && !out.contains(&message) {
                        out.push(message);
                    }
                }
            }
        }
    }
}

/// The value of an attribute in a line of our own SVG.
fn attribute<'a>(line: &'a str, name: &str) -> Option<&'a str> {
    let start = line.find(&format!(" {name}=\""))? + name.len() + 3;
    let rest = line.get(start..)?;
    rest.get(..rest.find('"')?)
}

fn leader(label: &Label) -> Option<(Point, Point)> {
    label.leader.map(|l| (pt(l.from[0], l.from[1]), pt(l.to[0], l.to[1])))
}

fn meets(a: Rect, b: Rect) -> bool {
    a.x0 < b.x1 - 1e-6 && b.x0 < a.x1 - 1e-6 && a.y0 < b.y1 - 1e-6 && b.y0 < a.y1 - 1e-6
}

/// Whether a straight line enters a box.
fn hits((a, b): (Point, Point), area: Rect) -> bool {
    if area.width() <= 0.0 || area.height() <= 0.0 {
        return false;
    }
    let inside = |p: Point| p.x > area.x0 && p.x < area.x1 && p.y > area.y0 && p.y < area.y1;
    let corners = [pt(area.x0, area.y0), pt(area.x1, area.y0), pt(area.x1, area.y1), pt(area.x0, area.y1)];
    inside(a) || inside(b) || (0..4).any(|i| cross((a, b), (corners[i], corners[(i + 1) % 4])))
}
