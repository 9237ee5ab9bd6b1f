//! A pattern piece laid flat, drawn to scale from its own outline.

use kurbo::{Affine, BezPath, Point, Rect, Shape, Vec2};

use crate::units::Printed;

use super::super::figure::{Drawn, KeyEntry, Scale, Undrawable};
use super::super::geom::{along, closed, length, line, right_of, segments, spread, unit};
use super::super::hand::{DOWN, Up};
use super::super::look::{Look, Paint};
use super::super::notes::Side;
use super::super::pen::Pen;
use super::super::scene::{Scene, Words};
use super::super::weave::inside;
use super::super::words::scale_for;

/// One named edge of a piece, on its seam line; mm of the garment, y down.
#[derive(Debug, Clone, PartialEq)]
pub struct EdgePath {
    /// What the text calls it: `waist`, `side seam`.
    pub name: String,
    /// The seam line.
    pub path: BezPath,
    /// Its length as printed.
    pub measure: Option<Printed>,
    /// Its allowance as printed; none where the edge needs no allowance.
    pub allowance: Option<Printed>,
}

/// A notch on a seam line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Notch {
    /// Its place on the seam line, mm.
    pub at: Point,
    /// Outward direction, toward the cut edge.
    pub out: Vec2,
    /// One for a single notch, two for a double.
    pub count: u8,
}

/// What a line within a piece is for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum InnerKind {
    /// To fold on.
    Fold,
    /// To stitch on.
    Stitch,
    /// The middle of a bone's channel so many mm wide, stitched at both sides.
    Channel(f64),
    /// To mark with chalk.
    Mark,
}

/// A line within a piece.
#[derive(Debug, Clone, PartialEq)]
pub struct InnerLine {
    /// The line, mm.
    pub path: BezPath,
    /// What it is for.
    pub kind: InnerKind,
    /// What the text calls it.
    pub name: Option<String>,
}

/// A distance shown across a piece.
#[derive(Debug, Clone, PartialEq)]
pub struct PieceMeasure {
    /// From here, mm.
    pub from: Point,
    /// To here, mm.
    pub to: Point,
    /// The distance as printed.
    pub text: Printed,
}

/// A piece laid flat.
#[derive(Debug, Clone, PartialEq)]
pub struct FlatPiece {
    /// Its name.
    pub name: String,
    /// Edges on the seam line, in order round the piece.
    pub seam: Vec<EdgePath>,
    /// The cut line, closed.
    pub cut: BezPath,
    /// Ends of the grain line.
    pub grain: Option<(Point, Point)>,
    /// Notches.
    pub notches: Vec<Notch>,
    /// Lines within the piece.
    pub inner: Vec<InnerLine>,
    /// The edge that lies on the fold of the cloth.
    pub fold: Option<BezPath>,
    /// Distances to show.
    pub measures: Vec<PieceMeasure>,
    /// Whether the wrong side is up.
    pub wrong_side: bool,
    /// How it is cut, in words: `cut 3 of wool`.
    pub cutting: String,
    /// Width and height of paper the outline may take, mm.
    pub room: (f64, f64),
}

/// The box of an outline that can be drawn.
pub(crate) fn outline_box(path: &BezPath, what: &str) -> Result<Rect, Undrawable> {
    let area = path.bounding_box();
    if path.is_empty() || !path.is_finite() || !area.is_finite() || area.width() <= 0.0 || area.height() <= 0.0 {
        return Err(Undrawable(format!("expected {what} that encloses cloth, but found an empty one")));
    }
    Ok(area)
}

/// A flat piece with its grain, edges, measures, allowances and notches.
///
/// # Errors
/// Where the outline encloses nothing or is not finite.
pub fn flat_piece(input: &FlatPiece, look: &Look) -> Drawn {
    draw(input, look, true)
}

/// A flat piece for its card, which says name and cutting beside it: outline, grain, fold, notches, inner lines and
/// measures, without words of its own.
///
/// # Errors
/// As for [`flat_piece`].
pub fn piece_card(input: &FlatPiece, look: &Look) -> Drawn {
    draw(input, look, false)
}

