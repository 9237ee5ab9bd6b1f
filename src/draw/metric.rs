//! How much room words take: widths of a humanist sans, rounded up, so that labels set in type fit.

use kurbo::Rect;

use super::figure::{Anchor, Label, LabelStyle};

/// Millimetres in a point of 1/72 inch.
pub(crate) const MM_PER_PT: f64 = 25.4 / 72.0;
/// Height of capitals and figures above the base line, in sizes.
const ASCENT: f64 = 0.76;
/// What hangs below the base line, in sizes.
const DESCENT: f64 = 0.24;
/// Room kept over the measured advance.
const SAFETY: f64 = 1.04;

/// Width of one letter in sizes of the letters: advances of Noto Sans Regular, rounded up to 0.01.
fn advance(c: char) -> f64 {
    match c {
        'i' | 'j' | 'l' | '\'' | '|' => 0.27,
        ' ' | '\u{a0}' | '.' | ',' | ':' | ';' | '!' => 0.28,
        '\u{2009}' => 0.2,
        'f' | 't' | '(' | ')' | '-' | '/' | 'I' | 'J' | '′' | '″' | '"' => 0.41,
        'r' => 0.42,
        'c' | 's' | 'z' => 0.49,
        'k' | 'v' | 'x' | 'y' | 'a' | 'e' | '–' => 0.57,
        'm' | 'M' | 'W' | '%' | '½' | '¼' | '¾' | '⅛' | '⅜' | '⅝' | '⅞' | '⅓' | '⅔' => 0.94,
        'w' => 0.79,
        'O' | 'Q' | 'N' | 'H' | 'G' | 'D' | 'U' => 0.79,
        '\u{2044}' => 0.2,
        c if c.is_ascii_digit() => 0.58,
        c if c.is_ascii_lowercase() => 0.63,
        c if c.is_ascii() => 0.68,
        _ => 1.0,
    }
}

/// Width of a line of words, mm, at a size in points.
pub(crate) fn width(text: &str, size_pt: f64, style: LabelStyle) -> f64 {
    let bold = match style {
        LabelStyle::Strong | LabelStyle::Callout => 1.08,
        LabelStyle::Plain | LabelStyle::Measure => 1.0,
    };
    let widest = text.split('\n').map(|line| line.chars().map(advance).sum::<f64>()).fold(0.0, f64::max);
    widest * size_pt * MM_PER_PT * SAFETY * bold
}

/// The number of lines of a text.
pub(crate) fn lines(text: &str) -> f64 {
    f64::from(u32::try_from(text.split('\n').count()).unwrap_or(u32::MAX))
}

/// Height from the top of the first line to the foot of the last, mm.
pub(crate) fn height(text: &str, size_pt: f64) -> f64 {
    (ASCENT + DESCENT + (lines(text) - 1.0) * Label::LEADING) * size_pt * MM_PER_PT
}

/// Distance from the top of the box to the first base line, mm.
pub(crate) fn ascent(size_pt: f64) -> f64 {
    ASCENT * size_pt * MM_PER_PT
}

/// The box the words take.
pub(crate) fn bounds(label: &Label) -> Rect {
    let width = width(&label.text, label.size_pt, label.style);
    let left = match label.anchor {
        Anchor::Start => label.x,
        Anchor::Middle => label.x - width / 2.0,
        Anchor::End => label.x - width,
    };
    let top = label.y - ascent(label.size_pt);
    Rect::new(left, top, left + width, top + height(&label.text, label.size_pt))
}

/// Breaks words into lines no wider than `room` mm where a space allows it, the lines as even as they can be.
pub(crate) fn wrap(text: &str, size_pt: f64, room: f64) -> String {
    text.split('\n').map(|part| wrap_line(part, size_pt, room)).collect::<Vec<_>>().join("\n")
}

fn wrap_line(text: &str, size_pt: f64, room: f64) -> String {
    let whole = width(text, size_pt, LabelStyle::Plain);
    if whole <= room {
        return text.to_string();
    }
    let count = (whole / room).ceil();
    let aim = (whole / count * 1.12).min(room);
    let mut out = Vec::new();
    let mut line = String::new();
    for word in text.split(' ') {
        let longer = if line.is_empty() { word.to_string() } else { format!("{line} {word}") };
        let limit = if out.is_empty() { aim } else { room.min(aim * 1.15) };
        if !line.is_empty() && width(&longer, size_pt, LabelStyle::Plain) > limit {
            out.push(std::mem::take(&mut line));
            line = word.to_string();
        } else {
            line = longer;
        }
    }
    out.push(line);
    out.join("\n")
}
