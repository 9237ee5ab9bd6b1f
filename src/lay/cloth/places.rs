//! The places a piece may have on a section of cloth: on folds or clear of them, on borders, on repeats.

use super::ways::{Form, Ground, too_wide};
use super::{BorderAt, ClothSpec, Piece, SectionKind};
use crate::lay::geom::{Bounds, Point};
use crate::lay::pose::Pose;
use crate::lay::problem::{Axis, Domain, SLACK};

/// Straightness asked of fold edges and hems on a border, mm.
const STRAIGHT: f64 = 0.01;

pub(super) fn border_possible(spec: &ClothSpec, piece: &Piece, ground: Ground) -> Result<(), String> {
    let Some(border) = spec.border else {
        return Err(format!("{} has its hem on a border and this cloth has none", piece.name));
    };
    if ground.kind == SectionKind::GateFold {
        return Err(format!(
            "{} has its hem on the border, which only one of the two layers would have: the other is the middle of the \
             cloth",
            piece.name
        ));
    }
    if ground.kind == SectionKind::LengthwiseFold && border.at == BorderAt::One {
        return Err(format!(
            "{} has its hem on the border, which only one of the two layers would have: it runs along one selvage",
            piece.name
        ));
    }
    Ok(())
}

/// Where a posed outline may lie: a domain for each fold, flap and border that will have it, or why one will not.
pub(super) fn domains(
    spec: &ClothSpec,
    piece: &Piece,
    form: &Form,
    pose: Pose,
    outline: &[Point],
    ground: Ground,
) -> Vec<Result<Domain, String>> {
    let bounds = Bounds::of(outline);
    let held = match on_folds(spec, piece, form, pose, &bounds, ground) {
        Ok(held) => held,
        Err(why) => return vec![Err(why)],
    };
    let mut found = Vec::new();
    for (along, across) in held {
        let sides = match form.border {
            None => Ok(vec![across]),
            Some(edge) => on_border(spec, pose, &bounds, edge, ground, across),
        };
        match sides {
            Ok(sides) => found.extend(
                sides.into_iter().map(|y| on_repeat(spec, piece, pose, &bounds, Domain { along, across: y }, ground)),
            ),
            Err(why) => found.push(Err(format!("{} {why}", piece.name))),
        }
    }
    found
}

/// What the folds of the ground leave of it, along and across: on one of them with the fold edge, else clear of all.
fn on_folds(
    spec: &ClothSpec,
    piece: &Piece,
    form: &Form,
    pose: Pose,
    bounds: &Bounds,
    ground: Ground,
) -> Result<Vec<(Axis, Axis)>, String> {
    let clearance = spec.gap.max(spec.fold_clearance);
    let clear = Axis::Span { before: clearance, after: 0.0 };
    let axis = usize::from(ground.kind != SectionKind::CrosswiseFold);
    let ends = form.fold.map(|fold| [pose.apply(fold.0)[axis], pose.apply(fold.1)[axis]]);
    let lies_at = |level: f64| ends.is_none_or(|ends| ends.iter().all(|e| (e - level).abs() <= STRAIGHT));
    let pinned = Axis::Pinned { at: 0.0 };
    let off_the_fold = || {
        let runs = if axis == 1 { "along" } else { "across" };
        Err(format!(
            "{} has a fold edge that does not lie on this fold: with its grain as drawn the edge would have to run \
             {runs} the cloth",
            piece.name
        ))
    };
    match ground.kind {
        SectionKind::Open => Ok(vec![(Axis::FREE, Axis::FREE)]),
        SectionKind::LengthwiseFold | SectionKind::CrosswiseFold if !lies_at(bounds.min[axis]) => off_the_fold(),
        SectionKind::LengthwiseFold => Ok(vec![(Axis::FREE, if ends.is_some() { pinned } else { clear })]),
        SectionKind::CrosswiseFold => Ok(vec![(if ends.is_some() { pinned } else { clear }, Axis::FREE)]),
        SectionKind::GateFold => {
            let flap = ground.width / 2.0;
            let needs = bounds.height() + if ends.is_some() { 0.0 } else { clearance };
            if needs > flap + SLACK {
                return Err(format!("{} {}", piece.name, too_wide(needs, "flap folded to the middle", flap)));
            }
            let far = ground.width - bounds.height();
            let flaps = [
                (bounds.min[1], pinned, Axis::Span { before: clearance, after: flap }),
                (bounds.max[1], Axis::Pinned { at: far }, Axis::Span { before: flap, after: clearance }),
            ];
            let here = flaps.into_iter().filter(|f| lies_at(f.0) || ends.is_none());
            let held: Vec<_> = here.map(|(_, on, off)| (Axis::FREE, if ends.is_some() { on } else { off })).collect();
            if held.is_empty() { off_the_fold() } else { Ok(held) }
        }
    }
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
        return Err(too_wide(needs, ground.kind.words(), ground.width));
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
        // A fold lengthwise lies this far from the edge of the cloth, and repeats turned over there must agree.
        let phase = match ground.kind {
            SectionKind::LengthwiseFold if axis == 1 => spec.width / 2.0,
            SectionKind::GateFold if axis == 1 => spec.width / 4.0,
            _ => 0.0,
        };
        let rest = (2.0 * phase / step - (2.0 * phase / step).round()).abs() * step;
        if rest > STRAIGHT {
            return Err(format!(
                "{} must match a repeat across the cloth, and on the fold the layers would not agree: {:.0} mm of width \
                 is not a whole number of repeats of {step:.0} mm",
                piece.name,
                2.0 * phase
            ));
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
            Axis::Span { before, after } | Axis::Lattice { first: before, after, .. } => {
                let first = ((before + reach) / step - 1e-9).ceil() * step - reach;
                axes[axis] = Axis::Lattice { first, step, after };
            }
        }
    }
    Ok(Domain { along: axes[0], across: axes[1] })
}
