//! Reading a template: which tags it has, which names they use, and what they may not hold.
//!
//! A template is checked here in full and rewritten for the template engine: names and constants become
//! variables of ours, tags keep only what is allowed, and before each stretch of text stands a mark
//! with its place, so that a fault found in the rendered text leads back to the template.

use std::fmt::Write;
use std::ops::Range;

use super::condition;
use super::number::{FILTERS, Takes};
use super::tags::{self, Piece, Tag, Unclosed, inside};
use super::token::{Kind, Token, is_arithmetic, tokens};
use crate::fault::{Code, Fault, Place, Route, did_you_mean};
use crate::units::Quantity;

/// The longest template, in bytes.
pub(super) const LONGEST: usize = 32 * 1024;
/// The deepest nesting of `{% if %}`.
const DEEPEST: usize = 8;

/// Before the number of a printed value, and behind it.
pub(super) const VALUE: [char; 2] = ['\u{e000}', '\u{e001}'];
/// Before the place of a stretch of text, and behind it.
pub(super) const PLACE: [char; 2] = ['\u{e002}', '\u{e003}'];

/// A template that has been read.
#[derive(Debug, Clone)]
pub struct Template {
    pub(super) route: Route,
    /// The template as the engine takes it.
    pub(super) code: String,
    /// Which bytes of `code` come from which of the source.
    pub(super) spots: Vec<(Range<usize>, Range<usize>)>,
    /// The names used; the variable of each is `v` and its index.
    pub(super) names: Vec<String>,
    /// Where names stand.
    pub(super) uses: Vec<(usize, Range<usize>)>,
    /// Numbers and words written in tags; the variable of each is `c` and its index.
    pub(super) constants: Vec<Constant>,
    /// What is compared with what.
    pub(super) comparisons: Vec<(Side, Side, Range<usize>)>,
    /// Sizes named in conditions.
    pub(super) sizes: Vec<(String, Range<usize>)>,
}

/// A number or words written in a tag.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Constant {
    Number(Quantity),
    Words(String),
}

/// One side of a comparison, as far as its dimension goes.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Side {
    Name(usize),
    Number(Quantity),
}

/// The names a template uses, in the order they first stand there; also where the template has faults.
#[must_use]
pub fn names_used(template: &str) -> Vec<String> {
    let mut scan = Scan::new(Route::top(), template);
    scan.run();
    scan.template.names
}

impl Template {
    /// Reads a template: the text of the scalar at `route`.
    ///
    /// # Errors
    /// Everything wrong with its tags at once, each with its place within the text.
    pub fn read(route: Route, text: &str) -> Result<Template, Vec<Fault>> {
        let mut scan = Scan::new(route, text);
        scan.run();
        if scan.faults.is_empty() { Ok(scan.template) } else { Err(scan.faults) }
    }

    /// The names it uses, in the order they first stand there.
    #[must_use]
    pub fn names_used(&self) -> &[String] {
        &self.names
    }

    /// Where it stands in the garment file.
    #[must_use]
    pub fn route(&self) -> &Route {
        &self.route
    }

    pub(super) fn place(&self, at: Range<usize>) -> Place {
        Place::Within(self.route.clone(), at)
    }
}

pub(super) struct Scan<'a> {
    source: &'a str,
    pub(super) template: Template,
    pub(super) faults: Vec<Fault>,
    /// Open `{% if %}`s: where each stands, and whether its `else` has been.
    open: Vec<(Range<usize>, bool)>,
}

