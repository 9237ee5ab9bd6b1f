//! Matching cloth that has a repeat: every panel begins at the same place in the pattern.

use super::given::InputFault;
use super::ruler::{down, up, value};
use super::technique::{Input, Output, Technique};
use super::words::both;
use super::work::{Stop, Work};
use crate::units::{Length, Show};

/// `cut = ceil(length ÷ repeat) × repeat`; with a half drop every second panel begins half a repeat on.
pub const REPEAT: Technique = Technique {
    name: "repeat",
    title: "Matching a repeat",
    summary: "How much more cloth a printed or woven repeat costs, and where each panel must begin so that the \
              pattern matches.",
    detail: "Panels that are joined side by side match where each begins at the same place in the pattern. So each \
             is cut a whole number of repeats long, and what is over falls away: 96 in on a repeat of 27 are cut \
             108, and 118 in on a repeat of 13 are cut 130 (decorating pages). The last panel need not be whole, \
             but one whole repeat more is bought, because the cloth is not cut from the bolt at the beginning of a \
             motif.\n\n\
             With a half drop the pattern steps down by half at each join. Every second panel then begins half a \
             repeat further on, and that is sometimes cheaper than a straight match and sometimes dearer. Both are \
             worked out here.\n\n\
             Across the cloth the pattern must match at the join as well. Give the repeat across, and the panel is \
             brought down to whole repeats between its seam lines.\n\n\
             Match on the seam line, where the eye sees it, not at the raw edge.",
    inputs: &[
        Input::length("length", "the cut length of one panel"),
        Input::length("repeat", "the length of the repeat, from a point in the pattern to the same point again"),
        Input::count("panels", "how many panels are cut one after another").or("1", "one panel"),
        Input::choice("match_by", &["straight", "half-drop"], "how the pattern meets at a join")
            .or("straight", "the commoner of the two"),
        Input::length("repeat_across", "the repeat across the cloth").optional(),
        Input::length("cloth_width", "the width of the cloth, selvage to selvage").optional(),
        Input::length("selvage", "what is cut off at each selvage")
            .or_nothing()
            .or("1/2 in", "the woven edge and its pin holes (common practice)"),
        Input::length("join", "the seam allowance on each edge that is joined")
            .or_nothing()
            .or("5/8 in", "the usual allowance of home sewing (common practice)"),
        Input::cloth("have", "the length of cloth there is").optional(),
    ],
    outputs: &[
        Output::new("repeats", Show::COUNT, "repeats in a panel"),
        Output::new("cut", Show::LENGTH, "length of a panel in whole repeats"),
        Output::new("waste", Show::LENGTH, "falls away at each panel"),
        Output::new("step", Show::LENGTH, "from the start of one panel to the start of the next"),
        Output::new("laid", Show::LENGTH, "from the first panel to the end of the last"),
        Output::new("cloth", Show::CLOTH, "cloth, with one repeat to begin on"),
        Output::new("plain", Show::LENGTH, "cloth without a repeat"),
        Output::new("extra", Show::LENGTH_UP, "the repeat costs"),
        Output::new("extra_share", Show::PERCENT, "the repeat costs, of the plain cloth"),
        Output::new("starts", Show::LENGTH, "where each panel begins"),
        Output::new("repeats_across", Show::COUNT, "whole repeats between the seams")
            .when("where the repeat across is given"),
        Output::new("matched_width", Show::LENGTH, "a panel between its seams, matched")
            .when("where the repeat across is given"),
    ],
    example: &[("length", "43 in"), ("repeat", "18 in"), ("panels", "3"), ("match_by", "half-drop")],
    work: repeat,
};

const SHOWN: [&str; 4] = ["repeats", "step", "laid", "cloth"];

