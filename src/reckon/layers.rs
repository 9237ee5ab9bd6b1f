//! Several thicknesses in one pleat: what each stacking makes of a stitch.

use std::collections::BTreeMap;

use super::answer::Table;
use super::given::{InputFault, Value};
use super::technique::{Input, Output, Technique};
use super::words::both;
use super::work::{Stop, Work};
use crate::units::{Length, Quantity, Show};

/// `pitch = Σ thicknesses × share`, `ratio = 2 stitch / pitch`, and the same for each stacking near it.
pub const LAYERS: Technique = Technique {
    name: "layers",
    title: "Layers in one pleat",
    summary: "How several layers pleated as one draw up, and what leaving out or folding over each of them would do.",
    detail: "Cloth, lining and interlining can be pleated as one. Each thickness adds its share to the pitch, so each layer \
             costs ratio: a thick stack takes less cloth into the same seam and stands out further. A top edge folded over \
             counts each folded layer twice, which is often wanted for just that. To thin a stack, let a layer lie flat \
             instead of folding it with the others, or stop it below the rows.\n\n\
             The shares come from swatches: a single layer's pitch is its own share, and the technique `swatch` works the \
             shares out from several stackings. Four thicknesses that take 12 in to 2 in at a stitch of 1/4 in have a share \
             of 1/48 in each (common practice, no source). The table shows the stackings next to yours, so that you can \
             choose before you sew. What it says is a prediction: sew the one you choose.",
    inputs: &[
        Input::rows(
            "layers",
            &[
                Input::words("name", "what the layer is called"),
                Input::small("share", "what one thickness of it adds to the pitch, by swatches"),
                Input::count("thicknesses", "how many thicknesses lie in the pleat: 1 flat, 2 folded over")
                    .or("1", "a layer that is not folded over lies once"),
            ],
            "the layers of the stack",
        ),
        Input::small("stitch", "the length of one stitch"),
        Input::length("flat", "the flat width to pleat").optional(),
        Input::length("seam", "the seam it is to fit").optional(),
    ],
    outputs: &[
        Output::new("stack", Show::COUNT, "thicknesses in the pleat"),
        Output::new("pitch", Show::SMALL, "seam taken by one pleat"),
        Output::new("ten_pleats", Show::FINE, "seam taken by ten pleats"),
        Output::new("ratio", Show::RATIO, "ratio"),
        Output::new("drawn_up", Show::LENGTH, "the flat width draws up to").when("where the flat width is given"),
        Output::new("flat_needed", Show::LENGTH_UP, "flat width the seam takes").when("where the seam is given"),
        Output::new("stackings", Show::RATIO, "the stackings next to it"),
    ],
    example: &[
        ("layers", "wool:0.025 in:2, lining:0.017 in:2"),
        ("stitch", "1/4 in"),
        ("flat", "144 in"),
        ("seam", "26 in"),
    ],
    work: layers,
};

#[derive(Clone)]
struct Layer {
    name: String,
    share: f64,
    times: f64,
}

/// More layers than this are not pleated as one.
const MOST_LAYERS: usize = 20;

fn layers(work: &mut Work) -> Result<(), Stop> {
    let stack = read(work)?;
    work.put("stack", Quantity::number(stack.iter().map(|layer| layer.times).sum()), "all thicknesses together");
    let terms: Vec<String> =
        stack.iter().map(|layer| format!("{} × {} ({:.4} in)", layer.times, layer.name, layer.share / 25.4)).collect();
    work.put("pitch", Length::from_base(pitch(&stack)), terms.join(" + "));
    work.reckon("ten_pleats", "10 * pitch")?;
    let ratio = work.reckon("ratio", "2 * stitch / pitch")?.value;
    if work.has("flat") {
        work.reckon("drawn_up", "flat / ratio")?;
    }
    if work.has("seam") {
        work.reckon("flat_needed", "seam * ratio")?;
    }
    let near = near(&stack);
    table(work, &stack, &near)?;
    if ratio <= 1.0 {
        reach(work, &stack, &near)?;
    } else if ratio < 2.0 {
        work.advise("too-thick", "under 2 : 1 the stack lies in waves and not in tubes; a longer stitch or a thinner stacking makes it stand");
    }
    work.say("pitch", "a prediction from the shares: sew a swatch of this very stack before you cut");
    Ok(())
}

fn read(work: &Work) -> Result<Vec<Layer>, Stop> {
    let rows = work.rows("layers");
    if rows.is_empty() || rows.len() > MOST_LAYERS {
        return Err(InputFault::new("layers", "expected from one to twenty layers").into());
    }
    let layer = |row: &BTreeMap<String, Value>| match (row.get("name"), row.get("share"), row.get("thicknesses")) {
        (Some(Value::Word(name)), Some(Value::Quantity(share)), Some(Value::Quantity(times))) => {
            Some(Layer { name: name.clone(), share: share.value, times: times.value })
        }
        _ => None,
    };
    Ok(rows.iter().filter_map(layer).collect())
}

fn pitch(stack: &[Layer]) -> f64 {
    stack.iter().map(|layer| layer.times * layer.share).sum()
}

/// Each layer left out, laid flat where it is folded, folded where it is flat.
fn near(stack: &[Layer]) -> Vec<(String, Vec<Layer>)> {
    let mut found = Vec::new();
    for (at, layer) in stack.iter().enumerate() {
        let with = |times: f64| {
            let mut other = stack.to_vec();
            other.iter_mut().skip(at).take(1).for_each(|layer| layer.times = times);
            other
        };
        if stack.len() > 1 {
            let mut without = stack.to_vec();
            without.remove(at);
            found.push((format!("{} left out", layer.name), without));
        }
        if layer.times > 1.0 {
            found.push((format!("{} flat", layer.name), with(1.0)));
        } else {
            found.push((format!("{} folded", layer.name), with(2.0)));
        }
    }
    found
}

