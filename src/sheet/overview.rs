//! The second page: where every sheet goes, and which sheets each piece needs.

use kurbo::{Affine, Point, Rect, Shape};

use super::board::Board;
use super::drawing::{Drawing, Kind};
use super::face::{Face, pt};
use super::format::Format;
use super::front::charted;
use super::page::{Canvas, Page, Pen, text_box};
use super::pattern::{Options, Pattern};
use super::tiles::Tile;

/// The overview: a drawing of the whole, the sheets of each piece, and what is left to the chart.
#[must_use]
pub fn page(
    board: &Board,
    tiles: &[Tile],
    pattern: &Pattern,
    format: Format,
    options: &Options,
    before: usize,
) -> Page {
    let ((width, height), (across, down)) = (format.paper(), format.area());
    let (left, top) = ((width - across) / 2.0, (height - down) / 2.0);
    let mut canvas = Canvas::default();
    let at = canvas.column(Point::new(left, top + 6.0), "Where the sheets go", Face::Bold, pt(14.0), across);
    let words = format!(
        "{}, {}, edition {}. Print only the sheets of the pieces you need; the page numbers are for the print window.",
        pattern.title,
        pattern.size_words(),
        pattern.edition
    );
    let at = canvas.column(at, &words, Face::Regular, pt(8.5), across);
    let list = rows(board, tiles, before);
    let charted = if pattern.charted.is_empty() { None } else { Some(charted(pattern)) };
    let em = pt(8.0);
    let lines = list.iter().map(|row| Face::Regular.lines(row, em, across - 4.0).len()).sum::<usize>()
        + charted.as_ref().map_or(0, |text| Face::Regular.lines(text, em, across).len() + 1);
    let listed = f64::from(u32::try_from(lines).unwrap_or(0)) * em * 1.4 + 4.0;
    let room = Rect::new(left, at.y, left + across, (top + down - listed).max(at.y + 60.0));
    let low = draw(&mut canvas, board, tiles, room, options);
    let mut at = Point::new(left, low + 6.0);
    for row in list {
        at = canvas.column(at, &row, Face::Regular, em, across - 4.0);
    }
    if let Some(text) = charted {
        at.y += em * 0.7;
        canvas.column(at, &text, Face::Regular, em, across);
    }
    Page { name: "Where the sheets go".to_string(), width, height, items: canvas.items }
}

/// One row of words for each piece.
fn rows(board: &Board, tiles: &[Tile], before: usize) -> Vec<String> {
    let mut rows = Vec::new();
    for drawing in &board.drawings {
        let (name, on): (String, Vec<usize>) = match drawing.number {
            Some(number) => {
                let on = (0..tiles.len()).filter(|at| tiles[*at].pieces.contains(&number)).collect();
                (drawing.words.first().cloned().unwrap_or_default(), on)
            }
            None => {
                let bounds = drawing.bounds().inset(-0.3);
                let on = (0..tiles.len()).filter(|at| tiles[*at].frame.intersect(bounds).area() > 1e-6).collect();
                (drawing.words.first().cloned().unwrap_or_default(), on)
            }
        };
        let names: Vec<String> = on.iter().map(|at| tiles[*at].name()).collect();
        rows.push(format!("{name}: {} (pages {})", names.join(" "), ranges(on.iter().map(|at| before + at + 1))));
    }
    rows
}

/// `3-5, 8`, as a print window takes it.
fn ranges(pages: impl Iterator<Item = usize>) -> String {
    let mut runs: Vec<(usize, usize)> = Vec::new();
    for page in pages {
        match runs.last_mut() {
            Some((_, last)) if *last + 1 == page => *last = page,
            _ => runs.push((page, page)),
        }
    }
    let words = runs.iter().map(|(from, to)| if from == to { from.to_string() } else { format!("{from}-{to}") });
    words.collect::<Vec<_>>().join(", ")
}

/// The drawing of the whole; gives its lower edge.
#[allow(clippy::cast_precision_loss)]
fn draw(canvas: &mut Canvas, board: &Board, tiles: &[Tile], room: Rect, options: &Options) -> f64 {
    let (wide, high) = (board.columns as f64 * board.pitch.0, board.rows as f64 * board.pitch.1);
    let scale = (room.width() / wide.max(1.0)).min(room.height() / high.max(1.0));
    let to = Affine::translate(room.origin().to_vec2()) * Affine::scale(scale);
    for tile in tiles {
        let rect = to.transform_rect_bbox(tile.frame);
        if !options.save_ink && (tile.column + tile.row) % 2 == 0 {
            canvas.fill(rect, 0.94);
        }
    }
    for drawing in &board.drawings {
        outline(canvas, drawing, to);
    }
    for tile in tiles {
        let rect = to.transform_rect_bbox(tile.frame);
        canvas.stroke(rect.to_path(0.1), Pen::solid(0.15).grey(0.4));
        let em = pt(8.0).min(rect.height() / 3.0);
        let (at, name) = (Point::new(rect.x0 + 0.8, rect.y0 + em), tile.name());
        canvas.fill(text_box(at, Face::Bold.width(&name, em), em).inflate(0.3, 0.1), 1.0);
        canvas.text(at, &name, Face::Bold, em);
    }
    for drawing in &board.drawings {
        let Some(number) = drawing.number else { continue };
        let at = to * drawing.label;
        let em = pt(10.0);
        let text = number.to_string();
        let half = Face::Bold.width(&text, em).max(em) / 2.0 + 0.8;
        canvas.items.push(super::page::Item::Fill {
            path: kurbo::Circle::new(Point::new(at.x, at.y), half).to_path(0.01),
            grey: 1.0,
            sizes: super::page::Sizes::ALWAYS,
        });
        canvas.stroke(kurbo::Circle::new(at, half).to_path(0.01), Pen::solid(0.2));
        canvas.centred(Point::new(at.x, at.y + em * 0.36), &text, Face::Bold, em);
    }
    room.y0 + high * scale
}

/// A piece small: its cut lines alone.
fn outline(canvas: &mut Canvas, drawing: &Drawing, to: Affine) {
    for stroke in drawing.strokes.iter().filter(|stroke| matches!(stroke.kind, Kind::Cut | Kind::Fold)) {
        canvas.stroke(to * stroke.path.clone(), Pen::solid(if drawing.outlines.len() > 1 { 0.12 } else { 0.3 }));
    }
}

#[cfg(test)]
mod tests {
    #[test]
    fn pages_as_a_print_window_takes_them() {
        assert_eq!(super::ranges([3, 4, 5, 8].into_iter()), "3-5, 8");
    }
}
