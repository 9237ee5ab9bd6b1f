//! The checker for a whole cloth: sections by [`verify`], then what the garment asks for, read afresh from the
//! pieces.

use super::result::{ClothLayout, Laid, Section};
use super::{ClothSpec, Cut, Grain, Piece, SectionKind};
use crate::lay::geom::Point;
use crate::lay::verify::{Flaw, verify};
use serde::{Deserialize, Serialize};
use std::fmt;

/// Something wrong with the layout of a cloth.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub enum ClothFlaw {
    /// In a section, as the checker of strips says it.
    Strip {
        /// Index of the section.
        section: usize,
        /// What is wrong.
        flaw: Flaw,
    },
    /// A copy cut other than once.
    Count {
        /// Name of the piece.
        piece: String,
        /// Which copy.
        copy: usize,
        /// How many times.
        times: usize,
    },
    /// A piece off its grain, or against the direction of one-way cloth.
    Grain {
        /// Name of the piece.
        piece: String,
        /// Its turn on the cloth, degrees.
        degrees: i32,
    },
    /// A piece that would come out as its own mirror image.
    WrongSide {
        /// Name of the piece.
        piece: String,
    },
    /// A fold edge off the fold, or a fold where there is none.
    OffFold {
        /// Name of the piece.
        piece: String,
        /// How far, mm.
        by: f64,
    },
    /// A piece over the line where the two selvages meet, so that its upper copy would be in two.
    OverSelvages {
        /// Name of the piece.
        piece: String,
        /// How far, mm.
        by: f64,
    },
    /// An outline that is not that of the piece in its pose.
    Outline {
        /// Name of the piece.
        piece: String,
    },
    /// Lengths that do not add up.
    Length {
        /// Length stated, mm.
        stated: f64,
        /// Length reckoned, mm.
        reckoned: f64,
    },
}

impl fmt::Display for ClothFlaw {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Strip { section, flaw } => write!(f, "section {section}: {flaw}"),
            Self::Count { piece, copy, times } => write!(f, "{piece} copy {copy} is cut {times} times"),
            Self::Grain { piece, degrees } => write!(f, "{piece} lies {degrees} degrees off the grain"),
            Self::WrongSide { piece } => write!(f, "{piece} comes out mirrored"),
            Self::OffFold { piece, by } => write!(f, "{piece} is {by:.6} mm off the fold"),
            Self::OverSelvages { piece, by } => write!(f, "{piece} reaches {by:.6} mm over where the selvages meet"),
            Self::Outline { piece } => write!(f, "{piece} is laid with another outline"),
            Self::Length { stated, reckoned } => write!(f, "{stated} mm stated and {reckoned} mm reckoned"),
        }
    }
}

/// Everything wrong with the layout of a cloth; nothing if it may ship.
#[must_use]
pub fn check_layout(spec: &ClothSpec, pieces: &[Piece], layout: &ClothLayout) -> Vec<ClothFlaw> {
    let mut flaws = Vec::new();
    let mut times: Vec<Vec<usize>> = pieces.iter().map(|p| vec![0; wanted(p.cut)]).collect();
    let mut bought = 0.0;
    for (index, section) in layout.sections.iter().enumerate() {
        flaws.extend(
            verify(&section.problem, &section.layout).into_iter().map(|flaw| ClothFlaw::Strip { section: index, flaw }),
        );
        let (width, lengths) = match section.kind {
            SectionKind::Open => (spec.width, 1.0),
            SectionKind::CrosswiseFold => (spec.width, 2.0),
            SectionKind::LengthwiseFold | SectionKind::GateFold => (spec.width / 2.0, 1.0),
        };
        bought += lengths * section.length;
        if (section.problem.width - width).abs() > 1e-9 || (section.layout.length - section.length).abs() > 1e-9 {
            flaws.push(ClothFlaw::Length { stated: section.problem.width, reckoned: width });
        }
        for laid in &section.laid {
            let Some(piece) = pieces.get(laid.piece) else { continue };
            for copy in &laid.copies {
                match times[laid.piece].get_mut(*copy) {
                    Some(count) => *count += 1,
                    None => flaws.push(ClothFlaw::Count { piece: piece.name.clone(), copy: *copy, times: 1 }),
                }
            }
            flaws.extend(check_laid(spec, piece, laid, section));
        }
    }
    for (piece, counts) in pieces.iter().zip(&times) {
        for (copy, count) in counts.iter().enumerate().filter(|(_, c)| **c != 1) {
            flaws.push(ClothFlaw::Count { piece: piece.name.clone(), copy, times: *count });
        }
        flaws.extend(check_hands(spec, pieces, piece, layout));
    }
    if (bought - layout.bought).abs() > 1e-6 {
        flaws.push(ClothFlaw::Length { stated: layout.bought, reckoned: bought });
    }
    flaws
}

