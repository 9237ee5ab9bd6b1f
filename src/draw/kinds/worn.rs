//! Flat pieces wrapped round the body: where each place of a pattern lies when the garment is worn.
//!
//! At each height the widths of the pieces, darts closed, add up to half the girth there. The body is taken as round, a
//! little broader than deep, so a place that lies `s` along the girth from the middle is seen at
//! `breadth x r x sin(s / r)`. Above the underarm the radius stays that of the chest, below the side waist that of the
//! waist. Heights are those of the flat pieces.

use std::f64::consts::{FRAC_PI_2, TAU};

use kurbo::{Affine, BezPath, Point, Shape};

use super::super::figure::Undrawable;
use super::super::geom::{pt, spread};

/// Round waist to half its width seen from in front: a body is about one eighth wider than a cylinder of its girth
/// (common practice, no source).
pub(crate) const BREADTH: f64 = 1.12;
/// Points along an edge, mm of the garment.
const GRAIN: f64 = 3.0;

/// What an edge of a piece is on the body.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WornEdge {
    /// The seam to the piece before, or the middle of the body at the first piece.
    Before,
    /// The seam to the piece after, or the middle of the other side at the last piece.
    After,
    /// The shoulder seam.
    Shoulder,
    /// The lower edge, which meets the skirt.
    Lower,
    /// An edge sewn to a sleeve.
    Armhole,
    /// Any other: the neck, a free edge.
    Free,
}

/// A flat piece of half a bodice, as it is to be worn.
#[derive(Debug, Clone, PartialEq)]
pub struct WornPiece {
    /// Its edges on their seam lines, in order round the piece, mm, y down.
    pub edges: Vec<(BezPath, WornEdge)>,
    /// Its darts: the two lines that are stitched on each other.
    pub darts: Vec<(BezPath, BezPath)>,
}

/// An upright line as points from top to bottom; places beyond its ends count as the ends.
struct Upright(Vec<Point>);

impl Upright {
    fn of(path: &BezPath) -> Option<Upright> {
        let mut points = spread(path, GRAIN);
        let (first, last) = (*points.first()?, *points.last()?);
        if first.y > last.y {
            points.reverse();
        }
        ((last.y - first.y).abs() > 1.0).then_some(Upright(points))
    }

    fn ends(&self) -> (f64, f64) {
        (self.0.first().map_or(0.0, |p| p.y), self.0.last().map_or(0.0, |p| p.y))
    }

    fn at(&self, y: f64) -> f64 {
        let crossing = self.0.windows(2).find(|w| (w[0].y <= y) != (w[1].y <= y));
        match crossing {
            Some(w) => w[0].x + (w[1].x - w[0].x) * (y - w[0].y) / (w[1].y - w[0].y),
            None if y <= self.ends().0 => self.0.first().map_or(0.0, |p| p.x),
            None => self.0.last().map_or(0.0, |p| p.x),
        }
    }
}

struct Laid {
    before: Upright,
    after: Upright,
    darts: Vec<(Upright, Upright)>,
    edges: Vec<(Vec<Point>, WornEdge)>,
}

impl Laid {
    /// What darts take between the inner seam and a place.
    fn taken(&self, x: f64, y: f64) -> f64 {
        self.darts
            .iter()
            .map(|(a, b)| {
                if y < a.ends().0.min(b.ends().0) {
                    return 0.0;
                }
                let (one, two) = (a.at(y), b.at(y));
                (x.min(one.max(two)) - one.min(two)).max(0.0)
            })
            .sum()
    }

    fn width(&self, y: f64) -> f64 {
        let x = self.after.at(y);
        (x - self.before.at(y) - self.taken(x, y)).max(0.0)
    }
}

/// Half a bodice wrapped round its wearer.
pub(crate) struct Body {
    pieces: Vec<Laid>,
    /// Half of what the edges stand apart in the middle.
    gap: f64,
    /// Height of the underarm.
    pub(crate) chest: f64,
    /// Height of the waist at the side.
    pub(crate) waist: f64,
}

/// A place on the body.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Place {
    /// Seen from in front, mm; the middle at 0.
    pub(crate) at: Point,
    /// Whether it is on the side turned to us.
    pub(crate) seen: bool,
}

impl Body {
    /// Pieces in order from the middle that is seen; `gap` is how far the edges stand apart there.
    pub(crate) fn new(pieces: &[WornPiece], gap: f64) -> Result<Body, Undrawable> {
        let mut laid: Vec<Laid> = Vec::new();
        for piece in pieces {
            let next = lay(piece, laid.last())?;
            laid.push(next);
        }
        let seams = || laid.iter().flat_map(|piece| [piece.before.ends(), piece.after.ends()]).skip(1);
        let chest = seams().map(|(top, _)| top).fold(f64::NEG_INFINITY, f64::max);
        let waist = seams().map(|(_, low)| low).fold(f64::INFINITY, f64::min);
        let body = Body { pieces: laid, gap: gap / 2.0, chest, waist: waist.max(chest + 1.0) };
        let least = [body.chest, body.waist].map(|y| body.radius(y)).into_iter().fold(f64::INFINITY, f64::min);
        if !least.is_finite() || least < 1.0 {
            return Err(Undrawable("expected pieces that go round a body, but they have no width".into()));
        }
        Ok(body)
    }

    /// Radius of the body at a height.
    pub(crate) fn radius(&self, y: f64) -> f64 {
        let y = y.clamp(self.chest, self.waist);
        2.0 * (self.gap + self.pieces.iter().map(|piece| piece.width(y)).sum::<f64>()) / TAU
    }

    /// Half the breadth at a height, seen from in front.
    pub(crate) fn breadth(&self, y: f64) -> f64 {
        BREADTH * self.radius(y)
    }

