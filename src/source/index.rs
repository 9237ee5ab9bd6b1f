//! From YAML events to the tree of nodes.

use granit_parser::{Event, Parser, ScalarStyle, Span as YamlSpan};

use super::node::{Entry, Node, NodeKind};
use crate::fault::{Code, Fault, FileId, Place, Span};

/// How deep values may stand in each other.
pub const MAX_DEPTH: usize = 32;
/// How many values a file may hold.
pub const MAX_NODES: usize = 200_000;

struct Builder<'a> {
    file: FileId,
    text: &'a str,
    events: Vec<(Event<'a>, YamlSpan)>,
    next: usize,
    faults: Vec<Fault>,
    nodes: usize,
    /// Set when something makes the rest not worth reading.
    stop: bool,
}

/// Reads one YAML document. Anchors, aliases and tags are refused, so the tree is as large as the text.
///
/// # Errors
/// All faults of the text: syntax (the first one), duplicate keys, keys that are no text, features that
/// have no place here.
pub fn parse(file: FileId, text: &str) -> Result<Node, Vec<Fault>> {
    let whole = Span { file, start: 0, end: 0 };
    let mut events = Vec::new();
    for event in Parser::new_from_str(text) {
        match event {
            Ok((Event::StreamStart | Event::DocumentStart(..) | Event::DocumentEnd | Event::Comment(..), _)) => {}
            Ok((Event::StreamEnd, _)) => break,
            Ok(pair) => events.push(pair),
            Err(error) => {
                let at = boundary(text, error.marker().byte_offset().unwrap_or(text.len()));
                return Err(vec![not_yaml(file, text, at, &error.info())]);
            }
        }
        if events.len() > MAX_NODES {
            let message = format!("this file holds more than {MAX_NODES} values");
            return Err(vec![Fault::new(Code::TooMuch, whole, message).help("split it into several garments")]);
        }
    }
    let mut builder = Builder { file, text, events, next: 0, faults: Vec::new(), nodes: 0, stop: false };
    if builder.events.is_empty() {
        return Err(vec![Fault::new(Code::Yaml, whole, "this file is empty")]);
    }
    let root = builder.node(0);
    if !builder.stop && builder.next < builder.events.len() {
        let span = builder.span(builder.events[builder.next].1);
        builder.faults.push(
            Fault::new(Code::Yaml, span, "a second YAML document begins here")
                .help("a garment file is one document: remove the `---`"),
        );
    }
    if builder.faults.is_empty() { Ok(root) } else { Err(builder.faults) }
}

/// What the parser could not read, in a maker's words where it is one of the usual slips.
fn not_yaml(file: FileId, text: &str, at: usize, info: &str) -> Fault {
    let line_start = text[..at].rfind('\n').map_or(0, |end| end + 1);
    let line = text[line_start..].lines().next().unwrap_or("");
    // The parser may stop at the end of the line before the one with the tab.
    let after = line_start + line.len();
    let next_start = text[after..].find('\n').map_or(text.len(), |end| after + end + 1);
    let tab = |start: usize| {
        let indent = text[start..].find(|c| c != ' ' && c != '\t').unwrap_or(0);
        text[start..start + indent].find('\t').map(|tab| start + tab)
    };
    if let Some(start) = tab(line_start).or_else(|| tab(next_start).filter(|_| info.contains("tab"))) {
        let fault = Fault::new(Code::Yaml, Span { file, start, end: start + 1 }, "a tab stands in the indent here");
        return fault.help("indent with spaces only; most editors can turn tabs into spaces");
    }
    let span = Span { file, start: at, end: next_char(text, at) };
    if text[at..].starts_with('*') && info.contains("anchor") {
        return refusal(span, "an alias (`*name`)");
    }
    let before = text[..line_start].lines().next_back().unwrap_or("");
    let braces = [before, line].iter().any(|line| line.contains(": {{") || line.contains("- {{"));
    let help = if braces {
        "text that begins with `{{` goes in quotes: `\"{{ waist }} of cloth\"`"
    } else {
        "look here and in the lines above for a missing space behind a colon, an indent that does not line up, or a \
         quote that is not closed; text with `: ` or ` #` in it goes in quotes"
    };
    Fault::new(Code::Yaml, span, format!("this is not YAML: {info}")).help(help)
}

fn refusal(span: Span, what: &str) -> Fault {
    Fault::new(Code::YamlFeature, span, format!("{what} has no place in a garment file")).help(
        "write the value out, or give it a name under `numbers`; text that begins with `&`, `*` or `!` goes in quotes",
    )
}

/// The byte, or the first byte of the character it lies in.
fn boundary(text: &str, at: usize) -> usize {
    (0..=at.min(text.len())).rev().find(|at| text.is_char_boundary(*at)).unwrap_or(0)
}

fn next_char(text: &str, at: usize) -> usize {
    text[at..].chars().next().map_or(at, |c| at + c.len_utf8())
}

