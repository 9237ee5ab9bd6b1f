//! Bias strips from a rectangle: strip by strip, and by the continuous method.

use super::answer::Table;
use super::bias_strips_cut::{Strip, clear_start, cut};
use super::given::{InputFault, Value};
use super::technique::{Input, Output, Technique};
use super::words::both;
use super::work::{Stop, Work};
use crate::units::{Count, Direction, Length, Quantity, Show, Style};

/// A length of strip that is there to use: never more than there is.
const GOT: Show = Show { style: Style::Cloth, direction: Direction::Down, parts: 8 };

/// Strips `w` wide at 45° take `w √2` along the selvage. Area over width promises more than there is; the
/// strips are therefore laid into the rectangle one by one, and the continuous method is counted in whole rounds.
pub const BIAS_STRIPS: Technique = Technique {
    name: "bias-strips",
    title: "Bias strips",
    summary: "How many bias strips a rectangle of cloth gives, how long each one is and where their joins fall.",
    detail: "Fold one corner down so that the edge lies along the selvage: the fold is the true bias. Cut along it, and \
             measure every strip from that cut, on both sides of it. A strip 1 in wide takes 1 3/8 in along the \
             selvage (Baldt, Clothing for Women, 1916, ch. XXII; exactly the square root of two).\n\n\
             The usable length of a strip is what is left when both its ends are cut on the same straight grain, \
             so that they join into a line. Towards the corners strips grow short; those below `shortest` are \
             left as scraps (a trade school book throws away what is under 10 cm: National Instructional Media Institute, \
             Dress Making, Trade Practical vol. 2, p. 220). The strips are joined longest first.\n\n\
             Dividing the area by the width is the rule of thumb: a 36 in square in 2 in strips, 648 in or 18 yd \
             (several quilting leaflets). It forgets the corners, the joins and the last part of a strip. It is printed \
             beside the exact figure, and the exact one is planned with.\n\n\
             The continuous method sews the cloth into a slanted tube first and cuts it round and round: one long \
             strip with no joins to sew later. The tube has `floor((width - 2 joins) / (strip × √2))` rounds, each \
             `(height - 2 joins) × √2` long; without seams the same square gives 12 rounds, 610.9 in.\n\n\
             No join belongs at the centre front. Give the places to keep clear under `avoid`; the first strip is then \
             trimmed until every join lies away from them.",
    inputs: &[
        Input::length("strip", "the width of the strip"),
        Input::length("width", "the rectangle across the cloth"),
        Input::length("height", "the rectangle along the selvage"),
        Input::cloth("need", "the length of strip wanted, all together; left out, all there is").optional(),
        Input::choice("method", &["strips", "continuous"], "`strips` cut one by one, or `continuous` round a tube")
            .or("strips", "they waste least and need no tube sewn"),
        Input::length("join", "the seam allowance where strips are joined")
            .or_nothing()
            .or("1/4 in", "narrow, to lie flat inside a piping or binding (common practice)"),
        Input::length("shortest", "strips shorter than this are left as scraps")
            .or("10 cm", "NIMI, Dress Making, Trade Practical vol. 2, p. 220"),
        Input::lengths("avoid", "places along the finished strip where no join may fall, from its start").optional(),
        Input::length("clear", "how far from such a place a join must stay")
            .or_nothing()
            .or("1 in", "so far that a join cannot be seen there (common practice)"),
    ],
    outputs: &[
        Output::new("along_selvage", Show::FINE, "a strip's width along the selvage"),
        Output::new("area_rule", GOT, "by area over width (rule of thumb)"),
        Output::new("less_corners", GOT, "the same without two corners"),
        Output::new("all_strips", Show::COUNT, "strips the rectangle gives"),
        Output::new("all_length", GOT, "their usable lengths together"),
        Output::new("strips", Show::COUNT, "strips to cut"),
        Output::new("joins", Show::COUNT, "joins"),
        Output::new("used_length", GOT, "their usable lengths before joining"),
        Output::new("list", Show::LENGTH_DOWN, "the strips, longest first"),
        Output::new("joined", GOT, "joined length, both ends squared"),
        Output::new("joins_at", Show::LENGTH, "joins from the start of the strip").when("where there is a join"),
        Output::new("trim_first", Show::LENGTH_UP, "trim off the start to clear the joins")
            .when("where places are to be kept clear"),
        Output::new("rounds", Show::COUNT, "rounds by the continuous method"),
        Output::new("round", Show::LENGTH_DOWN, "length of a round"),
        Output::new("continuous", GOT, "length by the continuous method"),
        Output::new("length", GOT, "length by the method chosen"),
        Output::new("spare", GOT, "left over").when("where the length wanted is given"),
        Output::new("height_needed", Show::LENGTH_UP, "height of such a rectangle, by area and corners")
            .when("where the length wanted is given"),
    ],
    example: &[("strip", "1 1/2 in"), ("width", "44 in"), ("height", "12 in"), ("need", "7 yd"), ("avoid", "60 in")],
    work: bias_strips,
};