    fn place(&self, index: usize, p: Point) -> Place {
        let before: f64 = self.pieces.iter().take(index).map(|piece| piece.width(p.y)).sum();
        let own = self.pieces.get(index).map_or(0.0, |piece| p.x - piece.before.at(p.y) - piece.taken(p.x, p.y));
        let angle = (self.gap + before + own) / self.radius(p.y);
        let seen = angle < FRAC_PI_2;
        Place { at: pt(self.breadth(p.y) * angle.clamp(-FRAC_PI_2, FRAC_PI_2).sin(), p.y), seen }
    }

    /// The edges of each piece as they are worn, in order round the piece.
    pub(crate) fn worn(&self) -> Vec<Vec<(Vec<Place>, WornEdge)>> {
        self.pieces
            .iter()
            .enumerate()
            .map(|(i, piece)| {
                piece
                    .edges
                    .iter()
                    .map(|(points, kind)| (points.iter().map(|p| self.place(i, *p)).collect(), *kind))
                    .collect()
            })
            .collect()
    }

    /// The closed darts of all pieces as they are worn.
    pub(crate) fn darts(&self) -> Vec<Vec<Place>> {
        let lines = self.pieces.iter().enumerate().flat_map(|(i, piece)| piece.darts.iter().map(move |d| (i, d)));
        lines.map(|(i, (leg, _))| leg.0.iter().map(|p| self.place(i, *p)).collect()).collect()
    }
}

/// Turns a piece so that its inner seam is at the left, and moves it up or down until that seam meets the piece before.
fn lay(piece: &WornPiece, before: Option<&Laid>) -> Result<Laid, Undrawable> {
    let missing = |what: &str| Undrawable(format!("expected {what} that runs up and down, but a piece has none"));
    let find = |kind: WornEdge| piece.edges.iter().find(|(_, other)| *other == kind).map(|(path, _)| path);
    let inner = find(WornEdge::Before).ok_or_else(|| missing("an inner seam"))?;
    let outer = find(WornEdge::After).ok_or_else(|| missing("an outer seam"))?;
    if piece.edges.iter().any(|(path, _)| path.is_empty() || !path.is_finite()) {
        return Err(Undrawable("expected edges at finite places".into()));
    }
    let flip = inner.bounding_box().center().x > outer.bounding_box().center().x;
    let turn = if flip { Affine::FLIP_X } else { Affine::IDENTITY };
    let own = Upright::of(&(turn * inner.clone())).ok_or_else(|| missing("an inner seam"))?;
    let lift = before.map_or(0.0, |last| {
        let (a, b) = (last.after.ends(), own.ends());
        f64::midpoint(a.0 - b.0, a.1 - b.1)
    });
    let to = Affine::translate((0.0, lift)) * turn;
    let upright = |path: &BezPath| Upright::of(&(to * path.clone()));
    let darts = piece.darts.iter().filter_map(|(a, b)| upright(a).zip(upright(b))).collect();
    Ok(Laid {
        before: upright(inner).ok_or_else(|| missing("an inner seam"))?,
        after: upright(outer).ok_or_else(|| missing("an outer seam"))?,
        darts,
        edges: piece.edges.iter().map(|(path, kind)| (spread(&(to * path.clone()), GRAIN), *kind)).collect(),
    })
}

#[cfg(test)]
mod tests {
    use super::super::super::geom::line;
    use super::*;

    fn strip(x: f64, wide: f64, y: f64) -> WornPiece {
        let (a, b, c, d) = (pt(x, y), pt(x + wide, y), pt(x + wide, y + 400.0), pt(x, y + 400.0));
        WornPiece {
            edges: vec![
                (line(a, b), WornEdge::Free),
                (line(b, c), WornEdge::After),
                (line(c, d), WornEdge::Lower),
                (line(d, a), WornEdge::Before),
            ],
            darts: vec![],
        }
    }

    /// A tube of straight strips: the closed form of a circle cut into equal arcs.
    #[test]
    fn strips_of_one_width_make_a_tube() {
        let girth = 900.0;
        let pieces: Vec<WornPiece> =
            (0..4).map(|i| strip(f64::from(i) * 300.0, girth / 8.0, 50.0 * f64::from(i))).collect();
        let body = Body::new(&pieces, 0.0).unwrap();
        let r = girth / TAU;
        assert!((body.radius(200.0) - r).abs() < 1e-9);
        for (i, piece) in body.worn().iter().enumerate() {
            let inner = piece.iter().find(|(_, kind)| *kind == WornEdge::Before).unwrap();
            let angle = TAU / 8.0 * f64::from(u32::try_from(i).unwrap());
            for place in &inner.0 {
                assert!((place.at.x - BREADTH * r * angle.min(FRAC_PI_2).sin()).abs() < 1e-6, "{i}: {place:?}");
                assert!((-0.1..=400.1).contains(&place.at.y));
            }
        }
    }

    #[test]
    fn a_dart_takes_its_width() {
        let mut piece = strip(0.0, 225.0, 0.0);
        let (tip, one, two) = (pt(100.0, 200.0), pt(80.0, 400.0), pt(120.0, 400.0));
        piece.darts.push((line(one, tip), line(two, tip)));
        let body = Body::new(&[piece, strip(0.0, 225.0, 0.0)], 0.0).unwrap();
        assert!((body.radius(100.0) - 900.0 / TAU).abs() < 1e-9);
        assert!((body.radius(300.0) - (900.0 - 2.0 * 20.0) / TAU).abs() < 1e-9);
        assert!((body.radius(400.0) - (900.0 - 2.0 * 40.0) / TAU).abs() < 1e-9);
    }
}
