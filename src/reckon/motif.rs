//! Motifs printed on a piece: how many impressions, which fall whole inside the seam line, and how the next
//! piece goes on.

use super::answer::Table;
use super::given::InputFault;
use super::outline::{Frame, Outline, Side};
use super::ruler::{length_in, number, value};
use super::technique::{Input, Output, Technique};
use super::words::both;
use super::work::{Stop, Work};
use crate::units::{Length, Quantity, Show};

/// Middles at `origin + column × repeat across` and `origin + row × repeat up`, every second column half a
/// repeat lower where there is a half drop.
pub const MOTIF: Technique = Technique {
    name: "motif",
    title: "Printed motifs",
    summary: "How many impressions of a block or screen a piece takes, which lie whole inside the seam line, and \
              where the next piece begins.",
    detail: "When a piece is printed after it is cut, the repeat is laid over the piece and not the piece over the \
             repeat. Everything is measured from the lower left corner of the piece at its seam lines. The origin \
             is the middle of one motif, and all others follow from it: a repeat across, a repeat up, and with a \
             half drop every second column half a repeat lower.\n\n\
             A motif counts as inside where its middle lies within the seam line. One that lies on the line is half \
             lost and is counted apart. To cover the piece to its cut line more impressions are needed than there \
             are middles inside it, and those are the ones to mix the colour for.\n\n\
             Where the pattern goes on across a seam both pieces share one origin. The piece sewn to the right-hand \
             side begins its own measuring at that seam, so its first motif stands where this piece's pattern would \
             have gone on: those two measures are printed, and so is the step there would be at the seam if it were \
             begun afresh.\n\n\
             Give the corners of an outline for a piece that is no rectangle; curves are given as enough short \
             lines.\n\n\
             Print the seam lines' corners in thread before you begin, and print a paper cover for what must stay \
             clean.",
    inputs: &[
        Input::length("width", "the width of the piece between its seam lines").optional(),
        Input::length("height", "the height of the piece between its seam lines").optional(),
        Input::rows(
            "outline",
            &[Input::length("across", "from the left").or_nothing(), Input::length("up", "from the foot").or_nothing()],
            "the corners of the seam line in order, for a piece that is no rectangle",
        )
        .optional(),
        Input::length("repeat_across", "from the middle of one motif to the next, across"),
        Input::length("repeat_up", "from the middle of one motif to the next, upwards"),
        Input::flag("half_drop", "every second column stands half a repeat lower").or("no", "straight rows"),
        Input::length("origin_across", "the middle of one motif, from the left seam line")
            .any_sign()
            .or("repeat_across / 2", "half a repeat in, so that like pieces go on from one another"),
        Input::length("origin_up", "the middle of the same motif, from the foot")
            .any_sign()
            .or("repeat_up / 2", "half a repeat up, so that like pieces go on from one another"),
        Input::length("motif_width", "the width of the motif itself")
            .or("repeat_across", "a motif that fills its repeat"),
        Input::length("motif_height", "the height of the motif itself")
            .or("repeat_up", "a motif that fills its repeat"),
        Input::length("allowance", "how far beyond the seam line the print must reach")
            .or_nothing()
            .or("5/8 in", "to the cut line, with the usual allowance of home sewing (common practice)"),
    ],
    outputs: &[
        Output::new("inside", Show::COUNT, "motif middles inside the seam line"),
        Output::new("on_line", Show::COUNT, "motif middles on the seam line"),
        Output::new("whole", Show::COUNT, "motifs whole inside the seam line"),
        Output::new("cut_by_seam", Show::COUNT, "motifs cut by the seam line"),
        Output::new("impressions", Show::COUNT, "impressions to cover the piece to its cut line"),
        Output::new("next_across", Show::FINE, "next piece to the right: first middle from its left seam"),
        Output::new("next_up", Show::FINE, "next piece to the right: that middle from the foot"),
        Output::new("above_up", Show::FINE, "piece sewn on above: first middle from its foot, in the origin's column"),
        Output::new("step_across", Show::FINE, "step at the side seam if begun afresh"),
        Output::new("step_up", Show::FINE, "step at the upper seam if begun afresh"),
        Output::new("middles", Show::FINE, "the middles, from left and foot"),
    ],
    example: &[
        ("width", "20 in"),
        ("height", "30 in"),
        ("repeat_across", "6 in"),
        ("repeat_up", "8 in"),
        ("half_drop", "yes"),
        ("motif_width", "4 in"),
        ("motif_height", "5 in"),
    ],
    work: motif,
};

