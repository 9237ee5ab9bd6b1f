//! A circular flounce: rings that are sewn along their inner edge and flare at the outer.

use std::f64::consts::PI;

use super::answer::Table;
use super::given::{InputFault, Value};
use super::ruler::{down, number, up, value};
use super::sector::Sector;
use super::technique::{Input, Output, Technique};
use super::words::both;
use super::work::{Stop, Work};
use crate::units::{Length, Quantity, Show};

/// `radius = top × depth ÷ (bottom − top)`; the whole flounce turns through `(bottom − top) ÷ depth`.
pub const FLOUNCE: Technique = Technique {
    name: "flounce",
    title: "Circular flounce",
    summary: "The radii of a circular flounce from its seam, its depth and its lower edge, the pieces, and the \
              cloth for them.",
    detail: "A flounce has no gathers. It is cut as part of a ring, sewn along the short inner edge, and the longer \
             outer edge falls in waves. Three lengths settle it: the seam it is sewn to, its depth, and how long \
             you want its lower edge. The more the lower edge exceeds the upper, the smaller the circle it is cut \
             on. A lower edge that is longer by 2 pi depths comes from one whole ring, and more than that from \
             several.\n\n\
             The arithmetic is that of the circle skirt: a whole ring for a 26 in seam has a radius of 4.14 in, \
             whatever its depth. Each piece is joined to the next, so each is cut with an allowance at both ends. A \
             ring cut from a whole circle would have none to give, so a flounce of one whole turn is cut as two \
             halves.\n\n\
             Clip the inner allowance nearly to the stitching, or it will not open out to the seam. Finish the \
             lower edge narrow: a rolled hem or a facing. On stage a flounce of one whole turn shows its wrong \
             side, so choose a cloth that bears it.",
    inputs: &[
        Input::length("top", "the length of the seam it is sewn to, on the seam line"),
        Input::length("depth", "its finished depth, from the seam to the lower edge"),
        Input::ratio("ratio", "its lower edge over its upper").optional(),
        Input::length("bottom", "the length of its lower edge").or("ratio * top", "as full as the ratio says"),
        Input::length("seam", "the allowance inside the upper seam line")
            .or_nothing()
            .or("3/8 in", "little is left to clip (common practice)"),
        Input::length("join", "the allowance at each end of a piece")
            .or_nothing()
            .or("3/8 in", "a narrow seam falls softly (common practice)"),
        Input::length("hem", "the allowance outside the finished lower edge")
            .or_nothing()
            .or("1/4 in", "circles take 1/4 in or a rolled hem (T. Johnson, extension bulletin)"),
        Input::flag("closed", "it closes into a ring, as round a hem or a cuff").or("yes", "the commonest use"),
        Input::lengths("cloth_widths", "the widths of cloth to try")
            .or("36 in, 45 in, 54 in, 60 in", "widths in which dress goods are sold (common practice)"),
        Input::length("selvage", "what is cut off at each selvage")
            .or_nothing()
            .or("1/2 in", "the woven edge and its pin holes (common practice)"),
    ],
    outputs: &[
        Output::new("radius", Show::FINE, "radius of the upper seam"),
        Output::new("cut_radius", Show::FINE, "radius to cut for the upper edge"),
        Output::new("outer_radius", Show::FINE, "radius of the lower edge, finished"),
        Output::new("cut_outer_radius", Show::FINE, "radius to cut for the lower edge"),
        Output::new("turns", Show::NUMBER, "whole rings it makes"),
        Output::new("flare", Show::RATIO, "lower edge over upper"),
        Output::new("pieces", Show::COUNT, "fewest pieces on any width").when("where it fits"),
        Output::new("joins", Show::COUNT, "joins").when("where it fits"),
        Output::new("piece_top", Show::LENGTH, "upper edge of a piece, seam to seam").when("where it fits"),
        Output::new("piece_sweep", Show::ANGLE, "angle of a piece").when("where it fits"),
        Output::new("fits", Show::LENGTH, "on each width of cloth"),
    ],
    example: &[("top", "26 in"), ("depth", "8 in"), ("bottom", "70 in")],
    work: flounce,
};

const SHOWN: [&str; 4] = ["radius", "outer_radius", "turns", "pieces"];
/// More pieces than this on one flounce are a slip of a unit.
const MOST_PIECES: f64 = 400.0;

fn flounce(work: &mut Work) -> Result<(), Stop> {
    let (top, bottom) = (work.length("top")?, work.length("bottom")?);
    if bottom.base() <= top.base() * (1.0 + 1e-9) {
        return Err(InputFault::new("bottom", "the lower edge is no longer than the upper, so nothing flares")
            .help("a straight frill is a ruffle; a flounce needs a lower edge that is longer than its seam")
            .into());
    }
    work.reckon("radius", "top * depth / (bottom - top)")?;
    work.reckon("cut_radius", "radius - seam")?;
    work.reckon("outer_radius", "radius + depth")?;
    work.reckon("cut_outer_radius", "outer_radius + hem")?;
    let turns = work.reckon("turns", "(bottom - top) / depth / pi(2)")?.value;
    work.reckon("flare", "bottom / top")?;
    if turns > MOST_PIECES / 2.0 {
        return Err(InputFault::new(
            "bottom",
            format!("this flounce makes {turns:.0} whole rings; is the unit right?"),
        )
        .into());
    }
    if work.result("cut_radius")?.value <= 0.0 {
        return no_hole(work);
    }
    let widest = pieces(work, turns)?;
    let Some(pieces) = widest else { return too_large(work) };
    work.put("pieces", Quantity::number(pieces), "the fewest found on any width");
    let joins = if work.flag("closed") { pieces } else { pieces - 1.0 };
    let rule = if work.flag("closed") {
        "as many as pieces, closing the ring"
    } else {
        "one fewer than pieces, the ends left open"
    };
    work.put("joins", Quantity::number(joins), rule);
    work.reckon("piece_top", "top / pieces")?;
    work.reckon("piece_sweep", "360 deg * turns / pieces")?;
    advise(work)
}

