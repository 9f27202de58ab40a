//! Lengths and numbers as they stand in the file, and objects that are really objects.

use std::fmt;
use std::marker::PhantomData;

use serde::de::value::MapAccessDeserializer;
use serde::de::{Deserializer, Error, MapAccess, SeqAccess, Visitor};
use serde::{Deserialize, de};
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
        match Value::deserialize(from)? {
            Value::String(text) => Ok(Written::Text(text)),
            Value::Number(number) => Ok(Written::Number(number.to_string())),
            Value::Null => Ok(Written::Nothing),
            _ => Err(D::Error::custom("expected a length, such as \"23 5/8\" or \"600 mm\"")),
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
                .map(|item| Written::deserialize(item).map_err(|_| D::Error::custom(WANTED)))
                .collect::<Result<_, _>>()
                .map(Place),
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

/// An object or nothing. A derived reader would take a list for an object too, field by field in
/// their order, and so give a meaning to what was a mistake.
pub(super) fn object<'de, D, T>(from: D) -> Result<Option<T>, D::Error>
where
    D: Deserializer<'de>,
    T: Deserialize<'de>,
{
    from.deserialize_any(ObjectOrNothing(PhantomData))
}

/// A list of objects, or nothing.
pub(super) fn objects<'de, D, T>(from: D) -> Result<Option<Vec<T>>, D::Error>
where
    D: Deserializer<'de>,
    T: Deserialize<'de>,
{
    from.deserialize_any(ListOrNothing(PhantomData))
}

/// Something that is written as an object and never as a list.
#[derive(Debug)]
pub(crate) struct Object<T>(pub T);

impl<'de, T: Deserialize<'de>> Deserialize<'de> for Object<T> {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        from.deserialize_map(JustObject(PhantomData)).map(Object)
    }
}

struct JustObject<T>(PhantomData<T>);

impl<'de, T: Deserialize<'de>> Visitor<'de> for JustObject<T> {
    type Value = T;

    fn expecting(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str("an object in braces")
    }

    fn visit_map<A: MapAccess<'de>>(self, map: A) -> Result<T, A::Error> {
        T::deserialize(MapAccessDeserializer::new(map))
    }
}

struct ObjectOrNothing<T>(PhantomData<T>);

impl<'de, T: Deserialize<'de>> Visitor<'de> for ObjectOrNothing<T> {
    type Value = Option<T>;

    fn expecting(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str("an object in braces")
    }

    fn visit_unit<E: de::Error>(self) -> Result<Option<T>, E> {
        Ok(None)
    }

    fn visit_map<A: MapAccess<'de>>(self, map: A) -> Result<Option<T>, A::Error> {
        T::deserialize(MapAccessDeserializer::new(map)).map(Some)
    }
}

struct ListOrNothing<T>(PhantomData<T>);

impl<'de, T: Deserialize<'de>> Visitor<'de> for ListOrNothing<T> {
    type Value = Option<Vec<T>>;

    fn expecting(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str("a list in square brackets")
    }

    fn visit_unit<E: de::Error>(self) -> Result<Self::Value, E> {
        Ok(None)
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<Self::Value, A::Error> {
        let mut items = Vec::new();
        while let Some(Object(item)) = list.next_element()? {
            items.push(item);
        }
        Ok(Some(items))
    }
}
