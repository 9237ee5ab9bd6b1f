//! Pieces laid out side by side, the edges that are sewn together under one letter.

use kurbo::{Affine, BezPath, Point, Shape, Vec2};

use super::super::figure::{Anchor, Drawn, KeyEntry, LabelStyle, Measure, Scale, Undrawable};
use super::super::geom::{along, length, pt, right_of};
use super::super::hand::{DOWN, Up};
use super::super::look::Look;
use super::super::pen::Pen;
use super::super::scene::{Scene, Words};
use super::super::words::{capital, counted, many, scale_for};
use super::piece::{Notch, draw_notch, outline_box};

/// A piece among others.
#[derive(Debug, Clone, PartialEq)]
pub struct MatchedPiece {
    /// Its name.
    pub name: String,
    /// Its cut line, closed, mm.
    pub cut: BezPath,
    /// Its seam line edge by edge.
    pub edges: Vec<BezPath>,
    /// Its notches.
    pub notches: Vec<Notch>,
    /// Its grain.
    pub grain: Vec2,
}

/// A seam between two of them.
#[derive(Debug, Clone, PartialEq)]
pub struct Match {
    /// What the seam is called.
    pub name: String,
    /// Piece and edge on either side, by their places in the lists.
    pub sides: [(usize, usize); 2],
    /// Its length on either side.
    pub lengths: [Measure; 2],
}

/// Pieces and the seams between them.
#[derive(Debug, Clone, PartialEq)]
pub struct Matched {
    /// The pieces, from left to right.
    pub pieces: Vec<MatchedPiece>,
    /// The seams, in the order they are sewn.
    pub seams: Vec<Match>,
    /// Paper they may take, mm.
    pub room: (f64, f64),
}

/// Room between two pieces, mm on paper.
const BETWEEN: f64 = 15.0;

/// The pieces, right side up and to one scale, with a letter at each edge: like letters are sewn together.
///
/// # Errors
/// Where there are no pieces or more than eight, no seams or more than twenty, or an outline encloses nothing.
pub fn matched(input: &Matched, look: &Look) -> Drawn {
    counted("pieces", input.pieces.len(), 1, 8)?;
    counted("seams", input.seams.len(), 1, 20)?;
    let boxes = input.pieces.iter().map(|p| outline_box(&p.cut, "a cut line")).collect::<Result<Vec<_>, _>>()?;
    let wide: f64 = boxes.iter().map(kurbo::Rect::width).sum();
    let high = boxes.iter().map(kurbo::Rect::height).fold(0.0, f64::max);
    let gaps = BETWEEN * f64::from(u32::try_from(boxes.len() - 1).unwrap_or(0));
    let n = scale_for(wide, high, ((input.room.0 - gaps).max(20.0), input.room.1));
    let mut s = Scene::new(look);
    s.uses(KeyEntry::SeamLine);
    let mut x = 0.0;
    let mut places = Vec::new();
    for (piece, area) in input.pieces.iter().zip(&boxes) {
        let to = Affine::translate((x - area.x0 / n, -area.y1 / n)) * Affine::scale(1.0 / n);
        let cut = to * piece.cut.clone();
        s.cut_cloth(cut, Up::Right, if piece.grain.hypot() > 0.0 { piece.grain } else { DOWN });
        for edge in &piece.edges {
            s.stroke(to * edge.clone(), Pen::SEAM);
        }
        for notch in &piece.notches {
            draw_notch(&mut s, to * notch.at, notch.out, notch.count, n);
        }
        s.text(pt(x + area.width() / n / 2.0, 6.0), Anchor::Middle, LabelStyle::Strong, piece.name.clone());
        places.push(to);
        x += area.width() / n + BETWEEN;
    }
    for (i, seam) in input.seams.iter().enumerate() {
        let letter = char::from(b'A' + u8::try_from(i.min(25)).unwrap_or(25)).to_string();
        for (k, (piece, edge)) in seam.sides.iter().enumerate() {
            let found = input
                .pieces
                .get(*piece)
                .zip(places.get(*piece))
                .and_then(|(p, to)| Some((p, *to * p.edges.get(*edge)?.clone(), *to)));
            let Some((piece, path, to)) = found else {
                return Err(Undrawable("expected a seam between edges that are drawn".into()));
            };
            s.stroke(path.clone(), Pen { width: 0.5, ..Pen::SEAM });
            s.named(path.clone(), Pen { width: 0.5, ..Pen::SEAM }, format!("{letter}{}", k + 1));
            // A piece sewn to another like it has the letter once.
            if k == 1 && seam.sides[0] == seam.sides[1] {
                continue;
            }
            let at = outside(&(to * piece.cut.clone()), &path);
            s.callout(&letter, at, if k == 0 { seam.name.clone() } else { String::new() });
        }
    }
    let names: Vec<&str> = input.pieces.iter().map(|p| p.name.as_str()).collect();
    let caption = "Like letters are sewn together, right sides facing. The thin line is the seam line.".to_string();
    let listed: Vec<String> = input
        .seams
        .iter()
        .map(|seam| {
            let [a, b] = &seam.lengths;
            let side = |k: usize| seam.sides.get(k).and_then(|(p, _)| names.get(*p)).copied().unwrap_or("");
            format!("{}: {} on {}, {} on {}", seam.name, look.say(a), side(0), look.say(b), side(1))
        })
        .collect();
    let alt = format!(
        "{} laid side by side, right side up, to one scale: {}. {} between them, lengths on the seam line. {}.",
        capital(&many(names.len(), "piece", "pieces")),
        names.join(", "),
        capital(&many(input.seams.len(), "seam is marked", "seams are marked")),
        listed.join(". ")
    );
    s.finish(Words { caption, alt }, Scale::OneTo(n))
}

/// A place for a ring just outside the cut line, at the middle of an edge.
fn outside(cut: &BezPath, edge: &BezPath) -> Point {
    let (p, d) = along(edge, length(edge) / 2.0);
    let n = right_of(d);
    let step = |by: f64| p + n * by;
    let clear = |q: Point| cut.winding(q) == 0 && distance(cut, q) > 2.9;
    for by in 3..14 {
        for sign in [1.0, -1.0] {
            let q = step(f64::from(by) * sign);
            if clear(q) {
                return q;
            }
        }
    }
    step(4.0)
}

fn distance(path: &BezPath, q: Point) -> f64 {
    use kurbo::ParamCurveNearest;
    path.segments().map(|s| s.nearest(q, 0.01).distance_sq).fold(f64::INFINITY, f64::min).sqrt()
}
