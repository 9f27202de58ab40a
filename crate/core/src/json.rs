//! From a tree of JSON to a type, with the place of what does not fit.
//!
//! Every type is read from this one kind of tree, and an object only where an object belongs. A
//! derived reader compiles its code once for each kind of source and each form (object, list) that
//! it may meet; with one of each it is an eighth of the page's module and not a fifth.

use std::fmt;

use serde::de::value::BorrowedStrDeserializer;
use serde::de::{
    Deserialize, DeserializeOwned, DeserializeSeed, Deserializer, EnumAccess, Error, Expected,
    MapAccess, SeqAccess, Unexpected, VariantAccess, Visitor,
};
use serde_json::{Map, Value};

/// One step of the way from the whole to a value in it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Step {
    /// Into the field of an object.
    Field(String),
    /// To the entry of a list, from 0.
    Entry(usize),
}

/// What does not fit, and where.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Misfit {
    /// In the words of the reader.
    pub said: String,
    /// The way to it, from the whole. It ends in the name of an unknown field.
    pub steps: Vec<Step>,
}

/// Reads a type from a tree.
///
/// # Errors
/// The first thing that does not fit.
pub fn read<'a, T: Deserialize<'a>>(tree: &'a Value) -> Result<T, Misfit> {
    T::deserialize(At(tree)).map_err(|mut misfit| {
        // Noted from the inside out.
        misfit.steps.reverse();
        misfit
    })
}

/// Reads a type from a text.
///
/// # Errors
/// When the text is not JSON, or the first thing that does not fit.
pub fn read_text<T: DeserializeOwned>(text: &str) -> Result<T, Misfit> {
    read(&serde_json::from_str(text).map_err(Misfit::custom)?)
}

impl Misfit {
    fn within(mut self, step: Step) -> Misfit {
        self.steps.push(step);
        self
    }
}

impl fmt::Display for Misfit {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(&self.said)
    }
}

impl std::error::Error for Misfit {}

impl Error for Misfit {
    fn custom<M: fmt::Display>(said: M) -> Misfit {
        Misfit { said: said.to_string(), steps: Vec::new() }
    }
}

/// A place in the tree.
struct At<'a>(&'a Value);

impl<'a> At<'a> {
    fn misfit(&self, expected: &dyn Expected) -> Misfit {
        Misfit::invalid_type(
            match self.0 {
                Value::Null => Unexpected::Unit,
                Value::Bool(b) => Unexpected::Bool(*b),
                Value::Number(_) => Unexpected::Other("number"),
                Value::String(text) => Unexpected::Str(text),
                Value::Array(_) => Unexpected::Seq,
                Value::Object(_) => Unexpected::Map,
            },
            expected,
        )
    }

    fn fields(&self) -> Result<Fields<'a>, Misfit> {
        match self.0 {
            Value::Object(fields) => Ok(Fields { left: fields.iter(), now: None }),
            _ => Err(self.misfit(&"an object in braces")),
        }
    }

    fn list<V: Visitor<'a>>(self, visitor: V) -> Result<V::Value, Misfit> {
        let Value::Array(items) = self.0 else {
            return Err(self.misfit(&visitor));
        };
        let mut entries = Entries { left: items.iter(), at: 0 };
        let value = visitor.visit_seq(&mut entries)?;
        if entries.left.len() == 0 {
            Ok(value)
        } else {
            Err(Misfit::invalid_length(items.len(), &"fewer entries"))
        }
    }

    fn number<V: Visitor<'a>>(self, visitor: V) -> Result<V::Value, Misfit> {
        let Value::Number(number) = self.0 else {
            return Err(self.misfit(&visitor));
        };
        match (number.as_u64(), number.as_i64(), number.as_f64()) {
            (Some(n), ..) => visitor.visit_u64(n),
            (_, Some(n), _) => visitor.visit_i64(n),
            (.., Some(n)) => visitor.visit_f64(n),
            _ => Err(self.misfit(&visitor)),
        }
    }

    fn text<V: Visitor<'a>>(self, visitor: V) -> Result<V::Value, Misfit> {
        match self.0 {
            Value::String(text) => visitor.visit_borrowed_str(text),
            _ => Err(self.misfit(&visitor)),
        }
    }
}

/// Readers that differ in name only.
macro_rules! read_by {
    ($way:ident: $($name:ident)*) => { $(
        fn $name<V: Visitor<'a>>(self, visitor: V) -> Result<V::Value, Misfit> {
            self.$way(visitor)
        }
    )* };
}

