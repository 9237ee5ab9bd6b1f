//! Figures hold what they promise: labels clear of each other, everything in its box, true distances, and words
//! that carry the numbers to someone who does not see the picture.

use furbelow::draw::{
    Accent, BiasStrips, Block, Boning, CartridgePleats, Catch, DipFigure, Drawn, EdgePath, Figure, FlatPiece,
    FlatPleats, Fullness, GatherRows, HemFigure, HemKind, Hooks, KeyEntry, Look, MarkingGrid, Measure, PieceMeasure,
    PipingFigure, Placket, PleatKind, Press, Ruffle, Scale, SeamFigure, SeamKind, SkirtView, SmockStage, Smocking,
    SwatchFigure, Vent, View, bias_strips, block, boning, cartridge_above, cartridge_drawn_up, cartridge_section,
    cartridge_sewn, cartridge_stitched, contact_sheet, dip, flat_piece, flat_pleats, gather_rows, hem, hooks,
    key_swatch, lint, marking_grid, piping_in_seam, piping_section, placket, ruffle_marks, ruffle_sewn, seam,
    skirt_view, smocking, swatch, vent,
};
use furbelow::units::{Length, Ratio, Show, Systems, print};
use furbelow::words::Tongue;
use kurbo::{BezPath, ParamCurveArclen, Point, Shape};
use proptest::prelude::{ProptestConfig, Strategy, prop_assert, prop_oneof, proptest};

fn look(systems: Systems, grey: bool) -> Look {
    Look { accent: Accent::parse("#7a2e3a").unwrap(), systems, grey, pale: false, tongue: Tongue::ENGLISH }
}

fn usual() -> Look {
    look(Systems::ImperialFirst, false)
}

fn long(inches: f64) -> Measure {
    Measure::new(Length::inches(inches), Show::LENGTH)
}

fn fine(inches: f64) -> Measure {
    Measure::new(Length::inches(inches), Show::SMALL)
}

fn attribute<'a>(line: &'a str, name: &str) -> Option<&'a str> {
    let (_, rest) = line.split_once(&format!(" {name}=\""))?;
    rest.split_once('"').map(|(value, _)| value)
}

/// Paths of the SVG, each with its class, name, width and shape.
fn paths(figure: &Figure) -> Vec<(String, String, f64, BezPath)> {
    figure
        .svg
        .lines()
        .filter(|line| line.starts_with("<path"))
        .map(|line| {
            let text = |name: &str| attribute(line, name).unwrap_or_default().to_string();
            let path = BezPath::from_svg(attribute(line, "d").unwrap()).unwrap();
            (text("class"), text("data-name"), text("stroke-width").parse().unwrap_or(0.0), path)
        })
        .collect()
}

fn named(figure: &Figure, name: &str) -> BezPath {
    paths(figure).into_iter().find(|(_, found, _, _)| found == name).map(|(_, _, _, path)| path).unwrap()
}

fn arc(path: &BezPath) -> f64 {
    path.segments().map(|s| s.arclen(1e-6)).sum()
}

/// What every figure must be, whatever its kind.
fn faults(figure: &Figure) -> Vec<String> {
    let mut out = lint(figure);
    if figure.svg.contains("<text") || figure.svg.contains("NaN") || figure.svg.contains("inf") {
        out.push("the SVG holds text or a number that is none".into());
    }
    if !figure.width_mm.is_finite() || !figure.height_mm.is_finite() || figure.width_mm <= 0.0 {
        out.push("the box is none".into());
    }
    let clipped =
        figure.svg.split("<g clip-path").skip(1).filter_map(|part| part.split_once("</g>")).map(|p| p.0.to_string());
    let clipped = clipped.collect::<String>();
    for line in figure.svg.lines().filter(|l| l.starts_with("<path") && !clipped.contains(*l)) {
        let path = BezPath::from_svg(attribute(line, "d").unwrap()).unwrap();
        let area = path.bounding_box();
        let inside = area.x0 > -0.01 && area.y0 > -0.01;
        if !path.is_finite() || !inside || area.x1 > figure.width_mm + 0.01 || area.y1 > figure.height_mm + 0.01 {
            out.push(format!("a path leaves the box: {area:?}"));
        }
    }
    if figure.labels.iter().any(|l| !l.x.is_finite() || !l.y.is_finite()) {
        out.push("a label stands nowhere".into());
    }
    if figure.caption.len() < 20 || figure.alt.len() < 60 {
        out.push("caption or alternative text says too little".into());
    }
    out
}