fn wanted(cut: Cut) -> usize {
    match cut {
        Cut::Same { copies } | Cut::OnFold { copies, .. } => copies,
        Cut::Pairs { pairs } => pairs + pairs,
    }
}

fn check_laid(spec: &ClothSpec, piece: &Piece, laid: &Laid, section: &Section) -> Vec<ClothFlaw> {
    let mut flaws = Vec::new();
    let name = || piece.name.clone();
    let degrees = laid.pose.degrees();
    let allowed = match piece.grain {
        Grain::With => degrees == 0,
        Grain::Straight => degrees == 0 || (degrees == 180 && !spec.one_way),
        Grain::Cross => degrees == 90 || (degrees == 270 && !spec.one_way),
        Grain::Bias if spec.one_way => degrees == 45 || degrees == 315,
        Grain::Bias => degrees % 90 == 45,
        Grain::Any => degrees == 0 || (degrees % 90 == 0 && !spec.one_way),
    };
    if !allowed && piece.border_edge.is_none() {
        flaws.push(ClothFlaw::Grain { piece: name(), degrees });
    }
    let layers = if section.kind == SectionKind::Open || laid.on_fold { 1 } else { 2 };
    if laid.copies.len() != layers || (laid.on_fold && section.kind == SectionKind::Open) {
        flaws.push(ClothFlaw::OffFold { piece: name(), by: f64::INFINITY });
    }
    flaws.extend(check_fold(spec, piece, laid, section));
    if !same_outline(piece, laid, section) {
        flaws.push(ClothFlaw::Outline { piece: name() });
    }
    flaws
}

/// Distance of a place across a fold from each fold of a section, mm, beginning with the one at 0.
fn from_folds(section: &Section, p: Point) -> Vec<f64> {
    match section.kind {
        SectionKind::Open => Vec::new(),
        SectionKind::LengthwiseFold => vec![p[1]],
        SectionKind::CrosswiseFold => vec![p[0]],
        SectionKind::GateFold => vec![p[1], section.width - p[1]],
    }
}

/// On a fold with the whole fold edge, or clear of every fold; on one flap where there are two.
fn check_fold(spec: &ClothSpec, piece: &Piece, laid: &Laid, section: &Section) -> Vec<ClothFlaw> {
    let mut flaws = Vec::new();
    let name = || piece.name.clone();
    let corners: Vec<Vec<f64>> = laid.outline.iter().map(|p| from_folds(section, *p)).collect();
    let folds = corners.first().map_or(0, Vec::len);
    let least = |fold: usize| corners.iter().map(|c| c[fold]).fold(f64::INFINITY, f64::min);
    if laid.on_fold && folds > 0 {
        let ends: Vec<Vec<f64>> = match piece.cut {
            Cut::OnFold { edge, .. } => [edge, edge + 1]
                .iter()
                .filter_map(|i| piece.outline.get(i % piece.outline.len()))
                .map(|p| from_folds(section, laid.map(*p)))
                .collect(),
            _ => Vec::new(),
        };
        let off = |fold: usize| ends.iter().map(|e| e[fold].abs()).fold(least(fold).abs(), f64::max);
        let fold = (0..folds).min_by(|a, b| off(*a).total_cmp(&off(*b))).unwrap_or(0);
        if off(fold) > 0.01 + 1e-6 || least(fold).abs() > 1e-6 {
            flaws.push(ClothFlaw::OffFold { piece: name(), by: off(fold) });
        }
    } else {
        let nearest = (0..folds).map(least).fold(f64::INFINITY, f64::min);
        if nearest < spec.gap.max(spec.fold_clearance) - 1e-6 {
            flaws.push(ClothFlaw::OffFold { piece: name(), by: nearest });
        }
    }
    if section.kind == SectionKind::GateFold {
        let ys = || laid.outline.iter().map(|p| p[1] - section.width / 2.0);
        let over = ys().fold(f64::INFINITY, f64::min).abs().min(ys().fold(f64::NEG_INFINITY, f64::max).abs());
        if ys().any(|y| y > 1e-6) && ys().any(|y| y < -1e-6) {
            flaws.push(ClothFlaw::OverSelvages { piece: name(), by: over });
        }
    }
    flaws
}

