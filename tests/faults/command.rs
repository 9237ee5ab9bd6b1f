//! The command itself: exit codes, what it prints, and what it leaves on the disk.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use std::process::{Command, Output};
use std::time::SystemTime;

use serde_json::Value;
use tempfile::TempDir;
use walkdir::WalkDir;

use super::apron::Apron;

fn furbelow(home: &Path, args: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_furbelow")).current_dir(home).args(args).output().expect("the command runs")
}

/// Exit code, standard output, standard error.
fn said(home: &TempDir, args: &[&str]) -> (i32, String, String) {
    let output = furbelow(home.path(), args);
    let text = |bytes: Vec<u8>| String::from_utf8(bytes).expect("UTF-8");
    (output.status.code().expect("an exit code"), text(output.stdout), text(output.stderr))
}

fn table(args: &[&str]) -> (i32, String, String) {
    said(&tempfile::tempdir().unwrap(), args)
}

/// 0 fine, 1 faults in a garment or out of reach, 2 the command was not understood.
#[test]
fn exit_codes() {
    let good = Apron::new().write();
    Apron::new().edit("role: lining", "role: linning").write_into(&good.path().join("bad"));
    Apron::new().edit(", lawn: 1 }", " }").write_into(&good.path().join("warned"));
    fs::create_dir(good.path().join("empty")).unwrap();
    for (args, code) in [
        (&["check", "apron"][..], 0),
        (&["check", "apron/garment.yaml"], 0),
        (&["check", "warned"], 0),
        (&["check", "bad"], 1),
        (&["check", "apron", "bad"], 1),
        (&["check", "."], 1),
        (&["check", "nowhere"], 1),
        (&["check", "empty"], 2),
        (&["check"], 2),
        (&["chek", "apron"], 2),
        (&["build", "bad"], 1),
        (&["build", "apron", "--paper", "a3"], 2),
        (&["build", "apron", "--size", "XL"], 1),
        (&["why", "apron", "front.flat"], 0),
        (&["why", "apron", "front.flt"], 2),
        (&["why", "apron", "front.flat", "--size", "XL"], 2),
        (&["why", "bad", "front.flat"], 1),
        (&["explain"], 0),
        (&["explain", "cycle"], 0),
        (&["explain", "cyle"], 2),
        (&["reckon"], 0),
        (&["reckon", "gathers"], 0),
        (&["reckon", "gathers", "--manual"], 0),
        (&["reckon", "gather"], 2),
        (&["reckon", "gathers", "seam=70cm"], 2),
        (&["reckon", "gathers", "seam=70", "ratio=2"], 2),
        (&["reckon", "gathers", "seam", "ratio=2"], 2),
        (&["reckon", "gathers", "seem=70cm", "ratio=2"], 2),
        (&["--help"], 0),
        (&["--version"], 0),
        (&[], 2),
    ] {
        let (found, out, err) = said(&good, args);
        assert_eq!(found, code, "{args:?}\n{out}\n{err}");
        assert!(!out.contains("panicked") && !err.contains("panicked"), "{args:?}\n{err}");
        assert!(code == 0 || !err.is_empty(), "{args:?} fails without a word");
    }
    for name in ["apron", "bad"] {
        let made = fs::read_dir(good.path().join("out").join(name)).map_or(0, Iterator::count);
        assert_eq!(made, 0, "nothing was built of {name}");
    }
}

#[test]
fn faults_go_to_standard_error_with_their_place() {
    let home = Apron::new().edit("role: lining", "role: linning").write();
    let (_, out, err) = said(&home, &["check", "apron"]);
    assert_eq!(out, "");
    assert!(err.contains("apron/garment.yaml:38:11") && err.contains("1 fault, 0 warnings"), "{err}");
    let (_, out, err) = said(&home, &["build", "apron"]);
    assert_eq!(out, "");
    assert!(err.contains("nothing was written; earlier output is as it was"), "{err}");
}

#[test]
fn faults_as_json() {
    let home = Apron::new().edit("role: lining", "role: linning").write();
    let (code, out, err) = said(&home, &["check", "apron", "--json"]);
    assert_eq!((code, err.as_str()), (1, ""));
    let reports: Value = serde_json::from_str(&out).expect("JSON");
    assert_eq!(reports[0]["garment"], "apron");
    let fault = &reports[0]["faults"][0];
    for (key, value) in [
        ("code", Value::from("bad-value")),
        ("severity", Value::from("fault")),
        ("file", Value::from("apron/garment.yaml")),
        ("line", Value::from(38)),
        ("column", Value::from(11)),
        ("help", Value::from("did you mean `lining`?")),
    ] {
        assert_eq!(fault[key], value, "{key}");
    }
    let (code, out, _) = said(&Apron::new().write(), &["check", "apron", "--json"]);
    let reports: Value = serde_json::from_str(&out).expect("JSON");
    assert_eq!((code, &reports[0]["faults"]), (0, &Value::Array(Vec::new())));
}

