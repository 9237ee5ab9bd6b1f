//! Conditions: `skirt.pleats > 300 and not size in ["6", "8"]`.

use super::scan::{Constant, Reader, Scan, Side};
use super::token::{Kind, is_arithmetic};
use crate::units::{Quantity, parse_literal};

/// The deepest nesting of brackets and `not`s.
const DEEPEST: usize = 12;

const COMPARISONS: [&str; 6] = ["==", "!=", "<=", ">=", "<", ">"];

/// Reads a condition and gives it back as the engine takes it; `None` where a fault has been said.
pub(super) fn condition(scan: &mut Scan<'_>, reader: &mut Reader<'_>, depth: usize) -> Option<String> {
    let mut code = one(scan, reader, depth)?;
    loop {
        let word = if reader.word("and") {
            "and"
        } else if reader.word("or") {
            "or"
        } else {
            return Some(code);
        };
        let next = one(scan, reader, depth)?;
        code = format!("{code} {word} {next}");
    }
}

fn one(scan: &mut Scan<'_>, reader: &mut Reader<'_>, depth: usize) -> Option<String> {
    if depth > DEEPEST {
        scan.fault(
            reader.here(),
            format!("more than {DEEPEST} brackets stand within each other"),
            "divide the condition",
        );
        return None;
    }
    if reader.word("not") {
        return one(scan, reader, depth + 1).map(|inner| format!("not {inner}"));
    }
    if reader.sign("(") {
        let inner = condition(scan, reader, depth + 1)?;
        if !reader.sign(")") {
            scan.fault(reader.here(), "expected `)`", "close the bracket");
            return None;
        }
        return Some(format!("({inner})"));
    }
    if reader.word("size") {
        return sizes(scan, reader);
    }
    let start = reader.here().start;
    let (left, left_side) = side(scan, reader)?;
    let here = reader.here();
    let Some(sign) = COMPARISONS.into_iter().find(|sign| reader.sign(sign)) else {
        match reader.peek().map(|token| &token.kind) {
            Some(Kind::Sign(sign)) if is_arithmetic(sign) => {
                scan.fault(here, "prose does not reckon", "name the result under `numbers` and compare that");
            }
            _ => scan.fault(here, "expected a comparison", "write `skirt.pleats > 300` or `waist < \"80 cm\"`"),
        }
        return None;
    };
    let (right, right_side) = side(scan, reader)?;
    scan.template.comparisons.push((left_side, right_side, start..reader.last().max(start)));
    Some(format!("{left} {sign} {right}"))
}

fn side(scan: &mut Scan<'_>, reader: &mut Reader<'_>) -> Option<(String, Side)> {
    let here = reader.here();
    match reader.peek().map(|token| &token.kind) {
        Some(Kind::Name(_)) => scan.operand(reader).map(|(code, index)| (code, Side::Name(index))),
        Some(Kind::Number(number)) => {
            reader.take();
            let quantity = Quantity::number(*number);
            Some((scan.constant(Constant::Number(quantity)), Side::Number(quantity)))
        }
        Some(Kind::Words(words)) => {
            reader.take();
            match parse_literal(words) {
                Ok(quantity) => Some((scan.constant(Constant::Number(quantity)), Side::Number(quantity))),
                Err(_) => {
                    scan.fault(
                        here,
                        format!("`{words}` is no number with a unit"),
                        "write it as in `\"80 cm\"` or `\"31 1/2 in\"`",
                    );
                    None
                }
            }
        }
        _ => {
            scan.fault(
                here,
                "expected a name, a number or a length in quotes",
                "write `skirt.pleats > 300` or `waist < \"80 cm\"`",
            );
            None
        }
    }
}

fn sizes(scan: &mut Scan<'_>, reader: &mut Reader<'_>) -> Option<String> {
    let here = reader.here();
    let sign = if reader.sign("==") {
        "=="
    } else if reader.sign("!=") {
        "!="
    } else if reader.word("in") {
        "in"
    } else if reader.word("not") && reader.word("in") {
        "not in"
    } else {
        scan.fault(here, "expected `==`, `!=` or `in` behind `size`", "write `size in [\"6\", \"8\"]`");
        return None;
    };
    if !sign.ends_with("in") {
        return name(scan, reader).map(|code| format!("size {sign} {code}"));
    }
    if !reader.sign("[") {
        scan.fault(reader.here(), "expected `[`", "write the sizes in brackets: `size in [\"6\", \"8\"]`");
        return None;
    }
    let mut names = vec![name(scan, reader)?];
    while reader.sign(",") {
        names.push(name(scan, reader)?);
    }
    if !reader.sign("]") {
        scan.fault(reader.here(), "expected `]`", "close the bracket");
        return None;
    }
    Some(format!("size {sign} [{}]", names.join(", ")))
}

fn name(scan: &mut Scan<'_>, reader: &mut Reader<'_>) -> Option<String> {
    let here = reader.here();
    let Some(Kind::Words(words)) = reader.take().map(|token| &token.kind) else {
        scan.fault(here, "expected the name of a size in quotes", "write `size == \"6\"`");
        return None;
    };
    scan.template.sizes.push((words.clone(), here));
    Some(scan.constant(Constant::Words(words.clone())))
}
