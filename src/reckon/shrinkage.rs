//! Shrinkage: what to buy before the wash, and what to cut after it or before it.

use super::given::InputFault;
use super::ruler::{down, up, value};
use super::technique::{Input, Output, Technique};
use super::words::both;
use super::work::{Stop, Work};
use crate::units::{Length, Show};

/// `needed before = needed after ÷ (1 − shrinkage)`, along and across apart, from a washed swatch.
pub const SHRINKAGE: Technique = Technique {
    name: "shrinkage",
    title: "Shrinkage",
    summary: "What a washed swatch says of a cloth: how much to buy before the wash, and how large to cut before or \
              after it.",
    detail: "Mark a square on the cloth, measure it, wash and press the cloth as the garment will be, and measure \
             again. What is lost, over what was there, is the shrinkage: 20 in that come back as 17 have lost 15 %. \
             Length and width shrink apart and are reckoned apart.\n\n\
             To have a length after the wash you need more before it, and more than the shrinkage added on: to keep \
             17 you need 17 / (1 - 0.15), which is 20, and not 17 and 15 %, which is 19 1/2.\n\n\
             There are two lengths here, and they are not to be mixed. Wash first and cut after, and the pieces are \
             cut at their own size: only the yardage grows. Cut first and wash after (a garment that will be dyed, \
             say), and every piece grows, across as well as along. The first is what a careful maker does.\n\n\
             A large swatch is an honest one. A sixteenth of an inch misread on four inches is 1.6 %; on twenty it \
             is a third of one.",
    inputs: &[
        Input::length("before", "a length marked along the swatch, before the wash").optional(),
        Input::length("after", "the same length after the wash").optional(),
        Input::length("before_across", "a width marked across the swatch, before the wash").optional(),
        Input::length("after_across", "the same width after the wash").optional(),
        Input::share("along", "the shrinkage lengthwise, where it is known already").optional(),
        Input::share("across", "the shrinkage crosswise, where it is known already").optional(),
        Input::length("length", "the length needed after the wash: a layout, a panel, a piece"),
        Input::length("width", "the width of a piece, needed after the wash").optional(),
        Input::length("cloth_width", "the width of the cloth as it is sold").optional(),
        Input::length("straighten", "added once, to straighten both ends of the cloth")
            .or_nothing()
            .or("1/8 yd", "cut ends are seldom on the grain (common practice)"),
        Input::cloth("have", "the length of cloth there is, unwashed").optional(),
    ],
    outputs: &[
        Output::new("shrink_along", Show::PERCENT, "shrinkage along"),
        Output::new("shrink_across", Show::PERCENT, "shrinkage across").when("where the swatch was measured across"),
        Output::new("buy", Show::CLOTH, "to buy, and wash before cutting"),
        Output::new("lost", Show::LENGTH, "lost in the wash and in straightening"),
        Output::new("cut_after", Show::LENGTH, "length to cut from washed cloth"),
        Output::new("cut_before", Show::LENGTH, "length to cut from unwashed cloth"),
        Output::new("cut_width_before", Show::LENGTH, "width to cut from unwashed cloth")
            .when("where a width is given"),
        Output::new("washed_width", Show::LENGTH_DOWN, "width of the cloth after the wash")
            .when("where its width is given"),
    ],
    example: &[
        ("before", "20 in"),
        ("after", "19 1/4 in"),
        ("before_across", "20 in"),
        ("after_across", "19 3/4 in"),
        ("length", "5 yd"),
        ("cloth_width", "45 in"),
    ],
    work: shrinkage,
};

fn shrinkage(work: &mut Work) -> Result<(), Stop> {
    if !share(work, ["along", "before", "after"], "shrink_along")? {
        return Err(InputFault::new("after", "this input is missing")
            .help("give the swatch `before` and `after` the wash, or the shrinkage itself in `along`")
            .into());
    }
    let across = share(work, ["across", "before_across", "after_across"], "shrink_across")?;
    work.reckon("buy", "length / (1 - shrink_along) + straighten")?;
    work.reckon("lost", "buy - length")?;
    work.reckon("cut_after", "length")?;
    work.reckon("cut_before", "length / (1 - shrink_along)")?;
    if across {
        if work.has("width") {
            work.reckon("cut_width_before", "width / (1 - shrink_across)")?;
        }
        if work.has("cloth_width") {
            work.reckon("washed_width", "cloth_width * (1 - shrink_across)")?;
        }
    } else if work.has("width") || work.has("cloth_width") {
        return Err(InputFault::new("after_across", "a width is given, and nothing says how the cloth shrinks across")
            .help("give the swatch `before_across` and `after_across`, or the shrinkage in `across`")
            .into());
    }
    reach(work)?;
    advise(work)
}