impl<'a> Scan<'a> {
    fn new(route: Route, source: &'a str) -> Scan<'a> {
        let template = Template {
            route,
            code: String::new(),
            spots: Vec::new(),
            names: Vec::new(),
            uses: Vec::new(),
            constants: Vec::new(),
            comparisons: Vec::new(),
            sizes: Vec::new(),
        };
        Scan { source, template, faults: Vec::new(), open: Vec::new() }
    }

    pub(super) fn fault(&mut self, at: Range<usize>, message: impl Into<String>, help: impl Into<String>) {
        let place = self.template.place(at);
        self.faults.push(Fault::new(Code::Prose, place, message).help(help));
    }

    fn run(&mut self) {
        if self.source.len() > LONGEST {
            let message = format!("expected at most {LONGEST} bytes of prose, but found {}", self.source.len());
            let place = Place::Value(self.template.route.clone());
            self.faults.push(Fault::new(Code::TooMuch, place, message).help("divide it into several steps"));
            return;
        }
        for (at, c) in self.source.char_indices() {
            if matches!(c, '\u{e000}'..='\u{f8ff}' | '\u{f0000}'..)
                || (c.is_control() && !matches!(c, '\n' | '\t' | '\r'))
            {
                let message = format!("the character U+{:04X} has no meaning in prose", u32::from(c));
                self.fault(
                    at..at + c.len_utf8(),
                    message,
                    "delete it: it is invisible, and other programs give it meanings of their own",
                );
            }
        }
        if !self.faults.is_empty() {
            return;
        }
        let (pieces, unclosed) = tags::cut(self.source);
        if let Some(Unclosed { opening, closing, at }) = unclosed {
            self.fault(at, format!("`{opening}` is never closed"), format!("write `{closing}` where it ends"));
        }
        for piece in &pieces {
            match piece.kind {
                Tag::Text => self.text(piece.inside.clone()),
                Tag::Print => self.print(piece),
                Tag::Statement => self.statement(piece),
                Tag::Remark => {}
            }
        }
        while let Some((at, _)) = self.open.pop() {
            self.fault(at, "this `if` is never closed", "write `{% endif %}` where it ends");
        }
    }

    fn text(&mut self, at: Range<usize>) {
        let text = self.source.get(at.clone()).unwrap_or_default();
        for closing in ["}}", "%}"] {
            if let Some(found) = text.find(closing) {
                let opening = if closing == "}}" { "{{" } else { "{%" };
                let start = at.start + found;
                self.fault(
                    start..start + 2,
                    format!("`{closing}` closes nothing"),
                    format!("write `{opening}` before it"),
                );
            }
        }
        self.mark_place(at.start);
        self.template.code.push_str(text);
    }

    fn mark_place(&mut self, at: usize) {
        let [before, behind] = PLACE;
        // Writing to a string cannot fail.
        let _ = write!(self.template.code, "{before}{at}{behind}");
    }

    fn emit(&mut self, code: &str, source: Range<usize>) {
        let start = self.template.code.len();
        self.template.code.push_str(code);
        self.template.spots.push((start..self.template.code.len(), source));
    }

    fn print(&mut self, piece: &Piece) {
        let found = tokens(self.source, inside(self.source, &piece.inside));
        self.mark_place(piece.whole.start);
        let Some(first) = found.first() else {
            self.fault(piece.whole.clone(), "this tag is empty", "name a number: `{{ waist }}`");
            return;
        };
        let mut reader = Reader { tokens: &found, next: 0, end: piece.inside.end };
        match &first.kind {
            Kind::Name(name) if name == "size" => {
                self.fault(
                    first.at.clone(),
                    "`size` cannot be printed",
                    "every column is headed by its size; in conditions `size` can be compared",
                );
            }
            Kind::Name(_) => {
                if let Some((code, _)) = self.operand(&mut reader)
                    && self.nothing_left(&mut reader)
                {
                    self.emit(&format!("{{{{ {code} }}}}"), piece.whole.clone());
                }
            }
            _ => {
                let text = self.source.get(first.at.clone()).unwrap_or_default().to_string();
                self.fault(
                    first.at.clone(),
                    format!("expected a name, but found `{text}`"),
                    "numbers stand in prose by name: `{{ waist }}`",
                );
            }
        }
    }

    fn statement(&mut self, piece: &Piece) {
        let found = tokens(self.source, inside(self.source, &piece.inside));
        let mut reader = Reader { tokens: &found, next: 0, end: piece.inside.end };
        let Some(Token { kind: Kind::Name(word), at }) = reader.take() else {
            self.fault(
                piece.whole.clone(),
                "expected `if`, `elif`, `else` or `endif`",
                "write `{% if skirt.pleats > 300 %}`",
            );
            return;
        };
        let at = at.clone();
        match word.as_str() {
            "if" => {
                if self.open.len() >= DEEPEST {
                    self.fault(at, format!("more than {DEEPEST} `if`s stand within each other"), "divide the text");
                    return;
                }
                self.open.push((piece.whole.clone(), false));
                self.condition("if", &mut reader, piece);
            }
            "elif" => match self.open.last() {
                None => self.fault(at, "this `elif` has no `if` before it", "write `{% if ... %}` where it begins"),
                Some((_, true)) => self.fault(at, "this `elif` stands behind `else`", "put `else` last"),
                Some(_) => self.condition("elif", &mut reader, piece),
            },
            "else" => match self.open.last_mut() {
                None => self.fault(at, "this `else` has no `if` before it", "write `{% if ... %}` where it begins"),
                Some((_, true)) => self.fault(at, "this `if` has an `else` already", "use `elif` for a further case"),
                Some((_, done)) => {
                    *done = true;
                    if self.nothing_left(&mut reader) {
                        self.emit("{% else %}", piece.whole.clone());
                    }
                }
            },
            "endif" => match self.open.pop() {
                None => self.fault(at, "this `endif` closes nothing", "write `{% if ... %}` where it begins"),
                Some(_) => {
                    if self.nothing_left(&mut reader) {
                        self.emit("{% endif %}", piece.whole.clone());
                    }
                }
            },
            other => {
                let known = ["if", "elif", "else", "endif"];
                let message = format!("`{other}` has no place in prose: expected `if`, `elif`, `else` or `endif`");
                self.fault(at, message, did_you_mean(other, &known));
            }
        }
    }

    fn condition(&mut self, word: &str, reader: &mut Reader<'_>, piece: &Piece) {
        if let Some(code) = condition::condition(self, reader, 0)
            && self.nothing_left(reader)
        {
            self.emit(&format!("{{% {word} {code} %}}"), piece.whole.clone());
        }
    }

    /// A name with its filters; the code for the engine, and its dimension if no filter changes it.
    pub(super) fn operand(&mut self, reader: &mut Reader<'_>) -> Option<(String, usize)> {
        let token = reader.take()?;
        let Kind::Name(name) = &token.kind else { return None };
        let index = match self.template.names.iter().position(|known| known == name) {
            Some(index) => index,
            None => {
                self.template.names.push(name.clone());
                self.template.names.len() - 1
            }
        };
        self.template.uses.push((index, token.at.clone()));
        let mut code = format!("v{index}");
        while reader.sign("|") {
            let (filter, argument) = self.filter(reader)?;
            code.push('|');
            code.push_str(filter);
            if let Some(constant) = argument {
                let _ = write!(code, "({})", self.constant(constant));
            }
        }
        Some((code, index))
    }

    fn filter(&mut self, reader: &mut Reader<'_>) -> Option<(&'static str, Option<Constant>)> {
        let end = reader.here();
        let Some(Token { kind: Kind::Name(name), at }) = reader.take() else {
            self.fault(
                end,
                "expected a filter behind `|`",
                "write one, as in `{{ waist | sixteenths }}`, or take the bar out",
            );
            return None;
        };
        let Some(filter) = FILTERS.iter().find(|filter| filter.name == name) else {
            let known: Vec<&str> = FILTERS.iter().map(|filter| filter.name).collect();
            let help = did_you_mean(name, &known);
            self.fault(at.clone(), format!("there is no filter `{name}`"), help);
            return None;
        };
        let at = at.clone();
        if !reader.sign("(") {
            return match filter.takes {
                Takes::Nothing => Some((filter.name, None)),
                Takes::Number => {
                    self.fault(at, format!("`{name}` needs a number in brackets"), format!("write `{name}(2)`"));
                    None
                }
                Takes::Words => {
                    self.fault(
                        at,
                        format!("`{name}` needs words in brackets and quotes"),
                        format!("write `{name}(\"from the fold\")`"),
                    );
                    None
                }
            };
        }
        let here = reader.here();
        let argument = match (filter.takes, reader.take().map(|token| &token.kind)) {
            (Takes::Number, Some(Kind::Number(number))) if number.is_finite() && *number <= 1e6 => {
                Some(Constant::Number(Quantity::number(*number)))
            }
            (Takes::Words, Some(Kind::Words(words))) if words.chars().count() <= 80 => {
                Some(Constant::Words(words.clone()))
            }
            _ => None,
        };
        match argument {
            Some(argument) if reader.sign(")") => Some((filter.name, Some(argument))),
            _ => {
                let expected = match filter.takes {
                    Takes::Nothing => "takes nothing in brackets",
                    Takes::Number => "takes one bare number in brackets",
                    Takes::Words => "takes at most 80 characters in brackets and quotes",
                };
                self.fault(here, format!("`{name}` {expected}"), filter.doc);
                None
            }
        }
    }

    /// The variable of a number or words written in a tag.
    pub(super) fn constant(&mut self, constant: Constant) -> String {
        self.template.constants.push(constant);
        format!("c{}", self.template.constants.len() - 1)
    }

    /// Whether the tag is at its end; a fault where it is not.
    fn nothing_left(&mut self, reader: &mut Reader<'_>) -> bool {
        let Some(token) = reader.take() else { return true };
        let text = self.source.get(token.at.clone()).unwrap_or_default().to_string();
        match &token.kind {
            Kind::Sign(sign) if is_arithmetic(sign) => {
                let whole = self.source.get(reader.all()).unwrap_or_default().trim().to_string();
                let help = format!(
                    "name the result under `numbers`, as in `my_number: {whole}`, and write `{{{{ my_number }}}}` here"
                );
                self.fault(token.at.clone(), "prose does not reckon", help);
            }
            Kind::Open => {
                self.fault(token.at.clone(), "these quotes are never closed", "close them before the tag ends")
            }
            _ => self.fault(
                token.at.clone(),
                format!("`{text}` has no meaning here"),
                "a tag holds a name and filters, or a condition",
            ),
        }
        false
    }
}

/// Reads the tokens of a tag one by one.
pub(super) struct Reader<'a> {
    tokens: &'a [Token],
    next: usize,
    end: usize,
}

