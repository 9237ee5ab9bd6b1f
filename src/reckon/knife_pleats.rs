//! Knife pleats: all folds the one way, as many as divide the seam evenly.

use super::answer::Table;
use super::given::{InputFault, Value};
use super::pleat_reach::against_cloth;
use super::ruler::{count_to, length_in, number, value, word_in};
use super::technique::{Input, Output, Technique};
use super::words::both;
use super::work::{Stop, Work};
use crate::units::{Length, Show};

/// One pleat shows `v` and hides two underlays: `flat = seam + 2 × underlay × pleats`, with
/// `pleats = round(seam / v)` and `v` then corrected so that whole pleats fill the seam.
pub const KNIFE_PLEATS: Technique = Technique {
    name: "knife-pleats",
    title: "Knife pleats",
    summary: "How many knife pleats fill a seam, how wide the cloth must be, and where each fold is marked.",
    detail: "Each pleat shows its width once and hides its underlay twice: once going in, once coming back. Whole \
             pleats must fill the seam, so the width you ask for is corrected a little until they do. Where nothing \
             is said of the underlay the pleats are full: each underlay is as deep as the pleat is wide, the folds \
             meet behind, and the cloth lies three thick everywhere, three to one. A shallower underlay saves cloth \
             and swings less. A deeper one laps behind its neighbour and lies five thick there.\n\n\
             A seam of 92 cm in pleats of about 5 cm with 4 cm underlays takes 18 pleats and 236 cm of cloth \
             (National Instructional Media Institute, Dress Making, vol. 2). Pleats that narrow from the hem up to \
             the waist take up more at the waist than at the hip: give the finished width at each height, and the \
             table says what one pleat takes there (A Complete Course in Dressmaking, vol. 5, 1920s).\n\n\
             Mark from one end, always from the same end, and never pleat by pleat: a hair too much in each of \
             twenty pleats is an inch at the last.",
    inputs: &[
        Input::length("seam", "the length of the seam the pleats fill, on the seam line"),
        Input::length("visible", "how wide a pleat should look; it is corrected so that whole pleats fill the seam")
            .shown(Show::FINE)
            .optional(),
        Input::count("count", "the number of pleats, where it is fixed").optional(),
        Input::length("underlay", "how deep the cloth goes in behind each pleat; left out, the pleats are full")
            .shown(Show::FINE)
            .optional(),
        Input::length(
            "flat_width",
            "the flat width to be pleated away, where it is fixed; the underlay follows from it",
        )
        .optional(),
        Input::count("multiple", "the pleats come out as a multiple of this: 2 to turn them at the centre")
            .or("1", "all folds the one way round"),
        Input::length("allowance", "seam allowance at each side of the pleated width")
            .or_nothing()
            .or("5/8 in", "the usual allowance of home sewing (common practice)"),
        Input::length("available", "the flat width of cloth there is, between its seam lines").optional(),
        Input::length("cloth_width", "the width of the cloth, to count the strips it must be joined from").optional(),
        Input::rows(
            "levels",
            &[
                Input::words("name", "what this height is called: hip, hem"),
                Input::length("length", "the finished width there"),
            ],
            "other heights of a tapering pleat, each with its finished width",
        )
        .optional(),
    ],
    outputs: &[
        Output::new("pleats", Show::COUNT, "pleats"),
        Output::new("pleat_width", Show::FINE, "width of a pleat as it shows"),
        Output::new("depth", Show::FINE, "underlay of a pleat"),
        Output::new("takes", Show::FINE, "cloth taken by one pleat"),
        Output::new("flat", Show::LENGTH, "flat width between seam lines"),
        Output::new("flat_cut", Show::LENGTH, "flat width as cut"),
        Output::new("ratio", Show::RATIO, "ratio"),
        Output::new("strips", Show::COUNT, "strips of cloth to join").when("where the width of the cloth is given"),
        Output::new("marks", Show::FINE, "where to mark, from the first seam line"),
        Output::new("taper", Show::FINE, "the pleats at each height").when("where other heights are given"),
    ],
    example: &[("seam", "92 cm"), ("visible", "5 cm"), ("underlay", "4 cm")],
    work: knife_pleats,
};

/// More than this nobody marks.
pub(super) const MOST_PLEATS: f64 = 2000.0;

fn knife_pleats(work: &mut Work) -> Result<(), Stop> {
    count_pleats(work)?;
    match (work.has("underlay"), work.has("flat_width")) {
        (true, true) => {
            return Err(InputFault::new("flat_width", "the underlay is given too, and each follows from the other")
                .help("leave one of them out")
                .into());
        }
        (true, false) => work.reckon("depth", "underlay")?,
        (false, true) => work.reckon("depth", "(flat_width - seam) / (2 * pleats)")?,
        (false, false) => work.reckon("depth", "pleat_width")?,
    };
    if work.result("depth")?.value <= 0.0 {
        return Err(
            InputFault::new("flat_width", "the cloth is no wider than the seam; nothing is left to pleat").into()
        );
    }
    work.reckon("takes", "pleat_width + 2 * depth")?;
    work.reckon("flat", "seam + 2 * depth * pleats")?;
    work.reckon("flat_cut", "flat + 2 * allowance")?;
    work.reckon("ratio", "flat / seam")?;
    if work.has("cloth_width") {
        if work.length("cloth_width")? <= work.length("allowance")? * 2.0 {
            return Err(InputFault::new("cloth_width", "the allowances leave nothing of this width").into());
        }
        work.reckon("strips", "ceil(flat / (cloth_width - 2 * allowance))")?;
    }
    marks(work)?;
    taper(work)?;
    against_cloth(work, 2.0)?;
    advise(work)
}

