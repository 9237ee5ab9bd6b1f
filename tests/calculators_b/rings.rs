//! Circles, flounces and gores, placed on the cloth they are said to fit.

use std::f64::consts::{FRAC_PI_2, PI};

use proptest::prelude::{Just, any, prop, prop_assert, prop_assert_eq, prop_assume, prop_oneof, proptest};

use super::ask::{ask, close, mm, number, one, proposals_hold, table, word};

/// Where the first straight edge of a ring piece points, by the words of the answer.
fn turn_of(how: &str, angle: f64) -> f64 {
    match how {
        "whole" | "edge along selvage" => 0.0,
        "edge across cloth" => FRAC_PI_2,
        "middle along selvage" => -angle / 2.0,
        "middle across cloth" => FRAC_PI_2 - angle / 2.0,
        other => panic!("{other}"),
    }
}

const HOW: [&str; 4] = ["edge along selvage", "edge across cloth", "middle along selvage", "middle across cloth"];

/// The extent along and across of a ring piece with allowances, by a thousand points of its outline.
fn traced(how: &str, angle: f64, inner: f64, outer: f64, edge: f64) -> (f64, f64) {
    let turn = turn_of(how, angle);
    let mut points = Vec::new();
    for step in 0..=1000 {
        let at = turn + angle * f64::from(step) / 1000.0;
        points.push((outer * at.cos(), outer * at.sin()));
        points.push((inner * at.cos(), inner * at.sin()));
    }
    if how != "whole" {
        for step in 0..=100 {
            let radius = inner + (outer - inner) * f64::from(step) / 100.0;
            for (at, out) in [(turn, turn - FRAC_PI_2), (turn + angle, turn + angle + FRAC_PI_2)] {
                points.push((radius * at.cos() + edge * out.cos(), radius * at.sin() + edge * out.sin()));
            }
        }
    }
    let span = |pick: fn(&(f64, f64)) -> f64| {
        let values = points.iter().map(pick);
        values.clone().fold(f64::NEG_INFINITY, f64::max) - values.fold(f64::INFINITY, f64::min)
    };
    (span(|point| point.0), span(|point| point.1))
}

/// How much the thousand points may fall short of the true curve.
fn chord(outer: f64, angle: f64) -> f64 {
    2.0 * outer * (1.0 - (angle / 2000.0).cos()) + 1e-6
}

