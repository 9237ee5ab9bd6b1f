//! Rendering a template for every size.

use std::collections::BTreeMap;
use std::ops::Range;
use std::sync::{Arc, Mutex, PoisonError};

use minijinja::value::{Rest, Value};
use minijinja::{Environment, Error, ErrorKind, UndefinedBehavior};
use serde::{Deserialize, Serialize};

use super::block::{Block, Run, StripRow};
use super::markup::{self, RawBlock, RawRun};
use super::merge::{listed, merge};
use super::number::{Argument, FILTERS, Number, Numbers, PrintedNumber, Shown};
use super::refs::Refs;
use super::scan::{Constant, Side, Template, VALUE};
use crate::fault::{Code, Fault, did_you_mean};
use crate::units::{Quantity, Show, Systems};
use crate::words::ProseWords as Words;

/// How many steps of work the engine may take over one template and size.
const FUEL: u64 = 10_000;
/// The most sizes.
const MOST_SIZES: usize = 64;

/// What a text is rendered for.
#[derive(Debug, Clone, Copy)]
pub struct Setting<'a> {
    /// The names of all sizes of the garment, in the order of its size table.
    pub table: &'a [String],
    /// Which unit systems are printed.
    pub systems: Systems,
    /// What references may lead to.
    pub refs: &'a Refs,
    /// The fixed words.
    pub words: &'a Words,
}

/// A text for the sizes of an edition.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
pub struct Rendered {
    /// The text.
    pub blocks: Vec<Block>,
    /// Every number that stands in it, size by size in the order of the text.
    pub printed: Vec<PrintedNumber>,
}

impl Rendered {
    /// The text as one line, for places that hold no more (a reason, an amount): its runs, and the rows
    /// of its strip if it has one. `None` where it is more than one paragraph, or split by size.
    #[must_use]
    pub fn line(&self) -> Option<(&[Run], &[StripRow])> {
        match self.blocks.as_slice() {
            [] => Some((&[], &[])),
            [Block::Paragraph { runs }] => Some((runs, &[])),
            [Block::Paragraph { runs }, Block::Strip { rows, .. }] => Some((runs, rows)),
            _ => None,
        }
    }
}

/// The text of one size.
pub(super) struct OneSize {
    pub name: String,
    pub blocks: Vec<RawBlock>,
    pub numbers: Vec<Number>,
}

/// What the stages of rendering share.
pub(super) struct Context<'a> {
    pub template: &'a Template,
    pub setting: &'a Setting<'a>,
}

/// Renders a template for the sizes of an edition and merges the renderings into one text.
///
/// # Errors
/// Names that are not there, filters and comparisons that do not suit their numbers, markup that is not
/// closed, references that lead nowhere, more work than a text may take: each with its place.
pub fn render(
    template: &Template,
    sizes: &[(&str, &dyn Numbers)],
    setting: &Setting<'_>,
) -> Result<Rendered, Vec<Fault>> {
    let context = Context { template, setting };
    if sizes.len() > MOST_SIZES {
        let message = format!("expected at most {MOST_SIZES} sizes, but found {}", sizes.len());
        return Err(vec![Fault::new(Code::TooMuch, template.route(), message).help("make an edition of fewer sizes")]);
    }
    let mut faults = sizes_named(&context);
    let mut texts = Vec::new();
    for (name, numbers) in sizes {
        match one_size(&context, name, *numbers) {
            Ok(text) => texts.push(text),
            // The same slip shows in every size: it is said once.
            Err(more) => more.into_iter().for_each(|fault| {
                if !faults.contains(&fault) {
                    faults.push(fault);
                }
            }),
        }
    }
    if !faults.is_empty() {
        return Err(faults);
    }
    let printed = texts.iter().flat_map(|text| printed(text, setting)).collect();
    Ok(Rendered { blocks: merge(&texts, setting), printed })
}

