//! The pattern sheets of a garment.

use std::collections::BTreeMap;

use rayon::prelude::{IntoParallelIterator, ParallelIterator};

use super::make::{Part, Ready};
use crate::book::Build;
use crate::check::Garment;
use crate::fault::{Code, Fault, Place, Route, did_you_mean};
use crate::reckon::{Answer, Value};
use crate::shape::{InkShape, JoiningShape, OnSheetShape, SeamLinesShape, SheetFormatShape, SheetsShape};
use crate::sheet::{
    Charted, Format, Joining, NoPage, Options, Pattern, PieceSet, SeamLines, Sheets, Strip, Tally, is_plain_rectangle,
    missing, pdf, sheets as make_sheets,
};
use crate::units::{Length, Quantity};
use crate::write::Output;

/// The techniques whose rows of stitches have a marking strip.
const GAUGED: [&str; 2] = ["cartridge-pleats", "smocking"];

/// One file: a format, and one size or all.
#[derive(Clone, Copy)]
struct Job {
    format: Format,
    size: Option<usize>,
}

/// The bytes of a file, and the first character its typefaces lack, with the words it stands in.
type File = Result<(Vec<u8>, Option<(char, String)>), NoPage>;

/// Every file of sheets that is wanted.
pub(super) fn sheets(ready: &Ready<'_>) -> Part {
    let shape = ready.garment.shape.sheets.clone().unwrap_or_default();
    let mut part = Part { faults: unknown_pieces(ready.garment, &shape), ..Part::default() };
    let pattern = pattern(ready.garment, ready.build, &shape);
    if pattern.pieces.is_empty() && pattern.strips.is_empty() {
        return part;
    }
    let options = options(&shape);
    let jobs = jobs(ready, &shape, pattern.sizes.len());
    (ready.progress)(&format!("drawing {} files of pattern sheets", jobs.len()));
    let made: Vec<(Job, File)> = jobs
        .into_par_iter()
        .map(|job| {
            let pattern = job.size.map_or_else(|| pattern.clone(), |size| pattern.only(size));
            let made = make_sheets(&pattern, job.format, &options);
            (job, made.map(|Sheets { document, .. }| (pdf(&document), missing(&document))))
        })
        .collect();
    let mut unknown: Option<(char, String)> = None;
    for (job, result) in made {
        match result {
            Ok((bytes, lacking)) => {
                part.outputs.push(output(&pattern, job, bytes));
                unknown = unknown.or(lacking);
            }
            Err(fault) => part.faults.push(no_page(ready, &shape, job.format, &fault)),
        }
    }
    if let Some((c, text)) = unknown {
        let message = format!("the typeface of the pattern sheets has no `{c}`, which stands in `{text}`");
        part.faults.push(Fault::warning(Code::Document, Place::Nowhere, message));
    }
    part
}

/// What the sheets of a garment take of paper, file by file: for the record, and to compare with the area of the pieces.
///
/// # Errors
/// [`NoPage`] where a page would be longer than can be printed.
pub fn tallies(garment: &Garment, build: &Build, format: Format) -> Result<Vec<(String, Tally)>, NoPage> {
    let shape = garment.shape.sheets.clone().unwrap_or_default();
    let (pattern, options) = (pattern(garment, build, &shape), options(&shape));
    let mut found = vec![("all".to_string(), make_sheets(&pattern, format, &options)?.tally)];
    for (index, size) in pattern.sizes.iter().enumerate() {
        found.push((size.clone(), make_sheets(&pattern.only(index), format, &options)?.tally));
    }
    Ok(found)
}

fn unknown_pieces(garment: &Garment, shape: &SheetsShape) -> Vec<Fault> {
    let known: Vec<&str> = garment.shape.pieces.keys().map(String::as_str).collect();
    let home = Route::top().key("sheets").key("pieces");
    let unknown = shape.pieces.keys().filter(|name| !known.contains(&name.as_str()));
    unknown
        .map(|name| {
            let message = format!("no piece is called `{name}`");
            Fault::new(Code::UnknownName, Place::Key(home.key(name.as_str())), message).help(did_you_mean(name, &known))
        })
        .collect()
}

