//! Figures of the drafted pieces.

use kurbo::{Affine, BezPath, Point, Vec2};

use crate::draft::{Edge, Finish, MarkKind, Piece};
use crate::draw::{
    self, Basting, Block, EdgePath, FlatPiece, InnerKind, InnerLine, Look, Match, Matched, MatchedPiece, Measure,
    Notch, PieceMeasure, PipedCurve, Together,
};
use crate::fault::{Code, Fault, did_you_mean};
use crate::units::{Length, Printed, Show, print};

use super::kinds::drawn;
use super::params::Params;

/// The paper a piece may take beside the words, mm.
const BESIDE: (f64, f64) = (62.0, 70.0);
/// The same where measures stand beside it too, mm.
const MEASURED: (f64, f64) = (46.0, 60.0);
/// The paper a piece may take on its card, mm.
const CARD: (f64, f64) = (34.0, 32.0);

fn printed(length: Length) -> Printed {
    print(length.into(), Show::LENGTH)
}

fn words(name: &str) -> String {
    name.replace('_', " ")
}

/// An edge in a sentence: a plain side of a rectangle is called an edge.
fn edge_words(name: &str) -> String {
    if ["top", "bottom", "left", "right"].contains(&name) { format!("{name} edge") } else { words(name) }
}

pub(super) fn flat(p: &Params<'_>, look: &Look) -> Result<draw::Figure, Fault> {
    let piece = p.piece("piece")?;
    let card = p.flag("card");
    let edges = piece.edges.iter().map(|edge| EdgePath {
        name: words(&edge.name),
        path: edge.path.bez().clone(),
        measure: (!card).then(|| printed(edge.length)),
        allowance: (edge.allowance.to_mm() > 0.0).then(|| printed(edge.allowance)),
    });
    let inner = piece
        .marks
        .iter()
        .filter(|mark| !matches!(mark.kind, MarkKind::Row | MarkKind::Guide))
        .map(|mark| InnerLine {
            path: mark.path.bez().clone(),
            kind: match mark.kind {
                MarkKind::Fold => InnerKind::Fold,
                MarkKind::Channel => InnerKind::Channel(mark.width.map_or(10.0, Length::to_mm)),
                MarkKind::Stitch => InnerKind::Stitch,
                _ => InnerKind::Mark,
            },
            name: (!card).then(|| mark.title.clone()),
        })
        .collect();
    let input = FlatPiece {
        name: piece.title.clone(),
        seam: edges.collect(),
        cut: piece.cut.closed_bez(),
        grain: Some((piece.grain.0.0, piece.grain.1.0)),
        notches: piece.notches.iter().map(notch).collect(),
        inner,
        fold: piece.edges.iter().find(|edge| edge.finish == Some(Finish::Fold)).map(|edge| edge.path.bez().clone()),
        measures: if card || p.flag("measures") { measures(piece) } else { Vec::new() },
        wrong_side: p.flag("wrong_side"),
        cutting: cutting(p, piece),
        room: if card {
            CARD
        } else if p.flag("measures") {
            MEASURED
        } else {
            BESIDE
        },
    };
    drawn(p, if card { draw::piece_card(&input, look) } else { draw::flat_piece(&input, look) })
}

fn notch(notch: &crate::draft::Notch) -> Notch {
    Notch { at: notch.at.0, out: notch.out.0.to_vec2(), count: if notch.double { 2 } else { 1 } }
}

fn cutting(p: &Params<'_>, piece: &Piece) -> String {
    let cuts = piece.cuts.iter().map(|cut| {
        let title = p.garment.cloth(&cut.cloth).map_or(cut.cloth.as_str(), |cloth| cloth.title.as_str());
        format!("{} of {title}", cut.words())
    });
    format!("cut {}", cuts.collect::<Vec<_>>().join(", "))
}

/// The cut width and height.
fn measures(piece: &Piece) -> Vec<PieceMeasure> {
    let (min, max) = (piece.cut_extent.min.0, piece.cut_extent.max.0);
    vec![
        PieceMeasure { from: Point::new(min.x, max.y), to: max, text: printed(piece.cut_extent.width()) },
        PieceMeasure { from: Point::new(max.x, min.y), to: max, text: printed(piece.cut_extent.height()) },
    ]
}

pub(super) fn edge<'a>(p: &Params<'_>, piece: &'a Piece, key: &str, name: &str) -> Result<&'a Edge, Fault> {
    piece.edge(name).ok_or_else(|| {
        let message = format!("`{}` has no edge `{name}`", piece.name);
        Fault::new(Code::Figure, p.route.key(key), message).help(did_you_mean(name, &piece.edge_names()))
    })
}

