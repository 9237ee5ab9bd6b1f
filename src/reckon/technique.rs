//! What a technique is: its inputs, outputs and the function that works it.

use super::answer::Answer;
use super::given::{Given, InputFault};
use super::work::{Stop, Work};
use crate::units::{Dim, Show, kinds};

/// A technique of the trade.
pub struct Technique {
    /// Its name, as the trade says it, in kebab-case: `cartridge-pleats`.
    pub name: &'static str,
    /// Its name in a heading: `Cartridge pleats`.
    pub title: &'static str,
    /// One sentence on what it answers.
    pub summary: &'static str,
    /// Paragraphs for the manual: how the trade does it, what was decided and from what source.
    pub detail: &'static str,
    /// What it needs, in the order a maker would be asked.
    pub inputs: &'static [Input],
    /// What it answers.
    pub outputs: &'static [Output],
    /// Values for the worked example of the manual.
    pub example: &'static [(&'static str, &'static str)],
    /// The function: pure, from the sheet's inputs to its results.
    pub work: fn(&mut Work) -> Result<(), Stop>,
}

/// What kind of value an input takes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Kind {
    /// A quantity of a dimension.
    Quantity(Dim),
    /// A whole number of things.
    Count,
    /// `yes` or `no`.
    Flag,
    /// One word of a list.
    Choice(&'static [&'static str]),
    /// A list of quantities of one dimension.
    List(Dim),
    /// Free words (a name to print).
    Words,
    /// Rows of a table, with these columns.
    Rows(&'static [Input]),
}

/// The bounds of a quantity.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Bounds {
    /// Any value.
    Any,
    /// Nothing or more.
    NotNegative,
    /// More than nothing.
    Positive,
    /// From 0 up to, but not, 1 (a shrinkage).
    Share,
    /// At least 1 (a ratio of fullness).
    AtLeastOne,
}

/// Whether an input must be given.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Need {
    /// It must.
    Required,
    /// It may be left out; the calculator then does without it.
    Optional,
    /// Left out, it is this formula (over other inputs), for this reason.
    Default(&'static str, &'static str),
}

/// One input of a technique.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Input {
    /// Its name, in `snake_case`.
    pub name: &'static str,
    /// What it takes.
    pub kind: Kind,
    /// Its bounds.
    pub bounds: Bounds,
    /// How it is printed.
    pub show: Show,
    /// Whether it must be given.
    pub need: Need,
    /// What it is, for the manual and the schema.
    pub doc: &'static str,
}

impl Input {
    const fn new(name: &'static str, kind: Kind, bounds: Bounds, show: Show, doc: &'static str) -> Input {
        Input { name, kind, bounds, show, need: Need::Required, doc }
    }

    /// A length of more than nothing, printed to 1/8 in.
    #[must_use]
    pub const fn length(name: &'static str, doc: &'static str) -> Input {
        Input::new(name, Kind::Quantity(kinds::LENGTH), Bounds::Positive, Show::LENGTH, doc)
    }

    /// A stitch, a pitch, a cord: a length printed to 1/32 in and 0.1 mm.
    #[must_use]
    pub const fn small(name: &'static str, doc: &'static str) -> Input {
        Input::new(name, Kind::Quantity(kinds::LENGTH), Bounds::Positive, Show::SMALL, doc)
    }

    /// A length of cloth, printed in yards and metres.
    #[must_use]
    pub const fn cloth(name: &'static str, doc: &'static str) -> Input {
        Input::new(name, Kind::Quantity(kinds::LENGTH), Bounds::Positive, Show::CLOTH, doc)
    }

    /// A whole number, at least 1.
    #[must_use]
    pub const fn count(name: &'static str, doc: &'static str) -> Input {
        Input::new(name, Kind::Count, Bounds::Positive, Show::COUNT, doc)
    }

    /// A ratio of fullness, at least 1.
    #[must_use]
    pub const fn ratio(name: &'static str, doc: &'static str) -> Input {
        Input::new(name, Kind::Quantity(kinds::NUMBER), Bounds::AtLeastOne, Show::RATIO, doc)
    }

    /// A bare number of more than nothing.
    #[must_use]
    pub const fn number(name: &'static str, doc: &'static str) -> Input {
        Input::new(name, Kind::Quantity(kinds::NUMBER), Bounds::Positive, Show::NUMBER, doc)
    }

