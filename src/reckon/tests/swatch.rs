use std::collections::BTreeMap;

use super::SWATCH;
use crate::reckon::{Answer, Given, InputFault, Outcome, Value, parse_value};

fn ask(values: &[(&str, &str)]) -> Result<Answer, InputFault> {
    let values: BTreeMap<_, _> = values
        .iter()
        .map(|(name, text)| {
            (name.to_string(), parse_value(SWATCH.input(name).unwrap(), text, &BTreeMap::new()).unwrap())
        })
        .collect();
    SWATCH.answer(Given::check(&SWATCH, values).unwrap())
}

fn inches(answer: &Answer, name: &str) -> f64 {
    answer.one(name).unwrap_or_else(|| panic!("{name}")).value / 25.4
}

fn word<'a>(answer: &'a Answer, name: &str) -> &'a str {
    match answer.get(name) {
        Some(Outcome::Word(word)) => word,
        other => panic!("{other:?}"),
    }
}

/// Common practice, no source: 12 in of a four-thickness stacking stitched at 1/4 in draws up to 2 in (6 : 1).
/// Half the stitch with the same layers: half the ratio (closed form 2 s / p).
#[test]
fn one_swatch_predicts_another_stitch() {
    let found = ask(&[
        ("swatches", "wool folded + lining folded:12 in:2 in:1/4 in"),
        ("untried", "wool folded + lining folded"),
        ("stitch", "1/8 in"),
    ])
    .unwrap();
    assert!((inches(&found, "pitch") - 2.0 / 24.0).abs() < 1e-12);
    assert!((found.one("ratio").unwrap().value - 3.0).abs() < 1e-9);
    assert_eq!(word(&found, "basis"), "at a swatch that was sewn");
    // 12 in at 1/8 in: 48 pleats, which draw up to 4 in.
    assert_eq!(found.one("sew_pleats").unwrap().value, 48.0);
    assert!((inches(&found, "sew_tight") - 4.0).abs() < 1e-9);
    assert!((inches(&found, "sew_width") - 13.0).abs() < 1e-9);
}

/// Exact data give the shares exactly: wool 0.03 in a thickness, lining 0.01 in (closed form).
#[test]
fn exact_shares() {
    let found = ask(&[
        ("swatches", "wool folded + lining folded:12 in:1.92 in:1/4 in, wool folded + lining:12 in:1.68 in:1/4 in, wool folded:12 in:1.44 in:1/4 in"),
        ("untried", "wool + lining"),
        ("reading", "0.001 in"),
    ])
    .unwrap();
    let Some(Outcome::Table(shares)) = found.get("shares") else { panic!() };
    let adds: Vec<f64> = shares
        .rows
        .iter()
        .map(|row| match &row[1] {
            Value::Quantity(q) => q.value / 254.0,
            _ => panic!(),
        })
        .collect();
    assert!((adds[0] - 0.03).abs() < 1e-9 && (adds[1] - 0.01).abs() < 1e-9, "{adds:?}");
    assert!((inches(&found, "pitch") - 0.04).abs() < 1e-9);
    assert!((inches(&found, "error") - 0.0005 / 24.0).abs() < 1e-12);
}

/// The spread of the fit, by hand: one layer, pitches y over thicknesses x, σ² = Σ (y - b x)² / (n - 1).
#[test]
fn the_spread_by_hand() {
    let found = ask(&[
        ("swatches", "wool:12 in:1 in:1/4 in, wool folded:12 in:2.2 in:1/4 in, wool 4:12 in:3.9 in:1/4 in"),
        ("untried", "wool 3"),
    ])
    .unwrap();
    let (x, y): ([f64; 3], [f64; 3]) = ([1.0, 2.0, 4.0], [1.0 / 24.0, 2.2 / 24.0, 3.9 / 24.0]);
    let b = x.iter().zip(&y).map(|(x, y)| x * y).sum::<f64>() / 21.0;
    let sigma = (x.iter().zip(&y).map(|(x, y)| (y - b * x).powi(2)).sum::<f64>() / 2.0).sqrt();
    assert!((inches(&found, "pitch") - 3.0 * b).abs() < 1e-12);
    assert!((inches(&found, "error") - sigma).abs() < 1e-12);
    assert!((inches(&found, "spread") - sigma * (1.0 + 9.0 / 21.0_f64).sqrt()).abs() < 1e-12);
    assert_eq!(word(&found, "basis"), "within the swatches");
}

#[test]
fn it_does_not_extrapolate_in_silence() {
    let swatches = ("swatches", "wool:12 in:1 in:1/4 in, wool folded:12 in:2 in:1/4 in");
    let found = ask(&[swatches, ("untried", "wool 4")]).unwrap();
    assert_eq!(word(&found, "basis"), "beyond the swatches");
    assert!(found.advice.iter().any(|advice| advice.code == "beyond-the-swatches"));
    // A layer nobody has sewn: no figure at all, but still the swatch to sew.
    let found = ask(&[swatches, ("untried", "wool + felt")]).unwrap();
    assert!(found.out_of_reach.is_some() && found.one("pitch").is_none());
    assert!(found.one("sew_width").is_some() && found.one("sew_high").is_some());
}

#[test]
fn layers_always_in_the_same_company() {
    let found = ask(&[
        ("swatches", "wool folded + lining folded:12 in:2 in:1/4 in, wool + lining:12 in:1 in:1/4 in"),
        ("untried", "wool folded"),
    ])
    .unwrap();
    assert!(found.out_of_reach.is_some());
    assert_eq!(found.one("layers_told").unwrap().value, 1.0);
}

#[test]
fn a_mismeasured_swatch() {
    let found =
        ask(&[("swatches", "wool folded:12 in:2 in:1/4 in, wool folded + lining:12 in:1 3/4 in:1/4 in")]).unwrap();
    assert!(found.advice.iter().any(|advice| advice.code == "less-than-nothing"));
    assert_eq!(ask(&[("swatches", "wool:2 in:3 in:1/4 in")]).unwrap_err().input, "swatches");
}
