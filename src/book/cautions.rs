//! Cautions, each with where it comes from.

use crate::fault::Route;
use crate::set::view::Caution;
use crate::words::Word;

use super::desk::Desk;

/// Matters of safety: their headings, and the rules a maker is sent to.
const MATTERS: [(&str, Word, Option<Word>); 9] = [
    ("flame", Word::CautionFlame, Some(Word::SourceFlame)),
    ("steam", Word::CautionSteam, None),
    ("pins", Word::CautionPins, None),
    ("cutter", Word::CautionCutter, None),
    ("dye", Word::CautionDye, Some(Word::SourceDye)),
    ("lacing", Word::CautionLacing, None),
    ("cords", Word::CautionCords, Some(Word::SourceCords)),
    ("sleepwear", Word::CautionSleepwear, Some(Word::SourceSleepwear)),
    ("neck", Word::CautionNeck, None),
];

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
            let matter = MATTERS.iter().find(|(name, ..)| *name == shape.about);
            Caution {
                title: matter.map_or_else(|| capital(&shape.about), |(_, heading, _)| desk.say(*heading).to_string()),
                blocks: desk.blocks(&home.index(index).key("words"), &shape.words),
                source: matter.and_then(|(.., source)| *source).map_or("", |source| desk.say(source)).to_string(),
            }
        })
        .collect()
}
