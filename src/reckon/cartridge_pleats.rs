//! Cartridge pleats: from a swatch to a seam, with the grid to mark and what to do out of reach.

use std::collections::BTreeMap;

use super::given::{InputFault, Value};
use super::technique::{Input, Output, Technique};
use super::words::{both, plural};
use super::work::{Stop, Work};
use crate::units::{Length, Quantity, Show};

/// One pleat uses two stitches of cloth and one pitch of seam: `pleats = flat / 2 stitch`,
/// `ratio = 2 stitch / pitch`; the pitch is the swatch's, from tight to as far as it was eased.
pub const CARTRIDGE_PLEATS: Technique = Technique {
    name: "cartridge-pleats",
    title: "Cartridge pleats",
    summary: "How many cartridge pleats take a width of cloth into a seam, by a swatch, and the grid to mark for them.",
    detail: "Cartridge pleats (gauging) are rows of even running stitches drawn up until the cloth stands in \
             narrow tubes. A stitch of 1/4 in makes a pleat 1/4 in deep, and that pleat uses twice as much cloth: \
             once out and once back. How much of the seam each pleat takes is its pitch, and no formula knows it. \
             Thick cloth takes more than thin, a folded edge more than a raw one, a hard pull less than a soft one. \
             So a swatch decides. Pleat a piece of the same layers, draw it up as hard as you mean to, and measure it \
             flat and drawn up: that is the tight pitch, and no seam can be shorter than that. Then let it out as far \
             as you still like the look of it and measure again: that is the eased pitch, and no seam should be \
             longer.\n\n\
             Between the two lies the room in which one width of cloth fits more than one size. Whole panels are used \
             as they come from the cloth, and the easing takes up the difference, so that most sizes need no panel \
             cut down. The pleats come out as a multiple of four where the seam is matched at quarters, so that each \
             quarter holds the same number.\n\n\
             Another stitch with the same layers keeps the pitch and changes the ratio: half the stitch, half the \
             ratio. That is a prediction and not a measurement, and it is called one here until you have sewn it. \
             Twelve inches of a four-thickness edge stitched at 1/4 in draw up to about 2 in, six to one (common \
             practice, no source); yours will differ.",
    inputs: &[
        Input::length("swatch_flat", "the width of the swatch laid flat, from the first stitch to the last"),
        Input::length("swatch_tight", "the same swatch drawn up as tight as you mean to draw the garment")
            .shown(Show::FINE),
        Input::length("swatch_eased", "the same swatch let out as far as it still looks right")
            .shown(Show::FINE)
            .optional(),
        Input::small("swatch_stitch", "the length of one stitch in the swatch"),
        Input::length("seam", "the length of the seam the pleats are sewn to, on the seam line, along the curve"),
        Input::count("panels", "how many panels make the width to be pleated").optional(),
        Input::length("panel_width", "the width of one panel between its seam lines").optional(),
        Input::length("available", "the flat width there is to pleat, at the seam line, opening and joins taken off")
            .or("panels * panel_width", "all the panels there are, used whole"),
        Input::small("stitch", "the length of one stitch in the garment")
            .or("swatch_stitch", "the stitch that was tried is the only one that is known"),
        Input::lengths("stitches", "other stitches you would mark, to choose from where this one does not reach")
            .shown(Show::SMALL)
            .optional(),
        Input::count("multiple", "the pleats come out as a multiple of this: 4 to match quarters, 2 to match halves")
            .or("4", "the seam is matched at both centres and both sides"),
        Input::choice(
            "take",
            &["all", "what-fits"],
            "`all` pleats the whole width; `what-fits` cuts the panels down where there is more than the seam can hold",
        )
        .or("all", "whole panels need no cutting down"),
        Input::count("rows", "rows of stitches")
            .or("3", "one row twists, two hold, the third makes the tubes stand (common practice)"),
        Input::small("row_spacing", "the distance from one row to the next").or(
            "1/2 in",
            "far enough apart to form a tube, near enough that the cloth cannot fold between (common practice)",
        ),
        Input::small("first_row", "the distance of the first row from the folded top edge")
            .or("1/4 in", "just below the fold, so that the tops stay firm and even (common practice)"),
        Input::count("guide_every", "a guide line is ruled upright at each so many stitches")
            .or("4", "four stitches are judged by eye between two lines without counting (common practice)"),
        Input::length("tail", "thread left at each end of a row")
            .or("6 in", "long enough to wind round a pin and to knot (common practice)"),
        Input::count("runs", "how many lengths the top edge is drawn up in, each with threads of its own").or(
            "2",
            "half the skirt at a time; a thread much over two yards frays and snaps while it is drawn (common practice)",
        ),
        Input::length("flare", "how much longer each row below the first is let out than the one above it")
            .shown(Show::FINE)
            .or_nothing()
            .or("0 in", "all rows drawn up alike make straight tubes"),
        Input::rows(
            "others",
            &[
                Input::words("name", "what this stacking is called"),
                Input::length("flat", "the width of that swatch laid flat"),
                Input::length("tight", "that swatch drawn up tight").shown(Show::FINE),
                Input::small("stitch", "the stitch of that swatch"),
                Input::length("eased", "that swatch let out as far as it still looks right").shown(Show::FINE).optional(),
            ],
            "swatches of other stackings of the same cloths, to choose from where this one does not reach",
        )
        .optional(),
    ],
    outputs: &[
        Output::new("tight_pitch", Show::SMALL, "seam taken by one pleat, drawn tight"),
        Output::new("eased_pitch", Show::SMALL, "seam taken by one pleat, eased")
            .when("where the swatch was measured eased"),
        Output::new("fewest", Show::COUNT, "fewest pleats that fill the seam")
            .when("where the swatch was measured eased"),
        Output::new("most", Show::COUNT, "most pleats the seam can hold"),
        Output::new("offered", Show::COUNT, "pleats the cloth gives"),
        Output::new("pleats", Show::COUNT, "pleats"),
        Output::new("flat", Show::LENGTH, "flat width pleated"),
        Output::new("spare", Show::LENGTH, "width left over"),
        Output::new("pitch", Show::SMALL, "seam taken by one pleat"),
        Output::new("ten_pleats", Show::FINE, "seam taken by ten pleats"),
        Output::new("ratio", Show::RATIO, "ratio"),
        Output::new("easing", Show::PERCENT, "easing over tight"),
        Output::new("room", Show::PERCENT, "easing the swatch bears").when("where the swatch was measured eased"),
        Output::new("pleat_depth", Show::SMALL, "depth of a pleat"),
        Output::new("stitch_spaces", Show::COUNT, "stitch spaces in a row"),
        Output::new("dots", Show::COUNT, "dots in all rows"),
        Output::new("guide_space", Show::SMALL, "from guide line to guide line"),
        Output::new("guides", Show::COUNT, "guide lines"),
        Output::new("last_row", Show::SMALL, "last row from the fold"),
        Output::new("row_lengths", Show::FINE, "length of each row, drawn up"),
        Output::new("thread", Show::THREAD, "gathering thread"),
        Output::new("ends", Show::COUNT, "thread ends to fasten"),
        Output::new("sewing_stitches", Show::COUNT, "stitches to sew the pleats on"),
        Output::new("part_pleats", Show::COUNT, "pleats between two matching marks"),
        Output::new("part_seam", Show::LENGTH, "seam between two matching marks"),
        Output::new("part_flat", Show::LENGTH, "flat width between two matching marks"),
        Output::new("panel_pleats", Show::COUNT, "pleats on each panel").when("where the panels are counted"),
    ],
    example: &[
        ("swatch_flat", "12 in"),
        ("swatch_tight", "2 in"),
        ("swatch_eased", "2 3/16 in"),
        ("swatch_stitch", "1/4 in"),
        ("seam", "26 in"),
        ("panels", "4"),
        ("panel_width", "36 in"),
    ],
    work: cartridge_pleats,
};

