use super::MOTIF;
use crate::reckon::ask::{advised, ask, assert_proposals, fault, inches, one, same, table};

/// Cut length 108 in is four repeats of 27 (read: decorating pages, 96 / 27 -> 108), so a strip of that length and
/// one repeat wide holds four whole motifs and cuts none.
#[test]
fn four_repeats_of_twenty_seven() {
    let values = [
        ("width", "13 in"),
        ("height", "108 in"),
        ("repeat_across", "13 in"),
        ("repeat_up", "27 in"),
        ("allowance", "0 in"),
    ];
    let found = ask(&MOTIF, &values);
    for name in ["inside", "whole", "impressions"] {
        assert_eq!(one(&found, name), 4.0, "{name}");
    }
    assert_eq!(one(&found, "cut_by_seam"), 0.0);
    same(one(&found, "step_up"), 0.0);
    // Like pieces go on from one another: the next one begins half a repeat in.
    same(inches(&found, "next_across"), 6.5);
    same(inches(&found, "next_up"), 13.5);
    same(inches(&found, "above_up"), 13.5);
}

/// Closed form: a 20 by 30 piece, repeat 6 by 8, dropped: columns at 3, 9, 15 with 4, 4 and 4 rows.
#[test]
fn half_drop() {
    let values = [
        ("width", "20 in"),
        ("height", "30 in"),
        ("repeat_across", "6 in"),
        ("repeat_up", "8 in"),
        ("half_drop", "yes"),
    ];
    let found = ask(&MOTIF, &values);
    // Columns 0 and 2 stand at 4, 12, 20, 28; column 1 at 0 (on the line), 8, 16, 24.
    assert_eq!(one(&found, "inside"), 4.0 + 3.0 + 4.0);
    assert_eq!(one(&found, "on_line"), 1.0);
    assert_eq!(table(&found, "middles").rows.len(), 12);
    // Column 3 stands at 21 in, which is 1 in beyond the seam, and is a dropped one.
    same(inches(&found, "next_across"), 1.0);
    same(inches(&found, "next_up"), 0.0);
    // Begun afresh the pattern is 4 in out: 20 in is nearest to two columns twice.
    same(inches(&found, "step_across"), 4.0);
    assert!(advised(&found, "share-the-origin"));
}

#[test]
fn an_outline() {
    let triangle = [("outline", "0 in:0 in, 12 in:0 in, 0 in:12 in"), ("repeat_across", "2 in"), ("repeat_up", "2 in")];
    let found = ask(&MOTIF, &triangle);
    // Middles at odd inches with x + y under 12: 5 + 4 + 3 + 2 + 1; those with x + y = 12 lie on the slant.
    assert_eq!(one(&found, "inside"), 15.0);
    assert_eq!(one(&found, "on_line"), 6.0);
    // A motif of 2 in lies whole where its far corner does, with x + y at most 10.
    assert_eq!(one(&found, "whole"), 15.0);
    assert_eq!(one(&found, "cut_by_seam"), 6.0);
    assert!(
        fault(&MOTIF, &[("outline", "0 in:0 in, 12 in:0 in"), ("repeat_across", "2 in"), ("repeat_up", "2 in")])
            .contains("nothing")
    );
}

#[test]
fn a_piece_the_repeat_passes_by() {
    let values = [("width", "4 in"), ("height", "4 in"), ("repeat_across", "12 in"), ("repeat_up", "12 in")];
    assert_proposals(&ask(&MOTIF, &values), 2);
    assert!(
        fault(&MOTIF, &[("width", "900 in"), ("height", "900 in"), ("repeat_across", "1 mm"), ("repeat_up", "1 mm")])
            .contains("twenty thousand")
    );
    assert!(fault(&MOTIF, &[("repeat_across", "2 in"), ("repeat_up", "2 in")]).contains("width"));
}
