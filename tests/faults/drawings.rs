//! Drawings that cannot be used, each with the file, the outline and the line that names it.

use std::fs;

use super::apron::{Apron, Found};

const SKIRT: &str = include_str!("../cases/drawn/garment.yaml");
const YOKES: &str = include_str!("../cases/drawn/drawings/yokes.dxf");
const POCKETS: [(&str, &str); 3] = [
    ("S", include_str!("../cases/drawn/drawings/pocket-S.svg")),
    ("M", include_str!("../cases/drawn/drawings/pocket-M.svg")),
    ("L", include_str!("../cases/drawn/drawings/pocket-L.svg")),
];

/// The skirt of `cases/drawn`, with its drawings changed.
fn skirt(yokes: impl Fn(&str) -> String, pocket: impl Fn(&str, &str) -> String) -> Apron {
    let mut skirt = Apron::of(SKIRT).file("drawings/yokes.dxf", yokes(YOKES));
    for (size, text) in POCKETS {
        skirt = skirt.file(&format!("drawings/pocket-{size}.svg"), pocket(size, text));
    }
    skirt
}

fn same(text: &str) -> String {
    text.to_string()
}

/// The pocket changed in size M alone.
fn in_m(from: &'static str, to: &'static str) -> Apron {
    skirt(same, move |size, text| {
        if size != "M" {
            return text.to_string();
        }
        assert!(text.contains(from), "{text}");
        text.replace(from, to)
    })
}

#[test]
fn the_skirt_itself_has_no_fault() {
    let found = skirt(same, |_, text| text.to_string()).check();
    assert_eq!(found.seen(), [], "{}", found.shown());
}

#[test]
fn outlines_that_are_none() {
    let name = |skirt: Apron| skirt.edit("name: pocket-{size}", "name: §pocket-{size}");
    name(in_m(" 0 120 Z", " 0 120 V 20")).expect(&[(
        "outline",
        "`pocket-M` in `drawings/pocket-M.svg` is not closed: it holds 2 open lines (in size M)",
        "in the drawing",
    )]);
    name(in_m("M 0 0 H 190.0 V 120", "M 0 0 L 190 120 V 0 L 0 120 H 190")).expect(&[(
        "outline",
        "`pocket-M` in `drawings/pocket-M.svg` crosses itself",
        "mend it in the drawing",
    )]);
    name(in_m("pocket-M", "pocket-m")).expect(&[(
        "unknown-name",
        "`drawings/pocket-M.svg` has nothing called `pocket-M` (in size M)",
        "did you mean `pocket-m`?",
    )]);
    name(in_m("d=\"M 0 0 H", "d=\"M 0 0 X")).expect(&[("outline", "path data that cannot be read", "")]);
    let scale = in_m("width=\"300mm\"", "width=\"300in\"").edit("scale: 1 mm", "scale: §1 mm");
    scale.expect(&[(
        "outline",
        "one unit is 25.4000 mm, and here it is 1.0000 mm (in size M)",
        "measure a known distance",
    )]);
    let edges = skirt(same, |_, text| text.to_string()).edit("edges: [top, round]", "edges: §[top, round, left]");
    edges.expect(&[("outline", "has 2 corners, and 3 edges are named", "corners lie at")]);
}

#[test]
fn blocks_that_are_no_pieces() {
    let yoke = |change: &dyn Fn(&str) -> String| {
        skirt(change, |_, text| text.to_string()).edit("name: yoke {size}", "name: §yoke {size}")
    };
    yoke(&|text| text.replace("yoke M", "yoke m")).expect(&[(
        "unknown-name",
        "`drawings/yokes.dxf` has nothing called `yoke M` (in size M)",
        "did you mean `yoke ",
    )]);
    yoke(&|text| text.replace("\n14\n", "\n15\n").replace("\n1\n", "\n16\n")).expect(&[(
        "outline",
        "has no outline on layer 14 (seam) or 1 (boundary)",
        "",
    )]);
    let file = skirt(|_| "\0\u{1}binary".to_string(), |_, text| text.to_string());
    file.edit("file: drawings/yokes.dxf", "file: §drawings/yokes.dxf").expect(&[(
        "file",
        "`drawings/yokes.dxf` cannot be read: it is no text",
        "DXF in text form",
    )]);
}

/// A file that is not there in one size, outside the folder, a folder, of another kind.
#[test]
fn files_that_cannot_be_read() {
    let file = |to: &str| {
        skirt(same, |_, text| text.to_string())
            .edit("file: drawings/pocket-{size}.svg", &format!("file: §{to}"))
            .file("drawings/folder.svg/x", "")
            .file("drawings/pocket.png", "")
    };
    file("drawings/poket-{size}.svg").expect(&[(
        "file",
        "`drawings/poket-S.svg` cannot be read: it is not there",
        "in the garment's folder",
    )]);
    file("../pocket.svg").expect(&[("file", "`../pocket.svg` leads outside the garment's folder", "")]);
    file("/etc/pocket.svg").expect(&[("file", "leads outside the garment's folder", "")]);
    file("drawings/folder.svg").expect(&[("file", "it is not a file", "")]);
    file("drawings/pocket.png").expect(&[("file", "neither an SVG nor a DXF drawing", "must end in `.svg` or `.dxf`")]);
    let large = " ".repeat(20 * 1024 * 1024 + 1);
    file("drawings/large.svg").file("drawings/large.svg", large).expect(&[("file", "it is larger than 20 MiB", "")]);
}

#[cfg(unix)]
#[test]
fn a_link_to_a_drawing_outside() {
    let home = skirt(same, |_, text| text.to_string()).write();
    let inner = home.path().join("apron/drawings/pocket-M.svg");
    fs::rename(&inner, home.path().join("outside.svg")).unwrap();
    std::os::unix::fs::symlink("../../outside.svg", &inner).unwrap();
    let found = Found::check(home);
    let seen = found.one();
    assert_eq!(seen.code, "file");
    assert!(seen.message.contains("a link that leads outside") && seen.message.ends_with("(in size M)"), "{seen:?}");
}
