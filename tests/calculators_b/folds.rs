//! Pleats, tucks and smocking.

use proptest::prelude::{any, prop_assert, prop_assert_eq, proptest};

use super::ask::{ask, close, list, mm, number, one, proposals_hold, table};

proptest! {
    /// Whole pleats fill the seam, the marks end where the cloth ends, and twice the size is twice the size.
    #[test]
    fn pleats_fill_the_seam(
        seam in 100.0..4000.0_f64,
        visible in 10.0..90.0_f64,
        share in 0.2..1.5_f64,
        box_pleat in any::<bool>(),
    ) {
        let name = if box_pleat { "box-pleats" } else { "knife-pleats" };
        let folds = if box_pleat { 4.0 } else { 2.0 };
        let at = |scale: f64| {
            let underlay = mm(visible * share * scale);
            ask(name, &[("seam", mm(seam * scale)), ("visible", mm(visible * scale)), ("underlay", underlay)])
        };
        let found = at(1.0);
        let pleats = one(&found, "pleats");
        prop_assert!(close(pleats * one(&found, "pleat_width"), seam));
        prop_assert!(close(one(&found, "flat"), seam + folds * pleats * visible * share));
        prop_assert!(close(pleats * one(&found, "takes"), one(&found, "flat")));
        let doubled = at(2.0);
        prop_assert_eq!(one(&doubled, "pleats"), pleats);
        prop_assert!(close(one(&doubled, "flat"), 2.0 * one(&found, "flat")));
        // Marks run forward and stay within the cloth.
        let rows = &table(&found, "marks").rows;
        let marks: Vec<f64> = rows.iter().flat_map(|row| row[1..].iter().filter_map(number)).collect();
        prop_assert!(marks.is_sorted());
        prop_assert!(marks[0] >= -1e-9 && *marks.last().unwrap() <= one(&found, "flat") + 1e-6);
        if !box_pleat {
            prop_assert!(close(*marks.last().unwrap(), one(&found, "flat")));
        }
    }

    /// More cloth asked for than there is: deeper pleats need more, and every proposal is within reach.
    #[test]
    fn pleats_out_of_reach(
        seam in 300.0..2000.0_f64,
        visible in 15.0..60.0_f64,
        share in 0.5..4.0_f64,
        box_pleat in any::<bool>(),
    ) {
        let name = if box_pleat { "box-pleats" } else { "knife-pleats" };
        let (wide, deep, have) = (mm(visible), mm(visible), mm(seam * share));
        let values = [("seam", mm(seam)), ("visible", wide), ("underlay", deep), ("available", have)];
        let found = ask(name, &values);
        prop_assert_eq!(found.out_of_reach.is_some(), one(&found, "flat") > seam * share + 1e-6);
        prop_assert_eq!(found.proposals.is_empty(), found.out_of_reach.is_none());
        proposals_hold(name, &values, &found);
        let deeper = ask(name, &[("seam", mm(seam)), ("visible", mm(visible)), ("underlay", mm(visible + 1.0))]);
        prop_assert!(one(&deeper, "flat") > one(&found, "flat"));
    }

    #[test]
    fn tucks_add_up(width in 100.0..900.0_f64, depth in 2.0..15.0_f64, gap in 5.0..40.0_f64, have in 1.0..3.0_f64) {
        let values = [
            ("width", mm(width)),
            ("depth", mm(depth)),
            ("gap", mm(gap)),
            ("margin", mm(20.0)),
            ("available", mm(width * have)),
        ];
        let found = ask("tucks", &values);
        let (gaps, tucks) = (one(&found, "gaps"), one(&found, "tucks"));
        prop_assert_eq!(gaps + 1.0, tucks);
        prop_assert!(close(gaps * one(&found, "gap_width") + 40.0, width));
        prop_assert!(close(one(&found, "flat") - 2.0 * depth * tucks, width));
        let last = table(&found, "marks").rows.last().and_then(|row| number(&row[3])).unwrap();
        prop_assert!(close(last + 20.0, one(&found, "flat")));
        prop_assert_eq!(found.proposals.is_empty(), found.out_of_reach.is_none());
        proposals_hold("tucks", &values, &found);
    }

    #[test]
    fn smocking_is_whole_pleats(
        drawn in 80.0..600.0_f64,
        ratio in 2.0..5.0_f64,
        depth in 30.0..200.0_f64,
        out in 1.0..6.0_f64,
        drop in 1.0..90.0_f64,
    ) {
        let values = [
            ("drawn", mm(drawn)),
            ("ratio", ratio.to_string()),
            ("depth", mm(depth)),
            ("last_row", mm(drawn * out)),
            ("drop", mm(drop)),
        ];
        let found = ask("smocking", &values);
        let (pleats, rows, flat) = (one(&found, "pleats"), one(&found, "rows"), one(&found, "flat"));
        prop_assert!(close(pleats * 12.7, flat));
        prop_assert!((flat - drawn * ratio).abs() <= 6.35 + 1e-6, "to the nearest pleat");
        prop_assert!(close((rows - 1.0) * one(&found, "row_step"), depth));
        let lengths = list(&found, "row_lengths");
        prop_assert_eq!(lengths.len() as f64, rows);
        prop_assert!(lengths.is_sorted() && close(lengths[0], drawn) && close(*lengths.last().unwrap(), drawn * out));
        prop_assert_eq!(found.out_of_reach.is_some(), drawn * out > flat);
        // The row turned to a point is the long side over its half width and the drop.
        let (half, slant) = (drawn / 2.0, one(&found, "slant"));
        prop_assert!(close(slant * slant, half * half + drop * drop));
        prop_assert!(close(slant * one(&found, "turn").cos(), half));
        proposals_hold("smocking", &values, &found);
    }
}