/// Fails where the figure has a fault or does not say one of the numbers aloud.
fn sound(name: &str, drawn: Drawn, numbers: &[&Measure], systems: Systems) {
    let figure = drawn.unwrap_or_else(|e| panic!("{name}: {e}"));
    let found = faults(&figure);
    assert!(found.is_empty(), "{name}: {found:#?}\n{}", figure.caption);
    for number in numbers {
        let said = number.printed.terminal(systems).replace('\u{a0}', " ");
        assert!(figure.alt.contains(&said), "{name}: `{said}` is not in: {}", figure.alt);
    }
}

#[test]
fn every_kind_is_clean_in_every_look() {
    for systems in [Systems::ImperialFirst, Systems::MetricFirst, Systems::ImperialOnly, Systems::MetricOnly] {
        for grey in [false, true] {
            for (name, drawn) in contact_sheet(&look(systems, grey)) {
                sound(name, drawn, &[], systems);
            }
        }
    }
}

#[test]
fn the_same_input_gives_the_same_bytes() {
    for ((name, one), (_, two)) in contact_sheet(&usual()).into_iter().zip(contact_sheet(&usual())) {
        assert_eq!(one.unwrap(), two.unwrap(), "{name}");
    }
}

#[test]
fn grey_figures_hold_greys_only() {
    for (name, drawn) in contact_sheet(&look(Systems::MetricOnly, true)) {
        let figure = drawn.unwrap();
        for colour in figure.svg.split('#').skip(1).filter_map(|part| part.get(..6)) {
            let Ok(value) = u32::from_str_radix(colour, 16) else { continue };
            let parts = [value >> 16, (value >> 8) & 255, value & 255];
            let spread = parts.iter().max().unwrap() - parts.iter().min().unwrap();
            assert!(spread <= 4, "{name}: #{colour}");
        }
    }
}

#[test]
fn cut_edges_are_at_least_twice_as_thick_as_seam_lines() {
    for (name, drawn) in contact_sheet(&usual()) {
        let all = paths(&drawn.unwrap());
        let of = |class: &str| all.iter().filter(|p| p.0 == class).map(|p| p.2).collect::<Vec<_>>();
        for thick in of("cut") {
            for thin in ["seam", "measure", "leader", "thin"].into_iter().flat_map(of) {
                assert!(thin >= 0.5 || thick / thin >= 2.0, "{name}: {thick} to {thin}");
            }
        }
    }
}

#[test]
fn every_entry_of_the_key_can_be_drawn() {
    let first = key_swatch(KeyEntry::RightSide, &usual()).unwrap();
    for entry in KeyEntry::ALL {
        let figure = key_swatch(entry, &usual()).unwrap();
        assert!(lint(&figure).is_empty(), "{entry:?}: {:?}", lint(&figure));
        assert!((figure.width_mm - first.width_mm).abs() < 1.0 && (figure.height_mm - first.height_mm).abs() < 1.0);
        assert!(figure.key.contains(&entry), "{entry:?} is drawn with {:?}", figure.key);
    }
    let mut drawings: Vec<String> =
        KeyEntry::ALL.iter().map(|e| key_swatch(*e, &look(Systems::default(), true)).unwrap().svg).collect();
    drawings.sort();
    drawings.dedup();
    assert_eq!(drawings.len(), KeyEntry::ALL.len(), "two entries look alike in grey");
}

