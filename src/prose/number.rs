//! Numbers in prose: how they are found, changed by filters, compared and printed.

use std::cmp::Ordering;
use std::sync::Arc;

use minijinja::value::{DynObject, Object, ObjectRepr};
use serde::{Deserialize, Serialize};

use crate::units::{Dim, Direction, Printed, Quantity, Show, Style, kinds, print};
use crate::words::ProseWords as Words;

/// A number as prose sees it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Shown {
    /// Its value.
    pub quantity: Quantity,
    /// How it is printed unless a filter says otherwise.
    pub show: Show,
    /// What it is, in few words: the head of its row in a size strip.
    pub label: String,
}

/// Every number of one size.
pub trait Numbers {
    /// The number of that name.
    fn get(&self, name: &str) -> Option<Shown>;
    /// Every name there is, for did-you-mean.
    fn known(&self) -> Vec<String>;
}

/// A number that stands in the finished text: for holding the text against the build.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct PrintedNumber {
    /// The size.
    pub size: String,
    /// The name in the garment file.
    pub name: String,
    /// The filters it went through, as written: `half | sixteenths`.
    pub filters: String,
    /// The value that was printed, after the filters.
    pub quantity: Quantity,
    /// How it was printed.
    pub show: Show,
    /// As it stands in the text.
    pub text: String,
}

/// What stands in brackets behind a filter.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Takes {
    /// Nothing.
    Nothing,
    /// A bare number.
    Number,
    /// Words in quotes.
    Words,
}

/// A filter: what stands behind a bar in `{{ name | filter }}`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Filter {
    /// Its name.
    pub name: &'static str,
    /// What stands in brackets behind it.
    pub takes: Takes,
    /// What it does.
    pub doc: &'static str,
}

const fn filter(name: &'static str, takes: Takes, doc: &'static str) -> Filter {
    Filter { name, takes, doc }
}

/// Every filter.
pub const FILTERS: &[Filter] = &[
    filter("eighths", Takes::Nothing, "a length to 1/8 in"),
    filter("sixteenths", Takes::Nothing, "a length to 1/16 in"),
    filter("thirty_seconds", Takes::Nothing, "a length to 1/32 in"),
    filter("up", Takes::Nothing, "rounded up: never less than the exact value"),
    filter("down", Takes::Nothing, "rounded down: never more than the exact value"),
    filter("nearest", Takes::Nothing, "rounded to the nearest"),
    filter("inches", Takes::Nothing, "a length in inches and centimetres, even where it would be yards"),
    filter("cm", Takes::Nothing, "a length in inches and centimetres, even where it would be millimetres"),
    filter("mm", Takes::Nothing, "a small length in inches and millimetres"),
    filter("yards", Takes::Nothing, "cloth as bought: yards up to 1/8, metres up to 0.1"),
    filter("thread", Takes::Nothing, "thread: whole yards and metres, rounded up"),
    filter("percent", Takes::Nothing, "a share in hundredths"),
    filter("ratio", Takes::Nothing, "a ratio, `6 : 1`"),
    filter("count", Takes::Nothing, "a whole number of things"),
    filter("spell", Takes::Nothing, "a whole number of things, small ones in words: `four`"),
    filter("half", Takes::Nothing, "half of it"),
    filter("quarter", Takes::Nothing, "a quarter of it"),
    filter("times", Takes::Number, "so many times as much: `times(3)`"),
    filter("label", Takes::Words, "the name of its row in a size strip: `label(\"from the fold\")`"),
];

/// The value behind a name while a template is rendered.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Number {
    pub name: String,
    pub shown: Shown,
    pub filters: Vec<String>,
    pub spelled: bool,
}

/// What a filter is given in brackets.
pub(super) enum Argument<'a> {
    Nothing,
    Number(f64),
    Words(&'a str),
}

impl Number {
    pub(super) fn new(name: &str, shown: Shown) -> Number {
        Number { name: name.to_string(), shown, filters: Vec::new(), spelled: false }
    }

    /// The number after a filter, or why there is none.
    pub(super) fn filtered(&self, filter: &str, argument: &Argument<'_>, words: &Words) -> Result<Number, String> {
        let mut next = self.clone();
        let written = match argument {
            Argument::Nothing => filter.to_string(),
            Argument::Number(number) => format!("{filter}({number})"),
            Argument::Words(text) => format!("{filter}(\"{text}\")"),
        };
        next.filters.push(written);
        let need = |dim: Dim| {
            let found = self.shown.quantity.dim;
            if found == dim { Ok(()) } else { Err(format!("`{filter}` takes {dim}, but `{}` is {found}", self.name)) }
        };
        let label = |pattern: &str| pattern.replace("{label}", &self.shown.label);
        let show = &mut next.shown.show;
        let parts = |show: &mut Show, parts: u32| {
            if !matches!(show.style, Style::Length | Style::Small) {
                show.style = Style::Length;
            }
            show.parts = parts;
        };
        match (filter, argument) {
            ("eighths", _) => need(kinds::LENGTH).map(|()| parts(show, 8))?,
            ("sixteenths", _) => need(kinds::LENGTH).map(|()| parts(show, 16))?,
            ("thirty_seconds", _) => need(kinds::LENGTH).map(|()| parts(show, 32))?,
            ("up", _) => show.direction = Direction::Up,
            ("down", _) => show.direction = Direction::Down,
            ("nearest", _) => show.direction = Direction::Nearest,
            ("inches" | "cm", _) => {
                need(kinds::LENGTH)?;
                show.parts = if matches!(show.style, Style::Length | Style::Small) { show.parts.max(8) } else { 8 };
                show.style = Style::Length;
            }
            ("mm", _) => {
                need(kinds::LENGTH)?;
                show.parts = if matches!(show.style, Style::Length | Style::Small) { show.parts.max(8) } else { 8 };
                show.style = Style::Small;
            }
            ("yards", _) => need(kinds::LENGTH).map(|()| *show = Show::CLOTH)?,
            ("thread", _) => need(kinds::LENGTH).map(|()| *show = Show::THREAD)?,
            ("percent", _) => need(kinds::NUMBER).map(|()| *show = Show::PERCENT)?,
            ("ratio", _) => need(kinds::NUMBER).map(|()| *show = Show::RATIO)?,
            ("count", _) => need(kinds::NUMBER).map(|()| *show = Show::COUNT)?,
            ("spell", _) => {
                need(kinds::NUMBER)?;
                *show = Show::COUNT;
                next.spelled = true;
            }
            ("half", _) => {
                next.shown.quantity.value /= 2.0;
                next.shown.label = label(&words.half);
            }
            ("quarter", _) => {
                next.shown.quantity.value /= 4.0;
                next.shown.label = label(&words.quarter);
            }
            ("times", Argument::Number(number)) => {
                next.shown.quantity.value *= number;
                next.shown.label = label(&words.times).replace("{n}", &number.to_string());
            }
            ("label", Argument::Words(text)) => next.shown.label = (*text).to_string(),
            _ => return Err(format!("`{filter}` cannot be used like this")),
        }
        Ok(next)
    }

