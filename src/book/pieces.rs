//! The cards of the pieces.

use indexmap::IndexMap;

use crate::fault::Route;
use crate::set::view::PieceCard;
use crate::shape::{Expr, InputShape};
use crate::words::Word;

use super::cutting::cut_words;
use super::desk::Desk;
use super::figures::Drawings;

pub(super) fn pieces(desk: &Desk<'_>, drawings: &mut Drawings<'_, '_>) -> Vec<PieceCard> {
    let home = Route::top().key("pieces");
    let mut cards = Vec::new();
    for (index, (name, shape)) in desk.garment.shape.pieces.iter().enumerate() {
        let request: IndexMap<String, InputShape> = [("kind", "flat-piece"), ("piece", name), ("card", "yes")]
            .into_iter()
            .map(|(key, value)| (key.to_string(), InputShape::One(Expr::from(value))))
            .collect();
        let figure = drawings.view(&home.key(name.as_str()), &request, &format!("piece-{name}"));
        let cut = desk.drawn().and_then(|sized| sized.pieces.get(name)).map(|piece| {
            let cuts = piece.cuts.iter().map(|cut| {
                let title = desk.garment.cloth(&cut.cloth).map_or(cut.cloth.as_str(), |cloth| cloth.title.as_str());
                desk.words.fill(Word::CutOf, &[("cut", &cut_words(desk.words, cut)), ("cloth", title)])
            });
            cuts.collect::<Vec<_>>().join(", ")
        });
        cards.push(PieceCard {
            id: name.clone(),
            number: u32::try_from(index + 1).unwrap_or(u32::MAX),
            name: shape.title.clone(),
            cut: cut.unwrap_or_default(),
            figure,
        });
    }
    cards
}