fn rectangle(w: f64, h: f64, allowance: f64) -> FlatPiece {
    let corners = [Point::new(0.0, 0.0), Point::new(w, 0.0), Point::new(w, h), Point::new(0.0, h)];
    let names = ["top", "right side", "hem", "left side"];
    let seam = (0..4)
        .map(|i| {
            let mut path = BezPath::new();
            path.move_to(corners[i]);
            path.line_to(corners[(i + 1) % 4]);
            let size = arc(&path);
            EdgePath {
                name: names[i].into(),
                path,
                measure: Some(print(Length::mm(size).into(), Show::LENGTH)),
                allowance: Some(print(Length::mm(allowance).into(), Show::LENGTH)),
            }
        })
        .collect();
    let a = allowance;
    FlatPiece {
        name: "Panel".into(),
        seam,
        cut: kurbo::Rect::new(-a, -a, w + a, h + a).to_path(0.1),
        grain: Some((Point::new(w * 0.3, h * 0.25), Point::new(w * 0.3, h * 0.75))),
        notches: vec![],
        inner: vec![],
        fold: None,
        measures: vec![PieceMeasure {
            from: Point::new(-a, h * 0.8),
            to: Point::new(w + a, h * 0.8),
            text: print(Length::mm(w + 2.0 * a).into(), Show::LENGTH),
        }],
        wrong_side: true,
        cutting: "cut 2 of wool".into(),
        room: (80.0, 80.0),
    }
}

fn ratio_of(scale: Scale) -> f64 {
    match scale {
        Scale::OneTo(n) => n,
        Scale::NotToScale => panic!("expected a figure to scale"),
    }
}

#[test]
fn a_dip_is_stretched_by_its_ratio_and_keeps_its_drop() {
    // A straight-sided dip 5 in wide (half) and 4 in deep: hypot(5, 4) = 6.403 in along the seam, by Pythagoras.
    let straight = vec![(Length::ZERO, Length::inches(4.0)), (Length::inches(5.0), Length::ZERO)];
    let input = DipFigure {
        seam: straight,
        depth: long(4.0),
        span: long(5.0),
        arc: long(41.0_f64.sqrt()),
        stretched: long(41.0_f64.sqrt() * 6.0),
        ratio: Ratio::from_base(6.0),
        allowance: long(1.0),
        meets: "waistband".into(),
    };
    let figure = dip(&input, &usual()).unwrap();
    let n = ratio_of(figure.scale);
    let (seam, flat) = (named(&figure, "seam"), named(&figure, "stretched"));
    assert!((arc(&seam) * n - 25.4 * 41.0_f64.sqrt()).abs() < 0.05);
    assert!((flat.bounding_box().width() * n - 25.4 * 41.0_f64.sqrt() * 6.0).abs() < 0.05);
    assert!((flat.bounding_box().height() * n - 25.4 * 4.0).abs() < 0.05);
    assert!((seam.bounding_box().height() - flat.bounding_box().height()).abs() < 0.01);
}

#[test]
fn nonsense_is_refused() {
    for bad in [0.0, -3.0, f64::NAN, f64::INFINITY] {
        let m = Measure { length: Length::mm(bad), printed: long(1.0).printed };
        let grid = MarkingGrid {
            rows: 3,
            stitch: m.clone(),
            row_gap: fine(0.5),
            first: fine(0.5),
            guide_every: 4,
            folded: true,
        };
        assert!(marking_grid(&grid, &usual()).is_err());
        let press = SeamFigure { kind: SeamKind::Plain, allowance: m, first: None, press: Press::Open };
        assert!(seam(&press, &usual()).is_err());
    }
    let mut piece = rectangle(500.0, 700.0, 15.0);
    piece.cut = BezPath::new();
    assert!(flat_piece(&piece, &usual()).is_err());
    let off = Hooks { edge: long(8.0), places: vec![long(2.0), long(9.0)], catch: Catch::Eyes, inset: fine(0.125) };
    assert!(hooks(&off, &usual()).is_err());
}

