//! The cutting chart.

use crate::draft::{Cut, HowCut, Piece};
use crate::fault::Route;
use crate::prose::{Run, StripRow};
use crate::set::view::{CutCloth, CutPiece, Cutting};
use crate::size::SizedGarment;
use crate::units::{Length, Printed, Show, print};

use super::desk::Desk;
use super::glance::role;
use super::rows::{plain_row, row};

pub(super) fn cutting(desk: &Desk<'_>) -> Cutting {
    let mut cloths = Vec::new();
    for cloth in &desk.garment.cloths {
        let mut pieces = Vec::new();
        let mut totals: Vec<u64> = vec![0; desk.selection.indexes.len()];
        for (index, name) in desk.garment.shape.pieces.keys().enumerate() {
            let found: Vec<(&Piece, &Cut)> =
                desk.sizes().filter_map(|sized| cut_of(sized, name, &cloth.name)).collect();
            if found.len() != totals.len() {
                continue;
            }
            for (total, (_, cut)) in totals.iter_mut().zip(&found) {
                *total += cut.pieces();
            }
            pieces.extend(cut_piece(desk, index, name, &found));
        }
        if pieces.is_empty() {
            continue;
        }
        let mut rows = vec![plain_row("pieces to cut", totals.iter().map(ToString::to_string).collect())];
        rows.extend(cloth.widths.iter().filter_map(|width| laid_row(desk, &cloth.name, *width)));
        cloths.push(CutCloth { name: cloth.title.clone(), role: role(cloth.role).to_string(), pieces, totals: rows });
    }
    Cutting { intro: intro(), cloths }
}

fn intro() -> Vec<crate::prose::Block> {
    let text = "Sizes are those of the cut piece, allowances included. Wash and press the cloth before you cut. \
                Where a piece has a shaped edge the size is that of the rectangle it is cut from; the shape is marked on \
                it in its step. Along the grain is along the selvage: lay every piece so that its first measure runs with it.";
    vec![crate::prose::Block::Paragraph { runs: vec![Run::text(text)] }]
}

fn cut_of<'a>(sized: &'a SizedGarment, piece: &str, cloth: &str) -> Option<(&'a Piece, &'a Cut)> {
    let piece = sized.pieces.get(piece)?;
    let cut = piece.cuts.iter().find(|cut| cut.cloth == cloth)?;
    Some((piece, cut))
}

fn laid_row(desk: &Desk<'_>, cloth: &str, width: Length) -> Option<StripRow> {
    let printed: Vec<Printed> = desk
        .sizes()
        .filter_map(|sized| {
            let need = desk
                .build
                .needs
                .iter()
                .find(|need| need.cloth == cloth && need.size == sized.size && need.width == width)?;
            Some(print(need.laid.into(), Show::CLOTH))
        })
        .collect();
    let label = format!("length of washed cloth, {} wide", print(width.into(), Show::LENGTH).typeset(desk.systems));
    (printed.len() == desk.selection.indexes.len()).then(|| row(label, &printed, desk.systems))
}

fn cut_piece(desk: &Desk<'_>, index: usize, name: &str, found: &[(&Piece, &Cut)]) -> Option<CutPiece> {
    let (piece, cut) = found.first()?;
    // Turned by the grain: `length` runs along it, `width` across.
    let across = is_crosswise(cut);
    let dims = |along: bool| -> Vec<Printed> {
        found
            .iter()
            .map(|(piece, _)| {
                let (wide, high) = (piece.cut_extent.width(), piece.cut_extent.height());
                print(if along == across { wide } else { high }.into(), Show::LENGTH)
            })
            .collect()
    };
    let on_fold = found.iter().any(|(_, cut)| cut.how == HowCut::Fold);
    let width = if on_fold { "across, half" } else { "across" };
    let dims = vec![row("along the grain", &dims(true), desk.systems), row(width, &dims(false), desk.systems)];
    let mut notes = Vec::new();
    if on_fold {
        notes.push(Run::text("Half is drawn: lay its fold edge on the fold. "));
    }
    if let Some(note) = &piece.note {
        let route = Route::top().key("pieces").key(name).key("note");
        notes.extend(desk.runs(&route, note));
    }
    Some(CutPiece {
        id: name.to_string(),
        number: u32::try_from(index + 1).unwrap_or(u32::MAX),
        name: piece.title.clone(),
        count: found.iter().map(|(_, cut)| cut.words()).collect(),
        grain: grain_words(cut),
        notes,
        dims,
    })
}

fn is_crosswise(cut: &Cut) -> bool {
    (cut.grain.to_degrees().rem_euclid(180.0) - 90.0).abs() < 1.0
}

/// How the piece lies to the grain. Which of its sides runs along it stands in the rows of its size.
fn grain_words(cut: &Cut) -> String {
    let degrees = cut.grain.to_degrees().rem_euclid(180.0);
    if is_crosswise(cut) || !(1.0..=179.0).contains(&degrees) {
        "straight".to_string()
    } else if (degrees - 45.0).abs() < 1.0 || (degrees - 135.0).abs() < 1.0 {
        "on the bias".to_string()
    } else {
        format!("turned {degrees:.0}°")
    }
}
