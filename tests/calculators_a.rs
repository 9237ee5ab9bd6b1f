//! Properties of the calculators for pleats, panels, strips and openings: monotone, free of scale, sums that
//! survive rounding, and second routes to the dip and to the bias strips.

use std::collections::BTreeMap;

use furbelow::reckon::{Answer, Given, InputFault, Outcome, Value, technique};
use furbelow::units::{Count, Length, Quantity, parse_literal};
use proptest::prelude::{ProptestConfig, prop_assert, prop_assert_eq, prop_assume, proptest};

fn mm(value: f64) -> Value {
    Value::Quantity(Quantity::mm(value))
}

fn number(value: f64) -> Value {
    Value::Quantity(Quantity::number(value))
}

fn word(text: &str) -> Value {
    Value::Word(text.to_string())
}

fn lengths(values: &[f64]) -> Value {
    Value::List(values.iter().map(|value| Quantity::mm(*value)).collect())
}

fn try_ask(name: &str, values: &[(&str, Value)]) -> Result<Answer, InputFault> {
    let technique = technique(name).unwrap();
    let values = values.iter().map(|(name, value)| ((*name).to_string(), value.clone())).collect();
    technique.answer(Given::check(technique, values).unwrap_or_else(|faults| panic!("{name}: {faults:?}")))
}

fn ask(name: &str, values: &[(&str, Value)]) -> Answer {
    try_ask(name, values).unwrap_or_else(|fault| panic!("{name}: {fault}"))
}

fn one(answer: &Answer, name: &str) -> f64 {
    answer.one(name).unwrap_or_else(|| panic!("{name} is not there")).value
}

fn list(answer: &Answer, name: &str) -> Vec<f64> {
    match answer.get(name) {
        Some(Outcome::List(list)) => list.iter().map(|quantity| quantity.value).collect(),
        other => panic!("{name}: {other:?}"),
    }
}

fn table(answer: &Answer, name: &str) -> Vec<Vec<Value>> {
    match answer.get(name) {
        Some(Outcome::Table(table)) => table.rows.clone(),
        other => panic!("{name}: {other:?}"),
    }
}

fn cell(value: &Value) -> f64 {
    match value {
        Value::Quantity(quantity) => quantity.value,
        other => panic!("{other:?}"),
    }
}

fn near(a: f64, b: f64) -> bool {
    (a - b).abs() <= 1e-9 * a.abs().max(b.abs()).max(1.0)
}

// ---- cartridge pleats ------------------------------------------------------------------------

struct Pleats {
    tight: f64,
    eased: f64,
    seam: f64,
    available: f64,
    stitch: f64,
}