type Stamps = BTreeMap<String, (SystemTime, Vec<u8>)>;

fn stamps(folder: &Path) -> Stamps {
    WalkDir::new(folder)
        .into_iter()
        .map(Result::unwrap)
        .filter(|entry| entry.file_type().is_file())
        .map(|entry| {
            let name = entry.path().strip_prefix(folder).unwrap().display().to_string();
            (name, (entry.metadata().unwrap().modified().unwrap(), fs::read(entry.path()).unwrap()))
        })
        .collect()
}

fn paths(report: &Value, key: &str) -> Vec<String> {
    let list = report[0][key].as_array().expect(key);
    list.iter().map(|path| path.as_str().expect("a path").to_string()).collect()
}

const BUILD: [&str; 7] = ["build", "apron", "--paper", "a4", "--size", "S", "--json"];

/// One garment through its life: built, built again, changed, broken, mended, and cut down.
#[test]
fn building_writes_what_changed_and_nothing_else() {
    let home = Apron::new().write();
    let out = home.path().join("out/apron");
    let build = || {
        let (code, text, err) = said(&home, &BUILD);
        assert_eq!(err, "", "--json keeps silent");
        (code, serde_json::from_str::<Value>(&text).expect("JSON"))
    };
    let (code, report) = build();
    assert_eq!(code, 0, "{report:#}");
    assert_eq!(report[0]["out"], "out/apron");
    let first = stamps(&out);
    let written = paths(&report, "written");
    assert!(paths(&report, "unchanged").is_empty() && paths(&report, "removed").is_empty());
    for path in ["booklet-all-a4.pdf", "booklet-size-s-a4.pdf", "build.json", "geometry/l.dxf"] {
        assert!(written.iter().any(|other| other == path), "{path} of {written:?}");
    }
    assert!(!written.iter().any(|path| path.contains("size-m-a4") || path.contains("letter")), "{written:?}");
    assert_eq!(first.len(), written.len() + 1, "the outputs and the manifest");
    let manifest: Value = serde_json::from_slice(&first["manifest.json"].1).expect("JSON");
    assert_eq!(manifest["title"], "The Lamplighter's Apron");
    assert_eq!(manifest["files"].as_array().map(Vec::len), Some(written.len()));

    // The same again: no file is touched.
    let (code, report) = build();
    assert_eq!(code, 0);
    assert!(paths(&report, "written").is_empty(), "{report:#}");
    assert_eq!(stamps(&out), first);

    // One word changed: the booklets are new, the geometry and the numbers keep their time stamps.
    let changed = Apron::new().edit("Sew close to the fold.", "Sew near the fold.");
    changed.write_into(&home.path().join("apron"));
    let (code, report) = build();
    assert_eq!(code, 0);
    let written = paths(&report, "written");
    assert_eq!(written, ["booklet-all-a4.pdf", "booklet-size-s-a4.pdf", "build.json", "pages.json"]);
    let second = stamps(&out);
    for (name, file) in &second {
        let kept = first[name].0 == file.0;
        assert_eq!(kept, !written.contains(name) && name != "manifest.json", "{name}");
    }

    // Broken: nothing is written, and what was there stays.
    Apron::new().edit("role: lining", "role: linning").write_into(&home.path().join("apron"));
    let (code, report) = build();
    assert_eq!(code, 1);
    assert_eq!(report[0]["faults"][0]["code"], "bad-value");
    assert!(paths(&report, "written").is_empty());
    assert_eq!(stamps(&out), second);

    // A size that is not there: the same.
    changed.write_into(&home.path().join("apron"));
    let (code, _, err) = said(&home, &["build", "apron", "--paper", "a4", "--size", "XL"]);
    assert_eq!(code, 1);
    assert!(err.contains("there is no size `XL`") && err.contains("sizes are S, M, L"), "{err}");
    assert_eq!(stamps(&out), second);
}

/// The printed answer: a line that begins with the label ends with the value.
fn answers(out: &str, label: &str, value: &str) {
    let line = out.lines().find(|line| line.trim().starts_with(label)).unwrap_or_else(|| panic!("{label} in\n{out}"));
    assert!(line.trim().trim_start_matches(label).trim() == value, "expected {value}, but found {line}");
}

