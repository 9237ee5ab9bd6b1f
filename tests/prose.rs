//! The words of a step: one template, nine sizes, one text.

use std::collections::BTreeMap;

use furbelow::fault::{Code, Fault, Place, Route};
use furbelow::prose::{Block, Cell, Numbers, Refs, Rendered, Run, Setting, Shown, Template, Words, names_used, render};
use furbelow::units::{Length, Quantity, Show, Systems};
use proptest::prelude::*;

struct Size(BTreeMap<String, Shown>);

impl Numbers for Size {
    fn get(&self, name: &str) -> Option<Shown> {
        self.0.get(name).cloned()
    }
    fn known(&self) -> Vec<String> {
        self.0.keys().cloned().collect()
    }
}

fn shown(quantity: impl Into<Quantity>, show: Show, label: &str) -> Shown {
    Shown { quantity: quantity.into(), show, label: label.to_string() }
}

const TABLE: [&str; 9] = ["6", "8", "10", "12", "14", "16", "18", "20", "22"];

/// Waist differs everywhere, panels twice, hooks three times, the hem never.
fn size(index: usize) -> Size {
    let step = |from: usize| if index >= from { 1.0 } else { 0.0 };
    #[allow(clippy::cast_precision_loss)]
    let waist = Length::inches(24.0 + 1.5 * index as f64);
    Size(BTreeMap::from(
        [
            ("waist", shown(waist, Show::LENGTH, "waist")),
            ("skirt.drawn", shown(waist / 2.0, Show::FINE, "drawn-up half")),
            ("panels", shown(Quantity::number(3.0 + step(5)), Show::COUNT, "panels")),
            ("hooks.count", shown(Quantity::number(4.0 + step(3) + step(6)), Show::COUNT, "hooks")),
            ("hem", shown(Length::inches(2.0), Show::LENGTH, "hem")),
            ("skirt.ratio", shown(Quantity::number(6.0), Show::RATIO, "ratio")),
            ("odd", shown(Quantity::number(5.0), Show::COUNT, "odd")),
        ]
        .map(|(name, shown)| (name.to_string(), shown)),
    ))
}

fn refs() -> Refs {
    let set = |names: &[&str]| names.iter().map(ToString::to_string).collect();
    Refs {
        steps: set(&["hem_first", "pleat"]),
        figures: set(&["grid"]),
        pieces: set(&["skirt_panel"]),
        sections: set(&["swatch"]),
        terms: set(&["selvedge", "cartridge pleat"]),
    }
}

fn try_render(text: &str, sizes: &[usize], systems: Systems) -> Result<Rendered, Vec<Fault>> {
    let template = Template::read(Route::top().key("steps").index(0).key("prose"), text)?;
    let all: Vec<(&str, Size)> = sizes.iter().map(|&index| (TABLE[index], size(index))).collect();
    let all: Vec<(&str, &dyn Numbers)> = all.iter().map(|(name, size)| (*name, size as &dyn Numbers)).collect();
    let table = TABLE.map(String::from);
    render(&template, &all, &Setting { table: &table, systems, refs: &refs(), words: &Words::english() })
}

fn nine(text: &str) -> Vec<Block> {
    try_render(text, &[0, 1, 2, 3, 4, 5, 6, 7, 8], Systems::ImperialFirst)
        .unwrap_or_else(|faults| panic!("{text}: {faults:#?}"))
        .blocks
}

/// Blocks as a reader sees them, in plain characters.
fn read(blocks: &[Block]) -> String {
    let runs = |runs: &[Run]| {
        runs.iter()
            .map(|run| match run {
                Run::Text { text, strong: true, .. } => format!("<b>{text}</b>"),
                Run::Text { text, emph: true, .. } => format!("<i>{text}</i>"),
                Run::Text { text, .. } => text.clone(),
                Run::Value { text, strong, .. } => format!("{{{}{text}}}", if *strong { "!" } else { "" }),
                Run::Mark { letter } => format!("({letter})"),
                Run::Ref { target, id, text } => format!("[{target:?} {id} {text}]"),
            })
            .collect::<String>()
            .replace('\u{a0}', " ")
    };
    let lines: Vec<String> = blocks
        .iter()
        .map(|block| match block {
            Block::Paragraph { runs: line } => runs(line),
            Block::Note { runs: line } => format!("> {}", runs(line)),
            Block::List { ordered, items } => items
                .iter()
                .map(|item| format!("{} {}", if *ordered { "1." } else { "-" }, runs(item)))
                .collect::<Vec<_>>()
                .join("\n"),
            Block::Strip { sizes, rows } => rows
                .iter()
                .map(|row| {
                    let cells: Vec<String> =
                        row.cells.iter().map(|cell| format!("{}/{}", cell.first, cell.second)).collect();
                    let mark = row.mark.clone().unwrap_or_default();
                    let units = format!("{}/{}", row.unit_first, row.unit_second);
                    format!("| {mark} {} {units} {}: {}", row.label, sizes.join(" "), cells.join(" "))
                })
                .collect::<Vec<_>>()
                .join("\n"),
            Block::Sizes { words, blocks, .. } => format!("{}: {{\n{}\n}}", words.replace('\u{a0}', " "), read(blocks)),
        })
        .collect();
    lines.join("\n")
}

