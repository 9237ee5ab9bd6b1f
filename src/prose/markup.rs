//! From rendered text to blocks with slots for the values.

use std::ops::Range;

use super::block::RefTarget;
use super::refs::TARGETS;
use super::render::Context;
use super::scan::{PLACE, VALUE};
use super::typography::{self, Sign};
use crate::fault::{Code, Fault, did_you_mean};

/// The most blocks, and the most entries of a list.
const MOST: usize = 200;

/// One sign of the rendered text and the byte of the template it comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Atom {
    Char(char, usize),
    Value(usize, usize),
}

impl Atom {
    fn char(self) -> Option<char> {
        match self {
            Atom::Char(c, _) => Some(c),
            Atom::Value(..) => None,
        }
    }

    fn at(self) -> usize {
        match self {
            Atom::Char(_, at) | Atom::Value(_, at) => at,
        }
    }

    fn is(self, c: char) -> bool {
        self.char() == Some(c)
    }

    fn is_space(self) -> bool {
        self.char().is_some_and(char::is_whitespace)
    }
}

/// What shape a block has.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Shape {
    Paragraph,
    List { ordered: bool },
    Note,
}

/// A block of one size, with slots where values stand.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct RawBlock {
    pub shape: Shape,
    /// One line; for a list, one an entry.
    pub lines: Vec<Vec<RawRun>>,
}

/// A run of one size.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum RawRun {
    Text { text: String, strong: bool, emph: bool },
    Slot { tag: usize, value: usize, first: bool, strong: bool, emph: bool },
    Ref { target: RefTarget, id: String, text: String },
}

impl RawBlock {
    /// Whether two blocks differ at most in the values in their slots.
    pub(super) fn same_wording(&self, other: &RawBlock) -> bool {
        let same = |a: &RawRun, b: &RawRun| match (a, b) {
            (
                RawRun::Slot { tag, first, strong, emph, .. },
                RawRun::Slot { tag: tag_b, first: first_b, strong: strong_b, emph: emph_b, .. },
            ) => (tag, first, strong, emph) == (tag_b, first_b, strong_b, emph_b),
            (RawRun::Slot { .. }, _) | (_, RawRun::Slot { .. }) => false,
            _ => a == b,
        };
        self.shape == other.shape
            && self.lines.len() == other.lines.len()
            && self
                .lines
                .iter()
                .zip(&other.lines)
                .all(|(a, b)| a.len() == b.len() && a.iter().zip(b).all(|(a, b)| same(a, b)))
    }
}

/// Parses the rendered text of one size.
pub(super) fn blocks(rendered: &str, context: &Context<'_>, faults: &mut Vec<Fault>) -> Vec<RawBlock> {
    let mut pending: Vec<(Shape, Vec<Vec<Atom>>)> = Vec::new();
    let mut blank = true;
    for line in atoms(rendered).split(|atom| atom.is('\n')) {
        let line = trimmed(line);
        let Some(first) = line.first() else {
            blank = true;
            continue;
        };
        let (shape, skip) = begins(line);
        let rest = trimmed(line.get(skip..).unwrap_or_default()).to_vec();
        if shape == Some(Shape::Note) && rest.is_empty() {
            // A bare `>` parts two notes, as a blank line parts two paragraphs.
            blank = true;
            continue;
        }
        let at = first.at();
        match (pending.last_mut(), shape) {
            (Some((Shape::List { ordered }, items)), Some(Shape::List { ordered: next })) if *ordered == next => {
                items.push(rest)
            }
            (Some((Shape::Note, lines)), Some(Shape::Note)) if !blank => extend(lines, at, rest),
            (_, Some(shape)) => pending.push((shape, vec![rest])),
            (Some((Shape::Paragraph | Shape::List { .. }, lines)), None) if !blank => extend(lines, at, line.to_vec()),
            (_, None) => pending.push((Shape::Paragraph, vec![line.to_vec()])),
        }
        blank = false;
    }
    if pending.len() > MOST || pending.iter().any(|(_, lines)| lines.len() > MOST) {
        let message = format!("this text has more than {MOST} paragraphs, or a list with more than {MOST} entries");
        let place = context.template.route().clone();
        faults.push(Fault::new(Code::TooMuch, place, message).help("divide it into several steps"));
        return Vec::new();
    }
    let mut made = Vec::new();
    for (shape, lines) in pending {
        let lines = lines.iter().map(|line| runs(line, context, faults)).collect();
        made.push(RawBlock { shape, lines });
    }
    made
}

