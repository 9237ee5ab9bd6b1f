//! Straight panels out of cloth widths.

use super::answer::Table;
use super::given::{InputFault, Value};
use super::panels_share::{on_centimetres, on_inches, shared};
use super::technique::{Input, Output, Technique};
use super::words::{both, plural};
use super::work::{Stop, Work};
use crate::units::{Count, Length, Quantity, Show};

/// `available = panels × (usable width − 2 joins) − opening`; cut down to a flat width, the panels are
/// shared out in whole steps of the ruler, so that what is cut makes exactly what is needed.
pub const PANELS: Technique = Technique {
    name: "panels",
    title: "Straight panels",
    summary: "How many widths of cloth make a skirt, how wide each panel is cut, and what they come to when they are joined.",
    detail: "Each panel loses its selvages, because they are woven tighter than the cloth and pull when they are \
             washed, and it loses a seam allowance on both edges where it is joined to the next. A skirt that closes \
             into a ring has as many joins as panels. The placket takes what its laps take. What is left is the \
             width that can be pleated or gathered.\n\n\
             Use whole panels if you can: the same cutting for every size, straight edges that were straight \
             already, and nothing wasted. Where a smaller width is asked for, each panel is cut to a mark of the \
             ruler, and the panels differ by at most one such mark so that together they make the width asked for. \
             Rounding each panel by itself would not: six panels, each a sixteenth too wide, are three eighths too \
             much at the waist. Inches and centimetres are shared out apart, because a width that is even in the \
             one is not even in the other. Use one ruler and not both.",
    inputs: &[
        Input::length("cloth_width", "the width of the cloth, selvage to selvage"),
        Input::length("selvage", "what is cut off at each selvage")
            .or_nothing()
            .or("1/2 in", "the woven edge and its pin holes (common practice)"),
        Input::length("join", "the seam allowance on each edge that is joined")
            .or_nothing()
            .or("5/8 in", "the usual allowance of home sewing (common practice)"),
        Input::length("opening", "the width that the placket or closing takes out of the whole")
            .or_nothing()
            .or("0 in", "a placket whose laps lie within its own seam takes nothing"),
        Input::flag("ring", "the panels close into a ring; an open edge loses as much as a join, but is no join")
            .or("yes", "a skirt does, with its opening in a seam"),
        Input::length("flat", "the finished flat width wanted, all round").optional(),
        Input::count("panels", "how many panels to use; left out, as many as the flat width needs").optional(),
        Input::small("step", "panels are cut to marks of this, on a ruler in inches")
            .or("1/8 in", "the marks of a cutting ruler"),
        Input::small("step_metric", "panels are cut to marks of this, on a ruler in centimetres")
            .or("1 mm", "the marks of a cutting ruler"),
        Input::length("length", "the cut length of a panel").optional(),
        Input::lengths("other_widths", "other widths the cloth is sold in").optional(),
    ],
    outputs: &[
        Output::new("usable", Show::LENGTH_DOWN, "cloth width without selvages"),
        Output::new("finished_panel", Show::LENGTH_DOWN, "a whole panel between its seam lines"),
        Output::new("count", Show::COUNT, "panels"),
        Output::new("joins", Show::COUNT, "joins"),
        Output::new("available", Show::LENGTH_DOWN, "flat width of all panels used whole"),
        Output::new("used", Show::LENGTH, "flat width made"),
        Output::new("total_cut", Show::LENGTH, "all panels side by side, as cut"),
        Output::new("widest", Show::LENGTH_UP, "cut width of the widest panel"),
        Output::new("widths", Show::FINE, "cut width of each panel"),
        Output::new("offcut", Show::LENGTH_DOWN, "left over of each width of cloth"),
        Output::new("cloth", Show::CLOTH, "cloth for the panels").when("where the length of a panel is given"),
    ],
    example: &[("cloth_width", "45 in"), ("flat", "130 in"), ("opening", "1 in"), ("length", "42 in")],
    work: panels,
};

/// More panels than this are a slip in a unit.
pub(super) const MOST_PANELS: f64 = 1000.0;