impl<'a> Reader<'a> {
    pub(super) fn peek(&self) -> Option<&'a Token> {
        self.tokens.get(self.next)
    }

    pub(super) fn take(&mut self) -> Option<&'a Token> {
        let token = self.tokens.get(self.next)?;
        self.next += 1;
        Some(token)
    }

    pub(super) fn sign(&mut self, sign: &str) -> bool {
        let found = self.peek().is_some_and(|token| matches!(token.kind, Kind::Sign(other) if other == sign));
        self.next += usize::from(found);
        found
    }

    pub(super) fn word(&mut self, word: &str) -> bool {
        let found = self.peek().is_some_and(|token| matches!(&token.kind, Kind::Name(name) if name == word));
        self.next += usize::from(found);
        found
    }

    /// Where the next token stands, or the end of the tag.
    pub(super) fn here(&self) -> Range<usize> {
        self.peek().map_or(self.end..self.end, |token| token.at.clone())
    }

    /// Where the token last taken ends.
    pub(super) fn last(&self) -> usize {
        self.next.checked_sub(1).and_then(|at| self.tokens.get(at)).map_or(self.end, |token| token.at.end)
    }

    fn all(&self) -> Range<usize> {
        self.tokens.first().map_or(self.end, |token| token.at.start)
            ..self.tokens.last().map_or(self.end, |token| token.at.end)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn faults(text: &str) -> Vec<(String, String)> {
        let faults = Template::read(Route::top().key("prose"), text).expect_err(text);
        faults
            .into_iter()
            .map(|fault| match fault.place {
                Place::Within(_, at) => (fault.message, text[at].to_string()),
                place => (fault.message, format!("{place:?}")),
            })
            .collect()
    }

    #[test]
    fn faults_stand_where_they_are() {
        for (text, message, marked) in [
            ("Fold {{ waist", "`{{` is never closed", "{{"),
            ("Fold waist }} in", "`}}` closes nothing", "}}"),
            ("{{ waist | eights }}", "there is no filter `eights`", "eights"),
            ("{{ waist | }}", "expected a filter behind `|`", ""),
            ("{{ waist + 3 }}", "prose does not reckon", "+"),
            ("{{ 3 }}", "expected a name, but found `3`", "3"),
            ("{{ waist | times }}", "`times` needs a number in brackets", "times"),
            ("{{ waist | half(2) }}", "`half` takes nothing in brackets", "2"),
            ("{{ waist hip }}", "`hip` has no meaning here", "hip"),
            ("{{ }}", "this tag is empty", "{{ }}"),
            ("{{ size }}", "`size` cannot be printed", "size"),
            ("{{ waist | label(\"x }}", "`label` takes at most 80 characters in brackets and quotes", "\"x "),
            ("{% for x in y %}", "`for` has no place in prose: expected `if`, `elif`, `else` or `endif`", "for"),
            (
                "{% include 'x' %}",
                "`include` has no place in prose: expected `if`, `elif`, `else` or `endif`",
                "include",
            ),
            ("{% if waist > 3 %}a", "this `if` is never closed", "{% if waist > 3 %}"),
            ("{% endif %}", "this `endif` closes nothing", "endif"),
            ("{% if waist %}a{% endif %}", "expected a comparison", ""),
            ("{% if waist > %}a{% endif %}", "expected a name, a number or a length in quotes", ""),
            ("{% if waist > \"3 furlong\" %}a{% endif %}", "`3 furlong` is no number with a unit", "\"3 furlong\""),
            ("a\u{e000}b", "the character U+E000 has no meaning in prose", "\u{e000}"),
        ] {
            let found = faults(text);
            assert!(found.contains(&(message.to_string(), marked.to_string())), "{text}: {found:?}");
        }
    }

    #[test]
    fn too_long_and_too_deep() {
        assert!(faults(&"a".repeat(LONGEST + 1))[0].0.contains("bytes of prose"));
        let deep = "{% if waist > 3 %}".repeat(9) + &"{% endif %}".repeat(9);
        assert!(faults(&deep)[0].0.contains("within each other"));
        assert!(faults(&format!("{{% if {} %}}a{{% endif %}}", "(".repeat(50)))[0].0.contains("brackets"));
    }

    #[test]
    fn names_in_order_once_each() {
        let text = "{{ b.c | half }}{% if size in ['6'] and a > c.d %}{{ b.c }}{% endif %}{{ oops";
        assert_eq!(names_used(text), ["b.c", "a", "c.d"]);
    }

    #[test]
    fn a_statement_takes_its_line_with_it() {
        let text = "One.\n{% if a > 1 %}\nTwo.\n  {# remark #}  \n{% endif %}\nThree{{- a -}} x";
        let template = Template::read(Route::top(), text).unwrap();
        let [before, behind] = PLACE;
        let code: String = template.code.replace(|c: char| c == before || c == behind || c.is_ascii_digit(), "");
        assert_eq!(code, "One.\n{% if v > c %}Two.\n{% endif %}Three{{ v }}x");
    }
}
