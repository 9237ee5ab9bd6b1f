//! The first page: whether the printer prints true to scale, how the sheets are joined, what the lines mean.

use kurbo::{Point, Rect, Shape};

use super::drawing::Kind;
use super::face::{Face, pt};
use super::format::{FLAP, Format, Joining};
use super::page::{Canvas, Item, Page, Pen, Sizes};
use super::pattern::{Options, Pattern};
use super::style;
use crate::draft::MarkKind;

/// The side of the metric test square, mm.
const CM: f64 = 50.0;
/// The side of the imperial test square, mm.
const INCHES: f64 = 50.8;

/// The first page of sheets for a home printer.
#[must_use]
pub fn page(pattern: &Pattern, format: Format, options: &Options, tiles: usize) -> Page {
    let ((width, height), (across, down)) = (format.paper(), format.area());
    let (left, top) = ((width - across) / 2.0, (height - down) / 2.0);
    let mut canvas = Canvas::default();
    let mut at = Point::new(left, top + 7.0);
    at = canvas.column(at, &pattern.title, Face::Bold, pt(17.0), across);
    let words = format!(
        "Pattern pieces, {}. Edition {}. {} on {} paper.",
        pattern.size_words(),
        pattern.edition,
        sheets(tiles),
        format.words()
    );
    at = canvas.column(at, &words, Face::Regular, pt(9.5), across);
    at.y += 4.0;
    at = canvas.column(at, "Print this page first, and measure it", Face::Bold, pt(12.0), across);
    // The long check stands at the left, the squares beside it, the words beside those.
    let lines = at.y - 2.0;
    uprights(&mut canvas, Point::new(left + 1.0, lines));
    let squares = Point::new(left + 27.0, lines);
    square(&mut canvas, squares, CM, "5 cm", "square-metric");
    square(&mut canvas, squares + (0.0, CM + 6.0), INCHES, "2 in", "square-imperial");
    let column = squares.x + INCHES + 7.0;
    let wide = left + across - column;
    let mut at = Point::new(column, lines + 3.0);
    for text in measure_words(format) {
        at = canvas.column(at, &text, Face::Regular, pt(9.0), wide);
        at.y += 1.8;
    }
    // What the lines mean, under the squares.
    key(&mut canvas, Point::new(squares.x, lines + CM + INCHES + 17.0), pattern, options);
    levels(&mut canvas, Point::new(squares.x, lines + 205.0 - 12.0));
    let mut at = Point::new(column, at.y + 2.0);
    at = canvas.column(at, "Put the sheets together", Face::Bold, pt(12.0), wide);
    for text in join_words(format, options.joining) {
        at = canvas.column(at, &text, Face::Regular, pt(9.0), wide);
        at.y += 1.8;
    }
    Page { name: "Print this first".to_string(), width, height, items: canvas.items }
}

fn sheets(count: usize) -> String {
    if count == 1 { "1 sheet".to_string() } else { format!("{count} sheets") }
}

fn measure_words(format: Format) -> Vec<String> {
    let mut words = vec![
        "Print it alone, at 100 % (“actual size”). Switch off everything that fits, shrinks or scales to the page.".to_string(),
        "Measure both squares, across and down, and the long lines, with the ruler you will sew with. 5 cm and 2 in are not the same: one of each is here so that you can trust either side of your ruler.".to_string(),
        "All right? Print the rest with the same settings, on the same paper.".to_string(),
        "Off by the same share in both directions: the printer scales. Divide the 20 cm by what you measured and print again at that share. 19.6 cm asks for 102 %.".to_string(),
        "Off in one direction only: the paper slips on its way. Up to 1 mm on the long line you may go on, as one pin's breadth. For more, feed thicker paper by the straightest way your printer has, or take the copy-shop file. A percentage would spoil the other direction.".to_string(),
    ];
    if format.is_home() {
        words.push(
            "The frame stays 1/2 in (12.7 mm) or more from every edge, because many home printers cannot print nearer: there the rollers hold the sheet.".to_string(),
        );
    }
    words
}

fn join_words(format: Format, joining: Joining) -> Vec<String> {
    let mut words = Vec::new();
    if format.is_home() {
        words.push("The next page shows where every sheet goes, and which sheets each piece needs, so that you can print one piece alone. Columns have letters, rows have numbers. Sheets with nothing on them are left out.".to_string());
    }
    match joining {
        Joining::Glued => words.push(format!(
            "Trim every sheet along its frame at the left and at the top. Lay it on the flap ({} mm) of the sheet to its left, and of the one above, so that the edge meets their frame and the halves of the diamonds make whole ones. Glue, or tape from above.",
            FLAP
        )),
        Joining::Butted => words.push(
            "Trim every sheet along its frame on all four sides. Lay the edges against each other so that the halves of the diamonds make whole ones, and tape them.".to_string(),
        ),
    }
    words.push("Join whole rows first, then row to row. A diamond out of true by more than 1 mm is worth taking apart: errors add up along a row.".to_string());
    words
}

