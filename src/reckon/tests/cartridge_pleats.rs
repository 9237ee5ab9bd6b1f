use std::collections::BTreeMap;

use super::CARTRIDGE_PLEATS;
use crate::formula::Formula;
use crate::reckon::{Answer, Given, Outcome, parse_value};

fn answer(values: &[(&str, &str)]) -> Answer {
    let values: BTreeMap<_, _> = values
        .iter()
        .map(|(name, text)| {
            let input = CARTRIDGE_PLEATS.input(name).unwrap();
            (name.to_string(), parse_value(input, text, &BTreeMap::new()).unwrap())
        })
        .collect();
    CARTRIDGE_PLEATS.answer(Given::check(&CARTRIDGE_PLEATS, values).unwrap()).unwrap()
}

fn one(answer: &Answer, name: &str) -> f64 {
    answer.one(name).unwrap_or_else(|| panic!("{name}")).value
}

const SWATCH: [(&str, &str); 3] = [("swatch_flat", "12 in"), ("swatch_tight", "2 in"), ("swatch_stitch", "1/4 in")];

fn with<'a>(more: &[(&'a str, &'a str)]) -> Answer {
    answer(&[&SWATCH[..], more].concat())
}

/// Common practice, no source: 12 in of a four-thickness stacking stitched at 1/4 in draws up to 2 in
/// (6 : 1), so 4 yd draws up to 24 in.
#[test]
fn four_yards_draw_up_to_24_inches() {
    let found = with(&[("seam", "24 in"), ("available", "4 yd")]);
    assert_eq!(one(&found, "pleats"), 288.0);
    assert!((one(&found, "pitch") / 25.4 - 2.0 / 24.0).abs() < 1e-12);
    assert!((one(&found, "ratio") - 6.0).abs() < 1e-12);
    assert!(one(&found, "easing").abs() < 1e-12);
    assert_eq!(found.out_of_reach, None);
}

/// Common practice, no source: the same 4 yd eased onto 26 in is 8.3 % easier, pitch 0.0833 to 0.0903 in.
#[test]
fn four_yards_eased_onto_26_inches() {
    let found = with(&[("seam", "26 in"), ("available", "4 yd")]);
    assert_eq!(one(&found, "pleats"), 288.0);
    assert!((one(&found, "easing") - 0.083).abs() < 5e-4);
    assert!((one(&found, "easing") - (26.0 / 24.0 - 1.0)).abs() < 1e-12);
    assert!((one(&found, "pitch") / 25.4 - 0.0903).abs() < 5e-5);
}

/// Common practice, no source: four stitches in each 1/2 in guide space are 1/8 in stitches.
#[test]
fn guide_space() {
    let found = with(&[("seam", "24 in"), ("available", "2 yd"), ("stitch", "1/8 in")]);
    assert!((one(&found, "guide_space") - 12.7).abs() < 1e-12);
    assert!(found.advice.iter().any(|advice| advice.code == "prediction"));
    // Half the stitch, half the ratio: the closed form 2 s / p.
    assert!((one(&found, "ratio") - 3.0).abs() < 1e-12);
}

/// 46.5 in seam, 7/8 in a pleat, 179 in of cloth: 53 pleats of 3.37 in each. Read: research.fibergeek.com
/// (2010). The swatch is made so that ten pleats of that cloth take 8 3/4 in.
#[test]
fn fifty_three_pleats() {
    let found = answer(&[
        ("swatch_flat", "33.77 in"),
        ("swatch_tight", "8 3/4 in"),
        ("swatch_stitch", "1.6885 in"),
        ("seam", "46 1/2 in"),
        ("available", "179 in"),
        ("multiple", "1"),
        ("take", "what-fits"),
    ]);
    assert_eq!(one(&found, "pleats"), 53.0);
    assert!((one(&found, "flat") / 53.0 / 25.4 - 3.37).abs() < 0.01);
    assert!((one(&found, "pitch") / 25.4 - 0.875).abs() < 0.005);
}

#[test]
fn the_grid_and_the_thread() {
    let found = with(&[("seam", "26 in"), ("available", "4 yd"), ("flare", "1/2 in"), ("panels", "3")]);
    assert_eq!(one(&found, "stitch_spaces"), 576.0);
    assert_eq!(one(&found, "guides"), 145.0);
    assert_eq!(one(&found, "dots"), 3.0 * 577.0);
    assert!((one(&found, "last_row") / 25.4 - 1.25).abs() < 1e-12);
    assert!((one(&found, "thread") / 25.4 - 3.0 * (144.0 + 24.0)).abs() < 1e-9);
    assert_eq!(one(&found, "ends"), 12.0);
    assert_eq!(one(&found, "part_pleats"), 72.0);
    let Some(Outcome::List(lengths)) = found.get("row_lengths") else { panic!() };
    let inches: Vec<f64> = lengths.iter().map(|q| q.value / 25.4).collect();
    assert!(inches.iter().zip([26.0, 26.5, 27.0]).all(|(a, b)| (a - b).abs() < 1e-9), "{inches:?}");
    let Some(Outcome::List(panels)) = found.get("panel_pleats") else { panic!() };
    assert_eq!(panels.iter().map(|q| q.value).collect::<Vec<_>>(), [96.0, 96.0, 96.0]);
}