pub(super) fn together(p: &Params<'_>, look: &Look) -> Result<draw::Figure, Fault> {
    let over = p.piece("over")?;
    let under = p.piece("under")?;
    let over_edge = edge(p, over, "over_edge", p.need("over_edge", "the edge of the upper piece")?)?;
    let under_edge = edge(p, under, "under_edge", p.need("under_edge", "the edge of the lower piece")?)?;
    // The under piece is turned over and laid so that its edge lies on the other.
    let flipped = Affine::FLIP_X;
    let (a, b) = (over_edge.as_written(), under_edge.as_written());
    let (from, to) = (flipped * b.start(), flipped * b.end());
    let turn = (a.end() - a.start()).angle() - (to - from).angle();
    let place =
        Affine::translate(a.start().to_vec2()) * Affine::rotate(turn) * Affine::translate(-from.to_vec2()) * flipped;
    let seam: BezPath = over_edge.path.bez().clone();
    let input = Together {
        over: over.title.clone(),
        under: under.title.clone(),
        over_cut: over.cut.closed_bez(),
        under_cut: place * under.cut.closed_bez(),
        seams: vec![(edge_words(&over_edge.name), seam)],
        allowance: Measure::new(over_edge.allowance, Show::LENGTH),
        notches: over.notches.iter().filter(|notch| notch.edge == over_edge.name).map(notch).collect(),
        grain: grain(over),
        wrong_sides: p.flag("wrong_sides"),
        room: (56.0, 60.0),
    };
    drawn(p, draw::together(&input, look))
}

/// Pieces side by side with all seams between them.
pub(super) fn matched(p: &Params<'_>, look: &Look) -> Result<draw::Figure, Fault> {
    let pieces = p.pieces("pieces", "a list of pieces that are sewn together")?;
    let place = |name: &str| -> Option<(usize, usize)> {
        let (piece, edge) = name.split_once('.')?;
        let at = pieces.iter().position(|other| other.name == piece)?;
        Some((at, pieces.get(at)?.edges.iter().position(|other| other.name == edge)?))
    };
    let mut seams = Vec::new();
    for join in &p.garment.shape.joins {
        for (sew, to) in join.sew.iter().zip(&join.to) {
            let (Some(a), Some(b)) = (place(&sew.0.edge), place(&to.0.edge)) else { continue };
            let length = |(piece, edge): (usize, usize)| {
                let edge = pieces.get(piece).and_then(|piece| piece.edges.get(edge));
                Measure::new(edge.map_or(Length::ZERO, |edge| edge.length), Show::LENGTH)
            };
            let name =
                join.title.clone().unwrap_or_else(|| edge_words(sew.0.edge.split('.').next_back().unwrap_or("")));
            seams.push(Match { name, sides: [a, b], lengths: [length(a), length(b)] });
        }
    }
    if seams.is_empty() {
        let message = "none of these pieces is sewn to another of them";
        return Err(
            Fault::new(Code::Figure, p.route.key("pieces"), message).help("name pieces that share a seam in `joins`")
        );
    }
    let input = Matched {
        pieces: pieces
            .iter()
            .map(|piece| MatchedPiece {
                name: piece.title.clone(),
                cut: piece.cut.closed_bez(),
                edges: piece.edges.iter().map(|edge| edge.path.bez().clone()).collect(),
                notches: piece.notches.iter().map(notch).collect(),
                grain: grain(piece),
            })
            .collect(),
        seams,
        room: (if pieces.len() > 2 { 150.0 } else { 84.0 }, 80.0),
    };
    drawn(p, draw::matched(&input, look))
}

fn grain(piece: &Piece) -> Vec2 {
    let along = piece.grain.1.0 - piece.grain.0.0;
    if along.hypot() > 0.0 { along.normalize() } else { Vec2::new(0.0, 1.0) }
}

pub(super) fn basting(p: &Params<'_>, look: &Look) -> Result<draw::Figure, Fault> {
    let piece = p.piece("piece")?;
    let input = Basting {
        name: piece.title.clone(),
        cut: piece.cut.closed_bez(),
        gap: p.measure("gap", "the distance between rows of basting")?,
        under: p.need("under", "what the layer beneath is, in words")?.to_string(),
        room: BESIDE,
    };
    drawn(p, draw::basting(&input, look))
}

pub(super) fn block(p: &Params<'_>, look: &Look) -> Result<draw::Figure, Fault> {
    let piece = p.piece("piece")?;
    let margin = p.measure("margin", "the margin all round")?;
    let input = Block {
        name: piece.title.clone(),
        cut: piece.cut.closed_bez(),
        width: Measure::new(piece.cut_extent.width() + margin.length * 2.0, Show::LENGTH),
        height: Measure::new(piece.cut_extent.height() + margin.length * 2.0, Show::LENGTH),
        margin,
        why: p.text("why").unwrap_or("trimmed afterwards").to_string(),
        room: BESIDE,
    };
    drawn(p, draw::block(&input, look))
}

pub(super) fn piping_clipped(p: &Params<'_>, look: &Look) -> Result<draw::Figure, Fault> {
    let piece = p.piece("piece")?;
    let edge = edge(p, piece, "edge", p.need("edge", "an edge of the piece")?)?;
    let input = PipedCurve {
        name: format!("{}, {}", piece.title, words(&edge.name)),
        seam: edge.path.bez().clone(),
        allowance: p.measure("allowance", "the allowance of the seam")?,
        clips: p.measure("clips", "how far apart the clips are")?,
        room: BESIDE,
    };
    drawn(p, draw::piping_clipped(&input, look))
}
