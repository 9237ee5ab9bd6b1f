//! How much cloth to buy: every cloth, every width on offer, every size, from a real layout.

use rayon::prelude::{IntoParallelRefIterator, ParallelIterator};
use serde::{Deserialize, Serialize};

use crate::cache::{Key, Store, cached};
use crate::check::{Cloth, Garment};
use crate::draft::{HowCut, Piece};
use crate::fault::{Code, Fault, Place, Route};
use crate::lay::Effort;
use crate::lay::cloth::{ClothSpec, Cut, Folding, Grain, Piece as LaidPiece, grain_from_up, lay_out};
use crate::size::SizedGarment;
use crate::units::{Area, Length};

/// How far a laid outline may lie outside its cut line, mm.
const OUTLINE: f64 = 0.2;
/// What squaring the cut end of the cloth costs, mm: 2 in (common practice, no source).
const STRAIGHTEN: f64 = 50.8;
/// What the scissors need between pieces, mm.
const GAP: f64 = 3.0;
/// The search is kept short: these lengths are for buying, to 1/8 yd.
const EFFORT: Effort = Effort { evaluations: 20_000, starts: 1, seed: 0 };

/// How much of a cloth one size takes at one width.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct ClothNeed {
    /// The cloth.
    pub cloth: String,
    /// The size.
    pub size: String,
    /// The width on offer.
    pub width: Length,
    /// How it is folded, in words.
    pub folding: String,
    /// The length laid out, of washed cloth.
    pub laid: Length,
    /// The length to buy: unwashed, with what straightening takes.
    pub buy: Length,
    /// The length no layout can go below: area of the pieces over the usable width.
    pub bound: Length,
    /// The area of the pieces.
    pub area: Area,
}

/// Lays every cloth of every size at every width on offer. A layout `store` holds already is not searched for again.
#[must_use]
pub fn lay_cloths(garment: &Garment, sizes: &[SizedGarment], store: &dyn Store) -> (Vec<ClothNeed>, Vec<Fault>) {
    let mut jobs: Vec<(&Cloth, Length, &SizedGarment)> = Vec::new();
    for cloth in &garment.cloths {
        for width in &cloth.widths {
            jobs.extend(sizes.iter().map(|sized| (cloth, *width, sized)));
        }
    }
    let results: Vec<Result<Option<ClothNeed>, (String, Fault)>> =
        jobs.par_iter().map(|(cloth, width, sized)| lay(cloth, *width, sized, store)).collect();
    let mut needs = Vec::new();
    let mut faults = Vec::new();
    for result in results {
        match result {
            Ok(need) => needs.extend(need),
            Err(fault) => faults.push(fault),
        }
    }
    (needs, crate::size::merge(faults, sizes.len()))
}

fn lay(
    cloth: &Cloth,
    width: Length,
    sized: &SizedGarment,
    store: &dyn Store,
) -> Result<Option<ClothNeed>, (String, Fault)> {
    let mut pieces = Vec::new();
    for piece in sized.pieces.values() {
        pieces.extend(piece.cuts.iter().filter(|cut| cut.cloth == cloth.name).filter_map(|cut| laid_piece(piece, cut)));
    }
    if pieces.is_empty() {
        return Ok(None);
    }
    let usable = cloth.usable(width);
    let mut spec = ClothSpec::plain(usable.to_mm());
    spec.one_way = cloth.one_way;
    spec.gap = GAP;
    spec.fold_clearance = GAP;
    spec.foldings = vec![Folding::Single, Folding::Lengthwise, Folding::LengthwiseThenOpen];
    let result = cached(store, key(&spec, &pieces), || lay_out(&spec, &pieces, &EFFORT));
    let Some(layout) = result.layout() else {
        let reasons: Vec<String> = result
            .tries
            .iter()
            .filter_map(|tried| match &tried.outcome {
                crate::lay::cloth::FoldOutcome::NotPossible(reasons) => Some(reasons.join("; ")),
                crate::lay::cloth::FoldOutcome::Laid(_) => None,
            })
            .take(1)
            .collect();
        let route = Route::top().key("cloths").key(cloth.name.as_str());
        let message = format!(
            "the pieces cannot be laid on `{}` at its width of {:.1} cm: {}",
            cloth.name,
            width.to_cm(),
            reasons.join("; ")
        );
        let fault = Fault::new(Code::Layout, Place::Key(route), message);
        return Err((sized.size.clone(), fault.help("offer a wider cloth, or divide the piece into narrower panels")));
    };
    let folding = match layout.folding {
        Folding::Single => "opened out",
        Folding::Lengthwise => "folded lengthwise",
        Folding::Crosswise => "folded crosswise",
        Folding::LengthwiseThenOpen => "folded lengthwise, then opened out",
        Folding::CrosswiseThenOpen => "folded crosswise, then opened out",
        Folding::Doubled => "both selvages folded to the middle",
    };
    let laid = Length::mm(layout.bought);
    let buy = (laid + Length::mm(STRAIGHTEN)) / (1.0 - cloth.shrinks_along.base());
    let bound = Length::mm(layout.area_bound);
    Ok(Some(ClothNeed {
        cloth: cloth.name.clone(),
        size: sized.size.clone(),
        width,
        folding: folding.to_string(),
        laid,
        buy,
        bound,
        area: Area::from_base(layout.area_bound * usable.to_mm()),
    }))
}

/// Everything a layout depends on.
fn key(spec: &ClothSpec, pieces: &[LaidPiece]) -> Option<Key> {
    Some(Key::of("layout").value("cloth", spec)?.value("pieces", &pieces)?.value("effort", &EFFORT)?.key())
}

/// A drafted piece as the layout takes it: grain along x.
#[allow(clippy::cast_possible_truncation)]
fn laid_piece(piece: &Piece, cut: &crate::draft::Cut) -> Option<LaidPiece> {
    let copies = usize::try_from(cut.count.0).ok()?;
    if copies == 0 {
        return None;
    }
    let down: Vec<[f64; 2]> = match cut.how {
        HowCut::Fold => piece.full_cut_polygon(Length::mm(OUTLINE)),
        HowCut::Single | HowCut::Pair => piece.cut_polygon(Length::mm(OUTLINE)),
    };
    // From the page (y down) to the drawing board (y up), and the grain upright.
    let degrees = cut.grain.to_degrees().rem_euclid(180.0);
    let up: Vec<[f64; 2]> = down.iter().map(|[x, y]| [*x, -*y]).collect();
    let grain = if (degrees - 45.0).abs() < 1.0 || (degrees - 135.0).abs() < 1.0 {
        Grain::Bias
    } else if (degrees - 90.0).abs() < 1.0 {
        Grain::Cross
    } else {
        Grain::Straight
    };
    let cuts = match cut.how {
        HowCut::Pair => Cut::Pairs { pairs: copies },
        HowCut::Single | HowCut::Fold => Cut::Same { copies },
    };
    Some(LaidPiece {
        name: piece.title.clone(),
        outline: grain_from_up(&up),
        cut: cuts,
        grain,
        border_edge: None,
        match_point: None,
        block_margin: None,
    })
}
