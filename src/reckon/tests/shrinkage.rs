use super::SHRINKAGE;
use crate::reckon::ask::{advised, ask, assert_proposals, fault, inches, same};

/// (20 - 17) / 20 = 15 %, and need = L / (1 - s).
#[test]
fn twenty_come_back_as_seventeen() {
    let values = [
        ("before", "20 in"),
        ("after", "17 in"),
        ("across", "4 %"),
        ("length", "17 in"),
        ("width", "24 in"),
        ("cloth_width", "50 in"),
        ("straighten", "0 in"),
    ];
    let found = ask(&SHRINKAGE, &values);
    same(crate::reckon::ask::one(&found, "shrink_along"), 0.15);
    same(inches(&found, "buy"), 20.0);
    same(inches(&found, "cut_after"), 17.0);
    same(inches(&found, "cut_before"), 20.0);
    same(inches(&found, "cut_width_before"), 25.0);
    same(inches(&found, "washed_width"), 48.0);
    assert!(advised(&found, "shrinks-much"));
}

#[test]
fn straightening_is_added_once() {
    let found = ask(&SHRINKAGE, &[("along", "10 %"), ("length", "90 in")]);
    same(inches(&found, "buy"), 100.0 + 4.5);
    same(inches(&found, "lost"), 14.5);
}

#[test]
fn reach_and_teacher() {
    assert_proposals(&ask(&SHRINKAGE, &[("along", "10 %"), ("length", "90 in"), ("have", "102 in")]), 3);
    let small = ask(&SHRINKAGE, &[("before", "4 in"), ("after", "4.1 in"), ("length", "90 in")]);
    assert!(advised(&small, "small-swatch") && advised(&small, "grew"));
    assert!(fault(&SHRINKAGE, &[("length", "90 in")]).contains("after"));
    assert!(fault(&SHRINKAGE, &[("length", "90 in"), ("before", "20 in")]).contains("after"));
    assert!(fault(&SHRINKAGE, &[("length", "90 in"), ("along", "5 %"), ("width", "9 in")]).contains("across"));
}
