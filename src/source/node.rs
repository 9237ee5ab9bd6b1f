//! A YAML value with its place.

use serde_yaml::Value;

use crate::fault::{Route, Seg, Span};

/// A value and the bytes it was read from.
#[derive(Debug, Clone, PartialEq)]
pub struct Node {
    /// Where it stands.
    pub span: Span,
    /// What it is.
    pub kind: NodeKind,
}

/// The kinds of values.
#[derive(Debug, Clone, PartialEq)]
pub enum NodeKind {
    /// Text or a number; `plain` where it was written without quotes or block sign.
    Scalar {
        /// The text, escapes and folding resolved.
        text: String,
        /// Written without quotes, so that `12` is a number.
        plain: bool,
    },
    /// A list.
    List(Vec<Node>),
    /// A mapping, in the order written.
    Map(Vec<Entry>),
}

/// A key and its value.
#[derive(Debug, Clone, PartialEq)]
pub struct Entry {
    /// The key.
    pub key: String,
    /// Where the key stands.
    pub key_span: Span,
    /// The value.
    pub value: Node,
}

impl Node {
    /// The value under a key of a mapping.
    #[must_use]
    pub fn get(&self, key: &str) -> Option<&Node> {
        match &self.kind {
            NodeKind::Map(entries) => entries.iter().find(|entry| entry.key == key).map(|entry| &entry.value),
            _ => None,
        }
    }

    /// The text of a scalar.
    #[must_use]
    pub fn text(&self) -> Option<&str> {
        match &self.kind {
            NodeKind::Scalar { text, .. } => Some(text),
            _ => None,
        }
    }

    /// Whether it is nothing: an empty value, `~` or `null`.
    #[must_use]
    pub fn is_null(&self) -> bool {
        matches!(&self.kind, NodeKind::Scalar { text, plain: true } if matches!(text.as_str(), "" | "~" | "null" | "Null" | "NULL"))
    }

    /// The node at the end of a route, to be changed.
    pub fn walk_mut(&mut self, route: &Route) -> Option<&mut Node> {
        let mut node = self;
        for seg in &route.0 {
            node = match (seg, &mut node.kind) {
                (Seg::Key(key), NodeKind::Map(entries)) => {
                    entries.iter_mut().find(|entry| entry.key == *key).map(|entry| &mut entry.value)?
                }
                (Seg::Index(index), NodeKind::List(list)) => list.get_mut(*index)?,
                _ => return None,
            };
        }
        Some(node)
    }

    /// The node at the end of a route, and the bytes of the key that leads to it.
    #[must_use]
    pub fn walk(&self, route: &Route) -> Option<(&Node, Option<Span>)> {
        let mut node = self;
        let mut key_span = None;
        for seg in &route.0 {
            match (seg, &node.kind) {
                (Seg::Key(key), NodeKind::Map(entries)) => {
                    let entry = entries.iter().find(|entry| entry.key == *key)?;
                    key_span = Some(entry.key_span);
                    node = &entry.value;
                }
                (Seg::Index(index), NodeKind::List(list)) => {
                    key_span = None;
                    node = list.get(*index)?;
                }
                _ => return None,
            }
        }
        Some((node, key_span))
    }

    /// The value with plain scalars resolved as YAML 1.2 resolves them.
    #[must_use]
    pub fn to_value(&self) -> Value {
        match &self.kind {
            NodeKind::Scalar { text, plain: false } => Value::String(text.clone()),
            NodeKind::Scalar { text, plain: true } => resolve(text),
            NodeKind::List(list) => Value::Sequence(list.iter().map(Node::to_value).collect()),
            NodeKind::Map(entries) => Value::Mapping(
                entries.iter().map(|entry| (Value::String(entry.key.clone()), entry.value.to_value())).collect(),
            ),
        }
    }

    /// What it is, in words, for messages.
    #[must_use]
    pub fn describe(&self) -> String {
        match &self.kind {
            _ if self.is_null() => "nothing".to_string(),
            NodeKind::List(_) => "a list".to_string(),
            NodeKind::Map(_) => "a mapping".to_string(),
            NodeKind::Scalar { plain, text } => match self.to_value() {
                Value::Number(_) => format!("the number `{text}`"),
                Value::Bool(_) => format!("`{text}`"),
                _ if *plain || text.len() < 40 => format!("the text `{}`", shorten(text)),
                _ => "text".to_string(),
            },
        }
    }
}

fn shorten(text: &str) -> String {
    let first = text.lines().next().unwrap_or("");
    if first.chars().count() <= 40 && first.len() == text.len() {
        return text.to_string();
    }
    first.chars().take(36).chain("...".chars()).collect()
}

/// A plain scalar: null, true or false, a number, or text. Only texts that can be something else than
/// text are given to the YAML library, which knows the rules.
fn resolve(text: &str) -> Value {
    let first = text.chars().next().unwrap_or('~');
    let candidate =
        first.is_ascii_digit() || matches!(first, '+' | '-' | '.' | '~' | 't' | 'T' | 'f' | 'F' | 'n' | 'N');
    if candidate
        && text.len() <= 64
        && !text.contains([':', '#', ' ', '\n', ',', '[', '{', '"', '\''])
        && let Ok(value @ (Value::Null | Value::Bool(_) | Value::Number(_))) = serde_yaml::from_str::<Value>(text)
    {
        return value;
    }
    Value::String(text.to_string())
}

impl Node {
    /// The JSON type of the value: `object`, `array`, `string`, `number`, `integer`, `boolean`, `null`.
    #[must_use]
    pub fn to_value_kind(&self) -> &'static str {
        match &self.kind {
            NodeKind::Map(_) => "object",
            NodeKind::List(_) => "array",
            NodeKind::Scalar { .. } => match self.to_value() {
                Value::Null => "null",
                Value::Bool(_) => "boolean",
                Value::Number(number) if number.is_f64() => "number",
                Value::Number(_) => "integer",
                _ => "string",
            },
        }
    }
}
