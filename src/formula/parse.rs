//! Precedence climbing: comparison, sum, product, sign, power.

use std::ops::Range;

use super::eval::FUNCTIONS;
use super::fault::FormulaFault;
use super::lex::{Word, lex};
use super::tree::{Formula, Kind, Node, Op};
use crate::fault::did_you_mean;

/// How deep brackets and signs may stand in each other.
const MAX_DEPTH: usize = 64;
/// How long a formula may be, in bytes.
const MAX_LENGTH: usize = 2000;

impl Formula {
    /// Reads a formula.
    ///
    /// # Errors
    /// With the bytes of the first thing that cannot be read.
    pub fn parse(text: &str) -> Result<Formula, FormulaFault> {
        if text.len() > MAX_LENGTH {
            let message = format!("a formula has at most {MAX_LENGTH} characters; name a part of it under `numbers`");
            return Err(FormulaFault::syntax(0..MAX_LENGTH.min(text.len()), message));
        }
        let mut parser = Parser { words: lex(text)?, next: 0, depth: 0 };
        let root = parser.expression(0)?;
        match parser.peek() {
            (Word::End, _) => Ok(Formula { text: text.to_string(), root }),
            (word, at) => {
                Err(FormulaFault::syntax(at, format!("expected an operator or the end, but found {}", name(&word))))
            }
        }
    }
}

struct Parser {
    words: Vec<(Word, Range<usize>)>,
    next: usize,
    depth: usize,
}

fn operator(word: &Word) -> Option<(Op, u8)> {
    let Word::Sign(sign) = word else { return None };
    Some(match *sign {
        "<" => (Op::Less, 1),
        "<=" => (Op::LessEq, 1),
        ">" => (Op::More, 1),
        ">=" => (Op::MoreEq, 1),
        "+" => (Op::Add, 2),
        "-" => (Op::Sub, 2),
        "*" => (Op::Mul, 3),
        "/" => (Op::Div, 3),
        "^" => (Op::Pow, 5),
        _ => return None,
    })
}

fn name(word: &Word) -> String {
    match word {
        Word::Literal(_) => "a number".to_string(),
        Word::Name(name) => format!("`{name}`"),
        Word::Sign(sign) => format!("`{sign}`"),
        Word::End => "the end of the formula".to_string(),
    }
}

impl Parser {
    fn peek(&self) -> (Word, Range<usize>) {
        self.words[self.next].clone()
    }

    fn take(&mut self) -> (Word, Range<usize>) {
        let word = self.peek();
        self.next = (self.next + 1).min(self.words.len() - 1);
        word
    }

    fn deeper(&mut self, at: &Range<usize>) -> Result<(), FormulaFault> {
        self.depth += 1;
        if self.depth > MAX_DEPTH {
            return Err(FormulaFault::syntax(
                at.clone(),
                "brackets are nested too deeply here; name a part under `numbers`",
            ));
        }
        Ok(())
    }

    fn expression(&mut self, floor: u8) -> Result<Node, FormulaFault> {
        let start = self.peek().1;
        self.deeper(&start)?;
        let mut left = self.operand()?;
        while let Some((op, power)) = operator(&self.peek().0) {
            if power < floor {
                break;
            }
            self.take();
            // Powers bind to the right, everything else to the left.
            let right = self.expression(if op == Op::Pow { power } else { power + 1 })?;
            let at = left.at.start..right.at.end;
            left = Node { at, kind: Kind::Binary(op, Box::new(left), Box::new(right)) };
        }
        self.depth -= 1;
        Ok(left)
    }

    fn operand(&mut self) -> Result<Node, FormulaFault> {
        let (word, at) = self.take();
        match word {
            Word::Literal(quantity) => Ok(Node { at, kind: Kind::Literal(quantity) }),
            Word::Name(name) if matches!(self.peek().0, Word::Sign("(")) => self.call(&name, at),
            Word::Name(name) => Ok(Node { at, kind: Kind::Name(name) }),
            Word::Sign("-") => {
                // Above products, below powers: -2 ^ 2 is -4.
                let inner = self.expression(4)?;
                Ok(Node { at: at.start..inner.at.end, kind: Kind::Negate(Box::new(inner)) })
            }
            Word::Sign("(") => {
                let inner = self.expression(0)?;
                let end = self.expect(")")?;
                Ok(Node { at: at.start..end.end, kind: inner.kind })
            }
            other => Err(FormulaFault::syntax(at, format!("expected a number or a name, but found {}", name(&other)))),
        }
    }

    fn call(&mut self, function: &str, at: Range<usize>) -> Result<Node, FormulaFault> {
        let Some(&(known, ..)) = FUNCTIONS.iter().find(|(name, ..)| *name == function) else {
            let names: Vec<&str> = FUNCTIONS.iter().map(|(name, ..)| *name).collect();
            let message = format!("`{function}` is not a function; {}", did_you_mean(function, &names));
            return Err(FormulaFault::syntax(at, message));
        };
        self.expect("(")?;
        let mut args = vec![self.expression(0)?];
        while matches!(self.peek().0, Word::Sign(",")) {
            self.take();
            args.push(self.expression(0)?);
        }
        let end = self.expect(")")?;
        Ok(Node { at: at.start..end.end, kind: Kind::Call(known, args) })
    }

    fn expect(&mut self, sign: &'static str) -> Result<Range<usize>, FormulaFault> {
        let (word, at) = self.take();
        if word == Word::Sign(sign) {
            Ok(at)
        } else {
            Err(FormulaFault::syntax(at, format!("expected `{sign}`, but found {}", name(&word))))
        }
    }
}
