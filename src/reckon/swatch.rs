//! Several swatches of the same cloths: what each layer adds to the pitch, and what an untried stacking will do.

use std::collections::BTreeMap;

use super::answer::Table;
use super::given::{InputFault, Value};
use super::swatch_fit::Fit;
use super::swatch_stack::{Stack, read, thicknesses};
use super::technique::{Input, Output, Technique};
use super::words::both;
use super::work::{Stop, Work};
use crate::units::{Count, Length, Quantity, Ratio, Show};

/// `pitch = Σ thicknesses × share`, the shares by least squares; a prediction carries its spread
/// `√(σ² (1 + h))`, `h` being how far the stacking lies from those that were sewn.
pub const SWATCH: Technique = Technique {
    name: "swatch",
    title: "Several swatches",
    summary: "What each layer adds to the pitch of a pleat, by several swatches, and what a stacking not yet sewn will do.",
    detail: "Each thickness of cloth in a pleat takes up some of the seam. Sew swatches of the same cloths stacked in \
             different ways (the lining folded over with the wool, the lining flat, the lining left out), measure each one \
             flat and drawn up, and the share of each layer can be worked out: the shares that come nearest to all \
             measurements together, by least squares. A folded layer counts twice, a flat one once.\n\n\
             The shares predict a stacking you have not sewn. How far the prediction may be out is its spread. It comes \
             from how well the swatches agree, and never less than from how finely you can read the tape; it grows with the \
             distance from what was sewn. The pitch should lie within twice the spread. A stacking thicker than any that \
             was sewn, or of a mixture the swatches do not reach, is called beyond the swatches. A layer that stands \
             in every swatch in the same company cannot be told apart from its company, and then there is no prediction.\n\n\
             A prediction is never a measurement. The answer always ends with the swatch to sew.",
    inputs: &[
        Input::rows(
            "swatches",
            &[
                Input::words("layers", "its layers, as `wool folded + lining`: folded is two thicknesses, flat is one"),
                Input::length("flat", "its width laid flat, from the first stitch to the last"),
                Input::length("tight", "the same drawn up tight").shown(Show::FINE),
                Input::small("stitch", "the length of one stitch in it"),
                Input::length("eased", "the same let out as far as it still looks right").shown(Show::FINE).optional(),
            ],
            "the swatches as measured, one a row",
        ),
        Input::words("untried", "the stacking to predict, written in the same way").optional(),
        Input::small("stitch", "the stitch of the garment; left out, that of the first swatch").optional(),
        Input::small("reading", "how finely you can read the tape").or("1/16 in", "the finest marks of a tape measure"),
        Input::length("sew_flat", "how wide a swatch to sew")
            .or("12 in", "enough pleats that one stitch more or less does not matter (common practice)"),
        Input::length("sew_height", "how high a swatch to cut")
            .or("6 in", "three rows, and something to hold (common practice)"),
        Input::length("sew_margin", "plain cloth at each end of the swatch")
            .or("1/2 in", "so that the first and the last stitch hold (common practice)"),
    ],
    outputs: &[
        Output::new("measured", Show::SMALL, "the swatches"),
        Output::new("shares", Show::SMALL, "what one thickness of each layer adds to ten pleats"),
        Output::new("layers_told", Show::COUNT, "stackings that tell something of their own"),
        Output::new("error", Show::SMALL, "what one measured pitch may be out by"),
        Output::new("room", Show::PERCENT, "easing the swatches bear").when("where swatches were measured eased"),
        Output::new("basis", Show::COUNT, "the prediction lies").when("where a stacking is to be predicted"),
        Output::new("pitch", Show::SMALL, "predicted pitch").when("where the swatches can tell"),
        Output::new("spread", Show::SMALL, "its spread").when("where the swatches can tell"),
        Output::new("low", Show::SMALL, "at the least").when("where the swatches can tell"),
        Output::new("high", Show::SMALL, "at the most").when("where the swatches can tell"),
        Output::new("ten_pleats", Show::FINE, "ten pleats should take").when("where the swatches can tell"),
        Output::new("ratio", Show::RATIO, "predicted ratio").when("where the swatches can tell"),
        Output::new("ratio_least", Show::RATIO, "ratio at the least").when("where the swatches can tell"),
        Output::new("ratio_most", Show::RATIO, "ratio at the most").when("where the swatches can tell"),
        Output::new("sew_stitch", Show::SMALL, "sew this swatch: stitch"),
        Output::new("sew_pleats", Show::COUNT, "sew this swatch: pleats"),
        Output::new("sew_width", Show::LENGTH, "sew this swatch: width to cut"),
        Output::new("sew_high", Show::LENGTH, "sew this swatch: height to cut"),
        Output::new("sew_tight", Show::FINE, "sew this swatch: it should draw up to")
            .when("where the swatches can tell"),
    ],
    example: &[
        (
            "swatches",
            "wool folded + lining folded:12 in:2 in:1/4 in:2 3/16 in, wool folded + lining:12 in:1 11/16 in:1/4 in, \
             wool folded:12 in:1 5/16 in:1/4 in",
        ),
        ("untried", "wool + lining"),
    ],
    work: swatch,
};

