//! Pattern sheets, from the files a build makes. The lengths on them are read back by `outside/sheets.py`.

use std::fs;
use std::path::{Path, PathBuf};

use furbelow::cache::Nothing;
use furbelow::pipeline::{self, Made, Wanted};
use furbelow::sheet::Format;
use lopdf::{Document, Object};

/// The pieces of the drafting case as a garment of three sizes, with a `sheets` part of its own.
fn garment(sheets: &str) -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    let yaml = format!(
        "title: Apron and strap
edition: 1.2.0
summary: For the tests.
terms: None.
sizes: {{ unit: cm, names: [S, M, L], measurements: {{ waist: [60, 70, 80] }} }}
cloths: {{ linen: {{ title: linen, role: outer, widths: [60 in] }} }}
pieces:
  bib:
    title: Bib
    cut: {{ linen: 1 on fold }}
    fold: middle
    points:
      a: {{ x: 0 cm, y: 0 cm }}
      b: {{ x: waist / 4, y: 0 cm }}
      c: {{ x: waist / 4 + 6 cm, y: 30 cm }}
      d: {{ x: 0 cm, y: 30 cm }}
      m: {{ x: waist / 4 + 1 cm, y: 14 cm }}
    edges:
      top: {{ line: [a, b] }}
      side: {{ curve: [b, m, c] }}
      bottom: {{ line: [c, d] }}
      middle: {{ line: [d, a] }}
    allowance: 1 cm
    finish: {{ top: hemmed, side: bound, bottom: sewn }}
    notches: [{{ edge: side, share: 0.5 }}]
  panel:
    title: Panel
    cut: {{ linen: 2 }}
    shape: {{ kind: panel, width: waist, height: 70 cm }}
    allowance: 1 cm
    finish: {{ top: sewn, right: hemmed, bottom: hemmed, left: hemmed }}
steps: [{{ title: Sew it, why: It must be sewn., prose: Sew it. }}]
{sheets}
"
    );
    fs::write(folder.path().join("garment.yaml"), yaml).unwrap();
    folder
}

fn build(folder: &Path, formats: &[Format]) -> Made {
    let wanted = Wanted { papers: Vec::new(), sizes: Vec::new(), sheets: Some(formats.to_vec()) };
    pipeline::build(folder, &wanted, &Nothing, &|_| ()).1
}

fn made(sheets: &str, formats: &[Format]) -> Vec<(String, Document)> {
    let folder = garment(sheets);
    let made = build(folder.path(), formats);
    assert!(made.faults.iter().all(|fault| !fault.stops()), "{:?}", made.faults);
    let sheets = made.outputs.iter().filter(|output| output.path.starts_with("sheets-"));
    sheets.map(|output| (output.path.clone(), Document::load_mem(&output.bytes).unwrap())).collect()
}

