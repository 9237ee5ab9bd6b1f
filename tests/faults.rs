//! Broken garment files: each with the place, the words and the remedy a maker is shown.
//!
//! The table rows change the apron of `cases/apron`, which has no fault. `§` in the changed text stands where the
//! fault must be; line and column are counted from it, not taken from the tool.

#[path = "faults/apron.rs"]
mod apron;
#[path = "faults/command.rs"]
mod command;
#[path = "faults/drawings.rs"]
mod drawings;
#[path = "faults/files.rs"]
mod files;
#[path = "faults/hostile.rs"]
mod hostile;
#[path = "faults/later.rs"]
mod later;
#[path = "faults/written.rs"]
mod written;

use apron::Apron;
use furbelow::fault::render_human;

#[test]
fn the_apron_itself_has_no_fault() {
    let found = Apron::new().check();
    assert_eq!(found.seen(), [], "{}", found.shown());
    assert_eq!(found.build.map(|build| build.sizes.len()), Some(3));
}

/// The whole look of a fault, as a maker sees it.
#[test]
fn the_look_of_a_fault() {
    let found = Apron::new().edit("role: lining", "role: linning").check();
    let look = found.shown().replace(&found.folder(), "apron");
    let expected = "\
fault[bad-value]: expected one of `outer`, `under`, `lining`, `interlining`, `trim` for `role`, but found the text `linning`
  --> apron/garment.yaml:38:11
   |
38 |     role: linning
   |           ^^^^^^^
   |
   = help: did you mean `lining`?";
    assert_eq!(look.lines().map(str::trim_end).collect::<Vec<_>>().join("\n"), expected);
}

#[test]
fn a_second_place_is_shown_with_its_word() {
    let found = Apron::new().edit("edition: 1.0.0", "edition: 1.0.0\nedition: 2.0.0").check();
    let look = found.shown();
    assert!(look.contains("first here") && look.contains("2 | edition: 1.0.0"), "{look}");
}

#[test]
fn colours_are_only_signs_around_the_same_words() {
    let found = Apron::new().edit("role: lining", "role: linning").check();
    let plain = render_human(&found.faults[0], &found.source, false);
    let coloured = render_human(&found.faults[0], &found.source, true);
    assert_ne!(plain, coloured);
    let mut bare = String::new();
    let mut rest = coloured.as_str();
    while let Some(at) = rest.find("\u{1b}[") {
        bare.push_str(&rest[..at]);
        rest = rest[at..].split_once('m').map_or("", |(_, rest)| rest);
    }
    bare.push_str(rest);
    assert_eq!(bare, plain);
}

/// What is wrong in the structure does not hide what is wrong in names, formulas and techniques.
#[test]
fn several_faults_are_reported_in_one_run() {
    let found = Apron::new()
        .edit("accent:", "§acent:")
        .edit("role: lining", "role: §linning")
        .edit("waist: [66, 76, 88]", "waist: §[66, 76]")
        .edit("band_length: waist / 2", "band_length: waist / §/ 2")
        .edit("technique: gathers", "technique: §gather")
        .edit("pieces: [panel, band]", "pieces: [panel, §bnad]");
    found.expect(&[
        ("unknown-key", "no key `acent`", "`accent`"),
        ("sizes", "expected 3 values for `waist`", "one value a size"),
        ("bad-value", "found the text `linning`", "`lining`"),
        ("formula-syntax", "expected a number or a name, but found `/`", ""),
        ("unknown-name", "no technique is called `gather`", "`gathers`"),
        ("unknown-name", "no piece is called `bnad`", "`band`"),
    ]);
}

/// What is worked out later is reported together too: prose, figures and seams.
#[test]
fn several_faults_of_the_later_stages_are_reported_in_one_run() {
    let found = Apron::new()
        .edit("bottom: hemmed }", "}")
        .edit("\n  panel:\n", "\n  §panel:\n")
        .edit("kind: hem,", "kind: §hemm,")
        .edit("**gathers**", "§**gathers")
        .edit("Cotton burns.", "Cotton burns at {{ §heat }}.");
    found.expect(&[
        ("loose-edge", "nobody sews the edge `bottom` of `panel`", "`bottom: hemmed`"),
        ("figure", "no figure of the kind `hemm`", "`hem`"),
        ("prose", "`**` is never closed", "close it"),
        ("unknown-name", "unknown name `heat`", "known here"),
    ]);
}

#[test]
fn warnings_do_not_stop() {
    let found = Apron::new().edit(", lawn: 1 }", " }").edit("  lawn:", "  §lawn:");
    found.expect_warnings(&[("advice", "nothing is cut of `lawn`", "take it off the list")]);
    let found = Apron::new().edit(", lawn: 1 }", " }").check();
    assert!(found.build.is_some() && found.faults.iter().all(|fault| !fault.stops()));
}

/// The words of a technique's advice: one row of gathering stitches twists.
#[test]
fn advice_is_a_warning_at_its_entry() {
    let found = Apron::new().edit("    ratio: fullness\n  lower", "    ratio: fullness\n    rows: 1\n  lower");
    found.edit("  front:\n", "  §front:\n").expect_warnings(&[("advice", "one row twists", "")]);
}
