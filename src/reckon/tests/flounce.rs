use super::FLOUNCE;
use crate::reckon::ask::{advised, ask, assert_proposals, fault, inches, near, one, same};

/// A flounce of one whole turn on a 26 in seam has the radius of the full circle: 4.13 in. Read:
/// prettyquirkypants.com (2014); closed form 4.138. Its lower edge is longer by 2 pi depths.
#[test]
fn one_whole_turn() {
    let bottom = format!("{} in", 26.0 + 2.0 * std::f64::consts::PI * 8.0);
    let found = ask(&FLOUNCE, &[("top", "26 in"), ("depth", "8 in"), ("bottom", &bottom)]);
    near(inches(&found, "radius"), 4.13, 0.01);
    near(inches(&found, "radius"), 4.138, 0.0005);
    near(one(&found, "turns"), 1.0, 1e-9);
    assert_eq!(one(&found, "pieces"), 2.0, "a whole ring has no ends to join");
}

/// Closed form: on the radius found, the upper edge is top and the lower is bottom.
#[test]
fn both_edges_come_out() {
    let found = ask(&FLOUNCE, &[("top", "90 in"), ("depth", "7 in"), ("ratio", "2")]);
    let angle = one(&found, "turns") * 2.0 * std::f64::consts::PI;
    same(angle * inches(&found, "radius"), 90.0);
    same(angle * inches(&found, "outer_radius"), 180.0);
    same(one(&found, "pieces") * inches(&found, "piece_top"), 90.0);
    same(one(&found, "pieces") * one(&found, "piece_sweep"), angle);
    assert_eq!(one(&found, "joins"), one(&found, "pieces"));
    assert!(advised(&found, "wrong-side-shows"));
}

#[test]
fn out_of_reach() {
    let tight = ask(&FLOUNCE, &[("top", "10 in"), ("depth", "2 in"), ("ratio", "8")]);
    assert_proposals(&tight, 3);
    let deep = ask(&FLOUNCE, &[("top", "100 in"), ("depth", "70 in"), ("ratio", "1.5"), ("cloth_widths", "45 in")]);
    assert!(deep.out_of_reach.is_some() || one(&deep, "pieces") > 0.0);
    assert!(fault(&FLOUNCE, &[("top", "10 in"), ("depth", "2 in"), ("bottom", "9 in")]).contains("longer"));
}