/// Whether the outline laid is that of the piece: corner for corner, or as a block with its margin on every side
/// but the fold, or, for the half of an odd symmetric piece, half as high.
fn same_outline(piece: &Piece, laid: &Laid, section: &Section) -> bool {
    let mapped: Vec<Point> = piece.outline.iter().map(|p| laid.map(*p)).collect();
    let extent = |points: &[Point], axis: usize| {
        let values = || points.iter().map(|p| p[axis]);
        (values().fold(f64::INFINITY, f64::min), values().fold(f64::NEG_INFINITY, f64::max))
    };
    let odd_half = laid.on_fold && !matches!(piece.cut, Cut::OnFold { .. });
    if piece.block_margin.is_none() && !odd_half {
        let count = laid.outline.len();
        let right = if laid.opened_out { count >= piece.outline.len() } else { count == piece.outline.len() };
        let corner = |p: &Point| laid.outline.iter().any(|q| (p[0] - q[0]).abs() + (p[1] - q[1]).abs() < 1e-6);
        return right && mapped.iter().all(corner);
    }
    let margin = piece.block_margin.unwrap_or(0.0);
    // A block turned by 45 degrees keeps its margin along the diagonals; there only its size is looked at.
    let kept = if laid.pose.degrees() % 90 == 0 { margin } else { 0.0 };
    (0..2).all(|axis| {
        let (outer, inner) = (extent(&laid.outline, axis), extent(&mapped, axis));
        let on =
            |kinds: &[SectionKind], level: f64| laid.on_fold && kinds.contains(&section.kind) && level.abs() <= 1e-6;
        let along = usize::from(section.kind != SectionKind::CrosswiseFold);
        let low_folds = [SectionKind::LengthwiseFold, SectionKind::CrosswiseFold, SectionKind::GateFold];
        let low = (axis == along && on(&low_folds, outer.0)) || outer.0 <= inner.0 - kept + 1e-6;
        let high_fold = axis == 1 && on(&[SectionKind::GateFold], section.width - outer.1);
        low && (high_fold || outer.1 >= inner.1 + kept - 1e-6)
    })
}

/// On open cloth a pair has one of each hand and same-way pieces are all face up.
fn check_hands(spec: &ClothSpec, pieces: &[Piece], piece: &Piece, layout: &ClothLayout) -> Option<ClothFlaw> {
    if spec.either_side || super::outline::is_symmetric(&piece.outline) {
        return None;
    }
    let open = layout.sections.iter().filter(|s| s.kind == SectionKind::Open).flat_map(|s| &s.laid);
    let of_piece = open.filter(|l| std::ptr::eq(&raw const pieces[l.piece], piece));
    let (mut up, mut down) = (0usize, 0usize);
    for laid in of_piece {
        if laid.pose.over { down += 1 } else { up += 1 }
    }
    let wrong = match piece.cut {
        Cut::Same { .. } => down > 0,
        Cut::Pairs { .. } => up != down,
        Cut::OnFold { .. } => false,
    };
    wrong.then(|| ClothFlaw::WrongSide { piece: piece.name.clone() })
}
