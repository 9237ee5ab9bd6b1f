use super::GORES;
use crate::reckon::ask::{advised, ask, assert_proposals, cell, fault, inches, near, one, same};

/// Waist 25, hips 40, five gores: 5 in at the waist and 8 at the hip; 2 1/4 yards round the bottom with a front
/// gore of 10 in leave 17 1/2 in for each of the others (exact 17 3/4).
/// Read: *The Perfect Dressmaking System*, 1914, p. 13 (Wikisource).
#[test]
fn five_gores() {
    let values = [
        ("waist", "25 in"),
        ("hip", "40 in"),
        ("hem_width", "2 1/4 yd"),
        ("length", "38 in"),
        ("gores", "5"),
        ("front_hem", "10 in"),
        ("opening", "back"),
    ];
    let found = ask(&GORES, &values);
    same(inches(&found, "gore_waist"), 5.0);
    same(inches(&found, "gore_hip"), 8.0);
    near(inches(&found, "gore_hem"), 17.5, 0.26);
    same(inches(&found, "gore_hem"), 17.75);
    // A moderately flared hem is 2 to 3 in deep. Read: T. Johnson, extension bulletin (issuer not verified).
    assert!(!advised(&found, "join-at-centre-front") && !advised(&found, "hem-too-deep"));
}

/// Closed form: a slant of 9 in over 40 makes a side of 41, and the corner rises by the inch between.
#[test]
fn slant() {
    let values = [
        ("waist", "24 in"),
        ("hip", "24 in"),
        ("hem_width", "96 in"),
        ("length", "47 in"),
        ("gores", "4"),
        ("seam", "0 in"),
        ("hem", "4 in"),
    ];
    let found = ask(&GORES, &values);
    same(inches(&found, "flare"), 9.0);
    same(inches(&found, "corner_rise"), 1.0);
    same(inches(&found, "side"), 48.0);
    same(inches(&found, "hem_ease"), 2.0 * 4.0 * 9.0 / 40.0);
    assert!(advised(&found, "hem-too-deep"));
}

/// Straight gores are panels: two of 21 in lie in 42 of cloth, and upside down gains nothing.
#[test]
fn straight_gores_side_by_side() {
    for one_way in ["yes", "no"] {
        let values = [
            ("waist", "84 in"),
            ("hip", "84 in"),
            ("hem_width", "84 in"),
            ("length", "40 in"),
            ("gores", "4"),
            ("seam", "0 in"),
            ("selvage", "0 in"),
            ("cloth_widths", "42 in, 41.9 in"),
            ("one_way", one_way),
        ];
        let found = ask(&GORES, &values);
        assert_eq!(cell(&found, "fits", 0, 1), 2.0);
        assert_eq!(cell(&found, "fits", 1, 1), 1.0);
        same(cell(&found, "fits", 0, 3), 2.0 * one(&found, "cut_length"));
    }
}

#[test]
fn reach_and_teacher() {
    let wide = [
        ("waist", "25 in"),
        ("hip", "40 in"),
        ("hem_width", "200 in"),
        ("length", "38 in"),
        ("gores", "3"),
        ("opening", "back"),
    ];
    assert_proposals(&ask(&GORES, &wide), 2);
    let even = [("waist", "25 in"), ("hip", "40 in"), ("hem_width", "81 in"), ("length", "38 in"), ("opening", "back")];
    assert!(advised(&ask(&GORES, &even), "join-at-centre-front"));
    assert!(
        fault(&GORES, &[("waist", "25 in"), ("hip", "40 in"), ("hem_width", "81 in"), ("length", "6 in")])
            .contains("hip")
    );
}
