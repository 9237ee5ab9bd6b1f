//! Faults of the files themselves: what is not there, not text, or not inside the folder.

use std::fs;

use super::apron::{Apron, Found};

/// The cautions of the apron, to be put into a file of their own.
fn parted() -> (Apron, String) {
    let text = Apron::new().text();
    let (front, cautions) = text.split_once("cautions:\n").expect("cautions");
    (Apron::of(format!("{front}cautions: parts/cautions.yaml\n")), cautions.to_string())
}

#[test]
fn a_part_may_stand_in_a_file_of_its_own() {
    let (apron, cautions) = parted();
    assert_eq!(apron.file("parts/cautions.yaml", cautions).check().seen(), []);
}

/// A fault in a part names the part's file, and line and column there.
#[test]
fn a_fault_in_a_part_is_shown_in_the_part() {
    let (apron, cautions) = parted();
    let found = apron.file("parts/cautions.yaml", cautions.replace("burns", "burns at {{ heat }}")).check();
    let seen = found.one();
    assert_eq!((seen.file.as_str(), seen.line, seen.column), ("parts/cautions.yaml", 2, 31), "\n{}", found.shown());
    assert!(seen.message.contains("`heat`"));
}

#[test]
fn parts_that_cannot_be_read() {
    let part = |name: &str| {
        let text = Apron::new().text();
        let (front, _) = text.split_once("cautions:\n").expect("cautions");
        Apron::of(format!("{front}cautions: §{name}\n"))
    };
    part("none.yaml").expect(&[("file", "none.yaml`: it is not there", "check the name")]);
    part("../none.yaml").expect(&[("file", "`../none.yaml` leads outside the garment's folder", "inside its folder")]);
    part("/etc/hostname.yaml").expect(&[("file", "leads outside the garment's folder", "inside its folder")]);
    part("a/../../b.yml").expect(&[("file", "leads outside the garment's folder", "inside its folder")]);
    part("parts.yaml").file("parts.yaml/x", "").expect(&[("file", "is not a file", "name a file")]);
    let long = "x".repeat(4 * 1024 * 1024 + 1);
    part("long.yaml").file("long.yaml", long).expect(&[("too-much", "larger than 4 MiB", "")]);
}

#[cfg(unix)]
#[test]
fn a_link_that_leads_outside() {
    let (apron, cautions) = parted();
    let home = apron.write();
    fs::write(home.path().join("outside.yaml"), cautions).unwrap();
    let parts = home.path().join("apron/parts");
    fs::create_dir_all(&parts).unwrap();
    std::os::unix::fs::symlink("../../outside.yaml", parts.join("cautions.yaml")).unwrap();
    let found = Found::check(home);
    let seen = found.one();
    assert_eq!(seen.code, "file");
    assert!(seen.message.contains("a link that leads outside"), "{}", found.shown());
    assert_eq!(seen.file, "garment.yaml");
}

/// A part is named once only: it does not name further files.
#[test]
fn a_part_does_not_read_itself() {
    let (apron, _) = parted();
    let found = apron.file("parts/cautions.yaml", "parts/cautions.yaml\n").check();
    let seen = found.one();
    assert_eq!((seen.code, seen.file.as_str()), ("wrong-type", "parts/cautions.yaml"), "\n{}", found.shown());
}

#[test]
fn no_folder_and_no_file() {
    let home = tempfile::tempdir().unwrap();
    let found = Found::check(home);
    let seen = found.one();
    assert!(seen.message.contains("expected a garment folder"), "{}", found.shown());
    assert!(seen.help.contains("garment.yaml"));
    let home = tempfile::tempdir().unwrap();
    fs::create_dir(home.path().join("apron")).unwrap();
    let found = Found::check(home);
    assert!(found.one().message.contains("garment.yaml`: it is not there"), "{}", found.shown());
}

/// The place is the first byte that is no text: an `é` of Latin 1, ISO 8859-1 position E9.
#[test]
fn text_that_is_not_utf8() {
    let text = Apron::new().text();
    let at = text.find("Wick in").expect("a word of the apron");
    let mut bytes = text.clone().into_bytes();
    bytes[at] = 0xe9;
    let home = tempfile::tempdir().unwrap();
    let folder = home.path().join("apron");
    fs::create_dir_all(&folder).unwrap();
    fs::write(folder.join("garment.yaml"), bytes).unwrap();
    let found = Found::check(home);
    let seen = found.one();
    assert!(seen.message.contains("not UTF-8") && seen.help.contains("UTF-8"), "{}", found.shown());
    assert_eq!(seen.line, text[..at].matches('\n').count() + 1);
    assert_eq!(seen.column, text[..at].rsplit('\n').next().unwrap().chars().count() + 1);
}

#[test]
fn characters_that_are_no_words() {
    for c in ['\u{7}', '\u{0}', '\u{e000}', '\u{f0000}'] {
        let to = format!("title: striped §{c}cotton");
        let code = format!("U+{:04X}", u32::from(c));
        Apron::new().edit("title: striped cotton", &to).expect(&[("file", &code, "remove it")]);
    }
}

/// A byte order mark and line ends of Windows change nothing: not the numbers, not the places.
#[test]
fn other_editors() {
    let good = Apron::new().check();
    let numbers = |found: &Found| serde_json::to_string(&found.build).unwrap();
    for (mark, ends) in [("\u{feff}", "\n"), ("", "\r\n"), ("\u{feff}", "\r\n")] {
        let text = format!("{mark}{}", Apron::new().text().replace('\n', ends));
        let found = Apron::of(text).check();
        assert_eq!(found.seen(), [], "{}", found.shown());
        assert_eq!(numbers(&found), numbers(&good));
        for (from, to) in [("{{ band_length }}", "{{ §nope }}"), ("knee - 2 in", "knee - §nope")] {
            let apron = Apron::new().edit(from, to);
            let place = apron.check().one();
            let found = Apron::of(format!("{mark}{}", apron.text().replace('\n', ends))).check();
            assert_eq!(found.one(), place, "\n{}", found.shown());
        }
    }
}
