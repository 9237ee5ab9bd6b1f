//! Blocks: pieces cut with a margin all round, to be dyed, printed or pleated and then trimmed to the pattern.

use super::given::InputFault;
use super::ruler::{down, up, value};
use super::technique::{Input, Output, Technique};
use super::words::both;
use super::work::{Stop, Work};
use crate::units::{Length, Show};

/// `block = (piece + 2 × margin) ÷ (1 − shrinkage)` along and across; blocks are laid in rows on the cloth.
pub const BLOCK: Technique = Technique {
    name: "block",
    title: "Cutting in blocks",
    summary: "How large to cut a piece that is dyed, printed or pleated first and trimmed to its pattern \
              afterwards, and the cloth.",
    detail: "Cloth that is worked before it is sewn does not keep its shape. It shrinks in the dye pot, it is \
             pulled on the printing table, it creeps in the pleats. So each piece is cut as a plain block, a \
             rectangle round the pattern with a margin on all four sides, worked, pressed, and only then cut to the \
             pattern.\n\n\
             The margin is to be there after the work, so it shrinks with the rest: piece and margins together are \
             divided by what the shrinkage leaves (20 in of a cloth that shrinks 15 % make 17). An inch all round \
             is usual; printing wants enough beyond that to pin by (common practice).\n\n\
             Where the block is pleated across before it is cut, give the ratio: its width is the pleated width so \
             many times.\n\n\
             Mark the straight grain and the top on every block before it goes into the work, in thread, because \
             chalk does not come back.",
    inputs: &[
        Input::length("length", "the length of the piece, cut lines and all, along the grain"),
        Input::length("width", "the width of the piece, cut lines and all"),
        Input::length("margin", "the margin beyond the cut lines, on every side")
            .or_nothing()
            .or("1 in", "an inch all round (common practice)"),
        Input::share("along", "the shrinkage lengthwise while it is worked").or("0 %", "none was found on a swatch"),
        Input::share("across", "the shrinkage crosswise while it is worked").or("0 %", "none was found on a swatch"),
        Input::ratio("pleated", "flat width over pleated width, where the block is pleated across")
            .or("1", "it is not pleated"),
        Input::count("count", "how many such blocks").or("1", "one piece"),
        Input::length("cloth_width", "the width of the cloth, selvage to selvage").optional(),
        Input::length("selvage", "what is cut off at each selvage")
            .or_nothing()
            .or("1/2 in", "the woven edge and its pin holes (common practice)"),
    ],
    outputs: &[
        Output::new("block_length", Show::LENGTH_UP, "cut the block long"),
        Output::new("block_width", Show::LENGTH_UP, "cut the block wide"),
        Output::new("worked_length", Show::LENGTH, "its length after the work"),
        Output::new("worked_width", Show::LENGTH, "its width after the work"),
        Output::new("area", Show::AREA, "cloth in all blocks"),
        Output::new("usable", Show::LENGTH_DOWN, "cloth width without selvages")
            .when("where the width of the cloth is given"),
        Output::new("across_cloth", Show::COUNT, "blocks side by side").when("where the width of the cloth is given"),
        Output::new("rows", Show::COUNT, "rows of blocks").when("where it fits the cloth"),
        Output::new("cloth", Show::CLOTH, "cloth for the blocks").when("where it fits the cloth"),
    ],
    example: &[
        ("length", "17 in"),
        ("width", "11 in"),
        ("along", "3 %"),
        ("across", "1 %"),
        ("count", "4"),
        ("cloth_width", "45 in"),
    ],
    work: block,
};

const SHOWN: [&str; 4] = ["block_length", "block_width", "across_cloth", "cloth"];

fn block(work: &mut Work) -> Result<(), Stop> {
    work.reckon("worked_length", "length + 2 * margin")?;
    work.reckon("worked_width", "width + 2 * margin")?;
    work.reckon("block_length", "(length + 2 * margin) / (1 - along)")?;
    work.reckon("block_width", "(width + 2 * margin) * pleated / (1 - across)")?;
    work.reckon("area", "count * block_length * block_width")?;
    if work.length("margin")? < Length::INCH / 2.0 {
        work.advise(
            "narrow-margin",
            "less than half an inch all round leaves nothing to pin by, and nothing to true the grain with",
        );
    }
    work.advise("mark-the-grain", "mark the straight grain and the top of every block in thread before it is worked");
    if !work.has("cloth_width") {
        return Ok(());
    }
    let usable = Length::from_base(work.reckon("usable", "cloth_width - 2 * selvage")?.value);
    if usable <= Length::ZERO {
        return Err(InputFault::new("selvage", "the selvages leave nothing of the cloth").into());
    }
    let across = work.reckon("across_cloth", "floor(usable / block_width)")?.value;
    if across < 0.5 {
        return too_wide(work, usable);
    }
    work.reckon("rows", "ceil(count / across_cloth)")?;
    work.reckon("cloth", "rows * block_length")?;
    Ok(())
}

fn too_wide(work: &mut Work, usable: Length) -> Result<(), Stop> {
    let wide = Length::from_base(work.result("block_width")?.value);
    work.out_of_reach(format!(
        "the block is {} wide and the cloth {} without its selvages: {} are lacking",
        both(wide, Show::LENGTH_UP),
        both(usable, Show::LENGTH_DOWN),
        both(wide - usable, Show::LENGTH_UP)
    ));
    let (width, margin, cloth) = (work.length("width")?, work.length("margin")?, work.length("cloth_width")?);
    let (pleated, left) = (work.ratio("pleated")?.base(), 1.0 - work.ratio("across")?.base());
    let narrow = down((usable * left / pleated - width) / 2.0, 8.0);
    if narrow > Length::ZERO {
        let change = format!("a margin of {} instead of {}", both(narrow, Show::LENGTH), both(margin, Show::LENGTH));
        work.propose(&change, &[("margin", value(narrow))], 1.0 - narrow / margin, &SHOWN);
    }
    let wider = up(wide + work.length("selvage")? * 2.0, 8.0);
    let change = format!("cloth {} wide", both(wider, Show::LENGTH));
    work.propose(&change, &[("cloth_width", value(wider))], wider / cloth - 1.0, &SHOWN);
    let piece = down(usable * left / pleated - margin * 2.0, 8.0);
    if piece > Length::ZERO {
        let change = format!(
            "a piece {} wide, with a join, instead of {}",
            both(piece, Show::LENGTH),
            both(width, Show::LENGTH)
        );
        work.propose(&change, &[("width", value(piece))], 1.0 - piece / width, &SHOWN);
    }
    Ok(())
}

#[cfg(test)]
#[path = "tests/block.rs"]
mod tests;
