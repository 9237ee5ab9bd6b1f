use super::BLOCK;
use crate::reckon::ask::{ask, assert_proposals, inches, one, same};

/// What comes out of a block of 20 in that shrinks 15 % is 17: (20 - 17) / 20 = 15 %. Two inches of it are margins.
#[test]
fn twenty_make_seventeen() {
    let found = ask(&BLOCK, &[("length", "15 in"), ("width", "18 in"), ("along", "15 %")]);
    same(inches(&found, "block_length"), 20.0);
    same(inches(&found, "worked_length"), 17.0);
    same(inches(&found, "block_width"), 20.0);
}

/// Closed form: two 20 in blocks in 44 of cloth, five in three rows.
#[test]
fn rows_on_the_cloth() {
    let found = ask(&BLOCK, &[("length", "28 in"), ("width", "18 in"), ("count", "5"), ("cloth_width", "45 in")]);
    assert_eq!(one(&found, "across_cloth"), 2.0);
    assert_eq!(one(&found, "rows"), 3.0);
    same(inches(&found, "cloth"), 90.0);
    same(one(&found, "area"), 5.0 * 30.0 * 20.0 * 25.4 * 25.4);
    let pleated = ask(&BLOCK, &[("length", "28 in"), ("width", "18 in"), ("pleated", "2")]);
    same(inches(&pleated, "block_width"), 40.0);
}

#[test]
fn wider_than_the_cloth() {
    let found = ask(&BLOCK, &[("length", "28 in"), ("width", "43 in"), ("cloth_width", "45 in")]);
    assert_proposals(&found, 3);
}