fn panels(work: &mut Work) -> Result<(), Stop> {
    let usable = work.reckon("usable", "cloth_width - 2 * selvage")?.value;
    if usable <= 0.0 {
        return Err(InputFault::new("selvage", "the selvages take the whole width of the cloth").into());
    }
    let finished = work.reckon("finished_panel", "usable - 2 * join")?.value;
    if finished <= 0.0 {
        return Err(InputFault::new("join", "the joins take the whole width of a panel").into());
    }
    let asked = work.maybe_length("flat");
    let count = match (work.has("panels"), asked) {
        (true, _) => work.reckon("count", "panels")?.value,
        (false, Some(_)) => work.reckon("count", "ceil((flat + opening) / finished_panel)")?.value,
        (false, None) => {
            let fault = InputFault::new("panels", "neither a number of panels nor a flat width is given");
            return Err(fault
                .help("give `panels` to see what they come to, or `flat` to see how many it takes")
                .into());
        }
    };
    if count > MOST_PANELS {
        return Err(InputFault::new("flat", format!("this takes {count:.0} panels, more than any skirt")).into());
    }
    work.reckon("joins", if work.flag("ring") { "count" } else { "count - 1" })?;
    let available = work.reckon("available", "count * finished_panel - opening")?.value;
    if available <= 0.0 {
        return Err(InputFault::new("opening", "the opening takes all the width there is").into());
    }
    let short = asked.map_or(0.0, |flat| flat.base() - available);
    if asked.is_none() || short > 0.0 {
        work.reckon("used", "available")?;
    } else {
        work.reckon("used", "flat")?;
    }
    work.reckon("total_cut", "used + opening + 2 * join * count")?;
    widths(work, count, usable)?;
    if work.has("length") {
        work.reckon("cloth", "count * length")?;
    }
    if let Some(flat) = asked.filter(|_| short > 1e-6) {
        work.out_of_reach(format!(
            "{} of this cloth make {}, and {} is asked for: {} too little",
            plural(count, "panel", "panels"),
            both(Length::from_base(available), Show::LENGTH_DOWN),
            both(flat, Show::LENGTH),
            both(Length::from_base(short), Show::LENGTH_UP)
        ));
        propose(work, flat, count, finished, available)?;
    }
    advise(work, count, asked)
}

fn widths(work: &mut Work, count: f64, usable: f64) -> Result<(), Stop> {
    let total = work.result("total_cut")?.value;
    let inches = shared(total, count, work.length("step")?.base(), usable);
    let centimetres = shared(total, count, work.length("step_metric")?.base(), usable);
    let widest = inches.iter().copied().fold(0.0, f64::max);
    work.put("widest", Length::from_base(widest), "the widest of the panels, in inches");
    let words = |text: String| Value::Word(text);
    let table = Table {
        columns: vec![
            ("panel".to_string(), Show::COUNT),
            ("with an inch ruler".to_string(), Show::FINE),
            ("with a centimetre ruler".to_string(), Show::FINE),
        ],
        rows: inches
            .iter()
            .zip(&centimetres)
            .enumerate()
            .map(|(index, (inch, cm))| {
                vec![
                    Value::Quantity(Count(index as u64 + 1).into()),
                    words(on_inches(*inch)),
                    words(on_centimetres(*cm)),
                ]
            })
            .collect(),
    };
    work.put_table("widths", table);
    let remark = if (total - count * usable).abs() < 1e-6 {
        "every panel is a whole width of cloth, selvages off"
    } else {
        "the whole as cut, shared out in marks of the ruler, each ruler by itself: together the panels make it, and no two \
         differ by more than one mark"
    };
    work.say("widths", remark);
    work.reckon("offcut", "usable - widest")?;
    Ok(())
}

fn propose(work: &mut Work, flat: Length, count: f64, finished: f64, available: f64) -> Result<(), Stop> {
    let opening = work.length("opening")?.base();
    let shown = ["count", "used", "widest", "cloth"];
    let more = ((flat.base() + opening) / finished - 1e-9).ceil();
    let change = format!("{} instead of {count:.0}", plural(more, "panel", "panels"));
    work.propose(&change, &[("panels", Value::Quantity(Quantity::number(more)))], (more - count) / count, &shown);
    let now = work.length("cloth_width")?;
    for width in work.lengths("other_widths") {
        let change = format!("cloth {} wide", both(width, Show::LENGTH));
        work.propose(&change, &[("cloth_width", Value::Quantity(width.into()))], (width / now - 1.0).abs(), &shown);
    }
    let eighth = Length::INCH.base() / 8.0;
    let fits = Length::from_base((available / eighth + 1e-6).floor() * eighth);
    let change = format!("make do with {} of flat width", both(fits, Show::LENGTH_DOWN));
    work.propose(&change, &[("flat", Value::Quantity(fits.into()))], 1.0 - fits / flat, &shown);
    Ok(())
}

fn advise(work: &mut Work, count: f64, asked: Option<Length>) -> Result<(), Stop> {
    if work.flag("ring") && count > 1.5 && (count / 2.0).fract() < 1e-9 {
        work.advise(
            "join-at-centre-front",
            format!(
                "with {count:.0} panels and the opening in a seam at the centre back, another seam lies at the centre \
                 front: put half a panel's width from the opening to the first seam, and cut the opening as a slit"
            ),
        );
    }
    let fewer = work.result("finished_panel")?.value * (count - 1.0) - work.length("opening")?.base();
    if let Some(flat) = asked
        && fewer > 0.0
        && fewer < flat.base()
        && (flat.base() - fewer) < 0.15 * work.result("finished_panel")?.value
    {
        work.advise(
            "one-panel-for-little",
            format!(
                "the last panel is there for {} alone; with {} you would have {}",
                both(flat - Length::from_base(fewer), Show::LENGTH),
                plural(count - 1.0, "panel", "panels"),
                both(Length::from_base(fewer), Show::LENGTH_DOWN)
            ),
        );
    }
    if work.length("selvage")?.base() == 0.0 {
        work.advise(
            "selvages-kept",
            "selvages left in a seam draw it up when the skirt is washed; snip them every two inches",
        );
    }
    Ok(())
}

#[cfg(test)]
#[path = "tests/panels.rs"]
mod tests;