#[test]
fn lint_finds_what_it_should() {
    let (_, drawn) = contact_sheet(&usual()).into_iter().next().unwrap();
    let good = drawn.unwrap();
    let mut over = good.clone();
    over.labels[1].x = over.labels[0].x;
    over.labels[1].y = over.labels[0].y;
    assert!(lint(&over).iter().any(|f| f.contains("overlaps")));
    let mut out = good.clone();
    out.labels[0].x = -30.0;
    assert!(lint(&out).iter().any(|f| f.contains("leaves the box")));
    let mut small = good.clone();
    small.labels[0].size_pt = 6.0;
    assert!(lint(&small).iter().any(|f| f.contains("less than 7")));
    let mut struck = good.clone();
    let (_, _, _, path) = paths(&good).into_iter().find(|p| p.0 == "cut").unwrap();
    let at = path.bounding_box();
    struck.labels[0].x = at.x0;
    struck.labels[0].y = at.center().y;
    assert!(lint(&struck).iter().any(|f| f.contains("struck")), "{:?}", lint(&struck));
}

fn systems() -> impl Strategy<Value = Systems> {
    prop_oneof![
        proptest::strategy::Just(Systems::ImperialFirst),
        proptest::strategy::Just(Systems::MetricFirst),
        proptest::strategy::Just(Systems::ImperialOnly),
        proptest::strategy::Just(Systems::MetricOnly),
    ]
}

