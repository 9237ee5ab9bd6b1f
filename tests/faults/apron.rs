//! A garment without fault, to be broken, and what checking it then says.

use std::fs;
use std::path::{Path, PathBuf};

use furbelow::book::Build;
use furbelow::fault::{Fault, FileText, Located, render_human};
use furbelow::pipeline;
use furbelow::source::Source;
use tempfile::TempDir;

const APRON: &str = include_str!("../cases/apron/garment.yaml");

/// Stands in a changed text where a fault must be.
pub const MARK: char = '§';

/// Code, words of the message, words of the help (empty: not looked at).
pub type Expected<'a> = (&'a str, &'a str, &'a str);

/// The apron, and what is changed about it.
#[must_use]
#[derive(Clone)]
pub struct Apron {
    text: String,
    more: Vec<(String, Vec<u8>)>,
}

impl Apron {
    /// The apron as it stands in `cases/apron`.
    pub fn new() -> Apron {
        Apron { text: APRON.to_string(), more: Vec::new() }
    }

    /// Another text in its place.
    pub fn of(text: impl Into<String>) -> Apron {
        Apron { text: text.into(), more: Vec::new() }
    }

    /// With the first `from` changed to `to`.
    pub fn edit(mut self, from: &str, to: &str) -> Apron {
        assert!(self.text.contains(from), "the apron has no `{from}`");
        self.text = self.text.replacen(from, to, 1);
        self
    }

    /// With another file beside `garment.yaml`.
    pub fn file(mut self, name: &str, bytes: impl Into<Vec<u8>>) -> Apron {
        self.more.push((name.to_string(), bytes.into()));
        self
    }

    /// The text without marks.
    pub fn text(&self) -> String {
        self.text.replace(MARK, "")
    }

    /// Writes the folder.
    pub fn write(&self) -> TempDir {
        let home = tempfile::tempdir().unwrap();
        self.write_into(&home.path().join("apron"));
        home
    }

    /// Writes the folder there.
    pub fn write_into(&self, folder: &Path) {
        fs::create_dir_all(folder).unwrap();
        fs::write(folder.join("garment.yaml"), self.text()).unwrap();
        for (name, bytes) in &self.more {
            let path = folder.join(name);
            fs::create_dir_all(path.parent().unwrap()).unwrap();
            fs::write(path, bytes).unwrap();
        }
    }

    /// Checks it.
    pub fn check(&self) -> Found {
        Found::check(self.write())
    }

    /// Checks it, and holds the faults found, in the order of their places, against those expected at the marks.
    pub fn expect(&self, expected: &[Expected<'_>]) {
        self.hold("fault", expected);
    }

    /// The same for warnings.
    pub fn expect_warnings(&self, expected: &[Expected<'_>]) {
        self.hold("warning", expected);
    }

    fn hold(&self, severity: &str, expected: &[Expected<'_>]) {
        let found = self.check();
        let marks = places(&self.text);
        assert_eq!(marks.len(), expected.len(), "as many marks as expectations");
        let mut seen = found.seen();
        seen.sort_by_key(|seen| (seen.line, seen.column));
        assert_eq!(seen.len(), expected.len(), "\n{}", found.shown());
        for ((seen, (code, message, help)), (line, column)) in seen.iter().zip(expected).zip(marks) {
            assert_eq!(seen.code, *code, "\n{}", found.shown());
            assert_eq!(seen.severity, severity, "\n{}", found.shown());
            assert_eq!(seen.file, "garment.yaml", "\n{}", found.shown());
            assert_eq!((seen.line, seen.column), (line, column), "\n{}", found.shown());
            assert!(seen.message.contains(message), "expected `{message}` in\n{}", found.shown());
            assert!(seen.help.contains(help), "expected `{help}` in the help of\n{}", found.shown());
        }
    }
}

/// Line and column of each mark, both from 1.
fn places(text: &str) -> Vec<(usize, usize)> {
    let mut places = Vec::new();
    let (mut line, mut column) = (1, 1);
    for c in text.chars() {
        match c {
            MARK => places.push((line, column)),
            '\n' => (line, column) = (line + 1, 1),
            _ => column += 1,
        }
    }
    places
}

/// A fault as a maker sees it.
#[derive(Debug, Clone, PartialEq)]
pub struct Seen {
    pub code: &'static str,
    pub severity: &'static str,
    /// The file below the garment's folder; empty where there is none.
    pub file: String,
    pub line: usize,
    pub column: usize,
    pub message: String,
    pub help: String,
}

/// What checking found.
pub struct Found {
    home: TempDir,
    pub source: Source,
    pub build: Option<Build>,
    pub faults: Vec<Fault>,
}

impl Found {
    /// Checks the folder `apron` in a temporary folder.
    pub fn check(home: TempDir) -> Found {
        let (source, checked) = pipeline::check(&home.path().join("apron"));
        Found { home, source, build: checked.build, faults: checked.faults }
    }

    /// The garment's folder as shown.
    pub fn folder(&self) -> String {
        PathBuf::from(self.home.path()).join("apron").display().to_string()
    }

    /// The faults and warnings as seen.
    pub fn seen(&self) -> Vec<Seen> {
        let folder = self.folder() + "/";
        self.faults
            .iter()
            .map(|fault| {
                let place = Located::of(&fault.place, &self.source);
                let (file, line, column) = place
                    .map_or((String::new(), 0, 0), |place| (place.file.replace(&folder, ""), place.line, place.column));
                Seen {
                    code: fault.code.name(),
                    severity: if fault.stops() { "fault" } else { "warning" },
                    file,
                    line,
                    column,
                    message: fault.message.clone(),
                    help: fault.help.clone().unwrap_or_default(),
                }
            })
            .collect()
    }

    /// The one thing found.
    pub fn one(&self) -> Seen {
        let seen = self.seen();
        assert_eq!(seen.len(), 1, "\n{}", self.shown());
        seen[0].clone()
    }

    /// The faults as a maker sees them.
    pub fn shown(&self) -> String {
        self.faults.iter().map(|fault| render_human(fault, &self.source, false)).collect::<Vec<_>>().join("\n\n")
    }

    /// Every fault has words, and a place inside the file it names.
    pub fn assert_places(&self) {
        for fault in &self.faults {
            assert!(!fault.message.is_empty());
            let Some(span) = self.source.span(&fault.place) else {
                panic!("no place for {fault:?}");
            };
            let (_, text) = self.source.file(span).expect("the file of a place");
            assert!(span.start <= span.end && span.end <= text.len(), "{span:?} of {} for {fault:?}", text.len());
            assert!(Located::of(&fault.place, &self.source).is_some(), "{fault:?}");
        }
    }
}
