//! How pieces may be laid on a cloth.

use serde::{Deserialize, Serialize};

use super::cloths::literal;
use crate::fault::{Code, Fault, Place, Route};
use crate::shape::{BorderAlongShape, ClothShape, Expr, FoldingShape, GarmentShape, PieceShape};
use crate::units::{Length, kinds};

/// The space between pieces where the maker says nothing: what shears need. Common practice, no source.
const GAP: Length = Length::mm(3.0);

/// A border along the selvage.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Border {
    /// Whether both selvages have it.
    pub both: bool,
    /// How far cut edges lie inside the usable width.
    pub inset: Length,
}

/// The repeat of a pattern.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Repeat {
    /// Along the length.
    pub along: Option<Length>,
    /// Across the width.
    pub across: Option<Length>,
}

/// How pieces may be laid on a cloth.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Laying {
    /// The foldings the maker allows, in the order named.
    pub foldings: Vec<FoldingShape>,
    /// Whether either side may be up.
    pub either_side: bool,
    /// The space between pieces.
    pub gap: Length,
    /// A border.
    pub border: Option<Border>,
    /// A repeat.
    pub repeat: Option<Repeat>,
    /// The margin of blocks, where pieces are cut as such.
    pub block_margin: Option<Length>,
}

/// The ways to spread a cloth where the maker names none.
const USUAL: [FoldingShape; 3] =
    [FoldingShape::OpenedOut, FoldingShape::Lengthwise, FoldingShape::LengthwiseThenOpened];

pub(super) fn check_laying(shape: &ClothShape, route: &Route, faults: &mut Vec<Fault>) -> Option<Laying> {
    let before = faults.len();
    check_foldings(shape, route, faults);
    let mut length = |at: &Route, expr: &Option<Expr>, bounds: (f64, f64), hint: &str| -> Option<Length> {
        let expr = expr.as_ref()?;
        literal(at, expr, kinds::LENGTH, bounds, hint, faults).map(Length::mm)
    };
    let gap = length(&route.key("gap"), &shape.gap, (0.0, 50.0), "a gap is a length of at most 5 cm: `1/8 in`, `3 mm`");
    let margin_hint = "a margin is a length of at most 30 cm: `2 in`, `5 cm`";
    let block_margin = length(&route.key("block_margin"), &shape.block_margin, (0.0, 300.0), margin_hint);
    let border = shape.border.as_ref().map(|border| {
        let at = route.key("border").key("inset");
        let hint = "an inset is a length of at most 1 m: `1 in`, `2 cm`";
        let inset = length(&at, &border.inset, (0.0, 1000.0), hint).unwrap_or(Length::mm(0.0));
        Border { both: border.along == BorderAlongShape::BothSelvages, inset }
    });
    let repeat = shape.repeat.as_ref().map(|repeat| {
        let at = route.key("repeat");
        let hint = "a repeat is a length from 5 mm to 3 m: `12 in`, `32 cm`";
        let along = length(&at.key("along"), &repeat.along, (5.0, 3000.0), hint);
        Repeat { along, across: length(&at.key("across"), &repeat.across, (5.0, 3000.0), hint) }
    });
    if let Some(written) = &shape.repeat
        && written.along.is_none()
        && written.across.is_none()
    {
        let fault = Fault::new(Code::MissingKey, Place::Key(route.key("repeat")), "this repeat has no length");
        faults.push(fault.help("say how far it is `along` the cloth, or `across` it, or both"));
    }
    let foldings = if shape.foldings.is_empty() { USUAL.to_vec() } else { shape.foldings.clone() };
    (faults.len() == before).then_some(Laying {
        foldings,
        either_side: shape.either_side.0,
        gap: gap.unwrap_or(GAP),
        border,
        repeat,
        block_margin,
    })
}

fn check_foldings(shape: &ClothShape, route: &Route, faults: &mut Vec<Fault>) {
    for (index, folding) in shape.foldings.iter().enumerate() {
        let at = route.key("foldings").index(index);
        if shape.foldings.iter().take(index).any(|other| other == folding) {
            faults.push(Fault::new(Code::BadValue, &at, "this way of folding is named twice").help("name each once"));
        }
        if matches!(folding, FoldingShape::Crosswise | FoldingShape::CrosswiseThenOpened) && shape.one_way.0 {
            let message = "one-way cloth cannot be folded crosswise: the layer beneath would run the other way";
            let help = "leave it out, or say `one_way: no` if the cloth looks the same from both ends";
            faults.push(Fault::new(Code::BadValue, &at, message).help(help));
        }
    }
}

/// Pieces that lie on a border or a repeat are cut of a cloth that has one.
pub(super) fn check_pieces(shape: &GarmentShape, faults: &mut Vec<Fault>) {
    type Asked = (&'static str, &'static str, fn(&PieceShape) -> bool, fn(&ClothShape) -> bool);
    let asked: [Asked; 2] = [
        ("on_border", "border", |piece| piece.on_border.is_some(), |cloth| cloth.border.is_some()),
        ("on_repeat", "repeat", |piece| piece.on_repeat.is_some(), |cloth| cloth.repeat.is_some()),
    ];
    for (key, word, wants, has) in asked {
        for (name, piece) in shape.pieces.iter().filter(|(_, piece)| wants(piece)) {
            let mut cloths = piece.cut.keys().filter_map(|cloth| shape.cloths.get(cloth));
            if !cloths.any(has) {
                let route = Route::top().key("pieces").key(name.as_str()).key(key);
                let fault = Fault::new(Code::BadValue, route, format!("no cloth `{name}` is cut of has a {word}"));
                faults.push(fault.help(format!("give the cloth its `{word}`, or take `{key}` off the piece")));
            }
        }
        for name in shape.cloths.iter().filter(|(_, cloth)| has(cloth)).map(|(name, _)| name) {
            let mut pieces = shape.pieces.values().filter(|piece| piece.cut.contains_key(name));
            if !pieces.any(wants) {
                let place = Place::Key(Route::top().key("cloths").key(name.as_str()).key(word));
                let fault = Fault::warning(Code::Advice, place, format!("no piece of `{name}` lies on its {word}"));
                faults.push(fault.help(format!("name the place with `{key}` of a piece, or leave the {word} out")));
            }
        }
    }
}