fn cartridge_pleats(work: &mut Work) -> Result<(), Stop> {
    check_swatch(work)?;
    work.reckon("tight_pitch", "swatch_tight / (swatch_flat / (2 * swatch_stitch))")?;
    let eased = work.has("swatch_eased");
    if eased {
        work.reckon("eased_pitch", "swatch_eased / (swatch_flat / (2 * swatch_stitch))")?;
        work.reckon("room", "eased_pitch / tight_pitch - 1")?;
        work.reckon("fewest", "ceil(seam / eased_pitch, multiple)")?;
    }
    let most = work.reckon("most", "floor(seam / tight_pitch, multiple)")?.value;
    let offered = work.reckon("offered", "floor(available / (2 * stitch), multiple)")?.value;
    check_count(work, most, offered)?;
    let pleats = match work.word("take") {
        "what-fits" => work.reckon("pleats", "min(offered, most)")?,
        _ => work.reckon("pleats", "offered")?,
    }
    .value;
    work.reckon("flat", "2 * stitch * pleats")?;
    work.reckon("spare", "available - flat")?;
    work.reckon("pitch", "seam / pleats")?;
    work.reckon("ten_pleats", "10 * pitch")?;
    work.reckon("ratio", "flat / seam")?;
    let easing = work.reckon("easing", "pitch / tight_pitch - 1")?.value;
    grid(work)?;
    parts(work, pleats)?;
    reach(work, pleats)?;
    advise(work, easing, eased)
}

