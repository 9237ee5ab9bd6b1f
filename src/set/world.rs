//! What typst may see: the embedded templates, the embedded fonts and the data of one document.

use std::collections::HashMap;
use std::sync::LazyLock;

use typst::diag::{FileError, FileResult};
use typst::foundations::{Bytes, Datetime, Duration};
use typst::syntax::{FileId, RootedPath, Source, VirtualPath, VirtualRoot};
use typst::text::{Font, FontBook};
use typst::utils::LazyHash;
use typst::{Feature, Library, LibraryExt, World};

use super::fonts::FONTS;

macro_rules! templates {
    ($($path:literal),* $(,)?) => {
        /// Every template by its path from the root of `templates/`.
        const TEMPLATES: &[(&str, &str)] = &[
            $( (concat!("/", $path), include_str!(concat!("../../templates/", $path))), )*
        ];
    };
}

templates![
    "booklet.typ",
    "cutting-chart.typ",
    "what-changed.typ",
    "layouts.typ",
    "lib/figure.typ",
    "lib/layout.typ",
    "lib/page.typ",
    "lib/parts.typ",
    "lib/strip.typ",
    "lib/text.typ",
    "lib/theme.typ",
    "chapters/before.typ",
    "chapters/cautions.typ",
    "chapters/changes.typ",
    "chapters/contents.typ",
    "chapters/cover.typ",
    "chapters/cutting.typ",
    "chapters/glance.typ",
    "chapters/glossary.typ",
    "chapters/layouts.typ",
    "chapters/making.typ",
    "chapters/pieces.typ",
    "chapters/steps.typ",
    "chapters/swatch.typ",
    "chapters/terms.typ",
];

static LIBRARY: LazyLock<LazyHash<Library>> = LazyLock::new(|| {
    // Row headers of tables are tagged as such only with this feature.
    let features = [Feature::A11yExtras].into_iter().collect();
    LazyHash::new(Library::builder().with_features(features).build())
});

static SOURCES: LazyLock<HashMap<FileId, Source>> = LazyLock::new(|| {
    TEMPLATES
        .iter()
        .filter_map(|(path, text)| file_id(path).map(|id| (id, Source::new(id, (*text).to_string()))))
        .collect()
});

/// The id of a virtual path; none if the path is not one.
///
/// Ids are never given back, so paths must be few: they are made of fixed names and figure ids,
/// never of counters or hashes.
pub(super) fn file_id(path: &str) -> Option<FileId> {
    VirtualPath::new(path).ok().map(|path| RootedPath::new(VirtualRoot::Project, path).intern())
}

/// The world of one document.
pub(super) struct Desk {
    main: FileId,
    data: HashMap<FileId, Bytes>,
}

impl Desk {
    /// A world with a main template and data files. None if a path is not a path.
    pub(super) fn new(main: &str, files: Vec<(String, Vec<u8>)>) -> Option<Desk> {
        let data = files
            .into_iter()
            .map(|(path, bytes)| file_id(&path).map(|id| (id, Bytes::new(bytes))))
            .collect::<Option<HashMap<_, _>>>()?;
        Some(Desk { main: file_id(main)?, data })
    }
}

/// The error for a file that is not there.
fn absent(id: FileId) -> FileError {
    FileError::Other(Some(format!("there is no file {}", name(id)).into()))
}

/// How a file is called in messages.
pub(super) fn name(id: FileId) -> String {
    id.get().vpath().get_with_slash().to_string()
}

impl World for Desk {
    fn library(&self) -> &LazyHash<Library> {
        &LIBRARY
    }

    fn book(&self) -> &LazyHash<FontBook> {
        &FONTS.book
    }

    fn main(&self) -> FileId {
        self.main
    }

    fn source(&self, id: FileId) -> FileResult<Source> {
        SOURCES.get(&id).cloned().ok_or_else(|| absent(id))
    }

    fn file(&self, id: FileId) -> FileResult<Bytes> {
        self.data.get(&id).cloned().ok_or_else(|| absent(id))
    }

    fn font(&self, index: usize) -> Option<Font> {
        FONTS.fonts.get(index).cloned()
    }

    fn today(&self, _offset: Option<Duration>) -> Option<Datetime> {
        None
    }
}

#[cfg(test)]
mod tests {
    use super::TEMPLATES;

    #[test]
    fn every_template_is_embedded() {
        let root = concat!(env!("CARGO_MANIFEST_DIR"), "/templates");
        let found = walkdir::WalkDir::new(root)
            .into_iter()
            .filter_map(Result::ok)
            .filter(|entry| entry.path().extension().is_some_and(|ext| ext == "typ"))
            .count();
        assert_eq!(found, TEMPLATES.len());
    }
}
