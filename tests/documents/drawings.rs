//! Drawings for the fixture: plain SVG without letters, in millimetres.

use std::f64::consts::PI;
use std::fmt::Write;

use furbelow::set::view::{Anchor, Callout, Figure, KeyEntry, Label, LabelStyle, Run};

/// An SVG of a size, around its content.
pub fn svg(width: f64, height: f64, content: &str) -> String {
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {width} {height}\" width=\"{width}mm\" height=\"{height}mm\">{content}</svg>"
    )
}

const CUT: &str = "fill=\"#ead9dc\" stroke=\"#000\" stroke-width=\"0.7\"";
const FOLD: &str = "fill=\"none\" stroke=\"#000\" stroke-width=\"0.5\"";
const THIN: &str = "fill=\"none\" stroke=\"#000\" stroke-width=\"0.25\"";
const STITCH: &str = "fill=\"none\" stroke=\"#000\" stroke-width=\"0.35\" stroke-dasharray=\"1.6 1.1\"";

fn figure(id: &str, number: Option<u32>, size: (f64, f64), content: &str, caption: &str, alt: &str) -> Figure {
    let caption = if caption.is_empty() { Vec::new() } else { vec![Run::text(caption)] };
    Figure {
        id: id.to_string(),
        number,
        svg: svg(size.0, size.1, content),
        width_mm: size.0,
        height_mm: size.1,
        labels: Vec::new(),
        callouts: Vec::new(),
        caption,
        alt: alt.to_string(),
        key: Vec::new(),
    }
}

fn label(x: f64, y: f64, anchor: Anchor, text: &str, style: LabelStyle) -> Label {
    Label { x, y, anchor, text: text.to_string(), size_pt: 8.0, style, turn_deg: 0.0 }
}

/// The skirt from the front, with its flounce; proportions of a middle size.
pub fn view(id: &str, number: Option<u32>) -> Figure {
    let mut content = format!("<path d=\"M48 6 C56 10 64 10 72 6 L74 14 C64 19 56 19 46 14 Z\" {CUT}/>");
    content += &format!(
        "<path d=\"M46 14 C56 19 64 19 74 14 C84 60 98 110 108 150 C80 158 40 158 12 150 C22 110 36 60 46 14 Z\" {CUT}/>"
    );
    for n in 0..=14 {
        let t = f64::from(n) / 14.0;
        let (x0, x1) = (47.0 + 26.0 * t, 14.0 + 92.0 * t);
        let y0 = 14.5 + 4.0 * (PI * t).sin();
        let (cx, y1) = (x0 + (x1 - x0) * 0.3, 150.5 + 5.4 * (PI * t).sin());
        let _ = write!(content, "<path d=\"M{x0:.2} {y0:.2} Q{cx:.2} {:.2} {x1:.2} {y1:.2}\" {THIN}/>", y0 + 50.0);
    }
    let mut figure = figure(
        id,
        number,
        (120.0, 162.0),
        &content,
        if number.is_some() { "The skirt from the front, size 14." } else { "" },
        "The skirt from the front: a waistband dipping to a point, cartridge pleats standing below it as soft verticals that open towards a level hem.",
    );
    if number.is_some() {
        figure.labels = vec![
            label(82.0, 8.0, Anchor::Left, "dipped waistband", LabelStyle::Plain),
            label(97.0, 60.0, Anchor::Left, "pleats\nopen here", LabelStyle::Emph),
        ];
    }
    figure
}

/// A flat panel with its grain and its measures.
pub fn panel(id: &str, number: Option<u32>, width: &str, length: &str, name: &str) -> Figure {
    let content = format!(
        "<rect x=\"8\" y=\"8\" width=\"60\" height=\"46\" {CUT}/><path d=\"M8 12 H68\" {STITCH}/>\
         <path d=\"M38 18 V44 M36.6 20.5 L38 17.5 L39.4 20.5 M36.6 41.5 L38 44.5 L39.4 41.5\" {THIN}/>\
         <path d=\"M8 60 H68 M8 58.6 V61.4 M68 58.6 V61.4\" {THIN}/><path d=\"M74 8 V54 M72.6 8 H75.4 M72.6 54 H75.4\" {THIN}/>"
    );
    let caption = if number.is_some() { "One panel, flat. Not to scale." } else { "" };
    let alt = format!("{name}: an oblong, {width} wide and {length} long, its grain along its length.");
    let mut figure = figure(id, number, (88.0, 66.0), &content, caption, &alt);
    figure.labels = vec![
        label(38.0, 60.0, Anchor::Middle, width, LabelStyle::Measure),
        label(40.5, 31.0, Anchor::Left, "grain", LabelStyle::Emph),
    ];
    figure.labels.push(Label { turn_deg: -90.0, ..label(74.0, 31.0, Anchor::Middle, length, LabelStyle::Measure) });
    figure
}