fn check_swatch(work: &Work) -> Result<(), Stop> {
    let (flat, tight) = (work.length("swatch_flat")?, work.length("swatch_tight")?);
    if tight >= flat {
        return Err(InputFault::new("swatch_tight", "the swatch is as wide drawn up as it is flat")
            .help("measure it flat before the threads are drawn, and tight after")
            .into());
    }
    if work.maybe_length("swatch_eased").is_some_and(|eased| eased < tight || eased > flat) {
        return Err(InputFault::new("swatch_eased", "an eased swatch lies between tight and flat")
            .help("draw it up tight and measure, then let it out and measure again")
            .into());
    }
    if work.length("swatch_stitch")? * 2.0 > flat {
        return Err(InputFault::new("swatch_stitch", "the swatch is narrower than one pleat of this stitch").into());
    }
    Ok(())
}

/// Tables of more than this are of no use to anyone with a needle.
const MOST_PLEATS: f64 = 100_000.0;

fn check_count(work: &Work, most: f64, offered: f64) -> Result<(), Stop> {
    let multiple = work.quantity("multiple")?.value;
    if offered < multiple {
        let need = both(work.length("stitch")? * (2.0 * multiple), Show::LENGTH_UP);
        return Err(InputFault::new("available", format!("the cloth gives fewer than {multiple:.0} pleats"))
            .help(format!("{multiple:.0} pleats of this stitch use {need}"))
            .into());
    }
    if offered > MOST_PLEATS {
        return Err(InputFault::new("stitch", format!("this gives {offered:.0} pleats, more than anyone can sew"))
            .help("a stitch is an eighth to half an inch long; is the unit right?")
            .into());
    }
    if most < multiple {
        return Err(InputFault::new("seam", format!("the seam is too short for {multiple:.0} pleats of this swatch"))
            .help("a smaller `multiple`, or a swatch that draws up tighter")
            .into());
    }
    Ok(())
}

fn grid(work: &mut Work) -> Result<(), Stop> {
    work.reckon("pleat_depth", "stitch")?;
    work.reckon("stitch_spaces", "2 * pleats")?;
    work.reckon("dots", "rows * (stitch_spaces + 1)")?;
    work.reckon("guide_space", "guide_every * stitch")?;
    work.reckon("guides", "ceil(stitch_spaces / guide_every) + 1")?;
    work.reckon("last_row", "first_row + (rows - 1) * row_spacing")?;
    let rows = work.count("rows")?.0;
    if rows > 100 {
        return Err(InputFault::new("rows", "more than a hundred rows of stitches")
            .help("three to five are usual")
            .into());
    }
    let (seam, flare) = (work.length("seam")?, work.length("flare")?);
    #[allow(clippy::cast_precision_loss)]
    let lengths: Vec<Length> = (0..rows).map(|row| seam + flare * row as f64).collect();
    let flat = work.result("flat")?.value;
    if flare > Length::ZERO && lengths.last().is_some_and(|last| last.base() > flat) {
        return Err(InputFault::new("flare", "the last row would be let out to more than the cloth is wide")
            .help("a flare of an inch or two from the first row to the last is already a spring over the hip")
            .into());
    }
    work.put_list("row_lengths", lengths, "the first row is the seam; each row below it is longer by the flare");
    work.reckon("thread", "rows * (flat + 2 * runs * tail)")?;
    work.reckon("ends", "2 * rows * runs")?;
    work.reckon("sewing_stitches", "pleats")?;
    Ok(())
}

