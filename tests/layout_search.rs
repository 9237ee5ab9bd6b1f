//! The cutting-layout search held against open data, closed forms and its own promises.
//!
//! Open instances: `FURBELOW_DATA`, or `../shared/data`, must hold `layouts/*.json` and `layouts/best-*.svg`;
//! without them those tests print how to get them and pass.

use furbelow::lay::cloth::{
    Border, BorderAt, ClothFlaw, ClothSpec, Cut, FoldOutcome, Folding, Grain, Piece, Repeat, check_layout, lay_out,
};
use furbelow::lay::verify::{Flaw, verify};
use furbelow::lay::{
    Axis, Choice, Domain, Effort, Instance, Item, Layout, Placement, Point, Pose, Problem, Unfit, search,
};
use proptest::prelude::{ProptestConfig, Strategy, prop_assert, proptest};
use std::path::PathBuf;

const NAMES: [&str; 4] = ["albano", "marques", "shirts", "trousers"];

fn effort(evaluations: u64) -> Effort {
    Effort { evaluations, starts: 1, seed: 0 }
}

/// A file of the open data, or nothing, with the reason printed.
fn open_data(name: &str) -> Option<String> {
    let folder = std::env::var_os("FURBELOW_DATA").map_or_else(|| PathBuf::from("../shared/data"), PathBuf::from);
    let path = folder.join("layouts").join(name);
    match std::fs::read_to_string(&path) {
        Ok(text) => Some(text),
        Err(error) => {
            println!(
                "skipped: {} ({error}). The clothing instances and best layouts are published with arXiv \
                 2509.13329 (MIT licence); put them in layouts/ of a folder and name it in FURBELOW_DATA.",
                path.display()
            );
            None
        }
    }
}

fn instance(name: &str) -> Option<Instance> {
    open_data(&format!("{name}.json")).map(|text| Instance::read(&text).expect("an instance of the open format"))
}

/// The published layout as placements of the instance's problem: every `use` of an `item_` with its transform.
fn published(instance: &Instance, svg: &str) -> Layout {
    let scale = instance.scale();
    let problem = instance.problem();
    let number = |text: &str| text.trim().parse::<f64>().expect("a number");
    let between = |text: &str, from: &str, to: &str| -> Option<String> {
        let rest = text.split_once(from)?.1;
        Some(rest.split_once(to)?.0.to_owned())
    };
    let length = number(&between(svg, "x_max: ", ",").expect("the strip's box")) * scale;
    let mut copies = vec![0; problem.items.len()];
    let mut placements = Vec::new();
    for line in svg.split("<use ").skip(1) {
        let Some(id) = between(line, "#item_", "\"") else { continue };
        let item = instance.items.iter().position(|i| i.id == number(&id) as u64).expect("an item of the instance");
        let at = between(line, "translate(", ")").expect("a translation");
        let (x, y) = at.trim().split_once([' ', ',']).expect("two numbers");
        let turn = number(&between(line, "rotate(", ")").expect("a rotation"));
        let pose = Pose::turned(turn.round() as i32).expect("a quarter turn");
        let choice = problem.items[item].choices.iter().position(|c| c.pose == pose).expect("an allowed turn");
        let by = [number(x) * scale, number(y) * scale];
        placements.push(Placement { item, copy: copies[item], choice, pose, by });
        copies[item] += 1;
    }
    let density = problem.area() / (length * problem.width);
    Layout { length, density, placements, evaluations: 0 }
}

/// Best layouts known: read in Gardeyn, Vanden Berghe, Wauters, arXiv 2509.13329, and their published SVG files.
#[test]
fn published_best_layouts_pass_and_moved_they_fail() {
    for (name, best) in [("albano", 89.82), ("marques", 92.02), ("shirts", 90.92), ("trousers", 92.62)] {
        let (Some(instance), Some(svg)) = (instance(name), open_data(&format!("best-{name}.svg"))) else { return };
        let problem = instance.problem();
        let layout = published(&instance, &svg);
        assert!((layout.density * 100.0 - best).abs() < 0.01, "{name}: {} and {best} read", layout.density);
        assert_eq!(verify(&problem, &layout), [], "{name}");
        // Every copy pushed to its nearest neighbour and 1 mm (the strip is 700 mm wide or more) into it.
        let placed = outlines(&problem, &layout);
        for k in 0..placed.len() {
            let others = (0..placed.len()).filter(|&o| o != k);
            let ways = others.map(|o| ways_to(&placed[k], &placed[o])).min_by(|a, b| a.0.total_cmp(&b.0));
            let (distance, directions) = ways.expect("another copy");
            let caught = directions.iter().any(|d| {
                let mut moved = layout.clone();
                moved.placements[k].by[0] += d[0] * (distance + 1.0);
                moved.placements[k].by[1] += d[1] * (distance + 1.0);
                verify(&problem, &moved).iter().any(|f| matches!(f, Flaw::Overlap { depth, .. } if *depth > 0.05))
            });
            assert!(caught, "{name}: copy {k} can be pushed 1 mm into its neighbour");
        }
    }
}

/// The distance of two outlines, and the directions in which the first comes nearest to the second at once (two, one
/// each way across the edge, when they touch).
fn ways_to(a: &[Point], b: &[Point]) -> (f64, Vec<Point>) {
    let mut best = (f64::INFINITY, Vec::new());
    for (one, two, sign) in [(a, b, 1.0), (b, a, -1.0)] {
        for p in one {
            for k in 0..two.len() {
                let (u, v) = (two[k], two[(k + 1) % two.len()]);
                let (dx, dy) = (v[0] - u[0], v[1] - u[1]);
                let length = dx.hypot(dy);
                let t = (((p[0] - u[0]) * dx + (p[1] - u[1]) * dy) / (length * length)).clamp(0.0, 1.0);
                let w = [u[0] + t * dx - p[0], u[1] + t * dy - p[1]];
                let distance = w[0].hypot(w[1]);
                if distance < best.0 {
                    let across = [-dy / length, dx / length];
                    let directions = if distance > 1e-3 {
                        vec![[sign * w[0] / distance, sign * w[1] / distance]]
                    } else {
                        vec![across, [-across[0], -across[1]]]
                    };
                    best = (distance, directions);
                }
            }
        }
    }
    best
}