fn sizes_named(context: &Context<'_>) -> Vec<Fault> {
    let table: Vec<&str> = context.setting.table.iter().map(String::as_str).collect();
    let wrong = context.template.sizes.iter().filter(|(name, _)| !table.contains(&name.as_str()));
    wrong
        .map(|(name, at)| {
            let help = match did_you_mean(name, &table) {
                meant if meant.starts_with("did") => meant,
                _ => format!("the sizes are {}", listed(context.setting.table)),
            };
            Fault::new(Code::UnknownName, context.template.place(at.clone()), format!("there is no size `{name}`"))
                .help(help)
        })
        .collect()
}

fn one_size(context: &Context<'_>, size: &str, numbers: &dyn Numbers) -> Result<OneSize, Vec<Fault>> {
    let template = context.template;
    let found: Vec<Option<Shown>> = template.names.iter().map(|name| numbers.get(name)).collect();
    let mut faults = unknown(context, numbers, &found);
    faults.extend(uncomparable(context, &found));
    if !faults.is_empty() {
        return Err(faults);
    }
    let (text, numbers) = run(context, size, found)?;
    let blocks = markup::blocks(&text, context, &mut faults);
    if faults.is_empty() { Ok(OneSize { name: size.to_string(), blocks, numbers }) } else { Err(faults) }
}

fn unknown(context: &Context<'_>, numbers: &dyn Numbers, found: &[Option<Shown>]) -> Vec<Fault> {
    let missing = |index: usize| matches!(found.get(index), Some(None));
    let mut faults = Vec::new();
    for (index, at) in &context.template.uses {
        if !missing(*index) {
            continue;
        }
        let name = context.template.names.get(*index).map_or("", String::as_str);
        let known = numbers.known();
        let known: Vec<&str> = known.iter().map(String::as_str).collect();
        let fault = Fault::new(Code::UnknownName, context.template.place(at.clone()), format!("unknown name `{name}`"));
        faults.push(fault.help(did_you_mean(name, &known)));
    }
    faults
}

fn uncomparable(context: &Context<'_>, found: &[Option<Shown>]) -> Vec<Fault> {
    let dim = |side: &Side| match side {
        Side::Name(index) => found.get(*index).and_then(Option::as_ref).map(|shown| shown.quantity.dim),
        Side::Number(quantity) => Some(quantity.dim),
    };
    let mut faults = Vec::new();
    for (left, right, at) in &context.template.comparisons {
        if let (Some(a), Some(b)) = (dim(left), dim(right))
            && a != b
        {
            let fault =
                Fault::new(Code::Prose, context.template.place(at.clone()), format!("cannot compare {a} with {b}"));
            faults.push(fault.help("write a length with its unit, in quotes: `waist > \"80 cm\"`"));
        }
    }
    faults
}

/// Runs the engine for one size: the text with its marks, and the values behind them.
fn run(context: &Context<'_>, size: &str, found: Vec<Option<Shown>>) -> Result<(String, Vec<Number>), Vec<Fault>> {
    let template = context.template;
    let words = Arc::new(context.setting.words.clone());
    let seen: Arc<Mutex<Vec<Number>>> = Arc::default();
    let mut env = Environment::empty();
    env.set_undefined_behavior(UndefinedBehavior::Strict);
    env.set_fuel(Some(FUEL));
    for filter in FILTERS {
        let words = Arc::clone(&words);
        env.add_filter(filter.name, move |value: Value, rest: Rest<Value>| apply(filter.name, &value, &rest, &words));
    }
    let record = Arc::clone(&seen);
    env.set_formatter(move |out, _, value| {
        let number = value.downcast_object_ref::<Number>().ok_or_else(|| refused("this is no number".to_string()))?;
        number.printed().map_err(refused)?;
        let mut seen = record.lock().unwrap_or_else(PoisonError::into_inner);
        let [before, behind] = VALUE;
        write!(out, "{before}{}{behind}", seen.len())?;
        seen.push(number.clone());
        Ok(())
    });
    let mut variables = BTreeMap::from([("size".to_string(), Value::from(size))]);
    for (index, shown) in found.into_iter().enumerate() {
        let name = template.names.get(index).map_or("", String::as_str);
        if let Some(shown) = shown {
            variables.insert(format!("v{index}"), Value::from_object(Number::new(name, shown)));
        }
    }
    for (index, constant) in template.constants.iter().enumerate() {
        variables.insert(format!("c{index}"), constant_value(constant));
    }
    let text = env
        .template_from_str(&template.code)
        .and_then(|compiled| compiled.render(Value::from(variables)))
        .map_err(|error| vec![engine_fault(context, &error)])?;
    drop(env);
    let numbers = seen.lock().unwrap_or_else(PoisonError::into_inner).clone();
    Ok((text, numbers))
}

