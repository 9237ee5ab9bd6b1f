//! The JSON Schema of the garment file, and the structural check against it.
//!
//! Only the part of JSON Schema that our own types make is understood: `$ref`, `type`, `properties`,
//! `required`, `additionalProperties`, `items`, `enum`, `const`, and `oneOf`/`anyOf` of alternatives that
//! can be told apart by a constant key, by their single key, or by their type.

use std::sync::LazyLock;

use serde_json::{Map, Value};

use super::garment::GarmentShape;
use crate::fault::{Code, Fault, Place, did_you_mean};
use crate::source::{Entry, Node, NodeKind};

static GARMENT: LazyLock<Value> = LazyLock::new(|| schemars::schema_for!(GarmentShape).to_value());

static NO_PROPERTIES: LazyLock<Map<String, Value>> = LazyLock::new(Map::new);

/// The schema of a garment file.
#[must_use]
pub fn garment_schema() -> Value {
    GARMENT.clone()
}

/// Holds a tree against a schema.
#[must_use]
pub fn validate(root: &Node, schema: &Value) -> Vec<Fault> {
    let mut check = Check { top: schema, faults: Vec::new() };
    check.node(root, schema, "the garment file");
    check.faults
}

struct Check<'a> {
    top: &'a Value,
    faults: Vec<Fault>,
}

