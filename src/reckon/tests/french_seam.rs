use super::FRENCH_SEAM;
use crate::reckon::ask::{advised, ask, assert_proposals, inches, same};

/// Within 5/8: 3/8 then 1/4, or 1/4 then 3/8; within 3/4: 3/8, trim to 1/8, 3/8. Read: Utah State University
/// Extension. Closed form: allowance - first.
#[test]
fn as_taught() {
    for (allowance, first, second) in
        [("5/8 in", "3/8 in", 0.25), ("5/8 in", "1/4 in", 0.375), ("3/4 in", "3/8 in", 0.375)]
    {
        let found = ask(&FRENCH_SEAM, &[("allowance", allowance), ("first", first)]);
        same(inches(&found, "second_seam"), second);
        same(inches(&found, "room"), second - 0.125);
        same(inches(&found, "first_seam") - inches(&found, "trimmed_off"), 0.125);
        assert!(found.out_of_reach.is_none() && found.advice.is_empty());
    }
}

#[test]
fn edge_too_wide_to_shut_in() {
    let found = ask(&FRENCH_SEAM, &[("allowance", "1/2 in"), ("first", "3/8 in")]);
    assert_proposals(&found, 3);
    let none = ask(&FRENCH_SEAM, &[("allowance", "3/8 in"), ("first", "3/8 in")]);
    assert_proposals(&none, 2);
}

#[test]
fn teacher() {
    assert!(advised(&ask(&FRENCH_SEAM, &[("curved", "yes")]), "curved"));
    assert!(advised(&ask(&FRENCH_SEAM, &[("allowance", "1 in")]), "wide"));
    // Thick cloth gives up the turn.
    same(inches(&ask(&FRENCH_SEAM, &[("turn", "1/16 in")]), "second_seam"), 3.0 / 16.0);
}