/// Writes `fits`; returns the fewest pieces on any width.
fn pieces(work: &mut Work, turns: f64) -> Result<Option<f64>, Stop> {
    let (inner, outer) = (work.result("cut_radius")?.value, work.result("cut_outer_radius")?.value);
    let (edge, selvage) = (work.length("join")?.base(), work.length("selvage")?);
    let mut least: Option<f64> = None;
    let mut rows = Vec::new();
    for width in work.lengths("cloth_widths") {
        // One piece must be less than a whole turn, or it has no ends to join.
        let mut pieces = (turns + 1e-9).floor() + 1.0;
        let mut lay = None;
        while lay.is_none() && pieces <= MOST_PIECES {
            let cut = Sector { angle: 2.0 * PI * turns / pieces, inner, outer, edge };
            lay = cut.lay(pieces, width - selvage * 2.0);
            if lay.is_none() {
                pieces += 1.0;
            }
        }
        rows.push(match lay {
            Some(lay) => {
                least = Some(least.map_or(pieces, |least| least.min(pieces)));
                let how = Value::Word(lay.how.to_string());
                vec![value(width), number(pieces), how, number(lay.across), value(lay.length)]
            }
            None => {
                let no = || Value::Word("—".to_string());
                vec![value(width), no(), Value::Word("too narrow".to_string()), no(), no()]
            }
        });
    }
    let columns = vec![
        ("cloth".into(), Show::LENGTH),
        ("pieces".into(), Show::COUNT),
        ("laid with".into(), Show::LENGTH),
        ("across".into(), Show::COUNT),
        ("needed".into(), Show::CLOTH),
    ];
    work.put_table("fits", Table { columns, rows });
    work.say(
        "fits",
        "each piece in its own rectangle, all turned alike; always enough, and a nested layout may save some",
    );
    Ok(least)
}

fn no_hole(work: &mut Work) -> Result<(), Stop> {
    let (radius, seam) = (Length::from_base(work.result("radius")?.value), work.length("seam")?);
    let (top, bottom, depth) = (work.length("top")?, work.length("bottom")?, work.length("depth")?);
    work.out_of_reach(format!(
        "the radius is {} and the seam allowance {}: the allowance would close the circle before it can be clipped",
        both(radius, Show::FINE),
        both(seam, Show::FINE)
    ));
    let narrow = down(radius / 2.0, 16.0);
    let change = format!("a seam allowance of {}", both(narrow, Show::FINE));
    work.propose(&change, &[("seam", value(narrow))], 1.0 - narrow / seam, &SHOWN);
    // The radius that leaves as much hole as allowance.
    let less = down(top + top * (depth / (seam * 2.0)), 8.0);
    let change = format!("a lower edge of {} instead of {}", both(less, Show::LENGTH), both(bottom, Show::LENGTH));
    work.propose(&change, &[("bottom", value(less))], 1.0 - less / bottom, &SHOWN);
    let deep = up(depth * (seam * 2.0 / radius), 8.0);
    let change = format!("a depth of {} instead of {}", both(deep, Show::LENGTH), both(depth, Show::LENGTH));
    work.propose(&change, &[("depth", value(deep))], deep / depth - 1.0, &SHOWN);
    Ok(())
}

fn too_large(work: &mut Work) -> Result<(), Stop> {
    let depth = work.length("depth")?;
    let selvages = work.length("selvage")? * 2.0;
    let widest = work.lengths("cloth_widths").iter().fold(Length::ZERO, |most, width| most.max(*width));
    work.out_of_reach(format!(
        "a flounce {} deep does not lie on cloth {} wide, in however many pieces",
        both(depth, Show::LENGTH),
        both(widest, Show::LENGTH)
    ));
    let mut less = down(widest - selvages - work.length("hem")? - work.length("seam")?, 8.0);
    for _ in 0..6 {
        if less <= Length::ZERO {
            break;
        }
        let bottom = down(work.length("top")? + (work.length("bottom")? - work.length("top")?) * (less / depth), 8.0);
        let change = format!("a depth of {}, on the same circle", both(less, Show::LENGTH));
        if work.propose(&change, &[("depth", value(less)), ("bottom", value(bottom))], 1.0 - less / depth, &SHOWN) {
            break;
        }
        less = down(less * 0.9, 8.0);
    }
    Ok(())
}

fn advise(work: &mut Work) -> Result<(), Stop> {
    let (radius, turns) = (work.result("radius")?.value, work.result("turns")?.value);
    if radius < 3.0 * 25.4 {
        work.advise(
            "tight-curve",
            "the upper edge is tightly curved: staystitch it, clip the allowance every 1/4 in nearly to the \
             stitching, and baste it to its seam before you sew",
        );
    }
    if turns > 0.999 {
        work.advise(
            "wrong-side-shows",
            "with a whole turn and more the waves show the wrong side of the cloth; \
                                         face it or choose a cloth with two good sides",
        );
    }
    if work.length("hem")? > Length::inches(0.251) {
        work.advise("hem-too-deep", "on so curved an edge turn 1/4 in, roll it or face it; a deeper hem puckers");
    }
    if work.flag("closed") && work.result("pieces")?.value > 1.5 {
        work.advise("join-at-centre-front", "turn the joins so that none of them meets the centre front");
    }
    Ok(())
}

#[cfg(test)]
#[path = "tests/flounce.rs"]
mod tests;
