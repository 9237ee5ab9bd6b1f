//! Every folding the maker allows, searched, and the shortest.

use super::plan::{Entry, SectionPlan, plan};
use super::result::{ClothLayout, ClothResult, FoldOutcome, FoldTry, Laid, Section};
use super::spare::spare;
use super::{ClothSpec, Folding, Piece};
use crate::lay::geom::{Bounds, moved, signed_area};
use crate::lay::problem::{Choice, Problem, Unfit};
use crate::lay::result::Layout;
use crate::lay::search::{Effort, search};
use rayon::prelude::{IntoParallelRefIterator, ParallelIterator};

/// Lays the pieces on the cloth under every folding allowed; the shortest length of cloth wins.
///
/// The effort is spent on each section of each folding. Foldings are searched in parallel where there are threads;
/// the result does not depend on how many. For a folding that cannot be used the reasons are given in words.
#[must_use]
pub fn lay_out(spec: &ClothSpec, pieces: &[Piece], effort: &Effort) -> ClothResult {
    let mut foldings: Vec<Folding> = Vec::new();
    for folding in &spec.foldings {
        if !foldings.contains(folding) {
            foldings.push(*folding);
        }
    }
    let tries: Vec<FoldTry> = foldings
        .par_iter()
        .map(|&folding| {
            let outcome = match attempt(spec, pieces, folding, effort) {
                Ok(layout) => FoldOutcome::Laid(Box::new(layout)),
                Err(reasons) => FoldOutcome::NotPossible(reasons),
            };
            FoldTry { folding, outcome }
        })
        .collect();
    let mut best: Option<(f64, usize)> = None;
    for (index, tried) in tries.iter().enumerate() {
        if let FoldOutcome::Laid(layout) = &tried.outcome
            && best.is_none_or(|b| layout.bought < b.0)
        {
            best = Some((layout.bought, index));
        }
    }
    ClothResult { tries, best: best.map(|b| b.1) }
}

fn attempt(spec: &ClothSpec, pieces: &[Piece], folding: Folding, effort: &Effort) -> Result<ClothLayout, Vec<String>> {
    let plans = plan(spec, pieces, folding)?;
    if plans.is_empty() {
        return Err(vec![Unfit::Empty.to_string()]);
    }
    let searched: Vec<Result<Layout, Unfit>> =
        plans.par_iter().map(|section| search(&section.problem(), effort)).collect();
    let mut sections = Vec::new();
    let mut reasons = Vec::new();
    let mut next = vec![0; pieces.len()];
    let mut area = 0.0;
    for (section, layout) in plans.iter().zip(searched) {
        match layout {
            Ok(layout) => {
                area += yielded(section);
                sections.push(finish(section, layout, &mut next));
            }
            Err(Unfit::Crowded) => reasons.push(crowded(section)),
            Err(other) => reasons.push(other.to_string()),
        }
    }
    if !reasons.is_empty() {
        return Err(reasons);
    }
    let bought: f64 = sections.iter().map(|s| s.bought).sum();
    Ok(ClothLayout { folding, sections, bought, density: area / (bought * spec.width), area_bound: area / spec.width })
}

/// Area of everything cut from a section, mm²: twice what is laid, on double cloth.
fn yielded(section: &SectionPlan) -> f64 {
    let laid: f64 = section
        .entries
        .iter()
        .map(|e| e.item.choices.first().map_or(0.0, |c| signed_area(&c.outline).abs()) * e.item.copies as f64)
        .sum();
    laid * section.ground.kind.layers() as f64
}

/// What is held on the fold side by side and needs more room than there is.
fn crowded(section: &SectionPlan) -> String {
    let least = |e: &Entry| {
        let height = |c: &Choice| Bounds::of(&c.outline).height();
        e.item.choices.iter().map(height).fold(f64::INFINITY, f64::min) * e.item.copies as f64
    };
    let held: f64 = section.entries.iter().filter(|e| e.on_fold).map(least).sum();
    format!(
        "the pieces on the fold take {:.0} mm side by side and the {} is {:.0} mm wide",
        held.ceil(),
        section.ground.kind.words(),
        section.ground.width.floor()
    )
}

fn finish(section: &SectionPlan, layout: Layout, next: &mut [usize]) -> Section {
    let problem: Problem = section.problem();
    let mut laid: Vec<Laid> = Vec::new();
    for placement in &layout.placements {
        let entry = &section.entries[placement.item];
        let choice = &entry.item.choices[placement.choice];
        laid.push(Laid {
            piece: entry.piece,
            copies: vec![0; entry.cuts],
            on_fold: entry.on_fold,
            opened_out: entry.opened_out,
            pose: choice.pose,
            by: placement.by,
            outline: moved(&choice.outline, placement.by),
        });
    }
    let corner = |l: &Laid| Bounds::of(&l.outline).min;
    laid.sort_by(|a, b| {
        let (p, q) = (corner(a), corner(b));
        p[0].total_cmp(&q[0]).then(p[1].total_cmp(&q[1])).then(a.piece.cmp(&b.piece))
    });
    // Copies are counted from the beginning of the cloth.
    for l in &mut laid {
        for copy in &mut l.copies {
            *copy = next[l.piece];
            next[l.piece] += 1;
        }
    }
    let outlines: Vec<_> = laid.iter().map(|l| l.outline.as_slice()).collect();
    Section {
        kind: section.ground.kind,
        length: layout.length,
        width: section.ground.width,
        bought: section.ground.kind.lengths() * layout.length,
        spare: spare(&outlines, layout.length, section.ground.width),
        laid,
        problem,
        layout,
    }
}
