//! The garments of `patterns/`, end to end.

#[path = "garments/gown.rs"]
mod gown;

use std::collections::BTreeMap;
use std::fmt::Write;
use std::path::{Path, PathBuf};
use std::sync::OnceLock;

use furbelow::book::{Build, Selection, prepare};
use furbelow::check::Garment;
use furbelow::fault::{Fault, render_human};
use furbelow::pipeline;
use furbelow::set::{DocKind, Paper, compile};
use furbelow::size::SizedGarment;

fn home() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// Every garment of `patterns/`, checked once for all tests here: the layouts take their time.
fn garments() -> &'static [(String, Garment, Build)] {
    static ALL: OnceLock<Vec<(String, Garment, Build)>> = OnceLock::new();
    ALL.get_or_init(|| {
        let folders: Vec<PathBuf> = pipeline::find(&[home().join("patterns")]).expect("patterns/ holds garments");
        folders
            .iter()
            .map(|folder| {
                let name = folder.file_name().expect("a folder has a name").to_string_lossy().into_owned();
                let (garment, build) = checked(folder);
                (name, garment, build)
            })
            .collect()
    })
}

/// One of them by the name of its folder.
fn garment(name: &str) -> (&'static Garment, &'static Build) {
    let found = garments().iter().find(|(other, ..)| other == name);
    let (_, garment, build) = found.unwrap_or_else(|| panic!("no garment is called {name}"));
    (garment, build)
}

/// A checked garment; a fault fails the test with its words.
fn checked(folder: &Path) -> (Garment, Build) {
    let (source, checked) = pipeline::check(folder);
    let stops: Vec<String> =
        checked.faults.iter().filter(|fault| fault.stops()).map(|fault| render_human(fault, &source, false)).collect();
    assert!(stops.is_empty(), "{}", stops.join("\n\n"));
    (checked.garment.expect("a garment without faults"), checked.build.expect("a build without faults"))
}

fn number(sized: &SizedGarment, name: &str) -> f64 {
    sized.names.named(name).unwrap_or_else(|| panic!("size {} has no `{name}`", sized.size)).quantity.value
}

/// Every number of every size, one line a name, as printed.
fn summary(build: &Build) -> String {
    let mut rows: BTreeMap<&str, Vec<String>> = BTreeMap::new();
    for sized in &build.sizes {
        for (name, named) in &sized.names.0 {
            let printed = named.printed();
            let text =
                if printed.has_two() { format!("{} ({})", printed.plain, printed.metric) } else { printed.plain };
            rows.entry(name).or_default().push(text.replace('\u{a0}', " "));
        }
    }
    let sizes: Vec<&str> = build.sizes.iter().map(|sized| sized.size.as_str()).collect();
    let mut out = format!("{} {}\nsizes: {}\n", build.title, build.edition, sizes.join(" | "));
    for (name, values) in rows {
        let same = values.windows(2).all(|pair| pair[0] == pair[1]);
        let values = if same { values[0].clone() } else { values.join(" | ") };
        let _ = writeln!(out, "{name}: {values}");
    }
    for need in &build.needs {
        let (width, buy) = (need.width.to_inches(), need.buy.to_yards());
        let _ =
            writeln!(out, "buy {} {width:.0} in wide, size {}: {buy:.3} yd, {:?}", need.cloth, need.size, need.folding);
    }
    out
}

/// Golden numbers: a change here is a change for every buyer of the edition before.
#[test]
fn numbers_are_as_they_were() {
    for (name, _, build) in garments() {
        insta::assert_snapshot!(format!("numbers-{name}"), summary(build));
    }
}

/// The cartridge-pleated skirt by another route: pitches from the swatch by hand, one pleat takes two stitches, the panels make
/// the width, the pitch lies between tight and eased. The relations are those of gauging as published at research.fibergeek.com
/// (2010: pleats = cloth / cloth a pleat takes) and common practice, no source.
#[test]
fn the_toll_keepers_pleats_by_hand() {
    let (garment, build) = garment("toll-keeper");
    let swatch = garment.swatch("wool_four").expect("the swatch");
    let pleats_in_swatch = swatch.flat / (swatch.stitch * 2.0);
    let tight = swatch.tight / pleats_in_swatch;
    let eased = swatch.eased.expect("measured eased") / pleats_in_swatch;
    for sized in &build.sizes {
        let pleats = number(sized, "skirt.pleats");
        let flat = number(sized, "skirt.flat");
        let pitch = number(sized, "waist_seam") / pleats;
        assert!((flat - pleats * 2.0 * swatch.stitch.to_mm()).abs() < 1e-6, "size {}", sized.size);
        assert!(pitch >= tight.to_mm() - 1e-9 && pitch <= eased.to_mm() + 1e-9, "size {}: {pitch}", sized.size);
        assert!(pleats % 4.0 == 0.0, "size {}: quarters hold the same number of pleats", sized.size);
        let panels: u64 = ["skirt_front", "skirt_back"]
            .iter()
            .flat_map(|name| &sized.pieces[*name].cuts)
            .filter(|cut| cut.cloth == "wool")
            .map(|cut| cut.pieces())
            .sum();
        let width = sized.pieces["skirt_front"].extent.width().to_mm();
        #[allow(clippy::cast_precision_loss)]
        let all = panels as f64 * width;
        assert!((all - flat).abs() < 1.0, "size {}: {panels} panels of {width} make {all}, not {flat}", sized.size);
        let usable = garment.cloth("wool").expect("wool").usable(garment.cloths[0].widths[0]);
        let cut = sized.pieces["skirt_front"].cut_extent.width();
        assert!(cut <= usable, "size {}: a panel is no wider than the cloth", sized.size);
    }
}

