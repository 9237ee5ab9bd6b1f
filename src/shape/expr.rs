//! Values that stand in a garment file as formulas, yes or no, or one for each size.

use std::borrow::Cow;
use std::fmt;

use indexmap::IndexMap;
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::de::{Error, Visitor};
use serde::{Deserialize, Deserializer, Serialize};

/// A formula as written: `waist / 4 + 1/2 in`, or a bare number.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Default, Serialize)]
#[serde(transparent)]
pub struct Expr(pub String);

impl Expr {
    /// The text of the formula.
    #[must_use]
    pub fn text(&self) -> &str {
        &self.0
    }
}

impl From<&str> for Expr {
    fn from(text: &str) -> Expr {
        Expr(text.to_string())
    }
}

struct ExprVisitor;

impl Visitor<'_> for ExprVisitor {
    type Value = Expr;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a formula or a number")
    }

    fn visit_str<E: Error>(self, text: &str) -> Result<Expr, E> {
        Ok(Expr(text.to_string()))
    }

    fn visit_i64<E: Error>(self, value: i64) -> Result<Expr, E> {
        Ok(Expr(value.to_string()))
    }

    fn visit_u64<E: Error>(self, value: u64) -> Result<Expr, E> {
        Ok(Expr(value.to_string()))
    }

    fn visit_f64<E: Error>(self, value: f64) -> Result<Expr, E> {
        Ok(Expr(value.to_string()))
    }
}

impl<'de> Deserialize<'de> for Expr {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Expr, D::Error> {
        deserializer.deserialize_any(ExprVisitor)
    }
}

impl JsonSchema for Expr {
    fn inline_schema() -> bool {
        true
    }

    fn schema_name() -> Cow<'static, str> {
        "Formula".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "type": ["string", "number"],
            "description": "A formula with units: `waist / 4 + 1/2 in`, `2.5 cm`, `12`."
        })
    }
}

/// `yes` or `no` (also `true` or `false`).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default, Serialize)]
#[serde(transparent)]
pub struct Flag(pub bool);

struct FlagVisitor;

impl Visitor<'_> for FlagVisitor {
    type Value = Flag;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("`yes` or `no`")
    }

    fn visit_bool<E: Error>(self, value: bool) -> Result<Flag, E> {
        Ok(Flag(value))
    }

    fn visit_str<E: Error>(self, text: &str) -> Result<Flag, E> {
        match text {
            "yes" => Ok(Flag(true)),
            "no" => Ok(Flag(false)),
            _ => Err(E::custom("expected `yes` or `no`")),
        }
    }
}

impl<'de> Deserialize<'de> for Flag {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Flag, D::Error> {
        deserializer.deserialize_any(FlagVisitor)
    }
}

impl JsonSchema for Flag {
    fn inline_schema() -> bool {
        true
    }

    fn schema_name() -> Cow<'static, str> {
        "Flag".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({ "enum": ["yes", "no", true, false], "description": "`yes` or `no`." })
    }
}

/// One formula for all sizes, or a list with one for each size.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(from = "serde_yaml::Value")]
pub enum OneOrPerSize {
    /// The same formula in every size (its value may still differ).
    One(Expr),
    /// One formula a size, in the order of the size table.
    PerSize(Vec<Expr>),
}

impl From<serde_yaml::Value> for OneOrPerSize {
    fn from(value: serde_yaml::Value) -> OneOrPerSize {
        match value {
            serde_yaml::Value::Sequence(list) => OneOrPerSize::PerSize(list.iter().map(written).collect()),
            other => OneOrPerSize::One(written(&other)),
        }
    }
}

/// A scalar as it would be written.
pub(crate) fn written(value: &serde_yaml::Value) -> Expr {
    Expr(match value {
        serde_yaml::Value::String(text) => text.clone(),
        serde_yaml::Value::Number(number) => number.to_string(),
        serde_yaml::Value::Bool(flag) => if *flag { "yes" } else { "no" }.to_string(),
        _ => String::new(),
    })
}

impl JsonSchema for OneOrPerSize {
    fn inline_schema() -> bool {
        true
    }

    fn schema_name() -> Cow<'static, str> {
        "OneOrPerSize".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "type": ["string", "number", "array"],
            "items": { "type": ["string", "number"] },
            "description": "A formula, or a list with one for each size."
        })
    }
}

/// The value of an input of a technique or a figure: a formula, a word, a list, or rows.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(from = "serde_yaml::Value")]
pub enum InputShape {
    /// A formula, a word, `yes` or `no`.
    One(Expr),
    /// A list of them.
    List(Vec<Expr>),
    /// Rows of a table.
    Rows(Vec<IndexMap<String, Expr>>),
}

impl From<serde_yaml::Value> for InputShape {
    fn from(value: serde_yaml::Value) -> InputShape {
        match value {
            serde_yaml::Value::Sequence(list) if list.first().is_some_and(serde_yaml::Value::is_mapping) => {
                InputShape::Rows(
                    list.iter()
                        .filter_map(serde_yaml::Value::as_mapping)
                        .map(|row| row.iter().map(|(key, value)| (written(key).0, written(value))).collect())
                        .collect(),
                )
            }
            serde_yaml::Value::Sequence(list) => InputShape::List(list.iter().map(written).collect()),
            other => InputShape::One(written(&other)),
        }
    }
}

impl JsonSchema for InputShape {
    fn inline_schema() -> bool {
        true
    }

    fn schema_name() -> Cow<'static, str> {
        "Input".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "type": ["string", "number", "boolean", "array"],
            "items": {
                "type": ["string", "number", "boolean", "object"],
                "additionalProperties": { "type": ["string", "number", "boolean"] }
            },
            "description": "A formula, a word, a list of them, or rows of a table."
        })
    }
}
