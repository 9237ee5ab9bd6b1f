//! The fixed words prose is merged with.

use serde::{Deserialize, Serialize};

/// The words of one language. In patterns `{value}`, `{sizes}`, `{label}` and `{n}` are filled in.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Words {
    /// One size within a sentence: `size {sizes}`.
    pub size: String,
    /// Several sizes within a sentence: `sizes {sizes}`.
    pub sizes: String,
    /// One size at the beginning of a line: `Size {sizes}`.
    pub size_first: String,
    /// Several sizes at the beginning of a line: `Sizes {sizes}`.
    pub sizes_first: String,
    /// A run of sizes: `{from} to {to}`.
    pub run: String,
    /// Between the last two of a list.
    pub and: String,
    /// Between the last two of several values with units: `, or `.
    pub or_long: String,
    /// Between the last two of several bare numbers: ` or `.
    pub or_short: String,
    /// A value with units and its sizes: `{value} for {sizes}`.
    pub value_long: String,
    /// A bare number and its sizes: `{value} ({sizes})`.
    pub value_short: String,
    /// The label of half a value: `half of {label}`.
    pub half: String,
    /// The label of a quarter of a value: `a quarter of {label}`.
    pub quarter: String,
    /// The label of a value taken several times: `{n} times {label}`.
    pub times: String,
    /// The small counts from nought on, in words.
    pub counts: Vec<String>,
    /// Opening and closing double quotation marks.
    pub double: [String; 2],
    /// Opening and closing single quotation marks; the closing one is the apostrophe too.
    pub single: [String; 2],
}

impl Words {
    /// English.
    #[must_use]
    pub fn english() -> Words {
        let text = |words: &str| words.to_string();
        let counts =
            ["none", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"];
        Words {
            size: text("size\u{a0}{sizes}"),
            sizes: text("sizes\u{a0}{sizes}"),
            size_first: text("Size\u{a0}{sizes}"),
            sizes_first: text("Sizes\u{a0}{sizes}"),
            run: text("{from} to {to}"),
            and: text(" and "),
            or_long: text(", or "),
            or_short: text(" or "),
            value_long: text("{value} for {sizes}"),
            value_short: text("{value} ({sizes})"),
            half: text("half of {label}"),
            quarter: text("a quarter of {label}"),
            times: text("{n} times {label}"),
            counts: counts.map(text).to_vec(),
            double: ["“", "”"].map(text),
            single: ["‘", "’"].map(text),
        }
    }
}
