//! A cloth and the pieces cut from it, as the search takes them.

use crate::check::Cloth;
use crate::draft::{Cut, HowCut, Piece};
use crate::lay::Point;
use crate::lay::cloth::{self, Border, BorderAt, ClothSpec, Folding, Grain, Repeat};
use crate::shape::FoldingShape;
use crate::size::SizedGarment;
use crate::units::Length;

/// How far a laid outline may lie outside its cut line, mm.
const OUTLINE: f64 = 0.2;
/// An angle taken for a right one, or half a right one: a degree.
const ABOUT: f64 = 1.0;

/// Why a piece cannot be laid, and the key of the piece it is about.
pub(super) struct Unlaid {
    pub(super) piece: String,
    pub(super) key: &'static str,
    pub(super) message: String,
    pub(super) help: &'static str,
}

/// The cloth at one width.
pub(super) fn cloth_spec(cloth: &Cloth, width: Length) -> ClothSpec {
    let laying = &cloth.laying;
    let gap = laying.gap.to_mm();
    ClothSpec {
        width: cloth.usable(width).to_mm(),
        one_way: cloth.one_way,
        either_side: laying.either_side,
        gap,
        fold_clearance: gap,
        foldings: laying.foldings.iter().map(|folding| folding_of(*folding)).collect(),
        border: laying.border.map(|border| Border {
            at: if border.both { BorderAt::Both } else { BorderAt::One },
            offset: border.inset.to_mm(),
        }),
        repeat: laying
            .repeat
            .map(|repeat| Repeat { along: repeat.along.map(Length::to_mm), across: repeat.across.map(Length::to_mm) }),
    }
}

fn folding_of(folding: FoldingShape) -> Folding {
    match folding {
        FoldingShape::OpenedOut => Folding::Single,
        FoldingShape::Lengthwise => Folding::Lengthwise,
        FoldingShape::Crosswise => Folding::Crosswise,
        FoldingShape::LengthwiseThenOpened => Folding::LengthwiseThenOpen,
        FoldingShape::CrosswiseThenOpened => Folding::CrosswiseThenOpen,
        FoldingShape::Doubled => Folding::Doubled,
    }
}

/// What is cut from a cloth: each with its name in the file.
pub(super) fn pieces(cloth: &Cloth, sized: &SizedGarment) -> Result<Vec<(String, cloth::Piece)>, Unlaid> {
    let mut pieces = Vec::new();
    for piece in sized.pieces.values() {
        for cut in piece.cuts.iter().filter(|cut| cut.cloth == cloth.name) {
            if let Some(laid) = laid_piece(cloth, piece, cut)? {
                pieces.push((piece.name.clone(), laid));
            }
        }
    }
    Ok(pieces)
}

/// A drafted piece as the layout takes it: on the board (y up), the grain along x and its upper end at +x.
fn laid_piece(cloth: &Cloth, piece: &Piece, cut: &Cut) -> Result<Option<cloth::Piece>, Unlaid> {
    let Ok(copies) = usize::try_from(cut.count.0) else { return Ok(None) };
    if copies == 0 {
        return Ok(None);
    }
    let unlaid = |key, message, help| Unlaid { piece: piece.name.clone(), key, message, help };
    let outline = piece.cut_polygon(Length::mm(OUTLINE));
    let how = match cut.how {
        HowCut::Pair => cloth::Cut::Pairs { pairs: copies },
        HowCut::Single => cloth::Cut::Same { copies },
        HowCut::Fold => {
            let edge = piece.fold.as_deref().and_then(|fold| piece.side_of(&outline, fold)).ok_or_else(|| {
                let message = format!("the cut line of `{}` does not run along its fold edge", piece.name);
                unlaid("fold", message, "a seam allowance beside the fold may reach over it: make it narrower there")
            })?;
            cloth::Cut::OnFold { copies, edge }
        }
    };
    let border_edge = match piece.on_border.as_deref().filter(|_| cloth.laying.border.is_some()) {
        None => None,
        Some(edge) => Some(piece.side_of(&outline, edge).ok_or_else(|| {
            let message =
                format!("the cut line of `{}` does not run along `{edge}`, which lies on the border", piece.name);
            unlaid("on_border", message, "name the straight edge of the hem")
        })?),
    };
    let (grain, turn) = grain(cut);
    let turned = |p: [f64; 2]| turn.apply([p[0], -p[1]]);
    Ok(Some(cloth::Piece {
        name: piece.title.clone(),
        outline: outline.iter().map(|p| turned(*p)).collect(),
        cut: how,
        grain,
        border_edge,
        match_point: piece.on_repeat.filter(|_| cloth.laying.repeat.is_some()).map(|spot| turned(spot.into())),
        block_margin: cloth.laying.block_margin.map(Length::to_mm),
    }))
}

/// A turn of the board, by the sine and cosine of the grain's angle.
struct Turn {
    sin: f64,
    cos: f64,
}

impl Turn {
    fn apply(&self, [x, y]: Point) -> Point {
        [self.sin * x + self.cos * y, self.sin * y - self.cos * x]
    }
}

/// How the piece may lie to the grain, and the turn that lays its grain along the cloth. Right angles are turned exactly;
/// a piece on the bias is not turned, as it may lie to either side.
fn grain(cut: &Cut) -> (Grain, Turn) {
    let degrees = cut.grain.to_degrees().rem_euclid(360.0);
    let near = |angle: f64| (degrees - angle).abs() < ABOUT;
    let exact = |sin: f64, cos: f64| Turn { sin, cos };
    if near(45.0) || near(135.0) || near(225.0) || near(315.0) {
        return (Grain::Bias, exact(0.0, 1.0));
    }
    let turn = if near(0.0) || near(360.0) {
        exact(0.0, 1.0)
    } else if near(90.0) {
        exact(1.0, 0.0)
    } else if near(180.0) {
        exact(0.0, -1.0)
    } else if near(270.0) {
        exact(-1.0, 0.0)
    } else {
        let (sin, cos) = cut.grain.base().sin_cos();
        exact(sin, cos)
    };
    (Grain::Straight, turn)
}