impl<'a> Deserializer<'a> for At<'a> {
    type Error = Misfit;

    fn deserialize_any<V: Visitor<'a>>(self, visitor: V) -> Result<V::Value, Misfit> {
        match self.0 {
            Value::Null => visitor.visit_unit(),
            Value::Bool(b) => visitor.visit_bool(*b),
            Value::Number(_) => self.number(visitor),
            Value::String(_) => self.text(visitor),
            Value::Array(_) => self.list(visitor),
            Value::Object(_) => visitor.visit_map(self.fields()?),
        }
    }

    read_by! { number: deserialize_i8 deserialize_i16 deserialize_i32 deserialize_i64 deserialize_u8
    deserialize_u16 deserialize_u32 deserialize_u64 deserialize_f32 deserialize_f64 }
    read_by! { text: deserialize_char deserialize_str deserialize_string deserialize_identifier
    deserialize_bytes deserialize_byte_buf }
    read_by! { list: deserialize_seq }

    fn deserialize_bool<V: Visitor<'a>>(self, visitor: V) -> Result<V::Value, Misfit> {
        match self.0 {
            Value::Bool(b) => visitor.visit_bool(*b),
            _ => Err(self.misfit(&visitor)),
        }
    }

    fn deserialize_option<V: Visitor<'a>>(self, visitor: V) -> Result<V::Value, Misfit> {
        match self.0 {
            Value::Null => visitor.visit_none(),
            _ => visitor.visit_some(self),
        }
    }

    fn deserialize_unit<V: Visitor<'a>>(self, visitor: V) -> Result<V::Value, Misfit> {
        match self.0 {
            Value::Null => visitor.visit_unit(),
            _ => Err(self.misfit(&visitor)),
        }
    }

    fn deserialize_unit_struct<V: Visitor<'a>>(
        self,
        _: &'static str,
        visitor: V,
    ) -> Result<V::Value, Misfit> {
        self.deserialize_unit(visitor)
    }

    fn deserialize_newtype_struct<V: Visitor<'a>>(
        self,
        _: &'static str,
        visitor: V,
    ) -> Result<V::Value, Misfit> {
        visitor.visit_newtype_struct(self)
    }

    fn deserialize_tuple<V: Visitor<'a>>(self, _: usize, visitor: V) -> Result<V::Value, Misfit> {
        self.list(visitor)
    }

    fn deserialize_tuple_struct<V: Visitor<'a>>(
        self,
        _: &'static str,
        _: usize,
        visitor: V,
    ) -> Result<V::Value, Misfit> {
        self.list(visitor)
    }

    fn deserialize_map<V: Visitor<'a>>(self, visitor: V) -> Result<V::Value, Misfit> {
        visitor.visit_map(self.fields()?)
    }

    // Never from a list: field by field in their order it would give a meaning to what was a mistake.
    fn deserialize_struct<V: Visitor<'a>>(
        self,
        _: &'static str,
        _: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Misfit> {
        visitor.visit_map(self.fields()?)
    }

    fn deserialize_enum<V: Visitor<'a>>(
        self,
        _: &'static str,
        _: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Misfit> {
        let one = |fields: &'a Map<String, Value>| match (fields.len(), fields.iter().next()) {
            (1, Some((name, value))) => Some(Variant { name, value: Some(value) }),
            _ => None,
        };
        let variant = match self.0 {
            Value::String(name) => Some(Variant { name, value: None }),
            Value::Object(fields) => one(fields),
            _ => None,
        };
        visitor.visit_enum(variant.ok_or_else(|| self.misfit(&"a text in double quotes"))?)
    }

    fn deserialize_ignored_any<V: Visitor<'a>>(self, visitor: V) -> Result<V::Value, Misfit> {
        visitor.visit_unit()
    }
}

struct Fields<'a> {
    left: serde_json::map::Iter<'a>,
    now: Option<(&'a String, &'a Value)>,
}