fn extend(lines: &mut [Vec<Atom>], at: usize, more: Vec<Atom>) {
    if let Some(line) = lines.last_mut() {
        line.push(Atom::Char(' ', at));
        line.extend(more);
    }
}

/// The signs of the rendered text, marks resolved.
fn atoms(rendered: &str) -> Vec<Atom> {
    let mut found = Vec::new();
    let mut at = 0;
    let mut chars = rendered.chars();
    while let Some(c) = chars.next() {
        if c == VALUE[0] || c == PLACE[0] {
            let closing = if c == VALUE[0] { VALUE[1] } else { PLACE[1] };
            let digits: String = chars.by_ref().take_while(|c| *c != closing).collect();
            let number = digits.parse().unwrap_or_default();
            if c == VALUE[0] {
                found.push(Atom::Value(number, at));
            } else {
                at = number;
            }
        } else if c == '\r' {
            at += 1;
        } else {
            found.push(Atom::Char(if c == '\t' { ' ' } else { c }, at));
            at += c.len_utf8();
        }
    }
    found
}

fn trimmed(line: &[Atom]) -> &[Atom] {
    let start = line.iter().take_while(|atom| atom.is_space()).count();
    let line = line.get(start..).unwrap_or_default();
    let end = line.iter().rev().take_while(|atom| atom.is_space()).count();
    line.get(..line.len() - end).unwrap_or_default()
}

/// What block a line begins, and how many signs say so.
fn begins(line: &[Atom]) -> (Option<Shape>, usize) {
    let is = |at: usize, c: char| line.get(at).is_some_and(|atom| atom.is(c));
    let ends = |at: usize| line.get(at).is_none_or(|atom| atom.is(' '));
    if is(0, '>') && ends(1) {
        return (Some(Shape::Note), 1);
    }
    if is(0, '-') && is(1, ' ') {
        return (Some(Shape::List { ordered: false }), 1);
    }
    let digits = line.iter().take_while(|atom| atom.char().is_some_and(|c| c.is_ascii_digit())).count();
    if (1..=2).contains(&digits) && is(digits, '.') && is(digits + 1, ' ') {
        return (Some(Shape::List { ordered: true }), digits + 1);
    }
    (None, 0)
}

/// A line being read: signs with their emphasis, before typography.
#[derive(Clone, PartialEq)]
enum Item {
    Sign(Sign, bool, bool),
    Slot { tag: usize, value: usize, strong: bool, emph: bool },
    Ref { target: RefTarget, id: String, text: String },
}

fn runs(line: &[Atom], context: &Context<'_>, faults: &mut Vec<Fault>) -> Vec<RawRun> {
    let items = items(line, context, faults);
    let signs: Vec<Sign> = items
        .iter()
        .map(|item| match item {
            Item::Sign(sign, ..) => *sign,
            Item::Slot { .. } | Item::Ref { .. } => Sign::Thing,
        })
        .collect();
    let mut made: Vec<RawRun> = Vec::new();
    let mut so_far = String::new();
    for (item, set) in items.into_iter().zip(typography::set(&signs, context.setting.words)) {
        match item {
            Item::Sign(_, strong, emph) => {
                let more = set.unwrap_or_default();
                so_far.push_str(&more);
                match made.last_mut() {
                    Some(RawRun::Text { text, strong: s, emph: e }) if (*s, *e) == (strong, emph) => {
                        text.push_str(&more)
                    }
                    _ if more.is_empty() => {}
                    _ => made.push(RawRun::Text { text: more, strong, emph }),
                }
            }
            Item::Slot { tag, value, strong, emph } => {
                let before = so_far.trim_end();
                let first = before.is_empty() || (before.ends_with(['.', '!', '?']) && before.len() < so_far.len());
                so_far.push('x');
                made.push(RawRun::Slot { tag, value, first, strong, emph });
            }
            Item::Ref { target, id, text } => {
                so_far.push('x');
                made.push(RawRun::Ref { target, id, text });
            }
        }
    }
    made
}

