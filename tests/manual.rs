//! The manual in the repository is the one the tool makes.

use std::fs;
use std::path::Path;

use furbelow::reckon::{TECHNIQUES, manual};

/// Set to write the file instead of comparing.
const UPDATE: &str = "FURBELOW_UPDATE_MANUAL";

#[test]
fn the_manual_is_current() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("templates/manual.md");
    let made = manual::whole();
    if std::env::var_os(UPDATE).is_some() {
        fs::write(&path, &made).expect("templates/ can be written");
    }
    let kept = fs::read_to_string(&path).expect("templates/manual.md is there");
    assert!(
        made == kept,
        "templates/manual.md is stale: run `{UPDATE}=1 cargo test --test manual` and look at the change"
    );
}

#[test]
fn every_technique_has_its_page() {
    let made = manual::whole();
    for technique in TECHNIQUES {
        assert!(made.contains(&format!("`{}`", technique.name)), "{} is missing", technique.name);
        for input in technique.inputs {
            assert!(
                manual::page(technique).contains(&format!("`{}`", input.name)),
                "{}: {}",
                technique.name,
                input.name
            );
        }
    }
}