/// A page that cannot be: a fault where its format was asked for; where it only comes by default, it is left out with a
/// warning.
fn no_page(ready: &Ready<'_>, shape: &SheetsShape, wanted: Format, fault: &NoPage) -> Fault {
    let lists = [&shape.nested, &shape.one_size];
    let listed = lists.into_iter().flatten().flatten().any(|listed| format(*listed) == wanted);
    let asked = listed || ready.wanted.sheets.as_ref().is_some_and(|formats| formats.contains(&wanted));
    let place = Route::top().key("sheets");
    let help = format!(
        "leave long plain pieces to the chart (`sheets: {{ pieces: {{ name: chart }} }}`), or leave `{}` out: A0 takes as many \
         sheets as are needed",
        wanted.name()
    );
    if asked {
        return Fault::new(Code::Sheet, place, fault.to_string()).help(help);
    }
    let message = format!("no pattern sheets for {}: {fault}", wanted.words());
    Fault::warning(Code::Sheet, Place::Nowhere, message).help(help)
}

fn output(pattern: &Pattern, job: Job, bytes: Vec<u8>) -> Output {
    let (slug, words) = match job.size.and_then(|size| pattern.sizes.get(size)) {
        Some(size) => (format!("size-{}", size.to_lowercase()), format!("size {size}")),
        None => ("all".to_string(), "all sizes, nested".to_string()),
    };
    Output {
        path: format!("sheets-{slug}-{}.pdf", job.format.name()),
        about: format!("pattern sheets, {words}, for {}", job.format.words()),
        bytes,
    }
}

/// The files that are asked for, each size before all.
fn jobs(ready: &Ready<'_>, shape: &SheetsShape, sizes: usize) -> Vec<Job> {
    let wanted = |format: &Format| match &ready.wanted.sheets {
        Some(formats) => formats.contains(format),
        None => match format {
            Format::A4 => ready.wanted.papers.iter().any(|paper| paper.name() == "a4"),
            Format::Letter => ready.wanted.papers.iter().any(|paper| paper.name() == "letter"),
            _ => true,
        },
    };
    let listed = |list: &Option<Vec<SheetFormatShape>>, usual: &[Format]| -> Vec<Format> {
        let list =
            list.as_ref().map_or_else(|| usual.to_vec(), |list| list.iter().map(|shape| format(*shape)).collect());
        list.into_iter().filter(wanted).collect()
    };
    let nested = listed(&shape.nested, &Format::ALL);
    let single = listed(&shape.one_size, &[Format::A4, Format::Letter]);
    let mut jobs: Vec<Job> = Vec::new();
    if sizes > 1 {
        for (index, size) in ready.garment.sizes.iter().enumerate() {
            if ready.wanted.sizes.is_empty() || ready.wanted.sizes.contains(&size.name) {
                jobs.extend(single.iter().map(|format| Job { format: *format, size: Some(index) }));
            }
        }
    }
    // The nests are the longest work: they begin first.
    jobs.splice(0..0, nested.into_iter().map(|format| Job { format, size: None }));
    jobs
}

const fn format(shape: SheetFormatShape) -> Format {
    match shape {
        SheetFormatShape::A4 => Format::A4,
        SheetFormatShape::Letter => Format::Letter,
        SheetFormatShape::A0 => Format::A0,
        SheetFormatShape::Roll => Format::Roll,
        SheetFormatShape::Projector => Format::Projector,
    }
}

