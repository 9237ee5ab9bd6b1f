//! Boning: bones by length sold, from the channels of a bodice.

use std::collections::BTreeMap;

use super::answer::Table;
use super::given::{InputFault, Value};
use super::ruler::{length_in, number, number_in, value, word_in};
use super::technique::{Input, Output, Technique};
use super::words::both;
use super::work::{Stop, Work};
use crate::units::{Direction, Length, Quantity, Show};

/// A bone: down, to a sixteenth.
const BONE: Show = Show { direction: Direction::Down, ..Show::FINE };

/// `bone = channel − clearances`, down to a length sold, or to a mark where they are cut from a coil.
pub const BONING: Technique = Technique {
    name: "boning",
    title: "Boning",
    summary: "The bones of a bodice: each channel's bone rounded down to a length sold, the channel's width, and \
              what to order.",
    detail: "A bone must be shorter than its channel. Too short by a little and nobody knows; too long by a little \
             and it works through the cloth in an evening. So lengths are rounded down, never to the nearest. Bones \
             end 1/2 in short of a hem, and a bone 1/4 in wide runs in a channel 3/8 in wide (both from trade \
             pages). At a seam, which cannot turn up, 1/4 in of clearance is enough (common practice).\n\n\
             Name the lengths you can buy. Left unsaid, bones are cut from a coil to the half inch below, and each \
             cut end needs a tip. Where a channel is longer than any bone sold, the bone stops short inside it: \
             beyond an inch that shows, and it is better cut from a coil.\n\n\
             Measure the channels on the pattern, along the seam line, and again on the sewn garment before you \
             order.",
    inputs: &[
        Input::rows(
            "channels",
            &[
                Input::words("name", "where it runs: centre front, side"),
                Input::length("length", "its length on the pattern, from seam line to hem line"),
                Input::count("count", "how many such channels").or("2", "left and right"),
            ],
            "the channels",
        ),
        Input::length("bone_width", "the width of a bone").shown(Show::FINE).or("1/4 in", "the commonest flat bone"),
        Input::length("ease", "how much wider the channel is than the bone")
            .shown(Show::FINE)
            .or_nothing()
            .or("1/8 in", "a 1/4 in bone in a 3/8 in channel (trade pages)"),
        Input::length("top", "clearance between the bone and the upper seam line")
            .or_nothing()
            .or("1/4 in", "room for the turn of the seam (common practice)"),
        Input::length("bottom", "clearance between the bone and the hem line")
            .or_nothing()
            .or("1/2 in", "bones end 1/2 in short of a hem (trade pages)"),
        Input::lengths("sold", "the lengths of bone you can buy; left out, they are cut from a coil").optional(),
        Input::length("step", "cut from a coil, lengths are a multiple of this")
            .or("1/2 in", "steel is stocked by the half inch, and a list by halves is easily cut (common practice)"),
        Input::length("short", "how far short of its channel a bone may stop before it shows")
            .or_nothing()
            .or("1 in", "an inch more of soft channel shows as a dent (common practice)"),
    ],
    outputs: &[
        Output::new("channel_width", Show::FINE, "width of a channel, stitching to stitching"),
        Output::new("clearance", Show::FINE, "clearance in all"),
        Output::new("bones", Show::COUNT, "bones"),
        Output::new("tips", Show::COUNT, "tips for cut ends").when("where bones are cut from a coil"),
        Output::new("list", BONE, "the bones"),
        Output::new("order", BONE, "to order"),
        Output::new("total", Show::FINE, "bone in all"),
        Output::new("casing", Show::CLOTH, "casing tape for all channels"),
    ],
    example: &[
        ("channels", "centre front:12 1/2 in:2, side:9 in:2, back edge:11 3/4 in:4"),
        ("sold", "7 in, 8 in, 9 in, 10 in, 11 in"),
    ],
    work: boning,
};

const SHOWN: [&str; 3] = ["bones", "total", "casing"];

/// A bone in its channel.
struct Bone {
    name: String,
    count: f64,
    channel: Length,
    /// The longest it could be.
    room: Length,
    /// What it is; nothing where none fits.
    length: Length,
}

fn boning(work: &mut Work) -> Result<(), Stop> {
    work.reckon("channel_width", "bone_width + ease")?;
    let clearance = Length::from_base(work.reckon("clearance", "top + bottom")?.value);
    let (sold, step) = (work.lengths("sold"), work.length("step")?);
    let mut bones = Vec::new();
    for row in work.rows("channels") {
        bones.push(bone(row, clearance, &sold, step)?);
    }
    let count: f64 = bones.iter().map(|bone| bone.count).sum();
    work.put("bones", Quantity::number(count), "one in each channel");
    if sold.is_empty() {
        work.reckon("tips", "2 * bones")?;
    }
    tables(work, &bones);
    let total: Length = bones.iter().map(|bone| bone.length * bone.count).sum();
    work.put("total", total, "the lengths of all bones together");
    let casing: Length = bones.iter().map(|bone| bone.channel * bone.count).sum();
    work.put("casing", casing, "the lengths of all channels together");
    reach(work, &bones, &sold, step)
}

