//! The ways a piece may lie on a section of cloth: poses from the grain, places from folds, borders, repeats.

use super::{BorderAt, ClothSpec, Grain, Piece, SectionKind};
use crate::lay::geom::{Bounds, Point};
use crate::lay::pose::Pose;
use crate::lay::problem::{Axis, Choice, Domain, SLACK};

/// A section of cloth and how wide it lies there, mm.
#[derive(Debug, Clone, Copy)]
pub(super) struct Ground {
    pub kind: SectionKind,
    pub width: f64,
}

/// What of a piece is laid: an outline, its fold edge if it goes on the fold, and the sides that may be up.
pub(super) struct Form<'a> {
    pub outline: &'a [Point],
    pub fold: Option<(Point, Point)>,
    pub border: Option<(Point, Point)>,
    pub over: &'a [bool],
}

/// Straightness asked of fold edges and hems on a border, mm.
const STRAIGHT: f64 = 0.01;

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
        return Err(format!("{} {}", piece.name, too_wide(least, ground)));
    }
    Err(why.unwrap_or_else(|| format!("{} has no way to lie", piece.name)))
}

fn too_wide(needs: f64, ground: Ground) -> String {
    let (needs, has) = ((needs - SLACK).ceil(), ground.width.floor());
    format!("needs {needs:.0} mm across and the {} is {has:.0} mm wide", ground.kind.words())
}

fn start(axis: Axis) -> f64 {
    match axis {
        Axis::Span { before, after } => before + after,
        Axis::Pinned { at } => at.abs(),
        Axis::Lattice { first, .. } => first,
    }
}

fn border_possible(spec: &ClothSpec, piece: &Piece, ground: Ground) -> Result<(), String> {
    let Some(border) = spec.border else {
        return Err(format!("{} has its hem on a border and this cloth has none", piece.name));
    };
    if ground.kind == SectionKind::LengthwiseFold && border.at == BorderAt::One {
        return Err(format!(
            "{} has its hem on the border, which only one of the two layers would have: it runs along one selvage",
            piece.name
        ));
    }
    Ok(())
}

/// Where a posed outline may lie: none, one or (a border along both selvages) two domains.
fn domains(
    spec: &ClothSpec,
    piece: &Piece,
    form: &Form,
    pose: Pose,
    outline: &[Point],
    ground: Ground,
) -> Vec<Result<Domain, String>> {
    let bounds = Bounds::of(outline);
    let clearance = spec.gap.max(spec.fold_clearance);
    let (mut along, mut across) = (Axis::FREE, Axis::FREE);
    let fold_axis = match ground.kind {
        SectionKind::Open => None,
        SectionKind::LengthwiseFold => Some(1),
        SectionKind::CrosswiseFold => Some(0),
    };
    match (form.fold, fold_axis) {
        (Some(fold), Some(axis)) => {
            let ends = [pose.apply(fold.0), pose.apply(fold.1)];
            if ends.iter().any(|p| (p[axis] - bounds.min[axis]).abs() > STRAIGHT) {
                let runs = if axis == 1 { "along" } else { "across" };
                return vec![Err(format!(
                    "{} has a fold edge that does not lie on this fold: with its grain as drawn the edge would have \
                     to run {runs} the cloth",
                    piece.name
                ))];
            }
            *(if axis == 0 { &mut along } else { &mut across }) = Axis::Pinned { at: 0.0 };
        }
        (None, Some(0)) => along = Axis::Span { before: clearance, after: 0.0 },
        (None, Some(_)) => across = Axis::Span { before: clearance, after: 0.0 },
        _ => {}
    }
    let sides = match form.border {
        None => vec![across],
        Some(edge) => match on_border(spec, pose, &bounds, edge, ground, across) {
            Ok(sides) => sides,
            Err(why) => return vec![Err(format!("{} {why}", piece.name))],
        },
    };
    sides.into_iter().map(|across| on_repeat(spec, piece, pose, &bounds, Domain { along, across }, ground)).collect()
}

fn on_border(
    spec: &ClothSpec,
    pose: Pose,
    bounds: &Bounds,
    edge: (Point, Point),
    ground: Ground,
    across: Axis,
) -> Result<Vec<Axis>, String> {
    let crooked = || "has a hem that does not lie straight on the border".to_owned();
    let Some(border) = spec.border else { return Err(crooked()) };
    let ends = [pose.apply(edge.0)[1], pose.apply(edge.1)[1]];
    let mut sides = Vec::new();
    if ends.iter().all(|y| (bounds.max[1] - y).abs() <= STRAIGHT) {
        sides.push(Axis::Pinned { at: ground.width - border.offset - bounds.height() });
    }
    let low_side = border.at == BorderAt::Both && ground.kind != SectionKind::LengthwiseFold;
    if low_side && ends.iter().all(|y| (y - bounds.min[1]).abs() <= STRAIGHT) {
        sides.push(Axis::Pinned { at: border.offset });
    }
    if let Axis::Pinned { at: fold } = across {
        sides.retain(|s| matches!(s, Axis::Pinned { at } if (at - fold).abs() <= STRAIGHT));
        sides.truncate(1);
        return if sides.is_empty() { Err(crooked()) } else { Ok(vec![across]) };
    }
    if sides.is_empty() {
        return Err(crooked());
    }
    let before = if let Axis::Span { before, .. } = across { before } else { 0.0 };
    let needs = bounds.height() + border.offset + before;
    if needs > ground.width + SLACK {
        return Err(too_wide(needs, ground));
    }
    Ok(sides)
}

fn on_repeat(
    spec: &ClothSpec,
    piece: &Piece,
    pose: Pose,
    bounds: &Bounds,
    domain: Domain,
    ground: Ground,
) -> Result<Domain, String> {
    let (Some(repeat), Some(point)) = (spec.repeat, piece.match_point) else { return Ok(domain) };
    let at = pose.apply(point);
    let mut axes = [domain.along, domain.across];
    for (axis, step) in [repeat.along, repeat.across].into_iter().enumerate() {
        let Some(step) = step.filter(|s| *s > 0.0) else { continue };
        let mut phase = 0.0;
        if axis == 1 && ground.kind == SectionKind::LengthwiseFold {
            let rest = (spec.width / step - (spec.width / step).round()).abs() * step;
            if rest > STRAIGHT {
                return Err(format!(
                    "{} must match a repeat across the cloth, and on the fold the layers would not agree: {:.0} mm of \
                     width is not a whole number of repeats of {step:.0} mm",
                    piece.name, spec.width
                ));
            }
            phase = spec.width / 2.0;
        }
        let reach = at[axis] - bounds.min[axis] + phase;
        match axes[axis] {
            Axis::Pinned { at } => {
                let rest = ((at + reach) / step - ((at + reach) / step).round()).abs() * step;
                if rest > STRAIGHT {
                    return Err(format!(
                        "{} must match the repeat, and held where it is its mark falls {rest:.0} mm beside it",
                        piece.name
                    ));
                }
            }
            Axis::Span { before, .. } | Axis::Lattice { first: before, .. } => {
                let first = ((before + reach) / step - 1e-9).ceil() * step - reach;
                axes[axis] = Axis::Lattice { first, step };
            }
        }
    }
    Ok(Domain { along: axes[0], across: axes[1] })
}