fn options(shape: &SheetsShape) -> Options {
    Options {
        seam_lines: match shape.seam_lines {
            None | Some(SeamLinesShape::OneSize) => SeamLines::OneSize,
            Some(SeamLinesShape::Always) => SeamLines::Always,
            Some(SeamLinesShape::Never) => SeamLines::Never,
        },
        joining: match shape.joining {
            None | Some(JoiningShape::Glued) => Joining::Glued,
            Some(JoiningShape::Butted) => Joining::Butted,
        },
        save_ink: shape.ink == Some(InkShape::Saving),
    }
}

/// The garment for its sheets: which pieces are printed, which are left to the chart.
fn pattern(garment: &Garment, build: &Build, shape: &SheetsShape) -> Pattern {
    let mut pattern = Pattern {
        title: build.title.clone(),
        edition: build.edition.clone(),
        systems: build.systems,
        sizes: build.sizes.iter().map(|sized| sized.size.clone()).collect(),
        cloths: garment
            .cloths
            .iter()
            .map(|cloth| (cloth.name.clone(), cloth.title.clone()))
            .collect::<BTreeMap<_, _>>(),
        pieces: Vec::new(),
        charted: Vec::new(),
        strips: strips(garment, build),
    };
    for (index, (name, piece)) in garment.shape.pieces.iter().enumerate() {
        let number = u32::try_from(index + 1).unwrap_or(u32::MAX);
        let by_size: Vec<_> = build.sizes.iter().filter_map(|sized| sized.pieces.get(name).cloned()).collect();
        if by_size.len() != build.sizes.len() || by_size.iter().all(|piece| piece.cuts.is_empty()) {
            continue;
        }
        let plain = by_size.iter().all(is_plain_rectangle);
        let usual = if plain { OnSheetShape::Chart } else { OnSheetShape::Sheet };
        match shape.pieces.get(name).copied().unwrap_or(usual) {
            OnSheetShape::Sheet => {
                pattern.pieces.push(PieceSet { name: name.clone(), number, title: piece.title.clone(), by_size });
            }
            OnSheetShape::Chart => pattern.charted.push(Charted { number, title: piece.title.clone() }),
        }
    }
    pattern
}

/// A marking strip for every construction entry with rows of stitches that are the same in all sizes.
fn strips(garment: &Garment, build: &Build) -> Vec<Strip> {
    let mut strips = Vec::new();
    for entry in &garment.construction {
        if !GAUGED.contains(&entry.technique.name) {
            continue;
        }
        let mut of_sizes = build.sizes.iter().filter_map(|sized| strip(&entry.name, sized.answers.get(&entry.name)?));
        let Some(first) = of_sizes.next() else { continue };
        if of_sizes.all(|other| other == first) {
            strips.push(first);
        }
    }
    strips
}

fn strip(name: &str, answer: &Answer) -> Option<Strip> {
    let quantity = |input: &str| -> Option<Quantity> {
        let given = answer.inputs.iter().find(|(known, ..)| known == input).and_then(|(_, value, ..)| match value {
            Value::Quantity(quantity) => Some(*quantity),
            _ => None,
        });
        // What the technique corrected counts before what it was given.
        answer.one(input).or(given)
    };
    let mm = |input: &str| quantity(input).map(|quantity| quantity.value);
    let stitch = mm("stitch")?;
    let rows = mm("rows")?.clamp(1.0, 40.0);
    let (apart, first) = (mm("row_spacing")?, mm("first_row").unwrap_or(10.0));
    let mut list = Vec::new();
    while f64::from(u32::try_from(list.len()).unwrap_or(40)) + 0.5 < rows {
        list.push(Length::mm(first + apart * f64::from(u32::try_from(list.len()).unwrap_or(40))));
    }
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    let every = mm("guide_every").map(|every| every.clamp(0.0, 1000.0).round() as u32);
    let title = format!("Marking strip for {}: {} rows", name.replace('_', " "), list.len());
    Some(Strip { name: name.to_string(), title, rows: list, stitch: Length::mm(stitch), every })
}