fn text(document: &Document) -> String {
    let pages: Vec<u32> = document.get_pages().keys().copied().collect();
    document.extract_text(&pages).unwrap().split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Every width and height in points, as written. Read: ISO 216 and US letter; 1 in is 72 pt.
fn boxes(document: &Document) -> Vec<(f32, f32)> {
    let pages = document.get_pages();
    let size = |id| {
        let corners = document.get_dictionary(id).unwrap().get(b"MediaBox").unwrap().as_array().unwrap();
        (corners[2].as_float().unwrap(), corners[3].as_float().unwrap())
    };
    pages.into_values().map(size).collect()
}

#[test]
fn every_format_by_default() {
    let files = made("", &Format::ALL);
    let names: Vec<&str> = files.iter().map(|(name, _)| name.as_str()).collect();
    let nested = ["a0", "a4", "letter", "projector", "roll"].map(|format| format!("sheets-all-{format}.pdf"));
    let single = ["l", "m", "s"].map(|size| ["a4", "letter"].map(|format| format!("sheets-size-{size}-{format}.pdf")));
    let wanted: Vec<String> = nested.into_iter().chain(single.into_iter().flatten()).collect();
    assert_eq!(names, wanted);
    for (name, document) in &files {
        for (width, height) in boxes(document) {
            let near = |mm: (f32, f32)| {
                (width - mm.0 * 72.0 / 25.4).abs() < 1e-3 && (height - mm.1 * 72.0 / 25.4).abs() < 1e-3
            };
            match name.rsplit('-').next().unwrap() {
                "a4.pdf" => assert!(near((210.0, 297.0)), "{name}: {width} {height}"),
                "letter.pdf" => assert_eq!((width, height), (612.0, 792.0), "{name}"),
                "a0.pdf" => assert!(near((841.0, 1189.0)), "{name}: {width} {height}"),
                "roll.pdf" => assert!((width - 36.0 * 72.0).abs() < 1e-3 && height <= 14400.0, "{name}"),
                _ => assert!((width - 60.0 * 72.0).abs() < 1e-3 && height <= 14400.0, "{name}"),
            }
        }
    }
}

#[test]
fn words_can_be_searched() {
    let files = made("", &[Format::A4]);
    for (name, document) in &files {
        let text = text(document);
        for words in [
            "Print this page first",
            "Where the sheets go",
            "1 Bib",
            "linen: cut 1 on fold",
            "edition 1.2.0",
            "place on the fold",
            "grain",
        ] {
            assert!(text.contains(words), "{name} lacks `{words}`:\n{text}");
        }
        // The panel is a plain rectangle: it is named where the chart is, and drawn nowhere.
        assert!(text.contains("Not on the sheets, to save paper: 2 Panel"), "{name}:\n{text}");
    }
}

#[test]
fn nested_sizes_are_layers() {
    let files = made("", &[Format::A4]);
    for (name, document) in &files {
        let catalog = document.catalog().unwrap();
        if name != "sheets-all-a4.pdf" {
            assert!(catalog.get(b"OCProperties").is_err(), "{name}");
            continue;
        }
        let properties = catalog.get(b"OCProperties").unwrap().as_dict().unwrap();
        let groups = properties.get(b"OCGs").unwrap().as_array().unwrap();
        let names: Vec<String> = groups
            .iter()
            .map(|group| {
                let group = document.get_dictionary(group.as_reference().unwrap()).unwrap();
                String::from_utf8_lossy(group.get(b"Name").unwrap().as_str().unwrap()).into_owned()
            })
            .collect();
        assert_eq!(names, ["size S", "size M", "size L"]);
        // Of the bib, the top and the fold are the same line as far as the smaller one reaches: shown with any of its sizes.
        let shared = document.objects.values().filter(|object| {
            matches!(object, Object::Dictionary(dict) if dict.get(b"Type").and_then(Object::as_name).is_ok_and(|name| name == b"OCMD"))
        });
        assert!(shared.count() > 0);
        assert!(text(document).contains("all sizes"));
    }
}

#[test]
fn the_maker_picks() {
    let files = made("sheets: { one_size: [], nested: [letter], pieces: { panel: sheet, bib: chart } }", &Format::ALL);
    assert_eq!(files.len(), 1);
    assert_eq!(files[0].0, "sheets-all-letter.pdf");
    let text = text(&files[0].1);
    assert!(text.contains("2 Panel") && text.contains("to save paper: 1 Bib"), "{text}");
}

#[test]
fn the_same_bytes_again() {
    let folder = garment("");
    let bytes = |made: Made| made.outputs.into_iter().map(|output| output.bytes).collect::<Vec<_>>();
    assert_eq!(bytes(build(folder.path(), &[Format::Letter])), bytes(build(folder.path(), &[Format::Letter])));
}

#[test]
fn a_roll_has_an_end() {
    let folder = garment("sheets: { pieces: { panel: sheet } }");
    let path: PathBuf = folder.path().join("garment.yaml");
    let text = fs::read_to_string(&path).unwrap().replace("height: 70 cm", "height: 5.2 m");
    fs::write(&path, text).unwrap();
    let made = build(folder.path(), &[Format::Roll]);
    let fault = made.faults.iter().find(|fault| fault.code.name() == "sheet").expect("a fault");
    assert!(fault.message.starts_with("expected at most 200 in (508 cm) of length"), "{}", fault.message);
    assert!(fault.help.iter().any(|help| help.contains("chart")), "{fault:?}");
    assert!(fault.help.as_deref().is_some_and(|help| help.contains("chart")), "{fault:?}");
    assert!(made.outputs.is_empty());
}

#[test]
fn pieces_that_are_not_there_are_named() {
    let folder = garment("sheets: { pieces: { bob: chart } }");
    let made = build(folder.path(), &[Format::A4]);
    assert!(
        made.faults.iter().any(|fault| fault.code.name() == "unknown-name" && fault.message.contains("`bob`")),
        "{:?}",
        made.faults
    );
}
