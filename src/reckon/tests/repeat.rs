use super::REPEAT;
use crate::reckon::ask::{advised, ask, assert_proposals, fault, inches, list, one, same};

/// Cut length = ceil(L / R) R: 96 / 27 -> 108; 118 / 13 -> 130. Read: decorating pages.
#[test]
fn whole_repeats() {
    for (length, repeat, cut) in [("96 in", "27 in", 108.0), ("118 in", "13 in", 130.0), ("54 in", "27 in", 54.0)] {
        same(inches(&ask(&REPEAT, &[("length", length), ("repeat", repeat)]), "cut"), cut);
    }
}

/// A half drop begins every second panel half a repeat on: the least step that is whole repeats and a half.
#[test]
fn half_drop() {
    for (length, step) in [(43.0, 45.0), (45.0, 45.0), (46.0, 63.0), (8.0, 9.0)] {
        let text = format!("{length} in");
        let found = ask(&REPEAT, &[("length", &text), ("repeat", "18 in"), ("panels", "3"), ("match_by", "half-drop")]);
        same(inches(&found, "step"), step);
        same(list(&found, "starts")[2] / 25.4, 2.0 * step);
        // The last panel need not be whole, and one repeat more is bought.
        same(inches(&found, "cloth"), 2.0 * step + length + 18.0);
    }
}

#[test]
fn across_reach_and_teacher() {
    let found =
        ask(&REPEAT, &[("length", "43 in"), ("repeat", "18 in"), ("repeat_across", "6 in"), ("cloth_width", "45 in")]);
    assert_eq!(one(&found, "repeats_across"), 7.0, "42 3/4 in between the seams");
    same(inches(&found, "matched_width"), 42.0);
    assert!(advised(&found, "dear-repeat"));
    let short = ask(&REPEAT, &[("length", "43 in"), ("repeat", "18 in"), ("panels", "3"), ("have", "150 in")]);
    assert_proposals(&short, 2);
    let wide = [("length", "43 in"), ("repeat", "18 in"), ("repeat_across", "60 in"), ("cloth_width", "45 in")];
    assert!(fault(&REPEAT, &wide).contains("narrower"));
}
