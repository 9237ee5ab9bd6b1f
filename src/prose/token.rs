//! The words and signs inside a tag.

use std::ops::Range;

/// What a token is.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Kind {
    /// A name, with its dots: `skirt.pleats`.
    Name(String),
    /// A bare number.
    Number(f64),
    /// Words in quotes.
    Words(String),
    /// A sign.
    Sign(&'static str),
    /// Something that has no place in a tag.
    Odd(char),
    /// Words in quotes that never end.
    Open,
}

/// A token and where it stands in the template.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Token {
    pub kind: Kind,
    pub at: Range<usize>,
}

/// The signs a tag may hold, and those of arithmetic, which it may not; longer ones first.
const SIGNS: [&str; 22] = [
    "**", "//", "==", "!=", "<=", ">=", "|", "(", ")", "[", "]", ",", "<", ">", "+", "-", "*", "/", "%", "~", "^", "=",
];

/// Whether a sign belongs to arithmetic.
pub(super) fn is_arithmetic(sign: &str) -> bool {
    matches!(sign, "**" | "//" | "+" | "-" | "*" | "/" | "%" | "~" | "^")
}

/// The tokens of a stretch of the template.
pub(super) fn tokens(source: &str, within: Range<usize>) -> Vec<Token> {
    let mut found = Vec::new();
    let mut at = within.start;
    while let Some(rest) = source.get(at..within.end)
        && let Some(first) = rest.chars().next()
    {
        if first.is_whitespace() {
            at += first.len_utf8();
            continue;
        }
        let (kind, length) = one(rest, first);
        found.push(Token { kind, at: at..at + length });
        at += length;
    }
    found
}

fn one(rest: &str, first: char) -> (Kind, usize) {
    if first.is_alphabetic() || first == '_' {
        let length = name_length(rest);
        return (Kind::Name(rest.get(..length).unwrap_or_default().to_string()), length);
    }
    if first.is_ascii_digit() {
        let whole = run(rest, |c| c.is_ascii_digit());
        let after = rest.get(whole..).unwrap_or_default();
        let part = after.strip_prefix('.').map_or(0, |digits| run(digits, |c| c.is_ascii_digit()));
        let length = if part > 0 { whole + 1 + part } else { whole };
        let number = rest.get(..length).and_then(|text| text.parse().ok()).unwrap_or(f64::NAN);
        return (Kind::Number(number), length);
    }
    if first == '"' || first == '\'' {
        let inside = rest.get(1..).unwrap_or_default();
        return match inside.find(first) {
            Some(end) => (Kind::Words(inside.get(..end).unwrap_or_default().to_string()), end + 2),
            None => (Kind::Open, rest.len()),
        };
    }
    match SIGNS.iter().find(|sign| rest.starts_with(**sign)) {
        Some(sign) => (Kind::Sign(sign), sign.len()),
        None => (Kind::Odd(first), first.len_utf8()),
    }
}

fn run(text: &str, holds: impl Fn(char) -> bool) -> usize {
    text.chars().take_while(|c| holds(*c)).map(char::len_utf8).sum()
}

fn name_length(text: &str) -> usize {
    let mut length = 0;
    loop {
        let rest = text.get(length..).unwrap_or_default();
        length += run(rest, |c| c.is_alphanumeric() || c == '_');
        let after = text.get(length..).unwrap_or_default();
        match after.strip_prefix('.').and_then(|next| next.chars().next()) {
            Some(next) if next.is_alphabetic() => length += 1,
            _ => return length,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_keep_their_dots() {
        let source = "skirt.pleats | times(2.5) >= \"90 cm\"";
        let kinds: Vec<Kind> = tokens(source, 0..source.len()).into_iter().map(|token| token.kind).collect();
        assert_eq!(
            kinds,
            vec![
                Kind::Name("skirt.pleats".into()),
                Kind::Sign("|"),
                Kind::Name("times".into()),
                Kind::Sign("("),
                Kind::Number(2.5),
                Kind::Sign(")"),
                Kind::Sign(">="),
                Kind::Words("90 cm".into()),
            ]
        );
        assert_eq!(tokens("länge.ärmel", 0..13)[0].at, 0..13);
    }
}
