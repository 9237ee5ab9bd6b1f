//! Box pleats and inverted pleats: folds in pairs.

use super::answer::Table;
use super::given::InputFault;
use super::knife_pleats::count_pleats;
use super::pleat_reach::against_cloth;
use super::ruler::{count_to, number, value};
use super::technique::{Input, Output, Technique};
use super::work::{Stop, Work};
use crate::units::{Length, Show};

/// Two folds meet in each pleat, and each of them hides its underlay twice:
/// `flat = seam + 4 × underlay × pleats`.
pub const BOX_PLEATS: Technique = Technique {
    name: "box-pleats",
    title: "Box and inverted pleats",
    summary: "How many box or inverted pleats fill a seam, how wide the cloth must be, and where each fold is marked.",
    detail: "A box pleat is two knife pleats back to back: a flat face with a fold at each side, both turned under. \
             An inverted pleat is the same thing seen from behind: two folds that meet face to face over the \
             underlay. The arithmetic is one and the same. Each of the two folds hides its underlay twice, so one \
             pleat uses its width and four underlays.\n\n\
             Left unsaid, the underlay is half the width of the pleat. Then the folds just meet behind and the \
             cloth is three thick everywhere; full plaits that meet use three times the seam (The New Dressmaker, \
             1921). A single inverted pleat at a centre front or back is `count` 1 with a `seam` of the width it \
             sits in.\n\n\
             Mark the folds with one colour of thread and the lines they are laid to with another. Baste each pleat \
             down its whole length before you press.",
    inputs: &[
        Input::length("seam", "the length of the seam the pleats fill, on the seam line"),
        Input::choice(
            "kind",
            &["box", "inverted"],
            "`box` has its face outside; `inverted` has its two folds meet outside",
        )
        .or("box", "the commoner of the two"),
        Input::length("visible", "how wide a pleat should look; it is corrected so that whole pleats fill the seam")
            .shown(Show::FINE)
            .optional(),
        Input::count("count", "the number of pleats, where it is fixed").optional(),
        Input::length("underlay", "how deep the cloth goes in behind each fold; left out, the folds meet behind")
            .shown(Show::FINE)
            .optional(),
        Input::count("multiple", "the pleats come out as a multiple of this: 2 to match halves, 4 quarters")
            .or("1", "a box pleat has no left and right"),
        Input::length("allowance", "seam allowance at each side of the pleated width")
            .or_nothing()
            .or("5/8 in", "the usual allowance of home sewing (common practice)"),
        Input::length("available", "the flat width of cloth there is, between its seam lines").optional(),
    ],
    outputs: &[
        Output::new("pleats", Show::COUNT, "pleats"),
        Output::new("pleat_width", Show::FINE, "width of a pleat as it shows"),
        Output::new("depth", Show::FINE, "underlay of each fold"),
        Output::new("takes", Show::FINE, "cloth taken by one pleat"),
        Output::new("flat", Show::LENGTH, "flat width between seam lines"),
        Output::new("flat_cut", Show::LENGTH, "flat width as cut"),
        Output::new("ratio", Show::RATIO, "ratio"),
        Output::new("gap_behind", Show::FINE, "between the folds behind"),
        Output::new("marks", Show::FINE, "where to mark, from the first seam line"),
    ],
    example: &[("seam", "28 in"), ("visible", "2 in"), ("multiple", "2")],
    work: box_pleats,
};

fn box_pleats(work: &mut Work) -> Result<(), Stop> {
    count_pleats(work)?;
    if work.has("underlay") {
        work.reckon("depth", "underlay")?;
    } else {
        work.reckon("depth", "pleat_width / 2")?;
    }
    work.reckon("takes", "pleat_width + 4 * depth")?;
    work.reckon("flat", "seam + 4 * depth * pleats")?;
    work.reckon("flat_cut", "flat + 2 * allowance")?;
    work.reckon("ratio", "flat / seam")?;
    work.reckon("gap_behind", "max(0 in, pleat_width - 2 * depth)")?;
    if work.result("flat")?.value > 1e6 {
        return Err(InputFault::new("underlay", "these pleats use more than a kilometre of cloth").into());
    }
    marks(work)?;
    against_cloth(work, 4.0)?;
    let (depth, width) = (work.result("depth")?.value, work.result("pleat_width")?.value);
    if 2.0 * depth > width * (1.0 + 1e-6) {
        work.advise(
            "underlays-lap",
            "the underlays are deeper than half the pleat, so the folds lap behind and lie five thick: thin cloth \
             only, or a stay behind and the extra cut away",
        );
    }
    if work.result("pleats")?.value > 1.5 && work.word("kind") == "inverted" && 2.0 * depth >= width * (1.0 - 1e-6) {
        work.advise(
            "reads-as-box",
            "inverted pleats set this close are box pleats between one another; the eye sees whichever is pressed \
             sharper",
        );
    }
    Ok(())
}

fn marks(work: &mut Work) -> Result<(), Stop> {
    let takes = Length::from_base(work.result("takes")?.value);
    let show = Length::from_base(work.result("pleat_width")?.value);
    let depth = Length::from_base(work.result("depth")?.value);
    let inverted = work.word("kind") == "inverted";
    let names = if inverted {
        ["pleat", "fold here", "both folds meet at", "and fold here"]
    } else {
        ["pleat", "fold here", "middle of the face", "and fold here"]
    };
    // A box pleat begins where its neighbour's fold and its own meet; an inverted one in the middle of the
    // plain stretch before it. In both the pleat lies symmetrically in the width it takes.
    let reach = if inverted { depth * 2.0 } else { show / 2.0 };
    let rows = count_to(work.result("pleats")?.value)
        .map(|pleat| {
            let middle = takes * (pleat + 0.5);
            vec![number(pleat + 1.0), value(middle - reach), value(middle), value(middle + reach)]
        })
        .collect();
    let columns = names
        .iter()
        .enumerate()
        .map(|(at, name)| ((*name).to_string(), if at == 0 { Show::COUNT } else { Show::FINE }));
    work.put_table("marks", Table { columns: columns.collect(), rows });
    let remark = if inverted {
        "each pair of folds is laid to the middle line between them"
    } else {
        "both folds are turned under, towards the middle of the face"
    };
    work.say("marks", remark);
    Ok(())
}

#[cfg(test)]
#[path = "tests/box_pleats.rs"]
mod tests;
