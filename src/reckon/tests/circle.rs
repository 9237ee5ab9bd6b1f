use super::CIRCLE;
use crate::reckon::Value;
use crate::reckon::ask::{advised, ask, assert_proposals, cell, fault, inches, near, one, same, table};

/// Waist 26 in: full 4.13, half 8.2, third 12.4, quarter 16.56. Read: prettyquirkypants.com (2014). The source
/// rounds; closed form waist / (2 pi fraction).
#[test]
fn radii() {
    for (fraction, read, closed) in
        [("1", 4.13, 4.138), ("1/2", 8.2, 8.276), ("1/3", 12.4, 12.414), ("1/4", 16.56, 16.552)]
    {
        let found = ask(&CIRCLE, &[("waist", "26 in"), ("length", "20 in"), ("fraction", fraction)]);
        near(inches(&found, "radius"), read, 0.08);
        near(inches(&found, "radius"), closed, 0.0005);
        same(one(&found, "hem_radius") - one(&found, "radius"), 20.0 * 25.4);
        // The usual parts are worked with it, whatever was asked for.
        near(cell(&found, "usual", 0, 1) / 25.4, 4.138, 0.0005);
    }
}

/// A full circle needs cloth as wide as it is across, or else two halves, each as wide as its radius.
#[test]
fn a_full_circle_on_cloth() {
    let values = [("waist", "26 in"), ("length", "20 in"), ("cloth_widths", "45 in, 60 in"), ("hem", "1/4 in")];
    let found = ask(&CIRCLE, &values);
    // 2 x (4.138 + 20 + 0.25) + 1 = 49.776 in.
    near(inches(&found, "widest"), 49.776, 0.001);
    assert_eq!(cell(&found, "fits", 0, 1), 2.0, "45 in takes halves");
    assert_eq!(cell(&found, "fits", 1, 1), 1.0, "60 in takes it whole");
    assert_eq!(cell(&found, "fits", 1, 2), 0.0, "and without a seam");
    near(cell(&found, "fits", 1, 5) / 25.4, 48.776, 0.001);
    // Two halves, each R + side wide along the cloth's width and 2 R long.
    near(cell(&found, "fits", 0, 5) / 25.4, 2.0 * 48.776, 0.001);
}

#[test]
fn stretch_and_cut_line() {
    let found = ask(&CIRCLE, &[("waist", "26 in"), ("length", "20 in"), ("stretch", "5 %"), ("seam", "1/2 in")]);
    same(inches(&found, "radius"), 26.0 * 0.95 / (2.0 * std::f64::consts::PI));
    same(one(&found, "radius") - one(&found, "cut_radius"), 12.7);
}

#[test]
fn out_of_reach() {
    let wide = ask(&CIRCLE, &[("waist", "26 in"), ("length", "40 in"), ("pieces", "1"), ("cloth_widths", "60 in")]);
    assert_proposals(&wide, 2);
    assert!(wide.proposals.iter().any(|proposal| proposal.change.contains("2 pieces")), "{:?}", wide.proposals);
    assert!(matches!(&table(&wide, "fits").rows[0][3], Value::Word(word) if word == "too narrow"));
    let tiny = ask(&CIRCLE, &[("waist", "3 in"), ("length", "5 in"), ("seam", "5/8 in")]);
    assert_proposals(&tiny, 2);
}

#[test]
fn teacher() {
    let found = ask(&CIRCLE, &[("waist", "26 in"), ("length", "24 in"), ("hem", "2 in"), ("cloth_widths", "45 in")]);
    assert!(
        advised(&found, "hem-too-deep") && advised(&found, "join-at-centre-front") && advised(&found, "let-it-hang")
    );
    // T. Johnson, extension bulletin (issuer not verified): a circle takes 1/4 in or a rolled hem.
    let narrow = ask(&CIRCLE, &[("waist", "26 in"), ("length", "24 in"), ("opening", "side")]);
    assert!(!advised(&narrow, "hem-too-deep") && !advised(&narrow, "join-at-centre-front"));
    assert!(fault(&CIRCLE, &[("waist", "26 in"), ("length", "24 in"), ("fraction", "9")]).contains("fraction"));
}
