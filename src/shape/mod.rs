//! What the author wrote: the keys of a garment file, their types and their documentation.
//!
//! The structs here are the one definition of the file. From them come the JSON Schema (with the doc
//! comments), the structural check ([`schema::validate`], which finds every unknown key, missing key
//! and wrong type in one run, each with its place) and, once that is clean, the values themselves.

mod cloth;
mod expr;
mod garment;
mod join;
mod piece;
mod prune;
pub mod schema;
mod sheets;
mod sizes;
mod step;

pub use cloth::{BorderAlongShape, BorderShape, ClothShape, FoldingShape, RepeatShape, RoleShape};
pub use expr::{Expr, Flag, InputShape, OneOrPerSize};
pub use garment::{ChangeShape, GarmentShape, GlanceShape, NotionShape, SwatchShape};
pub use join::*;
pub use piece::*;
pub use sheets::{InkShape, JoiningShape, OnSheetShape, SeamLinesShape, SheetFormatShape, SheetsShape};
pub use sizes::SizesShape;
pub use step::{CautionShape, StepShape};

use crate::fault::{Code, Fault, Place};
use crate::source::Node;

/// The file in its types, and what is wrong with its structure.
#[derive(Debug, Clone, Default)]
pub struct Shaped {
    /// The file; where there are faults, what is left of it without the parts that have them.
    pub shape: Option<GarmentShape>,
    /// Every structural fault.
    pub faults: Vec<Fault>,
    /// The keys of the parts left out; what misses them later is not to blame.
    pub left_out: Vec<String>,
}

/// From the tree to the structs. A part with a structural fault is left out, so that the rest can be
/// checked in the same run.
#[must_use]
pub fn shape(root: &Node) -> Shaped {
    let schema = schema::garment_schema();
    let faults = schema::validate(root, &schema);
    let mut rest = root.clone();
    let mut left_out = Vec::new();
    let mut wrong = faults.clone();
    for _ in 0..8 {
        if wrong.is_empty() {
            break;
        }
        for fault in &wrong {
            if let Place::Span(span) = fault.place
                && !prune::prune(&mut rest, span, &mut left_out)
            {
                return Shaped { shape: None, faults, left_out };
            }
        }
        wrong = schema::validate(&rest, &schema);
    }
    match serde_yaml::from_value(rest.to_value()) {
        Ok(shape) => Shaped { shape: Some(shape), faults, left_out },
        Err(_) if !faults.is_empty() => Shaped { shape: None, faults, left_out },
        // The schema let something through that the types refuse: still a fault, if without a place.
        Err(error) => {
            let message = format!("the file does not have the right shape: {error}");
            Shaped { shape: None, faults: vec![Fault::new(Code::WrongType, Place::Span(root.span), message)], left_out }
        }
    }
}
