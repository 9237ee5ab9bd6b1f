//! The files of a garment folder.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Component, Path, PathBuf};

use super::drawings::drawings;
use super::index::parse;
use super::node::{Node, NodeKind};
use crate::fault::{Code, Fault, FileId, Place, Span};

/// The file every garment has.
pub const GARMENT_FILE: &str = "garment.yaml";
/// How large a YAML file may be.
pub const MAX_YAML_BYTES: u64 = 4 * 1024 * 1024;

/// A file as read.
#[derive(Debug, Clone)]
pub(super) struct File {
    /// Its path as the maker knows it.
    pub(super) path: String,
    /// Its text.
    pub(super) text: String,
}

/// A garment folder as read: the texts, and one tree over them.
#[derive(Debug, Clone, Default)]
pub struct Source {
    /// The folder.
    pub folder: PathBuf,
    pub(super) files: Vec<File>,
    /// The tree; absent where the main file could not be read.
    pub root: Option<Node>,
    /// Where parts are named that could not be read; the tree has their names in their place.
    pub unread: Vec<Span>,
    /// The drawings that are named, by file: the text, or in words why it could not be read.
    pub drawings: BTreeMap<String, Result<String, String>>,
}

impl Source {
    /// The paths read, for watching; of drawings, those that are not there too.
    #[must_use]
    pub fn paths(&self) -> Vec<String> {
        let drawings = self.drawings.keys().map(|name| self.folder.join(name).display().to_string());
        self.files.iter().map(|file| file.path.clone()).chain(drawings).collect()
    }

    /// The whole text of all files, in the order read, and of all drawings: what a build depends on.
    #[must_use]
    pub fn texts(&self) -> Vec<(&str, &str)> {
        let drawings = self.drawings.iter().map(|(name, text)| (name.as_str(), text.as_deref().unwrap_or_default()));
        self.files.iter().map(|file| (file.path.as_str(), file.text.as_str())).chain(drawings).collect()
    }
}

/// Reads a garment folder (or the folder of the `garment.yaml` named). The source holds what could be
/// read even where there are faults, so that they can be shown.
#[must_use]
pub fn read(path: &Path) -> (Source, Vec<Fault>) {
    let folder = if path.file_name().is_some_and(|name| name == GARMENT_FILE) {
        path.parent().unwrap_or(Path::new(".")).to_path_buf()
    } else {
        path.to_path_buf()
    };
    let mut source = Source { folder: folder.clone(), ..Source::default() };
    let shown = folder.display().to_string();
    if !folder.is_dir() {
        let message = format!("expected a garment folder, but `{shown}` is not a folder");
        let help = format!("name a folder with a `{GARMENT_FILE}` in it, such as `patterns/...`");
        return (source, vec![Fault::new(Code::File, Place::Nowhere, message).help(help)]);
    }
    let mut faults = Vec::new();
    source.root = load(&mut source, GARMENT_FILE, &Place::Nowhere, &mut faults);
    let Some(mut root) = source.root.take() else { return (source, faults) };
    if let NodeKind::Map(entries) = &mut root.kind {
        for entry in entries {
            let Some(name) = entry.value.text() else { continue };
            if !has_yaml_ending(name) {
                continue;
            }
            let name = name.to_string();
            let place = Place::Span(entry.value.span);
            match load(&mut source, &name, &place, &mut faults) {
                Some(part) => entry.value = part,
                None => source.unread.push(entry.value.span),
            }
        }
    }
    source.drawings = drawings(&folder, &root);
    source.root = Some(root);
    (source, faults)
}

fn has_yaml_ending(name: &str) -> bool {
    !name.contains('\n') && Path::new(name).extension().is_some_and(|ending| ending == "yaml" || ending == "yml")
}

fn load(source: &mut Source, name: &str, named_at: &Place, faults: &mut Vec<Fault>) -> Option<Node> {
    let fault = |message: String, help: &str| Fault::new(Code::File, named_at.clone(), message).help(help);
    let path = match inside(&source.folder, name) {
        Ok(path) => path,
        Err(why) => {
            faults.push(fault(why, "a garment's files all lie inside its folder"));
            return None;
        }
    };
    let shown = source.folder.join(name).display().to_string();
    match fs::metadata(&path) {
        Err(error) => {
            faults.push(fault(
                format!("cannot read `{shown}`: {}", plain(&error)),
                "check the name and where the file lies",
            ));
            return None;
        }
        Ok(data) if !data.is_file() => {
            faults.push(fault(format!("`{shown}` is not a file"), "name a file"));
            return None;
        }
        Ok(data) if data.len() > MAX_YAML_BYTES => {
            let message = format!("`{shown}` is larger than {} MiB", MAX_YAML_BYTES / 1024 / 1024);
            faults.push(Fault::new(Code::TooMuch, named_at.clone(), message).help("split it into several garments"));
            return None;
        }
        Ok(_) => {}
    }
    let bytes = match fs::read(&path) {
        Ok(bytes) => bytes,
        Err(error) => {
            faults.push(fault(format!("cannot read `{shown}`: {}", plain(&error)), "check who may read the file"));
            return None;
        }
    };
    let file = FileId(u32::try_from(source.files.len()).unwrap_or(u32::MAX));
    let text = match String::from_utf8(bytes) {
        // A byte order mark says nothing in UTF-8.
        Ok(text) => text.strip_prefix('\u{feff}').map(ToString::to_string).unwrap_or(text),
        Err(error) => {
            let at = error.utf8_error().valid_up_to();
            let text = String::from_utf8_lossy(error.as_bytes()).into_owned();
            source.files.push(File { path: shown, text });
            let span = Span { file, start: at, end: at };
            faults.push(
                Fault::new(Code::File, span, "this is not UTF-8 text").help("save the file as UTF-8 in your editor"),
            );
            return None;
        }
    };
    let parsed = parse(file, &text);
    let bad = text.char_indices().find(|(_, c)| is_refused(*c));
    source.files.push(File { path: shown, text });
    if let Some((at, c)) = bad {
        let span = Span { file, start: at, end: at + c.len_utf8() };
        let message = format!("the character U+{:04X} has no place in a garment file", u32::from(c));
        faults
            .push(Fault::new(Code::File, span, message).help("remove it; it may have come with a copy from elsewhere"));
        return None;
    }
    match parsed {
        Ok(node) => Some(node),
        Err(more) => {
            faults.extend(more);
            None
        }
    }
}

/// Control characters, and the private-use characters the prose stage marks values with.
fn is_refused(c: char) -> bool {
    (c.is_control() && !matches!(c, '\n' | '\r' | '\t')) || matches!(c, '\u{e000}'..='\u{f8ff}' | '\u{f0000}'..)
}

pub(super) fn plain(error: &std::io::Error) -> &'static str {
    match error.kind() {
        std::io::ErrorKind::NotFound => "it is not there",
        std::io::ErrorKind::PermissionDenied => "you may not read it",
        _ => "reading failed",
    }
}

/// A path inside a folder.
///
/// # Errors
/// In words, where the name is absolute, climbs out with `..`, or is a link that leads outside.
pub(crate) fn inside(folder: &Path, name: &str) -> Result<PathBuf, String> {
    let relative = Path::new(name);
    if relative.components().any(|part| !matches!(part, Component::Normal(_) | Component::CurDir)) {
        return Err(format!("`{name}` leads outside the garment's folder"));
    }
    let path = folder.join(relative);
    if let (Ok(real), Ok(home)) = (path.canonicalize(), folder.canonicalize())
        && !real.starts_with(&home)
    {
        return Err(format!("`{name}` is a link that leads outside the garment's folder"));
    }
    Ok(path)
}