proptest! {
    /// A circle said to fit a width is placed there, row by row; with one piece fewer it cannot be.
    #[test]
    fn circles_fit_where_they_are_said_to(
        waist in 400.0..1200.0_f64,
        length in 200.0..1200.0_f64,
        fraction in prop_oneof![Just(1.0), Just(0.75), Just(0.5), Just(0.25), Just(1.5), 0.1..2.0_f64],
        widths in prop::collection::vec(500.0..1700.0_f64, 1..4),
    ) {
        let texts: Vec<String> = widths.iter().map(|width| mm(*width)).collect();
        let values = [
            ("waist", mm(waist)),
            ("length", mm(length)),
            ("fraction", fraction.to_string()),
            ("cloth_widths", texts.join(", ")),
        ];
        let found = ask("circle", &values);
        prop_assert!(close(one(&found, "radius") * 2.0 * PI * fraction, waist));
        prop_assert!(close(one(&found, "hem_length"), (one(&found, "radius") + length) * 2.0 * PI * fraction));
        let (inner, outer, edge) = (one(&found, "cut_radius"), one(&found, "cut_hem_radius"), 15.875);
        prop_assume!(inner > 0.0);
        for (row, width) in table(&found, "fits").rows.iter().zip(&widths) {
            let usable = width - 25.4;
            let whole_turn = |pieces: f64| (fraction / pieces - 1.0).abs() < 1e-9;
            let Some(pieces) = number(&row[1]) else {
                for how in HOW {
                    let angle = 2.0 * PI * fraction / 12.0;
                    prop_assert!(traced(how, angle, inner, outer, edge).1 > usable - chord(outer, angle));
                }
                continue;
            };
            let angle = 2.0 * PI * fraction / pieces;
            prop_assert!(angle < 2.0 * PI + 1e-9);
            let (along, across) = traced(word(&row[3]), angle, inner, outer, edge);
            let (side_by_side, cloth) = (number(&row[4]).unwrap(), number(&row[5]).unwrap());
            prop_assert!(side_by_side * across <= usable + 1e-6, "{side_by_side} of {across} on {usable}");
            prop_assert!((pieces / side_by_side).ceil() * along <= cloth + 1e-6);
            prop_assert_eq!(number(&row[2]).unwrap(), if whole_turn(pieces) { 0.0 } else { pieces });
            // One piece fewer: its two edges would run into each other, or it is too wide any way it is turned.
            let fewer = pieces - 1.0;
            if fewer >= 1.0 {
                let angle = 2.0 * PI * fraction / fewer;
                let gap = 2.0 * PI - angle;
                let cuttable = whole_turn(fewer) || gap >= PI || (gap > 0.0 && inner * (gap / 2.0).sin() >= edge);
                if cuttable {
                    let how = if whole_turn(fewer) { vec!["whole"] } else { HOW.to_vec() };
                    for how in how {
                        let across = traced(how, angle, inner, outer, edge).1;
                        prop_assert!(across > usable - chord(outer, angle), "{how} of {fewer}");
                    }
                }
            }
        }
        prop_assert_eq!(found.proposals.is_empty(), found.out_of_reach.is_none());
        proposals_hold("circle", &values, &found);
    }

    /// More of a circle at the same waist has a smaller radius and a longer hem.
    #[test]
    fn circles_are_monotone(waist in 400.0..1200.0_f64, length in 200.0..1200.0_f64, fraction in 0.1..1.4_f64) {
        let at = |fraction: f64| {
            ask("circle", &[("waist", mm(waist)), ("length", mm(length)), ("fraction", fraction.to_string())])
        };
        let (less, more) = (at(fraction), at(fraction * 1.1));
        prop_assert!(one(&more, "radius") < one(&less, "radius"));
        prop_assert!(one(&more, "hem_length") > one(&less, "hem_length"));
    }

    #[test]
    fn flounces_fit_where_they_are_said_to(
        top in 200.0..5000.0_f64,
        depth in 60.0..500.0_f64,
        ratio in 1.1..4.0_f64,
        width in 600.0..1600.0_f64,
    ) {
        let values =
            [("top", mm(top)), ("depth", mm(depth)), ("ratio", ratio.to_string()), ("cloth_widths", mm(width))];
        let found = ask("flounce", &values);
        let angle = one(&found, "turns") * 2.0 * PI;
        prop_assert!(close(angle * one(&found, "radius"), top));
        prop_assert!(close(angle * one(&found, "outer_radius"), top * ratio));
        proposals_hold("flounce", &values, &found);
        if found.out_of_reach.is_some() {
            return Ok(());
        }
        let row = &table(&found, "fits").rows[0];
        let cell = |column: usize| number(&row[column]).unwrap();
        let (pieces, side_by_side, cloth) = (cell(1), cell(3), cell(4));
        let (along, across) =
            traced(word(&row[2]), angle / pieces, one(&found, "cut_radius"), one(&found, "cut_outer_radius"), 9.525);
        prop_assert!(side_by_side * across <= width - 25.4 + 1e-6);
        prop_assert!((pieces / side_by_side).ceil() * along <= cloth + 1e-6);
        prop_assert!(close(pieces * one(&found, "piece_top"), top));
        prop_assert!(angle / pieces < 2.0 * PI, "a whole ring has no ends to join");
    }

    /// Gores said to lie side by side are laid there, each as near its neighbour as its edges let it.
    #[test]
    fn gores_lie_side_by_side(
        waist in 500.0..1100.0_f64,
        hip in 0.9..1.6_f64,
        hem in 0.8..3.5_f64,
        length in 400.0..1200.0_f64,
        gores in 3u32..12,
        one_way in any::<bool>(),
        width in 600.0..1600.0_f64,
    ) {
        let values = [
            ("waist", mm(waist)),
            ("hip", mm(waist * hip)),
            ("hem_width", mm(waist * hip * hem)),
            ("length", mm(length)),
            ("gores", gores.to_string()),
            ("one_way", if one_way { "yes" } else { "no" }.to_string()),
            ("cloth_widths", mm(width)),
        ];
        let found = ask("gores", &values);
        let count = f64::from(gores);
        prop_assert!(close(count * one(&found, "gore_hem"), waist * hip * hem));
        prop_assert!(close(count * one(&found, "gore_hip"), waist * hip));
        proposals_hold("gores", &values, &found);
        let Some(across) = number(&table(&found, "fits").rows[0][1]) else {
            prop_assert!(found.out_of_reach.is_some());
            return Ok(());
        };
        prop_assert!(across <= count);
        // Half the width of the cut piece at so much below its upper edge; allowances square to the slants.
        let (hip_depth, seam, turn) = (177.8, 15.875, 50.8);
        let (at_waist, at_hip, at_hem) = (one(&found, "gore_waist"), one(&found, "gore_hip"), one(&found, "gore_hem"));
        let lean = |run: f64, down: f64| (run / 2.0).hypot(down) / down;
        let half = |below: f64| {
            let down = below - seam;
            let (upper, lower) = ((at_hip - at_waist) / hip_depth, (at_hem - at_hip) / (length - hip_depth));
            let (line, lean) = if down < hip_depth {
                (at_waist + upper * down, lean(at_hip - at_waist, hip_depth))
            } else {
                (at_hip + lower * (down - hip_depth), lean(at_hem - at_hip, length - hip_depth))
            };
            line / 2.0 + seam * lean
        };
        let tall = length + seam + turn;
        let heights: Vec<f64> = (0..=200).map(|step| tall * f64::from(step) / 200.0).collect();
        let edge = |index: u32, height: f64| half(if one_way || index.is_multiple_of(2) { height } else { tall - height });
        let mut middles: Vec<f64> = Vec::new();
        for index in 0..gores.min(across as u32) {
            let middle = match middles.last() {
                None => heights.iter().map(|height| edge(index, *height)).fold(0.0, f64::max),
                Some(before) => heights
                    .iter()
                    .map(|height| before + edge(index - 1, *height) + edge(index, *height))
                    .fold(f64::NEG_INFINITY, f64::max),
            };
            middles.push(middle);
        }
        let reach = middles
            .iter()
            .zip(0..)
            .flat_map(|(middle, index)| heights.iter().map(move |height| (middle, index, *height)))
            .map(|(middle, index, height)| middle + edge(index, height))
            .fold(0.0, f64::max);
        // The upper slant's allowance may stand a hair beyond the carried-on lower one at the hip.
        prop_assert!(reach <= width - 25.4 + 0.5, "{across} gores reach {reach} on {width}");
    }
}

/// Half a circle on cloth as wide as its radius, drawn out by hand: 60 in cloth takes a half circle of 58 in with
/// allowances, straight edge along the selvage, in one piece twice as long.
#[test]
fn half_circle_by_hand() {
    let found = ask(
        "circle",
        &[
            ("waist", "30 in".into()),
            ("length", "40 in".into()),
            ("fraction", "1/2".into()),
            ("cloth_widths", "60 in".into()),
        ],
    );
    let row = &table(&found, "fits").rows[0];
    let outer = 30.0 / PI + 40.0 + 0.25;
    assert_eq!(number(&row[1]), Some(1.0));
    assert_eq!(word(&row[3]), "edge along selvage");
    assert!(close(number(&row[5]).unwrap() / 25.4, 2.0 * outer));
    assert!(outer + 0.625 < 59.0);
}
