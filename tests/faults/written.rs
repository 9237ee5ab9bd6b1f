//! What can be said from the file alone: structure, words, names, techniques, the size table.

use super::apron::Apron;

/// From, to (with a mark where the fault must be), code, words of the message, words of the help.
type Row = (&'static str, &'static str, &'static str, &'static str, &'static str);

fn hold(rows: &[Row]) {
    for (from, to, code, message, help) in rows {
        Apron::new().edit(from, to).expect(&[(code, message, help)]);
    }
}

#[test]
fn keys() {
    hold(&[
        ("accent:", "§acent:", "unknown-key", "the garment file has no key `acent`", "did you mean `accent`?"),
        ("title: Apron\n", "title: Apron\n    §titel: x\n", "unknown-key", "`panel` has no key `titel`", "`title`"),
        (
            "{ waist: 2 cm }\n",
            "{ waist: 2 cm }\n  §zzz: 1\n",
            "unknown-key",
            "`sizes` has no key `zzz`",
            "known here: ",
        ),
    ]);
    Apron::new().edit("edition: 1.0.0\n", "edition: 1.0.0\n§edition: 1.1.0\n").expect(&[(
        "duplicate-key",
        "`edition` stands here a second time",
        "keep one of the two",
    )]);
    let apron = Apron::new().edit("title: The Lamp", "§title: The Lamp");
    apron.edit("terms: Make as many of these aprons as you like. Please do not pass the file on.\n", "").expect(&[(
        "missing-key",
        "the garment file needs a key `terms`",
        "add `terms:` here. What the buyer may do",
    )]);
    Apron::new().edit("  unit: cm\n  names", "  §names").expect(&[(
        "missing-key",
        "`sizes` needs a key `unit`",
        "`cm`",
    )]);
    Apron::new().edit("{ kind: panel, ", "§{ ").expect(&[(
        "missing-key",
        "`shape` needs a key `kind`",
        "`panel`, `strip`",
    )]);
}

#[test]
fn values_of_the_wrong_kind() {
    hold(&[
        (
            "widths: [45 in]",
            "widths: §45 in",
            "wrong-type",
            "expected a list for `widths`, but found the text",
            "length",
        ),
        ("names: [S, M, L]", "names: §{ a: 1 }", "wrong-type", "expected a list for `names`, but found a mapping", ""),
        ("[panel]", "§panel", "wrong-type", "expected a list for `pieces`", "The pieces used"),
        ("\"#2f5d62\"", "§12", "wrong-type", "expected text for `accent`, but found the number `12`", "colour"),
        ("title: Band", "title: §[Band]", "wrong-type", "expected text for `title`, but found a list", ""),
        ("[66, 76, 88]", "[66, §[76], 88]", "wrong-type", "expected a formula", ""),
        ("1.0.0", "§1.0", "wrong-type", "expected text for `edition`, but found the number `1.0`", "`1.0.0`"),
    ]);
}

/// A value that begins with `#` is a comment in YAML: without a word the booklet would have another colour.
#[test]
fn a_key_without_a_value() {
    hold(&[
        (
            "accent: \"#2f5d62\"",
            "accent§: #2f5d62",
            "wrong-type",
            "expected text for `accent`, but found nothing",
            "quotes",
        ),
        (
            "pieces: [panel]",
            "pieces§:",
            "wrong-type",
            "expected a list for `pieces`, but found nothing",
            "leave the key out",
        ),
    ]);
}

#[test]
fn words_that_are_not_on_the_list() {
    hold(&[
        ("role: lining", "role: §linning", "bad-value", "expected one of `outer`, `under`, `lining`", "`lining`?"),
        ("imperial-first", "§inches", "bad-value", "`imperial-first`, `metric-first`", "known here"),
        ("top: faced", "top: §facd", "bad-value", "`hemmed`, `faced`", "did you mean `faced`?"),
        ("kind: panel", "kind: §panle", "bad-value", "expected a kind of `shape`", "did you mean `panel`?"),
        ("grain: crosswise", "grain: §crosswize", "bad-value", "`crosswize`", "did you mean `crosswise`?"),
        ("lawn: flat", "lawn: §doubled", "bad-value", "expected `folded` or `flat`, but found `doubled`", "two layers"),
        ("unit: cm", "unit: §ell", "bad-value", "expected a unit of length, but found `ell`", "`cm`, `in` or `mm`"),
        ("accent:", "language: §xx\naccent:", "translation", "no words for the language `xx`", "`en`"),
    ]);
}

#[test]
fn edition_and_colour() {
    hold(&[
        ("1.0.0", "§first", "bad-value", "expected an edition of three numbers, but found `first`", "`1.0.0`"),
        ("1.0.0", "§1.0.0.0", "bad-value", "three numbers", "`1.1.0`"),
        ("\"#2f5d62\"", "§\"#2f5d6\"", "bad-value", "expected a colour", "two hexadecimal digits each"),
        ("\"#2f5d62\"", "§teal", "bad-value", "but found `teal`", "in quotes"),
    ]);
}

#[test]
fn yaml_that_cannot_be_read() {
    hold(&[
        ("  unit: cm", "§\tunit: cm", "yaml", "a tab stands in the indent", "spaces only"),
        ("  names: [S", "  §\tnames: [S", "yaml", "a tab stands in the indent", "spaces only"),
        ("summary: A striped apron,", "summary: A striped apron§: dull,", "yaml", "not YAML", "goes in quotes"),
        ("summary: A", "summary: {{ waist }} §A", "yaml", "not YAML", "begins with `{{` goes in quotes"),
        ("sizes:\n", "---\n§sizes:\n", "yaml", "a second YAML document", "remove the `---`"),
    ]);
    let key = "a key must be plain text";
    Apron::new().edit("Make as", "{§{ waist }}\nmaker: Make as").expect(&[("wrong-type", key, "goes in quotes")]);
    Apron::of("§").expect(&[("yaml", "this file is empty", "")]);
    Apron::of("§just words\n").expect(&[("wrong-type", "expected a mapping for the garment file", "")]);
}

#[test]
fn anchors_aliases_and_tags() {
    hold(&[
        (
            "title: striped",
            "title: §&a striped",
            "yaml-feature",
            "an anchor (`&name`) has no place",
            "write the value out",
        ),
        ("role: lining", "role: §*a", "yaml-feature", "an alias (`*name`) has no place", "`*` or `!` goes in quotes"),
        ("title: Band", "title: §!cut Band", "yaml-feature", "a tag (`!name`) has no place", "write the value out"),
        ("  lawn:\n", "  lawn:\n    §<<: { a: b }\n", "yaml-feature", "a merge key", "write the value out"),
    ]);
    Apron::new()
        .edit("title: striped", "title: §&a striped")
        .edit("title: cotton lawn", "title: §*a")
        .expect(&[("yaml-feature", "an anchor", ""), ("yaml-feature", "an alias", "")]);
}

/// Depth and size are bounded before anything is worked out.
#[test]
fn too_much() {
    let nested = format!("about: {}§{}{}\nmaker: |", "[".repeat(32), "[".repeat(20), "]".repeat(52));
    Apron::new().edit("about: |", &nested).expect(&[("too-much", "nested more than 32 deep", "check the indents")]);
    let long = format!("summary: §{}", "x".repeat(500_000));
    Apron::new().edit("summary: A", &long).expect(&[("too-much", "at most 600 characters for `summary`", "shorten")]);
    let sum = format!("drop: §knee{}", " + 1 in".repeat(5000));
    Apron::new().edit("drop: knee", &sum).expect(&[("formula-syntax", "at most 2000 characters", "")]);
    let brackets = format!("drop: {}§{}knee{}", "(".repeat(64), "(".repeat(64), ")".repeat(128));
    Apron::new().edit("drop: knee", &brackets).expect(&[("formula-syntax", "nested too deeply", "")]);
}

/// A chain of numbers is followed from one to the next: it must not be longer than what can be followed.
#[test]
fn a_chain_of_forty_thousand_numbers() {
    let chain: String = (0..40_000).map(|at| format!("  n{at}: n{}\n", at + 1)).collect();
    let apron = Apron::new().edit("numbers:\n", &format!("§numbers:\n{chain}  n40000: 1 in\n"));
    apron.expect(&[("too-much", "expected at most 1000 names under `numbers`", "split")]);
    let chain: String = (0..900).map(|at| format!("  n{at}: n{}\n", at + 1)).collect();
    let apron = Apron::new().edit("numbers:\n", &format!("numbers:\n{chain}  n900: 1 in\n"));
    assert_eq!(apron.check().seen(), []);
}

#[test]
fn formulas() {
    hold(&[
        ("knee - 2 in", "knee - (2 in§", "formula-syntax", "expected `)`, but found the end", ""),
        ("knee - 2 in", "knee - 2 §inchs", "formula-syntax", "`inchs` is not a unit", ""),
        ("knee - 2 in", "knee §; 2 in", "formula-syntax", "`;` has no place in a formula", ""),
        ("knee - 2 in", "§rond(knee)", "formula-syntax", "`rond` is not a function; did you mean `round`?", ""),
        ("knee - 2 in", "'knee - §; 2'", "formula-syntax", "`;` has no place", ""),
        ("fullness: [1.5, 1.5", "fullness: [1.5, 1.5 §!", "formula-syntax", "`!` has no place", ""),
    ]);
}

#[test]
fn names() {
    hold(&[
        ("  drop: knee", "  §size: 3\n  drop: knee", "bad-name", "`size` is a word that formulas use", "another name"),
        ("  drop: knee", "  §side-hem: 3\n  drop: knee", "bad-name", "`side-hem` is not a name", "underscores"),
        ("  drop: knee", "  §knee: 3 in\n  drop: knee", "bad-name", "two things are called `knee`", "another name"),
        ("ease: { waist", "ease: { §wasit", "unknown-name", "`wasit`, which is not measured", "did you mean `waist`?"),
        ("    waist: Round", "    §wrist: Round", "unknown-name", "`wrist` is not measured", "did you mean `waist`?"),
        ("cut: { ticking: 1 }", "cut: { §tickng: 1 }", "unknown-name", "no cloth is called `tickng`", "`ticking`?"),
        ("{ ticking: folded", "{ §tiking: folded", "unknown-name", "no cloth is called `tiking`", "`ticking`?"),
        ("pieces: [panel, band]", "pieces: [panel, §bnad]", "unknown-name", "no piece is called `bnad`", "`band`?"),
        ("id: gather\n", "id: §hems\n", "bad-name", "two steps are called `hems`", "another name"),
    ]);
}

#[test]
fn rings() {
    Apron::new().edit("band_length: waist / 2", "§band_length: drop").edit("knee - 2 in", "band_length").expect(&[(
        "cycle",
        "`band_length` needs `drop` needs `band_length`",
        "break the ring",
    )]);
    hold(&[("drop: knee - 2 in", "§drop: panel.left", "cycle", "`drop` needs `panel` needs `drop`", "break the ring")]);
}

#[test]
fn the_size_table() {
    hold(&[
        (
            "[66, 76, 88]",
            "§[66, 76]",
            "sizes",
            "expected 3 values for `waist`, one for each size, but found 2",
            "one value",
        ),
        ("[1.5, 1.5, 1.4]", "§[1.5, 1.5]", "sizes", "expected 3 values for `fullness`", "single formula"),
        ("[S, M, L]", "[S, M, §M]", "sizes", "size `M` stands twice", "each size once"),
        ("[S, M, L]", "[S, §M/L, L]", "sizes", "`M/L` cannot be the name of a size", "file names"),
        ("[S, M, L]", "§[]", "sizes", "no sizes", "`names: [M]`"),
        ("[58, 60, 62]", "[58, §600, 62]", "absurd", "expected a length of the body, but found `600`", "less than 4 m"),
        ("[58, 60, 62]", "[58, §-60, 62]", "absurd", "", "more than nothing"),
        ("[58, 60, 62]", "[58, §60 kg, 62]", "absurd", "expected a length of the body", ""),
        ("[58, 60, 62]", "[58, §sixty, 62]", "bad-value", "expected a number with a unit", ""),
    ]);
}

#[test]
fn cloths_and_swatches() {
    hold(&[
        ("widths: [45 in]", "widths: [§45 m]", "absurd", "`45 m` is out of bounds", "from 10 cm to 5 m"),
        ("shrinks_along: 4 %", "shrinks_along: §90 %", "absurd", "`90 %` is out of bounds", "at most 40 %"),
        ("weight: 200 g/m2", "weight: §200 g", "wrong-type", "but found a mass", "`280 g/m2`"),
        ("selvage: 1/2 in", "selvage: §2", "wrong-type", "expected a length, but found a bare number", "at most 5 cm"),
        (
            "eased: 7 in",
            "eased: §5 in",
            "swatch",
            "eased out, this swatch is narrower than drawn up tight",
            "which of the two",
        ),
        ("flat: 12 in", "flat: 12 in\n    §tigth: 2 in", "unknown-key", "`tigth`", "did you mean `tight`?"),
    ]);
    let tight = Apron::new().edit("    eased: 7 in\n", "").edit("tight: 6 in", "tight: §13 in");
    tight.expect(&[("swatch", "no narrower than flat", "which of the two")]);
    let small = Apron::new().edit("    eased: 7 in\n", "").edit("flat: 12 in", "flat: §1 in").edit("6 in", "1/2 in");
    small.expect(&[("swatch", "fewer than four pleats", "at least 20 pleats")]);
}

#[test]
fn techniques() {
    hold(&[(
        "technique: gathers",
        "technique: §gather",
        "unknown-name",
        "no technique is called `gather`",
        "`gathers`?",
    )]);
    let entry = "    ratio: fullness\n  lower";
    Apron::new().edit("  front:\n", "  §front:\n").edit(entry, "  lower").expect(&[(
        "missing-key",
        "`gathers` needs `ratio`",
        "flat width over gathered width",
    )]);
    Apron::new().edit("  front:\n    technique: gathers\n", "  §front:\n").expect(&[(
        "missing-key",
        "names no technique",
        "`furbelow reckon`",
    )]);
    for (more, code, message, help) in [
        ("    §tial: 6 in\n", "unknown-key", "`gathers` has no input `tial`", "did you mean `tail`?"),
        ("    §swatch: sample\n", "unknown-key", "`gathers` takes no swatch", ""),
        ("    rows: §[1, 2]\n", "wrong-type", "for `rows`", ""),
    ] {
        Apron::new().edit(entry, &format!("    ratio: fullness\n{more}  lower")).expect(&[(code, message, help)]);
    }
}

/// Titles are printed as they stand: a number written into one would reach the buyer as `{{ waist }}`.
#[test]
fn numbers_have_no_place_in_titles() {
    hold(&[
        ("The Lamplighter's Apron", "The §{{ waist }} Apron", "prose", "printed as it stands", "into prose or a note"),
        ("title: Apron\n", "title: Apron §{{ waist }}\n", "prose", "printed as it stands", ""),
        ("title: Hem the", "title: Hem §{{ waist }} of the", "prose", "printed as it stands", ""),
        ("title: the waist", "title: the §{% if size == \"S\" %}waist", "prose", "printed as it stands", ""),
    ]);
}

#[test]
fn a_step_without_words() {
    let from = "prose: |\n      Turn up {{ hem_depth }} at the bottom and press.\n\n      > Let the seam cool before you move \
                it.\n\n      Sew close to the fold.\n";
    Apron::new().edit(from, "§prose: \"\"\n").expect(&[("bad-value", "this step has no words", "how it is done")]);
}
