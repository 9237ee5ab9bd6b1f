//! Holds the arrows between the folders of `src/` against the table in DEVELOPERS.md.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;

use walkdir::WalkDir;

/// The rows of the table below the heading `## Who may use whom`: folder, and the folders it may use.
fn table(text: &str) -> BTreeMap<String, BTreeSet<String>> {
    let section = text.split("## Who may use whom").nth(1).expect("DEVELOPERS.md has the section `Who may use whom`");
    let section = section.split("\n## ").next().unwrap_or(section);
    let mut rows = BTreeMap::new();
    for line in section.lines().filter(|line| line.starts_with("| `")) {
        let cells: Vec<&str> = line.trim_matches('|').split('|').collect();
        let names =
            |cell: &str| -> BTreeSet<String> { cell.split('`').skip(1).step_by(2).map(ToString::to_string).collect() };
        let folder = names(cells[0]).into_iter().next().expect("the first cell names a folder");
        rows.insert(folder, names(cells[1]));
    }
    rows
}

/// Every `crate::name` a folder's sources use.
fn uses(folder: &Path, name: &str, known: &BTreeSet<String>) -> BTreeSet<String> {
    let mut found = BTreeSet::new();
    for entry in WalkDir::new(folder) {
        let entry = entry.expect("src/ can be read");
        // Unit tests may look anywhere.
        let tests = entry.path().components().any(|part| part.as_os_str() == "tests");
        if tests || entry.path().extension().is_none_or(|ending| ending != "rs") {
            continue;
        }
        let text = fs::read_to_string(entry.path()).expect("sources are text");
        for (at, _) in text.match_indices("crate::") {
            let rest = &text[at + "crate::".len()..];
            let word: String = rest.chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect();
            if word != name && known.contains(&word) {
                found.insert(word);
            }
        }
    }
    found
}

#[test]
fn folders_use_only_what_the_table_allows() {
    let home = Path::new(env!("CARGO_MANIFEST_DIR"));
    let rows = table(&fs::read_to_string(home.join("DEVELOPERS.md")).expect("DEVELOPERS.md is there"));
    let folders: BTreeSet<String> = fs::read_dir(home.join("src"))
        .expect("src/ is there")
        .map(|entry| entry.expect("src/ can be read"))
        .filter(|entry| entry.path().is_dir())
        .map(|entry| entry.file_name().to_string_lossy().into_owned())
        .collect();
    let listed: BTreeSet<String> = rows.keys().cloned().collect();
    assert_eq!(folders, listed, "the folders of src/ and the rows of the table in DEVELOPERS.md");
    let mut wrong = Vec::new();
    for folder in &folders {
        let allowed = &rows[folder];
        for used in uses(&home.join("src").join(folder), folder, &folders) {
            if !allowed.contains(&used) {
                wrong.push(format!("src/{folder} uses src/{used}, which the table does not allow"));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn the_table_has_no_rings() {
    let home = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut rows = table(&fs::read_to_string(home.join("DEVELOPERS.md")).expect("DEVELOPERS.md is there"));
    while !rows.is_empty() {
        let free: Vec<String> = rows
            .iter()
            .filter(|(_, uses)| uses.iter().all(|used| !rows.contains_key(used)))
            .map(|(name, _)| name.clone())
            .collect();
        assert!(!free.is_empty(), "these folders use each other in a ring: {:?}", rows.keys().collect::<Vec<_>>());
        for name in free {
            rows.remove(&name);
        }
    }
}
