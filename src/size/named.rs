//! A number with a name, and where it comes from.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use crate::formula::Env;
use crate::reckon::Line;
use crate::units::{Printed, Quantity, Show, print};

/// A number with a name.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Named {
    /// Its value.
    pub quantity: Quantity,
    /// How it is printed.
    pub show: Show,
    /// What it is, in words.
    pub label: String,
    /// Where it comes from.
    pub origin: Origin,
}

impl Named {
    /// In print.
    #[must_use]
    pub fn printed(&self) -> Printed {
        print(self.quantity, self.show)
    }
}

/// Where a number comes from.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(tag = "from", rename_all = "kebab-case")]
pub enum Origin {
    /// The size table.
    Body,
    /// A body measurement and its ease.
    Finished {
        /// The measurement's name.
        measurement: String,
    },
    /// A formula of the file.
    Formula {
        /// The formula as written.
        text: String,
        /// The names it uses.
        names: Vec<String>,
    },
    /// A cloth or a swatch, as written.
    Written,
    /// A technique.
    Technique {
        /// The construction entry.
        construction: String,
        /// The technique.
        technique: String,
        /// The line of its working, where one line makes the result.
        line: Option<Box<Line>>,
        /// The names its inputs use.
        names: Vec<String>,
    },
    /// An input of a technique, as fed or by default.
    Fed {
        /// The construction entry.
        construction: String,
        /// The input.
        input: String,
        /// The names the entry's inputs use.
        names: Vec<String>,
    },
    /// Measured on a drawn piece.
    Piece {
        /// The piece.
        piece: String,
        /// The names its formulas use.
        names: Vec<String>,
    },
}

/// The numbers of one size, by name.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Names(pub BTreeMap<String, Named>);

impl Names {
    /// A number by name.
    #[must_use]
    pub fn named(&self, name: &str) -> Option<&Named> {
        self.0.get(name)
    }

    pub(super) fn put(
        &mut self,
        name: impl Into<String>,
        quantity: impl Into<Quantity>,
        label: impl Into<String>,
        origin: Origin,
    ) {
        let quantity = quantity.into();
        let named = Named { show: Show::usual(quantity), quantity, label: label.into(), origin };
        self.0.insert(name.into(), named);
    }
}

impl Env for Names {
    fn get(&self, name: &str) -> Option<Quantity> {
        self.0.get(name).map(|named| named.quantity)
    }

    fn known(&self) -> Vec<String> {
        self.0.keys().cloned().collect()
    }
}