impl<'a> Check<'a> {
    fn resolve(&self, mut schema: &'a Value) -> &'a Value {
        while let Some(reference) = schema.get("$ref").and_then(Value::as_str) {
            let Some(target) = reference.strip_prefix('#').and_then(|pointer| self.top.pointer(pointer)) else { break };
            schema = target;
        }
        schema
    }

    fn node(&mut self, node: &Node, schema: &'a Value, what: &str) {
        let schema = self.resolve(schema);
        let alternatives = schema.get("oneOf").or_else(|| schema.get("anyOf")).and_then(Value::as_array);
        if let Some(alternatives) = alternatives {
            self.one_of(node, alternatives, what);
            return;
        }
        if let Some(words) = schema.get("enum").and_then(Value::as_array) {
            self.word(node, &words.iter().collect::<Vec<_>>(), what);
            return;
        }
        if node.is_null() {
            self.nothing(node, &type_words(schema), what);
            return;
        }
        if !type_fits(node, schema) {
            self.wrong_type(node, &type_words(schema), schema, what);
            return;
        }
        match &node.kind {
            NodeKind::Map(entries) => self.map(node, entries, schema, what),
            NodeKind::List(list) => {
                if let Some(items) = schema.get("items") {
                    for item in list {
                        self.node(item, items, what);
                    }
                }
            }
            NodeKind::Scalar { .. } => {}
        }
    }

    /// A key without a value: left empty, or its value taken for a comment.
    fn nothing(&mut self, node: &Node, expected: &str, what: &str) {
        let message = format!("expected {expected} for {what}, but found nothing");
        let help = "leave the key out, or give it a value; a value that begins with `#` goes in quotes";
        self.faults.push(Fault::new(Code::WrongType, node.span, message).help(help));
    }

    fn wrong_type(&mut self, node: &Node, expected: &str, schema: &Value, what: &str) {
        let message = format!("expected {expected} for {what}, but found {}", node.describe());
        let mut fault = Fault::new(Code::WrongType, node.span, message);
        if let Some(words) = schema.get("description").and_then(Value::as_str) {
            fault = fault.help(format!("{what}: {}", one_line(words)));
        } else if expected == "text" {
            fault = fault.help("put the value in quotes");
        }
        self.faults.push(fault);
    }

    fn map(&mut self, node: &Node, entries: &[Entry], schema: &'a Value, what: &str) {
        let known = schema.get("properties").and_then(Value::as_object).unwrap_or(&NO_PROPERTIES);
        let rest = schema.get("additionalProperties");
        for entry in entries {
            let inner = format!("`{}`", entry.key);
            if let Some(property) = known.get(&entry.key) {
                self.node(&entry.value, property, &inner);
            } else {
                match rest {
                    Some(Value::Bool(false)) => {
                        let names: Vec<&str> = known.keys().map(String::as_str).collect();
                        let message = format!("{what} has no key {inner}");
                        let fault = Fault::new(Code::UnknownKey, entry.key_span, message);
                        self.faults.push(fault.help(did_you_mean(&entry.key, &names)));
                    }
                    Some(value @ Value::Object(_)) => self.node(&entry.value, value, &inner),
                    _ => {}
                }
            }
        }
        for key in schema.get("required").and_then(Value::as_array).into_iter().flatten().filter_map(Value::as_str) {
            if entries.iter().any(|entry| entry.key == key) {
                continue;
            }
            let words = known.get(key).map(|property| self.describe(property)).unwrap_or_default();
            let fault = Fault::new(Code::MissingKey, node.span, format!("{what} needs a key `{key}`"));
            self.faults.push(fault.help(format!("add `{key}:` here. {words}").trim_end().to_string()));
        }
    }

    fn describe(&self, property: &'a Value) -> String {
        let own = property.get("description").and_then(Value::as_str);
        let text = own.or_else(|| self.resolve(property).get("description").and_then(Value::as_str));
        text.map(one_line).unwrap_or_default()
    }

    fn word(&mut self, node: &Node, words: &[&Value], what: &str) {
        let found = node.to_value();
        let same = |word: &&Value| match (word, &found) {
            (Value::String(word), serde_yaml::Value::String(text)) => word == text,
            (Value::Bool(word), serde_yaml::Value::Bool(flag)) => word == flag,
            (Value::Number(word), serde_yaml::Value::Number(number)) => word.as_f64() == number.as_f64(),
            (Value::Null, value) => value.is_null(),
            _ => false,
        };
        if words.iter().any(same) {
            return;
        }
        let names: Vec<&str> = words.iter().filter_map(|word| word.as_str()).collect();
        let list = names.iter().map(|name| format!("`{name}`")).collect::<Vec<_>>().join(", ");
        let message = format!("expected one of {list} for {what}, but found {}", node.describe());
        let mut fault = Fault::new(Code::BadValue, node.span, message);
        if let Some(text) = node.text() {
            fault = fault.help(did_you_mean(text, &names));
        }
        self.faults.push(fault);
    }

    fn one_of(&mut self, node: &Node, alternatives: &'a [Value], what: &str) {
        let resolved: Vec<&'a Value> = alternatives.iter().map(|schema| self.resolve(schema)).collect();
        let real: Vec<&'a Value> = resolved.into_iter().filter(|schema| schema["type"] != "null").collect();
        if let [only] = real.as_slice() {
            self.node(node, only, what);
            return;
        }
        if let NodeKind::Map(entries) = &node.kind {
            if let Some(chosen) = self.by_constant(node, &real, what) {
                if let Some(chosen) = chosen {
                    self.node(node, chosen, what);
                }
                return;
            }
            let keyed: Vec<(&str, &'a Value)> =
                real.iter().filter_map(|schema| Some((single_key(schema)?, *schema))).collect();
            if !keyed.is_empty() {
                match keyed.iter().find(|(key, _)| entries.iter().any(|entry| entry.key == *key)) {
                    Some((_, schema)) => self.node(node, schema, what),
                    None => {
                        let names: Vec<&str> = keyed.iter().map(|(key, _)| *key).collect();
                        self.unknown_alternative(node, entries, &names, what);
                    }
                }
                return;
            }
        } else {
            let words: Vec<&Value> = real.iter().flat_map(|schema| constants(schema)).collect();
            let fits = real
                .iter()
                .find(|schema| constants(schema).is_empty() && schema.get("type").is_some() && type_fits(node, schema));
            if let Some(schema) = fits {
                self.node(node, schema, what);
                return;
            }
            if !words.is_empty() && node.text().is_some() {
                self.word(node, &words, what);
                return;
            }
        }
        if let Some(schema) = real.iter().find(|schema| type_fits(node, schema)) {
            self.node(node, schema, what);
            return;
        }
        let expected: Vec<String> = real.iter().map(|schema| type_words(schema)).collect();
        let expected = dedup(expected).join(" or ");
        self.wrong_type(node, &expected, &Value::Null, what);
    }

    /// Alternatives told apart by a key with a constant value (`kind: rectangle`). `None`: they are not
    /// of this form; `Some(None)`: they are, and the fault is reported.
    fn by_constant(&mut self, node: &Node, real: &[&'a Value], what: &str) -> Option<Option<&'a Value>> {
        let tag = real.iter().find_map(|schema| constant_key(schema))?.0;
        let tagged: Vec<(&str, &'a Value)> =
            real.iter().filter_map(|schema| Some((constant_key(schema)?.1, *schema))).collect();
        let names: Vec<&str> = tagged.iter().map(|(name, _)| *name).collect();
        let Some(value) = node.get(tag) else {
            let list = names.iter().map(|name| format!("`{name}`")).collect::<Vec<_>>().join(", ");
            let fault = Fault::new(Code::MissingKey, node.span, format!("{what} needs a key `{tag}`"));
            self.faults.push(fault.help(format!("`{tag}` is one of {list}")));
            return Some(None);
        };
        let text = value.text().unwrap_or("");
        if let Some((_, schema)) = tagged.iter().find(|(name, _)| *name == text) {
            return Some(Some(schema));
        }
        let message = format!("expected a kind of {what} for `{tag}`, but found {}", value.describe());
        self.faults.push(Fault::new(Code::BadValue, value.span, message).help(did_you_mean(text, &names)));
        Some(None)
    }

    fn unknown_alternative(&mut self, node: &Node, entries: &[Entry], names: &[&str], what: &str) {
        let list = names.iter().map(|name| format!("`{name}`")).collect::<Vec<_>>().join(", ");
        let (span, found) = match entries.first() {
            Some(entry) => (entry.key_span, format!("`{}`", entry.key)),
            None => (node.span, "nothing".to_string()),
        };
        let message = format!("expected one of the keys {list} for {what}, but found {found}");
        let help = entries.first().map_or_else(String::new, |entry| did_you_mean(&entry.key, names));
        let fault = Fault::new(Code::UnknownKey, Place::Span(span), message);
        self.faults.push(if help.is_empty() { fault } else { fault.help(help) });
    }
}

fn one_line(words: &str) -> String {
    words.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn dedup(mut list: Vec<String>) -> Vec<String> {
    list.sort();
    list.dedup();
    list
}

fn types(schema: &Value) -> Vec<&str> {
    match schema.get("type") {
        Some(Value::String(name)) => vec![name],
        Some(Value::Array(names)) => names.iter().filter_map(Value::as_str).collect(),
        _ => Vec::new(),
    }
}

fn type_fits(node: &Node, schema: &Value) -> bool {
    let types = types(schema);
    if types.is_empty() {
        return true;
    }
    let value = node.to_value_kind();
    types.iter().any(|name| match (*name, value) {
        ("number", "integer") => true,
        (name, value) => name == value,
    })
}

fn type_words(schema: &Value) -> String {
    let words: Vec<&str> = types(schema)
        .into_iter()
        .filter(|name| *name != "null")
        .map(|name| match name {
            "string" => "text",
            "number" => "a number",
            "integer" => "a whole number",
            "boolean" => "`yes` or `no`",
            "array" => "a list",
            "object" => "a mapping",
            other => other,
        })
        .collect();
    match words.as_slice() {
        [] => "something else".to_string(),
        ["text", "a number", rest @ ..] if !rest.contains(&"a mapping") => {
            let more: String = rest.iter().map(|word| format!(" or {word}")).collect();
            format!("a formula{more}")
        }
        words => words.join(" or "),
    }
}

fn constants(schema: &Value) -> Vec<&Value> {
    match (schema.get("const"), schema.get("enum").and_then(Value::as_array)) {
        (Some(value), _) => vec![value],
        (None, Some(list)) => list.iter().collect(),
        _ => Vec::new(),
    }
}

/// The key whose value is a constant, and that constant.
fn constant_key(schema: &Value) -> Option<(&str, &str)> {
    let properties = schema.get("properties")?.as_object()?;
    properties.iter().find_map(|(key, property)| Some((key.as_str(), property.get("const")?.as_str()?)))
}

/// The one key of an alternative that is told by its key.
fn single_key(schema: &Value) -> Option<&str> {
    let required = schema.get("required")?.as_array()?;
    let properties = schema.get("properties")?.as_object()?;
    match (required.as_slice(), properties.len()) {
        ([only], 1) => only.as_str(),
        _ => None,
    }
}
