//! Bones, seams, cloth, dye and thread.

use proptest::prelude::{any, prop, prop_assert, prop_assert_eq, proptest};

use super::ask::{ask, close, list, mm, number, one, proposals_hold, table};

proptest! {
    /// A bone is never longer than its channel, is one of those sold, and what is ordered is what is listed.
    #[test]
    fn bones_are_never_longer_than_their_channels(
        channels in prop::collection::vec((60.0..450.0_f64, 1u32..6), 1..8),
        sold in prop::option::of(prop::collection::vec(80.0..400.0_f64, 1..6)),
    ) {
        let rows: Vec<String> = channels.iter().map(|(length, count)| format!("a:{length} mm:{count}")).collect();
        let mut values = vec![("channels", rows.join(", "))];
        if let Some(sold) = &sold {
            values.push(("sold", sold.iter().map(|length| mm(*length)).collect::<Vec<_>>().join(", ")));
        }
        let found = ask("boning", &values);
        let clearance = one(&found, "clearance");
        let mut total = 0.0;
        for (row, (channel, count)) in table(&found, "list").rows.iter().zip(&channels) {
            let bone = number(&row[2]).unwrap();
            prop_assert!(bone + clearance <= channel + 1e-9);
            match &sold {
                // The longest sold that goes in.
                Some(sold) => {
                    let fitting = sold.iter().filter(|length| **length + clearance <= *channel);
                    let best = fitting.fold(0.0, |best: f64, length| best.max(*length));
                    prop_assert!(close(bone, best));
                }
                None => prop_assert!(close((bone / 12.7).round() * 12.7, bone) && channel - clearance - bone < 12.7),
            }
            total += bone * f64::from(*count);
        }
        let order = &table(&found, "order").rows;
        let ordered: f64 = order.iter().map(|row| number(&row[0]).unwrap() * number(&row[1]).unwrap()).sum();
        prop_assert!(close(ordered, total) && close(one(&found, "total"), total));
        proposals_hold("boning", &values, &found);
    }

    #[test]
    fn french_seams_add_up(allowance in 4.0..30.0_f64, first in 3.0..20.0_f64, trim in 1.0..8.0_f64) {
        let values = [("allowance", mm(allowance)), ("first", mm(first)), ("trim", mm(trim))];
        let found = ask("french-seam", &values);
        prop_assert!(close(one(&found, "first_seam") + one(&found, "second_seam"), allowance));
        prop_assert!(found.out_of_reach.is_some() || one(&found, "second_seam") > trim.min(first));
        proposals_hold("french-seam", &values, &found);
    }
}

proptest! {
    /// What is bought, washed, comes out at the length wanted; more shrinkage needs more cloth.
    #[test]
    fn washed_cloth_is_long_enough(length in 100.0..9000.0_f64, along in 0.0..0.4_f64, have in 0.5..1.5_f64) {
        let at = |along: f64| ask("shrinkage", &[("length", mm(length)), ("along", along.to_string())]);
        let found = at(along);
        prop_assert!(close((one(&found, "buy") - 114.3) * (1.0 - along), length));
        prop_assert!(close(one(&found, "cut_before") * (1.0 - along), one(&found, "cut_after")));
        prop_assert!(one(&at(along + 0.05), "buy") > one(&found, "buy"));
        let values = [("length", mm(length)), ("along", along.to_string()), ("have", mm(length * have))];
        proposals_hold("shrinkage", &values, &ask("shrinkage", &values));
    }

    #[test]
    fn blocks_come_out_with_their_margin(
        length in 50.0..900.0_f64,
        width in 50.0..1700.0_f64,
        along in 0.0..0.3_f64,
        across in 0.0..0.3_f64,
        count in 1u32..20,
    ) {
        let values = [
            ("length", mm(length)),
            ("width", mm(width)),
            ("along", along.to_string()),
            ("across", across.to_string()),
            ("count", count.to_string()),
            ("cloth_width", "1150 mm".to_string()),
        ];
        let found = ask("block", &values);
        prop_assert!(close(one(&found, "block_length") * (1.0 - along) - length, 50.8));
        prop_assert!(close(one(&found, "block_width") * (1.0 - across) - width, 50.8));
        if found.out_of_reach.is_none() {
            let (side, rows) = (one(&found, "across_cloth"), one(&found, "rows"));
            prop_assert!(side * one(&found, "block_width") <= 1150.0 - 25.4 + 1e-6);
            prop_assert!(side * rows >= f64::from(count) && side * (rows - 1.0) < f64::from(count));
            prop_assert!(close(one(&found, "cloth"), rows * one(&found, "block_length")));
        }
        prop_assert_eq!(found.proposals.is_empty(), found.out_of_reach.is_none());
        proposals_hold("block", &values, &found);
    }

    /// Panels do not overlap, each begins at its place in the pattern, and no smaller step would do: tried one by one.
    #[test]
    fn panels_begin_on_the_pattern(
        length in 50.0..2500.0_f64,
        repeat in 30.0..900.0_f64,
        panels in 1u32..8,
        half in any::<bool>(),
        have in 0.6..2.5_f64,
    ) {
        let values = [
            ("length", mm(length)),
            ("repeat", mm(repeat)),
            ("panels", panels.to_string()),
            ("match_by", if half { "half-drop" } else { "straight" }.to_string()),
            ("have", mm(length * have * f64::from(panels))),
        ];
        let found = ask("repeat", &values);
        let mut least = if half { repeat / 2.0 } else { repeat };
        while least < length - 1e-6 * repeat {
            least += repeat;
        }
        prop_assert!(close(one(&found, "step"), least));
        let starts = list(&found, "starts");
        prop_assert_eq!(starts.len(), panels as usize);
        prop_assert!(starts.windows(2).all(|pair| pair[1] - pair[0] >= length - 1e-6 * repeat));
        // Wherever the motif lies on the bolt, one repeat more reaches it.
        prop_assert!(one(&found, "cloth") >= starts.last().unwrap() + length + repeat - 1e-6);
        prop_assert!(one(&found, "cut") >= length - 1e-6 * repeat && one(&found, "cut") < length + repeat);
        proposals_hold("repeat", &values, &found);
    }
}

