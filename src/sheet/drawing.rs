//! A piece as lines, in one size or several, before it has a place on the paper.

use std::collections::BTreeMap;

use kurbo::{Affine, BezPath, Circle, PathSeg, Point, Rect, Shape, Vec2};

use super::nest::{joined, shared, stacked};
use super::page::Sizes;
use super::pattern::{PieceSet, Strip};
use crate::draft::{MarkKind, Path, Piece};
use crate::units::Length;

/// How deep a notch is drawn from the cut line, mm (common practice, no source: less than half of the usual allowance).
const NOTCH: f64 = 5.0;
/// How far the two snips of a double notch are apart, mm (common practice, no source).
const TWINS: f64 = 6.0;
/// How long a marking strip is at most, mm: it fits on a tile of every paper.
const STRIP: f64 = 160.0;

/// What a line is of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Kind {
    /// The cut line.
    Cut,
    /// The edge on the fold.
    Fold,
    /// The seam line.
    Seam,
    /// A notch.
    Notch,
    /// The grain line.
    Grain,
    /// Its arrowheads.
    Arrow,
    /// A leg of a dart.
    Dart,
    /// A drill mark.
    Drill,
    /// A line within the piece.
    Mark(MarkKind),
}

impl Kind {
    /// Its name in the properties of marked content.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Kind::Cut => "cut",
            Kind::Fold => "fold",
            Kind::Seam => "seam",
            Kind::Notch => "notch",
            Kind::Grain | Kind::Arrow => "grain",
            Kind::Dart => "dart",
            Kind::Drill => "drill",
            Kind::Mark(_) => "mark",
        }
    }
}

/// A line of a piece.
#[derive(Debug, Clone)]
pub struct Stroke {
    /// What it is of.
    pub kind: Kind,
    /// Where it runs, mm.
    pub path: BezPath,
    /// For which sizes.
    pub sizes: Sizes,
}

/// Words that belong to a place on a piece.
#[derive(Debug, Clone)]
pub struct Note {
    /// The place.
    pub at: Point,
    /// The words.
    pub text: String,
}

/// A piece as lines.
#[derive(Debug, Clone)]
pub struct Drawing {
    /// The piece's name in the garment file.
    pub name: String,
    /// Its number; none for a marking strip.
    pub number: Option<u32>,
    /// Its lines.
    pub strokes: Vec<Stroke>,
    /// The outline of each size, corner by corner.
    pub outlines: Vec<Vec<Point>>,
    /// Where its label would stand best.
    pub label: Point,
    /// The label, line by line; the first is its name.
    pub words: Vec<String>,
    /// Words along its lines.
    pub notes: Vec<Note>,
}

impl Drawing {
    /// A piece in its sizes.
    #[must_use]
    pub fn of(set: &PieceSet, words: Vec<String>, seams: bool) -> Drawing {
        let moves = stacked(&set.by_size);
        let pieces: Vec<(&Piece, Vec2)> = set.by_size.iter().zip(moves).collect();
        let mut strokes = Vec::new();
        let (mut cuts, mut folds) = (Vec::new(), Vec::new());
        for (piece, by) in &pieces {
            let outline = piece.cut.moved(Affine::translate(*by)).segs();
            let fold = piece.fold.as_deref().and_then(|name| piece.edge(name));
            let on_fold =
                |seg: &PathSeg| fold.is_some_and(|edge| lies_on(seg, edge.path.start() + *by, edge.path.start_dir()));
            let (fold, mut cut): (Vec<PathSeg>, Vec<PathSeg>) = outline.into_iter().partition(on_fold);
            // So that the line begins behind the fold, not within.
            if let Some(end) = fold.last().map(kurbo::ParamCurve::end)
                && let Some(first) = cut.iter().position(|seg| kurbo::ParamCurve::start(seg).distance(end) < 1e-3)
            {
                cut.rotate_left(first);
            }
            cuts.push(cut);
            folds.push(fold);
        }
        strokes.extend(shared(&cuts).into_iter().map(|(path, sizes)| Stroke { kind: Kind::Cut, path, sizes }));
        strokes.extend(shared(&folds).into_iter().map(|(path, sizes)| Stroke { kind: Kind::Fold, path, sizes }));
        let mut inner = Same::default();
        for (size, (piece, by)) in pieces.iter().enumerate() {
            inner.within(piece, *by, size, seams);
        }
        strokes.extend(inner.strokes());
        let mut drawing = Drawing {
            name: set.name.clone(),
            number: Some(set.number),
            strokes,
            outlines: pieces.iter().map(|(piece, by)| corners(&piece.cut, *by)).collect(),
            label: Point::ZERO,
            words,
            notes: Vec::new(),
        };
        if let Some((piece, by)) = pieces.get(pieces.len() / 2) {
            drawing.label = piece.label.0 + *by;
            drawing.grain(piece, *by);
            drawing.notes(piece, *by);
        }
        drawing
    }