/// More strips than this are a slip in a unit.
const MOST_STRIPS: f64 = 5000.0;

fn bias_strips(work: &mut Work) -> Result<(), Stop> {
    let (strip, width, height) = (work.length("strip")?, work.length("width")?, work.length("height")?);
    let shortest = work.length("shortest")?;
    let across = work.reckon("along_selvage", "strip * sqrt(2)")?.value;
    if (width + height).base() / across > MOST_STRIPS {
        return Err(InputFault::new("strip", "this gives more than five thousand strips")
            .help("is the unit right?")
            .into());
    }
    if across > (width + height).base() {
        return Err(InputFault::new("strip", "the strip is wider than the rectangle is from corner to corner").into());
    }
    work.reckon("area_rule", "width * height / strip")?;
    if (shortest * shortest).base() / 2.0 < (width * height).base() {
        work.reckon("less_corners", "(width * height - shortest * shortest / 2) / strip")?;
    } else {
        work.put("less_corners", Length::ZERO, "the corners are all there is");
    }
    let all = cut(width, height, strip, shortest);
    work.put(
        "all_strips",
        Count(all.len() as u64),
        "laid into the rectangle side by side, from a first cut that runs out of a corner",
    );
    work.put("all_length", all.iter().map(|strip| strip.length).sum::<Length>(), "their usable lengths, added up");
    let need = work.maybe_length("need");
    let used = take(all, need, strip, work.length("join")?);
    work.put("strips", Count(used.len() as u64), "longest first, until they are enough");
    work.reckon("joins", "max(strips - 1, 0)")?;
    work.put("used_length", used.iter().map(|strip| strip.length).sum::<Length>(), "the usable lengths of those");
    let taken = work.length("join")? * (2.0 * std::f64::consts::SQRT_2 * work.result("joins")?.value) + strip;
    if taken < Length::from_base(work.result("used_length")?.value) {
        work.reckon("joined", "used_length - 2 * sqrt(2) * join * joins - strip")?;
    } else {
        work.put("joined", Length::ZERO, "the joins and the squared ends take all there is");
    }
    continuous(work)?;
    work.reckon("length", if work.word("method") == "continuous" { "continuous" } else { "joined" })?;
    list(work, &used, need)?;
    if let Some(need) = need {
        if need.base() <= work.result("length")?.value {
            work.reckon("spare", "length - need")?;
        } else {
            work.put("spare", Length::ZERO, "nothing is left over");
        }
        work.reckon("height_needed", "(need * strip + shortest * shortest / 2) / width")?;
        reach(work, need)?;
    }
    let count = work.result("strips")?.value;
    if count > 1.0 && work.result("used_length")?.value < 12.0 * count * strip.base() {
        work.advise(
            "many-joins",
            "the strips are short for their width, and every join is a lump: use a larger piece of cloth if you can",
        );
    }
    Ok(())
}

/// Longest first, as many as are needed; all of them where nothing is said.
fn take(all: Vec<Strip>, need: Option<Length>, strip: Length, join: Length) -> Vec<Strip> {
    let Some(need) = need else { return all };
    let mut used: Vec<Strip> = Vec::new();
    let mut have = -strip;
    for next in all {
        if have >= need {
            break;
        }
        if !used.is_empty() {
            have = have - join * (2.0 * std::f64::consts::SQRT_2);
        }
        have = have + next.length;
        used.push(next);
    }
    used
}

