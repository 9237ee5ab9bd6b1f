//! Tucks: folds stitched down across a width.

use super::answer::Table;
use super::given::InputFault;
use super::ruler::{count_to, down, number, up, value, written};
use super::technique::{Input, Output, Technique};
use super::words::{both, plural};
use super::work::{Stop, Work};
use crate::units::{Length, Show};

/// `n` tucks leave `n − 1` gaps between the margins; each tuck uses twice its depth.
pub const TUCKS: Technique = Technique {
    name: "tucks",
    title: "Tucks",
    summary: "How many tucks fill a width, how much cloth they take, and where each is folded and stitched.",
    detail: "A tuck is a fold stitched down along its length. It takes twice its depth out of the cloth and nothing \
             else, so the flat width is the finished width and two depths for each tuck. Between n tucks lie n − 1 \
             gaps. The margins at both ends are apart from them, and are usually where the seams go.\n\n\
             The gap is measured from one line of stitching to the next. Where it is as wide as the tuck is deep, \
             each fold touches the stitching of its neighbour (blind tucks). Where it is narrower they lap. A front \
             39 cm wide with margins of 1.5 cm and gaps of 1.2 cm has 30 gaps and 31 tucks (National Instructional \
             Media Institute, Dress Making, vol. 2).\n\n\
             Tuck the cloth first and cut the piece afterwards wherever you can. Fine tucks shrink a little more \
             than reckoned, by the thickness of each fold, and a panel tucked generously can be trimmed.",
    inputs: &[
        Input::length("width", "the finished width, margins and all"),
        Input::length("depth", "how deep a tuck is, from its stitching to its fold").shown(Show::FINE),
        Input::length("gap", "from one line of stitching to the next; it is corrected so that the gaps come out even")
            .shown(Show::FINE)
            .optional(),
        Input::count("count", "the number of tucks, where it is fixed").optional(),
        Input::length("margin", "the plain width before the first tuck and after the last")
            .or_nothing()
            .or("1/2 in", "room for a seam beside the first tuck (common practice)"),
        Input::length("available", "the flat width of cloth there is").optional(),
    ],
    outputs: &[
        Output::new("gaps", Show::COUNT, "gaps"),
        Output::new("tucks", Show::COUNT, "tucks"),
        Output::new("gap_width", Show::FINE, "stitching to stitching"),
        Output::new("taken", Show::LENGTH, "cloth taken by all tucks"),
        Output::new("flat", Show::LENGTH, "flat width"),
        Output::new("ratio", Show::RATIO, "ratio"),
        Output::new("open", Show::FINE, "plain cloth seen between two tucks"),
        Output::new("marks", Show::FINE, "where to fold and stitch, from the edge of the finished width"),
    ],
    example: &[("width", "39 cm"), ("depth", "6 mm"), ("gap", "1.2 cm"), ("margin", "1.5 cm")],
    work: tucks,
};

const SHOWN: [&str; 4] = ["tucks", "gap_width", "taken", "flat"];

fn tucks(work: &mut Work) -> Result<(), Stop> {
    let (width, margin) = (work.length("width")?, work.length("margin")?);
    if margin * 2.0 >= width {
        return Err(InputFault::new("margin", "the two margins leave no width for tucks").into());
    }
    match (work.has("gap"), work.has("count")) {
        (true, false) => {
            work.reckon("gaps", "max(1, round((width - 2 * margin) / gap))")?;
        }
        (false, true) if work.quantity("count")?.value < 1.5 => {
            return Err(InputFault::new("count", "one tuck has no gap: a single tuck takes twice its depth").into());
        }
        (false, true) => {
            work.reckon("gaps", "count - 1")?;
        }
        (both_given, _) => {
            let message = if both_given { "both `gap` and `count` are given" } else { "this input is missing" };
            return Err(InputFault::new("gap", message).help("give either `gap` or `count`").into());
        }
    }
    if work.result("gaps")?.value > 2000.0 {
        return Err(InputFault::new("gap", "this makes more than two thousand tucks; is the unit right?").into());
    }
    work.reckon("tucks", "gaps + 1")?;
    work.reckon("gap_width", "(width - 2 * margin) / gaps")?;
    work.reckon("taken", "2 * depth * tucks")?;
    work.reckon("flat", "width + taken")?;
    work.reckon("ratio", "flat / width")?;
    work.reckon("open", "max(0 in, gap_width - depth)")?;
    marks(work)?;
    reach(work)?;
    let (gap, depth) = (work.result("gap_width")?.value, work.length("depth")?.base());
    if depth > gap * (1.0 + 1e-6) {
        work.advise(
            "tucks-lap",
            "the tucks are deeper than the gaps, so each lies over the stitching of the next: stitch each one and \
             press it before you fold its neighbour",
        );
    }
    if depth > margin.base() + 1e-6 {
        work.advise("tuck-in-seam", "the outermost tuck reaches past the margin and would be caught in the seam");
    }
    Ok(())
}

fn marks(work: &mut Work) -> Result<(), Stop> {
    let (margin, depth) = (work.length("margin")?, work.length("depth")?);
    let step = Length::from_base(work.result("gap_width")?.value) + depth * 2.0;
    let rows = count_to(work.result("tucks")?.value)
        .map(|tuck| {
            let first = margin + step * tuck;
            vec![number(tuck + 1.0), value(first), value(first + depth), value(first + depth * 2.0)]
        })
        .collect();
    let columns = vec![
        ("tuck".into(), Show::COUNT),
        ("stitch".into(), Show::FINE),
        ("fold".into(), Show::FINE),
        ("stitched to".into(), Show::FINE),
    ];
    work.put_table("marks", Table { columns, rows });
    work.say("marks", "on the flat cloth, all from the one edge, so that no error is carried on to the next");
    Ok(())
}

fn reach(work: &mut Work) -> Result<(), Stop> {
    let Some(available) = work.maybe_length("available") else { return Ok(()) };
    let (flat, width) = (Length::from_base(work.result("flat")?.value), work.length("width")?);
    if flat.base() <= available.base() + 1e-6 {
        return Ok(());
    }
    work.out_of_reach(format!(
        "the tucks use {} of cloth, and there are {}: {} are lacking",
        both(flat, Show::LENGTH_UP),
        both(available, Show::LENGTH_DOWN),
        both(flat - available, Show::LENGTH_UP)
    ));
    let (count, depth) = (work.result("tucks")?.value, work.length("depth")?);
    let spare = available - width;
    let shallow = down(spare / (2.0 * count), 16.0);
    if shallow > Length::ZERO {
        let change = format!("tucks {} deep instead of {}", both(shallow, Show::FINE), both(depth, Show::FINE));
        work.propose(&change, &[("depth", value(shallow))], 1.0 - shallow / depth, &SHOWN);
    }
    let fewer = (spare / (depth * 2.0) + 1e-9).floor();
    if fewer >= 2.0 {
        let change = format!("{} instead of {count:.0}", plural(fewer, "tuck", "tucks"));
        let cost = 1.0 - fewer / count;
        if work.is_given("gap") {
            let between = width - work.length("margin")? * 2.0;
            work.propose(&change, &[("gap", value(written(between / (fewer - 1.0))))], cost, &SHOWN);
        } else {
            work.propose(&change, &[("count", number(fewer))], cost, &SHOWN);
        }
    }
    let need = up(flat, 8.0);
    let change = format!("find {} of flat width", both(need, Show::LENGTH));
    work.propose(&change, &[("available", value(need))], need / available - 1.0, &SHOWN);
    Ok(())
}

#[cfg(test)]
#[path = "tests/tucks.rs"]
mod tests;
