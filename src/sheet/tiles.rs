//! The board cut into tiles.

use kurbo::{BezPath, Point, Rect, Shape, Vec2};

use super::board::Board;
use super::clear::Clear;
use super::drawing::Drawing;
use super::face::{Face, pt};
use super::format::{FLAP, Format, Joining};
use super::page::{Canvas, Item, Page, Pen, text_box};
use super::pattern::{Options, Pattern};

/// A tile with something on it.
#[derive(Debug, Clone, PartialEq)]
pub struct Tile {
    /// Its column, from 0.
    pub column: usize,
    /// Its row, from 0.
    pub row: usize,
    /// Its frame on the board, mm.
    pub frame: Rect,
    /// The numbers of the pieces on it.
    pub pieces: Vec<u32>,
}

impl Tile {
    /// Its name: a letter for the column, a number for the row.
    #[must_use]
    pub fn name(&self) -> String {
        format!("{}{}", letters(self.column), self.row + 1)
    }
}

/// `A` to `Z`, then `AA`.
fn letters(column: usize) -> String {
    let letter = char::from(b'A' + u8::try_from(column % 26).unwrap_or(0));
    if column < 26 { letter.to_string() } else { format!("{}{letter}", letters(column / 26 - 1)) }
}

/// The tiles that have a line on them or lie within a piece, row by row.
#[must_use]
#[allow(clippy::cast_precision_loss)]
pub fn tiles(board: &Board) -> Vec<Tile> {
    let mut lines: Vec<Clear> = Vec::new();
    for drawing in &board.drawings {
        let mut clear = Clear::default();
        drawing.strokes.iter().for_each(|stroke| clear.line(&stroke.path));
        lines.push(clear);
    }
    let mut tiles = Vec::new();
    for row in 0..board.rows {
        for column in 0..board.columns {
            let origin = Point::new(column as f64 * board.pitch.0, row as f64 * board.pitch.1);
            let frame = Rect::from_origin_size(origin, board.pitch);
            // Lines that only run along the frame belong to the neighbour.
            let inner = frame.inset(-0.01);
            let on = |(drawing, clear): &(&Drawing, &Clear)| {
                !clear.is_free(inner) || drawing.outlines.iter().any(|outline| holds(outline, frame.center()))
            };
            let here: Vec<&Drawing> =
                board.drawings.iter().zip(&lines).filter(on).map(|(drawing, _)| drawing).collect();
            let labels = board.beside.iter().flatten().any(|rect| rect.intersect(inner).area() > 1e-6);
            let block = board.block.is_some_and(|corner| inner.contains(corner + (1.0, 1.0)));
            if here.is_empty() && !labels && !block {
                continue;
            }
            let pieces = here.iter().filter_map(|drawing| drawing.number).collect();
            tiles.push(Tile { column, row, frame, pieces });
        }
    }
    tiles
}

fn holds(outline: &[Point], p: Point) -> bool {
    let next = outline.iter().cycle().skip(1);
    let crossings = outline
        .iter()
        .zip(next)
        .filter(|(a, b)| (a.y > p.y) != (b.y > p.y) && p.x < (b.x - a.x) * (p.y - a.y) / (b.y - a.y) + a.x);
    crossings.count() % 2 == 1
}

/// The pages of the tiles. `before`: how many pages come before them.
#[must_use]
pub fn pages(
    board: &mut Board,
    tiles: &[Tile],
    pattern: &Pattern,
    format: Format,
    options: &Options,
    before: usize,
) -> Vec<Page> {
    let marks = marks(board, tiles);
    for item in &marks {
        board.clear.words(item.bounds());
    }
    board.items.extend(marks);
    let ((width, height), (across, down)) = (format.paper(), format.area());
    let corner = Vec2::new((width - across) / 2.0, (height - down) / 2.0);
    let boxes: Vec<Rect> = board.items.iter().map(Item::bounds).collect();
    let mut pages = Vec::new();
    for (index, tile) in tiles.iter().enumerate() {
        let has = |column: usize, row: usize| tiles.iter().any(|other| other.column == column && other.row == row);
        let (right, below) = (has(tile.column + 1, tile.row), has(tile.column, tile.row + 1));
        let flap = if options.joining == Joining::Glued { FLAP } else { 0.0 };
        let mut window = tile.frame;
        if right {
            window.x1 += flap;
        }
        if below {
            window.y1 += flap;
        }
        let by = corner - tile.frame.origin().to_vec2();
        let seen =
            board.items.iter().zip(&boxes).filter(|(_, rect)| rect.overlaps(window)).map(|(item, _)| item.clone());
        let mut items = vec![Item::Window { clip: window, by, items: seen.collect() }];
        let mut canvas = Canvas::default();
        frame(&mut canvas, tile, by, options);
        if flap > 0.0 {
            flaps(&mut canvas, tile, by, right, below);
        }
        let tag = tag(tile, pattern, format, before + index + 1, before + tiles.len());
        canvas.items.extend(set_tag(&tag, tile, board, by, flap));
        items.extend(canvas.items);
        pages.push(Page { name: format!("Sheet {}", tile.name()), width, height, items });
    }
    pages
}