/// Densities at a fixed seed and number of evaluations never fall below these. Floors, not records: the
/// measured values are a point or so above.
#[test]
fn floors_on_the_open_instances() {
    for (name, floor) in [("albano", 84.0), ("marques", 86.5), ("shirts", 84.4), ("trousers", 88.0)] {
        let Some(instance) = instance(name) else { return };
        let problem = instance.problem();
        let layout = search(&problem, &effort(1_500_000)).expect("a layout");
        assert_eq!(verify(&problem, &layout), [], "{name}");
        assert!(layout.density * 100.0 >= floor, "{name}: {:.2}", layout.density * 100.0);
    }
}

/// Mean of three seeds, near 1, 5 and 20 processor seconds in the release profile, beside the densities aimed at. Such a
/// mean scatters by about 0.3, so a miss of half a point is printed only; more is a loss that must be explained.
#[test]
#[ignore = "minutes in the release profile, an hour without optimisation: run with --release -- --ignored"]
fn targets_on_the_open_instances() {
    let budgets = [6_000_000, 30_000_000, 120_000_000];
    let targets = [
        ("albano", [86.5, 87.5, 88.5]),
        ("marques", [88.4, 89.2, 90.0]),
        ("shirts", [85.0, 86.5, 87.0]),
        ("trousers", [88.4, 89.5, 90.2]),
    ];
    let mut missed = Vec::new();
    for (name, wanted) in targets {
        let Some(instance) = instance(name) else { return };
        let problem = instance.problem();
        for (evaluations, wanted) in budgets.into_iter().zip(wanted) {
            let found = (0..3).map(|seed| {
                let layout = search(&problem, &Effort { evaluations, starts: 1, seed }).expect("a layout");
                assert_eq!(verify(&problem, &layout), [], "{name}");
                layout.density * 100.0 / 3.0
            });
            let mean: f64 = found.sum();
            println!("{name} {evaluations}: {mean:.2} (wanted {wanted})");
            if mean < wanted - 0.5 {
                missed.push(format!("{name} at {evaluations}: {mean:.2} for {wanted}"));
            }
        }
    }
    assert!(missed.is_empty(), "{missed:?}");
}

fn rectangle(w: f64, h: f64) -> Vec<Point> {
    vec![[0.0, 0.0], [w, 0.0], [w, h], [0.0, h]]
}

fn free(name: &str, outline: Vec<Point>, copies: usize, clearance: f64) -> Item {
    let choice = Choice { pose: Pose::AS_DRAFTED, outline, domain: Domain::FREE };
    Item { name: name.to_owned(), copies, clearance, choices: vec![choice] }
}

/// A few curved and angular pieces, invented.
fn mixed(clearance: f64) -> Problem {
    let arc = |r: f64, n: usize| -> Vec<Point> {
        let corner = |k: usize| {
            let angle = std::f64::consts::PI * k as f64 / n as f64;
            [r * angle.cos(), r * angle.sin()]
        };
        (0..=n).map(corner).collect()
    };
    let both = |outline: Vec<Point>| {
        [0, 180]
            .map(|turn| {
                let pose = Pose::turned(turn).expect("a half turn");
                Choice { pose, outline: pose.outline(&outline), domain: Domain::FREE }
            })
            .to_vec()
    };
    let item = |name: &str, outline: Vec<Point>, copies: usize| Item {
        name: name.to_owned(),
        copies,
        clearance,
        choices: both(outline),
    };
    Problem {
        width: 700.0,
        items: vec![
            item("yoke", arc(180.0, 24), 3),
            item(
                "front",
                vec![[0.0, 0.0], [420.0, 0.0], [420.0, 260.0], [300.0, 200.0], [120.0, 210.0], [0.0, 120.0]],
                2,
            ),
            item("cuff", rectangle(260.0, 90.0), 4),
            item("gusset", vec![[0.0, 0.0], [120.0, 60.0], [0.0, 120.0]], 4),
            item("L", vec![[0.0, 0.0], [300.0, 0.0], [300.0, 80.0], [80.0, 80.0], [80.0, 240.0], [0.0, 240.0]], 2),
        ],
    }
}

/// Distance between two outlines by brute force over their edges: a check apart from both search and checker.
fn apart(a: &[Point], b: &[Point]) -> f64 {
    let to_edge = |p: Point, u: Point, v: Point| {
        let (dx, dy) = (v[0] - u[0], v[1] - u[1]);
        let t = (((p[0] - u[0]) * dx + (p[1] - u[1]) * dy) / (dx * dx + dy * dy)).clamp(0.0, 1.0);
        (u[0] + t * dx - p[0]).hypot(u[1] + t * dy - p[1])
    };
    let mut least = f64::INFINITY;
    for (one, two) in [(a, b), (b, a)] {
        for p in one {
            for k in 0..two.len() {
                least = least.min(to_edge(*p, two[k], two[(k + 1) % two.len()]));
            }
        }
    }
    least
}

fn outlines(problem: &Problem, layout: &Layout) -> Vec<Vec<Point>> {
    let outline = |p: &Placement| {
        let outline = &problem.items[p.item].choices[p.choice].outline;
        outline.iter().map(|c| [c[0] + p.by[0], c[1] + p.by[1]]).collect()
    };
    layout.placements.iter().map(outline).collect()
}

#[test]
fn gaps_are_kept() {
    for gap in [0.0, 3.0, 12.0] {
        let problem = mixed(gap);
        let layout = search(&problem, &effort(40_000)).expect("a layout");
        assert_eq!(verify(&problem, &layout), [], "gap {gap}");
        let placed = outlines(&problem, &layout);
        let mut least = f64::INFINITY;
        for i in 0..placed.len() {
            for j in 0..i {
                least = least.min(apart(&placed[i], &placed[j]));
            }
        }
        assert!(least >= gap - 0.01, "gap {gap}: {least} mm found");
        assert!(least <= gap + 5.0, "gap {gap}: nothing lies near to anything, {least} mm");
    }
}

