//! Every layout searched, proved and summed up.

use rayon::prelude::{IntoParallelRefIterator, ParallelIterator};

use super::laid::{ClothNeed, LaidCloth, LaidPiece, LaidSection, Tried};
use super::spec::{Unlaid, cloth_spec, pieces};
use crate::cache::{Key, Store, cached};
use crate::check::{Cloth, Garment};
use crate::fault::{Code, Fault, Place, Route};
use crate::lay::cloth::{self, ClothLayout, ClothResult, ClothSpec, Cut, FoldOutcome, Laid, check_layout, lay_out};
use crate::lay::{Effort, REVISION};
use crate::size::SizedGarment;
use crate::units::{Area, Length};

/// What squaring the cut end of the cloth costs, mm: 2 in (common practice, no source).
const STRAIGHTEN: f64 = 50.8;
/// Places tried for each piece to be cut, in each way of folding; a search over twenty pieces is done with this to within
/// the width of a hand.
const EACH: u64 = 20_000;
/// The most places tried in one way of folding.
const MOST: u64 = 1_000_000;

/// How much to search for so many pieces.
fn effort(pieces: usize) -> Effort {
    Effort { evaluations: (EACH * pieces as u64).min(MOST), starts: 2, seed: 0 }
}

/// A fault of one size.
type Faulty = (String, Fault);

/// Lays every cloth of every size at every width on offer. A layout `store` holds already is not searched for again.
#[must_use]
pub fn lay_cloths(garment: &Garment, sizes: &[SizedGarment], store: &dyn Store) -> (Vec<LaidCloth>, Vec<Fault>) {
    let mut jobs: Vec<(&Cloth, Length, &SizedGarment)> = Vec::new();
    for cloth in &garment.cloths {
        for width in &cloth.widths {
            jobs.extend(sizes.iter().map(|sized| (cloth, *width, sized)));
        }
    }
    let results: Vec<Result<Option<LaidCloth>, Faulty>> = jobs
        .par_iter()
        .map(|(cloth, width, sized)| {
            lay(garment, cloth, *width, sized, store).map_err(|fault| (sized.size.clone(), fault))
        })
        .collect();
    let mut laid = Vec::new();
    let mut faults = Vec::new();
    for result in results {
        match result {
            Ok(layout) => laid.extend(layout),
            Err(fault) => faults.push(fault),
        }
    }
    (laid, crate::size::merge(faults, sizes.len()))
}

fn lay(
    garment: &Garment,
    cloth: &Cloth,
    width: Length,
    sized: &SizedGarment,
    store: &dyn Store,
) -> Result<Option<LaidCloth>, Fault> {
    let spec = cloth_spec(cloth, width);
    let (names, pieces): (Vec<String>, Vec<cloth::Piece>) = pieces(cloth, sized).map_err(unlaid)?.into_iter().unzip();
    if pieces.is_empty() {
        return Ok(None);
    }
    let route = || Place::Key(Route::top().key("cloths").key(cloth.name.as_str()));
    if spec.width <= 0.0 {
        let message = format!("nothing is left of `{}` between its selvages", cloth.name);
        return Err(Fault::new(Code::Layout, route(), message).help("check `selvage` and `shrinks_across`"));
    }
    let effort = effort(pieces.iter().map(|piece| copies(piece.cut)).sum());
    let result = search(&spec, &pieces, &effort, store);
    let Some(layout) = result.layout() else {
        let reason = tried(&result).into_iter().find_map(|tried| tried.reasons.into_iter().next()).unwrap_or_default();
        let message =
            format!("the pieces cannot be laid on `{}` at its width of {:.1} cm: {reason}", cloth.name, width.to_cm());
        let help = "offer a wider cloth, divide the piece into narrower panels, or allow another folding";
        return Err(Fault::new(Code::Layout, route(), message).help(help));
    };
    let flaws = check_layout(&spec, &pieces, layout);
    if let Some(flaw) = flaws.first() {
        let message = format!("the layout of `{}` at {:.1} cm is not sound: {flaw}", cloth.name, width.to_cm());
        return Err(Fault::new(Code::Layout, route(), message).help(BUG));
    }
    let need = need(cloth, &spec, width, sized, layout, &result);
    if need.laid < need.bound - Length::mm(1e-3) || need.buy < need.laid {
        let message =
            format!("the length of `{}` at {:.1} cm is less than its pieces cover", cloth.name, width.to_cm());
        return Err(Fault::new(Code::Layout, route(), message).help(BUG));
    }
    Ok(Some(LaidCloth { need, gap: cloth.laying.gap, sections: sections(garment, &names, &pieces, layout) }))
}