fn square(canvas: &mut Canvas, at: Point, side: f64, words: &str, kind: &'static str) {
    canvas.tagged(Rect::from_origin_size(at, (side, side)).to_path(0.1), Pen::solid(0.25), kind);
    canvas.centred(Point::new(at.x + side / 2.0, at.y + side / 2.0), words, Face::Bold, pt(12.0));
    let note = "measure both ways";
    canvas.centred(Point::new(at.x + side / 2.0, at.y + side / 2.0 + 5.0), note, Face::Regular, pt(8.0));
}

/// A line with ends square to it.
fn gauge(canvas: &mut Canvas, from: Point, to: Point, kind: &'static str) {
    let side = kurbo::Vec2::new(-(to.y - from.y), to.x - from.x) / from.distance(to).max(1e-9) * 2.5;
    for end in [from, to] {
        canvas.line(end - side, end + side, Pen::solid(0.25));
    }
    let mut path = kurbo::BezPath::new();
    path.move_to(from);
    path.line_to(to);
    canvas.tagged(path, Pen::solid(0.25), kind);
}

/// The long check down the page.
fn uprights(canvas: &mut Canvas, at: Point) {
    for (x, length, words, kind) in [(2.5, 200.0, "20 cm", "long-metric"), (14.0, 203.2, "8 in", "long-imperial")] {
        gauge(canvas, Point::new(at.x + x, at.y), Point::new(at.x + x, at.y + length), kind);
        canvas.text(Point::new(at.x + x + 1.2, at.y + 100.0), words, Face::Bold, pt(8.0));
    }
}

/// The check across the page, as long as the narrowest paper allows.
fn levels(canvas: &mut Canvas, at: Point) {
    for (y, length, words, kind) in [(0.0, 150.0, "15 cm", "wide-metric"), (8.0, 152.4, "6 in", "wide-imperial")] {
        gauge(canvas, Point::new(at.x, at.y + y), Point::new(at.x + length, at.y + y), kind);
        canvas.text(Point::new(at.x + 70.0, at.y + y - 1.2), words, Face::Bold, pt(8.0));
    }
}

/// What the lines mean.
fn key(canvas: &mut Canvas, at: Point, pattern: &Pattern, options: &Options) {
    let several = pattern.sizes.len() > 1;
    let em = pt(8.0);
    let mut rows: Vec<(String, Pen)> = Vec::new();
    if several {
        rows.extend(
            pattern
                .sizes
                .iter()
                .enumerate()
                .map(|(index, name)| (format!("cut, size {name}"), style::size_pen(index, options.save_ink))),
        );
    } else {
        rows.push(("cut".to_string(), style::pen(Kind::Cut, Sizes::ALWAYS, false, options.save_ink, 1.0)));
    }
    let more: [(&str, Kind); 6] = [
        ("edge on the fold", Kind::Fold),
        ("seam, dart", Kind::Seam),
        ("notch: snip", Kind::Notch),
        ("grain", Kind::Grain),
        ("middle, or to fold", Kind::Mark(MarkKind::Centre)),
        ("to stitch", Kind::Mark(MarkKind::Row)),
    ];
    rows.extend(
        more.iter()
            .map(|(words, kind)| (words.to_string(), style::pen(*kind, Sizes::ALWAYS, several, options.save_ink, 1.0))),
    );
    // So many rows as there is room for.
    let step = (72.0 / f64::from(u32::try_from(rows.len()).unwrap_or(1))).min(5.0);
    let mut y = at.y;
    for (words, pen) in rows {
        let (from, to) = (Point::new(at.x, y), Point::new(at.x + 24.0, y));
        if words.starts_with("notch") {
            // As on a piece: a snip inward from the cut line.
            canvas.line(
                from + (0.0, -1.6),
                to + (0.0, -1.6),
                style::pen(Kind::Cut, Sizes::ALWAYS, false, options.save_ink, 1.0),
            );
            canvas.line(from + (12.0, -1.6), from + (12.0, 1.4), pen);
        } else {
            canvas.line(from, to, pen);
        }
        if words == "grain" {
            for (tip, way) in [(from, 1.0), (to, -1.0)] {
                canvas.line(tip, tip + (3.0 * way, 1.2), pen);
                canvas.line(tip, tip + (3.0 * way, -1.2), pen);
            }
        }
        canvas.text(Point::new(at.x + 26.0, y + em * 0.35), &words, Face::Regular, em.min(step * 0.75));
        y += step;
    }
}

