//! French seam: sewn twice, with the raw edges shut inside.

use super::ruler::{down, value};
use super::technique::{Input, Output, Technique};
use super::words::both;
use super::work::{Stop, Work};
use crate::units::{Length, Show};

/// `second = allowance − first − turn`; what is left after trimming must be narrower than the second seam.
pub const FRENCH_SEAM: Technique = Technique {
    name: "french-seam",
    title: "French seam",
    summary: "How a seam allowance is divided between the first and the second sewing of a French seam, and where \
              it is trimmed.",
    detail: "Sew the wrong sides together first, trim, turn, and sew again with the right sides together, so that \
             the raw edges are shut inside. The two sewings together use up the allowance, and the seam line falls \
             where the second one runs. Within 5/8 in that is 3/8 and then 1/4, or 1/4 and then 3/8; within 3/4 in \
             it is 3/8, trimmed to 1/8, and 3/8 again (Utah State University Extension). Teachers differ, so all of \
             it can be set here.\n\n\
             What is trimmed must be narrower than the second sewing, or threads will look out of the seam on the \
             right side for good. The turn takes a little of thick cloth too; fine cloth gives up nothing worth \
             counting.\n\n\
             A French seam is for straight seams in fine cloth. On a curve the inner edge cannot open out: clip it, \
             or choose another seam.",
    inputs: &[
        Input::length("allowance", "the whole seam allowance")
            .shown(Show::FINE)
            .or("5/8 in", "the usual allowance of home sewing (common practice)"),
        Input::length("first", "from the raw edge to the first sewing, wrong sides together")
            .shown(Show::FINE)
            .or("3/8 in", "3/8 in and then 1/4 in within 5/8 in (Utah State University Extension)"),
        Input::length("trim", "what is left beside the first sewing after trimming")
            .shown(Show::FINE)
            .or("1/8 in", "trimmed to 1/8 in (Utah State University Extension)"),
        Input::length("turn", "what the turned edge takes, in thicker cloth")
            .shown(Show::FINE)
            .or_nothing()
            .or("0 in", "fine cloth takes nothing worth counting"),
        Input::flag("curved", "the seam is a curve").or("no", "most French seams are straight"),
    ],
    outputs: &[
        Output::new("first_seam", Show::FINE, "first sewing, from the raw edge"),
        Output::new("trimmed_off", Show::FINE, "trimmed off after the first sewing"),
        Output::new("second_seam", Show::FINE, "second sewing, from the turned edge"),
        Output::new("room", Show::FINE, "room for the raw edge inside"),
        Output::new("finished", Show::FINE, "width of the finished seam"),
    ],
    example: &[("allowance", "5/8 in")],
    work: french_seam,
};

const SHOWN: [&str; 4] = ["first_seam", "trimmed_off", "second_seam", "room"];
/// Less room than this is no more than the edge frays.
const HAIR: Length = Length::mm(25.4 / 32.0);

fn french_seam(work: &mut Work) -> Result<(), Stop> {
    work.reckon("first_seam", "first")?;
    work.reckon("trimmed_off", "max(0 in, first - trim)")?;
    work.reckon("second_seam", "allowance - first - turn")?;
    // Where the first sewing lies closer to the edge than the trim, there is nothing to trim.
    work.reckon("room", "second_seam - min(trim, first)")?;
    work.reckon("finished", "second_seam")?;
    let room = Length::from_base(work.result("room")?.value);
    if room.base() < HAIR.base() - 1e-9 {
        reach(work, room)?;
    }
    if work.flag("curved") {
        work.advise(
            "curved",
            "on a curve the enclosed edge cannot open out; trim closer and clip it, or bind the seam instead",
        );
    }
    if work.length("trim")? < Length::INCH / 16.0 {
        work.advise(
            "trimmed-too-close",
            "trimmed closer than 1/16 in the first sewing frays through; a smaller stitch holds better",
        );
    }
    if work.result("finished")?.value > 0.375 * 25.4 + 1e-9 {
        work.advise("wide", "a French seam wider than 3/8 in stands out like a cord; keep it to 1/4 or 3/8 in");
    }
    Ok(())
}

fn reach(work: &mut Work, room: Length) -> Result<(), Stop> {
    let (allowance, first, trim, turn) =
        (work.length("allowance")?, work.length("first")?, work.length("trim")?, work.length("turn")?);
    let second = Length::from_base(work.result("second_seam")?.value);
    work.out_of_reach(if second <= Length::ZERO {
        format!(
            "the first sewing takes the whole allowance of {} and leaves none for the second",
            both(allowance, Show::FINE)
        )
    } else {
        format!(
            "the second sewing is {} deep and the edge inside it {}: {} too much to be shut in",
            both(second, Show::FINE),
            both(trim.min(first), Show::FINE),
            both(HAIR - room, Show::SMALL)
        )
    });
    let closer = down(second - HAIR, 16.0);
    if closer > Length::ZERO {
        let change = format!("trim to {} instead of {}", both(closer, Show::FINE), both(trim, Show::FINE));
        work.propose(&change, &[("trim", value(closer))], 1.0 - closer / trim, &SHOWN);
    }
    let nearer = down(allowance - turn - trim - HAIR, 16.0);
    if nearer > Length::ZERO {
        let change = format!("sew first at {} instead of {}", both(nearer, Show::FINE), both(first, Show::FINE));
        work.propose(&change, &[("first", value(nearer))], (1.0 - nearer / first).abs(), &SHOWN);
    }
    let wider = super::ruler::up(first + turn + trim + HAIR, 8.0);
    let change = format!("an allowance of {} instead of {}", both(wider, Show::FINE), both(allowance, Show::FINE));
    work.propose(&change, &[("allowance", value(wider))], wider / allowance - 1.0, &SHOWN);
    Ok(())
}

#[cfg(test)]
#[path = "tests/french_seam.rs"]
mod tests;