fn constant_value(constant: &Constant) -> Value {
    match constant {
        Constant::Words(words) => Value::from(words.as_str()),
        Constant::Number(quantity) => Value::from_object(constant_number(*quantity)),
    }
}

fn constant_number(quantity: Quantity) -> Number {
    Number::new("", Shown { quantity, show: Show::usual(quantity), label: String::new() })
}

fn apply(filter: &str, value: &Value, rest: &[Value], words: &Words) -> Result<Value, Error> {
    let number = value.downcast_object_ref::<Number>().ok_or_else(|| refused(format!("`{filter}` takes a number")))?;
    let argument = match rest.first() {
        None => Argument::Nothing,
        Some(given) => match given.downcast_object_ref::<Number>() {
            Some(number) => Argument::Number(number.shown.quantity.value),
            None => Argument::Words(given.as_str().unwrap_or_default()),
        },
    };
    number.filtered(filter, &argument, words).map(Value::from_object).map_err(refused)
}

fn refused(message: String) -> Error {
    Error::new(ErrorKind::InvalidOperation, message)
}

/// What the engine says, at the place in the template.
fn engine_fault(context: &Context<'_>, error: &Error) -> Fault {
    let template = context.template;
    let spot = error.range().and_then(|range| spot(template, &range));
    let place = spot.map_or_else(|| template.route().into(), |at| template.place(at));
    if error.kind() == ErrorKind::OutOfFuel {
        let place = template.route().clone();
        return Fault::new(Code::TooMuch, place, "this text takes more work than a text may")
            .help("divide it into several steps");
    }
    let message = error.detail().map_or_else(|| error.kind().to_string(), ToString::to_string);
    let help = if message.contains("count must be whole") {
        "round it under `numbers`, with `ceil(...)` or `round(...)`, and name the result here"
    } else {
        "use a filter that suits this number, or none"
    };
    Fault::new(Code::Prose, place, message).help(help)
}

fn spot(template: &Template, range: &Range<usize>) -> Option<Range<usize>> {
    let within = |(code, _): &&(Range<usize>, Range<usize>)| code.start <= range.start && range.start < code.end;
    template.spots.iter().find(within).map(|(_, source)| source.clone())
}

/// Every number in the text of one size, in order.
fn printed(text: &OneSize, setting: &Setting<'_>) -> Vec<PrintedNumber> {
    let slots = text.blocks.iter().flat_map(|block| block.lines.iter().flatten()).filter_map(|run| match run {
        RawRun::Slot { value, .. } => text.numbers.get(*value),
        RawRun::Text { .. } | RawRun::Ref { .. } => None,
    });
    slots
        .map(|number| PrintedNumber {
            size: text.name.clone(),
            name: number.name.clone(),
            filters: number.filters.join(" | "),
            quantity: number.shown.quantity,
            show: number.shown.show,
            text: number.in_words(setting.words).map_or_else(
                || number.printed().map(|printed| printed.typeset(setting.systems)).unwrap_or_default(),
                ToString::to_string,
            ),
        })
        .collect()
}
