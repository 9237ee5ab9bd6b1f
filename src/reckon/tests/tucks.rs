use super::TUCKS;
use crate::reckon::ask::{advised, ask, assert_proposals, cell, fault, one, same, table};

/// 39 wide, margins 1.5, gap 1.2: 30 gaps, 31 tucks. Read: National Instructional Media Institute (Govt of
/// India), *Dress Making, Trade Practical vol. 2*, p. 209.
#[test]
fn thirty_one_tucks() {
    let found = ask(&TUCKS, &[("width", "39 cm"), ("depth", "6 mm"), ("gap", "1.2 cm"), ("margin", "1.5 cm")]);
    assert_eq!(one(&found, "gaps"), 30.0);
    assert_eq!(one(&found, "tucks"), 31.0);
    same(one(&found, "gap_width"), 12.0);
    // Closed form: 39 cm and 31 times twice 6 mm; the last tuck ends a margin before the end.
    same(one(&found, "flat"), 390.0 + 31.0 * 12.0);
    assert_eq!(table(&found, "marks").rows.len(), 31);
    same(one(&found, "flat") - cell(&found, "marks", 30, 3), 15.0);
    assert!(found.advice.is_empty(), "{:?}", found.advice);
}

#[test]
fn a_fixed_count() {
    let found = ask(&TUCKS, &[("width", "10 in"), ("depth", "1/4 in"), ("count", "5"), ("margin", "1 in")]);
    same(one(&found, "gap_width"), 2.0 * 25.4);
    assert!(fault(&TUCKS, &[("width", "10 in"), ("depth", "1/4 in"), ("count", "1")]).contains("one tuck"));
}

#[test]
fn reach_and_teacher() {
    let values = [("width", "10 in"), ("depth", "1/2 in"), ("gap", "1 in"), ("margin", "1 in"), ("available", "16 in")];
    let found = ask(&TUCKS, &values);
    assert_proposals(&found, 3);
    let lap = ask(&TUCKS, &[("width", "10 in"), ("depth", "1 in"), ("gap", "1/2 in")]);
    assert!(advised(&lap, "tucks-lap") && advised(&lap, "tuck-in-seam"));
}