    /// The number in print, or why it has none.
    pub(super) fn printed(&self) -> Result<Printed, String> {
        let Shown { quantity, show, .. } = &self.shown;
        if !quantity.value.is_finite() || quantity.value.abs() > 1e12 {
            return Err(format!("`{}` is no number a garment has", self.name));
        }
        if show.style == Style::Count && (quantity.value - quantity.value.round()).abs() > 1e-6 {
            return Err(format!("`{}` is {:.4}, and a count must be whole", self.written(), quantity.value));
        }
        Ok(print(*quantity, *show))
    }

    /// As written in the template: `skirt.pleats | half`.
    pub(super) fn written(&self) -> String {
        let parts: Vec<&str> =
            std::iter::once(self.name.as_str()).chain(self.filters.iter().map(String::as_str)).collect();
        parts.join(" | ")
    }

    /// The number in words, if it is to be spelled and is small enough.
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    pub(super) fn in_words<'w>(&self, words: &'w Words) -> Option<&'w str> {
        let value = self.shown.quantity.value.round();
        if !self.spelled || !(0.0..=1e3).contains(&value) {
            return None;
        }
        words.counts.get(value as usize).map(String::as_str)
    }
}

impl Object for Number {
    fn repr(self: &Arc<Self>) -> ObjectRepr {
        ObjectRepr::Plain
    }

    fn custom_cmp(self: &Arc<Self>, other: &DynObject) -> Option<Ordering> {
        let other = other.downcast_ref::<Number>()?;
        let (a, b) = (self.shown.quantity.value, other.shown.quantity.value);
        // Equal within what arithmetic may be off by.
        if (a - b).abs() <= 1e-9 * a.abs().max(b.abs()) {
            return Some(Ordering::Equal);
        }
        Some(a.total_cmp(&b))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn number(quantity: Quantity, show: Show) -> Number {
        Number::new("skirt.flat", Shown { quantity, show, label: "flat width".into() })
    }

    fn after(start: &Number, filter: &str, argument: &Argument<'_>) -> Number {
        start.filtered(filter, argument, &Words::english()).unwrap()
    }

    #[test]
    fn filters_change_value_style_and_label() {
        let flat = number(Quantity::mm(254.0), Show::CLOTH);
        let half = after(&after(&flat, "half", &Argument::Nothing), "sixteenths", &Argument::Nothing);
        assert_eq!(half.printed().unwrap().plain, "5 in");
        assert_eq!(half.shown.label, "half of flat width");
        assert_eq!(half.written(), "skirt.flat | half | sixteenths");
        let three = after(&flat, "times", &Argument::Number(3.0));
        assert_eq!((three.shown.quantity.value, three.shown.label.as_str()), (762.0, "3 times flat width"));
    }

    #[test]
    fn counts_are_whole() {
        let odd = number(Quantity::number(13.0), Show::COUNT);
        assert!(after(&odd, "half", &Argument::Nothing).printed().is_err());
        assert_eq!(after(&odd, "spell", &Argument::Nothing).in_words(&Words::english()), None);
        let four = after(&number(Quantity::number(4.0), Show::NUMBER), "spell", &Argument::Nothing);
        assert_eq!(four.in_words(&Words::english()), Some("four"));
    }

    #[test]
    fn a_filter_takes_its_own_kind() {
        let count = number(Quantity::number(4.0), Show::COUNT);
        let fault = count.filtered("yards", &Argument::Nothing, &Words::english()).unwrap_err();
        assert_eq!(fault, "`yards` takes a length, but `skirt.flat` is a bare number");
    }

    #[test]
    fn every_filter_is_known_to_the_function() {
        for filter in FILTERS {
            let argument = match filter.takes {
                Takes::Nothing => Argument::Nothing,
                Takes::Number => Argument::Number(2.0),
                Takes::Words => Argument::Words("x"),
            };
            let works = [Quantity::mm(100.0), Quantity::number(4.0)].into_iter().any(|quantity| {
                number(quantity, Show::usual(quantity)).filtered(filter.name, &argument, &Words::english()).is_ok()
            });
            assert!(works, "{}", filter.name);
        }
    }
}