proptest! {
    /// Twice the goods, twice everything; and every proposal for a small pot is within reach.
    #[test]
    fn dye_goes_with_the_goods(
        goods in 5.0..5000.0_f64,
        shade in 0.001..0.1_f64,
        bath in 6.0..40.0_f64,
        pot in 2.0..60.0_f64,
    ) {
        let at = |goods: f64| {
            let goods = format!("{goods} g");
            ask("dye", &[("goods_weight", goods), ("shade", shade.to_string()), ("bath_ratio", bath.to_string())])
        };
        let (found, twice) = (at(goods), at(2.0 * goods));
        for name in ["dye", "bath", "goods"] {
            prop_assert!(close(2.0 * one(&found, name), one(&twice, name)));
        }
        prop_assert!(close(one(&found, "dye"), goods * shade));
        prop_assert!(close(one(&found, "bath") / 1000.0, goods * bath), "a gram of water is a millilitre");
        let values = [
            ("goods_weight", format!("{goods} g")),
            ("shade", shade.to_string()),
            ("bath_ratio", bath.to_string()),
            ("pot", format!("{pot} l")),
        ];
        let tried = ask("dye", &values);
        prop_assert_eq!(tried.out_of_reach.is_some(), one(&tried, "baths") > 1.5);
        proposals_hold("dye", &values, &tried);
    }

    /// Seam by seam, class by class, or all at once: the same thread.
    #[test]
    fn thread_adds_up(
        seams in prop::collection::vec((50.0..3000.0_f64, 0usize..4, 1u32..5), 1..10),
        waste in 0.0..0.5_f64,
    ) {
        let class = |at: usize| ["101", "301", "401", "504"][at];
        let row = |(length, at, count): &(f64, usize, u32)| format!("a:{length} mm:{}:{count}", class(*at));
        let rows: Vec<String> = seams.iter().map(row).collect();
        let found = ask("thread", &[("seams", rows.join(", ")), ("waste", waste.to_string())]);
        let by_seam: f64 = table(&found, "by_seam").rows.iter().filter_map(|row| number(&row[4])).sum();
        let by_class: f64 = table(&found, "by_class").rows.iter().filter_map(|row| number(&row[2])).sum();
        let stitched: f64 = seams.iter().map(|(length, _, count)| length * f64::from(*count)).sum();
        prop_assert!(close(by_seam, one(&found, "net")) && close(by_class, one(&found, "net")));
        prop_assert!(close(one(&found, "seam_length"), stitched));
        prop_assert!(close(one(&found, "garment"), one(&found, "net") * (1.0 + waste)));
        let alone = |row: &String| one(&ask("thread", &[("seams", row.clone()), ("waste", "0".into())]), "net");
        prop_assert!(close(rows.iter().map(alone).sum(), one(&found, "net")));
    }
}
