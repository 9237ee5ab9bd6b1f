//! The contact sheet as one page for a browser.

use std::fmt::Write as _;

use crate::units::Systems;
use crate::words::Tongue;

use super::super::figure::{Anchor, Figure, Label, LabelStyle};
use super::super::look::{Accent, Look};
use super::contact_sheet;

/// How a garment file asks for a kind of figure.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Ask<'a> {
    /// The name of the kind.
    pub kind: &'a str,
    /// What it shows.
    pub about: &'a str,
    /// The keys it knows.
    pub inputs: &'a [&'a str],
}

const STYLE: &str = "body{font:14px/1.45 'Noto Sans',sans-serif;margin:12mm;color:#222}h2{font-size:16px;margin:10mm 0 1mm;\
border-top:.3mm solid #999;padding-top:2mm}figure{display:inline-block;vertical-align:top;margin:4mm 8mm 4mm 0;max-width:160mm}\
figcaption{max-width:110mm}small{color:#555;display:block}svg text{font-family:'Noto Sans',sans-serif;fill:#222}\
@media print{h2,figure{break-inside:avoid}}";

/// One page with a figure of each kind at print size, its caption and its words for someone who does not see it, under the
/// kind that asks for it.
#[must_use]
pub fn sheet_page(asks: &[Ask<'_>], grey: bool) -> String {
    let accent = Accent { red: 0x7a, green: 0x2e, blue: 0x3a };
    let look = Look { accent, systems: Systems::ImperialFirst, grey, pale: false, tongue: Tongue::ENGLISH };
    let sheet = contact_sheet(&look);
    let mut out = format!(
        "<!doctype html>\n<html lang=\"en\">\n<meta charset=\"utf-8\">\n<title>Figures</title>\n<style>{STYLE}</style>\n\
         <h1>Every kind of figure</h1>\n<p>Print at 100 %: each figure is as large as in a booklet. The garments are invented.</p>\n"
    );
    for ask in asks {
        let _ = write!(
            out,
            "<h2>kind: {}</h2>\n<p>{}.",
            escape(ask.kind),
            escape(&super::super::words::capital(ask.about))
        );
        if !ask.inputs.is_empty() {
            let _ = write!(out, " Keys: {}.", escape(&ask.inputs.join(", ")));
        }
        out.push_str("</p>\n");
        for (name, drawn) in sheet.iter().filter(|(name, _)| kind_of(name, asks) == Some(ask.kind)) {
            match drawn {
                Ok(figure) => write_figure(&mut out, name, figure),
                Err(why) => {
                    let _ = writeln!(out, "<p>{}: {}</p>", escape(name), escape(&why.to_string()));
                }
            }
        }
    }
    out
}

/// The kind an entry of the sheet belongs to: the longest one its name begins with.
fn kind_of<'a>(name: &str, asks: &[Ask<'a>]) -> Option<&'a str> {
    asks.iter().map(|ask| ask.kind).filter(|kind| name.starts_with(kind)).max_by_key(|kind| kind.len())
}

fn write_figure(out: &mut String, name: &str, figure: &Figure) {
    let mut words = String::new();
    for label in &figure.labels {
        write_label(&mut words, label);
    }
    // Two figures must not share the name of a clip.
    let svg = figure.svg.replace("</svg>", &format!("{words}</svg>"));
    let svg = svg.replace("id=\"clip", &format!("id=\"{name}-clip")).replace("url(#clip", &format!("url(#{name}-clip"));
    let alt = escape(&figure.alt);
    let _ = writeln!(
        out,
        "<figure>\n<div role=\"img\" aria-label=\"{alt}\">{svg}</div>\n<figcaption><b>{}</b> {} {}.<small>{alt}</small></figcaption>\n</figure>",
        escape(name),
        escape(&figure.caption),
        escape(&figure.scale.to_string())
    );
}

fn write_label(out: &mut String, label: &Label) {
    let anchor = match label.anchor {
        Anchor::Start => "start",
        Anchor::Middle => "middle",
        Anchor::End => "end",
    };
    let weight = match label.style {
        LabelStyle::Strong | LabelStyle::Callout => "bold",
        LabelStyle::Plain | LabelStyle::Measure => "normal",
    };
    let size = label.size_pt * super::super::metric::MM_PER_PT;
    let mut y = label.y;
    for line in label.text.split('\n') {
        let _ = writeln!(
            out,
            "<text x=\"{:.3}\" y=\"{y:.3}\" font-size=\"{size:.3}\" text-anchor=\"{anchor}\" font-weight=\"{weight}\">{}</text>",
            label.x,
            escape(line)
        );
        y += size * Label::LEADING;
    }
}

fn escape(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}
