//! Words of a formula.

use std::ops::Range;

use super::fault::FormulaFault;
use crate::units::{Quantity, UNIT_NAMES, parse_number, unit};

#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Word {
    Literal(Quantity),
    Name(String),
    Sign(&'static str),
    End,
}

const SIGNS: [&str; 15] = ["<=", ">=", "+", "-", "*", "/", "^", "(", ")", ",", "<", ">", "×", "÷", "−"];

/// Splits a formula into words, each with its bytes; the last is [`Word::End`].
pub(crate) fn lex(text: &str) -> Result<Vec<(Word, Range<usize>)>, FormulaFault> {
    let mut words = Vec::new();
    let mut at = 0;
    while let Some(c) = text[at..].chars().next() {
        if c.is_whitespace() {
            at += c.len_utf8();
            continue;
        }
        let rest = &text[at..];
        let (word, taken) = if let Some((value, taken)) = parse_number(rest) {
            literal(rest, value, taken, at)?
        } else if c.is_alphabetic() || c == '_' {
            let taken = name_len(rest);
            (Word::Name(rest[..taken].to_string()), taken)
        } else if let Some(sign) = SIGNS.iter().find(|sign| rest.starts_with(**sign)) {
            let plain = match *sign {
                "×" => "*",
                "÷" => "/",
                "−" => "-",
                other => other,
            };
            (Word::Sign(plain), sign.len())
        } else {
            let message = if c == '.' {
                "a number begins with a digit: write `0.5`, not `.5`".to_string()
            } else {
                format!("`{c}` has no place in a formula")
            };
            return Err(FormulaFault::syntax(at..at + c.len_utf8(), message));
        };
        words.push((word, at..at + taken));
        at += taken;
    }
    words.push((Word::End, text.len()..text.len()));
    Ok(words)
}

fn name_len(rest: &str) -> usize {
    rest.char_indices()
        .find(|(_, c)| !(c.is_alphanumeric() || *c == '_' || *c == '.'))
        .map_or(rest.len(), |(end, _)| end)
}

/// A number with the unit behind it, if one is there.
fn literal(rest: &str, value: f64, taken: usize, at: usize) -> Result<(Word, usize), FormulaFault> {
    let number = Word::Literal(Quantity::number(value));
    let gap = rest[taken..].len() - rest[taken..].trim_start_matches([' ', '\u{a0}']).len();
    let tail = &rest[taken + gap..];
    let Some(c) = tail.chars().next() else { return Ok((number, taken)) };
    let len = match c {
        '"' | '″' | '°' | '%' => c.len_utf8(),
        c if c.is_alphabetic() => unit_len(tail),
        _ => return Ok((number, taken)),
    };
    let name = &tail[..len];
    let Some(unit) = unit(name) else {
        let from = at + taken + gap;
        return Err(FormulaFault::syntax(
            from..from + len,
            format!(
                "`{name}` is not a unit (units are {}); to multiply, write `*` between a number and a name",
                UNIT_NAMES.join(", ")
            ),
        ));
    };
    Ok((Word::Literal(Quantity::new(value * unit.factor, unit.dim)), taken + gap + len))
}

/// The longest stretch that is a unit (`g/m2`, `oz/yd2`), else the letters and digits.
fn unit_len(tail: &str) -> usize {
    for name in ["g/m2", "oz/yd2"] {
        let after = tail.strip_prefix(name).map(|rest| rest.chars().next());
        if let Some(next) = after
            && !next.is_some_and(char::is_alphanumeric)
        {
            return name.len();
        }
    }
    tail.char_indices().find(|(_, c)| !(c.is_alphanumeric() || *c == '_')).map_or(tail.len(), |(end, _)| end)
}