const BUG: &str = "this is a mistake of the tool, not of the garment file; please report it with the file";

fn unlaid(why: Unlaid) -> Fault {
    let place = Route::top().key("pieces").key(why.piece.as_str()).key(why.key);
    Fault::new(Code::Layout, Place::Key(place), why.message).help(why.help)
}

/// Laid out, or found where it was laid out before.
fn search(spec: &ClothSpec, pieces: &[cloth::Piece], effort: &Effort, store: &dyn Store) -> ClothResult {
    cached(store, key(spec, pieces, effort), || lay_out(spec, pieces, effort))
}

/// Everything a layout depends on.
fn key(spec: &ClothSpec, pieces: &[cloth::Piece], effort: &Effort) -> Option<Key> {
    let maker = Key::of("layout").value("revision", &REVISION)?.value("cloth", spec)?;
    Some(maker.value("pieces", &pieces)?.value("effort", effort)?.key())
}

fn copies(cut: Cut) -> usize {
    match cut {
        Cut::Same { copies } | Cut::OnFold { copies, .. } => copies,
        Cut::Pairs { pairs } => 2 * pairs,
    }
}

fn need(
    cloth: &Cloth,
    spec: &ClothSpec,
    width: Length,
    sized: &SizedGarment,
    layout: &ClothLayout,
    result: &ClothResult,
) -> ClothNeed {
    let laid = Length::mm(layout.bought);
    // The shop does not cut where a repeat begins.
    let repeat = cloth.laying.repeat.and_then(|repeat| repeat.along).unwrap_or(Length::mm(0.0));
    let buy = (laid + Length::mm(STRAIGHTEN) + repeat) / (1.0 - cloth.shrinks_along.base());
    ClothNeed {
        cloth: cloth.name.clone(),
        size: sized.size.clone(),
        width,
        usable: Length::mm(spec.width),
        folding: layout.folding,
        laid,
        buy,
        bound: Length::mm(layout.area_bound),
        area: Area::from_base(layout.area_bound * spec.width),
        others: tried(result).into_iter().filter(|other| other.folding != layout.folding).collect(),
    }
}

fn tried(result: &ClothResult) -> Vec<Tried> {
    let tries = result.tries.iter().map(|tried| match &tried.outcome {
        FoldOutcome::Laid(layout) => {
            Tried { folding: tried.folding, length: Some(Length::mm(layout.bought)), reasons: Vec::new() }
        }
        FoldOutcome::NotPossible(reasons) => Tried { folding: tried.folding, length: None, reasons: reasons.clone() },
    });
    tries.collect()
}

fn sections(garment: &Garment, names: &[String], pieces: &[cloth::Piece], layout: &ClothLayout) -> Vec<LaidSection> {
    let piece_of = |laid: &Laid| {
        let (name, piece) = names.get(laid.piece).zip(pieces.get(laid.piece))?;
        let index = garment.shape.pieces.get_index_of(name).unwrap_or(0);
        let block = piece.block_margin.is_some();
        // What is not cut along, but helps to see how the pattern lies.
        let pattern =
            if block || laid.opened_out { piece.outline.iter().map(|p| laid.map(*p)).collect() } else { Vec::new() };
        Some(LaidPiece {
            piece: name.clone(),
            number: u32::try_from(index + 1).unwrap_or(u32::MAX),
            title: piece.name.clone(),
            copies: laid.copies.clone(),
            on_fold: laid.on_fold,
            half_pattern: matches!(piece.cut, Cut::OnFold { .. }),
            opened_out: laid.opened_out,
            face_down: laid.pose.over,
            degrees: laid.pose.degrees(),
            block,
            outline: laid.outline.clone(),
            pattern,
        })
    };
    let section = |section: &cloth::Section| LaidSection {
        kind: section.kind,
        length: Length::mm(section.length),
        width: Length::mm(section.width),
        bought: Length::mm(section.bought),
        spare: section.spare,
        pieces: section.laid.iter().filter_map(piece_of).collect(),
    };
    layout.sections.iter().map(section).collect()
}