/// The size of the block of test lines on a sheet for a copy shop or a projector, mm.
#[must_use]
pub fn block_size(format: Format) -> (f64, f64) {
    if format == Format::Projector { (640.0, 320.0) } else { (330.0, 130.0) }
}

/// The block of test lines, from its upper left corner.
#[must_use]
pub fn block(pattern: &Pattern, format: Format, options: &Options) -> Vec<Item> {
    let mut canvas = Canvas::default();
    if format == Format::Projector {
        projector_block(&mut canvas, pattern);
        return canvas.items;
    }
    let (width, height) = block_size(format);
    canvas.stroke(Rect::new(0.0, 0.0, width, height).to_path(0.1), Pen::solid(0.25).grey(0.5));
    let mut at = Point::new(5.0, 10.0);
    at = canvas.column(at, &pattern.title, Face::Bold, pt(15.0), 200.0);
    let words = format!(
        "Pattern pieces, {}. Edition {}. Print at 100 %, on {}.",
        pattern.size_words(),
        pattern.edition,
        format.words()
    );
    at = canvas.column(at, &words, Face::Regular, pt(9.0), 200.0);
    let words = "Measure before you pay: both squares, and the long lines. If they are off, the shop has scaled the page; ask for 100 %.";
    at = canvas.column(at, words, Face::Regular, pt(9.0), 200.0);
    if !pattern.charted.is_empty() {
        at = canvas.column(at, &charted(pattern), Face::Regular, pt(8.0), 200.0);
    }
    let _ = at;
    square(&mut canvas, Point::new(5.0, 52.0), CM, "5 cm", "square-metric");
    square(&mut canvas, Point::new(62.0, 52.0), INCHES, "2 in", "square-imperial");
    for (y, length, words, kind) in [(112.0, 200.0, "20 cm", "long-metric"), (122.0, 203.2, "8 in", "long-imperial")] {
        gauge(&mut canvas, Point::new(5.0, y), Point::new(5.0 + length, y), kind);
        canvas.text(Point::new(98.0, y - 1.2), words, Face::Bold, pt(8.0));
    }
    key(&mut canvas, Point::new(222.0, 8.0), pattern, options);
    canvas.items
}

/// What the pieces that are not on the sheets are.
#[must_use]
pub fn charted(pattern: &Pattern) -> String {
    let list: Vec<String> = pattern.charted.iter().map(|piece| format!("{} {}", piece.number, piece.title)).collect();
    format!(
        "Not on the sheets, to save paper: {}. Measure and mark them on the cloth itself, from the cutting chart.",
        list.join(", ")
    )
}

fn projector_block(canvas: &mut Canvas, pattern: &Pattern) {
    let (width, height) = block_size(Format::Projector);
    canvas.stroke(Rect::new(0.0, 0.0, width, height).to_path(0.1), Pen::solid(1.0).grey(0.5));
    let mut at = Point::new(12.0, 24.0);
    at = canvas.column(at, &pattern.title, Face::Bold, 14.0, width - 24.0);
    let words = format!(
        "{}, edition {}. Move and turn the projector until both squares and both long lines measure true on the table, across and down. Each size is a layer: show yours alone.",
        pattern.size_words(),
        pattern.edition
    );
    at = canvas.column(at, &words, Face::Regular, 8.0, width - 24.0);
    if !pattern.charted.is_empty() {
        at = canvas.column(at, &charted(pattern), Face::Regular, 8.0, width - 24.0);
    }
    let top = at.y.max(100.0);
    for (x, side, words, kind) in [(12.0, 100.0, "10 cm", "square-metric"), (130.0, 101.6, "4 in", "square-imperial")] {
        canvas.tagged(Rect::from_origin_size((x, top), (side, side)).to_path(0.1), Pen::solid(1.0), kind);
        canvas.centred(Point::new(x + side / 2.0, top + side / 2.0), words, Face::Bold, 12.0);
    }
    for (y, length, words, kind) in [(125.0, 500.0, "50 cm", "long-metric"), (150.0, 508.0, "20 in", "long-imperial")] {
        gauge(canvas, Point::new(12.0, top + y), Point::new(12.0 + length, top + y), kind);
        canvas.text(Point::new(250.0, top + y - 3.0), words, Face::Bold, 10.0);
    }
}