/// The dip of the waist by integration: the closed form of a straight-sided dip is the long side of a triangle.
#[test]
fn the_toll_keepers_dip_by_hand() {
    let (_, build) = garment("toll-keeper");
    for sized in &build.sizes {
        let (width, depth) = (number(sized, "skirt_dip.width"), number(sized, "skirt_dip.depth"));
        let arc = 2.0 * (width / 2.0).hypot(depth);
        assert!((number(sized, "skirt_dip.arc") - arc).abs() < 1e-6);
        let ratio = number(sized, "skirt.ratio");
        assert!((number(sized, "skirt_dip.flat") - ratio * arc).abs() < 1e-3);
        // The seam of the band, measured along the drawn piece, is what the pleats are drawn up to.
        assert!(
            (number(sized, "waist_seam") - (number(sized, "waist") - width + arc)).abs() < 0.6,
            "size {}",
            sized.size
        );
    }
}

/// No layout takes less cloth than its pieces have area, and what is bought covers what is laid after washing.
#[test]
fn cloth_is_never_short() {
    for (_, garment, build) in garments() {
        assert!(!build.needs.is_empty());
        for need in &build.needs {
            let cloth = garment.cloth(&need.cloth).expect("a cloth of the garment");
            assert!(need.laid.to_mm() >= need.bound.to_mm() - 1e-6, "{} {}", need.cloth, need.size);
            let washed = need.buy.to_mm() * (1.0 - cloth.shrinks_along.base());
            assert!(washed >= need.laid.to_mm() - 1e-6, "{} {}", need.cloth, need.size);
        }
        for cloth in &garment.cloths {
            let area: BTreeMap<&str, f64> = build
                .needs
                .iter()
                .filter(|need| need.cloth == cloth.name)
                .map(|need| (need.size.as_str(), need.area.base()))
                .collect();
            assert_eq!(area.len(), garment.sizes.len(), "every size needs {}", cloth.name);
        }
    }
}

/// The same input gives the same bytes, and nothing in them stops the eye.
#[test]
fn documents_are_the_same_twice_and_clean() {
    for (_, garment, build) in garments() {
        for selection in [Selection::all(garment), Selection::one(garment, 0).expect("a first size")] {
            for kind in DocKind::ALL {
                let set = || {
                    let book = prepare(garment, build, &selection).unwrap_or_else(|faults| panic!("{faults:?}"));
                    compile(&book, kind, Paper::A4).unwrap_or_else(|faults: Vec<Fault>| panic!("{faults:?}"))
                };
                let (first, second) = (set(), set());
                assert!(first.pdf == second.pdf, "{} {}: two builds differ", kind.name(), selection.words);
                let lints: Vec<String> = first.lints.iter().map(ToString::to_string).collect();
                assert!(lints.is_empty(), "{} {}:\n{}", kind.name(), selection.words, lints.join("\n"));
            }
        }
    }
}

/// Every number a sentence of the booklet prints is the build's own: the printed text is made again from the value in `build`.
#[test]
fn single_sizes_print_their_own_numbers() {
    for (_, garment, build) in garments() {
        let all = prepare(garment, build, &Selection::all(garment)).expect("all sizes");
        for index in 0..garment.sizes.len() {
            let selection = Selection::one(garment, index).expect("a size");
            let one = prepare(garment, build, &selection).expect("one size");
            // The row of a size in the book of all sizes is the row of its own book.
            for (wide, narrow) in
                all.glance.body.iter().zip(&one.glance.body).chain(all.glance.finished.iter().zip(&one.glance.finished))
            {
                assert_eq!(wide.label, narrow.label);
                assert_eq!(wide.cells[index], narrow.cells[0], "{} of size {}", wide.label, selection.names[0]);
            }
            for (wide, narrow) in all.cutting.cloths.iter().zip(&one.cutting.cloths) {
                for (wide, narrow) in wide.pieces.iter().zip(&narrow.pieces) {
                    for (wide, narrow) in wide.dims.iter().zip(&narrow.dims) {
                        assert_eq!(wide.cells[index], narrow.cells[0], "{} of size {}", wide.label, selection.names[0]);
                    }
                }
            }
        }
    }
}