fn draw(input: &FlatPiece, look: &Look, named: bool) -> Drawn {
    let area = outline_box(&input.cut, "a cut line")?;
    let n = scale_for(area.width(), area.height(), input.room);
    let to = Affine::scale(1.0 / n);
    let mut s = Scene::new(look);
    let cut = to * input.cut.clone();
    let grain = input.grain.map_or(DOWN, |(a, b)| b - a);
    s.cloth(cut.clone(), if input.wrong_side { Up::Wrong } else { Up::Right }, grain);
    s.cut(cut.clone());
    if let Some(fold) = &input.fold {
        let fold = to * fold.clone();
        s.stroke(fold.clone(), Pen { width: 1.1, paint: Paint::White, ..Pen::SEAM });
        s.fold_line(fold);
    }
    for edge in &input.seam {
        s.uses(KeyEntry::SeamLine);
        s.named(to * edge.path.clone(), Pen::SEAM, edge.name.clone());
    }
    for inner in &input.inner {
        let path = to * inner.path.clone();
        match inner.kind {
            InnerKind::Fold => s.fold_line(path.clone()),
            InnerKind::Stitch => s.machine(path.clone()),
            InnerKind::Mark => s.mark(path.clone()),
            InnerKind::Channel(width) => channel(&mut s, &path, width / n),
        }
        if let Some(name) = inner.name.as_ref().filter(|_| named) {
            let (side, target) = match inner.kind {
                InnerKind::Channel(_) => (Side::Below, lower_end(&path)),
                _ => beside_line(&path, cut.bounding_box().center()),
            };
            s.note(side, target, name.clone());
        }
    }
    for notch in &input.notches {
        draw_notch(&mut s, to * notch.at, notch.out, notch.count, n);
    }
    if let Some((a, b)) = input.grain {
        s.grain(to * a, to * b);
    }
    let frame = cut.bounding_box();
    for measure in &input.measures {
        let (a, b) = (to * measure.from, to * measure.to);
        let offset = measure_side(a, b, frame);
        let text = measure.text.typeset(look.systems).replace(" (", "\n(");
        let wide = super::super::metric::width(&text, 8.0, super::super::figure::LabelStyle::Measure) + 4.0;
        let level = (b.y - a.y).abs() < (b.x - a.x).abs();
        let cramped = if level { (b.x - a.x).abs() < wide } else { frame.x1 - a.x.max(b.x) < wide };
        let high = super::super::metric::height(&text, 8.0);
        let down = right_of(unit(b - a)).y * offset.signum();
        let words = Rect::from_center_size(
            if level { a.midpoint(b) + Vec2::new(0.0, down.signum() * (high / 2.0 + 1.3)) } else { a.midpoint(b) },
            (wide - 3.0, high + 0.6),
        );
        let struck = input.seam.iter().any(|e| spread(&(to * e.path.clone()), 0.6).iter().any(|p| words.contains(*p)));
        if offset.abs() < 1.0 && (cramped || struck) {
            s.dim_line(a, b, offset);
            s.note(Side::Right, a.lerp(b, 0.7), text);
        } else {
            s.dim(a, b, offset, text);
        }
    }
    if named {
        title(&mut s, input, frame, to);
        name_edges(&mut s, input, to, look);
    }
    s.finish(words(input, look, n), Scale::OneTo(n))
}

/// A place near the lower end of a line.
fn lower_end(path: &BezPath) -> Point {
    let total = length(path);
    let (a, b) = (along(path, 0.0).0, along(path, total).0);
    along(path, total * if a.y > b.y { 0.12 } else { 0.88 }).0
}

/// A channel between two rows of stitching, the bone in it ending short of both ends.
fn channel(s: &mut Scene, path: &BezPath, width: f64) {
    let half = (width / 2.0).clamp(0.75, 3.0);
    let middle = spread(path, 0.5);
    for side in [half, -half] {
        s.machine(super::super::geom::polyline(&super::super::geom::beside(&middle, side)));
    }
    let total = length(path);
    let bone: Vec<Point> =
        super::super::geom::steps(40).map(|t| along(path, 1.6 + (total - 3.2).max(0.1) * t).0).collect();
    let pen = Pen { class: "bone", width: (half * 1.2).max(0.5), ..Pen::THIN };
    s.stroke(super::super::geom::polyline(&bone), pen);
    s.stroke(super::super::geom::polyline(&bone), Pen { width: pen.width - 0.4, paint: Paint::Pale, ..pen });
}

