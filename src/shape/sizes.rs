//! The size table.

use indexmap::IndexMap;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::expr::Expr;

/// Body measurements by size, and the ease added to them.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SizesShape {
    /// The unit of bare numbers in the table: `cm`, `in` or `mm`.
    pub unit: String,
    /// The names of the sizes, smallest first.
    pub names: Vec<Expr>,
    /// Each measurement of the body: one value a size, in the order of `names`. A list of one value
    /// stands for all sizes.
    pub measurements: IndexMap<String, Vec<Expr>>,
    /// What is added to a body measurement for wearing: `waist: 2 cm`. In formulas `waist` is then the
    /// finished measurement and `body.waist` the body.
    #[serde(default)]
    pub ease: IndexMap<String, Expr>,
    /// How each measurement is taken, in words for the buyer.
    #[serde(default)]
    pub how: IndexMap<String, String>,
    /// Measurements that need not grow from size to size.
    #[serde(default)]
    pub not_growing: Vec<String>,
}
