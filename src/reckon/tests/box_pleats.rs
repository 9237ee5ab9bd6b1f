use super::BOX_PLEATS;
use crate::reckon::ask::{advised, ask, assert_proposals, cell, one, same};

/// Full meeting plaits use three times the seam. Read: *The New Dressmaker*, 1921, p. 142.
#[test]
fn meeting_plaits_are_three_to_one() {
    for kind in ["box", "inverted"] {
        let found = ask(&BOX_PLEATS, &[("seam", "28 in"), ("visible", "2 in"), ("kind", kind)]);
        assert_eq!(one(&found, "pleats"), 14.0);
        same(one(&found, "ratio"), 3.0);
        same(one(&found, "gap_behind"), 0.0);
    }
}

/// Closed form: a single inverted pleat with underlays of 3 in takes 12 in more than its seam.
#[test]
fn one_inverted_pleat() {
    let found = ask(&BOX_PLEATS, &[("seam", "10 in"), ("count", "1"), ("underlay", "3 in"), ("kind", "inverted")]);
    same(one(&found, "flat"), 22.0 * 25.4);
    // Folds 6 in to either side of the middle, at 11 in.
    same(cell(&found, "marks", 0, 1), 5.0 * 25.4);
    same(cell(&found, "marks", 0, 2), 11.0 * 25.4);
    same(cell(&found, "marks", 0, 3), 17.0 * 25.4);
}

/// A box pleat's face lies between its folds, and all of them lie within the cloth.
#[test]
fn marks_of_a_box() {
    let found = ask(&BOX_PLEATS, &[("seam", "12 in"), ("count", "3"), ("underlay", "1 in")]);
    same(one(&found, "takes"), 8.0 * 25.4);
    for row in 0..3 {
        same(cell(&found, "marks", row, 3) - cell(&found, "marks", row, 1), 4.0 * 25.4);
    }
    same(cell(&found, "marks", 0, 1), 2.0 * 25.4);
    same(one(&found, "flat") - cell(&found, "marks", 2, 3), 2.0 * 25.4);
}

#[test]
fn reach_and_teacher() {
    let found = ask(&BOX_PLEATS, &[("seam", "28 in"), ("visible", "2 in"), ("available", "60 in")]);
    assert_proposals(&found, 3);
    assert!(advised(
        &ask(&BOX_PLEATS, &[("seam", "28 in"), ("visible", "2 in"), ("underlay", "1.5 in")]),
        "underlays-lap"
    ));
    assert!(advised(
        &ask(&BOX_PLEATS, &[("seam", "28 in"), ("visible", "2 in"), ("kind", "inverted")]),
        "reads-as-box"
    ));
}
