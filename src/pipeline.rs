//! The stages in order, for one garment.

use std::path::{Path, PathBuf};

use rayon::prelude::{IntoParallelIterator, ParallelIterator};
use walkdir::WalkDir;

use crate::book::{Build, Selection, prepare};
use crate::check::Garment;
use crate::draft::Piece;
use crate::fault::{Code, Fault, FileText, Place};
use crate::set::{DocKind, Paper};
use crate::shape::Shaped;
use crate::source::{self, GARMENT_FILE, Source};
use crate::write::Output;
use crate::{check as checking, export, set, shape, size};

/// How deep below a named folder garments are looked for.
const SEARCH_DEPTH: usize = 4;

/// The garment folders at or below the paths named, in the order named and then by name.
///
/// # Errors
/// In words, where a path is not there or holds no garment.
pub fn find(paths: &[PathBuf]) -> Result<Vec<PathBuf>, String> {
    let mut folders = Vec::new();
    for path in paths {
        if path.is_file() || path.join(GARMENT_FILE).is_file() || !path.exists() {
            folders.push(path.clone());
            continue;
        }
        let below: Vec<PathBuf> = WalkDir::new(path)
            .max_depth(SEARCH_DEPTH)
            .sort_by_file_name()
            .into_iter()
            .filter_map(Result::ok)
            .filter(|entry| entry.file_type().is_file() && entry.file_name() == GARMENT_FILE)
            .filter_map(|entry| entry.path().parent().map(Path::to_path_buf))
            .collect();
        if below.is_empty() {
            return Err(format!("there is no `{GARMENT_FILE}` in `{}` or below it", path.display()));
        }
        folders.extend(below);
    }
    Ok(folders)
}

/// What checking a garment found.
#[derive(Default)]
pub struct Checked {
    /// The garment; absent where it has faults.
    pub garment: Option<Garment>,
    /// All sizes worked out; absent where there are faults.
    pub build: Option<Build>,
    /// Faults and warnings.
    pub faults: Vec<Fault>,
}

/// Reads a garment and works all its sizes out, words and figures included, without setting a page.
#[must_use]
pub fn check(path: &Path) -> (Source, Checked) {
    let (source, mut faults) = source::read(path);
    let Some(root) = &source.root else {
        return (source, Checked { faults, ..Checked::default() });
    };
    let Shaped { shape, faults: mut structural, left_out } = shape::shape(root);
    let whole = structural.is_empty() && !faults.iter().any(Fault::stops);
    structural.retain(|fault| !source.unread.iter().any(|name| fault.place == Place::Span(*name)));
    let Some(shape) = shape else {
        faults.extend(structural);
        return (source, Checked { faults, ..Checked::default() });
    };
    let (garment, more) = checking::check(shape);
    faults.extend(
        more.into_iter().filter(|fault| whole || fault.stops() && !follows(fault, &source, &structural, &left_out)),
    );
    faults.splice(0..0, structural);
    let Some(garment) = garment.filter(|_| whole) else {
        return (source, Checked { faults, ..Checked::default() });
    };
    let (sizes, more) = size::size_all(&garment);
    faults.extend(more);
    if faults.iter().any(Fault::stops) {
        return (source, Checked { garment: Some(garment), build: None, faults });
    }
    let (build, more) = Build::new(&garment, sizes);
    faults.extend(more);
    for selection in selections(&garment) {
        if let Err(more) = prepare(&garment, &build, &selection) {
            for fault in more {
                if !faults.iter().any(|other| other.place == fault.place && other.code == fault.code) {
                    faults.push(fault);
                }
            }
        }
    }
    (source, Checked { garment: Some(garment), build: Some(build), faults })
}

/// A fault that only follows from a part left out.
fn follows(fault: &Fault, source: &Source, structural: &[Fault], left_out: &[String]) -> bool {
    let span = source.span(&fault.place);
    fault.code == Code::MissingKey
        || structural.iter().any(|other| source.span(&other.place).zip(span).is_some_and(|(a, b)| b.holds(a)))
        || left_out.iter().any(|name| fault.message.contains(&format!("`{name}`")))
}

/// The edition of all sizes, then one for each size.
fn selections(garment: &Garment) -> Vec<Selection> {
    let mut selections = vec![Selection::all(garment)];
    if garment.sizes.len() > 1 {
        selections.extend((0..garment.sizes.len()).filter_map(|index| Selection::one(garment, index)));
    }
    selections
}

/// Which documents are wanted.
#[derive(Debug, Clone, Default)]
pub struct Wanted {
    /// The papers.
    pub papers: Vec<Paper>,
    /// The sizes of the single-size booklets; empty for all.
    pub sizes: Vec<String>,
}

/// What a build made.
#[derive(Default)]
pub struct Made {
    /// The name of the garment's output folder.
    pub slug: String,
    /// The garment's title.
    pub title: String,
    /// Its edition.
    pub edition: String,
    /// The files to write; none where there are faults.
    pub outputs: Vec<Output>,
    /// Faults and warnings.
    pub faults: Vec<Fault>,
}