/// More than these are not sewn by hand, or cannot be told apart.
const MOST_SWATCHES: usize = 100;
const MOST_LAYERS: usize = 8;

struct Sewn {
    words: String,
    row: Vec<f64>,
    pitch: f64,
    pleats: f64,
    ratio: f64,
}

fn swatch(work: &mut Work) -> Result<(), Stop> {
    let stacks = stacks(work)?;
    let untried = match work.word("untried") {
        "" => None,
        text => Some(read("untried", text)?),
    };
    let mut layers: Vec<String> = Vec::new();
    for (name, _) in stacks.iter().chain(&untried).flatten() {
        if !layers.contains(name) {
            layers.push(name.clone());
        }
    }
    if layers.len() > MOST_LAYERS {
        return Err(InputFault::new("swatches", "more than eight different layers")
            .help("is a name spelt in two ways?")
            .into());
    }
    let sewn = sewn(work, &stacks, &layers)?;
    let rows: Vec<Vec<f64>> = sewn.iter().map(|one| one.row.clone()).collect();
    let pitches: Vec<f64> = sewn.iter().map(|one| one.pitch).collect();
    let fit = Fit::of(&rows, &pitches);
    measured(work, &sewn, &fit);
    work.put(
        "layers_told",
        Count(fit.rank as u64),
        "how many of the swatches' stackings are not made up of the others",
    );
    let sigma = error(work, &sewn, &fit)?;
    shares(work, &layers, &fit, sigma);
    room(work);
    stitch(work)?;
    work.reckon("sew_pleats", "floor(sew_flat / (2 * sew_stitch))")?;
    if work.result("sew_pleats")?.value < 1.0 {
        return Err(InputFault::new("sew_flat", "the swatch to sew is narrower than one pleat").into());
    }
    work.reckon("sew_width", "2 * sew_stitch * sew_pleats + 2 * sew_margin")?;
    work.reckon("sew_high", "sew_height")?;
    if let Some(stack) = &untried {
        predict(work, stack, &layers, &sewn, &fit, sigma)?;
    }
    advise(work, &fit, &layers, sewn.len());
    Ok(())
}

fn length(row: &BTreeMap<String, Value>, name: &str) -> Option<f64> {
    match row.get(name) {
        Some(Value::Quantity(quantity)) => Some(quantity.value),
        _ => None,
    }
}

fn stacks(work: &Work) -> Result<Vec<Stack>, Stop> {
    let rows = work.rows("swatches");
    if rows.is_empty() {
        return Err(InputFault::new("swatches", "there is no swatch").help("sew at least one, better three").into());
    }
    if rows.len() > MOST_SWATCHES {
        return Err(InputFault::new("swatches", "more than a hundred swatches").into());
    }
    rows.iter()
        .map(|row| match row.get("layers") {
            Some(Value::Word(text)) => Ok(read("swatches", text)?),
            _ => Err(InputFault::new("swatches", "a swatch has no layers").into()),
        })
        .collect()
}