/// Pleats in section: an even wave whose crests touch the seam.
pub fn wave(id: &str, number: u32) -> Figure {
    let mut path = String::from("M6 30");
    for n in 0..120 {
        let x = 6.0 + f64::from(n) * 76.0 / 120.0;
        let _ = write!(path, " L{x:.2} {:.2}", 30.0 - 9.0 * (f64::from(n) * PI / 6.0).sin());
    }
    let content =
        format!("<path d=\"M6 20.6 H82\" {FOLD}/><path d=\"{path}\" {FOLD}/><path d=\"M6 30 H82\" {STITCH}/>");
    let mut figure = figure(
        id,
        Some(number),
        (88.0, 44.0),
        &content,
        "Pleats in section, seen from above. Not to scale.",
        "Cloth standing in an even wave; every crest touches the seam, the rows of stitches run through the middle.",
    );
    figure.callouts = vec![
        Callout { letter: "A".into(), x: 84.0, y: 20.6, words: vec![Run::text("The seam takes the crests only.")] },
        Callout { letter: "B".into(), x: 84.0, y: 33.0, words: vec![Run::text("The rows of stitches, still in.")] },
    ];
    figure.key = vec![sign("stitch", &format!("<path d=\"M0 2 H18\" {STITCH}/>"), (18.0, 4.0), "stitching")];
    figure
}

/// The marking grid: rows across, guides upright, too wide to stand beside the words.
pub fn grid(id: &str, number: u32) -> Figure {
    let mut content = format!("<rect x=\"2\" y=\"8\" width=\"160\" height=\"34\" {CUT}/>");
    for row in 0..3 {
        let _ = write!(content, "<path d=\"M2 {0} H162\" {STITCH}/>", 14.0 + f64::from(row) * 8.0);
    }
    for guide in 0..=20 {
        let _ = write!(content, "<path d=\"M{0:.2} 8 V36\" {THIN}/>", 2.0 + f64::from(guide) * 8.0);
    }
    let mut figure = figure(
        id,
        Some(number),
        (166.0, 46.0),
        &content,
        "The marking grid on the wrong side of one panel: three rows, an upright guide every fourth stitch.",
        "An oblong of cloth with three dashed rows across and upright guide lines at even distances.",
    );
    figure.labels = vec![
        label(2.0, 4.0, Anchor::Left, "folded edge", LabelStyle::Strong),
        label(82.0, 39.5, Anchor::Middle, "1 in (2.5 cm) between guides", LabelStyle::Measure),
    ];
    figure
}

/// A narrow square figure: a placket with hooks.
pub fn placket(id: &str, number: u32) -> Figure {
    let mut content = format!(
        "<path d=\"M10 4 H70 V74 H10 Z\" {CUT}/><path d=\"M40 4 V60\" {FOLD}/><path d=\"M46 4 V62 H34\" {STITCH}/>"
    );
    for n in 0..5 {
        let _ = write!(
            content,
            "<circle cx=\"36.5\" cy=\"{0}\" r=\"1.4\" {THIN}/><path d=\"M43 {0} h3\" {FOLD}/>",
            10.0 + f64::from(n) * 11.0
        );
    }
    let mut figure = figure(
        id,
        Some(number),
        (80.0, 78.0),
        &content,
        "The placket from the right side, hooks on the left edge.",
        "A slit in the cloth with a row of stitches around it; five hooks on one side, five bars on the other, evenly spaced.",
    );
    figure.labels = vec![
        label(22.0, 32.0, Anchor::Middle, "left\nback", LabelStyle::Title),
        label(58.0, 32.0, Anchor::Middle, "right\nback", LabelStyle::Title),
    ];
    figure
}

/// A sign of the key.
pub fn sign(id: &str, content: &str, size: (f64, f64), words: &str) -> KeyEntry {
    KeyEntry {
        id: id.into(),
        svg: svg(size.0, size.1, content),
        width_mm: size.0,
        height_mm: size.1,
        words: words.into(),
    }
}

/// The key of all signs.
pub fn key() -> Vec<KeyEntry> {
    let ticks = "<path d=\"M3 2 v3 M8 4 v3 M13 2 v3 M18 4 v3\" stroke=\"#000\" stroke-width=\"0.25\"/>";
    vec![
        sign(
            "right-side",
            &format!("<rect x=\"0.5\" y=\"0.5\" width=\"21\" height=\"8\" {CUT}/>"),
            (22.0, 9.0),
            "right side of the cloth",
        ),
        sign(
            "wrong-side",
            &format!(
                "<rect x=\"0.5\" y=\"0.5\" width=\"21\" height=\"8\" fill=\"#fff\" stroke=\"#000\" stroke-width=\"0.7\"/>{ticks}"
            ),
            (22.0, 9.0),
            "wrong side; the ticks run with the grain",
        ),
        sign(
            "fold",
            "<path d=\"M0 4 H22\" stroke=\"#000\" stroke-width=\"0.5\" stroke-dasharray=\"5 1 1.4 1 1.4 1\"/>",
            (22.0, 8.0),
            "fold",
        ),
        sign("stitch", &format!("<path d=\"M0 2 H18\" {STITCH}/>"), (18.0, 4.0), "stitching"),
    ]
}