fn bone(row: &BTreeMap<String, Value>, clearance: Length, sold: &[Length], step: Length) -> Result<Bone, Stop> {
    let channel = length_in(row, "length").unwrap_or(Length::ZERO);
    let room = channel - clearance;
    let name = word_in(row, "name").to_string();
    if room <= Length::ZERO {
        let message = format!("the clearances, {}, leave nothing of the channel `{name}`", both(clearance, Show::FINE));
        return Err(InputFault::new("channels", message).help("is the unit of its length right?").into());
    }
    let length = if sold.is_empty() {
        step * (room / step + 1e-9).floor()
    } else {
        let fitting = sold.iter().filter(|length| length.base() <= room.base() + 1e-6);
        // Never longer than its room, not by a hair.
        fitting.fold(Length::ZERO, |best, length| best.max(*length))
    }
    .min(room);
    Ok(Bone { name, count: number_in(row, "count").unwrap_or(1.0), channel, room, length })
}

fn tables(work: &mut Work, bones: &[Bone]) {
    let rows = bones
        .iter()
        .map(|bone| {
            let (name, slack) = (Value::Word(bone.name.clone()), bone.room - bone.length);
            vec![name, value(bone.channel), value(bone.length), number(bone.count), value(slack)]
        })
        .collect();
    let columns = vec![
        ("channel".into(), Show::LENGTH),
        ("its length".into(), Show::LENGTH),
        ("bone".into(), BONE),
        ("count".into(), Show::COUNT),
        ("stops short by".into(), Show::LENGTH),
    ];
    work.put_table("list", Table { columns, rows });
    work.say("list", "channel − clearance, down to the next length there is");
    let mut order: Vec<(Length, f64)> = Vec::new();
    for bone in bones {
        match order.iter_mut().find(|(length, _)| (*length - bone.length).abs().base() < 1e-6) {
            Some((_, count)) => *count += bone.count,
            None => order.push((bone.length, bone.count)),
        }
    }
    order.sort_by(|a, b| a.0.base().total_cmp(&b.0.base()));
    let rows = order
        .into_iter()
        .filter(|(length, _)| length.base() > 0.0)
        .map(|(length, count)| vec![value(length), number(count), value(length * count)])
        .collect();
    let columns = vec![("length".into(), BONE), ("count".into(), Show::COUNT), ("together".into(), Show::LENGTH)];
    work.put_table("order", Table { columns, rows });
}

fn reach(work: &mut Work, bones: &[Bone], sold: &[Length], step: Length) -> Result<(), Stop> {
    let short = work.length("short")?;
    let none: Vec<&Bone> = bones.iter().filter(|bone| bone.length <= Length::ZERO).collect();
    let longest = sold.iter().fold(Length::ZERO, |most, length| most.max(*length));
    let far: Vec<&Bone> = bones
        .iter()
        .filter(|bone| bone.length > Length::ZERO && (bone.room - bone.length).base() > short.base() + 1e-6)
        .collect();
    for bone in &far {
        let short_by = both(bone.room - bone.length, Show::LENGTH);
        if !sold.is_empty() && bone.length.base() > longest.base() - 1e-6 {
            work.advise(
                "bone-longer-than-any-sold",
                format!(
                    "`{}` would take a bone of {} and the longest sold is {}; it stops {short_by} short",
                    bone.name,
                    both(bone.room, BONE),
                    both(longest, Show::LENGTH)
                ),
            );
        } else {
            work.advise(
                "stops-short",
                format!("the bone in `{}` stops {short_by} short of what its channel would take", bone.name),
            );
        }
    }
    let Some(first) = none.first().or(far.first()) else { return Ok(()) };
    let what = if none.is_empty() {
        format!(
            "in `{}` the bone stops {} short, more than {}",
            first.name,
            both(first.room - first.length, Show::LENGTH),
            both(short, Show::LENGTH)
        )
    } else if sold.is_empty() {
        format!(
            "`{}` takes a bone of {}, less than {}, the shortest there is",
            first.name,
            both(first.room, BONE),
            both(step, Show::FINE)
        )
    } else {
        format!("`{}` takes a bone of {}, shorter than any sold", first.name, both(first.room, BONE))
    };
    work.out_of_reach(what);
    let finer = Length::INCH / 8.0;
    if sold.is_empty() {
        let change = format!("lengths cut to {}", both(finer, Show::FINE));
        work.propose(&change, &[("step", value(finer))], 1.0 - finer / step, &SHOWN);
        return Ok(());
    }
    // The lengths that are lacking, cut from a coil.
    let mut cut: Vec<Length> = Vec::new();
    for bone in none.iter().chain(&far) {
        let by = if bone.room > step { step } else { finer };
        let length = by * (bone.room / by + 1e-9).floor();
        if length > Length::ZERO && cut.iter().all(|other| (*other - length).abs().base() > 1e-6) {
            cut.push(length);
        }
    }
    let words: Vec<String> = cut.iter().map(|length| both(*length, Show::LENGTH)).collect();
    let all: Vec<Quantity> = sold.iter().chain(&cut).map(|length| Quantity::from(*length)).collect();
    let change = format!("cut from a coil: {}", words.join(", "));
    #[allow(clippy::cast_precision_loss)]
    let cost = cut.len() as f64 / sold.len() as f64;
    work.propose(&change, &[("sold", Value::List(all))], cost, &SHOWN);
    if none.is_empty() {
        let worst = far.iter().fold(short, |most, bone| most.max(bone.room - bone.length));
        let worst = super::ruler::up(worst, 8.0);
        let change =
            format!("let a bone stop up to {} short, and quilt the end of its channel", both(worst, Show::LENGTH));
        work.propose(&change, &[("short", value(worst))], worst / short.max(finer) - 1.0, &SHOWN);
    }
    Ok(())
}

#[cfg(test)]
#[path = "tests/boning.rs"]
mod tests;