fn repeat(work: &mut Work) -> Result<(), Stop> {
    if work.quantity("panels")?.value > 1000.0 {
        return Err(InputFault::new("panels", "more than a thousand panels").into());
    }
    work.reckon("repeats", "ceil(length / repeat)")?;
    work.reckon("cut", "repeats * repeat")?;
    work.reckon("waste", "cut - length")?;
    if work.word("match_by") == "half-drop" {
        work.reckon("step", "(ceil(length / repeat - 1 / 2) + 1 / 2) * repeat")?;
    } else {
        work.reckon("step", "cut")?;
    }
    work.reckon("laid", "(panels - 1) * step + length")?;
    work.reckon("cloth", "laid + repeat")?;
    work.reckon("plain", "panels * length")?;
    work.reckon("extra", "cloth - plain")?;
    work.reckon("extra_share", "extra / plain")?;
    let (step, panels) = (Length::from_base(work.result("step")?.value), work.quantity("panels")?.value);
    let starts: Vec<Length> = super::ruler::count_to(panels).map(|panel| step * panel).collect();
    work.put_list(
        "starts",
        starts,
        "from the first point of the pattern you choose; each panel a step after the one before",
    );
    across(work)?;
    reach(work)?;
    if work.result("extra_share")?.value > 0.25 {
        work.advise(
            "dear-repeat",
            "the repeat costs more than a quarter of the cloth: another panel length, a smaller motif, or seams \
             where a mismatch is hidden in a fold",
        );
    }
    work.advise(
        "measure-the-repeat",
        "measure the repeat on the cloth you have, after the wash; the printed figure is the mill's, not the bolt's",
    );
    Ok(())
}

fn across(work: &mut Work) -> Result<(), Stop> {
    if !work.has("repeat_across") {
        return Ok(());
    }
    if !work.has("cloth_width") {
        return Err(InputFault::new("cloth_width", "this input is missing")
            .help("the repeat across is matched within the width of the cloth")
            .into());
    }
    let count = work.reckon("repeats_across", "floor((cloth_width - 2 * selvage - 2 * join) / repeat_across)")?.value;
    if count < 0.5 {
        return Err(InputFault::new(
            "repeat_across",
            "the cloth is narrower than one repeat between its seams, so joins cannot match",
        )
        .help("is the unit right? a repeat as wide as the cloth is measured seam line to seam line")
        .into());
    }
    work.reckon("matched_width", "repeats_across * repeat_across")?;
    Ok(())
}

fn reach(work: &mut Work) -> Result<(), Stop> {
    let Some(have) = work.maybe_length("have") else { return Ok(()) };
    let cloth = Length::from_base(work.result("cloth")?.value);
    if cloth.base() <= have.base() + 1e-6 {
        return Ok(());
    }
    work.out_of_reach(format!(
        "{} are needed and there are {}: {} are lacking",
        both(cloth, Show::CLOTH),
        both(have, Show::CLOTH),
        both(cloth - have, Show::LENGTH_UP)
    ));
    let (length, repeat, panels) = (work.length("length")?, work.length("repeat")?, work.quantity("panels")?.value);
    // Bring the panel down to the half or whole repeat below, and on from there.
    let drop = if work.word("match_by") == "half-drop" { 0.5 } else { 0.0 };
    let mut repeats = (length / repeat - drop - 1e-9).ceil() + drop - 1.0;
    for _ in 0..8 {
        let room = (have - repeat - repeat * (repeats * (panels - 1.0))).min(repeat * repeats);
        let shorter = down(room.min(length), 8.0);
        if repeats > 0.0 && shorter > Length::ZERO {
            let change =
                format!("panels {} long instead of {}", both(shorter, Show::LENGTH), both(length, Show::LENGTH));
            if work.propose(&change, &[("length", value(shorter))], 1.0 - shorter / length, &SHOWN) {
                break;
            }
        }
        repeats -= 1.0;
    }
    let need = up(cloth, 8.0);
    let change = format!("find {} of cloth", both(need, Show::CLOTH));
    work.propose(&change, &[("have", value(need))], need / have - 1.0, &SHOWN);
    Ok(())
}

#[cfg(test)]
#[path = "tests/repeat.rs"]
mod tests;
