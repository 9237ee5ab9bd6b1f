//! What can be wrong with a formula.

use std::fmt;
use std::ops::Range;

use crate::fault::Code;

/// What is wrong, at which bytes of the formula.
#[derive(Debug, Clone, PartialEq)]
pub struct FormulaFault {
    /// Bytes of the formula's text.
    pub at: Range<usize>,
    /// What.
    pub kind: FormulaFaultKind,
}

/// The kinds of faults in a formula.
#[derive(Debug, Clone, PartialEq)]
pub enum FormulaFaultKind {
    /// Something else was expected here.
    Syntax(String),
    /// A name nobody knows, with the nearest one that somebody does.
    UnknownName {
        /// The name.
        name: String,
        /// The remedy: did-you-mean, or what is known.
        hint: String,
    },
    /// Dimensions that do not go together.
    Dimension(String),
    /// No value: division by zero, root of a negative number, not finite.
    Value(String),
}

impl FormulaFault {
    pub(crate) fn syntax(at: Range<usize>, message: impl Into<String>) -> Self {
        FormulaFault { at, kind: FormulaFaultKind::Syntax(message.into()) }
    }

    pub(crate) fn dimension(at: Range<usize>, message: impl Into<String>) -> Self {
        FormulaFault { at, kind: FormulaFaultKind::Dimension(message.into()) }
    }

    pub(crate) fn value(at: Range<usize>, message: impl Into<String>) -> Self {
        FormulaFault { at, kind: FormulaFaultKind::Value(message.into()) }
    }

    /// The code of the fault.
    #[must_use]
    pub fn code(&self) -> Code {
        match self.kind {
            FormulaFaultKind::Syntax(_) => Code::FormulaSyntax,
            FormulaFaultKind::UnknownName { .. } => Code::UnknownName,
            FormulaFaultKind::Dimension(_) => Code::FormulaDimension,
            FormulaFaultKind::Value(_) => Code::FormulaValue,
        }
    }

    /// The remedy, where there is one.
    #[must_use]
    pub fn help(&self) -> Option<&str> {
        match &self.kind {
            FormulaFaultKind::UnknownName { hint, .. } => Some(hint),
            FormulaFaultKind::Dimension(_) => Some("write a unit behind the number, or multiply instead of adding"),
            _ => None,
        }
    }
}

impl fmt::Display for FormulaFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match &self.kind {
            FormulaFaultKind::Syntax(message)
            | FormulaFaultKind::Dimension(message)
            | FormulaFaultKind::Value(message) => f.write_str(message),
            FormulaFaultKind::UnknownName { name, .. } => write!(f, "nothing is called `{name}`"),
        }
    }
}

impl std::error::Error for FormulaFault {}
