//! Skirts and capes cut as a circle or a part of one.

use super::circle_fit::{fit, longest, usual};
use super::given::InputFault;
use super::ruler::{down, number, value};
use super::technique::{Input, Output, Technique};
use super::words::both;
use super::work::{Stop, Work};
use crate::units::{Length, Quantity, Show};

/// `radius = waist ÷ (2π × fraction)` on the seam line; the cut line lies its allowance inside, the hem the
/// length outside.
pub const CIRCLE: Technique = Technique {
    name: "circle",
    title: "Circle skirts",
    summary: "The radii of a full, half, quarter or any other circle, and which widths of cloth it can be cut from.",
    detail: "The waist seam is an arc, and its length fixes the radius: a whole circle's waist is 2 pi radii, a \
             half circle's half that. So a half circle has twice the radius of a full one and falls in shallower \
             folds. For a waist of 26 in the radii are 4.14, 8.28, 12.41 and 16.55 in for the full, half, third and \
             quarter circle.\n\n\
             The radius is the seam line. The cut line lies the seam allowance inside it, on a smaller circle. \
             Whoever draws the seam line and cuts there has a waist that is too large by 2 pi allowances, nearly \
             four inches for a full circle with 5/8 in.\n\n\
             Much of the waist lies on the bias and stretches while it is sewn. Cut a part of the circle in the \
             cloth, handle it, measure it again, and give what it grew as the stretch allowance. Staystitch the \
             waist at once. Let the skirt hang a day before the hem is levelled, because the bias drops. Nothing \
             here can say by how much.\n\n\
             The edge of a deep hem is longer than the line it is turned up to, so circles take a hem of 1/4 in, \
             rolled or bound (T. Johnson, extension bulletin).\n\n\
             Pieces are laid side by side and row by row, all turned alike, each in its own rectangle. That length \
             is always enough. A layout that nests the curves may save some of it. The length is for the widths of \
             cloth you name, with both selvages off.",
    inputs: &[
        Input::length("waist", "the length of the seam the circle is sewn to, on the seam line"),
        Input::length("length", "the finished length, from the waist seam to the finished hem"),
        Input::number("fraction", "how much of a circle: 1 full, 1/2 half, 1/4 quarter, 3/2 one and a half")
            .or("1", "a full circle"),
        Input::share("stretch", "how much the bias grows while it is sewn, by a trial in the cloth")
            .or("0 %", "nothing is taken off untried"),
        Input::length("seam", "the allowance inside the waist seam line")
            .or_nothing()
            .or("5/8 in", "the usual allowance of home sewing (common practice)"),
        Input::length("side", "the allowance along each straight edge")
            .or_nothing()
            .or("5/8 in", "the usual allowance of home sewing (common practice)"),
        Input::length("hem", "the allowance outside the finished hem")
            .or_nothing()
            .or("1/4 in", "circles take 1/4 in or a rolled hem (T. Johnson, extension bulletin)"),
        Input::count("pieces", "in how many pieces it is cut; left out, in as few as the cloth allows").optional(),
        Input::choice("opening", &["back", "side"], "where the skirt opens")
            .or("back", "the front then needs no seam unless the pieces are even in number"),
        Input::lengths("cloth_widths", "the widths of cloth to try")
            .or("36 in, 45 in, 54 in, 60 in", "widths in which dress goods are sold (common practice)"),
        Input::length("selvage", "what is cut off at each selvage")
            .or_nothing()
            .or("1/2 in", "the woven edge and its pin holes (common practice)"),
    ],
    outputs: &[
        Output::new("radius", Show::FINE, "radius of the waist seam"),
        Output::new("cut_radius", Show::FINE, "radius to cut for the waist"),
        Output::new("hem_radius", Show::FINE, "radius of the finished hem"),
        Output::new("cut_hem_radius", Show::FINE, "radius to cut for the hem"),
        Output::new("sweep", Show::ANGLE, "angle at the centre"),
        Output::new("hem_length", Show::LENGTH, "hem all round"),
        Output::new("flare", Show::RATIO, "hem over waist"),
        Output::new("hem_ease", Show::LENGTH, "edge of the hem longer than its line by"),
        Output::new("widest", Show::LENGTH_UP, "narrowest cloth for one piece without a join")
            .when("up to a full circle"),
        Output::new("fits", Show::LENGTH, "on each width of cloth"),
        Output::new("usual", Show::LENGTH, "the usual parts of a circle at this waist and length"),
        Output::new("pieces_least", Show::COUNT, "fewest pieces on any width").when("where it fits"),
    ],
    example: &[("waist", "26 in"), ("length", "24 in"), ("fraction", "1/2")],
    work: circle,
};

const SHOWN: [&str; 4] = ["radius", "hem_radius", "hem_length", "pieces_least"];