#[test]
fn too_much_cloth_is_out_of_reach_with_ways_out() {
    let found = with(&[
        ("seam", "22 in"),
        ("panels", "4"),
        ("panel_width", "36 in"),
        ("swatch_eased", "2 1/4 in"),
        ("stitches", "9/32 in, 3/16 in"),
        ("others", "thin:12 in:1 3/4 in:1/4 in:2 in"),
    ]);
    let why = found.out_of_reach.clone().unwrap();
    assert!(why.contains("288 pleats") && why.contains("2 in (5.1 cm) too short"), "{why}");
    assert_eq!(found.proposals.len(), 3, "{:#?}", found.proposals);
    assert!(found.proposals.windows(2).all(|pair| pair[0].cost <= pair[1].cost));
    // 264 pleats are the most 22 in can hold: 132 in of cloth, 33 in a panel.
    assert_eq!(found.proposals[0].inputs, [("panel_width".to_string(), "33 in".to_string())]);
    assert_eq!(found.proposals[0].results[0].1.plain, "264");
    // What is proposed is within reach when it is asked for.
    for proposal in &found.proposals {
        let mut asked: BTreeMap<&str, &str> = [
            ("seam", "22 in"),
            ("panels", "4"),
            ("panel_width", "36 in"),
            ("swatch_flat", "12 in"),
            ("swatch_tight", "2 in"),
            ("swatch_stitch", "1/4 in"),
            ("swatch_eased", "2 1/4 in"),
        ]
        .into();
        asked.extend(proposal.inputs.iter().map(|(name, text)| (name.as_str(), text.as_str())));
        let again = answer(&asked.into_iter().collect::<Vec<_>>());
        assert_eq!(again.out_of_reach, None, "{}", proposal.change);
    }
}

#[test]
fn too_little_cloth_is_out_of_reach_too() {
    let found =
        with(&[("seam", "30 in"), ("available", "4 yd"), ("swatch_eased", "2 1/4 in"), ("stitches", "7/32 in")]);
    assert!(found.out_of_reach.clone().unwrap().contains("too long"));
    let changes: Vec<&str> = found.proposals.iter().map(|proposal| proposal.change.as_str()).collect();
    assert!(changes.iter().any(|change| change.contains("more than there is")), "{changes:?}");
    assert!(changes.iter().any(|change| change.contains("7/32 in")), "{changes:?}");
}

#[test]
fn less_cloth_than_seam() {
    let found = with(&[("seam", "40 in"), ("available", "1 yd")]);
    assert!(found.out_of_reach.clone().unwrap().contains("not even as much cloth as seam"));
    // 40 in hold 480 pleats of 1/12 in: 240 in of cloth.
    assert_eq!(found.proposals[0].inputs, [("available".to_string(), "240 in".to_string())]);
}

#[test]
fn a_swatch_that_contradicts_itself() {
    let bad = |values: &[(&str, &str)]| {
        let values: BTreeMap<_, _> = values
            .iter()
            .map(|(name, text)| {
                (name.to_string(), parse_value(CARTRIDGE_PLEATS.input(name).unwrap(), text, &BTreeMap::new()).unwrap())
            })
            .collect();
        CARTRIDGE_PLEATS.answer(Given::check(&CARTRIDGE_PLEATS, values).unwrap()).unwrap_err().input
    };
    let mut values = vec![
        ("seam", "26 in"),
        ("available", "4 yd"),
        ("swatch_flat", "2 in"),
        ("swatch_tight", "12 in"),
        ("swatch_stitch", "1/4 in"),
    ];
    assert_eq!(bad(&values), "swatch_tight");
    values[2] = ("swatch_flat", "14 in");
    values.push(("swatch_eased", "11 in"));
    assert_eq!(bad(&values), "swatch_eased");
}

#[test]
fn the_rules_can_be_read() {
    for line in with(&[("seam", "26 in"), ("available", "4 yd")]).working {
        if let Some(rule) = line.formula {
            Formula::parse(&rule).unwrap();
        }
    }
}