/// Writes a shrinkage from the swatch or as it was given; says whether there is one.
fn share(work: &mut Work, [given, before, after]: [&'static str; 3], name: &str) -> Result<bool, Stop> {
    match (work.has(given), work.has(before), work.has(after)) {
        (true, false, false) => {
            work.reckon(name, given)?;
            Ok(true)
        }
        (false, true, true) => {
            work.reckon(name, &format!("({before} - {after}) / {before}"))?;
            Ok(true)
        }
        (false, false, false) => Ok(false),
        (true, ..) => {
            Err(InputFault::new(given, "the swatch says the shrinkage already").help("leave one of them out").into())
        }
        (_, has_before, _) => {
            let lacking = if has_before { after } else { before };
            Err(InputFault::new(lacking, "this input is missing")
                .help("a swatch is measured before the wash and after it")
                .into())
        }
    }
}

const SHOWN: [&str; 3] = ["buy", "cut_after", "cut_before"];

fn reach(work: &mut Work) -> Result<(), Stop> {
    let Some(have) = work.maybe_length("have") else { return Ok(()) };
    let buy = Length::from_base(work.result("buy")?.value);
    if buy.base() <= have.base() + 1e-6 {
        return Ok(());
    }
    work.out_of_reach(format!(
        "{} are needed before the wash and there are {}: {} are lacking",
        both(buy, Show::CLOTH),
        both(have, Show::CLOTH),
        both(buy - have, Show::LENGTH_UP)
    ));
    let need = up(buy, 8.0);
    let change = format!("buy {} instead", both(need, Show::CLOTH));
    work.propose(&change, &[("have", value(need))], need / have - 1.0, &SHOWN);
    let (length, straighten) = (work.length("length")?, work.length("straighten")?);
    let fits = down((have - straighten) * (1.0 - work.result("shrink_along")?.value), 8.0);
    if fits > Length::ZERO {
        let change = format!("make do with {} after the wash", both(fits, Show::LENGTH));
        work.propose(&change, &[("length", value(fits))], 1.0 - fits / length, &SHOWN);
    }
    let bare = down(have - (buy - straighten), 8.0);
    if bare >= Length::ZERO && straighten > Length::ZERO {
        let change = format!("allow only {} for straightening", both(bare, Show::LENGTH));
        work.propose(&change, &[("straighten", value(bare))], 1.0 - bare / straighten, &SHOWN);
    }
    Ok(())
}

fn advise(work: &mut Work) -> Result<(), Stop> {
    for (name, words) in [("shrink_along", "lengthwise"), ("shrink_across", "crosswise")] {
        let Ok(share) = work.result(name) else { continue };
        if share.value < 0.0 {
            work.advise(
                "grew",
                format!(
                    "the swatch grew {words}; let the finished garment hang before you level it, and measure again"
                ),
            );
        } else if share.value > 0.1 {
            let percent = share.value * 100.0;
            work.advise(
                "shrinks-much",
                format!("{percent:.0} % {words} is much: wash the cloth twice and measure again before you cut"),
            );
        }
    }
    for name in ["before", "before_across"] {
        let Some(before) = work.maybe_length(name) else { continue };
        if before < Length::inches(8.0) {
            let misread = 25.4 / 16.0 / before.base() * 100.0;
            work.advise(
                "small-swatch",
                format!(
                    "on a swatch of {} a sixteenth of an inch misread is {misread:.1} %; mark a larger one",
                    both(before, Show::LENGTH)
                ),
            );
        }
    }
    Ok(())
}

#[cfg(test)]
#[path = "tests/shrinkage.rs"]
mod tests;
