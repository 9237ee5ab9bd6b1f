//! Smocking: rows of even stitches drawn up in parallel, let out row by row, pulled to a point.

use super::answer::Table;
use super::given::InputFault;
use super::ruler::{count_to, down, number, up, value};
use super::technique::{Input, Output, Technique};
use super::words::both;
use super::work::{Stop, Work};
use crate::units::{Length, Show};

/// `flat = ratio × drawn`, in whole pleats of two stitches; rows, dots, thread ends; each row's own length.
pub const SMOCKING: Technique = Technique {
    name: "smocking",
    title: "Smocking",
    summary: "The grid for smocking: pleats, rows, dots and thread ends, rows let out or pulled to a point, the \
              layer behind.",
    detail: "Rows of even stitches are drawn up side by side, and the little pleats they make are then held by \
             surface stitches, or by the same threads tied off. A pleat uses two stitch spaces. Drawn to a quarter, \
             four to one, is usual, with dots 1/8 to 3/8 in apart and rows 3/8 to 3/4 in (Baldt, Clothing for \
             Women, 1916); a pleating machine sets its threads about 3/16 in apart (common practice). As with all \
             drawn-up work the ratio is the swatch's to say: the one printed here is only where to begin.\n\n\
             Rows need not all be drawn to one length. A yoke or a sleeve head spreads downwards: let the last row \
             out and the rows between follow evenly, or give every row a length of its own. No row can be let out \
             beyond the cloth.\n\n\
             A panel smocked straight and then pulled down at the middle turns its rows to a point. A row that was \
             half as wide as the panel becomes the long side of a triangle, so the pleats spread and the ratio \
             falls there, and the panel must be cut longer by the drop. Cut it longer still, arrange it on the \
             stand, and trim the neckline last.\n\n\
             Fine cloth shows its wrong side between the pleats. A second layer under the smocked part only is \
             drawn up with it on the same threads. Sew the swatch with both layers, because two layers draw up \
             less.\n\n\
             The time is in the ends: each row has two, and each is tied off by hand.",
    inputs: &[
        Input::length("drawn", "the width of the first row, drawn up"),
        Input::ratio("ratio", "flat width over drawn-up width, by a swatch")
            .or("4", "drawn to a quarter (Baldt, Clothing for Women, 1916); sew a swatch"),
        Input::small("stitch", "from dot to dot along a row")
            .or("1/4 in", "the middle of 1/8 to 3/8 in (Baldt, Clothing for Women, 1916)"),
        Input::length("depth", "the depth of the smocking, from the first row to the last"),
        Input::small("row_spacing", "from row to row; corrected so that whole spaces fill the depth")
            .or("1/2 in", "between 3/8 and 3/4 in (Baldt, Clothing for Women, 1916)"),
        Input::count("panels", "panels smocked apart, each with threads of its own").or("1", "one piece all round"),
        Input::length("tail", "thread left at each end of a row")
            .or("6 in", "long enough to wind round a pin and to knot (common practice)"),
        Input::length("last_row", "the width of the last row, let out; the rows between follow evenly").optional(),
        Input::lengths("row_widths", "the width of every row, one by one").optional(),
        Input::length("drop", "how far the rows are pulled down to a point at the middle").optional(),
        Input::length("half_width", "from the point to where the rows are held")
            .or("drawn / 2", "a point at the middle"),
        Input::flag("second_layer", "a second layer of cloth under the smocked part")
            .or("no", "most cloth does without"),
        Input::length("layer_margin", "how far the second layer reaches beyond the first row and the last")
            .or("1/2 in", "room to neaten its edge where no row is (common practice)"),
        Input::length("available", "the flat width of cloth there is").optional(),
    ],
    outputs: &[
        Output::new("pleats", Show::COUNT, "pleats"),
        Output::new("flat", Show::LENGTH, "flat width smocked"),
        Output::new("stitch_spaces", Show::COUNT, "stitch spaces in a row"),
        Output::new("rows", Show::COUNT, "rows"),
        Output::new("row_step", Show::SMALL, "from row to row"),
        Output::new("dots", Show::COUNT, "dots in all rows"),
        Output::new("pitch", Show::SMALL, "width taken by one pleat"),
        Output::new("thread", Show::THREAD, "gathering thread"),
        Output::new("ends", Show::COUNT, "thread ends to tie off"),
        Output::new("row_lengths", Show::FINE, "width of each row, drawn up"),
        Output::new("row_table", Show::FINE, "row by row"),
        Output::new("least_ratio", Show::RATIO, "ratio of the widest row"),
        Output::new("turn", Show::ANGLE, "rows turned by").when("where rows are pulled to a point"),
        Output::new("slant", Show::LENGTH, "row from point to side").when("where rows are pulled to a point"),
        Output::new("spread", Show::PERCENT, "pleats spread by").when("where rows are pulled to a point"),
        Output::new("point_ratio", Show::RATIO, "ratio along the point").when("where rows are pulled to a point"),
        Output::new("extra_length", Show::LENGTH_UP, "cut the panel longer by")
            .when("where rows are pulled to a point"),
        Output::new("layer_width", Show::LENGTH, "second layer, flat width").when("with a second layer"),
        Output::new("layer_depth", Show::LENGTH, "second layer, depth").when("with a second layer"),
    ],
    example: &[
        ("drawn", "9 in"),
        ("depth", "4 in"),
        ("last_row", "10 1/2 in"),
        ("drop", "1 1/2 in"),
        ("second_layer", "yes"),
    ],
    work: smocking,
};