    /// A marking strip: rows and stitches as far as a tile reaches.
    #[must_use]
    pub fn strip(strip: &Strip) -> Drawing {
        let stitch = strip.stitch.to_mm().max(0.5);
        let every = strip.every.filter(|every| *every > 0);
        let step = every.map_or(stitch, |every| stitch * f64::from(every));
        let guides = (STRIP / step).floor().max(1.0);
        let long = guides * step;
        let low = strip.rows.iter().fold(0.0, |low: f64, row| low.max(row.to_mm()));
        let frame = Rect::new(0.0, 0.0, long, low + 14.0);
        let mut strokes = vec![Stroke { kind: Kind::Cut, path: frame.to_path(0.1), sizes: Sizes::ALWAYS }];
        let mut line = |kind, from: (f64, f64), to: (f64, f64)| {
            let mut path = BezPath::new();
            path.move_to(from);
            path.line_to(to);
            strokes.push(Stroke { kind: Kind::Mark(kind), path, sizes: Sizes::ALWAYS });
        };
        for row in &strip.rows {
            let y = row.to_mm();
            line(MarkKind::Row, (0.0, y), (long, y));
            let mut x = 0.0;
            while x <= long + 1e-6 {
                line(MarkKind::Place, (x, y - 0.8), (x, y + 0.8));
                x += stitch;
            }
        }
        if every.is_some() {
            let mut x = 0.0;
            while x <= long + 1e-6 {
                line(MarkKind::Guide, (x, 0.0), (x, low + 2.0));
                x += step;
            }
        }
        let words =
            vec![strip.title.clone(), "Lay the upper edge on the edge of the cloth, mark, move on.".to_string()];
        Drawing {
            name: strip.name.clone(),
            number: None,
            strokes,
            outlines: vec![vec![
                Point::ZERO,
                Point::new(long, 0.0),
                Point::new(long, low + 14.0),
                Point::new(0.0, low + 14.0),
            ]],
            label: Point::new(long / 2.0, low + 8.0),
            words,
            notes: Vec::new(),
        }
    }

    /// Turned by quarters, clockwise. Words are not turned: they find their places afterwards.
    #[must_use]
    pub fn turned(&self, quarters: u8) -> Drawing {
        let turn = match quarters % 4 {
            0 => Affine::IDENTITY,
            1 => Affine::new([0.0, 1.0, -1.0, 0.0, 0.0, 0.0]),
            2 => Affine::new([-1.0, 0.0, 0.0, -1.0, 0.0, 0.0]),
            _ => Affine::new([0.0, -1.0, 1.0, 0.0, 0.0, 0.0]),
        };
        self.moved(turn)
    }

    /// Moved elsewhere.
    #[must_use]
    pub fn moved(&self, by: Affine) -> Drawing {
        let mut drawing = self.clone();
        drawing.strokes.iter_mut().for_each(|stroke| stroke.path.apply_affine(by));
        drawing.outlines.iter_mut().flatten().for_each(|point| *point = by * *point);
        drawing.notes.iter_mut().for_each(|note| note.at = by * note.at);
        drawing.label = by * drawing.label;
        drawing
    }

    /// The box about everything drawn of it.
    #[must_use]
    pub fn bounds(&self) -> Rect {
        let boxes = self.strokes.iter().map(|stroke| stroke.path.bounding_box());
        boxes.reduce(|a, b| a.union(b)).unwrap_or(Rect::ZERO)
    }

    /// Grain lines with arrowheads: the piece's own, and a short one for each cloth whose grain runs another way.
    fn grain(&mut self, piece: &Piece, by: Vec2) {
        let (from, to) = (piece.grain.0.0 + by, piece.grain.1.0 + by);
        self.arrow(from, to);
        self.notes.push(Note { at: from.lerp(to, 0.2), text: "grain".to_string() });
        let (middle, way) = (from.midpoint(to), to - from);
        let own = (-way.x).atan2(way.y);
        let mut told: Vec<f64> = vec![own];
        for cut in &piece.cuts {
            let angle = cut.grain.base();
            if told.iter().any(|other| (angle - other).sin().abs() < 1e-3) {
                continue;
            }
            let half = Vec2::new(-angle.sin(), angle.cos()) * way.hypot().min(120.0) * 0.3;
            self.arrow(middle - half, middle + half);
            let text = format!("grain of the {}", cut.cloth.replace('_', " "));
            self.notes.push(Note { at: middle + half * 0.7, text });
            told.push(angle);
        }
    }

    fn arrow(&mut self, from: Point, to: Point) {
        let mut path = BezPath::new();
        path.move_to(from);
        path.line_to(to);
        self.strokes.push(Stroke { kind: Kind::Grain, path, sizes: Sizes::ALWAYS });
        let dir = (to - from) / from.distance(to).max(1e-9);
        let side = Vec2::new(-dir.y, dir.x);
        for (tip, dir) in [(from, dir), (to, -dir)] {
            let mut head = BezPath::new();
            head.move_to(tip + dir * 4.0 + side * 1.6);
            head.line_to(tip);
            head.line_to(tip + dir * 4.0 - side * 1.6);
            self.strokes.push(Stroke { kind: Kind::Arrow, path: head, sizes: Sizes::ALWAYS });
        }
    }