fn circle(work: &mut Work) -> Result<(), Stop> {
    let fraction = work.ratio("fraction")?.base();
    if !(0.02..=6.0).contains(&fraction) {
        return Err(InputFault::new("fraction", "expected a part of a circle between 1/50 and 6 whole ones").into());
    }
    work.reckon("radius", "waist * (1 - stretch) / pi(2 * fraction)")?;
    work.reckon("cut_radius", "radius - seam")?;
    work.reckon("hem_radius", "radius + length")?;
    work.reckon("cut_hem_radius", "hem_radius + hem")?;
    work.reckon("sweep", "360 deg * fraction")?;
    work.reckon("hem_length", "pi(2 * fraction) * hem_radius")?;
    work.reckon("flare", "hem_length / waist")?;
    work.reckon("hem_ease", "pi(2 * fraction) * hem")?;
    if work.result("cut_radius")?.value <= 0.0 {
        return no_hole(work, fraction);
    }
    usual(work)?;
    let least = fit(work)?;
    match least {
        Some(pieces) => work.put("pieces_least", Quantity::number(pieces), "the fewest found on any width"),
        None => too_large(work, fraction)?,
    }
    advise(work, fraction, least)
}

/// The allowance is wider than the radius: there is no hole to cut.
fn no_hole(work: &mut Work, fraction: f64) -> Result<(), Stop> {
    let (radius, seam) = (Length::from_base(work.result("radius")?.value), work.length("seam")?);
    work.out_of_reach(format!(
        "the radius is {} and the seam allowance {}: there is nothing left to cut for the waist",
        both(radius, Show::FINE),
        both(seam, Show::FINE)
    ));
    let narrow = down(radius / 2.0, 16.0);
    let change = format!("a seam allowance of {}", both(narrow, Show::FINE));
    work.propose(&change, &[("seam", value(narrow))], 1.0 - narrow / seam, &SHOWN);
    let less = (fraction * (radius / (seam * 2.0)) * 100.0).floor() / 100.0;
    let change = format!("{less:.2} of a circle instead of {fraction:.2}");
    work.propose(&change, &[("fraction", number(less))], 1.0 - less / fraction, &SHOWN);
    Ok(())
}

/// It fits none of the widths: more pieces, a shorter skirt, less of a circle.
fn too_large(work: &mut Work, fraction: f64) -> Result<(), Stop> {
    let length = work.length("length")?;
    let pieces = work.is_given("pieces").then(|| work.quantity("pieces").map(|count| count.value)).transpose()?;
    work.out_of_reach(match pieces {
        Some(pieces) => format!("cut in {pieces:.0}, a piece is wider than any of the cloths"),
        None => "even cut in twelve, a piece is wider than any of the cloths".to_string(),
    });
    if let Some(pieces) = pieces {
        let mut more = pieces + 1.0;
        while more <= pieces + 12.0 {
            let change = format!("{more:.0} pieces instead of {pieces:.0}");
            if work.propose(&change, &[("pieces", number(more))], more / pieces - 1.0, &SHOWN) {
                break;
            }
            more += 1.0;
        }
    }
    if let Some(shorter) = longest(work)? {
        let change = format!("{} long instead of {}", both(shorter, Show::LENGTH), both(length, Show::LENGTH));
        work.propose(&change, &[("length", value(shorter))], 1.0 - shorter / length, &SHOWN);
    }
    for less in [1.0, 0.75, 0.5, 0.25] {
        let change = format!("{less:.2} of a circle instead of {fraction:.2}");
        if less < fraction - 1e-9 && work.propose(&change, &[("fraction", number(less))], 1.0 - less / fraction, &SHOWN)
        {
            break;
        }
    }
    Ok(())
}

fn advise(work: &mut Work, fraction: f64, least: Option<f64>) -> Result<(), Stop> {
    if fraction > 0.249 {
        work.advise(
            "let-it-hang",
            "staystitch the waist as soon as it is cut, and let the skirt hang a day before you level the hem: the \
             bias drops",
        );
    }
    if !work.is_given("stretch") && fraction > 0.249 {
        work.advise(
            "stretch-untried",
            "the waist is partly on the bias and grows while it is sewn; try how much in a scrap of the cloth",
        );
    }
    if work.length("hem")? > Length::inches(0.251) && fraction > 0.49 {
        work.advise(
            "hem-too-deep",
            format!(
                "this hem's edge is {} longer than the line it is turned up to; on so curved an edge turn 1/4 in, \
                 roll it or bind it",
                both(Length::from_base(work.result("hem_ease")?.value), Show::LENGTH)
            ),
        );
    }
    if least.is_some_and(|pieces| pieces % 2.0 < 0.5) && work.word("opening") == "back" {
        work.advise(
            "join-at-centre-front",
            "with an even number of pieces and the opening in the seam at the centre back there is a join at the \
             centre front: turn the seams to the sides and open the skirt there, or cut one piece more",
        );
    }
    Ok(())
}

#[cfg(test)]
#[path = "tests/circle.rs"]
mod tests;
