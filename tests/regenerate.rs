//! Building again: what is kept between builds never changes what comes out.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

use furbelow::cache::{Folder, Nothing, Store};
use furbelow::fault::{Fault, render_human};
use furbelow::pipeline::{self, Wanted};
use furbelow::set::Paper;
use furbelow::write::{Output, write};

fn case(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/cases").join(name)
}

fn wanted() -> Wanted {
    Wanted { papers: vec![Paper::A4], sizes: Vec::new() }
}

/// The outputs of a build without faults.
fn outputs(garment: &Path, store: &dyn Store) -> Vec<Output> {
    let (source, made) = pipeline::build(garment, &wanted(), store, &|_| {});
    let stops: Vec<String> = made
        .faults
        .iter()
        .filter(|fault| Fault::stops(fault))
        .map(|fault| render_human(fault, &source, false))
        .collect();
    assert!(stops.is_empty(), "{}", stops.join("\n\n"));
    made.outputs
}

/// The files of the cache, by name.
fn entries(cache: &Folder) -> BTreeMap<PathBuf, Vec<u8>> {
    walkdir::WalkDir::new(cache.home())
        .into_iter()
        .filter_map(Result::ok)
        .filter(|entry| entry.file_type().is_file() && entry.depth() == 2)
        .map(|entry| (entry.path().to_path_buf(), fs::read(entry.path()).expect("an entry can be read")))
        .collect()
}

#[test]
fn warm_is_as_cold() {
    let out = tempfile::tempdir().expect("a folder");
    let cache = Folder::beside(out.path());
    let cold = outputs(&case("apron"), &Nothing);
    assert!(cold == outputs(&case("apron"), &cache), "the build that fills the cache");
    let kept = entries(&cache);
    assert!(kept.keys().any(|path| path.parent().is_some_and(|kind| kind.ends_with("layout"))), "layouts are kept");
    assert!(kept.keys().any(|path| path.parent().is_some_and(|kind| kind.ends_with("document"))), "documents are kept");
    assert!(cold == outputs(&case("apron"), &cache), "the build that is served from it");
    assert_eq!(kept, entries(&cache), "a warm build keeps nothing new");

    // Entries torn, turned, swapped and emptied: each is made again, and the outputs stay what they are.
    for (at, (path, bytes)) in kept.iter().enumerate() {
        let mut bad = bytes.clone();
        match at % 4 {
            0 => bad.truncate(bytes.len() / 2),
            1 => bad[bytes.len() / 3] ^= 1,
            2 => bad.clear(),
            _ => bad.clone_from(kept.values().next().expect("an entry")),
        }
        fs::write(path, bad).expect("an entry can be written");
    }
    assert!(cold == outputs(&case("apron"), &cache), "a build over a spoilt cache");
    assert_eq!(kept, entries(&cache), "and the cache is mended");

    fs::remove_dir_all(cache.home()).expect("the cache can be deleted");
    assert!(cold == outputs(&case("apron"), &cache), "a build after the cache was deleted");
}

#[test]
fn writing_again_touches_nothing() {
    let out = tempfile::tempdir().expect("a folder");
    let made = outputs(&case("apron"), &Nothing);
    write(out.path(), "Apron", "1.0.0", &made).expect("it can be written");
    let stamps = |path: &str| fs::metadata(out.path().join(path)).expect("a file").modified().expect("a time stamp");
    let before: Vec<_> = made.iter().map(|output| stamps(&output.path)).collect();
    let done = write(out.path(), "Apron", "1.0.0", &made).expect("it can be written");
    assert_eq!(done.written, Vec::<String>::new());
    assert_eq!(before, made.iter().map(|output| stamps(&output.path)).collect::<Vec<_>>());
}