#[test]
fn equal_numbers_stand_in_the_sentence() {
    assert_eq!(read(&nine("Turn up {{ hem }} and press.")), "Turn up {2 in (5.1 cm)} and press.");
}

#[test]
fn two_or_three_values_name_their_sizes() {
    assert_eq!(
        read(&nine("Join {{ panels }} panels.\n\nSew on {{ hooks.count | spell }} hooks.")),
        "Join {3} (sizes 6 to 14) or {4} (sizes 16 to 22) panels.\n\
         Sew on {four} (sizes 6 to 10), {five} (sizes 12 to 16) or {six} (sizes 18 to 22) hooks."
    );
    let three = try_render("Draw up to {{ waist }}.", &[0, 1, 4], Systems::ImperialFirst).unwrap();
    assert_eq!(
        read(&three.blocks),
        "Draw up to {24 in (61.0 cm)} for size 6, {25½ in (64.8 cm)} for size 8, or {30 in (76.2 cm)} for size 14."
    );
}

#[test]
fn more_values_go_into_a_strip() {
    let blocks = nine(
        "Stop at {{ skirt.drawn }}: **half** your {{ waist | label(\"waist seam\") }}.\n\nAgain {{ skirt.drawn }}.",
    );
    insta::assert_snapshot!(read(&blocks), @r"
    Stop at (A): <b>half</b> your (B).
    | A drawn-up half in/cm 6 8 10 12 14 16 18 20 22: 12/30.5 12¾/32.4 13½/34.3 14¼/36.2 15/38.1 15¾/40.0 16½/41.9 17¼/43.8 18/45.7
    | B waist seam in/cm 6 8 10 12 14 16 18 20 22: 24/61.0 25½/64.8 27/68.6 28½/72.4 30/76.2 31½/80.0 33/83.8 34½/87.6 36/91.4
    Again (A).
    ");
    let Some(Block::Strip { sizes, rows }) = blocks.get(1) else { panic!("no strip") };
    assert_eq!((sizes.len(), rows[0].cells[0].clone()), (9, Cell::new("12", "30.5")));
}

#[test]
fn a_single_size_has_its_own_numbers_only() {
    let text = "Stop at {{ skirt.drawn }}, {{ panels | spell }} panels.{% if waist > \"30 in\" %} Twice.{% endif %}";
    for index in 0..9 {
        let one = try_render(text, &[index], Systems::MetricFirst).unwrap();
        let [Block::Paragraph { runs }] = one.blocks.as_slice() else { panic!("{:?}", one.blocks) };
        assert!(runs.iter().all(|run| matches!(run, Run::Text { .. } | Run::Value { .. })));
        assert_eq!(one.printed.len(), 2);
    }
    let one = try_render(text, &[2], Systems::MetricFirst).unwrap();
    assert_eq!(read(&one.blocks), "Stop at {34.3 cm (13½ in)}, {three} panels.");
    let only = try_render(text, &[2], Systems::MetricOnly).unwrap();
    assert_eq!(read(&only.blocks), "Stop at {34.3 cm}, {three} panels.");
}

#[test]
fn wording_that_differs_is_split_by_size() {
    let text = "Join the panels.\n\n{% if waist > \"29 in\" %}\nSew two rows {{ skirt.drawn }} long.\n\nPress.\n{% else %}\nSew one row.\n{% endif %}\n\nTurn over.";
    insta::assert_snapshot!(read(&nine(text)), @r"
    Join the panels.
    Sizes 6 to 12: {
    Sew one row.
    }
    Sizes 14 to 22: {
    Sew two rows (A) long.
    | A drawn-up half in/cm 14 16 18 20 22: 15/38.1 15¾/40.0 16½/41.9 17¼/43.8 18/45.7
    Press.
    }
    Turn over.
    ");
    let text =
        "{% if size in ['6', '12'] or panels == 4 %}One.{% elif not hooks.count < 5 %}Two.{% else %}Three.{% endif %}";
    assert_eq!(
        read(&nine(text)),
        "Sizes 6, 12 and 16 to 22: {\nOne.\n}\nSizes 8 and 10: {\nThree.\n}\nSize 14: {\nTwo.\n}"
    );
}

#[test]
fn crowded_sentences_use_the_strip() {
    let blocks = nine("{{ panels }}, {{ hooks.count }}, {{ panels | half | ratio }}: {{ hem }}");
    assert_eq!(
        read(&blocks).lines().next(),
        Some("(A), (B), (C): {2 in (5.1 cm)}"),
        "three places with their sizes are too many for one sentence"
    );
    let items =
        nine("- {{ panels }} cut\n- {{ panels }} sewn\n- {{ panels }} pressed, {{ waist | label(\"maker's own\") }}");
    insta::assert_snapshot!(read(&items), @r"
    - {3} (sizes 6 to 14) or {4} (sizes 16 to 22) cut
    - {3} (sizes 6 to 14) or {4} (sizes 16 to 22) sewn
    - {3} (sizes 6 to 14) or {4} (sizes 16 to 22) pressed, (A)
    | A maker’s own in/cm 6 8 10 12 14 16 18 20 22: 24/61.0 25½/64.8 27/68.6 28½/72.4 30/76.2 31½/80.0 33/83.8 34½/87.6 36/91.4
    ");
}

#[test]
fn a_bare_sign_parts_two_notes() {
    assert_eq!(read(&nine("> One.\n> More.\n>\n> Two.\n\n> Three.")), "> One. More.\n> Two.\n> Three.");
}

#[test]
fn markup_makes_blocks() {
    let text = "A **bold {{ hem }}** and *soft* word,\ncarried on. 5 * 3 \\*star\\* [see] `#let` $x$ <b>.\n- one\n- two\n  more\n\n- three\n\n1. first\n2. second\n> If it *puckers*,\n> press again.\n\nSee [step: hem_first], [page: swatch | My own swatch], [term: Selvedge], [piece: skirt_panel] and [figure: grid].";
    insta::assert_snapshot!(read(&nine(text)), @r"
    A <b>bold </b>{!2 in (5.1 cm)} and <i>soft</i> word, carried on. 5 * 3 *star* [see] `#let` $x$ <b>.
    - one
    - two more
    - three
    1. first
    1. second
    > If it <i>puckers</i>, press again.
    See [Step hem_first ], [Page swatch My own swatch], [Term selvedge Selvedge], [Piece skirt_panel ] and [Figure grid ].
    ");
}

#[test]
fn spelled_counts_begin_a_sentence_with_a_capital() {
    let one = try_render(
        "{{ panels | spell }} panels. {{ panels | spell }} seams of {{ panels | spell }}.",
        &[0],
        Systems::default(),
    )
    .unwrap();
    assert_eq!(read(&one.blocks), "{Three} panels. {Three} seams of {three}.");
}

#[test]
fn what_the_json_looks_like() {
    let json = serde_json::to_string(&nine("Fold **{{ hem }}**.\n\n> Mind {{ waist }}, [step: pleat].")[..2].to_vec())
        .unwrap();
    assert_eq!(
        json.replace('\u{a0}', " "),
        r#"[{"kind":"paragraph","runs":[{"kind":"text","text":"Fold ","strong":false,"emph":false},{"kind":"value","text":"2 in (5.1 cm)","strong":true,"emph":false},{"kind":"text","text":".","strong":false,"emph":false}]},{"kind":"note","runs":[{"kind":"text","text":"Mind ","strong":false,"emph":false},{"kind":"mark","letter":"A"},{"kind":"text","text":", ","strong":false,"emph":false},{"kind":"ref","target":"step","id":"pleat","text":""},{"kind":"text","text":".","strong":false,"emph":false}]}]"#
    );
}

#[test]
fn every_printed_number_is_recorded() {
    let rendered = try_render(
        "{{ hem | half | sixteenths }}{% if waist > \"25 in\" %} {{ waist }}{% endif %}",
        &[0, 1],
        Systems::ImperialFirst,
    )
    .unwrap();
    let seen: Vec<(&str, &str, &str, &str)> = rendered
        .printed
        .iter()
        .map(|number| (number.size.as_str(), number.name.as_str(), number.filters.as_str(), number.text.as_str()))
        .collect();
    assert_eq!(
        seen,
        [
            ("6", "hem", "half | sixteenths", "1\u{a0}in (2.5\u{a0}cm)"),
            ("8", "hem", "half | sixteenths", "1\u{a0}in (2.5\u{a0}cm)"),
            ("8", "waist", "", "25½\u{a0}in (64.8\u{a0}cm)"),
        ]
    );
}

#[test]
fn faults_say_what_where_and_how_to_mend_it() {
    for (text, code, marked, message, help) in [
        ("Draw {{ wasit }}", Code::UnknownName, "wasit", "unknown name `wasit`", "did you mean `waist`?"),
        ("{{ skirt.drwan }} up", Code::UnknownName, "skirt.drwan", "unknown name", "`skirt.drawn`"),
        ("{{ odd | half }}", Code::Prose, "{{ odd | half }}", "a count must be whole", "`numbers`"),
        ("a\n\n{{ panels | yards }}", Code::Prose, "{{ panels | yards }}", "`yards` takes a length", "filter"),
        (
            "{% if waist > 90 %}a{% endif %}",
            Code::Prose,
            "waist > 90",
            "cannot compare a length with a bare number",
            "\"80 cm\"",
        ),
        ("{% if size == '7' %}a{% endif %}", Code::UnknownName, "'7'", "no size `7`", "did you mean"),
        ("{{ waist - 2 }}", Code::Prose, "-", "prose does not reckon", "`my_number: waist - 2`"),
        ("{{ hem }} is **bold", Code::Prose, "**", "`**` is never closed", "\\*"),
        ("{{ hem }}\n\nan *odd\n\none", Code::Prose, "*", "`*` is never closed", "before the paragraph"),
        ("see [step: hem_frist]", Code::UnknownName, "[step: hem_frist]", "no step `hem_frist`", "`hem_first`"),
        ("see [setp: hem_first]", Code::Prose, "[setp: hem_first]", "no reference", "`step`"),
        ("see [step: hem_first", Code::Prose, "[step:", "never closed", "`]`"),
        ("see [step: {{ hem }}]", Code::Prose, "[step: {{ hem }}]", "cannot hold a number", "id itself"),
    ] {
        let faults = try_render(text, &[0, 1, 2], Systems::default()).expect_err(text);
        assert_eq!(faults.len(), 1, "{text}: {faults:#?}");
        let fault = &faults[0];
        let Place::Within(route, at) = &fault.place else { panic!("{text}: {:?}", fault.place) };
        assert_eq!(
            (fault.code, &text[at.clone()], route.to_string().as_str()),
            (code, marked, "steps[0].prose"),
            "{text}"
        );
        assert!(fault.message.contains(message), "{text}: {}", fault.message);
        assert!(fault.help.as_deref().unwrap_or_default().contains(help), "{text}: {:?}", fault.help);
    }
}

#[test]
fn too_much_work_is_refused() {
    let faults = try_render(&"{{hem}}".repeat(4600), &[0], Systems::default()).unwrap_err();
    assert_eq!(faults[0].code, Code::TooMuch);
    let faults = try_render(&"word\n\n".repeat(300), &[0], Systems::default()).unwrap_err();
    assert_eq!(faults[0].code, Code::TooMuch);
}

#[test]
fn an_edition_of_some_sizes_keeps_the_order_of_the_table() {
    let some = try_render("{{ panels }}.", &[1, 2, 3, 6], Systems::default()).unwrap();
    assert_eq!(read(&some.blocks), "{3} (sizes 8 to 12) or {4} (size 18).");
    assert!(some.line().is_some());
}

#[test]
fn names_are_found_without_numbers() {
    assert_eq!(names_used("{{ a.b | half }} {% if c > 3 %}{{ d }}{% endif %}"), ["a.b", "c", "d"]);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    /// Any text at all is refused or rendered, never more.
    #[test]
    fn any_text_is_taken_or_refused(text in "([a-z *\\[\\]:>.\\-\\\\\n{}%|#\"']|\\{\\{ hem \\}\\}|\\{% if waist > 3 %\\}|\\{% endif %\\}|\\[step: pleat\\]|é|\u{e000}){0,60}") {
        let _ = try_render(&text, &[0, 3], Systems::default());
        let _ = names_used(&text);
    }

    /// Faults lie within the text, on borders of characters.
    #[test]
    fn faults_lie_within_the_text(text in "([a-zé *\\[\n>]|\\{\\{ (hem|hme) \\}\\}|\\[step: (pleat|plaet)\\]|\\{\\{|\\*\\*){0,40}") {
        if let Err(faults) = try_render(&text, &[0, 3, 5], Systems::default()) {
            for fault in faults {
                if let Place::Within(_, at) = fault.place {
                    prop_assert!(text.get(at.clone()).is_some(), "{at:?} in {text:?}");
                }
            }
        }
    }

    /// Plain words come out as they went in.
    #[test]
    fn plain_words_stand(words_in in proptest::collection::vec("[a-zA-Zäß$#@_`~^&=+,;!?()]{1,9}", 1..30)) {
        let text = words_in.join(" ");
        prop_assert_eq!(read(&nine(&text)), text);
    }

    /// Whatever the numbers, each size's own text is what its single-size edition has: for every size the
    /// numbers of the merged text are those of its own.
    #[test]
    fn merged_numbers_are_each_sizes_own(
        sizes in proptest::sample::subsequence((0..9).collect::<Vec<usize>>(), 1..=9),
        parts in proptest::collection::vec(prop_oneof![
            Just("Cut {{ waist }}."), Just("Sew {{ panels }} and {{ hem }}."), Just("{% if waist > \"28 in\" %}Fold {{ skirt.drawn }}.{% endif %}"),
            Just("> Mind {{ hooks.count | spell }}."), Just("- {{ panels }}\n- {{ waist | half }}"), Just("Plain."),
        ], 1..8),
    ) {
        let text = parts.join("\n\n");
        let merged = try_render(&text, &sizes, Systems::ImperialFirst).unwrap();
        for &index in &sizes {
            let own = try_render(&text, &[index], Systems::ImperialFirst).unwrap();
            let of_size = merged.printed.iter().filter(|number| number.size == TABLE[index]);
            prop_assert!(of_size.eq(own.printed.iter()));
            // Blocks of other sizes left out, the size has as many paragraphs, notes and lists as on its own.
            prop_assert_eq!(count(&merged.blocks, TABLE[index]), count(&own.blocks, TABLE[index]));
            for number in &own.printed {
                prop_assert!(holds(&merged.blocks, number), "{number:?} in {}", read(&merged.blocks));
            }
        }
    }
}

fn count(blocks: &[Block], size: &str) -> usize {
    blocks
        .iter()
        .map(|block| match block {
            Block::Strip { .. } => 0,
            Block::Sizes { sizes, blocks, .. } => {
                if sizes.iter().any(|name| name == size) {
                    count(blocks, size)
                } else {
                    0
                }
            }
            _ => 1,
        })
        .sum()
}

/// Whether a number stands somewhere a reader of its size would look: in a sentence or in her column.
fn holds(blocks: &[Block], number: &furbelow::prose::PrintedNumber) -> bool {
    let text = number.text.to_lowercase();
    let in_runs = |runs: &[Run]| {
        runs.iter().any(|run| matches!(run, Run::Value { text: found, .. } if found.to_lowercase() == text))
    };
    blocks.iter().any(|block| match block {
        Block::Paragraph { runs } | Block::Note { runs } => in_runs(runs),
        Block::List { items, .. } => items.iter().any(|item| in_runs(item)),
        Block::Strip { sizes, rows } => sizes.iter().position(|name| *name == number.size).is_some_and(|column| {
            rows.iter().any(|row| {
                let cell = &row.cells[column];
                let (first, second) = (&cell.first, &cell.second);
                let with = |text: &str, unit: &str| {
                    if unit.is_empty() { text.to_string() } else { format!("{text}\u{a0}{unit}") }
                };
                let whole = if second.is_empty() {
                    with(first, &row.unit_first)
                } else {
                    format!("{} ({})", with(first, &row.unit_first), with(second, &row.unit_second))
                };
                whole == number.text
            })
        }),
        Block::Sizes { sizes, blocks, .. } => sizes.contains(&number.size) && holds(blocks, number),
    })
}
