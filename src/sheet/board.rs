//! All pieces in their places, with their words: the drawing the pages are cut from.

use std::sync::Arc;

use kurbo::{Affine, BezPath, Point, Rect, Shape, Vec2};

use super::clear::Clear;
use super::drawing::{Drawing, Kind};
use super::format::Format;
use super::front;
use super::lettering;
use super::page::{Item, Sizes, Tag};
use super::pattern::{Options, Pattern, PieceSet, SeamLines};
use super::place::{Paper, Placed, Pose, area, place};
use super::style;
use super::words;

/// The board.
#[derive(Debug, Clone)]
pub struct Board {
    /// Everything drawn, in the coordinates of the board, mm.
    pub items: Vec<Item>,
    /// The pieces and strips in their places.
    pub drawings: Vec<Drawing>,
    /// The label kept beside each, where it has one.
    pub beside: Vec<Option<Rect>>,
    /// What words must keep clear of.
    pub clear: Clear,
    /// From one tile to the next, mm.
    pub pitch: (f64, f64),
    /// Tiles side by side.
    pub columns: usize,
    /// Rows of tiles.
    pub rows: usize,
    /// The area of everything placed, mm².
    pub area: f64,
    /// The upper left corner of the block of test lines, where it is on the board.
    pub block: Option<Point>,
}

/// A piece in one of its poses, with the box of its label.
struct Posed {
    drawing: Drawing,
    beside: Option<Rect>,
}

/// Places everything.
#[must_use]
pub fn board(pattern: &Pattern, format: Format, options: &Options) -> Board {
    let several = pattern.sizes.len() > 1;
    let seams = match options.seam_lines {
        SeamLines::OneSize => !several,
        SeamLines::Always => true,
        SeamLines::Never => false,
    };
    let boldness = format.boldness();
    let mut parts: Vec<Vec<Posed>> = pattern.pieces.iter().map(|set| poses(set, pattern, format, seams)).collect();
    parts.extend(pattern.strips.iter().map(|strip| vec![posed(Drawing::strip(strip), boldness)]));
    let mut shapes: Vec<Vec<Pose>> = parts.iter().map(|poses| poses.iter().map(covered).collect()).collect();
    if !format.is_home() {
        let (width, height) = front::block_size(format);
        shapes.push(vec![Pose { shapes: vec![corners(Rect::new(0.0, 0.0, width, height))] }]);
    }
    let pitch = format.pitch(options.joining);
    let paper = paper(format, pitch);
    let placed = place(&shapes, &paper);
    finish(pattern, format, options, &parts, &placed, pitch)
}

/// The paper as the search sees it.
fn paper(format: Format, pitch: (f64, f64)) -> Paper {
    // Cells of about a centimetre; of an endless page every row of cells is a tile of its own.
    match format {
        Format::A4 | Format::Letter => Paper { tile: pitch, cells: (20, 30), columns: None, whole: false },
        Format::A0 => Paper { tile: pitch, cells: (48, 68), columns: None, whole: true },
        Format::Roll => Paper { tile: (pitch.0, 10.0), cells: (89, 1), columns: Some(1), whole: false },
        Format::Projector => Paper { tile: (pitch.0, 10.0), cells: (150, 1), columns: Some(1), whole: false },
    }
}

fn poses(set: &PieceSet, pattern: &Pattern, format: Format, seams: bool) -> Vec<Posed> {
    let drawing = Drawing::of(set, words::label(set, pattern), seams);
    let boldness = format.boldness();
    if format == Format::Projector {
        // The cloth lies along the beam: every piece with its grain down the page.
        let angle = set.by_size.first().and_then(|piece| piece.cuts.first()).map_or(0.0, |cut| cut.grain.to_degrees());
        let quarter = if (angle.abs() - 90.0).abs() < 1.0 { 1 } else { 0 };
        return vec![posed(drawing.turned(quarter), boldness)];
    }
    (0..4).map(|quarter| posed(drawing.turned(quarter), boldness)).collect()
}

fn posed(drawing: Drawing, boldness: f64) -> Posed {
    let beside = lettering::label_beside(&drawing, boldness);
    Posed { drawing, beside }
}

fn covered(posed: &Posed) -> Pose {
    let mut shapes = posed.drawing.outlines.clone();
    shapes.extend(posed.beside.map(corners));
    Pose { shapes }
}

fn corners(rect: Rect) -> Vec<Point> {
    vec![rect.origin(), Point::new(rect.x1, rect.y0), Point::new(rect.x1, rect.y1), Point::new(rect.x0, rect.y1)]
}