fn parts(work: &mut Work, pleats: f64) -> Result<(), Stop> {
    work.reckon("part_pleats", "pleats / multiple")?;
    work.reckon("part_seam", "seam / multiple")?;
    work.reckon("part_flat", "flat / multiple")?;
    if !work.has("panels") {
        return Ok(());
    }
    let panels = work.quantity("panels")?.value;
    if panels > 1000.0 {
        return Err(InputFault::new("panels", "more than a thousand panels").into());
    }
    let upto = |panel: f64| (pleats * panel / panels).round();
    let mut list = Vec::new();
    let mut panel = 0.0;
    while panel < panels {
        list.push(Quantity::number(upto(panel + 1.0) - upto(panel)));
        panel += 1.0;
    }
    work.put_list(
        "panel_pleats",
        list,
        "the pleats divided over the panels in whole pleats; together they are all of them",
    );
    if (pleats / panels).fract() > 1e-9 {
        work.advise(
            "join-in-pleat",
            "the pleats do not divide evenly by the panels, so some joins fall inside a pleat: mark the rows straight \
             across the joined panels, and shift a join that shows into the valley behind its pleat",
        );
    }
    Ok(())
}

/// Whether the pleats fit the seam, and what would make them.
fn reach(work: &mut Work, pleats: f64) -> Result<(), Stop> {
    let seam = work.length("seam")?;
    let tight = Length::from_base(work.result("tight_pitch")?.value) * pleats;
    let eased = work.result("eased_pitch").ok().map(|pitch| Length::from_base(pitch.value) * pleats);
    let hair = 1e-9 * seam.base();
    let count = plural(pleats, "pleat", "pleats");
    let wanted = if tight.base() > seam.base() + hair {
        work.out_of_reach(format!(
            "drawn as tight as the swatch, {count} still measure {}; the seam is {}, which is {} too short for them",
            both(tight, Show::LENGTH),
            both(seam, Show::LENGTH),
            both(tight - seam, Show::FINE)
        ));
        work.result("most")?.value
    } else if let Some(eased) = eased.filter(|eased| eased.base() < seam.base() - hair) {
        work.out_of_reach(format!(
            "let out as far as the swatch, {count} reach only {}; the seam is {}, which is {} too long for them",
            both(eased, Show::LENGTH),
            both(seam, Show::LENGTH),
            both(seam - eased, Show::FINE)
        ));
        work.result("fewest")?.value
    } else if work.result("flat")?.value < seam.base() - hair {
        work.out_of_reach(format!(
            "{count} hold {} of cloth, and the seam is {}: there is not even as much cloth as seam",
            both(Length::from_base(work.result("flat")?.value), Show::LENGTH),
            both(seam, Show::LENGTH)
        ));
        work.result("most")?.value
    } else {
        return Ok(());
    };
    propose_stitches(work)?;
    propose_width(work, wanted)?;
    propose_stackings(work)
}

const SHOWN: [&str; 5] = ["pleats", "flat", "stitch_spaces", "ratio", "easing"];

fn propose_stitches(work: &mut Work) -> Result<(), Stop> {
    let now = work.length("stitch")?;
    for stitch in work.lengths("stitches") {
        if (stitch - now).abs() < Length::mm(1e-6) {
            continue;
        }
        let change = format!(
            "stitch {} long instead of {} (a prediction: sew a swatch)",
            both(stitch, Show::SMALL),
            both(now, Show::SMALL)
        );
        let cost = (stitch / now - 1.0).abs();
        work.propose(&change, &[("stitch", Value::Quantity(stitch.into()))], cost, &SHOWN);
    }
    Ok(())
}

/// Less or more flat width: as whole panels where they are counted, and cut to the pleats that fit.
fn propose_width(work: &mut Work, wanted: f64) -> Result<(), Stop> {
    let stitch = work.length("stitch")?;
    let available = work.length("available")?;
    let eighth = Length::INCH.base() / 8.0;
    let up = |exact: Length| Length::from_base((exact.base() / eighth - 1e-6).ceil() * eighth);
    let need = stitch * (2.0 * wanted);
    let counted = !work.is_given("available") && work.has("panels") && work.has("panel_width");
    if !counted {
        let need = up(need);
        let less = need < available;
        let word = if less { "less" } else { "more" };
        let change = format!(
            "pleat {} of cloth, {} {word} than there is",
            both(need, Show::LENGTH),
            both((need - available).abs(), Show::LENGTH)
        );
        let cost = (need / available - 1.0).abs();
        work.propose(&change, &[("available", Value::Quantity(need.into()))], cost, &SHOWN);
        return Ok(());
    }
    let (panels, width) = (work.quantity("panels")?.value, work.length("panel_width")?);
    let whole = need / width;
    for count in [whole.floor(), whole.ceil()] {
        if count < 1.0 || (count - panels).abs() < 0.5 {
            continue;
        }
        let change = format!("{} instead of {panels:.0}", plural(count, "panel", "panels"));
        let cost = (count / panels - 1.0).abs();
        work.propose(&change, &[("panels", Value::Quantity(Quantity::number(count)))], cost, &SHOWN);
    }
    let each = up(need / panels);
    let how = if each < width { "cut each panel down to" } else { "widen each panel to" };
    let change = format!("{how} {} instead of {}", both(each, Show::LENGTH), both(width, Show::LENGTH));
    let cost = (each / width - 1.0).abs();
    work.propose(&change, &[("panel_width", Value::Quantity(each.into()))], cost, &SHOWN);
    Ok(())
}