#[test]
fn a_fill_alone_is_valid_and_worse() {
    let problem = mixed(2.0);
    let draft = search(&problem, &Effort::DRAFT).expect("a layout");
    assert_eq!(verify(&problem, &draft), []);
    let searched = search(&problem, &effort(60_000)).expect("a layout");
    assert!(searched.length <= draft.length, "{} after {}", searched.length, draft.length);
}

/// The layout as a set of outlines, so that items may be renamed and reordered.
fn picture(problem: &Problem, layout: &Layout) -> Vec<Vec<[i64; 2]>> {
    let round = |v: f64| (v * 1e6).round() as i64;
    let mut all: Vec<Vec<[i64; 2]>> = outlines(problem, layout)
        .iter()
        .map(|o| {
            let mut points: Vec<[i64; 2]> = o.iter().map(|p| [round(p[0]), round(p[1])]).collect();
            points.sort_unstable();
            points
        })
        .collect();
    all.sort();
    all
}

#[test]
fn the_order_of_items_does_not_matter() {
    let problem = mixed(2.0);
    let first = search(&problem, &effort(30_000)).expect("a layout");
    for turn in 1..problem.items.len() {
        let mut other = problem.clone();
        other.items.rotate_left(turn);
        other.items.swap(0, 2);
        for item in &mut other.items {
            item.name.insert(0, '_');
            item.choices.reverse();
            for choice in &mut item.choices {
                choice.outline.rotate_left(1);
                choice.outline.iter_mut().for_each(|p| *p = [p[0] + 250.0, p[1] - 125.0]);
            }
        }
        let again = search(&other, &effort(30_000)).expect("a layout");
        assert_eq!(first.length.to_bits(), again.length.to_bits());
        assert_eq!(picture(&problem, &first), picture(&other, &again));
    }
}

#[test]
fn the_number_of_threads_does_not_matter() {
    let problem = mixed(1.0);
    let effort = Effort { evaluations: 60_000, starts: 3, seed: 7 };
    let run = |threads: usize| {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().expect("threads");
        pool.install(|| search(&problem, &effort)).expect("a layout")
    };
    let one = run(1);
    assert_eq!(one, run(2));
    assert_eq!(one, run(5));
    let other_seed = search(&problem, &Effort { seed: 8, ..effort }).expect("a layout");
    assert_ne!(one, other_seed, "the seed is heeded");
}

/// Inches turned into millimetres by floating point give the layout of the millimetres themselves.
#[test]
fn the_unit_does_not_matter() {
    let in_inches = |scale: f64| {
        let mut problem = mixed(2.0);
        for choice in problem.items.iter_mut().flat_map(|i| &mut i.choices) {
            choice.outline.iter_mut().flatten().for_each(|c| *c = *c / 25.4 * 25.4 * scale / scale);
        }
        problem
    };
    let mm = mixed(2.0);
    let a = search(&mm, &effort(20_000)).expect("a layout");
    let b = search(&in_inches(3.7), &effort(20_000)).expect("a layout");
    assert!((a.length - b.length).abs() < 1e-6);
}

/// Closed form: rectangles that tile the strip exactly leave nothing.
#[test]
fn rectangles_that_tile() {
    let problem = Problem {
        width: 600.0,
        items: vec![free("a", rectangle(300.0, 200.0), 6, 0.0), free("b", rectangle(200.0, 600.0), 1, 0.0)],
    };
    let layout = search(&problem, &effort(60_000)).expect("a layout");
    assert_eq!(verify(&problem, &layout), []);
    assert!((layout.length - 800.0).abs() < 0.1, "{}", layout.length);
    assert!(layout.density > 0.9998);
}

/// Closed form: with a gap g, n squares of side s in a row of the strip need n s + (n - 1) g.
#[test]
fn squares_in_a_row_with_gaps() {
    let problem = Problem { width: 110.0, items: vec![free("square", rectangle(100.0, 100.0), 5, 7.0)] };
    let layout = search(&problem, &effort(20_000)).expect("a layout");
    assert_eq!(verify(&problem, &layout), []);
    assert!((layout.length - 528.0).abs() < 0.05, "{}", layout.length);
}

#[test]
fn problems_that_cannot_be() {
    let wide = Problem { width: 90.0, items: vec![free("panel", rectangle(100.0, 100.0), 1, 0.0)] };
    let unfit = search(&wide, &effort(10)).expect_err("too wide");
    assert_eq!(unfit, Unfit::TooWide { item: "panel".to_owned(), needs: 100.0, has: 90.0 });
    assert_eq!(search(&Problem { width: 90.0, items: vec![] }, &effort(10)), Err(Unfit::Empty));
    let mut held = free("held", rectangle(10.0, 60.0), 2, 0.0);
    held.choices[0].domain = Domain::pin_x(0.0);
    let crowded = Problem { width: 100.0, items: vec![held] };
    assert_eq!(search(&crowded, &effort(10)), Err(Unfit::Crowded));
    let bow = free("bow", vec![[0.0, 0.0], [50.0, 50.0], [50.0, 0.0], [0.0, 40.0]], 1, 0.0);
    let found = search(&Problem { width: 90.0, items: vec![bow] }, &effort(10));
    assert!(matches!(found, Err(Unfit::Outline { .. })), "{found:?}");
}

/// Pins hold to the last bit that matters, repeats too.
#[test]
fn pins_and_repeats_are_exact() {
    let mut problem = mixed(3.0);
    for choice in &mut problem.items[1].choices {
        choice.domain = Domain::pin_y(0.0);
    }
    for choice in &mut problem.items[0].choices {
        choice.domain = Domain { along: Axis::Lattice { first: 12.5, step: 64.0, after: 0.0 }, across: Axis::FREE };
    }
    problem.items[4].choices.truncate(1);
    problem.items[4].choices[0].domain = Domain::pin_x(0.0);
    let layout = search(&problem, &effort(40_000)).expect("a layout");
    assert_eq!(verify(&problem, &layout), []);
    for (p, outline) in layout.placements.iter().zip(outlines(&problem, &layout)) {
        let low = |axis: usize| outline.iter().map(|c| c[axis]).fold(f64::INFINITY, f64::min);
        match p.item {
            0 => {
                let steps = (low(0) - 12.5) / 64.0;
                assert!((steps - steps.round()).abs() < 1e-9 && steps > -1e-9, "{steps}");
            }
            1 => assert!(low(1).abs() < 1e-9),
            4 => assert!(low(0).abs() < 1e-9),
            _ => {}
        }
    }
}