    /// A share below 1, given as `5 %` or 0.05.
    #[must_use]
    pub const fn share(name: &'static str, doc: &'static str) -> Input {
        Input::new(name, Kind::Quantity(kinds::NUMBER), Bounds::Share, Show::PERCENT, doc)
    }

    /// An angle.
    #[must_use]
    pub const fn angle(name: &'static str, doc: &'static str) -> Input {
        Input::new(name, Kind::Quantity(kinds::ANGLE), Bounds::Positive, Show::ANGLE, doc)
    }

    /// Any other dimension.
    #[must_use]
    pub const fn quantity(name: &'static str, dim: Dim, show: Show, doc: &'static str) -> Input {
        Input::new(name, Kind::Quantity(dim), Bounds::Positive, show, doc)
    }

    /// Yes or no.
    #[must_use]
    pub const fn flag(name: &'static str, doc: &'static str) -> Input {
        Input::new(name, Kind::Flag, Bounds::Any, Show::COUNT, doc)
    }

    /// One word of a list.
    #[must_use]
    pub const fn choice(name: &'static str, words: &'static [&'static str], doc: &'static str) -> Input {
        Input::new(name, Kind::Choice(words), Bounds::Any, Show::COUNT, doc)
    }

    /// A list of lengths.
    #[must_use]
    pub const fn lengths(name: &'static str, doc: &'static str) -> Input {
        Input::new(name, Kind::List(kinds::LENGTH), Bounds::Positive, Show::LENGTH, doc)
    }

    /// Free words.
    #[must_use]
    pub const fn words(name: &'static str, doc: &'static str) -> Input {
        Input::new(name, Kind::Words, Bounds::Any, Show::COUNT, doc)
    }

    /// Rows of a table.
    #[must_use]
    pub const fn rows(name: &'static str, columns: &'static [Input], doc: &'static str) -> Input {
        Input::new(name, Kind::Rows(columns), Bounds::Any, Show::COUNT, doc)
    }

    /// Left out, it is this formula, for this reason.
    #[must_use]
    pub const fn or(mut self, formula: &'static str, why: &'static str) -> Input {
        self.need = Need::Default(formula, why);
        self
    }

    /// It may be left out.
    #[must_use]
    pub const fn optional(mut self) -> Input {
        self.need = Need::Optional;
        self
    }

    /// It may be nothing.
    #[must_use]
    pub const fn or_nothing(mut self) -> Input {
        self.bounds = Bounds::NotNegative;
        self
    }

    /// It may be below zero.
    #[must_use]
    pub const fn any_sign(mut self) -> Input {
        self.bounds = Bounds::Any;
        self
    }

    /// Printed in another way.
    #[must_use]
    pub const fn shown(mut self, show: Show) -> Input {
        self.show = show;
        self
    }
}

/// One result of a technique.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Output {
    /// Its name, in `snake_case`.
    pub name: &'static str,
    /// How it is printed, with the direction of rounding.
    pub show: Show,
    /// What it is, in few words as the head of a table row: `flat width`.
    pub label: &'static str,
    /// When it is written, for a result that is not always there: `where `eased` is given`; empty
    /// where it always is.
    pub when: &'static str,
}

impl Output {
    /// A result.
    #[must_use]
    pub const fn new(name: &'static str, show: Show, label: &'static str) -> Output {
        Output { name, show, label, when: "" }
    }

    /// It is written only then: `where a cord is given`.
    #[must_use]
    pub const fn when(mut self, when: &'static str) -> Output {
        self.when = when;
        self
    }
}

impl Technique {
    /// The input of that name.
    #[must_use]
    pub fn input(&self, name: &str) -> Option<&'static Input> {
        self.inputs.iter().find(|input| input.name == name)
    }

    /// The output of that name.
    #[must_use]
    pub fn output(&self, name: &str) -> Option<&'static Output> {
        self.outputs.iter().find(|output| output.name == name)
    }

    /// Works the technique through.
    ///
    /// # Errors
    /// Where an input contradicts another or has no sense; out of reach is no error but an answer.
    pub fn answer(&'static self, given: Given) -> Result<Answer, InputFault> {
        Work::run(self, given, true)
    }
}
