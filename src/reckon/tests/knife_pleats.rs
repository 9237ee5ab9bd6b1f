use super::KNIFE_PLEATS;
use crate::reckon::ask::{advised, ask, assert_proposals, cell, fault, near, one, same, table};

/// Section 92 wide, pleat 5, depth 4: 18 pleats, 2 x 4 x 18 + 92 = 236 cm, from cloth 90 wide with 2 of seam 3 strips.
/// Read: National Instructional Media Institute (Govt of India), *Dress Making, Trade Practical vol. 2*, pp. 202-205.
#[test]
fn eighteen_pleats() {
    let values =
        [("seam", "92 cm"), ("visible", "5 cm"), ("underlay", "4 cm"), ("cloth_width", "90 cm"), ("allowance", "1 cm")];
    let found = ask(&KNIFE_PLEATS, &values);
    assert_eq!(one(&found, "pleats"), 18.0);
    near(one(&found, "pleat_width"), 51.0, 0.2);
    same(one(&found, "flat"), 2360.0);
    assert_eq!(one(&found, "strips"), 3.0);
    // Closed form: seam + 2 u n, and the last pleat is laid to the far end.
    same(one(&found, "flat"), 920.0 + 2.0 * 40.0 * 18.0);
    assert_eq!(table(&found, "marks").rows.len(), 18);
    same(cell(&found, "marks", 17, 2), one(&found, "flat"));
}

/// Full knife pleats on 50, pleat 2.5: 20 pleats, 150, and 2 of seam make 152 cm. Same source.
#[test]
fn full_pleats_are_three_to_one() {
    let found = ask(&KNIFE_PLEATS, &[("seam", "50 cm"), ("visible", "2.5 cm"), ("allowance", "1 cm")]);
    assert_eq!(one(&found, "pleats"), 20.0);
    same(one(&found, "flat"), 1500.0);
    same(one(&found, "flat_cut"), 1520.0);
    same(one(&found, "ratio"), 3.0);
}

/// Half width 44: waist 28 leaves 30 in to pleat away, hip 40 leaves 24, hem 55 leaves 16 1/2; 8 pleats take
/// 2 1/8 each at the hem (exact 2.0625).
/// Read: *A Complete Course in Dressmaking*, vol. 5 (Skirts), 1920s, pp. 63-69.
#[test]
fn tapering_pleats() {
    let found = ask(
        &KNIFE_PLEATS,
        &[
            ("seam", "14 in"),
            ("count", "8"),
            ("flat_width", "44 in"),
            ("levels", "waist:14 in, hip:20 in, hem:27.5 in"),
        ],
    );
    for (row, away) in [(0, 30.0), (1, 24.0), (2, 16.5)] {
        same(cell(&found, "taper", row, 2), away * 25.4);
    }
    near(cell(&found, "taper", 2, 3) / 25.4, 2.125, 0.0626);
    same(cell(&found, "taper", 2, 3) / 25.4, 2.0625);
    same(one(&found, "flat"), 44.0 * 25.4);
}

#[test]
fn too_little_cloth_is_an_answer() {
    let values = [("seam", "92 cm"), ("visible", "5 cm"), ("underlay", "4 cm"), ("available", "2 m")];
    let found = ask(&KNIFE_PLEATS, &values);
    assert_proposals(&found, 3);
    assert!(found.out_of_reach.unwrap().contains("14 1/4 in"), "236 cm less 200");
    for proposal in &found.proposals {
        assert!(proposal.results.iter().any(|(name, _)| name == "flat"), "{proposal:?}");
    }
}

#[test]
fn teacher() {
    let lapping = ask(&KNIFE_PLEATS, &[("seam", "92 cm"), ("visible", "3 cm"), ("underlay", "4 cm")]);
    assert!(advised(&lapping, "underlays-lap"));
    let plain = ask(&KNIFE_PLEATS, &[("seam", "92 cm"), ("visible", "5 cm"), ("underlay", "4 cm")]);
    assert!(plain.advice.is_empty(), "{:?}", plain.advice);
    assert!(fault(&KNIFE_PLEATS, &[("seam", "92 cm")]).contains("visible"));
    assert!(fault(&KNIFE_PLEATS, &[("seam", "9 m"), ("visible", "1 mm")]).contains("9000 pleats"));
}