/// A checker that passes everything would be worth nothing: each promise broken by hand is found.
#[test]
fn the_checker_finds_what_is_broken() {
    let mut problem = mixed(4.0);
    problem.items[2].choices[0].domain = Domain::pin_y(0.0);
    problem.items[2].choices.truncate(1);
    let good = search(&problem, &effort(10_000)).expect("a layout");
    assert_eq!(verify(&problem, &good), []);
    let broken = |change: &dyn Fn(&mut Layout)| {
        let mut layout = good.clone();
        change(&mut layout);
        verify(&problem, &layout)
    };
    let cuff = good.placements.iter().position(|p| p.item == 2).expect("a cuff");
    let has = |flaws: &[Flaw], wanted: &dyn Fn(&Flaw) -> bool| assert!(flaws.iter().any(wanted), "{flaws:?}");
    has(&broken(&|l| l.placements[cuff].by[1] += 0.001), &|f| matches!(f, Flaw::OffPlace { .. }));
    has(&broken(&|l| l.placements[0].by = l.placements[1].by), &|f| matches!(f, Flaw::Overlap { .. }));
    has(&broken(&|l| l.length -= 0.02), &|f| matches!(f, Flaw::Outside { .. }));
    has(&broken(&|l| l.placements.truncate(l.placements.len() - 1)), &|f| matches!(f, Flaw::Count { times: 0, .. }));
    has(&broken(&|l| l.placements[1] = l.placements[0]), &|f| matches!(f, Flaw::Count { times: 2, .. }));
    has(&broken(&|l| l.placements[0].pose.over = true), &|f| matches!(f, Flaw::Pose { .. }));
    let mut nearer = problem.clone();
    nearer.items[0].clearance = 4.5;
    nearer.items[1].clearance = 4.5;
    nearer.items[3].clearance = 4.5;
    nearer.items[4].clearance = 4.5;
    has(&verify(&nearer, &good), &|f| matches!(f, Flaw::TooNear { .. }));
}