const SHOWN: [&str; 4] = ["pleats", "flat", "dots", "least_ratio"];

fn smocking(work: &mut Work) -> Result<(), Stop> {
    if work.has("last_row") && work.has("row_widths") {
        return Err(InputFault::new("row_widths", "the last row is given too, and the list says it already")
            .help("leave out `last_row` or `row_widths`")
            .into());
    }
    work.reckon("pleats", "max(1, round(ratio * drawn / (2 * stitch)))")?;
    work.reckon("flat", "2 * stitch * pleats")?;
    work.reckon("stitch_spaces", "2 * pleats")?;
    let rows = work.reckon("rows", "max(1, round(depth / row_spacing)) + 1")?.value;
    if rows > 500.0 || work.result("pleats")?.value > 100_000.0 {
        return Err(InputFault::new("row_spacing", "this grid has more dots than anyone can mark")
            .help("are the units of `stitch`, `row_spacing` and `depth` right?")
            .into());
    }
    work.reckon("row_step", "depth / (rows - 1)")?;
    work.reckon("dots", "rows * (stitch_spaces + panels)")?;
    work.reckon("pitch", "drawn / pleats")?;
    work.reckon("thread", "rows * (flat + 2 * panels * tail)")?;
    work.reckon("ends", "2 * rows * panels")?;
    let widest = each_row(work, rows)?;
    point(work)?;
    if work.flag("second_layer") {
        work.reckon("layer_width", "flat")?;
        if work.has("drop") {
            work.reckon("layer_depth", "depth + drop + 2 * layer_margin")?;
        } else {
            work.reckon("layer_depth", "depth + 2 * layer_margin")?;
        }
        work.advise(
            "swatch-both-layers",
            "the second layer is drawn up on the same threads: sew the swatch with both layers, as two draw up less \
             than one",
        );
    }
    reach(work, widest)?;
    advise(work)
}

/// The drawn-up length of each row, and the longest of them.
fn each_row(work: &mut Work, rows: f64) -> Result<Length, Stop> {
    let (drawn, flat) = (work.length("drawn")?, Length::from_base(work.result("flat")?.value));
    let step = Length::from_base(work.result("row_step")?.value);
    let list = work.lengths("row_widths");
    let (lengths, rule) = if list.is_empty() {
        let last = work.maybe_length("last_row").unwrap_or(drawn);
        let lengths: Vec<Length> = count_to(rows).map(|row| drawn + (last - drawn) * (row / (rows - 1.0))).collect();
        (lengths, "from the first row to the last in even steps")
    } else {
        let found = count_to(rows).zip(&list).count();
        if found != list.len() || count_to(rows).nth(list.len()).is_some() {
            return Err(InputFault::new("row_widths", format!("{} widths are given for {rows:.0} rows", list.len()))
                .help("one width for each row; the rows follow from `depth` and `row_spacing`")
                .into());
        }
        (list, "as given, row by row")
    };
    if lengths.iter().any(|length| *length < Length::mm(1.0)) {
        return Err(InputFault::new("last_row", "a row cannot be drawn up to nothing")
            .help("is its unit right?")
            .into());
    }
    let widest = lengths.iter().fold(Length::ZERO, |most, length| most.max(*length));
    let table = lengths
        .iter()
        .zip(count_to(rows))
        .map(|(length, row)| vec![number(row + 1.0), value(step * row), value(*length), number(flat / *length)])
        .collect();
    let columns = vec![
        ("row".into(), Show::COUNT),
        ("below the first".into(), Show::FINE),
        ("drawn up to".into(), Show::FINE),
        ("ratio".into(), Show::RATIO),
    ];
    work.put_list("row_lengths", lengths, rule);
    work.put_table("row_table", Table { columns, rows: table });
    work.put("least_ratio", crate::units::Ratio::from_base(flat / widest), "flat width ÷ the widest row");
    Ok(widest)
}