/// More motifs than this nobody prints by hand.
const MOST: f64 = 20_000.0;

fn motif(work: &mut Work) -> Result<(), Stop> {
    let outline = outline(work)?;
    let (low, high) = outline.bounds();
    let (x, y) = (work.length("repeat_across")?.base(), work.length("repeat_up")?.base());
    let (left, foot) = (work.length("origin_across")?.base(), work.length("origin_up")?.base());
    let half = (work.length("motif_width")?.base() / 2.0, work.length("motif_height")?.base() / 2.0);
    let allowance = work.length("allowance")?.base();
    let drop = work.flag("half_drop");
    let reach = (half.0 + allowance, half.1 + allowance);
    // The columns and rows that can touch the piece, and one more for the half drop.
    let columns = (((low.0 - reach.0 - left) / x).floor(), ((high.0 + reach.0 - left) / x).ceil());
    let rows = (((low.1 - reach.1 - foot) / y).floor(), ((high.1 + reach.1 - foot) / y).ceil() + 1.0);
    if (columns.1 - columns.0 + 1.0) * (rows.1 - rows.0 + 1.0) > MOST {
        return Err(InputFault::new("repeat_across", "this makes more than twenty thousand motifs")
            .help("is the unit of the repeat right?")
            .into());
    }
    let (mut inside, mut on, mut whole, mut cut, mut impressions) = (0.0, 0.0, 0.0, 0.0, 0.0);
    let mut middles = Vec::new();
    let mut row = rows.0;
    while row <= rows.1 {
        let mut column = columns.0;
        while column <= columns.1 {
            let middle = (left + column * x, foot + row * y - dropped(drop, column, y));
            let frame = Frame { middle, half };
            match outline.side(middle) {
                Side::Inside => inside += 1.0,
                Side::On => on += 1.0,
                Side::Outside => {}
            }
            if outline.side(middle) != Side::Outside {
                middles.push(middle);
            }
            if outline.holds(frame) {
                whole += 1.0;
            } else if outline.crosses(frame) {
                cut += 1.0;
            }
            if outline.meets(frame.grown(allowance)) {
                impressions += 1.0;
            }
            column += 1.0;
        }
        row += 1.0;
    }
    for (name, count, rule) in [
        ("inside", inside, "middles counted one by one"),
        ("on_line", on, "middles counted one by one"),
        ("whole", whole, "motifs that lie whole within the seam line"),
        ("cut_by_seam", cut, "motifs the seam line passes through"),
        ("impressions", impressions, "motifs that touch the piece or its allowance"),
    ] {
        work.put(name, Quantity::number(count), rule);
    }
    middles.sort_by(|a, b| a.1.total_cmp(&b.1).then(a.0.total_cmp(&b.0)));
    let rows = middles
        .iter()
        .zip(super::ruler::count_to(MOST))
        .map(|(at, index)| vec![number(index + 1.0), value(Length::mm(at.0)), value(Length::mm(at.1))])
        .collect();
    let columns =
        vec![("motif".into(), Show::COUNT), ("from the left".into(), Show::FINE), ("from the foot".into(), Show::FINE)];
    work.put_table("middles", Table { columns, rows });
    next(work, high)?;
    reach_and_advice(work, high, inside + on, whole)
}

/// How far a column stands lower.
fn dropped(drop: bool, column: f64, repeat: f64) -> f64 {
    if drop && column.rem_euclid(2.0) > 0.5 { repeat / 2.0 } else { 0.0 }
}

