//! The checked garment.

use std::collections::BTreeMap;

use indexmap::IndexMap;
use serde::Serialize;

use super::construction::{Construction, check_construction};
use super::formulas::{Formulas, parse_at};
use super::laying::Laying;
use super::order::{Item, order};
use super::{cloths, laying, names, plain, steps, table};
use crate::fault::{Code, Fault, Route};
use crate::formula::Formula;
use crate::shape::{GarmentShape, OneOrPerSize, RoleShape};
use crate::units::{Length, Ratio, SheetMass};
use crate::words::catalogue;

/// A size: its name, and its place in the table.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
pub struct Size {
    /// Its name.
    pub name: String,
    /// Its place, from 0.
    pub index: usize,
}

/// A cloth.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Cloth {
    /// Its name in formulas.
    pub name: String,
    /// Its name on the shopping list.
    pub title: String,
    /// What it is for.
    pub role: RoleShape,
    /// The widths on offer, the narrowest first.
    pub widths: Vec<Length>,
    /// What cannot be used at each side.
    pub selvage: Length,
    /// Its weight.
    pub weight: Option<SheetMass>,
    /// Whether nothing may be turned end for end.
    pub one_way: bool,
    /// How pieces may be laid on it.
    pub laying: Laying,
    /// Shrinkage along the length.
    pub shrinks_along: Ratio,
    /// Shrinkage across the width.
    pub shrinks_across: Ratio,
    /// What to look for.
    pub note: Option<String>,
}

impl Cloth {
    /// What can be used of a width, after washing and without the selvages.
    #[must_use]
    pub fn usable(&self, width: Length) -> Length {
        width * (1.0 - self.shrinks_across.base()) - self.selvage * 2.0
    }
}

/// A swatch as measured.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Swatch {
    /// Its name in formulas.
    pub name: String,
    /// Its name in words.
    pub title: String,
    /// Each cloth in it, and whether it is folded over at the edge (two layers).
    pub layers: Vec<(String, bool)>,
    /// Its flat width.
    pub flat: Length,
    /// Its width drawn up tight.
    pub tight: Length,
    /// Its width eased out.
    pub eased: Option<Length>,
    /// The stitch it was gauged with.
    pub stitch: Length,
    /// What was seen.
    pub note: Option<String>,
}

/// A named number: one formula, or one a size.
#[derive(Debug, Clone, PartialEq)]
pub struct Number {
    /// Its name.
    pub name: String,
    /// One formula, or one a size.
    pub formulas: Formulas,
}

impl Number {
    /// The formula of a size.
    #[must_use]
    pub fn formula(&self, size: &Size) -> Option<&(Route, Formula)> {
        self.formulas.get(if self.formulas.len() == 1 { 0 } else { size.index })
    }
}

/// A garment whose names are resolved and whose formulas are read.
#[derive(Clone)]
pub struct Garment {
    /// What the author wrote.
    pub shape: GarmentShape,
    /// The edition.
    pub edition: semver::Version,
    /// The sizes, the smallest first.
    pub sizes: Vec<Size>,
    /// Body measurements, one a size.
    pub body: IndexMap<String, Vec<Length>>,
    /// Ease by measurement.
    pub ease: BTreeMap<String, (Route, Formula)>,
    /// The cloths, in the order written.
    pub cloths: Vec<Cloth>,
    /// The swatches.
    pub swatches: Vec<Swatch>,
    /// The named numbers.
    pub numbers: Vec<Number>,
    /// The construction entries.
    pub construction: Vec<Construction>,
    /// The order in which numbers, construction and pieces are worked out.
    pub order: Vec<Item>,
}

impl Garment {
    /// The language of its words, as a BCP 47 code.
    #[must_use]
    pub fn language(&self) -> &str {
        self.shape.language.as_deref().unwrap_or("en")
    }

    /// The cloth of that name.
    #[must_use]
    pub fn cloth(&self, name: &str) -> Option<&Cloth> {
        self.cloths.iter().find(|cloth| cloth.name == name)
    }

    /// The swatch of that name.
    #[must_use]
    pub fn swatch(&self, name: &str) -> Option<&Swatch> {
        self.swatches.iter().find(|swatch| swatch.name == name)
    }
}