fn finish(
    pattern: &Pattern,
    format: Format,
    options: &Options,
    parts: &[Vec<Posed>],
    placed: &Placed,
    pitch: (f64, f64),
) -> Board {
    let several = pattern.sizes.len() > 1;
    let boldness = format.boldness();
    let mut board = Board {
        items: Vec::new(),
        drawings: Vec::new(),
        beside: Vec::new(),
        clear: Clear::default(),
        pitch,
        columns: placed.columns,
        rows: placed.rows,
        area: 0.0,
        block: None,
    };
    for (poses, spot) in parts.iter().zip(&placed.spots) {
        let Some(posed) = poses.get(spot.pose) else { continue };
        board.drawings.push(posed.drawing.moved(Affine::translate(spot.by)));
        board.beside.push(posed.beside.map(|rect| rect + spot.by));
        board.area += posed.drawing.outlines.iter().map(|outline| area(outline)).fold(0.0, f64::max);
    }
    for drawing in &board.drawings {
        lettering::obstacles(drawing, &mut board.clear);
        for stroke in &drawing.strokes {
            let tag = Some(Arc::new(Tag { piece: drawing.name.clone(), kind: stroke.kind.name() }));
            let pen = style::pen(stroke.kind, stroke.sizes, several, options.save_ink, boldness);
            board.items.push(Item::Stroke { path: stroke.path.clone(), pen, sizes: stroke.sizes, tag });
        }
        board.items.extend(fold_marks(drawing, boldness));
    }
    let mut frames = Clear::default();
    if !format.is_endless() {
        frame_lines(&board, &mut frames);
        frame_lines(&board.clone(), &mut board.clear);
    }
    if !format.is_home()
        && let Some(spot) = placed.spots.get(parts.len())
    {
        let corner = spot.by.to_point();
        let (width, height) = front::block_size(format);
        board.clear.words(Rect::from_origin_size(corner, (width, height)));
        board.items.extend(front::block(pattern, format, options).into_iter().map(|item| item.moved(spot.by)));
        board.area += width * height;
        board.block = Some(corner);
    }
    for (drawing, beside) in board.drawings.iter().zip(&board.beside) {
        board.items.extend(lettering::label(drawing, *beside, &mut board.clear, boldness));
    }
    for drawing in &board.drawings {
        if several {
            let names = lettering::size_names(drawing, &pattern.sizes, &frames, &mut board.clear, boldness);
            board.items.extend(names);
        }
        board.items.extend(lettering::notes(drawing, &mut board.clear, boldness));
    }
    board
}

/// The lines between tiles.
#[allow(clippy::cast_precision_loss)]
fn frame_lines(board: &Board, clear: &mut Clear) {
    let (wide, high) = (board.columns as f64 * board.pitch.0, board.rows as f64 * board.pitch.1);
    for column in 0..=board.columns {
        let x = column as f64 * board.pitch.0;
        clear.side(Point::new(x, 0.0), Point::new(x, high));
    }
    for row in 0..=board.rows {
        let y = row as f64 * board.pitch.1;
        clear.side(Point::new(0.0, y), Point::new(wide, y));
    }
}

/// Two arrows that point at the edge on the fold.
fn fold_marks(drawing: &Drawing, boldness: f64) -> Vec<Item> {
    let mut items = Vec::new();
    for stroke in drawing.strokes.iter().filter(|stroke| stroke.kind == Kind::Fold) {
        let segs: Vec<kurbo::PathSeg> = stroke.path.segments().collect();
        let (Some(first), Some(last)) = (segs.first(), segs.last()) else { continue };
        let (from, to) = (kurbo::ParamCurve::start(first), kurbo::ParamCurve::end(last));
        let dir = (to - from) / from.distance(to).max(1e-9);
        let mut side = Vec2::new(-dir.y, dir.x);
        // Into the piece.
        if (stroke.path.bounding_box().center() - drawing.bounds().center()).dot(side) > 0.0 {
            side = -side;
        }
        for share in [0.15, 0.85] {
            let tip = from.lerp(to, share);
            let mut path = BezPath::new();
            path.move_to(tip + side * 12.0);
            path.line_to(tip + side * 0.6);
            path.move_to(tip + side * 4.0 + dir * 1.8);
            path.line_to(tip + side * 0.6);
            path.line_to(tip + side * 4.0 - dir * 1.8);
            let tag = Some(Arc::new(Tag { piece: drawing.name.clone(), kind: "arrow" }));
            let pen = style::pen(Kind::Grain, Sizes::ALWAYS, false, false, boldness);
            items.push(Item::Stroke { path, pen, sizes: stroke.sizes, tag });
        }
    }
    items
}