/// A swatch of 12 in drawn up to 2 in with stitches of 1/4 in has 24 pleats, each 1/12 in of seam. Four yards of cloth
/// give 288 of them; tight they measure 24 in, so on a seam of 26 in they are eased by 2 / 24. Common practice, no
/// source; the arithmetic is in this comment.
#[test]
fn cartridge_pleats_at_the_table() {
    let swatch = ["swatch_flat=12in", "swatch_tight=2in", "swatch_stitch=1/4in"];
    let ask = |more: &[&str]| table(&[&["reckon", "cartridge-pleats"], &swatch[..], more].concat());
    let (code, out, err) = ask(&["seam=26in", "available=4yd"]);
    assert_eq!((code, err.as_str()), (0, ""));
    answers(&out, "most pleats the seam can hold", "312");
    answers(&out, "pleats the cloth gives", "288");
    answers(&out, "easing over tight", "8.3 %");
    answers(&out, "ratio", "5.54 : 1");
    let (code, out, _) = ask(&["seam=26in", "available=4yd", "--json"]);
    let answer: Value = serde_json::from_str(&out).expect("JSON");
    assert_eq!((code, &answer["technique"]), (0, &Value::from("cartridge-pleats")));
    let easing = answer["results"]["easing"]["value"].as_f64().expect("a number");
    assert!((easing - 2.0 / 24.0).abs() < 1e-9, "{easing}");
    // Half the seam: 144 pleats have room, and the way back is named.
    let (code, out, _) = ask(&["seam=12in", "available=4yd"]);
    assert_eq!(code, 1);
    assert!(out.contains("Out of reach") && out.contains("288 pleats still measure 24 in"), "{out}");
    assert!(out.contains("available = 72 in"), "{out}");
}

#[test]
fn gathers_at_the_table() {
    // 1.5 times 70 cm.
    let (code, out, _) = table(&["reckon", "gathers", "seam=70cm", "ratio=1.5", "--metric"]);
    assert_eq!(code, 0);
    answers(&out, "flat width  ", "105.0 cm (41 3/8 in)");
    let (_, out, _) = table(&["reckon", "gathers", "seam=70cm", "ratio=1.5"]);
    answers(&out, "flat width  ", "41 3/8 in (105.0 cm)");
    let (_, _, err) = table(&["reckon", "gathers", "seem=70cm", "ratio=2"]);
    assert!(err.contains("did you mean `seam`?"), "{err}");
    let (_, _, err) = table(&["reckon", "gathers", "seam=70cm"]);
    assert!(err.contains("`ratio`: this input is missing"), "{err}");
    let (_, out, _) = table(&["reckon"]);
    assert!(out.contains("gathers") && out.contains("cartridge-pleats"), "{out}");
}

/// Size M: a body of 76 cm and 2 cm of ease, half of it the band, 1.5 times as much cloth: 58.5 cm.
#[test]
fn why_goes_back_to_body_and_ease() {
    let home = Apron::new().write();
    let (code, out, _) = said(&home, &["why", "apron", "front.flat", "--size", "M"]);
    assert_eq!(code, 0);
    for words in ["front.flat = 23 in (58.5 cm)", "waist / 2", "body + ease", "body.waist = 29 7/8 in (76.0 cm)"] {
        assert!(out.contains(words), "{words} in\n{out}");
    }
    assert!(!out.contains("Size S"));
    let (_, out, _) = said(&home, &["why", "apron", "front.flat", "--json"]);
    let answers: Value = serde_json::from_str(&out).expect("JSON");
    let sizes: Vec<&str> = answers.as_array().unwrap().iter().filter_map(|answer| answer["size"].as_str()).collect();
    assert_eq!(sizes, ["S", "M", "L"]);
    assert_eq!(answers[1]["reasons"][0]["name"], "front.flat");
    let (_, _, err) = said(&home, &["why", "apron", "front.flt"]);
    assert!(err.contains("did you mean `front.flat`?"), "{err}");
}

#[test]
fn explain_knows_every_code() {
    let (_, out, _) = table(&["explain"]);
    for code in furbelow::fault::ALL_CODES {
        assert!(out.lines().any(|line| line.starts_with(code.name())), "{}", code.name());
        let (exit, page, _) = table(&["explain", code.name()]);
        assert!(exit == 0 && page.lines().count() >= 3, "{page}");
    }
}
