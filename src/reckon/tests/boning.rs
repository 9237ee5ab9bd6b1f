use super::BONING;
use crate::reckon::Value;
use crate::reckon::ask::{advised, ask, assert_proposals, cell, fault, inches, one, same, table};

/// A bone of 1/4 in runs in a channel 3/8 in wide, and ends 1/2 in short of a hem. Read: trade pages.
#[test]
fn channel_and_clearance() {
    let found = ask(&BONING, &[("channels", "side:9 in:2"), ("top", "0 in")]);
    same(inches(&found, "channel_width"), 0.375);
    same(cell(&found, "list", 0, 2), 8.5 * 25.4);
    assert_eq!(one(&found, "tips"), 4.0);
}

/// Closed form: room 8 1/4, 8 15/16 and 11 in, down to lengths sold, and summed by length.
#[test]
fn down_to_lengths_sold() {
    let values = [("channels", "a:9 in:2, b:9 11/16 in:4, c:11 3/4 in:1"), ("sold", "8 in, 9 in, 10 in, 11 in")];
    let found = ask(&BONING, &values);
    for (row, length) in [8.0, 8.0, 11.0].into_iter().enumerate() {
        same(cell(&found, "list", row, 2), length * 25.4);
    }
    assert_eq!(table(&found, "order").rows.len(), 2);
    assert_eq!(cell(&found, "order", 0, 1), 6.0);
    same(inches(&found, "total"), 6.0 * 8.0 + 11.0);
    assert_eq!(one(&found, "bones"), 7.0);
    same(inches(&found, "casing"), 2.0 * 9.0 + 4.0 * 9.6875 + 11.75);
    assert!(found.out_of_reach.is_none() && found.one("tips").is_none());
}

#[test]
fn longer_than_any_sold() {
    let found = ask(&BONING, &[("channels", "front:15 in:2"), ("sold", "8 in, 10 in")]);
    assert!(advised(&found, "bone-longer-than-any-sold"));
    assert_proposals(&found, 2);
    assert!(found.proposals.iter().any(|proposal| proposal.change.contains("14 in")), "{:?}", found.proposals);
}

#[test]
fn shorter_than_any_sold() {
    let found = ask(&BONING, &[("channels", "front:5 in:2"), ("sold", "8 in, 10 in")]);
    assert_proposals(&found, 1);
    assert!(table(&found, "order").rows.is_empty());
    assert!(matches!(&table(&found, "list").rows[0][0], Value::Word(word) if word == "front"));
    assert!(fault(&BONING, &[("channels", "front:1/2 in:2")]).contains("front"));
}