fn sewn(work: &Work, stacks: &[Stack], layers: &[String]) -> Result<Vec<Sewn>, Stop> {
    let fault =
        |at: usize, message: &str| Stop::from(InputFault::new("swatches", format!("swatch {}: {message}", at + 1)));
    work.rows("swatches")
        .iter()
        .zip(stacks)
        .enumerate()
        .map(|(at, (row, stack))| {
            let (Some(flat), Some(tight), Some(stitch)) =
                (length(row, "flat"), length(row, "tight"), length(row, "stitch"))
            else {
                return Err(fault(at, "flat, tight or stitch is missing"));
            };
            if tight >= flat {
                return Err(fault(at, "it is as wide drawn up as it is flat"));
            }
            if 2.0 * stitch > flat {
                return Err(fault(at, "it is narrower than one pleat"));
            }
            if length(row, "eased").is_some_and(|eased| eased < tight || eased > flat) {
                return Err(fault(at, "eased lies between tight and flat"));
            }
            let pleats = flat / (2.0 * stitch);
            let words = stack.iter().map(|(name, times)| format!("{name} {times}")).collect::<Vec<_>>().join(" + ");
            Ok(Sewn { words, row: thicknesses(stack, layers), pitch: tight / pleats, pleats, ratio: flat / tight })
        })
        .collect()
}

fn ten(pitch: f64) -> Value {
    Value::Quantity(Quantity::mm(10.0 * pitch))
}

fn measured(work: &mut Work, sewn: &[Sewn], fit: &Fit) {
    let columns =
        [("layers", Show::COUNT), ("ten pleats", Show::SMALL), ("by the fit", Show::SMALL), ("ratio", Show::RATIO)];
    let rows = sewn
        .iter()
        .map(|one| {
            let ratio = Value::Quantity(Quantity::number(one.ratio));
            vec![Value::Word(one.words.clone()), ten(one.pitch), ten(fit.pitch(&one.row)), ratio]
        })
        .collect();
    let columns = columns.into_iter().map(|(name, show)| (name.to_string(), show)).collect();
    work.put_table("measured", Table { columns, rows });
    work.say("measured", "pitch = tight ÷ (flat ÷ (2 × stitch)), for each swatch");
}

/// The standard deviation of one pitch: from what the fit leaves over, and at least from the tape.
fn error(work: &mut Work, sewn: &[Sewn], fit: &Fit) -> Result<f64, Stop> {
    let reading = work.length("reading")?.base();
    #[allow(clippy::cast_precision_loss)]
    let count = sewn.len() as f64;
    let tape = sewn.iter().map(|one| (reading / 2.0 / one.pleats).powi(2)).sum::<f64>() / count;
    #[allow(clippy::cast_precision_loss)]
    let free = sewn.len().saturating_sub(fit.rank) as f64;
    let (sigma, rule) = if free > 0.0 && fit.left / free > tape {
        ((fit.left / free).sqrt(), "from how far the swatches are from the fit: √(sum of squares ÷ swatches to spare)")
    } else {
        (tape.sqrt(), "from half a mark of the tape, divided by the pleats of a swatch")
    };
    work.put("error", Length::from_base(sigma), rule);
    Ok(sigma)
}

fn shares(work: &mut Work, layers: &[String], fit: &Fit, sigma: f64) {
    let columns = [("layer", Show::COUNT), ("adds", Show::SMALL), ("give or take", Show::SMALL)];
    let rows = layers
        .iter()
        .enumerate()
        .map(|(at, layer)| {
            let mut alone = vec![0.0; layers.len()];
            alone.iter_mut().skip(at).take(1).for_each(|entry| *entry = 1.0);
            if !fit.tells(&alone) {
                let word = |text: &str| Value::Word(text.to_string());
                return vec![word(layer), word("cannot be told apart"), word("")];
            }
            let spread = 2.0 * sigma * fit.leverage(&alone).sqrt();
            vec![Value::Word(layer.clone()), ten(fit.pitch(&alone)), ten(spread)]
        })
        .collect();
    let columns = columns.into_iter().map(|(name, show)| (name.to_string(), show)).collect();
    work.put_table("shares", Table { columns, rows });
    work.say(
        "shares",
        "the shares that come nearest to all swatches together, by least squares; give or take twice their spread",
    );
}

fn room(work: &mut Work) {
    let rooms: Vec<f64> = work
        .rows("swatches")
        .iter()
        .filter_map(|row| Some(length(row, "eased")? / length(row, "tight")? - 1.0))
        .collect();
    if let Some(least) = rooms.iter().copied().reduce(f64::min) {
        work.put("room", Ratio::from_base(least), "the least of eased ÷ tight − 1 among the swatches");
    }
}

fn stitch(work: &mut Work) -> Result<(), Stop> {
    if work.has("stitch") {
        work.reckon("sew_stitch", "stitch")?;
        return Ok(());
    }
    let first = work.rows("swatches").first().and_then(|row| length(row, "stitch")).unwrap_or_default();
    work.put("sew_stitch", Length::from_base(first), "that of the first swatch");
    Ok(())
}