    fn notes(&mut self, piece: &Piece, by: Vec2) {
        let mut note = |at: Point, text: &str| self.notes.push(Note { at: at + by, text: text.to_string() });
        if let Some(edge) = piece.fold.as_deref().and_then(|name| piece.edge(name)) {
            note(edge.path.at(edge.path.length() / 2.0).0, "place on the fold");
        }
        let mut told = Vec::new();
        for mark in &piece.marks {
            if !matches!(mark.kind, MarkKind::Row | MarkKind::Guide) {
                note(mark.path.at(mark.path.length() * 0.5).0, &mark.title);
            } else if !told.contains(&&mark.name) {
                told.push(&mark.name);
                let title = mark.title.split(',').next().unwrap_or(&mark.title);
                note(mark.path.start(), title);
            }
        }
        for drill in &piece.drills {
            note(drill.at.0, &drill.title);
        }
        for notch in &piece.notches {
            if let Some(name) = &notch.name {
                note(notch.cut.0 - notch.out.0.to_vec2() * NOTCH, name);
            }
        }
    }
}

/// Whether a segment lies on the fold.
fn lies_on(seg: &PathSeg, point: Point, dir: Vec2) -> bool {
    use kurbo::ParamCurve;
    let on = |p: Point| (p - point).cross(dir).abs() < 1e-3;
    matches!(seg, PathSeg::Line(_)) && on(seg.start()) && on(seg.end())
}

fn corners(path: &Path, by: Vec2) -> Vec<Point> {
    path.flat(0.05).into_iter().map(|point| point + by).collect()
}

/// Lines that are the same in several sizes, drawn once.
#[derive(Default)]
struct Same {
    order: Vec<(Kind, Vec<i64>)>,
    lines: BTreeMap<(Kind, Vec<i64>), (BezPath, Sizes)>,
}

impl Same {
    fn add(&mut self, kind: Kind, path: BezPath, size: usize) {
        // To a twentieth of a millimetre.
        #[allow(clippy::cast_possible_truncation)]
        let round = |value: f64| (value * 20.0).round() as i64;
        let mut places: Vec<i64> = Vec::new();
        for element in path.elements() {
            match *element {
                kurbo::PathEl::MoveTo(p) | kurbo::PathEl::LineTo(p) => places.extend([round(p.x), round(p.y)]),
                kurbo::PathEl::QuadTo(a, p) => places.extend([a, p].iter().flat_map(|p| [round(p.x), round(p.y)])),
                kurbo::PathEl::CurveTo(a, b, p) => {
                    places.extend([a, b, p].iter().flat_map(|p| [round(p.x), round(p.y)]));
                }
                kurbo::PathEl::ClosePath => {}
            }
        }
        let key = (kind, places);
        match self.lines.get_mut(&key) {
            Some((_, sizes)) => *sizes = sizes.and(Sizes::one(size)),
            None => {
                self.order.push(key.clone());
                self.lines.insert(key, (path, Sizes::one(size)));
            }
        }
    }

    fn strokes(mut self) -> Vec<Stroke> {
        let order = std::mem::take(&mut self.order);
        let taken = order.into_iter().filter_map(|key| self.lines.remove(&key).map(|line| (key.0, line)));
        taken.map(|(kind, (path, sizes))| Stroke { kind, path, sizes }).collect()
    }

    fn within(&mut self, piece: &Piece, by: Vec2, size: usize, seams: bool) {
        let shift = Affine::translate(by);
        let line = |path: &Path| shift * path.bez().clone();
        if seams {
            let on_fold = |name: &str| piece.fold.as_deref() == Some(name);
            for edge in piece.edges.iter().filter(|edge| !on_fold(&edge.name) && edge.allowance > Length::mm(0.05)) {
                self.add(Kind::Seam, line(&edge.path), size);
            }
        }
        for dart in &piece.darts {
            self.add(Kind::Dart, line(&dart.legs.0), size);
            self.add(Kind::Dart, line(&dart.legs.1), size);
            self.add(Kind::Mark(MarkKind::Fold), line(&dart.centre), size);
        }
        for mark in &piece.marks {
            self.add(Kind::Mark(mark.kind), line(&mark.path), size);
        }
        for notch in &piece.notches {
            let out = notch.out.0.to_vec2();
            let aside = Vec2::new(-out.y, out.x) * (TWINS / 2.0);
            let feet = if notch.double { vec![-aside, aside] } else { vec![Vec2::ZERO] };
            for foot in feet {
                let start = notch.cut.0 + by + foot;
                self.add(Kind::Notch, joined(&[PathSeg::Line(kurbo::Line::new(start, start - out * NOTCH))]), size);
            }
        }
        for drill in &piece.drills {
            let at = drill.at.0 + by;
            self.add(Kind::Drill, Circle::new(at, 1.5).to_path(0.01), size);
            for arm in [Vec2::new(2.5, 0.0), Vec2::new(0.0, 2.5)] {
                self.add(Kind::Drill, joined(&[PathSeg::Line(kurbo::Line::new(at - arm, at + arm))]), size);
            }
        }
    }
}