/// Checks a garment. Warnings come with a garment, faults without.
#[must_use]
pub fn check(shape: GarmentShape) -> (Option<Garment>, Vec<Fault>) {
    let mut faults = Vec::new();
    let edition = check_front(&shape, &mut faults);
    let few = names::check_names(&shape, &mut faults);
    plain::check_plain(&shape, &mut faults);
    cloths::check_cuts(&shape, &mut faults);
    laying::check_pieces(&shape, &mut faults);
    let table = table::check_table(&shape.sizes, &mut faults);
    let cloths = cloths::check_cloths(&shape, &mut faults);
    let swatches = cloths::check_swatches(&shape, &mut faults);
    let numbers = check_numbers(&shape, &mut faults);
    let construction = check_construction(&shape, &mut faults);
    steps::check_steps(&shape, &mut faults);
    let (sizes, body, ease) = (table.sizes, table.body, table.ease);
    let mut garment =
        Garment { shape, edition, sizes, body, ease, cloths, swatches, numbers, construction, order: Vec::new() };
    if few {
        let mut rings = Vec::new();
        garment.order = order(&garment, &mut rings);
        // Where two things have one name the ring is only that.
        faults.extend(
            rings.into_iter().filter(|ring| !faults.iter().any(|other| other.place == ring.place)).collect::<Vec<_>>(),
        );
    }
    let stopped = faults.iter().any(Fault::stops);
    ((!stopped).then_some(garment), faults)
}

fn check_front(shape: &GarmentShape, faults: &mut Vec<Fault>) -> semver::Version {
    let top = Route::top();
    for (key, text, most) in
        [("title", &shape.title, 80), ("summary", &shape.summary, 600), ("terms", &shape.terms, 6000)]
    {
        if text.trim().is_empty() {
            faults.push(Fault::new(Code::BadValue, top.key(key), format!("`{key}` is empty")).help("say it in words"));
        } else if text.chars().count() > most {
            let message = format!("expected at most {most} characters for `{key}`, but found {}", text.chars().count());
            faults.push(Fault::new(Code::TooMuch, top.key(key), message).help("shorten it"));
        }
    }
    if let Some(accent) = &shape.accent {
        let digits = accent.strip_prefix('#').unwrap_or("");
        if digits.len() != 6 || !digits.chars().all(|c| c.is_ascii_hexdigit()) {
            let message = format!("expected a colour such as `\"#7a2e3a\"`, but found `{accent}`");
            faults.push(
                Fault::new(Code::BadValue, top.key("accent"), message)
                    .help("a `#`, then two hexadecimal digits each for red, green and blue, in quotes"),
            );
        }
    }
    if let Some(language) = &shape.language
        && let Err(more) = catalogue(language)
    {
        faults.extend(more.into_iter().map(|fault| Fault { place: top.key("language").into(), ..fault }));
    }
    semver::Version::parse(&shape.edition).unwrap_or_else(|_| {
        let message = format!("expected an edition of three numbers, but found `{}`", shape.edition);
        faults.push(
            Fault::new(Code::BadValue, top.key("edition"), message).help("write `1.0.0`, and `1.1.0` for the next"),
        );
        semver::Version::new(0, 0, 0)
    })
}

fn check_numbers(shape: &GarmentShape, faults: &mut Vec<Fault>) -> Vec<Number> {
    let home = Route::top().key("numbers");
    let sizes = shape.sizes.names.len();
    let mut numbers = Vec::new();
    for (name, value) in &shape.numbers {
        let route = home.key(name.as_str());
        let list = match value {
            OneOrPerSize::One(expr) => vec![(route.clone(), expr)],
            OneOrPerSize::PerSize(list) => {
                if list.len() != sizes && sizes > 0 {
                    let message =
                        format!("expected {sizes} values for `{name}`, one for each size, but found {}", list.len());
                    faults.push(
                        Fault::new(Code::Sizes, &route, message)
                            .help("give one value a size, in the order of `sizes.names`, or a single formula"),
                    );
                }
                list.iter().enumerate().map(|(index, expr)| (route.index(index), expr)).collect()
            }
        };
        let mut formulas = Vec::new();
        for (at, expr) in list {
            match parse_at(&at, expr) {
                Ok(formula) => formulas.push((at, formula)),
                Err(fault) => faults.push(fault),
            }
        }
        numbers.push(Number { name: name.clone(), formulas });
    }
    numbers
}