impl<'a> MapAccess<'a> for Fields<'a> {
    type Error = Misfit;

    fn next_key_seed<K: DeserializeSeed<'a>>(
        &mut self,
        seed: K,
    ) -> Result<Option<K::Value>, Misfit> {
        self.now = self.left.next();
        let Some((name, _)) = self.now else {
            return Ok(None);
        };
        let key = seed.deserialize(BorrowedStrDeserializer::new(name));
        key.map(Some).map_err(|misfit: Misfit| misfit.within(Step::Field(name.clone())))
    }

    fn next_value_seed<V: DeserializeSeed<'a>>(&mut self, seed: V) -> Result<V::Value, Misfit> {
        let (name, value) = self.now.take().ok_or_else(|| Misfit::custom("a value without key"))?;
        seed.deserialize(At(value)).map_err(|misfit| misfit.within(Step::Field(name.clone())))
    }

    fn size_hint(&self) -> Option<usize> {
        Some(self.left.len())
    }
}

struct Entries<'a> {
    left: std::slice::Iter<'a, Value>,
    at: usize,
}

impl<'a> SeqAccess<'a> for Entries<'a> {
    type Error = Misfit;

    fn next_element_seed<T: DeserializeSeed<'a>>(
        &mut self,
        seed: T,
    ) -> Result<Option<T::Value>, Misfit> {
        let Some(value) = self.left.next() else {
            return Ok(None);
        };
        let at = self.at;
        self.at += 1;
        seed.deserialize(At(value)).map(Some).map_err(|misfit| misfit.within(Step::Entry(at)))
    }

    fn size_hint(&self) -> Option<usize> {
        Some(self.left.len())
    }
}

/// One of several: its name alone, or `{"name": what it holds}`.
struct Variant<'a> {
    name: &'a str,
    value: Option<&'a Value>,
}

impl<'a> EnumAccess<'a> for Variant<'a> {
    type Error = Misfit;
    type Variant = Variant<'a>;

    fn variant_seed<V: DeserializeSeed<'a>>(self, seed: V) -> Result<(V::Value, Self), Misfit> {
        Ok((seed.deserialize(BorrowedStrDeserializer::new(self.name))?, self))
    }
}

impl<'a> Variant<'a> {
    fn held(&self) -> Result<At<'a>, Misfit> {
        self.value.map(At).ok_or_else(|| Misfit::custom("expected an object in braces"))
    }
}

impl<'a> VariantAccess<'a> for Variant<'a> {
    type Error = Misfit;

    fn unit_variant(self) -> Result<(), Misfit> {
        match self.value {
            None => Ok(()),
            Some(_) => Err(Misfit::custom("expected a text in double quotes")),
        }
    }

    fn newtype_variant_seed<T: DeserializeSeed<'a>>(self, seed: T) -> Result<T::Value, Misfit> {
        seed.deserialize(self.held()?)
    }

    fn tuple_variant<V: Visitor<'a>>(self, _: usize, visitor: V) -> Result<V::Value, Misfit> {
        self.held()?.list(visitor)
    }

    fn struct_variant<V: Visitor<'a>>(
        self,
        _: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Misfit> {
        visitor.visit_map(self.held()?.fields()?)
    }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;
    use crate::export::sample;
    use crate::plan::{Plan, Step as PlanStep};

    #[test]
    fn a_plan_is_read_as_the_plain_reader_reads_it() {
        let plan = sample::plan();
        let text = serde_json::to_string(&plan).unwrap();
        assert_eq!(read_text::<Plan>(&text).unwrap(), plan);
        assert_eq!(serde_json::from_str::<Plan>(&text).unwrap(), plan);
    }

    #[test]
    fn a_misfit_is_told_with_its_place() {
        let mut tree = serde_json::to_value(sample::plan().steps).unwrap();
        tree[1]["n"] = json!("two");
        let misfit = read::<Vec<PlanStep>>(&tree).unwrap_err();
        assert_eq!(misfit.steps, [Step::Entry(1), Step::Field("n".to_owned())]);
        assert!(misfit.said.ends_with("expected u32"), "{misfit}");
    }

    #[test]
    fn a_list_is_no_object_and_a_longer_list_no_shorter_one() {
        assert!(read::<PlanStep>(&json!([1])).unwrap_err().said.ends_with("an object in braces"));
        assert_eq!(read::<[u8; 2]>(&json!([1, 2])), Ok([1, 2]));
        assert!(read::<[u8; 2]>(&json!([1, 2, 3])).is_err());
        assert!(read::<[u8; 2]>(&json!([1])).is_err());
        assert!(read::<u8>(&json!(300)).is_err() && read::<u8>(&json!(-1)).is_err());
        assert!(read_text::<u8>("{").is_err());
    }
}
