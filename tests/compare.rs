//! What changed between two editions: golden cases of single edits.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use furbelow::cache::Nothing;
use furbelow::compare::{Comparison, Side, compare, text};
use furbelow::fault::render_human;
use furbelow::pipeline::{self, NoSide, Wanted};
use furbelow::set::Paper;

/// The apron with a piped band, so that there is something to rip out.
fn piped() -> String {
    let case = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/cases/apron/garment.yaml");
    let text = fs::read_to_string(case).expect("the case");
    let piping = "  piping:\n    technique: piping\n    cord: cord\n    allowance: allow\n    seams: [band_length]\n";
    text.replace("  allow: 1/2 in\n", "  allow: 1/2 in\n  cord: 1/4 in\n")
        .replace("  lower_hem:\n", &format!("{piping}  lower_hem:\n"))
        .replace("Cotton burns.", "Cotton burns. The cord takes {{ piping.strip }}.")
}

fn folder(home: &Path, name: &str, text: &str) -> PathBuf {
    let folder = home.join(name);
    fs::create_dir_all(&folder).expect("a folder");
    fs::write(folder.join("garment.yaml"), text).expect("a file");
    folder
}

fn side(path: &Path, papers: &[Paper]) -> Side {
    let wanted = Wanted { papers: papers.to_vec(), sizes: Vec::new(), sheets: Some(Vec::new()) };
    match pipeline::side(&path.display().to_string(), &wanted, &Nothing, &|_| {}) {
        Ok(side) => side,
        Err(NoSide::Words(words)) => panic!("{words}"),
        Err(NoSide::Faults(source, faults)) => {
            let faults: Vec<String> = faults.iter().map(|fault| render_human(fault, source.as_ref(), false)).collect();
            panic!("{}", faults.join("\n"))
        }
    }
}

/// The apron against itself with some words replaced.
fn edited(edits: &[(&str, &str)], papers: &[Paper]) -> (Comparison, Side) {
    let home = tempfile::tempdir().expect("a folder");
    let first = piped();
    let mut second = first.clone();
    for (from, to) in edits {
        assert_eq!(second.matches(from).count(), 1, "`{from}` stands once");
        second = second.replace(from, to);
    }
    let old = side(&folder(home.path(), "old", &first), papers);
    let new = side(&folder(home.path(), "new", &second), papers);
    (compare(&old, &new), new)
}

fn words(comparison: &Comparison, side: &Side) -> String {
    text(comparison, side.account.systems)
}