fn items(line: &[Atom], context: &Context<'_>, faults: &mut Vec<Fault>) -> Vec<Item> {
    let mut items = Vec::new();
    // Where strong text and emphasis were opened, if they are open.
    let mut open: [Option<Range<usize>>; 2] = [None, None];
    let mut at = 0;
    while let Some(&atom) = line.get(at) {
        let [strong, emph] = [open[0].is_some(), open[1].is_some()];
        let next = line.get(at + 1).copied();
        match atom {
            Atom::Value(value, tag) => items.push(Item::Slot { tag, value, strong, emph }),
            Atom::Char('\\', _) if next.and_then(Atom::char).is_some_and(|c| c.is_ascii_punctuation()) => {
                let kept = next.and_then(Atom::char).unwrap_or('\\');
                items.push(Item::Sign(Sign::Kept(kept), strong, emph));
                at += 1;
            }
            Atom::Char('*', from) => {
                let double = next.is_some_and(|next| next.is('*'));
                let (which, length) = if double { (0, 2) } else { (1, 1) };
                let after = line.get(at + length).copied();
                let before = at.checked_sub(1).and_then(|at| line.get(at));
                if open[which].is_some() && before.is_some_and(|atom| !atom.is_space()) {
                    open[which] = None;
                } else if open[which].is_none() && after.is_some_and(|atom| !atom.is_space()) {
                    open[which] = Some(from..from + length);
                } else {
                    items.extend(std::iter::repeat_n(Item::Sign(Sign::Char('*'), strong, emph), length));
                }
                at += length - 1;
            }
            Atom::Char('[', _) => match reference(line.get(at..).unwrap_or_default(), context, faults) {
                Some((found, length)) => {
                    items.extend(found);
                    at += length - 1;
                }
                None => items.push(Item::Sign(Sign::Char('['), strong, emph)),
            },
            Atom::Char(c, _) => items.push(Item::Sign(Sign::Char(c), strong, emph)),
        }
        at += 1;
    }
    for (place, mark) in open.into_iter().zip(["**", "*"]) {
        if let Some(place) = place {
            let help =
                format!("close it with `{mark}` before the paragraph or the entry ends, or write `\\*` for a star");
            let place = context.template.place(place);
            faults.push(Fault::new(Code::Prose, place, format!("`{mark}` is never closed")).help(help));
        }
    }
    items
}

/// A reference at the beginning of the line, and how many signs it takes. `None` where the bracket is
/// only a bracket; no item where a fault has been said.
fn reference(line: &[Atom], context: &Context<'_>, faults: &mut Vec<Fault>) -> Option<(Option<Item>, usize)> {
    let word: String = line.iter().skip(1).map_while(|atom| atom.char().filter(char::is_ascii_lowercase)).collect();
    if word.is_empty() || !line.get(word.len() + 1).is_some_and(|atom| atom.is(':')) {
        return None;
    }
    let start = line.first()?.at();
    let mut fault = |at: Range<usize>, code: Code, message: String, help: String| {
        faults.push(Fault::new(code, context.template.place(at), message).help(help));
    };
    let Some(end) = line.iter().position(|atom| atom.is(']')) else {
        let message = format!("`[{word}:` is never closed");
        fault(
            start..start + word.len() + 2,
            Code::Prose,
            message,
            "write `]` where it ends, in the same paragraph".to_string(),
        );
        return Some((None, line.len()));
    };
    let taken = end + 1;
    let whole = start..line.get(end).map_or(start, |atom| atom.at() + 1);
    let Some(&(_, target)) = TARGETS.iter().find(|(name, _)| *name == word) else {
        let known: Vec<&str> = TARGETS.iter().map(|(name, _)| *name).collect();
        let help = format!("{}; a plain bracket is written `\\[`", did_you_mean(&word, &known));
        fault(whole, Code::Prose, format!("there is no reference `[{word}: ...]`"), help);
        return Some((None, taken));
    };
    let body = line.get(word.len() + 2..end).unwrap_or_default();
    if body.iter().any(|atom| atom.char().is_none()) {
        let help = "write the id itself, as in `[step: hem_first]`".to_string();
        fault(whole, Code::Prose, "a reference cannot hold a number".to_string(), help);
        return Some((None, taken));
    }
    let body: String = body.iter().filter_map(|atom| atom.char()).collect();
    let (id, text) = body.split_once('|').map_or((body.trim(), None), |(id, text)| (id.trim(), Some(text.trim())));
    let Some(kept) = context.setting.refs.find(target, id) else {
        let help = did_you_mean(id, &context.setting.refs.known(target));
        fault(whole, Code::UnknownName, format!("there is no {word} `{id}` to refer to"), help);
        return Some((None, taken));
    };
    let text = text.unwrap_or(if target == RefTarget::Term { id } else { "" });
    let text = typography::set(&text.chars().map(Sign::Char).collect::<Vec<_>>(), context.setting.words);
    let text = text.into_iter().flatten().collect();
    Some((Some(Item::Ref { target, id: kept.to_string(), text }), taken))
}
