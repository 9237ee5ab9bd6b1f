//! Building again: what is kept between builds never changes what comes out.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::time::SystemTime;

use furbelow::cache::{Folder, Nothing, Store};
use furbelow::fault::{Fault, render_human};
use furbelow::pipeline::{self, Wanted};
use furbelow::set::Paper;
use furbelow::sheet::Format;
use furbelow::write::{Output, Written};

fn case(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/cases").join(name)
}

fn wanted() -> Wanted {
    Wanted { papers: vec![Paper::A4], sizes: Vec::new(), sheets: Some(vec![Format::Projector]) }
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

/// Files below a folder by path, with bytes and time stamps, the cache left out.
fn files(folder: &Path) -> BTreeMap<String, (Vec<u8>, SystemTime)> {
    walkdir::WalkDir::new(folder)
        .into_iter()
        .filter_entry(|entry| entry.file_name() != ".cache")
        .filter_map(Result::ok)
        .filter(|entry| entry.file_type().is_file())
        .map(|entry| {
            let path = entry.path().strip_prefix(folder).expect("below").to_string_lossy().into_owned();
            let stamp = entry.metadata().expect("a file").modified().expect("a time stamp");
            (path, (fs::read(entry.path()).expect("a file"), stamp))
        })
        .collect()
}

fn rebuilt(garment: &Path, out: &Path, store: &dyn Store) -> Written {
    let (source, rebuilt) = pipeline::rebuild(garment, &wanted(), out, store, &|_| {});
    let stops: Vec<String> =
        rebuilt.faults.iter().filter(|fault| fault.stops()).map(|fault| render_human(fault, &source, false)).collect();
    assert!(stops.is_empty(), "{}", stops.join("\n\n"));
    rebuilt.written
}

/// One edit: what is replaced by what, and what the files that do not depend on it begin with.
const EDITS: [(&str, &str, &[&str]); 9] = [
    (
        "Let the seam cool before you move it.",
        "Let it cool before you move it.",
        &["geometry/", "cutting-chart", "layouts", "sheets/"],
    ),
    (
        "title: Hem the sides, then the bottom",
        "title: Hem the sides and the bottom",
        &["geometry/", "cutting-chart", "layouts", "sheets/"],
    ),
    ("note: One of ticking to show", "note: One of the ticking to show", &["geometry/panel"]),
    (
        "fullness: [1.5, 1.5, 1.4]",
        "fullness: [1.5, 1.5, 1.45]",
        &["geometry/s.", "geometry/m.", "geometry/panel-s", "geometry/band-"],
    ),
    ("hem_depth: 2 in", "hem_depth: 2 1/4 in", &["geometry/band-"]),
    ("shrinks_along: 4 %", "shrinks_along: 5 %", &["geometry/", "cutting-chart"]),
    ("edition: 1.0.0", "edition: 1.1.0", &["geometry/"]),
    ("names: [S, M, L]", "names: [S, M, XL]", &["geometry/s.", "geometry/m.", "geometry/panel-s", "geometry/panel-m"]),
    ("accent: \"#2f5d62\"", "accent: \"#5d2f62\"", &["geometry/", "sheets/"]),
];

/// For every single edit the rebuilt folder is a cold build's byte for byte, and what does not depend on the edit kept its
/// bytes and its time stamp.
#[test]
fn every_single_edit() {
    let home = tempfile::tempdir().expect("a folder");
    let garment = home.path().join("apron");
    fs::create_dir(&garment).expect("a folder");
    let first = fs::read_to_string(case("apron").join("garment.yaml")).expect("the case");
    let out = home.path().join("out");
    let cache = Folder::beside(&out);
    for (from, to, apart) in EDITS {
        fs::write(garment.join("garment.yaml"), &first).expect("a file");
        rebuilt(&garment, &out, &cache);
        let before = files(&out);
        assert_eq!(first.matches(from).count(), 1, "`{from}` stands once");
        fs::write(garment.join("garment.yaml"), first.replace(from, to)).expect("a file");
        let written = rebuilt(&garment, &out, &cache);
        let after = files(&out);
        let cold = tempfile::tempdir().expect("a folder");
        rebuilt(&garment, cold.path(), &Nothing);
        let bytes = |files: &BTreeMap<String, (Vec<u8>, SystemTime)>| -> BTreeMap<String, Vec<u8>> {
            files.iter().map(|(path, (bytes, _))| (path.clone(), bytes.clone())).collect()
        };
        assert!(bytes(&after) == bytes(&files(cold.path())), "`{to}`: rebuilt and cold differ");
        assert!(!written.written.is_empty(), "`{to}` changes something");
        for (path, (bytes, stamp)) in &after {
            match before.get(path) {
                Some((old, was)) if old == bytes => {
                    assert_eq!(was, stamp, "`{to}` touched {path}, which did not change")
                }
                _ => assert!(
                    !apart.iter().any(|start| path.starts_with(&format!("apron/{start}"))),
                    "`{to}` changed {path}, which does not depend on it"
                ),
            }
        }
    }
}

/// A build with nothing changed writes nothing, and notices an output that someone changed, cut or deleted.
#[test]
fn outputs_that_were_changed_are_made_right() {
    let home = tempfile::tempdir().expect("a folder");
    let cache = Folder::beside(home.path());
    rebuilt(&case("apron"), home.path(), &cache);
    let first = files(home.path());
    let again = rebuilt(&case("apron"), home.path(), &cache);
    assert_eq!((again.written.len(), again.removed.len()), (0, 0));
    assert_eq!(again.unchanged.len() + 1, first.len(), "all but the manifest");
    assert!(first == files(home.path()));
    let book = home.path().join("apron/booklet-all-a4.pdf");
    for spoil in 0..4 {
        let mut bytes = first["apron/booklet-all-a4.pdf"].0.clone();
        match spoil {
            0 => fs::remove_file(&book).expect("it is there"),
            1 => {
                bytes[1000] ^= 1;
                fs::write(&book, bytes).expect("a file");
            }
            2 => fs::write(&book, &bytes[..2000]).expect("a file"),
            _ => fs::remove_file(home.path().join("apron/manifest.json")).expect("it is there"),
        }
        let mended = rebuilt(&case("apron"), home.path(), &cache);
        assert!(spoil == 3 || mended.written == ["booklet-all-a4.pdf"], "{spoil}: {:?}", mended.written);
        let bytes = |files: BTreeMap<String, (Vec<u8>, SystemTime)>| -> Vec<(String, Vec<u8>)> {
            files.into_iter().map(|(path, (bytes, _))| (path, bytes)).collect()
        };
        assert!(bytes(files(home.path())) == bytes(first.clone()), "{spoil}");
    }
}
