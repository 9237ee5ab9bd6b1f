//! What helps a maker begin: the first garment builds as it stands, and the schema is the one the tool makes.

use std::fs;
use std::path::Path;

use furbelow::pipeline;
use furbelow::teach::{SCHEMA_FILE, editor_schema, starter};

/// Set to write the file instead of comparing.
const UPDATE: &str = "FURBELOW_UPDATE_MANUAL";

#[test]
fn the_first_garment_is_green() {
    let home = tempfile::tempdir().expect("a folder");
    let folder = home.path().join("millers-apron");
    fs::create_dir(&folder).expect("a folder");
    for (name, text) in starter(&folder.display().to_string()).files {
        fs::write(folder.join(name), text).expect("a file");
    }
    let (_, checked) = pipeline::check(&folder);
    let words: Vec<String> = checked.faults.iter().map(|fault| fault.message.clone()).collect();
    assert!(words.is_empty(), "{words:?}");
    let build = checked.build.expect("all sizes worked out");
    assert_eq!(build.title, "Millers apron");
    // The waist seam of the middle size, gathered 1.6 into 0.6 of a waist of 78 + 2 cm.
    let sized = &build.sizes[1];
    let top = sized.names.0["gathers.flat"].quantity.value;
    assert!((top - 1.6 * 0.6 * 800.0).abs() < 3.2, "{top} mm");
}

#[test]
fn the_schema_in_the_repository_is_current() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("templates").join(SCHEMA_FILE);
    let made = serde_json::to_string_pretty(&editor_schema()).expect("JSON") + "\n";
    if std::env::var_os(UPDATE).is_some() {
        fs::write(&path, &made).expect("templates/ can be written");
    }
    let kept = fs::read_to_string(&path).expect("the schema is there");
    assert!(made == kept, "{SCHEMA_FILE} is stale: run `{UPDATE}=1 cargo test --test teach` and look at the change");
}

#[test]
fn every_garment_names_the_schema_in_its_first_line() {
    let patterns = Path::new(env!("CARGO_MANIFEST_DIR")).join("patterns");
    for folder in pipeline::find(&[patterns]).expect("patterns/ holds garments") {
        let text = fs::read_to_string(folder.join("garment.yaml")).expect("a garment file");
        let first = text.lines().next().unwrap_or_default();
        let named = first.strip_prefix("# yaml-language-server: $schema=").unwrap_or_default();
        assert!(!named.is_empty() && fs::exists(folder.join(named)).unwrap_or(false), "{}: {first}", folder.display());
    }
}
