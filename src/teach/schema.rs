//! The JSON Schema an editor explains the garment file with.

use serde_json::{Map, Value, json};

use crate::book::KINDS;
use crate::reckon::{Input, Kind, Need, TECHNIQUES, Technique};
use crate::shape::schema::garment_schema;

/// The name the schema has beside a garment file.
pub const SCHEMA_FILE: &str = "garment.schema.json";

/// The schema of the garment file, with every technique's inputs and every figure's keys.
///
/// It is wider than the one the file is checked against: there the techniques and the kinds of figure
/// have a check of their own, with better words.
#[must_use]
pub fn editor_schema() -> Value {
    let mut schema = garment_schema();
    let figure = json!({ "$ref": "#/$defs/Figure" });
    put(&mut schema, "/$defs", "Figure", figure_schema());
    put(&mut schema, "/properties/construction", "additionalProperties", construction_schema());
    put(&mut schema, "/properties", "view", figure.clone());
    put(&mut schema, "/properties/more_views", "items", figure.clone());
    put(&mut schema, "/$defs/StepShape/properties", "figure", figure.clone());
    put(&mut schema, "/$defs/StepShape/properties/more_figures", "items", figure);
    if let Some(Value::Object(parts)) = schema.pointer_mut("/properties") {
        for part in parts.values_mut() {
            or_a_file(part);
        }
    }
    schema
}

/// Sets a key of the object at a JSON pointer, and keeps the words of what stood there.
fn put(schema: &mut Value, pointer: &str, key: &str, mut with: Value) {
    let Some(Value::Object(map)) = schema.pointer_mut(pointer) else { return };
    if let (Some(words), Some(with)) = (map.get(key).and_then(|old| old.get("description")), with.as_object_mut()) {
        with.insert("description".to_string(), words.clone());
    }
    map.insert(key.to_string(), with);
}

/// A long part may be the name of a file instead.
fn or_a_file(part: &mut Value) {
    let long =
        part.get("$ref").is_some() || matches!(part.get("type").and_then(Value::as_str), Some("object" | "array"));
    if !long {
        return;
    }
    let words = part.as_object_mut().and_then(|map| map.remove("description"));
    *part = json!({
        "if": { "type": "string" },
        "then": { "pattern": "\\.ya?ml$" },
        "else": part.take(),
    });
    if let (Some(words), Some(map)) = (words, part.as_object_mut()) {
        map.insert("description".to_string(), words);
    }
}

/// One of the techniques, told by its name.
fn construction_schema() -> Value {
    let names: Vec<Value> = TECHNIQUES.iter().map(|technique| technique_name(technique)).collect();
    let rules: Vec<Value> =
        TECHNIQUES.iter().map(|technique| rule("technique", technique.name, entry_keys(technique))).collect();
    json!({
        "type": "object",
        "required": ["technique"],
        "properties": { "technique": { "oneOf": names } },
        "allOf": rules,
    })
}

fn technique_name(technique: &Technique) -> Value {
    json!({ "const": technique.name, "description": format!("{}: {}", technique.title, technique.summary) })
}

/// Where `key` is `word`, the other keys are these and no more.
fn rule(key: &str, word: &str, mut properties: Map<String, Value>) -> Value {
    properties.insert(key.to_string(), json!(true));
    json!({
        "if": { "required": [key], "properties": { key: { "const": word } } },
        "then": { "properties": properties, "additionalProperties": false },
    })
}

fn entry_keys(technique: &Technique) -> Map<String, Value> {
    let mut keys = Map::new();
    // A swatch of the garment feeds every input of its own name.
    keys.insert(
        "swatch".to_string(),
        json!({ "type": "string", "description": "The swatch it takes its measures from." }),
    );
    keys.extend(technique.inputs.iter().map(|input| (input.name.to_string(), input_schema(input))));
    keys
}

fn input_schema(input: &Input) -> Value {
    let mut words = sentence(input.doc);
    match input.need {
        Need::Required => {}
        Need::Default(formula, why) => words.push_str(&format!(" Left out: `{formula}` ({why}).")),
        Need::Optional => words.push_str(" May be left out."),
    }
    let scalar = json!(["string", "number"]);
    let mut schema = match input.kind {
        Kind::Flag => json!({ "enum": ["yes", "no", true, false] }),
        Kind::Choice(choices) => json!({ "enum": choices }),
        Kind::List(_) => json!({ "type": ["array", "string", "number"], "items": { "type": scalar } }),
        Kind::Rows(columns) => {
            let columns: Map<String, Value> =
                columns.iter().map(|column| (column.name.to_string(), input_schema(column))).collect();
            json!({ "type": "array", "items": { "type": "object", "properties": columns, "additionalProperties": false } })
        }
        Kind::Quantity(_) | Kind::Count | Kind::Words => json!({ "type": scalar }),
    };
    if let Some(map) = schema.as_object_mut() {
        map.insert("description".to_string(), json!(words));
    }
    schema
}

fn sentence(text: &str) -> String {
    let mut text = text.trim_end_matches('.').to_string();
    if let Some(first) = text.get(..1).map(str::to_uppercase) {
        text.replace_range(..1, &first);
    }
    text.push('.');
    text
}

/// One of the kinds of figure, told by its name.
fn figure_schema() -> Value {
    let kinds: Vec<Value> =
        KINDS.iter().map(|kind| json!({ "const": kind.name, "description": sentence(kind.doc) })).collect();
    let common = [
        ("of", "The construction entry it takes its numbers from."),
        ("caption", "Your own words under the figure."),
        ("alt", "Your own words for a reader who cannot see it."),
    ];
    let value = json!({ "type": ["string", "number", "boolean", "array"] });
    let rules: Vec<Value> = KINDS
        .iter()
        .map(|kind| {
            let mut properties: Map<String, Value> =
                kind.inputs.iter().map(|input| ((*input).to_string(), value.clone())).collect();
            properties.extend(
                common
                    .iter()
                    .map(|(name, words)| ((*name).to_string(), json!({ "type": "string", "description": words }))),
            );
            rule("kind", kind.name, properties)
        })
        .collect();
    json!({ "type": "object", "required": ["kind"], "properties": { "kind": { "oneOf": kinds } }, "allOf": rules })
}
