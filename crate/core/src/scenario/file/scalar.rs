//! Lengths and numbers as they stand in the file.

use serde::Deserialize;
use serde::de::{Deserializer, Error};
use serde_json::Value;

/// A length as written, not yet understood: `"23 5/8"`, `"600 mm"`, `600`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Written {
    /// A text.
    Text(String),
    /// A number, in the file's unit.
    Number(String),
    /// `null`, where a list needs a length.
    Nothing,
}

impl<'de> Deserialize<'de> for Written {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        Written::of(Value::deserialize(from)?)
            .ok_or_else(|| D::Error::custom("expected a length, such as \"23 5/8\" or \"600 mm\""))
    }
}

impl Written {
    fn of(value: Value) -> Option<Written> {
        match value {
            Value::String(text) => Some(Written::Text(text)),
            Value::Number(number) => Some(Written::Number(number.to_string())),
            Value::Null => Some(Written::Nothing),
            _ => None,
        }
    }
}

/// Three lengths: left to right, front to back, up. Nothing where a list needs one.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Place(pub Vec<Written>);

impl<'de> Deserialize<'de> for Place {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        const WANTED: &str = "expected three lengths in square brackets, such as [0, 18, 100]";
        match Value::deserialize(from)? {
            Value::Null => Ok(Place::default()),
            Value::Array(items) => items
                .into_iter()
                .map(Written::of)
                .collect::<Option<_>>()
                .map(Place)
                .ok_or_else(|| D::Error::custom(WANTED)),
            _ => Err(D::Error::custom(WANTED)),
        }
    }
}

#[cfg(feature = "schema")]
impl schemars::JsonSchema for Place {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "Place".into()
    }

    fn json_schema(generator: &mut schemars::SchemaGenerator) -> schemars::Schema {
        let length = generator.subschema_for::<Written>();
        schemars::json_schema!({
            "description": "Three lengths: left to right, front to back, up.",
            "type": "array",
            "items": length,
            "minItems": 3,
            "maxItems": 3,
            "examples": [[0, 18, "100 mm"]]
        })
    }
}

/// A plain number, kept as written so that no rounding comes between the file and the check.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Amount(pub String);

impl<'de> Deserialize<'de> for Amount {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        match Value::deserialize(from)? {
            Value::Number(number) => Ok(Amount(number.to_string())),
            _ => Err(D::Error::custom("expected a number without quotes, such as 2")),
        }
    }
}

#[cfg(feature = "schema")]
impl schemars::JsonSchema for Written {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "Length".into()
    }

    fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
        schemars::json_schema!({
            "description": "A length of zero or more: a text, with or without its unit, or a number in the file's unit.",
            "anyOf": [{ "type": "string", "minLength": 1, "maxLength": 64 }, { "type": "number", "minimum": 0 }],
            "examples": ["23 5/8", "23-5/8\"", "1' 11 5/8\"", "600 mm", "60 cm", "571,2", 600]
        })
    }
}

#[cfg(feature = "schema")]
impl schemars::JsonSchema for Amount {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "Number".into()
    }

    fn inline_schema() -> bool {
        true
    }

    fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
        schemars::json_schema!({ "type": "number" })
    }
}
