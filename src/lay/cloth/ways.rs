//! The ways a piece may lie on a section of cloth: poses from the grain, each with the places it may have.

use super::places::{border_possible, domains};
use super::{ClothSpec, Grain, Piece, SectionKind};
use crate::lay::geom::{Bounds, Point};
use crate::lay::pose::Pose;
use crate::lay::problem::{Axis, Choice, SLACK};

/// A section of cloth and how wide it lies there, mm.
#[derive(Debug, Clone, Copy)]
pub(super) struct Ground {
    pub kind: SectionKind,
    pub width: f64,
}

impl Ground {
    /// How a cloth of this usable width, mm, lies.
    pub fn of(kind: SectionKind, width: f64) -> Self {
        Self { kind, width: width * kind.share() }
    }
}

/// What of a piece is laid: an outline, its fold edge if it goes on the fold, and the sides that may be up.
pub(super) struct Form<'a> {
    pub outline: &'a [Point],
    pub fold: Option<(Point, Point)>,
    pub border: Option<(Point, Point)>,
    pub over: &'a [bool],
}

/// Turns the grain allows, in eighths.
pub(super) fn turns(grain: Grain, one_way: bool) -> &'static [u8] {
    match (grain, one_way) {
        (Grain::With, _) | (Grain::Straight | Grain::Any, true) => &[0],
        (Grain::Straight, false) => &[0, 4],
        (Grain::Cross, true) => &[2],
        (Grain::Cross, false) => &[2, 6],
        (Grain::Bias, true) => &[1, 7],
        (Grain::Bias, false) => &[1, 3, 5, 7],
        (Grain::Any, false) => &[0, 2, 4, 6],
    }
}

/// All ways to lay a form on the ground; why there is none, in words with numbers.
pub(super) fn ways(spec: &ClothSpec, piece: &Piece, form: &Form, ground: Ground) -> Result<Vec<Choice>, String> {
    let all: &[u8] = &[0, 1, 2, 3, 4, 5, 6, 7];
    let turns = if form.border.is_some() { all } else { turns(piece.grain, spec.one_way) };
    if form.border.is_some() {
        border_possible(spec, piece, ground)?;
    }
    let mut choices = Vec::new();
    let mut why: Option<String> = None;
    let mut least = f64::INFINITY;
    for &over in form.over {
        for &eighths in turns {
            let pose = Pose { over, eighths };
            let outline = pose.outline(form.outline);
            for domain in domains(spec, piece, form, pose, &outline, ground) {
                match domain {
                    Ok(domain) => {
                        let height = Bounds::of(&outline).height();
                        if domain.across.range(height, ground.width).is_some() {
                            choices.push(Choice { pose, outline: outline.clone(), domain });
                        } else if let Axis::Lattice { .. } = domain.across {
                            let needs = height + start(domain.across);
                            why = why.or(Some(format!(
                                "{} must match the repeat across the cloth, and where it does it {}",
                                piece.name,
                                too_wide(needs, ground.kind.words(), ground.width)
                            )));
                        } else {
                            least = least.min(height + start(domain.across));
                        }
                    }
                    Err(reason) => why = why.or(Some(reason)),
                }
            }
        }
    }
    if !choices.is_empty() {
        return Ok(choices);
    }
    if least < f64::INFINITY {
        return Err(format!("{} {}", piece.name, too_wide(least, ground.kind.words(), ground.width)));
    }
    Err(why.unwrap_or_else(|| format!("{} has no way to lie", piece.name)))
}

pub(super) fn too_wide(needs: f64, what: &str, has: f64) -> String {
    let (needs, has) = ((needs - SLACK).ceil(), has.floor());
    format!("needs {needs:.0} mm across and the {what} is {has:.0} mm wide")
}

fn start(axis: Axis) -> f64 {
    match axis {
        Axis::Span { before, after } => before + after,
        Axis::Pinned { at } => at.abs(),
        Axis::Lattice { first, after, .. } => first + after,
    }
}
