//! Pages to print again, and files to upload again.

use serde::Serialize;

use super::seams::Fate;

/// A document as it is on the disk or would be: its path, and a digest of what each page shows between head and foot.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Document {
    /// Path below the garment's output folder.
    pub path: String,
    /// SHA-256 of its bytes.
    pub sha256: String,
    /// One digest a page; nothing where they are not known.
    pub pages: Option<Vec<String>>,
}

/// A document that is not what it was.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct DocumentChange {
    /// Path below the garment's output folder.
    pub path: String,
    /// Whether it is new, gone or otherwise.
    pub what: Fate,
    /// The pages of the new document that show something else than any page of the old one, counted from 1. Nothing where
    /// pages are not known.
    pub print: Option<Vec<usize>>,
    /// Pages that only moved: number before, number now.
    pub moved: Vec<(usize, usize)>,
    /// How many pages it has now.
    pub pages: usize,
}

/// Every document that changed, so that it must be uploaded again.
pub(super) fn documents(old: &[Document], new: &[Document]) -> Vec<DocumentChange> {
    let mut changes = Vec::new();
    for document in new {
        match old.iter().find(|other| other.path == document.path) {
            None => changes.push(DocumentChange {
                path: document.path.clone(),
                what: Fate::New,
                print: document.pages.as_ref().map(|pages| (1..=pages.len()).collect()),
                moved: Vec::new(),
                pages: document.pages.as_ref().map_or(0, Vec::len),
            }),
            Some(before) if before.sha256 != document.sha256 => changes.push(changed(before, document)),
            Some(_) => {}
        }
    }
    let gone = old.iter().filter(|document| !new.iter().any(|other| other.path == document.path));
    changes.extend(gone.map(|document| DocumentChange {
        path: document.path.clone(),
        what: Fate::Gone,
        print: None,
        moved: Vec::new(),
        pages: 0,
    }));
    changes
}

fn changed(old: &Document, new: &Document) -> DocumentChange {
    let mut change = DocumentChange {
        path: new.path.clone(),
        what: Fate::Changed,
        print: None,
        moved: Vec::new(),
        pages: new.pages.as_ref().map_or(0, Vec::len),
    };
    let (Some(before), Some(after)) = (&old.pages, &new.pages) else { return change };
    let mut print = Vec::new();
    for (at, page) in after.iter().enumerate() {
        if before.get(at) == Some(page) {
            continue;
        }
        match before.iter().position(|other| other == page) {
            Some(was) => change.moved.push((was + 1, at + 1)),
            None => print.push(at + 1),
        }
    }
    change.print = Some(print);
    change
}

/// Page numbers as a printer takes them: `1, 4-6`.
#[must_use]
pub(super) fn ranges(pages: &[usize]) -> String {
    let mut parts: Vec<(usize, usize)> = Vec::new();
    for page in pages {
        match parts.last_mut() {
            Some((_, last)) if *last + 1 == *page => *last = *page,
            _ => parts.push((*page, *page)),
        }
    }
    let words: Vec<String> =
        parts.iter().map(|(a, b)| if a == b { a.to_string() } else { format!("{a}-{b}") }).collect();
    words.join(", ")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn document(sha: &str, pages: &[&str]) -> Document {
        let pages = Some(pages.iter().map(ToString::to_string).collect());
        Document { path: "booklet.pdf".to_string(), sha256: sha.to_string(), pages }
    }

    #[test]
    fn a_page_that_came_in_moves_those_behind_it() {
        let changes = documents(&[document("1", &["a", "b", "c"])], &[document("2", &["a", "new", "b", "other"])]);
        assert_eq!(changes[0].print, Some(vec![2, 4]));
        assert_eq!(changes[0].moved, [(2, 3)]);
        assert_eq!(documents(&[document("1", &["a"])], &[document("1", &["a"])]), []);
        let meta_only = documents(&[document("1", &["a"])], &[document("2", &["a"])]);
        assert_eq!(meta_only[0].print, Some(Vec::new()), "uploaded again, but nothing to print");
    }

    #[test]
    fn as_a_printer_takes_them() {
        assert_eq!(ranges(&[1, 4, 5, 6, 9]), "1, 4-6, 9");
        assert_eq!(ranges(&[]), "");
    }
}
