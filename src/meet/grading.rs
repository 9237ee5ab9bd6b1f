//! How edges grow from size to size.

use super::SizePieces;
use super::report::Growth;
use crate::draft::mm;
use crate::fault::{Code, Fault, Place, Route};
use crate::units::Length;

/// Less than this is no shrinking but the bend of a curve, mm: narrower than a pencil line.
const NOTHING: f64 = 0.5;
/// A step this far from the middle one is unlike the others: in mm, and as a share of it.
const UNLIKE: (f64, f64) = (3.0, 0.75);

pub(super) fn grading(sizes: &[SizePieces], faults: &mut Vec<Fault>) -> Vec<Growth> {
    let Some(first) = sizes.first() else { return Vec::new() };
    let mut all = Vec::new();
    for name in first.pieces.piece_names() {
        let Some(piece) = first.pieces.piece(name) else { continue };
        for edge in &piece.edges {
            let lengths: Option<Vec<Length>> =
                sizes.iter().map(|size| Some(size.pieces.piece(name)?.edge(&edge.name)?.length)).collect();
            // An edge that is not there in every size has been told where it was drawn.
            let Some(lengths) = lengths else { continue };
            let declared = piece.not_growing.contains(&edge.name);
            let growth = growth(name, &edge.name, lengths, declared, sizes);
            tell(&growth, sizes, faults);
            all.push(growth);
        }
    }
    all
}

fn growth(piece: &str, edge: &str, lengths: Vec<Length>, declared: bool, sizes: &[SizePieces]) -> Growth {
    let steps: Vec<f64> = lengths.windows(2).map(|pair| (pair[1] - pair[0]).to_mm()).collect();
    let name = |index: usize| sizes.get(index + 1).map(|size| size.size.to_string());
    let shrinks = if declared {
        Vec::new()
    } else {
        steps.iter().enumerate().filter(|(_, step)| **step < -NOTHING).filter_map(|(index, _)| name(index)).collect()
    };
    let mut sorted = steps.clone();
    sorted.sort_by(f64::total_cmp);
    let middle = sorted.get(sorted.len() / 2).copied().unwrap_or(0.0);
    let limit = UNLIKE.0.max(middle.abs() * UNLIKE.1);
    let outliers = if declared || steps.len() < 3 {
        Vec::new()
    } else {
        steps
            .iter()
            .enumerate()
            .filter(|(_, step)| (**step - middle).abs() > limit)
            .filter_map(|(index, _)| name(index))
            .collect()
    };
    Growth { piece: piece.to_string(), edge: edge.to_string(), lengths, declared, shrinks, outliers }
}

fn tell(growth: &Growth, sizes: &[SizePieces], faults: &mut Vec<Fault>) {
    let place = || {
        let piece = Route::top().key("pieces").key(growth.piece.as_str());
        Place::Key(piece.key("edges").key(growth.edge.as_str()))
    };
    let step = |size: &str| {
        let index = sizes.iter().position(|known| known.size == size).unwrap_or(0).max(1);
        let (now, before) = (growth.lengths.get(index), growth.lengths.get(index - 1));
        let by = now.zip(before).map_or(0.0, |(now, before)| (*now - *before).to_mm());
        (by, sizes.get(index - 1).map_or("", |known| known.size).to_string())
    };
    for size in &growth.shrinks {
        let (by, before) = step(size);
        let message = format!(
            "the edge `{}` of `{}` is {} shorter in size {size} than in size {before}",
            growth.edge,
            growth.piece,
            mm(-by)
        );
        let help = format!(
            "look at the measurements of size {size}; if it is meant, list `{}` under `not_growing`",
            growth.edge
        );
        faults.push(Fault::new(Code::Grading, place(), message).help(help));
    }
    for size in growth.outliers.iter().filter(|size| !growth.shrinks.contains(size)) {
        let (by, before) = step(size);
        let message = format!(
            "the edge `{}` of `{}` grows by {} from size {before} to size {size}, unlike the other steps",
            growth.edge,
            growth.piece,
            mm(by)
        );
        let help = format!(
            "look at the measurements of size {size}; if it is meant, list `{}` under `not_growing`",
            growth.edge
        );
        faults.push(Fault::warning(Code::Grading, place(), message).help(help));
    }
}
