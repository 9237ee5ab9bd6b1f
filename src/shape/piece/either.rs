//! Values with a short form (a word or a formula) and a long one (a mapping).

/// A type read from either a scalar or a mapping. The scalar is turned into the long form by a function.
macro_rules! either {
    ($(#[$doc:meta])* $name:ident, $long:ty, $short:expr) => {
        $(#[$doc])*
        #[derive(Debug, Clone, PartialEq, serde::Serialize, serde::Deserialize)]
        #[serde(try_from = "serde_yaml::Value")]
        pub struct $name(pub $long);

        impl TryFrom<serde_yaml::Value> for $name {
            type Error = String;

            fn try_from(value: serde_yaml::Value) -> Result<$name, String> {
                match value {
                    serde_yaml::Value::Mapping(_) => {
                        serde_yaml::from_value(value).map($name).map_err(|error| error.to_string())
                    }
                    other => {
                        let short: fn(&str) -> $long = $short;
                        Ok($name(short(crate::shape::piece::either::written(&other)?.as_str())))
                    }
                }
            }
        }

        impl schemars::JsonSchema for $name {
            fn schema_name() -> std::borrow::Cow<'static, str> {
                stringify!($name).into()
            }

            fn json_schema(generator: &mut schemars::SchemaGenerator) -> schemars::Schema {
                let mut schema = <$long as schemars::JsonSchema>::json_schema(generator);
                schema.insert("type".into(), serde_json::json!(["string", "number", "object"]));
                schema
            }
        }
    };
}

pub(in crate::shape) use either;

/// A scalar as it would be written.
pub(in crate::shape) fn written(value: &serde_yaml::Value) -> Result<String, String> {
    match value {
        serde_yaml::Value::String(text) => Ok(text.clone()),
        serde_yaml::Value::Number(number) => Ok(number.to_string()),
        _ => Err("expected a word, a formula or a mapping".to_string()),
    }
}
