//! Reads JSON text into a tree and notices fields written twice, of which one would be lost.

use std::cell::RefCell;
use std::fmt;

use serde::de::{DeserializeSeed, Deserializer, Error, MapAccess, SeqAccess, Visitor};
use serde_json::{Map, Number, Value};

/// The tree, and the paths of fields that stand twice in one object. The last value is kept.
pub(super) fn parse(text: &str) -> Result<(Value, Vec<String>), serde_json::Error> {
    let twice = RefCell::new(Vec::new());
    let mut from = serde_json::Deserializer::from_str(text);
    let tree = Node { path: String::new(), twice: &twice }.deserialize(&mut from)?;
    from.end()?;
    Ok((tree, twice.into_inner()))
}

/// The path of a field of the object at `path`.
pub(super) fn field(path: &str, name: &str) -> String {
    if path.is_empty() { name.to_owned() } else { format!("{path}.{name}") }
}

#[derive(Clone)]
struct Node<'a> {
    path: String,
    twice: &'a RefCell<Vec<String>>,
}

impl<'de> DeserializeSeed<'de> for Node<'_> {
    type Value = Value;

    fn deserialize<D: Deserializer<'de>>(self, from: D) -> Result<Value, D::Error> {
        from.deserialize_any(self)
    }
}

impl<'de> Visitor<'de> for Node<'_> {
    type Value = Value;

    fn expecting(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str("JSON")
    }

    fn visit_bool<E: Error>(self, value: bool) -> Result<Value, E> {
        Ok(Value::Bool(value))
    }

    fn visit_i64<E: Error>(self, value: i64) -> Result<Value, E> {
        Ok(Value::Number(value.into()))
    }

    fn visit_u64<E: Error>(self, value: u64) -> Result<Value, E> {
        Ok(Value::Number(value.into()))
    }

    fn visit_f64<E: Error>(self, value: f64) -> Result<Value, E> {
        Ok(Number::from_f64(value).map_or(Value::Null, Value::Number))
    }

    fn visit_str<E: Error>(self, value: &str) -> Result<Value, E> {
        Ok(Value::String(value.to_owned()))
    }

    fn visit_unit<E: Error>(self) -> Result<Value, E> {
        Ok(Value::Null)
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<Value, A::Error> {
        let mut items = Vec::new();
        loop {
            let path = format!("{}[{}]", self.path, items.len());
            match list.next_element_seed(Node { path, twice: self.twice })? {
                Some(item) => items.push(item),
                None => return Ok(Value::Array(items)),
            }
        }
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Value, A::Error> {
        let mut fields = Map::new();
        while let Some(name) = map.next_key::<String>()? {
            let path = field(&self.path, &name);
            let value = map.next_value_seed(Node { path: path.clone(), twice: self.twice })?;
            if fields.insert(name, value).is_some() {
                self.twice.borrow_mut().push(path);
            }
        }
        Ok(Value::Object(fields))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_tree_is_what_the_plain_reader_gives() {
        let text = r#"{"a":[1,-2,2.5,"x",null,true],"b":{"c":{}}}"#;
        let (tree, twice) = parse(text).unwrap();
        assert_eq!(tree, serde_json::from_str::<Value>(text).unwrap());
        assert!(twice.is_empty());
    }

    #[test]
    fn a_field_written_twice_is_named() {
        let (tree, twice) = parse(r#"{"a":[{"b":1,"b":2}]}"#).unwrap();
        assert_eq!(twice, ["a[0].b"]);
        assert_eq!(tree, serde_json::json!({"a":[{"b":2}]}));
    }

    #[test]
    fn what_follows_the_tree_is_an_error() {
        assert!(parse("{} {}").is_err());
    }
}