/// Where the name of an inner line stands: above or under an upright line, at the nearer side of a level one.
fn beside_line(path: &BezPath, centre: Point) -> (Side, Point) {
    let total = length(path);
    let (a, middle, b) = (along(path, 0.0).0, along(path, total * 0.5).0, along(path, total).0);
    if (b.y - a.y).abs() > (b.x - a.x).abs() {
        let (high, low) = if a.y < b.y { (a, b) } else { (b, a) };
        return if middle.x < centre.x - 1.0 {
            (Side::Above, high.lerp(low, 0.15))
        } else {
            (Side::Below, low.lerp(high, 0.15))
        };
    }
    if middle.x < centre.x { (Side::Left, middle) } else { (Side::Right, middle) }
}

/// Name and cutting note within the piece where there is room for them; where not, the name above it, and the cutting
/// note is left to the caption.
fn title(s: &mut Scene, input: &FlatPiece, frame: Rect, to: Affine) {
    use super::super::geom::flat;
    let outline = flat(&(to * input.cut.clone()), 0.05);
    for room in [40.0, 24.0, 17.0] {
        if fit_title(s, input, frame, to, &outline, room) {
            return;
        }
    }
    s.headline(frame.center().x, input.name.clone());
}

/// Sets name and cutting note broken to `room` where they clear every line of the piece; whether they do.
fn fit_title(s: &mut Scene, input: &FlatPiece, frame: Rect, to: Affine, outline: &[Vec<Point>], room: f64) -> bool {
    use super::super::figure::{Anchor, LabelStyle};
    use super::super::geom::pt;
    use super::super::metric::{height, width, wrap};
    let (name, cutting) = (wrap(&input.name, 8.0, room), wrap(&input.cutting, 8.0, room));
    let wide = width(&name, 8.0, LabelStyle::Strong).max(width(&cutting, 8.0, LabelStyle::Plain)) + 2.0;
    let (first, high) = (height(&name, 8.0), height(&name, 8.0) + height(&cutting, 8.0) + 1.6);
    let obstacles: Vec<BezPath> = input
        .inner
        .iter()
        .map(|i| to * i.path.clone())
        .chain(input.grain.map(|(a, b)| line(to * a, to * b)))
        .chain(input.measures.iter().map(|m| line(to * m.from, to * m.to)))
        .collect();
    let free = |centre: Point| {
        let r = Rect::from_center_size(centre, (wide, high)).inflate(1.0, 1.0);
        let corners = [pt(r.x0, r.y0), pt(r.x1, r.y0), pt(r.x1, r.y1), pt(r.x0, r.y1), r.center()];
        !s.has_words(r)
            && corners.iter().all(|c| inside(outline, *c))
            && obstacles.iter().all(|o| spread(o, 0.8).iter().all(|p| !r.contains(*p)))
            && input.seam.iter().all(|e| spread(&(to * e.path.clone()), 0.8).iter().all(|p| !r.contains(*p)))
    };
    let mut spots: Vec<Point> = (1..16)
        .flat_map(|i| (1..16).map(move |j| (f64::from(i) / 16.0, f64::from(j) / 16.0)))
        .map(|(u, v)| pt(frame.x0 + frame.width() * u, frame.y0 + frame.height() * v))
        .collect();
    let heart = frame.center() - Vec2::new(0.0, frame.height() * 0.12);
    spots.sort_by(|a, b| a.distance(heart).total_cmp(&b.distance(heart)));
    if let Some(spot) = spots.into_iter().find(|p| free(*p)) {
        s.text_mid(pt(spot.x, spot.y - (high - first) / 2.0), Anchor::Middle, LabelStyle::Strong, name);
        s.text_mid(pt(spot.x, spot.y + first / 2.0 + 0.8), Anchor::Middle, LabelStyle::Plain, cutting);
        return true;
    }
    false
}

/// A measure along an edge of the frame goes outside of it; one within the piece stays where it is.
fn measure_side(a: Point, b: Point, frame: Rect) -> f64 {
    let mid = a.midpoint(b);
    let n = right_of(unit(b - a));
    let out = unit(mid - frame.center());
    let near = if n.y.abs() > n.x.abs() {
        (mid.y - frame.y0).min(frame.y1 - mid.y)
    } else {
        (mid.x - frame.x0).min(frame.x1 - mid.x)
    };
    let sign = if n.dot(out) >= 0.0 { 1.0 } else { -1.0 };
    if near < 10.0 { (near.max(0.0) + 6.0) * sign } else { 0.01 * sign }
}