impl Pleats {
    fn scaled(&self, scale: f64, take: &str, panels: u64) -> Vec<(&'static str, Value)> {
        vec![
            ("swatch_flat", mm(300.0 * scale)),
            ("swatch_tight", mm(self.tight * scale)),
            ("swatch_eased", mm(self.eased * scale)),
            ("swatch_stitch", mm(6.0 * scale)),
            ("stitch", mm(self.stitch * scale)),
            ("seam", mm(self.seam * scale)),
            ("available", mm(self.available * scale)),
            ("panels", Value::Quantity(Count(panels).into())),
            ("take", word(take)),
        ]
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    /// The pleats lie in the swatch's band exactly where the answer is within reach; they never use more cloth than
    /// there is, come in fours, and are shared over the panels without one too many or too few.
    #[test]
    fn pleats_keep_to_the_swatch(
        tight in 30.0..90.0_f64, ease in 1.0..1.3_f64, seam in 500.0..1200.0_f64, available in 1500.0..9000.0_f64,
        stitch in 3.0..12.0_f64, panels in 1_u64..9,
    ) {
        let pleats = Pleats { tight, eased: tight * ease, seam, available, stitch };
        let Ok(found) = try_ask("cartridge-pleats", &pleats.scaled(1.0, "all", panels)) else { return Ok(()) };
        let n = one(&found, "pleats");
        let pitch = seam / n;
        let band = (tight / 25.0, tight * ease / 25.0);
        let inside = pitch >= band.0 * (1.0 - 1e-9) && pitch <= band.1 * (1.0 + 1e-9);
        prop_assert_eq!(inside, found.out_of_reach.is_none());
        prop_assert!(n % 4.0 == 0.0 && 2.0 * stitch * n <= available + 1e-6);
        prop_assert!(2.0 * stitch * (n + 4.0) > available - 1e-6);
        prop_assert!(near(list(&found, "panel_pleats").iter().sum::<f64>(), n));
        prop_assert!(near(one(&found, "flat"), one(&found, "ratio") * seam));
        prop_assert!(near(one(&found, "part_seam") * 4.0, seam));
        prop_assert!(near(one(&found, "flat") + one(&found, "spare"), available));
        prop_assert!(found.proposals.len() <= 3 && found.proposals.windows(2).all(|pair| pair[0].cost <= pair[1].cost));
    }

    /// A garment drawn twice as large has the same pleats of twice the size.
    #[test]
    fn pleats_know_no_scale(
        tight in 30.0..90.0_f64, seam in 500.0..1200.0_f64, available in 1500.0..9000.0_f64, scale in 0.3..3.0_f64,
    ) {
        // A whole number of pleats sits on an edge only by the last bit; keep away from it.
        let edge = |x: f64| (x - x.round()).abs() < 1e-6;
        prop_assume!(!edge(available / 12.0 / 4.0) && !edge(seam * 25.0 / tight / 4.0));
        let pleats = Pleats { tight, eased: tight * 1.2, seam, available, stitch: 6.0 };
        let (Ok(small), Ok(large)) = (
            try_ask("cartridge-pleats", &pleats.scaled(1.0, "all", 3)),
            try_ask("cartridge-pleats", &pleats.scaled(scale, "all", 3)),
        ) else { return Ok(()) };
        prop_assert_eq!(one(&small, "pleats"), one(&large, "pleats"));
        prop_assert!(near(one(&small, "ratio"), one(&large, "ratio")));
        prop_assert!(near(one(&small, "flat") * scale, one(&large, "flat")));
    }

    /// More cloth never gives fewer pleats, a longer seam never holds fewer, and cutting down keeps to the seam.
    #[test]
    fn pleats_grow_with_cloth_and_seam(
        tight in 30.0..90.0_f64, seam in 500.0..1200.0_f64, available in 1500.0..9000.0_f64, more in 0.0..500.0_f64,
    ) {
        let pleats = |seam: f64, available: f64| Pleats { tight, eased: tight * 1.2, seam, available, stitch: 6.0 };
        let n = |pleats: &Pleats| one(&ask("cartridge-pleats", &pleats.scaled(1.0, "what-fits", 2)), "pleats");
        let base = n(&pleats(seam, available));
        prop_assert!(n(&pleats(seam, available + more)) >= base);
        prop_assert!(n(&pleats(seam + more, available)) >= base);
        let found = ask("cartridge-pleats", &pleats(seam, available).scaled(1.0, "what-fits", 2));
        prop_assert!(one(&found, "easing") >= -1e-9);
    }

    // ---- panels and ruffles ------------------------------------------------------------------

    /// The widths as they are printed make the whole, for each ruler; no panel is wider than the cloth, and no two
    /// differ by more than one mark.
    #[test]
    fn printed_panels_make_the_skirt(
        cloth in 700.0..1700.0_f64, flat in 500.0..9000.0_f64, opening in 0.0..60.0_f64, join in 5.0..20.0_f64,
    ) {
        let found = ask("panels", &[("cloth_width", mm(cloth)), ("flat", mm(flat)), ("opening", mm(opening)), ("join", mm(join))]);
        let total = one(&found, "total_cut");
        let count = one(&found, "count");
        prop_assert!(near(total - 2.0 * join * count - opening, flat));
        prop_assert!(near(one(&found, "finished_panel") * count - opening, one(&found, "available")));
        prop_assert!(one(&found, "available") >= flat - 1e-6);
        prop_assert!(count < 1.5 || one(&found, "finished_panel") * (count - 1.0) - opening < flat);
        for (column, mark) in [(1, 3.175), (2, 1.0)] {
            let widths: Vec<f64> = table(&found, "widths")
                .iter()
                .map(|row| match &row[column] { Value::Word(word) => parse_literal(word).unwrap().value, _ => f64::NAN })
                .collect();
            let (least, most) = (widths.iter().copied().fold(f64::MAX, f64::min), widths.iter().copied().fold(0.0, f64::max));
            prop_assert!(most <= one(&found, "usable") + 0.06, "{} of {}", most, one(&found, "usable"));
            prop_assert!(most - least <= mark + 0.1);
            let sum: f64 = widths.iter().sum();
            // At most one mark more than needed; where whole cloth widths leave no room for marks, each panel is
            // printed in decimals, to half a tenth of a millimetre.
            prop_assert!(sum >= total - 0.06 * count && sum <= total + mark + 0.06 * count, "{} {}", sum, total);
        }
    }

    /// Strips joined and hemmed come out at the flat width, and one strip fewer would not do.
    #[test]
    fn ruffle_strips_make_the_ruffle(
        seam in 200.0..4000.0_f64, ratio in 1.0..4.0_f64, cloth in 600.0..1700.0_f64, join in 0.0..20.0_f64, ring in proptest::bool::ANY,
    ) {
        let found = ask("ruffle", &[
            ("seam", mm(seam)), ("ratio", number(ratio)), ("depth", mm(150.0)), ("cloth_width", mm(cloth)), ("join", mm(join)),
            ("ring", Value::Flag(ring)),
        ]);
        let (strips, joins, strip, usable) =
            (one(&found, "strips"), one(&found, "joins"), one(&found, "strip"), one(&found, "usable"));
        let ends = if ring { 0.0 } else { 25.4 };
        prop_assert!(near(strips * strip - 2.0 * join * joins - ends, seam * ratio));
        prop_assert!(strip <= usable + 1e-6);
        let fewer = strips - 1.0;
        if fewer > 0.5 {
            let fewer_joins = if ring { fewer } else { fewer - 1.0 };
            prop_assert!(fewer * usable - 2.0 * join * fewer_joins - ends < seam * ratio + 1e-6);
        }
        prop_assert!(near(one(&found, "cloth"), strips * one(&found, "cut_depth")));
    }

    // ---- the dip, by another route -----------------------------------------------------------

    /// The dip walked in small straight steps gives its length and every mark.
    #[test]
    fn dip_by_walking_it(
        width in 100.0..600.0_f64, depth in 10.0..300.0_f64, ratio in 1.0..8.0_f64, shape in 0_usize..3, every in 30.0..200.0_f64,
    ) {
        let name = ["straight", "half-cosine", "parabola"][shape];
        let found = ask("dip", &[
            ("width", mm(width)), ("depth", mm(depth)), ("ratio", number(ratio)), ("shape", word(name)), ("every", mm(every)),
        ]);
        let half = width / 2.0;
        let y = |x: f64| match shape {
            0 => depth * (half - x) / half,
            1 => depth * (std::f64::consts::FRAC_PI_2 * x / half).cos().powi(2),
            _ => depth - depth * x * x / (half * half),
        };
        let steps = 20_000_u32;
        let mut walked = vec![(0.0, depth)];
        let (mut along, mut last) = (0.0, (0.0, depth));
        for step in 1..=steps {
            let x = half * f64::from(step) / f64::from(steps);
            along += (x - last.0).hypot(y(x) - last.1);
            last = (x, y(x));
            walked.push((along, y(x)));
        }
        prop_assert!((2.0 * along - one(&found, "arc")).abs() < 1e-5 * along, "{}: {} {}", name, 2.0 * along, one(&found, "arc"));
        prop_assert!(near(one(&found, "flat"), ratio * one(&found, "arc")));
        for row in table(&found, "marks") {
            let (u, d) = (cell(&row[0]), cell(&row[1]));
            let at = walked.partition_point(|(s, _)| *s < u / ratio).min(walked.len() - 1);
            prop_assert!((walked[at].1 - d).abs() < 0.05 + depth * 1e-3, "{}: at {} {} but {}", name, u, walked[at].1, d);
        }
        prop_assert!(one(&found, "shortfall") >= -1e-9);
    }

    /// The same dip given as many points comes out at nearly the same length, and never longer.
    #[test]
    fn dip_by_points(width in 100.0..600.0_f64, depth in 10.0..300.0_f64) {
        let half = width / 2.0;
        let rows = (0..=40_u32).map(|step| {
            let x = half * f64::from(step) / 40.0;
            let down = if step == 40 { 0.0 } else { depth * (1.0 - (x / half).powi(2)) };
            BTreeMap::from([("out".to_string(), mm(x)), ("down".to_string(), mm(down))])
        }).collect();
        let base = [("width", mm(width)), ("depth", mm(depth)), ("ratio", number(3.0))];
        let smooth = ask("dip", &[&base[..], &[("shape", word("parabola"))]].concat());
        let pointed = ask("dip", &[&base[..], &[("shape", word("points")), ("points", Value::Rows(rows))]].concat());
        let (a, b) = (one(&smooth, "arc"), one(&pointed, "arc"));
        prop_assert!(b <= a + 1e-9 && b > a * 0.999, "{} {}", a, b);
    }

    /// A deeper or a wider dip is longer, along the seam and on the flat.
    #[test]
    fn dip_is_monotone(width in 100.0..600.0_f64, depth in 10.0..300.0_f64, more in 0.1..100.0_f64, shape in 0_usize..3) {
        let name = ["straight", "half-cosine", "parabola"][shape];
        let flat = |width: f64, depth: f64| {
            one(&ask("dip", &[("width", mm(width)), ("depth", mm(depth)), ("ratio", number(4.0)), ("shape", word(name))]), "flat")
        };
        prop_assert!(flat(width, depth + more) > flat(width, depth));
        prop_assert!(flat(width + more, depth) > flat(width, depth));
    }

    // ---- bias strips, by laying them out -----------------------------------------------------

    /// Every strip of the list is laid into the rectangle as a parallelogram with both ends on the straight grain: it
    /// lies inside, overlaps no other, and could not be longer.
    #[test]
    fn bias_strips_fit_their_rectangle(
        width in 150.0..1600.0_f64, height in 150.0..1600.0_f64, strip in 12.0..80.0_f64, shortest in 20.0..150.0_f64,
    ) {
        let found = ask("bias-strips", &[
            ("strip", mm(strip)), ("width", mm(width)), ("height", mm(height)), ("shortest", mm(shortest)), ("join", mm(6.0)),
        ]);
        let across = strip * 2f64.sqrt();
        let rows = table(&found, "list");
        prop_assert_eq!(rows.len() as f64, one(&found, "all_strips"));
        let mut marks: Vec<f64> = rows.iter().map(|row| cell(&row[1])).collect();
        let mut area = 0.0;
        for row in &rows {
            let (near_cut, usable) = (cell(&row[1]), cell(&row[2]));
            let far_cut = near_cut + across;
            // Ends across the cloth: x from a to b on both cuts. Ends along the selvage: y from a to b.
            let upright = (f64::max(0.0, far_cut - height), f64::min(width, near_cut));
            let level = (f64::max(0.0, far_cut - width), f64::min(height, near_cut));
            let (upright_length, level_length) = ((upright.1 - upright.0) * 2f64.sqrt(), (level.1 - level.0) * 2f64.sqrt());
            prop_assert!((usable - upright_length.max(level_length)).abs() < 1e-6, "{} {} {}", usable, upright_length, level_length);
            let corners = if upright_length >= level_length {
                let (a, b) = upright;
                [(a, near_cut - a), (b, near_cut - b), (b, far_cut - b), (a, far_cut - a)]
            } else {
                let (a, b) = level;
                [(near_cut - a, a), (near_cut - b, b), (far_cut - b, b), (far_cut - a, a)]
            };
            for (x, y) in corners {
                prop_assert!((-1e-6..=width + 1e-6).contains(&x) && (-1e-6..=height + 1e-6).contains(&y), "{} {}", x, y);
            }
            let side = (corners[1].0 - corners[0].0).hypot(corners[1].1 - corners[0].1);
            prop_assert!((side - usable).abs() < 1e-6);
            let doubled: f64 = (0..4).map(|at| {
                let (p, q) = (corners[at], corners[(at + 1) % 4]);
                p.0 * q.1 - q.0 * p.1
            }).sum();
            prop_assert!((doubled.abs() / 2.0 - usable * strip).abs() < 1e-3);
            area += usable * strip;
            prop_assert!(usable >= shortest);
        }
        marks.sort_by(f64::total_cmp);
        prop_assert!(marks.windows(2).all(|pair| pair[1] - pair[0] > across - 1e-6), "strips overlap");
        prop_assert!(area <= width * height + 1e-3);
        prop_assert!(one(&found, "all_length") <= one(&found, "area_rule") + 1e-6);
        prop_assert!(rows.windows(2).all(|pair| cell(&pair[0][2]) >= cell(&pair[1][2]) - 1e-2), "longest first");
    }

    /// The joined run is its strips less what each join and the squared ends take; no fewer strips would do; a tube
    /// holds its rounds and not one more.
    #[test]
    fn bias_run_is_its_strips(
        width in 300.0..1600.0_f64, height in 300.0..1600.0_f64, strip in 12.0..60.0_f64, need in 300.0..9000.0_f64, join in 0.0..12.0_f64,
    ) {
        let found = ask("bias-strips", &[
            ("strip", mm(strip)), ("width", mm(width)), ("height", mm(height)), ("need", mm(need)), ("join", mm(join)),
        ]);
        let rows = table(&found, "list");
        let sum: f64 = rows.iter().map(|row| cell(&row[2])).sum();
        let joins = (rows.len() as f64 - 1.0).max(0.0);
        let run = sum - joins * 2.0 * 2f64.sqrt() * join;
        prop_assert!(near(one(&found, "joined"), (run - strip).max(0.0)));
        if let Some(last) = rows.last() {
            prop_assert!(near(cell(&last[4]), run));
            prop_assert_eq!(one(&found, "joined") >= need - 1e-6, found.out_of_reach.is_none());
            if found.out_of_reach.is_none() {
                let fewer = run - cell(&last[2]) + if rows.len() > 1 { 2.0 * 2f64.sqrt() * join } else { 0.0 };
                prop_assert!(fewer - strip < need, "one strip fewer would do");
            }
        }
        let (rounds, across) = (one(&found, "rounds"), one(&found, "along_selvage"));
        prop_assert!(rounds * across <= width - 2.0 * join + 1e-6 && (rounds + 1.0) * across > width - 2.0 * join - 1e-6);
        prop_assert!(one(&found, "continuous") * strip <= width * height + 1e-3);
    }

    /// Whatever is to be kept clear is clear, or it is said.
    #[test]
    fn joins_keep_clear(place in 100.0..4000.0_f64, need in 1000.0..5000.0_f64) {
        let found = ask("bias-strips", &[
            ("strip", mm(30.0)), ("width", mm(1100.0)), ("height", mm(400.0)), ("need", mm(need)), ("avoid", lengths(&[place])),
        ]);
        if found.get("joins_at").is_some() {
            let clear = list(&found, "joins_at").iter().all(|join| (join - place).abs() >= 25.4 + 30.0 - 1e-5);
            let said = found.advice.iter().any(|advice| advice.code == "join-at-kept-place");
            prop_assert!(clear || said);
            prop_assert!(one(&found, "joined") - one(&found, "trim_first") >= need - 1e-6);
        }
    }

    // ---- piping, binding, hems, openings -----------------------------------------------------

    /// A thicker cord, a wider allowance: a wider strip. Twice the size: twice the strip.
    #[test]
    fn piping_grows_with_its_cord(cord in 1.0..12.0_f64, more in 0.1..5.0_f64, allowance in 13.0..25.0_f64, scale in 0.5..2.0_f64) {
        let strip = |cord: f64, allowance: f64| {
            one(&ask("piping", &[("cord", mm(cord)), ("allowance", mm(allowance)), ("seams", lengths(&[500.0]))]), "strip")
        };
        prop_assert!(strip(cord + more, allowance) > strip(cord, allowance));
        prop_assert!(strip(cord, allowance + more) > strip(cord, allowance));
        prop_assert!(near(strip(cord * scale, allowance * scale), scale * strip(cord, allowance)));
    }

    /// The strip for several edges is the strip for each, added up.
    #[test]
    fn binding_adds_up(edges in proptest::collection::vec(50.0..3000.0_f64, 1..8)) {
        let length = |edges: &[f64]| one(&ask("binding", &[("finished", mm(10.0)), ("edges", lengths(edges))]), "length");
        let apart: f64 = edges.iter().map(|edge| length(&[*edge])).sum();
        prop_assert!(near(length(&edges), apart));
    }

    /// The rounder the edge, the narrower the hem, and a hem of the deepest kind loses what the cloth can lose.
    #[test]
    fn hems_grow_with_the_radius(radius in 100.0..3000.0_f64, more in 1.0..500.0_f64, ease in 0.01..0.2_f64) {
        let found = |radius: f64| ask("hem", &[("radius", mm(radius)), ("ease", number(ease))]);
        prop_assert!(one(&found(radius + more), "by_curve") > one(&found(radius), "by_curve"));
        let depth = one(&found(radius), "by_curve");
        let cut = ask("hem", &[("radius", mm(radius)), ("ease", number(ease)), ("depth", mm(depth))]);
        prop_assert!((one(&cut, "lose") - ease).abs() < 1e-9);
        // Second route: the lengths of the two arcs over one radian.
        prop_assert!((1.0 - (radius - depth) / (radius + depth) - ease).abs() < 1e-9);
    }

    /// Closures: every fixed place carries one, the gaps make the usable length, none is wider than allowed, and
    /// between two fixed places one gap fewer would be too wide.
    #[test]
    fn closures_divide_their_opening(
        opening in 60.0..900.0_f64, gap in 15.0..80.0_f64, shares in proptest::collection::vec(0.02..0.98_f64, 0..4),
    ) {
        let usable = opening - 2.0 * 6.35;
        let fixed: Vec<f64> = shares.iter().map(|share| 6.35 + share * usable).collect();
        let found = ask("closures", &[("opening", mm(opening)), ("gap", mm(gap)), ("fixed", lengths(&fixed))]);
        let at = list(&found, "at");
        let gaps = list(&found, "gaps");
        prop_assert!(near(gaps.iter().sum::<f64>(), usable));
        prop_assert!(gaps.iter().all(|found| *found <= gap + 1e-6));
        prop_assert_eq!(at.len() as f64, one(&found, "count"));
        for place in &fixed {
            prop_assert!(at.iter().any(|found| (found - place).abs() < 1e-9));
        }
        let mut stops: Vec<f64> = fixed.clone();
        stops.extend([6.35, opening - 6.35]);
        stops.sort_by(f64::total_cmp);
        for pair in stops.windows(2) {
            let part = pair[1] - pair[0];
            let inside = at.iter().filter(|found| **found > pair[0] + 1e-9 && **found < pair[1] - 1e-9).count() as f64;
            prop_assert!(inside == 0.0 || part / inside > gap - 1e-6, "{} in {}", inside, part);
        }
    }

    /// The least opening is just long enough: what passes is the girth with its clearance.
    #[test]
    fn plackets_let_through(waist in 500.0..900.0_f64, more in 0.0..500.0_f64) {
        let found = ask("placket", &[("waist", mm(waist)), ("largest", mm(waist + more))]);
        prop_assert!(near(one(&found, "opens_to"), waist + more + 50.8));
        prop_assert!(near(one(&found, "strip_length"), 2.0 * one(&found, "slit")));
        prop_assert!(found.advice.iter().all(|advice| advice.code != "opening-too-short"));
    }

    /// There and back again by equal area is where it began, and a wider cloth never takes more.
    #[test]
    fn cloth_widths_there_and_back(amount in 300.0..9000.0_f64, from in 700.0..1600.0_f64, to in 700.0..1600.0_f64) {
        let area = |amount: f64, from: f64, to: f64| {
            one(&ask("cloth-width", &[("amount", mm(amount)), ("from", mm(from)), ("to", mm(to))]), "by_area")
        };
        prop_assert!(near(area(area(amount, from, to), to, from), amount));
        prop_assert!(area(amount, from, to + 50.0) < area(amount, from, to));
    }

    // ---- swatches ----------------------------------------------------------------------------

    /// Swatches made from known shares give those shares back; the prediction lies between its bounds; a coarser
    /// tape never makes it surer.
    #[test]
    fn swatches_give_back_their_shares(wool in 0.2..2.0_f64, lining in 0.1..1.0_f64, stitch in 4.0..12.0_f64, times in 1_u32..4) {
        let row = |layers: &str, wools: f64, linings: f64| {
            let pleats = 300.0 / (2.0 * stitch);
            let pitch = wools * wool + linings * lining;
            (layers.to_string(), pleats * pitch)
        };
        let rows: Vec<(String, f64)> = vec![
            row("wool folded + lining folded", 2.0, 2.0), row("wool folded", 2.0, 0.0), row("wool folded + lining", 2.0, 1.0), row("lining 3 + wool", 1.0, 3.0),
        ];
        prop_assume!(rows.iter().all(|(_, tight)| *tight < 299.0));
        let rows: Vec<BTreeMap<String, Value>> = rows.into_iter().map(|(layers, tight)| BTreeMap::from([
            ("layers".to_string(), Value::Word(layers)), ("flat".to_string(), mm(300.0)), ("tight".to_string(), mm(tight)),
            ("stitch".to_string(), mm(stitch)),
        ])).collect();
        let found = |reading: f64| ask("swatch", &[
            ("swatches", Value::Rows(rows.clone())), ("untried", word(&format!("wool {times} + lining"))), ("reading", mm(reading)),
        ]);
        let fine = found(0.5);
        prop_assert!((one(&fine, "pitch") - (f64::from(times) * wool + lining)).abs() < 1e-7);
        prop_assert!(one(&fine, "low") <= one(&fine, "pitch") && one(&fine, "pitch") <= one(&fine, "high"));
        prop_assert!(one(&found(2.0), "spread") >= one(&fine, "spread"));
        let beyond = fine.advice.iter().any(|advice| advice.code == "beyond-the-swatches");
        prop_assert!(beyond == (times > 2), "three wools are more than any swatch had");
    }

    /// One pleat's pitch and its ratio are two sides of one stitch; a layer more is always a ratio less.
    #[test]
    fn layers_cost_ratio(share in 0.1..1.0_f64, other in 0.1..1.0_f64, stitch in 4.0..12.0_f64) {
        let stack = |rows: &[(&str, f64)]| {
            let rows = rows.iter().map(|(name, share)| BTreeMap::from([
                ("name".to_string(), word(name)), ("share".to_string(), mm(*share)),
            ])).collect();
            ask("layers", &[("layers", Value::Rows(rows)), ("stitch", mm(stitch))])
        };
        let (thin, thick) = (stack(&[("wool", share)]), stack(&[("wool", share), ("lining", other)]));
        prop_assert!(near(one(&thin, "ratio") * one(&thin, "pitch"), 2.0 * stitch));
        prop_assert!(one(&thick, "ratio") < one(&thin, "ratio"));
    }

    /// Gathers: flat over seam is the ratio, four quarters are the whole.
    #[test]
    fn gathers_keep_their_ratio(seam in 100.0..3000.0_f64, ratio in 1.0..5.0_f64) {
        let found = ask("gathers", &[("seam", mm(seam)), ("ratio", number(ratio))]);
        prop_assert!(near(one(&found, "flat") / Length::mm(seam).to_mm(), ratio));
        prop_assert!(near(one(&found, "quarter") * 4.0, one(&found, "flat")));
    }
}
