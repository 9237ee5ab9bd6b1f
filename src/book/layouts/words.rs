//! What a layout says in words.

use crate::lay::cloth::Folding;
use crate::units::{Length, Show, print};
use crate::words::{Tongue, Word};

use super::laid::LaidPiece;
use crate::book::desk::Desk;

/// How to spread the cloth.
pub(super) fn spread(folding: Folding) -> Word {
    match folding {
        Folding::Single => Word::LaySingle,
        Folding::Lengthwise => Word::LayLengthwise,
        Folding::Crosswise => Word::LayCrosswise,
        Folding::LengthwiseThenOpen => Word::LayThenOpen,
        Folding::CrosswiseThenOpen => Word::LayCrossThenOpen,
        Folding::Doubled => Word::LayDoubled,
    }
}

/// A way of folding, at the beginning of a sentence.
pub(super) fn way(folding: Folding) -> Word {
    match folding {
        Folding::Single => Word::WaySingle,
        Folding::Lengthwise => Word::WayLengthwise,
        Folding::Crosswise => Word::WayCrosswise,
        Folding::LengthwiseThenOpen => Word::WayThenOpen,
        Folding::CrosswiseThenOpen => Word::WayCrossThenOpen,
        Folding::Doubled => Word::WayDoubled,
    }
}

/// A reason with its millimetres printed as the buyer measures.
pub(super) fn reason(desk: &Desk<'_>, text: &str) -> String {
    let mut out = String::new();
    let once = text.replace("is cut 1 times the same way up", "is cut once");
    let mut rest = once.as_str();
    while let Some(at) = rest.find(" mm") {
        let (before, after) = (rest.get(..at).unwrap_or(""), rest.get(at + 3..).unwrap_or(""));
        let digits = before.chars().rev().take_while(|c| c.is_ascii_digit() || *c == '.').count();
        let (words, number) = before.split_at(before.len() - digits);
        out.push_str(words);
        match number.parse::<f64>() {
            Ok(mm) => out.push_str(&print(Length::mm(mm).into(), Show::LENGTH).typeset(desk.systems)),
            Err(_) => out.push_str(&format!("{number} mm")),
        }
        rest = after;
    }
    out.push_str(rest);
    let tongue = Tongue::of(&desk.words.phrases);
    tongue.say(&out).unwrap_or(out)
}

/// How a piece lies: on the fold, face down, turned.
pub(super) fn lies(desk: &Desk<'_>, piece: &LaidPiece, double: bool) -> String {
    let mut parts = Vec::new();
    if piece.on_fold {
        parts.push(if piece.half_pattern { Word::LiesOnFold } else { Word::LiesFolded });
    } else if double {
        parts.push(Word::LiesTwice);
    }
    if piece.opened_out {
        parts.push(Word::LiesOpened);
    }
    // On the fold a half lies face up or down as it comes.
    if !piece.opened_out {
        parts.push(if piece.face_down { Word::LiesFaceDown } else { Word::LiesFaceUp });
    }
    parts.extend(match piece.degrees {
        180 => Some(Word::LiesTurned),
        90 | 270 => Some(Word::LiesAcross),
        45 | 135 | 225 | 315 => Some(Word::LiesBias),
        _ => None,
    });
    if piece.block {
        parts.push(Word::LiesBlock);
    }
    let said: Vec<&str> = parts.into_iter().map(|word| desk.say(word)).collect();
    said.join("; ")
}
