//! The parsed formula.

use std::ops::Range;

use crate::units::Quantity;

/// A parsed formula: its text and its tree.
#[derive(Debug, Clone, PartialEq)]
pub struct Formula {
    pub(crate) text: String,
    pub(crate) root: Node,
}

/// One node and the bytes it was read from.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Node {
    pub(crate) at: Range<usize>,
    pub(crate) kind: Kind,
}

#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Kind {
    Literal(Quantity),
    Name(String),
    Negate(Box<Node>),
    Binary(Op, Box<Node>, Box<Node>),
    Call(&'static str, Vec<Node>),
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Op {
    Add,
    Sub,
    Mul,
    Div,
    Pow,
    Less,
    LessEq,
    More,
    MoreEq,
}

impl Formula {
    /// The formula as written.
    #[must_use]
    pub fn text(&self) -> &str {
        &self.text
    }

    /// Every name used, with the bytes where it stands, in order of appearance.
    #[must_use]
    pub fn names(&self) -> Vec<(&str, Range<usize>)> {
        let mut found = Vec::new();
        collect(&self.root, &mut found);
        found
    }

    /// Whether the formula is nothing but one name or one literal.
    #[must_use]
    pub fn is_plain(&self) -> bool {
        matches!(self.root.kind, Kind::Literal(_) | Kind::Name(_))
    }

    /// The formula with every name replaced by what `show` makes of it, and with the signs of
    /// the trade: `144 in ÷ (2 × 1/4 in)`.
    #[must_use]
    pub fn filled(&self, show: &dyn Fn(&str) -> Option<String>) -> String {
        let mut out = String::new();
        let mut from = 0;
        for (name, at) in self.names() {
            out.push_str(&signs(&self.text[from..at.start]));
            out.push_str(&show(name).unwrap_or_else(|| name.to_string()));
            from = at.end;
        }
        out.push_str(&signs(&self.text[from..]));
        out
    }

    /// The formula in words and the signs of the trade, names with spaces for underscores.
    #[must_use]
    pub fn worded(&self) -> String {
        self.filled(&|name| Some(name.replace('_', " ")))
    }
}

fn signs(text: &str) -> String {
    text.replace(" * ", " × ").replace(" / ", " ÷ ").replace(" - ", " − ").replace("<=", "≤").replace(">=", "≥")
}

fn collect<'a>(node: &'a Node, found: &mut Vec<(&'a str, Range<usize>)>) {
    match &node.kind {
        Kind::Literal(_) => {}
        Kind::Name(name) => found.push((name, node.at.clone())),
        Kind::Negate(inner) => collect(inner, found),
        Kind::Binary(_, left, right) => {
            collect(left, found);
            collect(right, found);
        }
        Kind::Call(_, args) => args.iter().for_each(|arg| collect(arg, found)),
    }
}
