//! Cautions, each with where it comes from.

use crate::fault::Route;
use crate::set::view::Caution;

use super::desk::Desk;

/// Matters of safety, their headings, and the rules a maker is sent to.
const MATTERS: [(&str, &str, &str); 9] = [
    ("flame", "Flame, hot lamps and machinery", "the venue's own rules; for hangings, NFPA 701"),
    ("steam", "Irons and steam", ""),
    ("pins", "Pins and needles", ""),
    ("cutter", "Rotary cutters and shears", ""),
    ("dye", "Dyes and inks", "the dye maker's safety data sheet"),
    ("lacing", "Tight lacing", ""),
    ("cords", "Cords on children's clothes", "ASTM F1816, 16 CFR 1120, EN 14682"),
    ("sleepwear", "Children's sleepwear", "16 CFR 1615 and 1616"),
    ("neck", "Capes and ties at the neck", ""),
];

/// The matters a caution may be about.
pub(super) fn heading(about: &str) -> Option<&'static str> {
    MATTERS.iter().find(|(name, ..)| *name == about).map(|(_, heading, _)| *heading)
}

fn capital(words: &str) -> String {
    let mut chars = words.chars();
    chars.next().map_or_else(String::new, |first| first.to_uppercase().chain(chars).collect())
}

pub(super) fn cautions(desk: &Desk<'_>) -> Vec<Caution> {
    let home = Route::top().key("cautions");
    desk.garment
        .shape
        .cautions
        .iter()
        .enumerate()
        .map(|(index, shape)| {
            let source = MATTERS.iter().find(|(name, ..)| *name == shape.about).map_or("", |(_, _, source)| source);
            Caution {
                title: heading(&shape.about).map_or_else(|| capital(&shape.about), ToString::to_string),
                blocks: desk.blocks(&home.index(index).key("words"), &shape.words),
                source: source.to_string(),
            }
        })
        .collect()
}