/// Builds a garment: everything [`check`] does, then the documents. `progress` is told what is being done.
#[must_use]
pub fn build(path: &Path, wanted: &Wanted, progress: &(dyn Fn(&str) + Sync)) -> (Source, Made) {
    progress("reading and reckoning");
    let (source, checked) = check(path);
    let mut made = Made { slug: slug(&source.folder), faults: checked.faults, ..Made::default() };
    let (Some(garment), Some(build)) = (checked.garment, checked.build) else { return (source, made) };
    made.title.clone_from(&garment.shape.title);
    made.edition = garment.edition.to_string();
    for size in &wanted.sizes {
        if !garment.sizes.iter().any(|known| known.name == *size) {
            let known: Vec<&str> = garment.sizes.iter().map(|size| size.name.as_str()).collect();
            let fault = Fault::new(Code::Sizes, Place::Nowhere, format!("there is no size `{size}`"));
            made.faults.push(fault.help(format!("sizes are {}", known.join(", "))));
        }
    }
    if made.faults.iter().any(Fault::stops) {
        return (source, made);
    }
    let jobs: Vec<(Selection, DocKind, Paper)> = selections(&garment)
        .into_iter()
        .filter(|selection| {
            selection.slug == "all"
                || wanted.sizes.is_empty()
                || selection.names.iter().any(|name| wanted.sizes.contains(name))
        })
        .flat_map(|selection| {
            let kinds: &[DocKind] = if selection.slug == "all" { &DocKind::ALL } else { &[DocKind::Booklet] };
            let papers = wanted.papers.iter();
            papers
                .flat_map(move |paper| kinds.iter().map(move |kind| (*kind, *paper)).collect::<Vec<_>>())
                .map(move |(kind, paper)| (selection.clone(), kind, paper))
                .collect::<Vec<_>>()
        })
        .collect();
    let total = jobs.len();
    progress(&format!("setting {total} documents"));
    let done = std::sync::atomic::AtomicUsize::new(0);
    let results: Vec<DocumentMade> = jobs
        .into_par_iter()
        .map(|(selection, kind, paper)| {
            let output = document(&garment, &build, &selection, kind, paper);
            let done = done.fetch_add(1, std::sync::atomic::Ordering::Relaxed) + 1;
            progress(&format!("set {done} of {total} documents"));
            output
        })
        .collect();
    set::forget(2);
    for result in results {
        match result {
            Ok((output, warnings)) => {
                made.outputs.push(output);
                made.faults.extend(warnings);
            }
            Err(faults) => made.faults.extend(faults),
        }
    }
    made.outputs.push(summary(&garment, &build));
    made.outputs.extend(geometry(&build));
    made.outputs.sort_by(|a, b| a.path.cmp(&b.path));
    if made.faults.iter().any(Fault::stops) {
        made.outputs.clear();
    }
    (source, made)
}

/// A document with its warnings, or the faults that stand in its way.
type DocumentMade = Result<(Output, Vec<Fault>), Vec<Fault>>;

/// One document, and what an eye would stop at in it.
fn document(garment: &Garment, build: &Build, selection: &Selection, kind: DocKind, paper: Paper) -> DocumentMade {
    let book = prepare(garment, build, selection)?;
    let document = set::compile(&book, kind, paper)?;
    let path = format!("{}-{}-{}.pdf", kind.name(), selection.slug, paper.name());
    let warnings = document
        .lints
        .iter()
        .map(|lint| {
            Fault::warning(Code::Document, Place::Nowhere, format!("{path}, page {}: {}", lint.page, lint.message))
        })
        .collect();
    let about = format!("{}, {}", selection.words, paper.name());
    Ok((Output { path, about, bytes: document.pdf }, warnings))
}

/// Everything the documents are made from, for programs.
fn summary(garment: &Garment, build: &Build) -> Output {
    let mut text = serde_json::to_string_pretty(build).unwrap_or_default();
    text.push('\n');
    Output {
        path: "build.json".to_string(),
        about: format!("every number of {}", garment.shape.title),
        bytes: text.into_bytes(),
    }
}

/// The pieces of every size for other programs: true-scale SVG piece by piece, DXF and JSON.
fn geometry(build: &Build) -> Vec<Output> {
    let mut outputs = Vec::new();
    for sized in &build.sizes {
        let pieces: Vec<&Piece> = sized.pieces.values().collect();
        let size = sized.size.to_lowercase();
        let about = |what: &str| format!("the pieces of size {} as {what}", sized.size);
        let json = serde_json::to_string_pretty(&export::json(&sized.size, &pieces)).unwrap_or_default() + "\n";
        outputs.push(Output { path: format!("geometry/{size}.json"), about: about("JSON"), bytes: json.into_bytes() });
        let dxf = export::dxf(&pieces, &sized.size).into_bytes();
        outputs.push(Output { path: format!("geometry/{size}.dxf"), about: about("DXF"), bytes: dxf });
        for piece in &pieces {
            let bytes = export::svg(piece, &sized.size).into_bytes();
            let about = format!("{} of size {}, true to scale", piece.title, sized.size);
            outputs.push(Output { path: format!("geometry/{}-{size}.svg", piece.name), about, bytes });
        }
    }
    outputs
}

/// The folder's own name, in the letters a file name has everywhere.
fn slug(folder: &Path) -> String {
    let real = folder.canonicalize().unwrap_or_else(|_| folder.to_path_buf());
    let name = real.file_name().map(|name| name.to_string_lossy().to_lowercase()).unwrap_or_default();
    let slug: String = name.chars().map(|c| if c.is_ascii_alphanumeric() { c } else { '-' }).collect();
    let slug = slug.trim_matches('-').to_string();
    if slug.is_empty() { "garment".to_string() } else { slug }
}