fn point(work: &mut Work) -> Result<(), Stop> {
    if !work.has("drop") {
        return Ok(());
    }
    work.reckon("turn", "atan(drop, half_width)")?;
    work.reckon("slant", "hypot(half_width, drop)")?;
    work.reckon("spread", "slant / half_width - 1")?;
    work.reckon("point_ratio", "flat / drawn * half_width / slant")?;
    work.reckon("extra_length", "drop")?;
    if work.length("drop")? > work.length("half_width")? {
        work.advise(
            "too-steep",
            "the rows turn by more than 45 degrees and the pleats splay open: pull the point down less, or begin \
             with a wider panel",
        );
    }
    if work.result("point_ratio")?.value < 2.0 {
        work.advise(
            "point-too-flat",
            "along the point the cloth is under 2 : 1 and the pleats lie open; begin with a fuller ratio",
        );
    }
    Ok(())
}

fn reach(work: &mut Work, widest: Length) -> Result<(), Stop> {
    let (flat, drawn, ratio) =
        (Length::from_base(work.result("flat")?.value), work.length("drawn")?, work.ratio("ratio")?);
    if widest > flat {
        work.out_of_reach(format!(
            "the widest row is let out to {}, and the cloth is only {} wide laid flat",
            both(widest, Show::LENGTH),
            both(flat, Show::LENGTH)
        ));
        let full = (widest * 2.0 / drawn * 100.0 - 1e-7).ceil() / 100.0;
        let change = format!("a ratio of {full:.2} : 1, so that even the widest row is drawn to a half");
        work.propose(&change, &[("ratio", number(full))], full / ratio.base() - 1.0, &SHOWN);
        if work.has("last_row") {
            let last = down(flat, 8.0);
            let change =
                format!("let the last row out to {}, the whole of the cloth, and no further", both(last, Show::LENGTH));
            work.propose(&change, &[("last_row", value(last))], 1.0 - last / widest, &SHOWN);
        }
        return Ok(());
    }
    let Some(available) = work.maybe_length("available") else { return Ok(()) };
    if flat.base() <= available.base() + 1e-6 {
        return Ok(());
    }
    work.out_of_reach(format!(
        "the smocking uses {} of cloth, and there are {}: {} are lacking",
        both(flat, Show::LENGTH_UP),
        both(available, Show::LENGTH_DOWN),
        both(flat - available, Show::LENGTH_UP)
    ));
    let pleat = work.length("stitch")? * 2.0;
    let less = (pleat * (available / pleat + 1e-9).floor() / drawn * 100.0 + 1e-7).floor() / 100.0;
    if less >= 1.0 {
        let change = format!("a ratio of {less:.2} : 1, if the swatch still looks right");
        work.propose(&change, &[("ratio", number(less))], 1.0 - less / ratio.base(), &SHOWN);
    }
    let need = up(flat, 8.0);
    let change = format!("find {} of flat width", both(need, Show::LENGTH));
    work.propose(&change, &[("available", value(need))], need / available - 1.0, &SHOWN);
    Ok(())
}

fn advise(work: &mut Work) -> Result<(), Stop> {
    let inch = Length::INCH;
    let (stitch, row) = (work.length("stitch")?, Length::from_base(work.result("row_step")?.value));
    if stitch < inch * 0.124 || stitch > inch * 0.376 {
        work.advise("stitch-unusual", "dots are usually 1/8 to 3/8 in apart (Baldt, Clothing for Women, 1916)");
    }
    if row > inch * 0.751 {
        work.advise("rows-far-apart", "rows more than 3/4 in apart leave the pleats free to fold over between them");
    }
    if row < inch * 0.374 {
        work.advise(
            "rows-close",
            "rows under 3/8 in apart are work for a pleating machine, whose threads lie about 3/16 in apart",
        );
    }
    if work.ratio("ratio")?.base() > 5.0 {
        work.advise("too-full", "more than 5 : 1 draws up only in very fine cloth; let a swatch show that it will");
    }
    if work.result("least_ratio")?.value < 2.0 {
        work.advise("row-too-flat", "the widest row is under 2 : 1, and there the pleats lie open");
    }
    if !work.is_given("ratio") {
        work.advise("swatch", "the ratio is a rule of thumb; smock a swatch of this cloth before you cut");
    }
    Ok(())
}

#[cfg(test)]
#[path = "tests/smocking.rs"]
mod tests;