/// Eighths of an inch between two bounds, as inches.
fn eighths(from: u32, to: u32) -> impl Strategy<Value = f64> {
    (from..=to).prop_map(|n| f64::from(n) / 8.0)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn pieces_measure_back_from_the_svg(w in 80.0..1500.0_f64, h in 80.0..1500.0_f64, a in 6.0..26.0_f64, sys in systems()) {
        let input = rectangle(w, h, a);
        let figure = flat_piece(&input, &look(sys, false)).unwrap();
        prop_assert!(faults(&figure).is_empty(), "{:#?}", faults(&figure));
        let n = ratio_of(figure.scale);
        for edge in &input.seam {
            let found = arc(&named(&figure, &edge.name)) * n;
            // A thousandth of a millimetre on paper at either end.
            prop_assert!((found - arc(&edge.path)).abs() < 0.003 * n, "{}: {found}", edge.name);
        }
    }

    #[test]
    fn grids_and_pleats(rows in 1_usize..12, stitch in 2_u32..17, gap in 2_u32..20, first in 2_u32..20, every in 1_usize..13, pitch in 1_u32..12, pleats in 8_u64..700, sys in systems()) {
        let (stitch, gap, first) = (f64::from(stitch) / 16.0, f64::from(gap) / 16.0, f64::from(first) / 16.0);
        let grid = MarkingGrid { rows, stitch: fine(stitch), row_gap: fine(gap), first: fine(first), guide_every: every, folded: rows % 2 == 0 };
        sound("grid", marking_grid(&grid, &look(sys, false)), &[&grid.stitch, &grid.row_gap, &grid.first], sys);
        let flat = 2.0 * stitch * f64::from(u32::try_from(pleats).unwrap());
        let pitch = f64::from(pitch) / 32.0;
        let p = CartridgePleats { stitch: fine(stitch), rows, row_gap: fine(gap), pitch: fine(pitch), pleats, flat: long(flat), drawn: long(flat * 0.2) };
        let l = look(sys, false);
        sound("stitched", cartridge_stitched(&p, &l), &[&p.stitch, &p.row_gap, &p.flat], sys);
        sound("drawn up", cartridge_drawn_up(&p, &l), &[&p.flat, &p.drawn, &p.pitch], sys);
        sound("above", cartridge_above(&p, &l), &[&p.stitch, &p.pitch], sys);
        sound("section", cartridge_section(&p, &l), &[&p.stitch, &p.pitch], sys);
        sound("sewn", cartridge_sewn(&p, &l), &[&p.pitch], sys);
    }

    #[test]
    fn dips(depth in eighths(4, 56), span in eighths(16, 64), ratio in 1.5..9.0_f64, bend in 0.8..2.2_f64, allowance in eighths(2, 16), sys in systems()) {
        let at = |t: f64| (Length::inches(span * t), Length::inches(depth * (1.0 - t).powf(bend)));
        let seam: Vec<_> = (0..=40).map(|i| at(f64::from(i) / 40.0)).collect();
        let arc_mm: f64 = seam.windows(2).map(|w| (w[1].0 - w[0].0).to_mm().hypot((w[1].1 - w[0].1).to_mm())).sum();
        let input = DipFigure {
            depth: long(depth), span: long(span), arc: Measure::new(Length::mm(arc_mm), Show::LENGTH),
            stretched: Measure::new(Length::mm(arc_mm * ratio), Show::LENGTH),
            ratio: Ratio::from_base(ratio), allowance: long(allowance), meets: "bodice".into(), seam,
        };
        let figure = dip(&input, &look(sys, true)).unwrap();
        let n = ratio_of(figure.scale);
        prop_assert!((arc(&named(&figure, "seam")) * n - arc_mm).abs() < 0.1 * n);
        prop_assert!((named(&figure, "stretched").bounding_box().width() * n - arc_mm * ratio).abs() < 0.01 * n);
        sound("dip", Ok(figure), &[&input.depth, &input.span, &input.arc, &input.stretched, &input.allowance], sys);
    }

    #[test]
    fn fullness_of_all_kinds(flat in eighths(80, 2400), share in 0.12..0.9_f64, rows in 1_usize..7, parts in 2_usize..17, depth in eighths(8, 120), sys in systems()) {
        let l = look(sys, false);
        let rows = GatherRows { rows, row_gap: fine(0.25), first: fine(0.375), flat: long(flat), drawn: long(flat * share) };
        sound("gathers", gather_rows(&rows, &l), &[&rows.flat, &rows.drawn, &rows.first, &rows.row_gap], sys);
        let r = Ruffle { name: "flounce".into(), flat: long(flat), edge: long(flat * share), depth: long(depth), parts };
        sound("marks", ruffle_marks(&r, &l), &[&r.flat, &r.edge, &r.depth], sys);
        sound("ruffle", ruffle_sewn(&r, &l), &[&r.flat, &r.edge, &r.depth], sys);
        let sw = SwatchFigure { flat: long(flat.min(40.0)), tight: long(flat.min(40.0) * share * 0.8), eased: Some(long(flat.min(40.0) * share * 0.95)), stitch: fine(0.25), layers: "wool, flat".into() };
        sound("swatch", swatch(&sw, &l), &[&sw.flat, &sw.tight, &sw.stitch], sys);
    }

    #[test]
    fn small_parts(a in 2_u32..20, b in 1_u32..12, c in 1_u32..12, sys in systems()) {
        let l = look(sys, false);
        let (a, b, c) = (f64::from(a) / 8.0, f64::from(b) / 16.0, f64::from(c) / 16.0);
        for (cord, reveal) in [(Some(fine(b)), None), (None, Some(fine(c)))] {
            let p = PipingFigure { cord, reveal, allowance: fine(a), strip: long(a * 2.0 + b) };
            sound("piping", piping_section(&p, &l), &[&p.allowance, &p.strip], sys);
            sound("piping in seam", piping_in_seam(&p, &l), &[&p.allowance], sys);
        }
        for kind in [HemKind::Once, HemKind::Twice, HemKind::Rolled] {
            for by_hand in [true, false] {
                let turn = (kind == HemKind::Twice).then(|| long((b * 0.5).min(a)));
                let h = HemFigure { kind, depth: long(a), turn, by_hand };
                sound("hem", hem(&h, &l), &[&h.depth], sys);
            }
        }
        for kind in [SeamKind::Plain, SeamKind::FrenchFirst, SeamKind::FrenchSecond, SeamKind::Felled, SeamKind::Bound, SeamKind::Faced] {
            for press in [Press::Open, Press::OneSide] {
                let first = (kind == SeamKind::Felled || kind == SeamKind::Faced).then(|| long(b));
                let s = SeamFigure { kind, allowance: long(a), first, press };
                sound("seam", seam(&s, &l), &[&s.allowance], sys);
            }
        }
        for kind in [PleatKind::Knife, PleatKind::Box, PleatKind::Inverted, PleatKind::Tuck] {
            let p = FlatPleats { kind, visible: long(a), depth: long(a * 0.3 + b), count: 9 };
            sound("pleats", flat_pleats(&p, &l), &[&p.visible, &p.depth], sys);
        }
    }

    #[test]
    fn closings(edge in eighths(48, 160), count in 2_u32..12, lap in eighths(4, 20), sys in systems()) {
        let l = look(sys, false);
        let at = |i: u32| 0.25 + (edge - 0.5) * f64::from(i) / f64::from(count - 1);
        let h = Hooks { edge: long(edge), places: (0..count).map(|i| long(at(i))).collect(), catch: if count % 2 == 0 { Catch::Eyes } else { Catch::Bars }, inset: fine(0.125) };
        let figure = hooks(&h, &l).unwrap();
        let numbers: Vec<&Measure> = h.places.iter().collect();
        sound("hooks", Ok(figure), &numbers, sys);
        let p = Placket { opening: long(edge), lap: long(lap), two_layers: count % 2 == 0 };
        sound("placket", placket(&p, &l), &[&p.opening, &p.lap], sys);
        let v = Vent { height: long(edge), lap: long(lap), hem: long(lap * 0.7) };
        sound("vent", vent(&v, &l), &[&v.height, &v.lap, &v.hem], sys);
        let b = Boning { channel: fine(0.375), width: fine(0.25), length: long(edge), bone: long(edge - 0.5), clearance: fine(0.25) };
        sound("boning", boning(&b, &l), &[&b.channel, &b.width, &b.length, &b.bone, &b.clearance], sys);
        let s = BiasStrips { across: long(edge * 3.0), along: long(edge * 2.5), strip: long(lap), slant: long(lap * std::f64::consts::SQRT_2), count: 3, join: fine(0.25) };
        sound("bias", bias_strips(&s, &l), &[&s.across, &s.along, &s.strip, &s.slant, &s.join], sys);
        let cut = kurbo::Rect::new(0.0, 0.0, edge * 20.0, edge * 30.0).to_path(0.1);
        let margin = lap;
        let side = |mm: f64| Measure::new(Length::mm(mm + 2.0 * 25.4 * margin), Show::LENGTH);
        let k = Block { name: "Sleeve".into(), cut, margin: long(margin), width: side(edge * 20.0), height: side(edge * 30.0), why: "dyed".into(), room: (60.0, 70.0) };
        sound("block", block(&k, &l), &[&k.margin, &k.width, &k.height], sys);
    }

    #[test]
    fn smocked_panels(rows in 2_usize..14, flat in eighths(80, 480), share in 0.15..0.6_f64, drop in eighths(4, 40), sys in systems()) {
        for stage in [SmockStage::Grid, SmockStage::DrawnUp, SmockStage::Tied, SmockStage::LetOut, SmockStage::Pointed] {
            let s = Smocking { stage, rows, stitch: fine(0.25), row_gap: fine(0.5), flat: long(flat), lengths: vec![long(flat * share), long(flat * share * 1.4)], drop: Some(long(drop)) };
            sound("smocking", smocking(&s, &look(sys, false)), &[], sys);
        }
    }

    #[test]
    fn skirts(waist in eighths(160, 440), more in 1.2..7.0_f64, length in eighths(160, 360), dip_by in eighths(0, 48), pleats in 10_u64..600, plain in 0_u8..4, sys in systems()) {
        let hem = waist * more;
        let s = SkirtView {
            name: "skirt".into(), view: if plain == 1 { View::Back } else { View::Front }, waist: long(waist), length: long(length), hem: long(hem), band: long(1.5),
            dip: if dip_by > 0.0 { vec![(Length::ZERO, Length::inches(dip_by)), (Length::inches(5.0), Length::ZERO)] } else { vec![] },
            fullness: if plain < 2 { Fullness::Cartridge } else { Fullness::Gathers }, pleats,
            opening: (plain == 1).then(|| long(8.0)), piped: plain == 0, flounce: (plain == 3).then(|| (long(length * 0.2), long(hem * 2.0))), height: 90.0,
        };
        let figure = skirt_view(&s, &look(sys, false)).unwrap();
        prop_assert!((figure.height_mm - 90.0).abs() < 20.0, "{}", figure.height_mm);
        sound("skirt", Ok(figure), &[&s.waist, &s.length, &s.hem, &s.band], sys);
    }
}