/// Hollow and bulging outlines around a middle, some corners written twice, some on a straight line.
fn star() -> impl Strategy<Value = Vec<Point>> {
    (proptest::collection::vec(30.0..110.0f64, 5..13), 0..3usize).prop_map(|(radii, untidy)| {
        let n = radii.len();
        let at = |k: usize| {
            let angle = std::f64::consts::TAU * k as f64 / n as f64;
            [radii[k % n] * angle.cos(), radii[k % n] * angle.sin()]
        };
        let mut outline = Vec::new();
        for k in 0..n {
            let (p, q) = (at(k), at((k + 1) % n));
            outline.push(p);
            match untidy {
                1 => outline.push(p),
                2 => outline.push([(p[0] + q[0]) / 2.0, (p[1] + q[1]) / 2.0]),
                _ => {}
            }
        }
        outline
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]
    /// Whatever is thrown at it: a layout is valid, and never shorter than area over width.
    #[test]
    fn any_pieces_are_laid_validly(
        shapes in proptest::collection::vec(star(), 2..6),
        gap in 0.0..8.0f64,
        with_gap in proptest::bool::ANY,
    ) {
        let gap = if with_gap { gap } else { 0.0 };
        let item = |(k, outline): (usize, Vec<Point>)| {
            let choices = [0, 45, 180].map(|turn| {
                let pose = Pose::turned(turn).expect("an eighth");
                Choice { pose, outline: pose.outline(&outline), domain: Domain::FREE }
            });
            Item { name: format!("{k}"), copies: 2, clearance: gap, choices: choices.to_vec() }
        };
        let problem = Problem { width: 420.0, items: shapes.into_iter().enumerate().map(item).collect() };
        let layout = search(&problem, &effort(4_000)).expect("a layout");
        let flaws = verify(&problem, &layout);
        prop_assert!(flaws.is_empty(), "{flaws:?}");
        prop_assert!(layout.length * problem.width >= problem.area());
    }
}

// Cloth. Pieces are invented; straight grain along x.

fn piece(name: &str, outline: Vec<Point>, cut: Cut) -> Piece {
    Piece {
        name: name.to_owned(),
        outline,
        cut,
        grain: Grain::Straight,
        border_edge: None,
        match_point: None,
        block_margin: None,
    }
}

/// Half a back (fold edge along the grain), fronts in a pair, sleeves in a pair, a symmetric facing.
fn bodice() -> Vec<Piece> {
    vec![
        piece(
            "back",
            vec![[0.0, 0.0], [420.0, 0.0], [430.0, 80.0], [300.0, 180.0], [0.0, 150.0]],
            Cut::OnFold { copies: 1, edge: 0 },
        ),
        piece(
            "front",
            vec![[0.0, 0.0], [400.0, 0.0], [380.0, 120.0], [290.0, 210.0], [0.0, 190.0]],
            Cut::Pairs { pairs: 1 },
        ),
        piece(
            "sleeve",
            vec![[0.0, 40.0], [560.0, 0.0], [700.0, 160.0], [560.0, 330.0], [0.0, 300.0]],
            Cut::Pairs { pairs: 1 },
        ),
        piece("facing", rectangle(300.0, 70.0), Cut::Same { copies: 3 }),
    ]
}

fn spec(width: f64) -> ClothSpec {
    ClothSpec { gap: 3.0, fold_clearance: 8.0, ..ClothSpec::plain(width) }
}

fn outcome(spec: &ClothSpec, pieces: &[Piece], folding: Folding) -> FoldOutcome {
    let spec = ClothSpec { foldings: vec![folding], ..spec.clone() };
    lay_out(&spec, pieces, &effort(20_000)).tries.remove(0).outcome
}

fn reasons(spec: &ClothSpec, pieces: &[Piece], folding: Folding) -> String {
    match outcome(spec, pieces, folding) {
        FoldOutcome::NotPossible(reasons) => reasons.join("; "),
        FoldOutcome::Laid(layout) => panic!("{folding:?} was laid: {} mm", layout.bought),
    }
}

fn laid(spec: &ClothSpec, pieces: &[Piece], folding: Folding) -> furbelow::lay::cloth::ClothLayout {
    match outcome(spec, pieces, folding) {
        FoldOutcome::Laid(layout) => {
            assert_eq!(check_layout(spec, pieces, &layout), [], "{folding:?}");
            assert!(layout.bought >= layout.area_bound, "shorter than its area");
            *layout
        }
        FoldOutcome::NotPossible(reasons) => panic!("{folding:?}: {reasons:?}"),
    }
}

#[test]
fn a_garment_on_every_folding() {
    let (spec, pieces) = (spec(1100.0), bodice());
    let result = lay_out(&spec, &pieces, &effort(30_000));
    assert_eq!(result.tries.len(), Folding::ALL.len());
    let mut shortest = f64::INFINITY;
    for tried in &result.tries {
        match (&tried.outcome, tried.folding) {
            (FoldOutcome::Laid(layout), _) => {
                assert_eq!(check_layout(&spec, &pieces, layout), [], "{:?}", tried.folding);
                shortest = shortest.min(layout.bought);
            }
            (FoldOutcome::NotPossible(reasons), Folding::Crosswise) => {
                assert!(reasons.iter().any(|r| r.starts_with("back has a fold edge")), "{reasons:?}");
            }
            (FoldOutcome::NotPossible(reasons), Folding::LengthwiseThenOpen) => {
                assert!(reasons[0].contains("nothing is left for an open part"), "{reasons:?}");
            }
            (FoldOutcome::NotPossible(reasons), Folding::Doubled) => {
                // 330 and 8 off the fold, on flaps of 275.
                assert!(reasons[0].contains("sleeve needs 338 mm across and the flap"), "{reasons:?}");
            }
            (outcome, folding) => panic!("{folding:?}: {outcome:?}"),
        }
    }
    assert_eq!(result.layout().map(|l| l.bought), Some(shortest));
}

/// On the fold: the half's fold edge lies on y = 0, all else keeps off it, and the odd facing is halved.
#[test]
fn the_fold_is_exact_and_kept_clear() {
    let (spec, pieces) = (spec(1100.0), bodice());
    let layout = laid(&spec, &pieces, Folding::Lengthwise);
    let section = &layout.sections[0];
    let mut on_fold = 0;
    for l in &section.laid {
        let least = l.outline.iter().map(|p| p[1]).fold(f64::INFINITY, f64::min);
        if l.on_fold {
            on_fold += 1;
            assert!(least.abs() < 1e-9, "{}", pieces[l.piece].name);
            let at_fold = l.outline.iter().filter(|p| p[1].abs() < 1e-9).count();
            assert!(at_fold >= 2, "an edge on the fold, not a corner");
        } else {
            assert!(least >= 8.0 - 1e-6);
            assert_eq!(l.copies.len(), 2);
        }
    }
    assert_eq!(on_fold, 2, "the back and the third facing");
    assert!((section.width - 550.0).abs() < 1e-9);
    // Twice the area of what is laid is cut.
    let area: f64 = section.laid.iter().map(|l| 2.0 * furbelow::lay::signed_area(&l.outline).abs()).sum();
    assert!((layout.density - area / (layout.bought * spec.width)).abs() < 1e-9);
}

#[test]
fn one_way_cloth_turns_nothing() {
    let spec = ClothSpec { one_way: true, ..spec(1100.0) };
    let pieces = bodice();
    for folding in [Folding::Single, Folding::Lengthwise] {
        let layout = laid(&spec, &pieces, folding);
        let all = layout.sections.iter().flat_map(|s| &s.laid);
        assert!(all.clone().count() > 0 && all.into_iter().all(|l| l.pose.eighths == 0));
    }
    assert!(reasons(&spec, &pieces, Folding::Crosswise).contains("one-way"));
}

#[test]
fn why_a_fold_is_not_possible() {
    let pieces = bodice();
    let narrow = reasons(&spec(600.0), &pieces, Folding::Lengthwise);
    assert!(narrow.contains("sleeve needs 338 mm across and the cloth folded lengthwise is 300 mm wide"), "{narrow}");
    let pocket = piece("pocket", vec![[0.0, 0.0], [100.0, 0.0], [100.0, 90.0], [0.0, 60.0]], Cut::Same { copies: 1 });
    let same_way = reasons(&spec(1100.0), std::slice::from_ref(&pocket), Folding::Lengthwise);
    assert!(same_way.contains("pocket is cut 1 times the same way up"), "{same_way}");
    let too_wide = reasons(&spec(150.0), &pieces, Folding::Single);
    assert!(too_wide.contains("sleeve needs 330 mm across and the open cloth is 150 mm wide"), "{too_wide}");
    let crooked = piece(
        "crooked",
        vec![[0.0, 0.0], [100.0, 0.0], [100.0, 90.0], [50.0, -12.0]],
        Cut::OnFold { copies: 1, edge: 0 },
    );
    let over = reasons(&spec(1100.0), &[crooked], Folding::Lengthwise);
    assert!(over.contains("12.0 mm over its own fold edge"), "{over}");
    // What keeps the fold from being used goes to an open part when that is allowed.
    let mut with_pocket = pieces.clone();
    with_pocket.push(pocket);
    let layout = laid(&spec(1100.0), &with_pocket, Folding::LengthwiseThenOpen);
    assert_eq!(layout.sections.len(), 2);
    assert_eq!(layout.sections[1].laid.len(), 1);
    let bought: f64 = layout.sections.iter().map(|s| s.length).sum();
    assert!((layout.bought - bought).abs() < 1e-9);
}

/// Closed form: a half panel 500 by 300 with its fold edge across the grain, on cloth 300 wide folded crosswise,
/// takes 500 folded, 1000 bought; on open cloth it is 1000 long.
#[test]
fn a_crosswise_fold_counts_double() {
    let half = rectangle(500.0, 300.0);
    let pieces = [piece("panel", half, Cut::OnFold { copies: 1, edge: 3 })];
    let spec = ClothSpec::plain(300.0);
    let layout = laid(&spec, &pieces, Folding::Crosswise);
    assert!((layout.bought - 1000.0).abs() < 1e-6 && (layout.sections[0].length - 500.0).abs() < 1e-6);
    assert!(layout.sections[0].laid[0].outline.iter().filter(|p| p[0].abs() < 1e-9).count() == 2);
    let open = laid(&spec, &pieces, Folding::Single);
    assert!((open.bought - 1000.0).abs() < 1e-6);
    assert!(open.sections[0].laid[0].opened_out);
    // Three side by side do not go on a fold 300 wide.
    let three = [piece("strip", rectangle(400.0, 140.0), Cut::OnFold { copies: 3, edge: 3 })];
    let crowded = reasons(&spec, &three, Folding::Crosswise);
    assert!(crowded.contains("take 420 mm side by side") && crowded.contains("300 mm wide"), "{crowded}");
}

/// Closed form: two halves 500 by 150, each with its long edge on a fold, on cloth 600 wide. Folded once they lie one
/// after the other (1000); with both selvages folded to the middle side by side, one on each fold (500).
#[test]
fn both_selvages_to_the_middle() {
    let half = piece("panel", rectangle(500.0, 150.0), Cut::OnFold { copies: 2, edge: 0 });
    let spec = ClothSpec::plain(600.0);
    let once = laid(&spec, std::slice::from_ref(&half), Folding::Lengthwise);
    assert!((once.bought - 1000.0).abs() < 1e-6, "{}", once.bought);
    let gate = laid(&spec, std::slice::from_ref(&half), Folding::Doubled);
    assert!((gate.bought - 500.0).abs() < 1e-6 && (gate.density - 1.0).abs() < 1e-9, "{}", gate.bought);
    let section = &gate.sections[0];
    assert!((section.width - 300.0).abs() < 1e-9);
    let mut at: Vec<f64> = section.laid.iter().map(|l| l.map([0.0, 0.0])[1]).collect();
    at.sort_by(f64::total_cmp);
    assert!(at[0].abs() < 1e-9 && (at[1] - 300.0).abs() < 1e-9, "fold edges at {at:?}");
    // A pair: clear of both folds, and never over the line at 150 where the selvages meet.
    let cuff = piece("cuff", vec![[0.0, 0.0], [90.0, 0.0], [90.0, 140.0], [0.0, 120.0]], Cut::Pairs { pairs: 3 });
    let spec = ClothSpec { gap: 3.0, fold_clearance: 8.0, one_way: true, ..spec };
    let layout = laid(&spec, &[half.clone(), cuff.clone()], Folding::Doubled);
    let cuffs = layout.sections[0].laid.iter().filter(|l| l.piece == 1);
    for l in cuffs {
        let ys = || l.outline.iter().map(|p| p[1]);
        let (low, high) = (ys().fold(f64::INFINITY, f64::min), ys().fold(f64::NEG_INFINITY, f64::max));
        assert!((low >= 8.0 - 1e-6 && high <= 150.0 + 1e-6) || (low >= 150.0 - 1e-6 && high <= 292.0 + 1e-6));
        assert_eq!((l.copies.len(), l.pose.eighths), (2, 0));
    }
    // What is wider than a flap, hangs on a border or is cut one way up has a reason.
    let wide = piece("cape", rectangle(200.0, 160.0), Cut::OnFold { copies: 1, edge: 0 });
    let why = reasons(&spec, &[wide], Folding::Doubled);
    assert!(why.contains("cape needs 160 mm across and the flap folded to the middle is 150 mm wide"), "{why}");
    let bordered = ClothSpec { border: Some(Border { at: BorderAt::Both, offset: 0.0 }), ..spec.clone() };
    let hem = Piece { border_edge: Some(1), ..cuff.clone() };
    let why = reasons(&bordered, &[hem], Folding::Doubled);
    assert!(why.contains("the other is the middle of the cloth"), "{why}");
    // A repeat across: the folds lie 150 mm from the selvages, so 300 mm must be whole repeats; marks lie on it.
    let nowhere = Piece { match_point: Some([40.0, 60.0]), ..cuff.clone() };
    let repeat = Some(Repeat { along: None, across: Some(100.0) });
    let why = reasons(&ClothSpec { repeat, ..spec.clone() }, &[nowhere], Folding::Doubled);
    assert!(why.contains("cuff must match the repeat across the cloth, and where it does it needs"), "{why}");
    let matched = Piece { match_point: Some([40.0, 41.0]), ..cuff };
    for (across, agrees) in [(100.0, true), (110.0, false)] {
        let repeat = Some(Repeat { along: None, across: Some(across) });
        let spec = ClothSpec { repeat, ..spec.clone() };
        if !agrees {
            let why = reasons(&spec, std::slice::from_ref(&matched), Folding::Doubled);
            assert!(why.contains("300 mm of width is not a whole number of repeats of 110 mm"), "{why}");
            continue;
        }
        let layout = laid(&spec, std::slice::from_ref(&matched), Folding::Doubled);
        for l in &layout.sections[0].laid {
            let y = 150.0 + l.map([40.0, 41.0])[1];
            assert!((y / 100.0 - (y / 100.0).round()).abs() * 100.0 < 1e-6, "{y}");
        }
    }
}

/// Where the fold leaves an odd piece over, the rest of the cloth is opened out for it.
#[test]
fn crosswise_then_open() {
    let wide = piece("skirt", vec![[0.0, 0.0], [300.0, 0.0], [300.0, 560.0], [0.0, 400.0]], Cut::Pairs { pairs: 1 });
    let odd = piece("badge", vec![[0.0, 0.0], [100.0, 0.0], [100.0, 90.0], [0.0, 60.0]], Cut::Same { copies: 1 });
    let pieces = [wide, odd];
    let spec = ClothSpec::plain(600.0);
    // Too wide for half the cloth, so folded lengthwise nothing would lie on the fold.
    assert!(reasons(&spec, &pieces, Folding::LengthwiseThenOpen).contains("nothing can be cut on the fold"));
    let layout = laid(&spec, &pieces, Folding::CrosswiseThenOpen);
    // Closed form: the pair takes 300 as it lies and 600 bought, the badge 100.
    assert!((layout.bought - 700.0).abs() < 1e-6, "{}", layout.bought);
    assert_eq!((layout.sections[0].laid.len(), layout.sections[1].laid.len()), (1, 1));
    let one_way = ClothSpec { one_way: true, ..spec };
    assert!(reasons(&one_way, &pieces, Folding::CrosswiseThenOpen).contains("one-way"));
}

/// Three bands 90 by 40 that may lie either way, held at one end of a strip 130 wide: side by side they fit only
/// narrow side across (120), though the other way each would end sooner.
#[test]
fn held_pieces_turn_to_find_room() {
    let choices = [0, 90].map(|turn| {
        let pose = Pose::turned(turn).expect("a quarter turn");
        Choice { pose, outline: pose.outline(&rectangle(90.0, 40.0)), domain: Domain::pin_x(0.0) }
    });
    let bands = Item { name: "band".to_owned(), copies: 3, clearance: 0.0, choices: choices.to_vec() };
    let problem = Problem { width: 130.0, items: vec![bands] };
    let layout = search(&problem, &effort(5_000)).expect("a layout");
    assert_eq!(verify(&problem, &layout), []);
    assert!((layout.length - 90.0).abs() < 1e-6, "{}", layout.length);
}

/// A skirt panel with its hem on the border: turned so that the hem lies at the selvage.
#[test]
fn hems_lie_on_the_border() {
    // Waist at x = 0, hem at x = 600 (edge from corner 1 to 2); fold edge along the grain at y = 0.
    let panel = vec![[0.0, 0.0], [600.0, 0.0], [600.0, 400.0], [0.0, 250.0]];
    let mut whole = piece("panel", panel.clone(), Cut::Pairs { pairs: 2 });
    whole.border_edge = Some(1);
    let border = Border { at: BorderAt::One, offset: 12.0 };
    let spec = ClothSpec { border: Some(border), ..spec(1100.0) };
    let layout = laid(&spec, &[whole.clone()], Folding::Single);
    for l in &layout.sections[0].laid {
        let hem = [l.map(panel[1]), l.map(panel[2])];
        assert!(hem.iter().all(|p| (p[1] - (1100.0 - 12.0)).abs() < 1e-9), "{hem:?}");
    }
    let fold = reasons(&spec, &[whole.clone()], Folding::Lengthwise);
    assert!(fold.contains("runs along one selvage"), "{fold}");
    let bare = ClothSpec { border: None, ..spec.clone() };
    assert!(reasons(&bare, &[whole.clone()], Folding::Single).contains("this cloth has none"));
    let both = ClothSpec { border: Some(Border { at: BorderAt::Both, offset: 0.0 }), ..spec.clone() };
    let mut small = whole.clone();
    small.outline.iter_mut().flatten().for_each(|c| *c *= 0.8);
    let layout = laid(&both, &[small.clone()], Folding::Single);
    let at = |l: &furbelow::lay::cloth::Laid| l.map(small.outline[1])[1];
    assert!(layout.sections[0].laid.iter().all(|l| at(l).abs() < 1e-9 || (at(l) - 1100.0).abs() < 1e-9));
    // Fold across and hem on the border: held both ways.
    whole.cut = Cut::OnFold { copies: 1, edge: 0 };
    let fixed = laid(&spec, &[whole], Folding::Crosswise);
    let l = &fixed.sections[0].laid[0];
    let fold = [l.map(panel[0]), l.map(panel[1])];
    assert!(fold.iter().all(|p| p[0].abs() < 1e-9), "{fold:?}");
    assert!((l.map(panel[2])[1] - 1088.0).abs() < 1e-9);
}

#[test]
fn marks_lie_on_the_repeat() {
    let mut pieces = bodice();
    pieces[1].match_point = Some([120.0, 55.0]);
    pieces[2].match_point = Some([300.0, 165.0]);
    let repeat = Repeat { along: Some(90.0), across: Some(110.0) };
    let spec = ClothSpec { repeat: Some(repeat), one_way: true, ..spec(1100.0) };
    for folding in [Folding::Single, Folding::Lengthwise] {
        let layout = laid(&spec, &pieces, folding);
        let mut matched = 0;
        for section in &layout.sections {
            // On the fold y = 0 is the middle of the cloth, 550 mm from the edge: five repeats.
            for l in &section.laid {
                let Some(point) = pieces[l.piece].match_point else { continue };
                let [x, y] = l.map(point);
                assert!((x / 90.0 - (x / 90.0).round()).abs() * 90.0 < 1e-6, "{folding:?} {x}");
                assert!((y / 110.0 - (y / 110.0).round()).abs() * 110.0 < 1e-6, "{folding:?} {y}");
                matched += 1;
            }
        }
        assert!(matched >= 2);
    }
    let uneven = ClothSpec { width: 1150.0, ..spec };
    let why = reasons(&uneven, &pieces, Folding::Lengthwise);
    assert!(why.contains("1150 mm of width is not a whole number of repeats of 110 mm"), "{why}");
}

/// Blocks: rectangles with the margin on every side but the fold.
#[test]
fn blocks_have_margins() {
    let mut pieces = bodice();
    for piece in &mut pieces {
        piece.block_margin = Some(20.0);
    }
    let layout = laid(&spec(1200.0), &pieces, Folding::Lengthwise);
    let back = layout.sections[0].laid.iter().find(|l| l.piece == 0).expect("the back");
    let extent = |axis: usize| {
        let values = || back.outline.iter().map(|p| p[axis]);
        values().fold(f64::NEG_INFINITY, f64::max) - values().fold(f64::INFINITY, f64::min)
    };
    assert!((extent(0) - 470.0).abs() < 1e-9 && (extent(1) - 200.0).abs() < 1e-9, "430 + 40 by 180 + 20");
    let open = laid(&spec(1200.0), &pieces, Folding::Single);
    assert!(open.sections[0].laid.iter().all(|l| l.outline.len() == 4));
}

/// Bias pieces lie at 45 degrees, and a square on the bias needs its diagonal across the cloth.
#[test]
fn bias_pieces_lie_at_45_degrees() {
    let mut square = piece("godet", rectangle(200.0, 200.0), Cut::Pairs { pairs: 1 });
    square.grain = Grain::Bias;
    let layout = laid(&spec(700.0), &[square.clone()], Folding::Lengthwise);
    assert!(layout.sections[0].laid.iter().all(|l| l.pose.eighths % 2 == 1));
    assert!((layout.bought - 200.0 * std::f64::consts::SQRT_2).abs() < 0.01, "{}", layout.bought);
    let why = reasons(&spec(500.0), &[square], Folding::Lengthwise);
    assert!(why.contains("needs 291 mm across"), "282.84 and 8 off the fold: {why}");
}

/// Every grain, on cloth with and without a direction: only the turns it allows occur (the checker of cloths looks
/// too), and each leads to a layout.
#[test]
fn grains_are_kept() {
    for (grain, allowed, one_way_allowed) in [
        (Grain::Straight, &[0, 180][..], &[0][..]),
        (Grain::With, &[0], &[0]),
        (Grain::Cross, &[90, 270], &[90]),
        (Grain::Bias, &[45, 135, 225, 315], &[45, 315]),
        (Grain::Any, &[0, 90, 180, 270], &[0]),
    ] {
        let mut pieces = bodice();
        pieces.remove(0);
        pieces.iter_mut().for_each(|p| p.grain = grain);
        for one_way in [false, true] {
            let spec = ClothSpec { one_way, ..spec(1500.0) };
            let allowed = if one_way { one_way_allowed } else { allowed };
            for folding in [Folding::Single, Folding::Lengthwise] {
                if folding == Folding::Lengthwise && matches!(grain, Grain::Cross | Grain::Bias) {
                    // The third facing would have to be halved along the fold, off its grain.
                    let why = reasons(&spec, &pieces, folding);
                    assert!(why.contains("facing is cut an odd number of times"), "{why}");
                    continue;
                }
                let layout = laid(&spec, &pieces, folding);
                for l in layout.sections.iter().flat_map(|s| &s.laid) {
                    assert!(allowed.contains(&l.pose.degrees()), "{grain:?} {one_way} {}", l.pose.degrees());
                }
            }
        }
    }
}

/// Cloth with two right sides: pieces cut the same way up may be cut double, and may lie face down.
#[test]
fn either_side_frees_pieces() {
    let pocket = piece("pocket", vec![[0.0, 0.0], [100.0, 0.0], [100.0, 90.0], [0.0, 60.0]], Cut::Same { copies: 4 });
    let sided = spec(1100.0);
    assert!(reasons(&sided, std::slice::from_ref(&pocket), Folding::Lengthwise).contains("the same way up"));
    let sideless = ClothSpec { either_side: true, ..sided };
    let layout = laid(&sideless, std::slice::from_ref(&pocket), Folding::Lengthwise);
    assert_eq!(layout.sections[0].laid.len(), 2);
    let mut copies: Vec<usize> = layout.sections[0].laid.iter().flat_map(|l| l.copies.clone()).collect();
    copies.sort_unstable();
    assert_eq!(copies, [0, 1, 2, 3]);
}

/// The checker of cloths finds what is broken by hand.
#[test]
fn the_checker_of_cloths_finds_what_is_broken() {
    let (spec, pieces) = (spec(1100.0), bodice());
    let good = laid(&spec, &pieces, Folding::Lengthwise);
    let broken = |change: &dyn Fn(&mut furbelow::lay::cloth::ClothLayout)| {
        let mut layout = good.clone();
        change(&mut layout);
        check_layout(&spec, &pieces, &layout)
    };
    let has =
        |flaws: Vec<ClothFlaw>, wanted: &dyn Fn(&ClothFlaw) -> bool| assert!(flaws.iter().any(wanted), "{flaws:?}");
    let on_fold = good.sections[0].laid.iter().position(|l| l.piece == 0).expect("the back");
    let off_fold = good.sections[0].laid.iter().position(|l| !l.on_fold).expect("a pair");
    has(broken(&|l| l.bought -= 10.0), &|f| matches!(f, ClothFlaw::Length { .. }));
    has(broken(&|l| drop(l.sections[0].laid.pop())), &|f| matches!(f, ClothFlaw::Count { times: 0, .. }));
    has(broken(&|l| l.sections[0].laid[on_fold].outline.iter_mut().for_each(|p| p[1] += 0.1)), &|f| {
        matches!(f, ClothFlaw::OffFold { .. })
    });
    has(broken(&|l| l.sections[0].laid[off_fold].pose.eighths = 2), &|f| matches!(f, ClothFlaw::Grain { .. }));
    has(broken(&|l| l.sections[0].laid[off_fold].outline[0][0] += 1.0), &|f| matches!(f, ClothFlaw::Outline { .. }));
    let single = laid(&spec, &pieces, Folding::Single);
    let mut mirrored = single.clone();
    let front = mirrored.sections[0].laid.iter().position(|l| l.piece == 1 && l.pose.over).expect("a turned front");
    mirrored.sections[0].laid[front].pose.over = false;
    has(check_layout(&spec, &pieces, &mirrored), &|f| matches!(f, ClothFlaw::WrongSide { .. }));
}

/// All names of the open instances are read and have the areas read in arXiv 2509.13329 (area bound = area / width).
#[test]
fn open_instances_have_the_published_area() {
    let bounds = [8705.5, 69.173, 54.0, 217.80];
    for (name, bound) in NAMES.into_iter().zip(bounds) {
        let Some(instance) = instance(name) else { return };
        let problem = instance.problem();
        let found = problem.area() / problem.width / instance.scale();
        assert!((found - bound).abs() < 5e-5 * bound, "{name}: {found} for {bound}");
    }
}