fn propose_stackings(work: &mut Work) -> Result<(), Stop> {
    let now = work.result("tight_pitch")?.value;
    let keep = work.length("stitch")?;
    for row in work.rows("others").to_vec() {
        let length = |row: &BTreeMap<String, Value>, name: &str| match row.get(name) {
            Some(Value::Quantity(quantity)) => Some(*quantity),
            _ => None,
        };
        let (Some(flat), Some(tight), Some(stitch)) =
            (length(&row, "flat"), length(&row, "tight"), length(&row, "stitch"))
        else {
            continue;
        };
        let name = match row.get("name") {
            Some(Value::Word(name)) => name.clone(),
            _ => String::new(),
        };
        let pitch = tight.value * 2.0 * stitch.value / flat.value;
        let mut inputs = vec![
            ("swatch_flat", Value::Quantity(flat)),
            ("swatch_tight", Value::Quantity(tight)),
            ("swatch_stitch", Value::Quantity(stitch)),
            ("stitch", Value::Quantity(keep.into())),
        ];
        // Without an eased measurement of its own, the other stacking bears its tight pitch and no more.
        let eased = length(&row, "eased");
        if let Some(eased) = eased.or_else(|| work.has("swatch_eased").then_some(tight)) {
            inputs.push(("swatch_eased", Value::Quantity(eased)));
        }
        let change = format!("stack the layers as in the swatch `{name}`");
        work.propose(&change, &inputs, (pitch / now - 1.0).abs(), &SHOWN);
    }
    Ok(())
}

/// Beyond this, an easing nobody has looked at is a guess: four yards are eased onto 26 in instead of
/// 24, 8.3 % (common practice, no source).
const USUAL_EASING: f64 = 0.10;

fn advise(work: &mut Work, easing: f64, eased: bool) -> Result<(), Stop> {
    let (stitch, tried) = (work.length("stitch")?, work.length("swatch_stitch")?);
    if (stitch - tried).abs() > Length::mm(1e-6) {
        work.advise(
            "prediction",
            format!(
                "the swatch was stitched at {}, the garment at {}: the pitch should stay and the ratio go with the stitch, \
                 but that is a prediction; sew a swatch at the new stitch before you cut",
                both(tried, Show::SMALL),
                both(stitch, Show::SMALL)
            ),
        );
    }
    if !eased && easing > USUAL_EASING {
        work.advise(
            "easing-not-tried",
            format!(
                "the pleats are eased {:.0} % over the tight swatch, and the swatch was never measured eased: let it out \
                 as far and look at it before you trust this",
                easing * 100.0
            ),
        );
    }
    if work.result("ratio")?.value < 2.0 {
        work.advise(
            "too-flat",
            "under 2 : 1 the tubes lie open and show the stitches; a longer stitch or more cloth makes them stand",
        );
    }
    if work.quantity("rows")?.value < 2.0 {
        work.advise("one-row", "one row of stitches lets the tubes twist; mark at least a second");
    }
    let (pleats, runs) = (work.result("pleats")?.value, work.quantity("runs")?.value);
    if (pleats / runs).fract() > 1e-9 {
        work.advise(
            "run-in-pleat",
            "the threads change in the middle of a pleat; move the change to the nearest valley",
        );
    }
    let spare = work.result("spare")?.value;
    if work.word("take") == "what-fits" && spare > 2.0 * stitch.base() * work.quantity("multiple")?.value {
        work.advise(
            "cut-down",
            format!(
                "the seam holds less cloth than there is: take {} off the panels, the same on each",
                both(Length::from_base(spare), Show::LENGTH)
            ),
        );
    }
    Ok(())
}

#[cfg(test)]
#[path = "tests/cartridge_pleats.rs"]
mod tests;