/// The table of strips, and where their joins fall: on the edge that is sewn, from the start of the run.
fn list(work: &mut Work, used: &[Strip], need: Option<Length>) -> Result<(), Stop> {
    let loss = work.length("join")? * std::f64::consts::SQRT_2;
    let mut table = Table {
        columns: vec![
            ("strip".to_string(), Show::COUNT),
            ("cut from the corner".to_string(), Show::FINE),
            ("usable".to_string(), Show::LENGTH_DOWN),
            ("from".to_string(), Show::LENGTH),
            ("to".to_string(), Show::LENGTH),
        ],
        rows: Vec::new(),
    };
    let mut at = Length::ZERO;
    let mut joins = Vec::new();
    for (index, strip) in used.iter().enumerate() {
        let ends = f64::from(u8::from(index > 0)) + f64::from(u8::from(index + 1 < used.len()));
        let to = at + strip.length - loss * ends;
        table.rows.push(vec![
            Value::Quantity(Count(index as u64 + 1).into()),
            Value::Quantity(strip.mark.into()),
            Value::Quantity(strip.length.into()),
            Value::Quantity(at.into()),
            Value::Quantity(to.into()),
        ]);
        if index + 1 < used.len() {
            joins.push(to);
        }
        at = to;
    }
    work.put_table("list", table);
    if joins.is_empty() || work.word("method") == "continuous" {
        return Ok(());
    }
    let avoid = work.lengths("avoid");
    if !avoid.is_empty() {
        // A join slants over one width of the strip, so it keeps that much further away.
        let clear = work.length("clear")? + work.length("strip")?;
        let joined = Length::from_base(work.result("joined")?.value);
        let most = need.map_or(joined, |need| joined - need);
        match clear_start(&joins, &avoid, clear, most) {
            Some(trim) => {
                work.put(
                    "trim_first",
                    trim,
                    "the least trimmed off the start that brings every join clear of those places",
                );
                for join in &mut joins {
                    *join = *join - trim;
                }
            }
            None => {
                work.put("trim_first", Length::ZERO, "no trimming brings every join clear with this much strip");
                work.advise(
                    "join-at-kept-place",
                    "a join falls where you asked for none, and there is not enough spare to move it: cut one strip more, or \
                     start the run elsewhere",
                );
            }
        }
    }
    joins.retain(|join| *join > Length::ZERO);
    work.put_list("joins_at", joins, "each strip's end, less what its joins take and what is trimmed off the start");
    Ok(())
}

/// Sewn into a slanted tube, both seams taking their allowances, and cut round and round.
fn continuous(work: &mut Work) -> Result<(), Stop> {
    let (width, height) = (work.length("width")?, work.length("height")?);
    if width.min(height) > work.length("join")? * 2.0 {
        work.reckon("rounds", "floor((width - 2 * join) / along_selvage)")?;
        work.reckon("round", "(height - 2 * join) * sqrt(2)")?;
    } else {
        work.put("rounds", Count(0), "the seams of the tube take all of the cloth");
        work.put("round", Length::ZERO, "the seams of the tube take all of the cloth");
    }
    work.reckon("continuous", "rounds * round")?;
    Ok(())
}

fn reach(work: &mut Work, need: Length) -> Result<(), Stop> {
    let have = Length::from_base(work.result("length")?.value);
    let short = need - have;
    if short <= Length::mm(1e-6) {
        return Ok(());
    }
    work.out_of_reach(format!(
        "this rectangle gives {} of strip, and {} is wanted: {} too little",
        both(have, GOT),
        both(need, Show::CLOTH),
        both(short, Show::LENGTH_UP)
    ));
    let shown = ["length", "strips", "joins", "spare"];
    let other = if work.word("method") == "continuous" { "strips" } else { "continuous" };
    let change = match other {
        "strips" => "cut the strips one by one",
        _ => "cut it by the continuous method",
    };
    work.propose(change, &[("method", Value::Word(other.to_string()))], 0.01, &shown);
    propose_height(work, short, &shown)?;
    let shortest = work.length("shortest")?;
    let least = (work.length("strip")? * 2.0).max(shortest / 2.0);
    if least < shortest {
        let eighth = Length::INCH.base() / 8.0;
        let least = Length::from_base((least.base() / eighth).ceil() * eighth);
        let change = format!("use scraps down to {}, with more joins", both(least, Show::LENGTH));
        work.propose(&change, &[("shortest", Value::Quantity(least.into()))], 1.0 - least / shortest, &shown);
    }
    Ok(())
}

/// The least height, in half inches, that is enough: the area that is missing at first, then step by step.
fn propose_height(work: &mut Work, short: Length, shown: &[&str]) -> Result<(), Stop> {
    let (width, height) = (work.length("width")?, work.length("height")?);
    let missing = (short * work.length("strip")?).base() / width.base();
    let half = Length::INCH.base() / 2.0;
    for step in 0..60 {
        let tall = ((height.base() + missing * (1.0 + f64::from(step) * 0.05)) / half).ceil() * half;
        let change = format!(
            "a rectangle {} high instead of {}",
            both(Length::from_base(tall), Show::LENGTH),
            both(height, Show::LENGTH)
        );
        let value = Value::Quantity(Quantity::mm(tall));
        if work.propose(&change, &[("height", value)], tall / height.base() - 1.0, shown) {
            break;
        }
    }
    Ok(())
}

#[cfg(test)]
#[path = "tests/bias_strips.rs"]
mod tests;