#[test]
fn nothing_changed() {
    let (comparison, side) = edited(&[], &[Paper::A4]);
    assert!(comparison.is_empty());
    insta::assert_snapshot!(words(&comparison, &side), @r"
    The Lamplighter's Apron, both edition 1.0.0

    Nothing changed.
    ");
}

/// One word: no number, no piece, no cloth; one page of every booklet, and no other document.
#[test]
fn only_prose_changed() {
    let edit = [("Let the seam cool before you move it.", "Let it cool before you move it.")];
    let (comparison, side) = edited(&edit, &[Paper::A4]);
    assert!(!comparison.numbers_changed());
    assert_eq!(comparison.raise_to.as_deref(), Some("1.1.0"));
    let documents = comparison.documents.as_ref().expect("documents of both");
    assert!(documents.iter().all(|document| document.print.as_ref().is_some_and(|pages| pages.len() == 1)));
    insta::assert_snapshot!(words(&comparison, &side));
}

#[test]
fn a_single_size_changed() {
    let edits = [("waist: [66, 76, 88]", "waist: [66, 76, 90]"), ("edition: 1.0.0", "edition: 2.0.0")];
    let (comparison, side) = edited(&edits, &[]);
    assert_eq!(comparison.raise_to, None);
    for number in &comparison.numbers {
        assert!(number.sizes.iter().all(|size| size.size == "L"), "{} changed in other sizes too", number.name);
    }
    for piece in &comparison.pieces {
        assert!(piece.moved.iter().all(|(size, _)| size == "L"), "{}", piece.name);
    }
    // The band is half the waist plus ease: 2 cm more round the waist make it 1 cm longer, half of it at each end, or all of it
    // at one.
    let band = comparison.pieces.iter().find(|piece| piece.name == "band").expect("the band moved");
    let moved = band.moved[0].1.to_mm();
    assert!((moved - 5.0).abs() < 0.01, "{moved}");
    insta::assert_snapshot!(words(&comparison, &side));
}

/// The piping is ripped out: its numbers are gone, each with the reason.
#[test]
fn something_ripped_out() {
    let entry = "  piping:\n    technique: piping\n    cord: cord\n    allowance: allow\n    seams: [band_length]\n";
    let edits = [(entry, ""), ("  cord: 1/4 in\n", ""), (" The cord takes {{ piping.strip }}.", "")];
    let (comparison, side) = edited(&edits, &[]);
    assert_eq!(comparison.raise_to.as_deref(), Some("2.0.0"));
    insta::assert_snapshot!(words(&comparison, &side));
}

/// The cord is ripped out and the piping made flat: what follows says so.
#[test]
fn the_cord_ripped_out() {
    let edits = [("    cord: cord\n", "    reveal: 1/8 in\n"), ("  cord: 1/4 in\n", "")];
    let (comparison, side) = edited(&edits, &[]);
    let strip = comparison.numbers.iter().find(|number| number.name == "piping.strip").expect("the strip");
    assert!(strip.why.contains("`piping.cord`") || strip.why.contains("`cord` was removed"), "{}", strip.why);
    insta::assert_snapshot!(words(&comparison, &side));
}

/// The page for buyers is one page, clean, and the same twice.
#[test]
fn the_page_for_buyers() {
    let edits = [
        ("waist: [66, 76, 88]", "waist: [67, 78, 90]"),
        ("hem_depth: 2 in", "hem_depth: 3 in"),
        ("edition: 1.0.0", "edition: 2.0.0\nchanges: [{ edition: 2.0.0, words: \"A deeper hem, and more room.\" }]"),
        ("Turn up {{ hem_depth }}", "Turn the hem up {{ hem_depth }}"),
    ];
    let (comparison, side) = edited(&edits, &[]);
    for paper in Paper::ALL {
        let set = || pipeline::what_changed(&comparison, &side, paper).expect("a page");
        let document = set();
        assert_eq!(document.pages, 1);
        assert!(document.lints.is_empty(), "{:?}", document.lints);
        assert!(document.pdf == set().pdf);
    }
}

/// A revision in git, read without touching the repository; the summary of a build; and words that name neither.
#[test]
fn the_sides_that_can_be_named() {
    let home = tempfile::tempdir().expect("a folder");
    let git = |args: &[&str]| {
        let identity = ["-c", "user.name=A Maker", "-c", "user.email=maker@example.org"];
        let done = Command::new("git").current_dir(home.path()).args(identity).args(args).output();
        assert!(done.expect("git runs").status.success(), "{args:?}");
    };
    let first = piped();
    folder(home.path(), "patterns/apron", &first);
    git(&["init", "--quiet"]);
    git(&["add", "."]);
    git(&["commit", "--quiet", "-m", "first"]);
    git(&["tag", "v1.0.0"]);
    folder(home.path(), "patterns/apron", &first.replace("hem_depth: 2 in", "hem_depth: 3 in"));
    let furbelow = |args: &[&str]| {
        let mut command = Command::new(env!("CARGO_BIN_EXE_furbelow"));
        let done = command.current_dir(home.path()).args(args).output().expect("the program runs");
        let text = String::from_utf8_lossy(&done.stdout).into_owned() + &String::from_utf8_lossy(&done.stderr);
        (done.status.code(), text)
    };
    let (code, by_git) = furbelow(&["compare", "v1.0.0:patterns/apron", "patterns/apron", "--numbers-only"]);
    assert_eq!(code, Some(0), "{by_git}");
    assert!(by_git.contains("went from 2 in (5.1 cm) to 3 in (7.6 cm)"), "{by_git}");
    git(&["diff", "--cached", "--quiet"]);

    git(&["worktree", "add", "--quiet", "old", "v1.0.0"]);
    for (garment, out) in [("old/patterns/apron", "before"), ("patterns/apron", "after")] {
        let (code, said) = furbelow(&["build", garment, "--out", out, "--paper", "a4", "--quiet"]);
        assert_eq!(code, Some(0), "{said}");
    }
    let (_, by_summary) = furbelow(&["compare", "before/apron/build.json", "after/apron"]);
    let numbers =
        |text: &str| text.split("\nPages\n").next().map(|text| text.split("\nPDFs").next().map(str::to_string));
    assert_eq!(
        numbers(&by_git).flatten().map(|text| text.trim().to_string()),
        numbers(&by_summary).flatten().map(|text| text.trim().to_string())
    );
    assert!(by_summary.contains("booklet-all-a4.pdf: print again"), "{by_summary}");

    for (named, says) in [
        ("nowhere", "is not there"),
        ("v9.9.9:patterns/apron", "git does not know"),
        ("v1.0.0:../..", "git"),
        ("--output=x:patterns", "unexpected argument"),
    ] {
        let (code, said) = furbelow(&["compare", named, "patterns/apron", "--numbers-only"]);
        assert_eq!(code, Some(2), "{named}: {said}");
        assert!(said.contains(says), "{named}: {said}");
    }
}