fn outline(work: &Work) -> Result<Outline, Stop> {
    let rows = work.rows("outline");
    if rows.is_empty() {
        let side = |name: &str| match work.maybe_length(name) {
            Some(length) => Ok(length.base()),
            None => Err(Stop::from(
                InputFault::new(name, "this input is missing")
                    .help("give `width` and `height`, or the corners in `outline`"),
            )),
        };
        let (width, height) = (side("width")?, side("height")?);
        return Ok(Outline(vec![(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)]));
    }
    if work.has("width") || work.has("height") {
        return Err(InputFault::new("outline", "the outline says the width and the height already")
            .help("leave those out")
            .into());
    }
    let at = |name: &str, row| length_in(row, name).unwrap_or(Length::ZERO).base();
    let outline = Outline(rows.iter().map(|row| (at("across", row), at("up", row))).collect());
    if rows.len() < 3 || outline.area() < 1.0 {
        return Err(InputFault::new("outline", "these corners enclose nothing")
            .help("three corners at least, in order round the piece")
            .into());
    }
    if rows.len() > 1000 {
        return Err(InputFault::new("outline", "more than a thousand corners").into());
    }
    Ok(outline)
}

/// Where the pattern goes on: at the right-hand seam and at the upper one.
fn next(work: &mut Work, (width, height): (f64, f64)) -> Result<(), Stop> {
    let (x, y) = (work.length("repeat_across")?.base(), work.length("repeat_up")?.base());
    let (left, foot) = (work.length("origin_across")?.base(), work.length("origin_up")?.base());
    let column = ((width - left) / x - 1e-9).ceil();
    let across = left + column * x - width;
    let up = (foot - dropped(work.flag("half_drop"), column, y)).rem_euclid(y);
    work.put(
        "next_across",
        Length::mm(across.max(0.0)),
        "the first column beyond the right-hand seam, less the \
                                                          width",
    );
    work.put("next_up", Length::mm(up), "that column's first middle above the foot");
    work.put(
        "above_up",
        Length::mm((foot - height).rem_euclid(y)),
        "the first row beyond the upper seam, less the height",
    );
    let step = |side: f64, repeat: f64| Length::mm((side - (side / repeat).round() * repeat).abs());
    // Begun afresh, the second piece stands in step only where the first is whole repeats wide; with a half drop,
    // an even number of them.
    let period = if work.flag("half_drop") { 2.0 * x } else { x };
    work.put("step_across", step(width, period), "the width, less the nearest whole repeats");
    work.put("step_up", step(height, y), "the height, less the nearest whole repeats");
    if step(width, period) > Length::mm(0.5) {
        work.advise(
            "share-the-origin",
            format!(
                "a piece sewn to the side and begun afresh would be {} out of step; measure its first motif from \
                 the shared origin",
                both(step(width, period), Show::FINE)
            ),
        );
    }
    Ok(())
}

const SHOWN: [&str; 4] = ["inside", "whole", "cut_by_seam", "impressions"];

fn reach_and_advice(work: &mut Work, (width, height): (f64, f64), within: f64, whole: f64) -> Result<(), Stop> {
    if within > 0.5 {
        if whole < 0.5 {
            work.advise("none-whole", "no motif lies whole inside the seam line; every one is cut by a seam");
        }
        return Ok(());
    }
    work.out_of_reach("no motif has its middle inside the seam line: the repeat passes the piece by");
    let middle = (Length::mm(width / 2.0), Length::mm(height / 2.0));
    let change = "put one motif in the middle of the piece";
    let inputs = [("origin_across", value(middle.0)), ("origin_up", value(middle.1))];
    let (x, y) = (work.length("repeat_across")?, work.length("repeat_up")?);
    let moved =
        ((middle.0 - work.length("origin_across")?) / x).abs() + ((middle.1 - work.length("origin_up")?) / y).abs();
    work.propose(change, &inputs, moved, &SHOWN);
    let (less, lower) = (x.min(Length::mm(width)), y.min(Length::mm(height)));
    let change = format!("a repeat of {} by {}", both(less, Show::LENGTH), both(lower, Show::LENGTH));
    let inputs = [("repeat_across", value(less)), ("repeat_up", value(lower))];
    work.propose(&change, &inputs, 2.0 - less / x - lower / y, &SHOWN);
    Ok(())
}

#[cfg(test)]
#[path = "tests/motif.rs"]
mod tests;