/// The number of pleats and their even width, by the width asked for or by the fixed count.
pub(super) fn count_pleats(work: &mut Work) -> Result<(), Stop> {
    match (work.has("visible"), work.has("count")) {
        (true, false) => work.reckon("pleats", "max(multiple, round(seam / visible, multiple))")?,
        (false, true) => work.reckon("pleats", "count")?,
        (true, true) => {
            return Err(InputFault::new("count", "the width of a pleat is given too, and each follows from the other")
                .help("leave out `visible` or `count`")
                .into());
        }
        (false, false) => {
            return Err(InputFault::new("visible", "this input is missing")
                .help("give the width of a pleat in `visible`, or the number of pleats in `count`")
                .into());
        }
    };
    let pleats = work.result("pleats")?.value;
    if pleats > MOST_PLEATS {
        return Err(InputFault::new("seam", format!("this makes {pleats:.0} pleats, more than anyone marks"))
            .help("is the unit of the seam or of the pleat right?")
            .into());
    }
    work.reckon("pleat_width", "seam / pleats")?;
    Ok(())
}

fn marks(work: &mut Work) -> Result<(), Stop> {
    let takes = Length::from_base(work.result("takes")?.value);
    let show = Length::from_base(work.result("pleat_width")?.value);
    let rows = count_to(work.result("pleats")?.value)
        .map(|pleat| vec![number(pleat + 1.0), value(takes * pleat + show), value(takes * (pleat + 1.0))])
        .collect();
    let columns =
        vec![("pleat".into(), Show::COUNT), ("fold here".into(), Show::FINE), ("lay it to here".into(), Show::FINE)];
    work.put_table("marks", Table { columns, rows });
    work.say("marks", "each fold is reckoned from the first seam line, so that no error is carried on to the next");
    Ok(())
}

fn taper(work: &mut Work) -> Result<(), Stop> {
    if !work.has("levels") {
        return Ok(());
    }
    let flat = Length::from_base(work.result("flat")?.value);
    let pleats = work.result("pleats")?.value;
    let mut rows = Vec::new();
    let mut lapped = Vec::new();
    for row in work.rows("levels") {
        let (name, length) = (word_in(row, "name").to_string(), length_in(row, "length").unwrap_or(Length::ZERO));
        if length > flat {
            let message = format!("`{name}` is wider than the cloth laid flat, {}", both(flat, Show::LENGTH));
            return Err(InputFault::new("levels", message)
                .help("deeper pleats, or more of them, give more cloth")
                .into());
        }
        let away = flat - length;
        if away / (2.0 * pleats) > length / pleats {
            lapped.push(name.clone());
        }
        let each = away / pleats;
        rows.push(vec![
            Value::Word(name),
            value(length),
            value(away),
            value(each),
            value(length / pleats),
            value(each / 2.0),
        ]);
    }
    let columns = vec![
        ("height".into(), Show::FINE),
        ("finished".into(), Show::LENGTH),
        ("to pleat away".into(), Show::LENGTH),
        ("each pleat takes".into(), Show::FINE),
        ("pleat shows".into(), Show::FINE),
        ("underlay".into(), Show::FINE),
    ];
    work.put_table("taper", Table { columns, rows });
    work.say("taper", "to pleat away = flat width − finished width; each pleat takes its share of it");
    if !lapped.is_empty() {
        let message =
            format!("the underlays lap at {}: cut the extra away behind, or press it flat", lapped.join(", "));
        work.advise("lapped-above", message);
    }
    Ok(())
}

/// What a teacher says of any flat pleat: `depth` against the room behind it.
fn advise(work: &mut Work) -> Result<(), Stop> {
    let (depth, width) = (work.result("depth")?.value, work.result("pleat_width")?.value);
    if depth > width * (1.0 + 1e-6) {
        work.advise(
            "underlays-lap",
            "the underlays are deeper than the pleats are wide, so they lap behind one another and lie five thick \
             and more at the seam: thin cloth only, and trim the allowance in steps",
        );
    } else if depth < width / 3.0 {
        work.advise(
            "shallow",
            "an underlay under a third of the pleat springs open; press it hard or stitch it down at the top",
        );
    }
    if let Some(visible) = work.maybe_length("visible")
        && (width / visible.base() - 1.0).abs() > 0.1
    {
        work.advise(
            "width-corrected",
            format!(
                "whole pleats make each {} wide, more than a tenth off what you asked for; another width divides the \
                 seam better",
                both(Length::from_base(width), Show::FINE)
            ),
        );
    }
    Ok(())
}

#[cfg(test)]
#[path = "tests/knife_pleats.rs"]
mod tests;
