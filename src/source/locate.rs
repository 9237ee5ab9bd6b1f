//! From a place inside a scalar's text to the bytes of the file.

use crate::fault::{FileText, Place, Span};
use crate::source::{Node, NodeKind, Source};

impl FileText for Source {
    fn file(&self, span: Span) -> Option<(&str, &str)> {
        let file = self.files.get(span.file.0 as usize)?;
        Some((&file.path, &file.text))
    }

    fn span(&self, place: &Place) -> Option<Span> {
        match place {
            Place::Nowhere => None,
            Place::Span(span) => Some(*span),
            Place::Value(route) => self.nearest(route).map(|(node, _)| self.first_line(node)),
            Place::Key(route) => {
                let (node, key) = self.nearest(route)?;
                Some(key.unwrap_or_else(|| self.first_line(node)))
            }
            Place::Within(route, range) => {
                let (node, _) = self.nearest(route)?;
                let NodeKind::Scalar { text, .. } = &node.kind else { return Some(self.first_line(node)) };
                let written = self.written(node.span)?;
                let start = align(text, written, range.start);
                let end = align(text, written, range.end).max(start);
                Some(Span { start: node.span.start + start, end: node.span.start + end, ..node.span })
            }
        }
    }
}

impl Source {
    fn written(&self, span: Span) -> Option<&str> {
        self.files.get(span.file.0 as usize)?.text.get(span.start..span.end)
    }

    /// A collection is shown by its first line, a scalar whole.
    fn first_line(&self, node: &Node) -> Span {
        let written = self.written(node.span).unwrap_or("");
        let line = written.find('\n').unwrap_or(written.len());
        Span { end: node.span.start + line, ..node.span }
    }

    /// The node at a route; where the route leads nowhere (a key that is missing), the last node on
    /// the way that is there.
    fn nearest(&self, route: &crate::fault::Route) -> Option<(&Node, Option<Span>)> {
        let root = self.root.as_ref()?;
        let mut route = route.clone();
        loop {
            if let Some(found) = root.walk(&route) {
                return Some(found);
            }
            route.0.pop()?;
        }
    }
}

/// The byte of the written form that stands for byte `at` of the resolved text: both are walked side by
/// side, skipping what only the written form has (quotes, the block sign, indents, folded line ends).
fn align(text: &str, written: &str, at: usize) -> usize {
    let mut rest = written.char_indices().peekable();
    let mut indent = usize::MAX;
    if written.starts_with(['|', '>']) {
        // The block sign and its line, then as many spaces as the first line with words is indented by.
        for (_, c) in rest.by_ref() {
            if c == '\n' {
                break;
            }
        }
        let body = rest.peek().map_or("", |(from, _)| &written[*from..]);
        indent = body
            .lines()
            .find(|line| !line.trim().is_empty())
            .map_or(0, |line| line.len() - line.trim_start_matches(' ').len());
        skip_spaces(&mut rest, indent);
    }
    for (index, wanted) in text.char_indices() {
        let mut look = rest.clone();
        let found = look.find(|(_, c)| *c == wanted || (wanted == ' ' && *c == '\n'));
        let Some((position, c)) = found else {
            return rest.peek().map_or(written.len(), |(position, _)| *position);
        };
        if index >= at {
            return position;
        }
        rest = look;
        if c == '\n' {
            skip_spaces(&mut rest, indent);
        }
    }
    rest.peek().map_or(written.len(), |(position, _)| *position)
}

fn skip_spaces(rest: &mut std::iter::Peekable<std::str::CharIndices<'_>>, most: usize) {
    for _ in 0..most {
        if rest.next_if(|(_, c)| *c == ' ').is_none() {
            return;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::align;

    #[test]
    fn block_and_quoted_scalars() {
        let written = "|\n  One {{ a }}.\n  Two.\n";
        let text = "One {{ a }}.\nTwo.\n";
        assert_eq!(align(text, written, 0), 4);
        assert_eq!(&written[align(text, written, 13)..], "Two.\n");
        let written = "|\n  1. One\n     more {{ x }}\n\n  Two.\n";
        let text = "1. One\n   more {{ x }}\n\nTwo.\n";
        assert_eq!(&written[align(text, written, text.find("{{").unwrap())..][..2], "{{");
        assert_eq!(&written[align(text, written, text.find("Two").unwrap())..], "Two.\n");
        let written = "\"say \\\"so\\\" twice\"";
        let text = "say \"so\" twice";
        assert_eq!(&written[align(text, written, 9)..], "twice\"");
        let written = ">\n  One\n  two three\n";
        assert_eq!(&written[align("One two three\n", written, 8)..], "three\n");
        assert_eq!(align("waist / 4", "waist / 4", 8), 8);
        assert_eq!(align("waist / 4", "waist / 4", 9), 9);
    }
}
