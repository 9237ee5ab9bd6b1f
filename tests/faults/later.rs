//! What shows only when the sizes are worked out: numbers, reach, outlines, seams, figures, words.

use super::apron::Apron;

type Row = (&'static str, &'static str, &'static str, &'static str, &'static str);

fn hold(rows: &[Row]) {
    for (from, to, code, message, help) in rows {
        Apron::new().edit(from, to).expect(&[(code, message, help)]);
    }
}

const GATHER: &str = "{ kind: gather-rows, of: front, first_row: 1/4 in, row_spacing: 1/4 in }";

#[test]
fn formulas_without_a_value() {
    hold(&[
        ("knee - 2 in", "knee - §2", "formula-dimension", "cannot take a bare number from a length", "write a unit"),
        ("knee - 2 in", "knee + §2", "formula-dimension", "cannot add a bare number to a length", "write a unit"),
        (
            "length: waist / 2",
            "length: §wiast / 2",
            "unknown-name",
            "nothing is called `wiast`",
            "did you mean `waist`?",
        ),
        (
            "seam: band_length",
            "seam: §band_lenght",
            "unknown-name",
            "nothing is called `band_lenght`",
            "`band_length`?",
        ),
        ("height: drop", "height: §dorp", "unknown-name", "nothing is called `dorp`", "did you mean `drop`?"),
        ("value: drop", "value: §dorp", "unknown-name", "nothing is called `dorp`", "did you mean `drop`?"),
        ("knee - 2 in", "§knee * 100000", "absurd", "this comes to 58.0 km, which no garment has", "check the units"),
        ("waist: 2 cm", "waist: §2", "formula-dimension", "expected a length of ease", "`2 cm`"),
    ]);
}

/// The place is inside the quotes, behind the escaped sign.
#[test]
fn a_place_inside_a_quoted_formula() {
    hold(&[
        ("knee - 2 in", "\"knee - 2\\\" - §nought\"", "unknown-name", "nothing is called `nought`", ""),
        ("knee - 2 in", "'knee - §nought'", "unknown-name", "nothing is called `nought`", ""),
    ]);
}

/// What fails in some sizes only names them; what fails in all does not.
#[test]
fn the_sizes_that_fail_are_named() {
    let zero = "  spare: 1 / §(knee - 60 cm)\n  drop:";
    Apron::new().edit("  drop:", zero).expect(&[("formula-value", "division by zero", "")]);
    let message = |apron: Apron| apron.check().one().message;
    let one = message(Apron::new().edit("  drop:", zero));
    assert!(one.ends_with("(in size M)"), "{one}");
    let two = message(Apron::new().edit("knee - 2 in", "knee - 61 cm"));
    assert!(two.ends_with("(in sizes S, M)"), "{two}");
    let all = message(Apron::new().edit("knee - 2 in", "knee - 90 cm"));
    assert!(!all.contains("(in size"), "{all}");
}

/// What needs a number that failed is not blamed: one fault, not one for every place that uses it.
#[test]
fn one_cause_is_one_fault() {
    hold(&[("waist / 2", "waist / §(2 - 2)", "formula-value", "division by zero", "")]);
}

#[test]
fn inputs_of_techniques() {
    hold(&[
        ("cloth: medium", "cloth: §hevy", "bad-value", "expected one of `sheer`, `medium`, `heavy`", "`heavy`?"),
        ("ratio: fullness", "ratio: §-2", "bad-value", "expected a ratio of at least 1", "flat width over gathered"),
        ("ratio: fullness", "ratio: fullness\n    rows: §2.5", "bad-value", "a whole number, but found 2.5", ""),
        ("ratio: fullness", "ratio: fullness\n    rows: §100000000", "bad-value", "at most 1000000", ""),
        ("ratio: fullness", "ratio: fullness\n    tail: §2 kg", "bad-value", "expected a length, but found a mass", ""),
    ]);
    let low = Apron::new().edit("[1.5, 1.5, 1.4]", "[1.5, 0, 1.4]").edit("ratio: fullness", "ratio: §fullness");
    low.expect(&[("bad-value", "expected a ratio of at least 1 (in size M)", "")]);
}

/// 4 m at two stitches of 1/4 in a pleat are 312 pleats (314.96, in fours). Drawn up tight they take half their flat
/// width: 78 in. Half a waist of 68 cm has room for 13 3/8 in of that, and for 26 in of cloth (52 pleats, in fours).
#[test]
fn out_of_reach_with_a_way_back() {
    let pleats =
        "  §pleats:\n    technique: cartridge-pleats\n    swatch: sample\n    seam: band_length\n    available: 4 m\n";
    let apron = Apron::new().edit("  lower_hem:\n", &format!("{pleats}  lower_hem:\n"));
    apron.expect(&[("out-of-reach", "312 pleats still measure 78 in", "nearest ways")]);
    let help = apron.check().one().help;
    assert!(help.contains("`available: 26 in`"), "{help}");
}

#[test]
fn outlines() {
    hold(&[
        ("[bl, br]", "[bl, §bx]", "unknown-name", "no point of this piece is called `bx`", ""),
        ("right: hemmed, bottom", "right: hemmed, §botom", "unknown-name", "no edge", "did you mean `bottom`?"),
        ("{ left: side_hem", "{ §lft: side_hem", "unknown-name", "no edge", "did you mean `left`?"),
        ("cut: { ticking: 1 }", "cut: { ticking: §1.5 }", "piece", "expected a whole number from 1", "`ceil`"),
        ("cut: { ticking: 1 }", "cut: { ticking: §0 }", "piece", "expected a whole number from 1", ""),
    ]);
    let open = Apron::new().edit("      bl: {", "      bm: { from: tl, down: 1 in }\n      bl: {");
    open.edit("left: { line: [tl, bl] }", "§left: { line: [tl, bm] }").expect(&[(
        "outline",
        "the edge `left` does not meet `bottom`: they are 12.7 mm (1/2 in) apart",
        "in order round the piece",
    )]);
    let crossed =
        Apron::new().edit("br: { from: tr, down: band_depth }", "br: { from: tl, right: 1 in, down: band_depth }");
    let crossed =
        crossed.edit("bl: { from: tl, down", "bl: { from: tl, right: 6 in, down").edit("    edges:", "    §edges:");
    crossed.expect(&[("outline", "the outline crosses itself", "move the points")]);
    let flat = Apron::new().edit("br: { from: tr, down: band_depth }", "br: { from: tr, down: 0 in }");
    let flat = flat.edit("bl: { from: tl, down: band_depth }", "bl: { from: tl, down: 0 in }");
    assert!(flat.check().faults.iter().any(furbelow::fault::Fault::stops));
}

#[test]
fn edges_and_seams() {
    Apron::new().edit(", bottom: hemmed }", " }").edit("\n  panel:\n", "\n  §panel:\n").expect(&[(
        "loose-edge",
        "nobody sews the edge `bottom` of `panel`",
        "name it in a join, or say under `finish`",
    )]);
    let short = Apron::new().edit("seam: band_length\n", "seam: if(waist > 85 cm, band_length - 1 in, band_length)\n");
    // The notches follow from the length, and are not told as well.
    let found = short.check();
    let seam = found.one();
    assert_eq!(seam.code, "seam");
    // An inch less of band, 1.4 times as full: 35.6 mm less of panel.
    assert!(seam.message.contains("35.6 mm") && seam.message.contains("too short"), "{seam:?}");
    assert!(seam.message.ends_with("in size L"), "{seam:?}");
    assert!(seam.help.contains("declare the ease"), "{seam:?}");
    assert_eq!((seam.line, seam.column), place_of("  - title: the waist", 4));
    let third =
        Apron::new().edit("{ edge: bottom, share: 1/2, name: centre }", "{ edge: bottom, share: 1/3, name: centre }");
    third.edit("- title: the waist", "- §title: the waist").expect(&[(
        "notches",
        "along `panel.top` should meet the one",
        "the same distances",
    )]);
    // Edges that are written out are pointed at themselves.
    Apron::new().edit("faced, left: faced,", "faced,").edit("      left: { line", "      §left: { line").expect(&[(
        "loose-edge",
        "nobody sews the edge `left` of `band`",
        "`left: hemmed`",
    )]);
    // A name that is not there is told once, and without sizes: the edge that may have been meant is not loose.
    let found = Apron::new().edit("[band.bottom]", "[band.botom]").check();
    assert_eq!(found.one().message, "the piece `band` has no edge `botom`", "{}", found.shown());
    assert_eq!(found.one().help, "did you mean `bottom`?");
    let found = Apron::new().edit("[band.bottom]", "[bnad.bottom]").check();
    assert_eq!(found.one().message, "no piece is called `bnad`", "{}", found.shown());
    assert_eq!(found.one().help, "did you mean `band`?");
}

/// Line and column of a text of the apron, so many characters into it.
fn place_of(text: &str, into: usize) -> (usize, usize) {
    let whole = Apron::new().text();
    let at = whole.find(text).expect("a text of the apron");
    (whole[..at].matches('\n').count() + 1, into + 1)
}

/// The widest cloth is 60 in with a selvage of 1/2 in at each side, less 2 % in the wash: 146.8 cm.
#[test]
fn a_piece_that_is_wider_than_any_cloth() {
    let wide = Apron::new().edit("[1.5, 1.5, 1.4]", "[3.9, 3.9, 3.5]").check();
    let seen = wide.seen();
    assert!(seen.iter().all(|seen| seen.code == "layout" && seen.help.contains("narrower panels")), "{}", wide.shown());
    assert_eq!(seen.len(), 2, "one for each width\n{}", wide.shown());
}

#[test]
fn figures() {
    let figure = |to: &str, expected: (&str, &str, &str)| Apron::new().edit(GATHER, to).expect(&[expected]);
    figure(
        "{ kind: §gather-row, of: front }",
        ("figure", "no figure of the kind `gather-row`", "did you mean `gather-rows`?"),
    );
    figure("{ kind: flat-piece, piece: §bnad }", ("figure", "no piece is called `bnad`", "did you mean `band`?"));
    figure("{ kind: hooks, of: §frnt }", ("figure", "no construction entry is called `frnt`", "did you mean `front`?"));
    figure(
        "{ kind: gather-rows, of: front, §frist_row: 1/4 in }",
        ("figure", "a figure of the kind `gather-rows` has no `frist_row`", "did you mean `first_row`?"),
    );
    figure(
        "{ kind: together, over: panel, over_edge: §topp, under: band, under_edge: bottom }",
        ("figure", "`panel` has no edge `topp`", "did you mean `top`?"),
    );
    let missing = Apron::new().edit(GATHER, "{ kind: flat-piece }");
    missing.edit("    figure: { kind: flat-piece", "    §figure: { kind: flat-piece").expect(&[(
        "figure",
        "a figure of the kind `flat-piece` needs `piece`",
        "the name of a piece",
    )]);
    hold(&[(
        "lower_hem.turn",
        "§lower_hm.turn",
        "unknown-name",
        "nothing is called `lower_hm.turn`",
        "`lower_hem.turn`?",
    )]);
}

/// Inside a block the place is on the line of the word, whatever stands above it.
#[test]
fn words() {
    hold(&[
        ("{{ band_length }}", "{{ §band_lenth }}", "unknown-name", "unknown name `band_lenth`", "`band_length`?"),
        ("Sew close", "Sew “ünder” 🧵 {{ §nope }}", "unknown-name", "unknown name `nope`", ""),
        ("{{ band_length }}", "{{ band_length §* 2 }}", "prose", "prose does not reckon", "under `numbers`"),
        ("| spell", "| §spel", "prose", "no filter `spel`", "did you mean `spell`?"),
        ("**gathers**", "§**gathers", "prose", "`**` is never closed", "close it with `**`"),
        ("{{ band_length }}", "§{{ band_length }", "prose", "`{{` is never closed", "`}}`"),
        ("[step: hems]", "§[step: hem]", "unknown-name", "no step `hem` to refer to", "did you mean `hems`?"),
        ("Sew close", "{% if size == §\"XL\" %}Sew{% endif %} close", "unknown-name", "no size `XL`", ""),
        ("{{ front.thread }}", "{{ §front.thred }}", "unknown-name", "unknown name `front.thred`", "`front.thread`?"),
        ("waist: Round", "waist: >-\n      Over the shirt,\n      {{ §nope }} round", "unknown-name", "`nope`", ""),
        ("Cotton burns.", "Cotton burns at {{ §heat }}.", "unknown-name", "`heat`", "known here"),
    ]);
}
