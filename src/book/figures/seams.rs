//! Seams as figures need them: which edges are sewn together, and edges joined into one line.

use kurbo::{Affine, BezPath, PathEl};

use crate::draft::{Edge, Path, Piece};
use crate::fault::{Code, Fault, did_you_mean};
use crate::shape::{EdgeUseShape, JoinShape};

use super::params::Params;

/// The seam line of a piece, closed.
pub(super) fn outline(piece: &Piece) -> BezPath {
    Path::of(piece.edges.iter().flat_map(|edge| edge.path.segs())).closed_bez()
}

/// The edges of two pieces that are sewn together: of the one, of the other.
pub(super) fn joined<'a>(p: &Params<'_>, one: &'a Piece, two: &'a Piece) -> Vec<(&'a Edge, &'a Edge)> {
    fn named<'a>(uses: &[EdgeUseShape], piece: &'a Piece) -> Vec<&'a Edge> {
        uses.iter()
            .filter_map(|one| one.0.edge.split_once('.'))
            .filter(|(name, _)| *name == piece.name)
            .filter_map(|(_, edge)| piece.edge(edge))
            .collect()
    }
    let mut out = Vec::new();
    for join in &p.garment.shape.joins {
        for (sew, to) in [(&join.sew, &join.to), (&join.to, &join.sew)] {
            let (own, other) = (named(sew, one), named(to, two));
            if one.name == two.name && own.iter().any(|a| other.iter().any(|b| a.name == b.name)) {
                continue;
            }
            if let (Some(a), Some(b)) = (own.first(), other.first()) {
                out.push((*a, *b));
            }
        }
    }
    out
}

/// A seam of the garment by its title.
pub(super) fn join<'a>(p: &Params<'a>) -> Result<&'a JoinShape, Fault> {
    let title = p.need("join", "the title of a seam in `joins`")?;
    let known: Vec<&str> = p.garment.shape.joins.iter().filter_map(|join| join.title.as_deref()).collect();
    p.garment.shape.joins.iter().find(|join| join.title.as_deref() == Some(title)).ok_or_else(|| {
        Fault::new(Code::Figure, p.route.key("join"), format!("no seam in `joins` has the title `{title}`"))
            .help(did_you_mean(title, &known))
    })
}

/// One side of a seam as one line, edges end to end, laid so that its ends are level, its start at the
/// left, and the greater part of it above them or below.
pub(super) struct Chain {
    /// The line, mm.
    pub(super) path: BezPath,
    /// What lies at its start: the seam of its first piece that ends there.
    pub(super) start: String,
    /// What lies at its end.
    pub(super) end: String,
    /// Notches: distance along the line, whether double, name.
    pub(super) notches: Vec<(f64, bool, Option<String>)>,
    /// Its length, mm.
    pub(super) length: f64,
}

/// Joins the edges of one side of a seam.
pub(super) fn chain(p: &Params<'_>, uses: &[EdgeUseShape], above: bool) -> Result<Chain, Fault> {
    let mut out =
        Chain { path: BezPath::new(), start: String::new(), end: String::new(), notches: Vec::new(), length: 0.0 };
    let mut end: Option<kurbo::Point> = None;
    for one in uses {
        let (piece_name, edge_name) = one.0.edge.split_once('.').unwrap_or((&one.0.edge, ""));
        let piece = p.piece_named("join", piece_name)?;
        let edge = super::pieces::edge(p, piece, "join", edge_name)?;
        let path = if one.0.turned.0 { edge.as_written().reversed() } else { edge.as_written() };
        // Laid side by side as they are sewn, each on its grain; one that would run back is turned over.
        let turn = if path.end().x < path.start().x { Affine::FLIP_X } else { Affine::IDENTITY };
        let own = turn * path.bez().clone();
        let from = turn * path.start();
        let at = end.unwrap_or(from);
        let laid = Affine::translate(at - from) * own;
        end = Some(at + (turn * path.end() - from));
        for el in laid.elements() {
            match el {
                PathEl::MoveTo(_) if !out.path.is_empty() => {}
                el => out.path.push(*el),
            }
        }
        for notch in piece.notches.iter().filter(|notch| notch.edge == edge.name) {
            let along = notch.along.to_mm();
            let along = if one.0.turned.0 { edge.length.to_mm() - along } else { along };
            out.notches.push((out.length + along, notch.double, notch.name.clone()));
        }
        let (first, last) = (neighbour(piece, edge, path.start()), neighbour(piece, edge, path.end()));
        if out.start.is_empty() {
            out.start = first;
        }
        out.end = last;
        out.length += edge.length.to_mm();
    }
    out.notches.sort_by(|a, b| a.0.total_cmp(&b.0));
    level(&mut out.path, above);
    Ok(out)
}

/// The edge beside another at one of its ends, in words: `shoulder seam`.
fn neighbour(piece: &Piece, edge: &Edge, at: kurbo::Point) -> String {
    let near = |q: kurbo::Point| (q - at).hypot() < 0.1;
    let beside = piece
        .edges
        .iter()
        .find(|other| other.name != edge.name && (near(other.path.start()) || near(other.path.end())));
    match beside.map(|edge| edge.name.replace('_', " ")) {
        Some(name) if name.contains("seam") || name.contains("edge") => name,
        Some(name) => format!("{name} seam"),
        None => "end".to_string(),
    }
}

/// Ends level, start at the left, the greater part above or below.
fn level(path: &mut BezPath, above: bool) {
    use kurbo::Shape;
    let ends = (path.elements().first(), path.elements().last());
    let (Some(PathEl::MoveTo(a)), Some(last)) = ends else { return };
    let Some(b) = last.end_point() else { return };
    let chord = b - *a;
    *path = Affine::rotate(-chord.atan2()) * Affine::translate(-a.to_vec2()) * path.clone();
    let area = path.bounding_box();
    let is_above = area.y0.abs() > area.y1.abs();
    if is_above != above {
        *path = Affine::FLIP_Y * path.clone();
    }
}