pub(crate) fn draw_notch(s: &mut Scene, at: Point, out: Vec2, count: u8, n: f64) {
    let out = unit(out);
    let side = right_of(out);
    let deep = (6.0 / n).clamp(1.8, 3.0);
    for i in 0..count.clamp(1, 3) {
        let shift = (f64::from(i) - (f64::from(count.clamp(1, 3)) - 1.0) / 2.0) * 2.2;
        let p = at + side * shift;
        s.fill(closed(&[p - out * 0.4, p + out * deep - side * 0.9, p + out * deep + side * 0.9]), Paint::Ink);
    }
}

/// Notes on the four sides, each on the side its edge faces.
fn name_edges(s: &mut Scene, input: &FlatPiece, to: Affine, look: &Look) {
    let cut = to * input.cut.clone();
    let centre = cut.bounding_box().center();
    for edge in &input.seam {
        let path = to * edge.path.clone();
        if segments(&path).is_empty() {
            continue;
        }
        let total = length(&path);
        let free = [0.5, 0.36, 0.64, 0.24, 0.76, 0.14, 0.86].into_iter().find(|t| {
            let (p, d) = along(&path, total * t);
            let reach = if right_of(d).dot(p - centre) < 0.0 { -right_of(d) } else { right_of(d) };
            let ray = Rect::from_points(p, p + unit(reach) * 25.0).inflate(1.2, 1.2);
            !s.has_words(ray)
        });
        let (mid, dir) = along(&path, total * free.unwrap_or(0.5));
        let mut out = right_of(dir);
        if out.dot(mid - centre) < 0.0 {
            out = -out;
        }
        let side = if out.x.abs() > out.y.abs() * 0.8 {
            if out.x > 0.0 { Side::Right } else { Side::Left }
        } else if out.y > 0.0 {
            Side::Below
        } else {
            Side::Above
        };
        let mut text = edge.name.clone();
        if let Some(measure) = &edge.measure {
            text = format!("{text}\n{}", measure.typeset(look.systems).replace(" (", "\n("));
        }
        s.note(side, mid, text);
    }
}

fn words(input: &FlatPiece, look: &Look, n: f64) -> Words {
    let read = |p: &Printed| p.terminal(look.systems).replace('\u{a0}', " ");
    let side = if input.wrong_side { "wrong" } else { "right" };
    let mut alt =
        format!("{}, {}, laid flat with its {side} side up, at a scale of 1 to {n}.", input.name, input.cutting);
    for edge in &input.seam {
        alt += &format!(" Edge: {}", edge.name);
        if let Some(m) = &edge.measure {
            alt += &format!(", {} long on the seam line", read(m));
        }
        match &edge.allowance {
            Some(a) => alt += &format!(", seam allowance {}.", read(a)),
            None => alt.push('.'),
        }
    }
    for m in &input.measures {
        alt += &format!(" A distance of {} is marked.", read(&m.text));
    }
    for name in input.inner.iter().filter_map(|i| i.name.as_ref()) {
        alt += &format!(" Within the piece a line is marked: {name}.");
    }
    if !input.notches.is_empty() {
        alt += &format!(" It has {}.", super::super::words::many(input.notches.len(), "notch", "notches"));
    }
    if input.fold.is_some() {
        alt += " One edge lies on the fold of the cloth.";
    }
    if let Some((a, b)) = input.grain {
        let d = b - a;
        alt += if d.y.abs() > d.x.abs() * 2.0 {
            " The straight grain runs up and down."
        } else if d.x.abs() > d.y.abs() * 2.0 {
            " The straight grain runs from side to side."
        } else {
            " The straight grain runs on the slant."
        };
    }
    let allowances: Vec<String> =
        input.seam.iter().filter_map(|e| e.allowance.as_ref()).map(|p| p.typeset(look.systems)).collect();
    let same = allowances.windows(2).all(|w| w[0] == w[1]);
    let allowance = match allowances.first() {
        Some(one) if same => format!(" The thin line is the seam line, {one} inside the cut edge."),
        Some(_) => " The thin line is the seam line.".to_string(),
        None => String::new(),
    };
    Words { caption: format!("{}: {}.{allowance}", input.name, input.cutting), alt }
}
