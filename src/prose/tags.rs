//! Cutting a template into text and tags.

use std::collections::BTreeSet;
use std::ops::Range;

/// One stretch of the source: text, or a tag with what is in it.
pub(super) struct Piece {
    pub kind: Tag,
    /// All of it.
    pub whole: Range<usize>,
    /// What is inside a tag, or the text.
    pub inside: Range<usize>,
}

/// What a piece is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Tag {
    Text,
    Print,
    Statement,
    Remark,
}

/// How tags open and close.
const TAGS: [(&str, &str, Tag); 3] =
    [("{{", "}}", Tag::Print), ("{%", "%}", Tag::Statement), ("{#", "#}", Tag::Remark)];

/// A tag that is never closed: how it opens, where, and how it would close.
pub(super) struct Unclosed {
    pub opening: &'static str,
    pub closing: &'static str,
    pub at: Range<usize>,
}

/// Cuts a template into text and tags, white space beside tags taken away where they ask for it.
pub(super) fn cut(source: &str) -> (Vec<Piece>, Option<Unclosed>) {
    let mut pieces = Vec::new();
    let mut unclosed = None;
    let mut at = 0;
    while at < source.len() {
        let rest = source.get(at..).unwrap_or_default();
        let next =
            TAGS.iter().filter_map(|tag| rest.find(tag.0).map(|found| (found, tag))).min_by_key(|(found, _)| *found);
        let Some((found, &(opening, closing, kind))) = next else {
            pieces.push(Piece { kind: Tag::Text, whole: at..source.len(), inside: at..source.len() });
            break;
        };
        if found > 0 {
            pieces.push(Piece { kind: Tag::Text, whole: at..at + found, inside: at..at + found });
        }
        let start = at + found;
        let inside = start + opening.len();
        let Some(length) = source.get(inside..).and_then(|text| text.find(closing)) else {
            unclosed = Some(Unclosed { opening, closing, at: start..inside });
            break;
        };
        let end = inside + length;
        pieces.push(Piece { kind, whole: start..end + closing.len(), inside: inside..end });
        at = end + closing.len();
    }
    trim(source, &mut pieces);
    (pieces, unclosed)
}

/// The inside of a tag without the signs that take white space away.
pub(super) fn inside(source: &str, at: &Range<usize>) -> Range<usize> {
    let text = source.get(at.clone()).unwrap_or_default();
    let start = at.start + usize::from(text.starts_with('-'));
    let end = at.end - usize::from(text.len() > 1 && text.ends_with('-'));
    start..end.max(start)
}

/// Takes white space away beside `{%-` and `-%}`, and the line of a statement or remark that has it for
/// itself.
fn trim(source: &str, pieces: &mut [Piece]) {
    let text = |at: &Range<usize>| source.get(at.clone()).unwrap_or_default();
    let mut cuts: BTreeSet<(usize, usize)> = BTreeSet::new();
    for piece in pieces.iter().filter(|piece| piece.kind != Tag::Text) {
        let before = source.get(..piece.whole.start).unwrap_or_default();
        let behind = source.get(piece.whole.end..).unwrap_or_default();
        if text(&piece.inside).starts_with('-') {
            cuts.insert((before.trim_end().len(), before.len()));
        }
        if text(&piece.inside).len() > 1 && text(&piece.inside).ends_with('-') {
            cuts.insert((piece.whole.end, source.len() - behind.trim_start().len()));
        }
        if piece.kind == Tag::Print {
            continue;
        }
        let indent = before.trim_end_matches([' ', '\t']);
        let rest = behind.trim_start_matches([' ', '\t', '\r']);
        if (indent.is_empty() || indent.ends_with('\n')) && (rest.is_empty() || rest.starts_with('\n')) {
            cuts.insert((indent.len(), before.len()));
            let line_end = source.len() - rest.len() + usize::from(!rest.is_empty());
            cuts.insert((piece.whole.end, line_end));
        }
    }
    for piece in pieces.iter_mut().filter(|piece| piece.kind == Tag::Text) {
        for &(start, end) in &cuts {
            let at = &mut piece.inside;
            if start <= at.start && end > at.start {
                at.start = end.min(at.end);
            }
            if end >= at.end && start < at.end {
                at.end = start.max(at.start);
            }
        }
    }
}