/// The diamonds across the lines between tiles, each with a fine line square to the edge.
fn marks(board: &Board, tiles: &[Tile]) -> Vec<Item> {
    let _ = board;
    let mut canvas = Canvas::default();
    let has = |column: usize, row: usize| tiles.iter().any(|other| other.column == column && other.row == row);
    for tile in tiles {
        let frame = tile.frame;
        let mut seams = Vec::new();
        if has(tile.column + 1, tile.row) {
            seams.push((Point::new(frame.x1, frame.y0), Point::new(frame.x1, frame.y1)));
        }
        if has(tile.column, tile.row + 1) {
            seams.push((Point::new(frame.x0, frame.y1), Point::new(frame.x1, frame.y1)));
        }
        for (from, to) in seams {
            for share in [0.25, 0.75] {
                diamond(&mut canvas, from.lerp(to, share), (to - from) / from.distance(to));
            }
        }
    }
    canvas.items
}

fn diamond(canvas: &mut Canvas, at: Point, dir: Vec2) {
    const HALF: f64 = 3.5;
    let side = Vec2::new(-dir.y, dir.x);
    let corners = [at + dir * HALF, at + side * HALF, at - dir * HALF, at - side * HALF];
    let mut path = BezPath::new();
    path.move_to(corners[0]);
    corners[1..].iter().for_each(|corner| path.line_to(*corner));
    path.close_path();
    canvas.tagged(path, Pen::solid(0.2), "join");
    canvas.line(at - side * 6.0, at + side * 6.0, Pen::solid(0.12));
}

fn frame(canvas: &mut Canvas, tile: &Tile, by: Vec2, options: &Options) {
    let grey = if options.save_ink { 0.6 } else { 0.35 };
    canvas.tagged((tile.frame + by).to_path(0.1), Pen::solid(0.15).grey(grey), "frame");
}

/// What goes on the flaps, in words.
fn flaps(canvas: &mut Canvas, tile: &Tile, by: Vec2, right: bool, below: bool) {
    let rect = tile.frame + by;
    let em = pt(7.0);
    let next = |column: usize, row: usize| Tile { column, row, ..tile.clone() }.name();
    if right {
        let name = next(tile.column + 1, tile.row);
        let x = rect.x1 + 1.0;
        canvas.fill(Rect::new(x, rect.center().y - 4.4, x + FLAP - 1.2, rect.center().y + 2.4), 1.0);
        canvas.text(Point::new(x, rect.center().y - 1.5), &name, Face::Bold, em);
        canvas.text(Point::new(x, rect.center().y + 1.5), "here", Face::Regular, em);
    }
    if below {
        let text = format!("{} here", next(tile.column, tile.row + 1));
        let at = Point::new(rect.center().x - 7.0, rect.y1 + 6.0);
        canvas.fill(text_box(at, Face::Bold.width(&text, em), em).inflate(0.4, 0.4), 1.0);
        canvas.text(at, &text, Face::Bold, em);
    }
}

fn tag(tile: &Tile, pattern: &Pattern, format: Format, page: usize, pages: usize) -> Vec<(String, Face, f64)> {
    let scale = if format.is_home() { 1.0 } else { 2.0 };
    let list: Vec<String> = tile.pieces.iter().map(u32::to_string).collect();
    let pieces = match list.as_slice() {
        [] => String::new(),
        [one] => format!("piece {one}, "),
        more => format!("pieces {}, ", more.join(" ")),
    };
    vec![
        (tile.name(), Face::Bold, pt(15.0) * scale),
        (format!("{pieces}page {page} of {pages}"), Face::Regular, pt(7.0) * scale),
        (
            format!("{}, {}, edition {}", pattern.title, pattern.size_words(), pattern.edition),
            Face::Regular,
            pt(6.0) * scale,
        ),
    ]
}

/// The name of the tile where nothing is in its way: in a corner if it can be; else its name alone, wherever there is room.
fn set_tag(tag: &[(String, Face, f64)], tile: &Tile, board: &Board, by: Vec2, flap: f64) -> Vec<Item> {
    for lines in [tag, tag.get(..2).unwrap_or(tag), tag.get(..1).unwrap_or(tag)] {
        let width = lines.iter().map(|(text, face, em)| face.width(text, *em)).fold(0.0, f64::max);
        let height: f64 = lines.iter().map(|(.., em)| em * 1.2).sum();
        let inner = tile.frame.inset(-2.5);
        let inner = Rect::new(inner.x0, inner.y0, inner.x1, inner.y1 - flap.min(0.0));
        let mut y = inner.y0;
        while y + height <= inner.y1 {
            let mut x = inner.x0;
            while x + width <= inner.x1 {
                if board.clear.is_free(Rect::new(x, y, x + width, y + height).inflate(1.0, 1.0)) {
                    let mut canvas = Canvas::default();
                    let mut line = y;
                    for (text, face, em) in lines {
                        canvas.text(Point::new(x, line + em * 0.95) + by, text, *face, *em);
                        line += em * 1.2;
                    }
                    return canvas.items;
                }
                x += 4.0;
            }
            y += 4.0;
        }
    }
    Vec::new()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_have_letters() {
        assert_eq!([0, 25, 26, 27].map(letters), ["A", "Z", "AA", "AB"]);
    }
}