fn predict(
    work: &mut Work,
    stack: &Stack,
    layers: &[String],
    sewn: &[Sewn],
    fit: &Fit,
    sigma: f64,
) -> Result<(), Stop> {
    let asked = thicknesses(stack, layers);
    if !fit.tells(&asked) {
        work.put_word("basis", "nowhere: the swatches cannot tell");
        let together: Vec<&str> = stack.iter().map(|(name, _)| name.as_str()).collect();
        work.out_of_reach(format!(
            "the swatches say nothing certain about {} stacked in this way: no mixture of what was sewn makes it",
            together.join(" and ")
        ));
        return Ok(());
    }
    let furthest = sewn.iter().map(|one| fit.leverage(&one.row)).fold(0.0, f64::max);
    let leverage = fit.leverage(&asked);
    let thicker = (0..layers.len()).any(|at| {
        let most = sewn.iter().filter_map(|one| one.row.get(at)).copied().fold(0.0, f64::max);
        asked.get(at).is_some_and(|times| *times > most)
    });
    let tried = sewn.iter().any(|one| one.row == asked);
    let beyond = !tried && (thicker || leverage > furthest + 1e-9);
    let basis = match (tried, beyond) {
        (true, _) => "at a swatch that was sewn",
        (_, true) => "beyond the swatches",
        _ => "within the swatches",
    };
    work.put_word("basis", basis);
    let pitch = fit.pitch(&asked);
    if pitch <= 0.0 {
        work.out_of_reach(
            "by these swatches the stacking would take no seam at all, which cannot be: measure them again",
        );
        return Ok(());
    }
    let terms: Vec<String> = stack
        .iter()
        .zip(stack.iter().map(|(name, _)| layers.iter().position(|layer| layer == name)))
        .filter_map(|((name, times), at)| {
            let share = Length::from_base(*fit.shares.get(at?)?);
            Some(format!("{times} × {name} ({:.4} in)", share.to_inches()))
        })
        .collect();
    work.put("pitch", Length::from_base(pitch), terms.join(" + "));
    work.put(
        "spread",
        Length::from_base(sigma * (1.0 + leverage).sqrt()),
        format!("error × √(1 + {leverage:.2}), the distance from what was sewn"),
    );
    work.reckon("low", "max(pitch - 2 * spread, pitch / 10)")?;
    work.reckon("high", "pitch + 2 * spread")?;
    work.reckon("ten_pleats", "10 * pitch")?;
    work.reckon("ratio", "2 * sew_stitch / pitch")?;
    work.reckon("ratio_least", "2 * sew_stitch / high")?;
    work.reckon("ratio_most", "2 * sew_stitch / low")?;
    work.reckon("sew_tight", "sew_pleats * pitch")?;
    if beyond {
        work.advise(
            "beyond-the-swatches",
            "this stacking lies beyond those that were sewn; the figure is stretched past its ground and may be further out \
             than its spread: sew it before you buy for it",
        );
    }
    let tight = both(Length::from_base(work.result("sew_tight")?.value), Show::FINE);
    work.say("sew_tight", format!("a prediction and not a measurement: sew it, and if it does not draw up to about {tight}, believe the swatch"));
    Ok(())
}

fn advise(work: &mut Work, fit: &Fit, layers: &[String], swatches: usize) {
    if swatches <= fit.rank {
        work.advise(
            "no-swatch-to-spare",
            "there are as many unknown shares as swatches, so nothing checks them; one swatch more would show a mismeasured one",
        );
    }
    let negative: Vec<&str> = layers
        .iter()
        .enumerate()
        .filter(|(at, _)| {
            let alone: Vec<f64> = (0..layers.len()).map(|other| f64::from(u8::from(other == *at))).collect();
            fit.tells(&alone) && fit.pitch(&alone) < 0.0
        })
        .map(|(_, layer)| layer.as_str())
        .collect();
    if !negative.is_empty() {
        work.advise(
            "less-than-nothing",
            format!(
                "by these swatches {} would take less than no room; one of them is mismeasured, or was drawn up harder",
                negative.join(" and ")
            ),
        );
    }
}

#[cfg(test)]
#[path = "tests/swatch.rs"]
mod tests;
