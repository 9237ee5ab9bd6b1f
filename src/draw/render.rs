//! The scene as SVG: paths only, numbers of fixed form, the same bytes for the same scene.

use std::fmt::Write as _;

use kurbo::{BezPath, PathEl, Point};

use super::look::{Look, Paint};
use super::scene::Item;

/// The number with at most three decimals (thousandths of a millimetre).
pub(crate) fn number(value: f64) -> String {
    let text = crate::units::decimal(value, 3);
    text.trim_end_matches('0').trim_end_matches('.').to_string()
}

/// A path as the `d` of SVG, in absolute coordinates.
pub(crate) fn data(path: &BezPath) -> String {
    let pair = |p: &Point| format!("{} {}", number(p.x), number(p.y));
    let mut out = String::new();
    for el in path.elements() {
        match el {
            PathEl::MoveTo(p) => out += &format!("M{}", pair(p)),
            PathEl::LineTo(p) => out += &format!("L{}", pair(p)),
            PathEl::QuadTo(a, p) => out += &format!("Q{} {}", pair(a), pair(p)),
            PathEl::CurveTo(a, b, p) => out += &format!("C{} {} {}", pair(a), pair(b), pair(p)),
            PathEl::ClosePath => out.push('Z'),
        }
    }
    out
}

/// The whole drawing.
pub(crate) fn svg(items: &[Item], look: &Look, width: f64, height: f64) -> String {
    let (w, h) = (number(width), number(height));
    let mut out = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{w}mm\" height=\"{h}mm\" viewBox=\"0 0 {w} {h}\" \
         fill=\"none\" stroke-linecap=\"round\" stroke-linejoin=\"round\">\n"
    );
    let mut lenses = 0;
    write_items(&mut out, items, look, &mut lenses);
    out.push_str("</svg>\n");
    out
}

fn write_items(out: &mut String, items: &[Item], look: &Look, lenses: &mut usize) {
    for item in items {
        match item {
            Item::Fill(path, paint) if !path.is_empty() => {
                let rule = if *paint == Paint::Ink { "" } else { " fill-rule=\"nonzero\"" };
                let _ = writeln!(out, "<path d=\"{}\" fill=\"{}\"{rule}/>", data(path), look.colour(*paint));
            }
            Item::Stroke(path, pen, name) if !path.is_empty() => {
                let dash = if pen.dash.is_empty() {
                    String::new()
                } else {
                    let parts = pen.dash.iter().map(|d| number(*d)).collect::<Vec<_>>().join(" ");
                    format!(" stroke-dasharray=\"{parts}\"")
                };
                let name = name.as_ref().map_or_else(String::new, |n| format!(" data-name=\"{}\"", escape(n)));
                let _ = writeln!(
                    out,
                    "<path class=\"{}\"{name} d=\"{}\" stroke=\"{}\" stroke-width=\"{}\"{dash}/>",
                    pen.class,
                    data(path),
                    look.colour(pen.paint),
                    number(pen.width)
                );
            }
            Item::Clip(outline, inner) => {
                *lenses += 1;
                let id = format!("clip{lenses}");
                let _ = writeln!(
                    out,
                    "<clipPath id=\"{id}\"><path d=\"{}\"/></clipPath>\n<g clip-path=\"url(#{id})\">",
                    data(outline)
                );
                write_items(out, inner, look, lenses);
                out.push_str("</g>\n");
            }
            Item::Fill(..) | Item::Stroke(..) | Item::Hatch(..) => {}
        }
    }
}

fn escape(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('"', "&quot;")
}