impl Builder<'_> {
    fn span(&self, span: YamlSpan) -> Span {
        let end = self.text.len();
        let start = boundary(self.text, span.start.byte_offset().unwrap_or(end));
        let end = boundary(self.text, span.end.byte_offset().unwrap_or(end));
        Span { file: self.file, start, end: end.max(start) }
    }

    fn refuse(&mut self, span: Span, what: &str) {
        self.faults.push(refusal(span, what));
    }

    /// From the sign of an anchor or tag, which stands before its value, to the end of the value's line.
    fn sign_span(&self, span: Span, sign: char) -> Span {
        let line_start = self.text[..span.start].rfind('\n').map_or(0, |end| end + 1);
        let start = self.text[line_start..span.start].rfind(sign).map_or(span.start, |at| line_start + at);
        Span { start, ..span }
    }

    fn node(&mut self, depth: usize) -> Node {
        let empty = |span| Node { span, kind: NodeKind::Scalar { text: String::new(), plain: true } };
        let Some((event, span)) = self.events.get(self.next).cloned() else {
            return empty(Span { file: self.file, start: self.text.len(), end: self.text.len() });
        };
        self.next += 1;
        self.nodes += 1;
        let place = self.span(span);
        if depth > MAX_DEPTH {
            if !self.stop {
                let message = format!("values are nested more than {MAX_DEPTH} deep here");
                self.faults.push(
                    Fault::new(Code::TooMuch, place, message)
                        .help("a garment file is never so deep: check the indents"),
                );
            }
            self.stop = true;
            self.next = self.events.len();
            return empty(place);
        }
        if let Some(tag) = event.tag()
            && !tag.to_string().is_empty()
        {
            self.refuse(self.sign_span(place, '!'), "a tag (`!name`)");
        }
        match event {
            Event::Scalar(text, style, anchor, _) => {
                if anchor > 0 {
                    self.refuse(self.sign_span(place, '&'), "an anchor (`&name`)");
                }
                let plain = style == ScalarStyle::Plain;
                Node { span: place, kind: NodeKind::Scalar { text: text.into_owned(), plain } }
            }
            Event::SequenceStart(_, anchor, _) => {
                if anchor > 0 {
                    self.refuse(self.sign_span(place, '&'), "an anchor (`&name`)");
                }
                let mut list = Vec::new();
                while self.more(&Event::SequenceEnd) {
                    list.push(self.node(depth + 1));
                }
                Node { span: self.until(place), kind: NodeKind::List(list) }
            }
            Event::MappingStart(_, anchor, _) => {
                if anchor > 0 {
                    self.refuse(self.sign_span(place, '&'), "an anchor (`&name`)");
                }
                let entries = self.entries(depth);
                Node { span: self.until(place), kind: NodeKind::Map(entries) }
            }
            Event::Alias(_) | Event::UnresolvedAlias(_) => {
                self.refuse(place, "an alias (`*name`)");
                empty(place)
            }
            _ => empty(place),
        }
    }

    fn entries(&mut self, depth: usize) -> Vec<Entry> {
        let mut entries: Vec<Entry> = Vec::new();
        let mut seen = std::collections::BTreeMap::new();
        while self.more(&Event::MappingEnd) {
            let key = self.node(depth + 1);
            let value = self.node(depth + 1);
            let NodeKind::Scalar { text, .. } = key.kind else {
                self.faults.push(
                    Fault::new(Code::WrongType, key.span, "a key must be plain text")
                        .help("text that begins with `{` or `[` goes in quotes: `\"{{ waist }} of cloth\"`"),
                );
                continue;
            };
            if text == "<<" {
                self.refuse(key.span, "a merge key (`<<`)");
                continue;
            }
            if let Some(&first) = seen.get(&text) {
                self.faults.push(
                    Fault::new(Code::DuplicateKey, key.span, format!("`{text}` stands here a second time"))
                        .also(Place::Span(first), "first here")
                        .help("keep one of the two"),
                );
                continue;
            }
            seen.insert(text.clone(), key.span);
            entries.push(Entry { key: text, key_span: key.span, value });
        }
        entries
    }

    fn more(&mut self, end: &Event<'_>) -> bool {
        match self.events.get(self.next) {
            None => false,
            Some((event, _)) if event == end => {
                self.next += 1;
                false
            }
            Some(_) => true,
        }
    }

    /// From the first byte of a collection to the end of its last value.
    fn until(&self, start: Span) -> Span {
        let end = self
            .next
            .checked_sub(1)
            .and_then(|at| self.events.get(at))
            .map_or(start.end, |(_, span)| self.span(*span).end);
        Span { end: end.max(start.start), ..start }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn slice<'a>(text: &'a str, node: &Node) -> &'a str {
        &text[node.span.start..node.span.end]
    }

    #[test]
    fn every_value_knows_its_bytes() {
        let text = "title: Grey wool\nsizes:\n  names: [6, 8]\n  waist: \"2 1/2\\\"\"\nprose: |\n  One.\n  Two.\n";
        let root = parse(FileId(0), text).unwrap();
        assert_eq!(slice(text, root.get("title").unwrap()), "Grey wool");
        let names = root.get("sizes").unwrap().get("names").unwrap();
        assert_eq!(slice(text, names), "[6, 8]");
        assert_eq!(root.get("sizes").unwrap().get("waist").unwrap().text(), Some("2 1/2\""));
        assert_eq!(root.get("prose").unwrap().text(), Some("One.\nTwo.\n"));
        assert_eq!(root.to_value(), serde_yaml::from_str::<serde_yaml::Value>(text).unwrap());
    }

    #[test]
    fn refused_features_and_duplicates() {
        let text = "a: &x 1\nb: *x\na: 3\nc: !foo 4\n";
        let faults = parse(FileId(0), text).unwrap_err();
        let codes: Vec<Code> = faults.iter().map(|fault| fault.code).collect();
        assert_eq!(codes, [Code::YamlFeature, Code::YamlFeature, Code::DuplicateKey, Code::YamlFeature]);
    }

    #[test]
    fn deep_nesting_is_refused() {
        let text = "[".repeat(5000) + &"]".repeat(5000);
        assert!(parse(FileId(0), &text).is_err());
    }

    #[test]
    fn tab_is_named() {
        let faults = parse(FileId(0), "a:\n\tb: 1\n").unwrap_err();
        assert!(faults[0].help.as_deref().unwrap_or("").contains("tab"), "{faults:?}");
    }
}
