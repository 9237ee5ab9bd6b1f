//! Printed motifs, counted again one by one.

use proptest::prelude::{any, prop_assert, prop_assert_eq, prop_assume, proptest};

use super::ask::{ask, mm, one, proposals_hold, table};

proptest! {
    /// Motifs counted again over a lattice far larger than the piece, and the next piece's lattice is this one's.
    #[test]
    fn motifs_counted_one_by_one(
        width in 20.0..400.0_f64,
        height in 20.0..400.0_f64,
        across in 15.0..200.0_f64,
        up in 15.0..200.0_f64,
        left in -100.0..100.0_f64,
        foot in -100.0..100.0_f64,
        share in 0.2..1.2_f64,
        allowance in 0.0..30.0_f64,
        half in any::<bool>(),
        as_outline in any::<bool>(),
    ) {
        let mut values = vec![
            ("repeat_across", mm(across)),
            ("repeat_up", mm(up)),
            ("origin_across", mm(left)),
            ("origin_up", mm(foot)),
            ("motif_width", mm(across * share)),
            ("motif_height", mm(up * share)),
            ("allowance", mm(allowance)),
            ("half_drop", if half { "yes" } else { "no" }.to_string()),
        ];
        if as_outline {
            let corners = format!("0 mm:0 mm, {width} mm:0 mm, {width} mm:{height} mm, 0 mm:{height} mm");
            values.push(("outline", corners));
        } else {
            values.push(("width", mm(width)));
            values.push(("height", mm(height)));
        }
        let found = ask("motif", &values);
        let middle = |column: i32, row: i32| {
            let lower = if half && column % 2 != 0 { up / 2.0 } else { 0.0 };
            (left + f64::from(column) * across, foot + f64::from(row) * up - lower)
        };
        let (w, h) = (across * share / 2.0, up * share / 2.0);
        let (mut inside, mut whole, mut touching, mut printed) = (0.0, 0.0, 0.0, 0.0);
        for column in -45..=45 {
            for row in -45..=45 {
                let (x, y) = middle(column, row);
                // A middle or an edge nearer the line than this is decided by arithmetic alone.
                let hair = [x, width - x, y, height - y, x - w, x + w - width, y - h, y + h - height]
                    .iter()
                    .chain(&[x + w, width - x + w, y + h, height - y + h])
                    .any(|gap| gap.abs() < 1e-4 || (gap.abs() - allowance).abs() < 1e-4);
                prop_assume!(!hair);
                let beyond = |by: f64| x + w > -by && x - w < width + by && y + h > -by && y - h < height + by;
                inside += f64::from(u8::from(x > 0.0 && x < width && y > 0.0 && y < height));
                whole += f64::from(u8::from(x - w > 0.0 && x + w < width && y - h > 0.0 && y + h < height));
                touching += f64::from(u8::from(beyond(0.0)));
                printed += f64::from(u8::from(beyond(allowance)));
            }
        }
        prop_assert_eq!(one(&found, "inside"), inside);
        prop_assert_eq!(one(&found, "whole"), whole);
        prop_assert_eq!(one(&found, "cut_by_seam"), touching - whole);
        prop_assert_eq!(one(&found, "impressions"), printed);
        prop_assert_eq!(table(&found, "middles").rows.len() as f64, inside + one(&found, "on_line"));
        // The next piece's first middle stands somewhere in this lattice, in the first column beyond the seam.
        let (x, y) = (one(&found, "next_across") + width, one(&found, "next_up"));
        prop_assert!((0.0..across + 1e-6).contains(&one(&found, "next_across")) && (0.0..up + 1e-6).contains(&y));
        let there = (-60..=60).flat_map(|column| (-60..=60).map(move |row| (column, row))).any(|(column, row)| {
            let at = middle(column, row);
            (at.0 - x).abs() < 1e-6 && (at.1 - y).abs() < 1e-6
        });
        prop_assert!(there, "({x}, {y}) is no middle");
        proposals_hold("motif", &values, &found);
    }

    /// A motif inside a slanted outline lies on the right side of every line of it.
    #[test]
    fn motifs_in_a_triangle(
        base in 100.0..400.0_f64,
        tall in 100.0..400.0_f64,
        lean in 0.0..1.0_f64,
        step in 11.0..60.0_f64,
    ) {
        let top = base * lean;
        let values = [
            ("outline", format!("0 mm:0 mm, {base} mm:0 mm, {top} mm:{tall} mm")),
            ("repeat_across", mm(step)),
            ("repeat_up", mm(step)),
        ];
        let found = ask("motif", &values);
        // Above the base, to the right of the left-hand line and to the left of the right-hand one.
        let sides = |x: f64, y: f64| [y, tall * x - top * y, (top - base) * y - (x - base) * tall];
        let mut inside = 0.0;
        for column in 0..60 {
            for row in 0..60 {
                let (x, y) = (step * (f64::from(column) + 0.5), step * (f64::from(row) + 0.5));
                let sides = sides(x, y);
                prop_assume!(sides.iter().all(|side| side.abs() > 1e-2));
                inside += f64::from(u8::from(sides.iter().all(|side| *side > 0.0)));
            }
        }
        prop_assert_eq!(one(&found, "inside"), inside);
        prop_assert!(one(&found, "whole") <= inside);
        prop_assert!(one(&found, "impressions") >= one(&found, "whole") + one(&found, "cut_by_seam"));
    }
}
