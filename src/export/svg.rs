//! True-scale SVG.

use std::fmt::Write;

use kurbo::PathEl;

use crate::draft::{MarkKind, Path, Piece, Spot};

/// Room about the pieces, mm.
const MARGIN: f64 = 10.0;

/// A path as SVG path data (SVG 1.1, section 8.3), in mm.
#[must_use]
pub fn path_data(path: &Path, closed: bool) -> String {
    let mut text = String::new();
    for element in path.bez().elements() {
        if !text.is_empty() {
            text.push(' ');
        }
        let _ = match element {
            PathEl::MoveTo(p) => write!(text, "M {} {}", number(p.x), number(p.y)),
            PathEl::LineTo(p) => write!(text, "L {} {}", number(p.x), number(p.y)),
            PathEl::QuadTo(a, p) => write!(text, "Q {} {} {} {}", number(a.x), number(a.y), number(p.x), number(p.y)),
            PathEl::CurveTo(a, b, p) => write!(
                text,
                "C {} {} {} {} {} {}",
                number(a.x),
                number(a.y),
                number(b.x),
                number(b.y),
                number(p.x),
                number(p.y)
            ),
            PathEl::ClosePath => write!(text, "Z"),
        };
    }
    if closed && !text.is_empty() {
        text.push_str(" Z");
    }
    text
}

fn number(value: f64) -> String {
    let text = format!("{value:.6}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" { "0".to_string() } else { text.to_string() }
}

/// Text that stands in XML.
fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            c if c.is_control() => {}
            c => out.push(c),
        }
    }
    out
}

/// One piece as an SVG document in true scale: one unit is one millimetre. Every line has a class: `cut`, `seam`, `notch`,
/// `grain`, `dart`, `fold`, `mark`, `drill`, and the seam edges have their names.
#[must_use]
pub fn svg(piece: &Piece, size: &str) -> String {
    let (low, high) = (piece.cut_extent.min.0, piece.cut_extent.max.0);
    let (x, y) = (low.x - MARGIN, low.y - MARGIN);
    let (width, height) = (high.x - low.x + 2.0 * MARGIN, high.y - low.y + 2.0 * MARGIN);
    let mut out = String::new();
    let _ = writeln!(out, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>");
    let _ = writeln!(
        out,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"{0}mm\" height=\"{1}mm\" viewBox=\"{2} {3} {0} {1}\">",
        number(width),
        number(height),
        number(x),
        number(y)
    );
    let _ = writeln!(out, "<title>{}, size {}</title>", escaped(&piece.title), escaped(size));
    out.push_str("<g fill=\"none\" stroke=\"#000\" stroke-width=\"0.35\" stroke-linejoin=\"round\">\n");
    let mut line = |class: &str, name: &str, data: &str, dash: &str| {
        let id = if name.is_empty() { String::new() } else { format!(" data-name=\"{}\"", escaped(name)) };
        let dash = if dash.is_empty() { String::new() } else { format!(" stroke-dasharray=\"{dash}\"") };
        let _ = writeln!(out, "<path class=\"{class}\"{id}{dash} d=\"{data}\"/>");
    };
    line("cut", &piece.name, &path_data(&piece.cut, true), "");
    for edge in &piece.edges {
        let on_fold = piece.fold.as_deref() == Some(edge.name.as_str());
        line(
            if on_fold { "fold" } else { "seam" },
            &edge.name,
            &path_data(&edge.path, false),
            if on_fold { "8 2 1 2" } else { "4 2" },
        );
    }
    for dart in &piece.darts {
        line("dart", &dart.name, &path_data(&dart.legs.0, false), "4 2");
        line("dart", &dart.name, &path_data(&dart.legs.1, false), "4 2");
        line("dart", &dart.name, &path_data(&dart.centre, false), "8 2 1 2");
    }
    for mark in &piece.marks {
        let dash = match mark.kind {
            MarkKind::Fold | MarkKind::Centre => "8 2 1 2",
            MarkKind::Stitch | MarkKind::Row => "2 1.5",
            MarkKind::Channel | MarkKind::Place | MarkKind::Cut | MarkKind::Guide => "",
        };
        line("mark", &mark.title, &path_data(&mark.path, false), dash);
    }
    for notch in &piece.notches {
        for at in notch_feet(notch.cut, notch.out, notch.double) {
            let inward = at.0 - notch.out.0.to_vec2() * NOTCH;
            let data = format!("M {} {} L {} {}", number(at.0.x), number(at.0.y), number(inward.x), number(inward.y));
            line("notch", &notch.edge, &data, "");
        }
    }
    for drill in &piece.drills {
        let Spot(p) = drill.at;
        let data = format!(
            "M {0} {1} L {2} {1} M {3} {4} L {3} {5}",
            number(p.x - 2.0),
            number(p.y),
            number(p.x + 2.0),
            number(p.x),
            number(p.y - 2.0),
            number(p.y + 2.0)
        );
        line("drill", &drill.title, &data, "");
    }
    let (from, to) = (piece.grain.0.0, piece.grain.1.0);
    line("grain", "", &format!("M {} {} L {} {}", number(from.x), number(from.y), number(to.x), number(to.y)), "");
    out.push_str("</g>\n");
    let _ = writeln!(
        out,
        "<text x=\"{}\" y=\"{}\" font-family=\"sans-serif\" font-size=\"8\" text-anchor=\"middle\">{}, size {}</text>",
        number(piece.label.0.x),
        number(piece.label.0.y),
        escaped(&piece.title),
        escaped(size)
    );
    out.push_str("</svg>\n");
    out
}

/// How deep a notch is snipped, mm (common practice, no source: less than half of the usual allowance).
pub(super) const NOTCH: f64 = 5.0;
/// How far the two snips of a double notch are apart, mm (common practice, no source).
const TWINS: f64 = 6.0;

/// Where the snips of a notch begin on the cut line.
pub(super) fn notch_feet(cut: Spot, out: Spot, double: bool) -> Vec<Spot> {
    let along = kurbo::Vec2::new(-out.0.y, out.0.x) * (TWINS / 2.0);
    if double { vec![Spot(cut.0 - along), Spot(cut.0 + along)] } else { vec![cut] }
}