fn table(work: &mut Work, stack: &[Layer], near: &[(String, Vec<Layer>)]) -> Result<(), Stop> {
    let stitch = work.length("stitch")?.base();
    let flat = work.maybe_length("flat");
    let mut columns = vec![
        ("stacking".to_string(), Show::COUNT),
        ("ten pleats".to_string(), Show::FINE),
        ("ratio".to_string(), Show::RATIO),
    ];
    if flat.is_some() {
        columns.push(("draws up to".to_string(), Show::LENGTH));
    }
    let yours = ("yours".to_string(), stack.to_vec());
    let rows = std::iter::once(&yours)
        .chain(near)
        .map(|(name, stack)| {
            let pitch = pitch(stack);
            let ratio = 2.0 * stitch / pitch;
            let mut row = vec![
                Value::Word(name.clone()),
                Value::Quantity(Quantity::mm(10.0 * pitch)),
                Value::Quantity(Quantity::number(ratio)),
            ];
            row.extend(flat.map(|flat| Value::Quantity((flat / ratio).into())));
            row
        })
        .collect();
    work.put_table("stackings", Table { columns, rows });
    Ok(())
}

/// A stack that takes as much seam as it uses cloth cannot be drawn up at all.
fn reach(work: &mut Work, stack: &[Layer], near: &[(String, Vec<Layer>)]) -> Result<(), Stop> {
    let stitch = work.length("stitch")?;
    let pitch = Length::from_base(pitch(stack));
    work.out_of_reach(format!(
        "one pleat of this stack takes {} of the seam and holds only {} of cloth: it cannot be drawn up",
        both(pitch, Show::SMALL),
        both(stitch * 2.0, Show::SMALL)
    ));
    let shown = ["pitch", "ratio", "drawn_up", "flat_needed"];
    let sixteenth = Length::INCH.base() / 16.0;
    // Three to one stands as tubes.
    let longer = Length::from_base((pitch.base() * 1.5 / sixteenth - 1e-6).ceil() * sixteenth);
    let change = format!("stitch {} long instead of {}", both(longer, Show::SMALL), both(stitch, Show::SMALL));
    work.propose(&change, &[("stitch", Value::Quantity(longer.into()))], longer / stitch - 1.0, &shown);
    for (name, other) in near {
        let less = Length::from_base(other.iter().map(|layer| layer.times * layer.share).sum());
        if less < pitch {
            let rows = other.iter().map(row).collect();
            work.propose(name, &[("layers", Value::Rows(rows))], 1.0 - less / pitch, &shown);
        }
    }
    Ok(())
}

fn row(layer: &Layer) -> BTreeMap<String, Value> {
    BTreeMap::from([
        ("name".to_string(), Value::Word(layer.name.clone())),
        ("share".to_string(), Value::Quantity(Quantity::mm(layer.share))),
        ("thicknesses".to_string(), Value::Quantity(Quantity::number(layer.times))),
    ])
}

#[cfg(test)]
mod tests {
    use super::LAYERS;
    use crate::reckon::{Answer, Outcome, Value};

    fn ask(values: &[(&str, &str)]) -> Answer {
        crate::reckon::ask::ask(&LAYERS, values)
    }

    fn one(answer: &Answer, name: &str) -> f64 {
        answer.one(name).unwrap().value
    }

    /// Common practice, no source: a four-thickness stacking stitched at 1/4 in draws up six to one, and 4 yd of it
    /// to 24 in.
    #[test]
    fn four_thicknesses() {
        // 2 in over 24 pleats over 4 thicknesses: 1/48 in, 0.529166... mm.
        let found = ask(&[
            ("layers", "wool:1/48 in:2, lining:1/48 in:2"),
            ("stitch", "1/4 in"),
            ("flat", "4 yd"),
            ("seam", "24 in"),
        ]);
        assert_eq!(one(&found, "stack"), 4.0);
        assert!((one(&found, "ratio") - 6.0).abs() < 1e-9);
        assert!((one(&found, "drawn_up") / 25.4 - 24.0).abs() < 1e-9);
        assert!((one(&found, "flat_needed") / 914.4 - 4.0).abs() < 1e-9);
    }

    #[test]
    fn a_layer_less_is_more_ratio() {
        let found = ask(&[("layers", "wool:1/48 in:2, lining:1/48 in:2"), ("stitch", "1/4 in")]);
        let Some(Outcome::Table(table)) = found.get("stackings") else { panic!() };
        let ratios: Vec<f64> = table
            .rows
            .iter()
            .map(|row| match &row[2] {
                Value::Quantity(q) => q.value,
                _ => panic!(),
            })
            .collect();
        // Yours, wool left out, wool flat, lining left out, lining flat: 24/4, 24/2, 24/3 ...
        assert!(ratios.iter().zip([6.0, 12.0, 8.0, 12.0, 8.0]).all(|(a, b)| (a - b).abs() < 1e-9), "{ratios:?}");
    }

    #[test]
    fn a_stack_too_thick_for_its_stitch() {
        let found = ask(&[("layers", "felt:1/8 in:4, lining:1/48 in"), ("stitch", "1/4 in")]);
        assert!(found.out_of_reach.is_some());
        assert_eq!(found.proposals.len(), 3, "{:#?}", found.proposals);
        assert!(found.proposals.iter().any(|proposal| proposal.change == "felt flat"));
    }
}
