//! The cutting chart.

use crate::draft::{Cut, HowCut, Piece};
use crate::fault::Route;
use crate::prose::{Block, Run};
use crate::set::view::{CutCloth, CutPiece, Cutting};
use crate::size::SizedGarment;
use crate::units::{Printed, Show, print};

use super::desk::Desk;
use super::glance::role;
use super::layouts::{LaidCloth, length_rows};
use super::rows::{plain_row, row};
use crate::words::{Catalogue, Word};

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
        let mut rows = vec![plain_row(desk.say(Word::CutPieces), totals.iter().map(ToString::to_string).collect())];
        for width in &cloth.widths {
            let laid: Vec<&LaidCloth> =
                desk.sizes().filter_map(|sized| desk.build.laid(&cloth.name, &sized.size, *width)).collect();
            if laid.len() == totals.len() {
                rows.extend(length_rows(desk, *width, &laid));
            }
        }
        cloths.push(CutCloth {
            name: cloth.title.clone(),
            role: desk.say(role(cloth.role)).to_string(),
            pieces,
            totals: rows,
        });
    }
    let intro = vec![Block::Paragraph { runs: vec![Run::text(desk.say(Word::CutIntro))] }];
    Cutting { intro, cloths }
}

/// How many are cut, in words.
pub(super) fn cut_words(words: &Catalogue, cut: &Cut) -> String {
    let word = match cut.how {
        HowCut::Single => Word::CutSingle,
        HowCut::Pair => Word::CutPair,
        HowCut::Fold => Word::CutFold,
    };
    words.count(word, cut.count.0)
}

fn cut_of<'a>(sized: &'a SizedGarment, piece: &str, cloth: &str) -> Option<(&'a Piece, &'a Cut)> {
    let piece = sized.pieces.get(piece)?;
    let cut = piece.cuts.iter().find(|cut| cut.cloth == cloth)?;
    Some((piece, cut))
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
    let width = desk.say(if on_fold { Word::CutAcrossHalf } else { Word::CutAcross });
    let dims = vec![row(desk.say(Word::CutAlong), &dims(true), desk.systems), row(width, &dims(false), desk.systems)];
    let mut notes = Vec::new();
    if on_fold {
        notes.push(Run::text(format!("{} ", desk.say(Word::CutHalfDrawn))));
    }
    if let Some(note) = &piece.note {
        let route = Route::top().key("pieces").key(name).key("note");
        notes.extend(desk.runs(&route, note));
    }
    Some(CutPiece {
        id: name.to_string(),
        number: u32::try_from(index + 1).unwrap_or(u32::MAX),
        name: piece.title.clone(),
        count: found.iter().map(|(_, cut)| cut_words(desk.words, cut)).collect(),
        grain: grain_words(desk.words, cut),
        notes,
        dims,
    })
}

fn is_crosswise(cut: &Cut) -> bool {
    (cut.grain.to_degrees().rem_euclid(180.0) - 90.0).abs() < 1.0
}

/// How the piece lies to the grain. Which of its sides runs along it stands in the rows of its size.
fn grain_words(words: &Catalogue, cut: &Cut) -> String {
    let degrees = cut.grain.to_degrees().rem_euclid(180.0);
    if is_crosswise(cut) || !(1.0..=179.0).contains(&degrees) {
        words.say(Word::GrainStraight).to_string()
    } else if (degrees - 45.0).abs() < 1.0 || (degrees - 135.0).abs() < 1.0 {
        words.say(Word::GrainBias).to_string()
    } else {
        words.fill(Word::GrainTurned, &[("degrees", &format!("{degrees:.0}"))])
    }
}
