//! The catalogues of fixed words, held against those who use them.

use std::collections::BTreeSet;
use std::path::Path;

use furbelow::words::{Word, catalogue, languages};
use walkdir::WalkDir;

/// The text of every template.
fn templates() -> String {
    let home = Path::new(env!("CARGO_MANIFEST_DIR")).join("templates");
    WalkDir::new(home)
        .into_iter()
        .map(|entry| entry.expect("templates/ can be read"))
        .filter(|entry| entry.path().extension().is_some_and(|ending| ending == "typ"))
        .map(|entry| std::fs::read_to_string(entry.path()).expect("templates are text"))
        .collect()
}

#[test]
fn every_word_is_used_and_every_word_used_is_there() {
    let text = templates();
    let words = catalogue("en").expect("English is complete");
    let rust: BTreeSet<&str> = Word::ALL.iter().map(|word| word.key()).collect();
    // Keys put together in the templates: the name of a chapter or of a kind of reference behind these.
    let made = ["chapter-", "ref-"];
    let unused: Vec<&String> = words
        .words
        .keys()
        .filter(|key| !rust.contains(key.as_str()))
        .filter(|key| !text.contains(&format!("\"{key}\"")) && !made.iter().any(|start| key.starts_with(start)))
        .collect();
    assert!(unused.is_empty(), "nobody uses {unused:?}");
    let asked: BTreeSet<&str> = text
        .split("w(\"")
        .skip(1)
        .filter_map(|rest| rest.split('"').next())
        .filter(|key| !key.ends_with('-'))
        .collect();
    let missing: Vec<&&str> = asked.iter().filter(|key| !words.words.contains_key(**key)).collect();
    assert!(missing.is_empty(), "no words for {missing:?}");
    assert!(asked.len() > 20, "the templates ask for their words by `w(\"...\")`");
}

#[test]
fn every_language_says_every_word() {
    for language in languages() {
        let words = catalogue(language).unwrap_or_else(|faults| panic!("{language}: {faults:#?}"));
        for word in Word::ALL {
            assert!(!words.say(*word).trim().is_empty(), "{language}: {}", word.key());
        }
    }
}
