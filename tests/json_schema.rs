//! A small reader of JSON Schema, for the keywords that the scenario's schema uses. A keyword it
//! does not know is a panic, so that nothing passes unchecked.

use serde_json::Value;

/// What of `value` does not hold, as paths with a reason.
pub fn faults(root: &Value, schema: &Value, value: &Value) -> Vec<String> {
    let mut found = Vec::new();
    check(root, schema, value, "", &mut found);
    found
}

fn check(root: &Value, schema: &Value, value: &Value, path: &str, found: &mut Vec<String>) {
    let Value::Object(keywords) = schema else {
        match schema {
            Value::Bool(true) => {}
            _ => found.push(format!("{path}: nothing may stand here")),
        }
        return;
    };
    for (keyword, wanted) in keywords {
        let holds = match keyword.as_str() {
            "$schema" | "$defs" | "title" | "description" | "examples" | "default" => true,
            // A hint for programs, not a rule.
            "format" => true,
            "$ref" => {
                let pointer =
                    wanted.as_str().and_then(|r| r.strip_prefix('#')).expect("a local reference");
                check(
                    root,
                    root.pointer(pointer).expect("the reference leads somewhere"),
                    value,
                    path,
                    found,
                );
                true
            }
            "type" => match wanted {
                Value::Array(types) => types.iter().any(|t| is_type(t, value)),
                one => is_type(one, value),
            },
            "const" => value == wanted,
            "enum" => list(wanted).contains(value),
            "anyOf" => ways(root, wanted, value) > 0,
            "oneOf" => ways(root, wanted, value) == 1,
            "minimum" => value.as_f64().is_none_or(|v| v >= number(wanted)),
            "maximum" => value.as_f64().is_none_or(|v| v <= number(wanted)),
            "minLength" => {
                value.as_str().is_none_or(|v| v.chars().count() as f64 >= number(wanted))
            }
            "maxLength" => {
                value.as_str().is_none_or(|v| v.chars().count() as f64 <= number(wanted))
            }
            "minItems" => value.as_array().is_none_or(|v| v.len() as f64 >= number(wanted)),
            "maxItems" => value.as_array().is_none_or(|v| v.len() as f64 <= number(wanted)),
            "items" => {
                for (n, item) in value.as_array().into_iter().flatten().enumerate() {
                    check(root, wanted, item, &format!("{path}[{n}]"), found);
                }
                true
            }
            "required" => value.as_object().is_none_or(|fields| {
                list(wanted).iter().all(|name| fields.contains_key(name.as_str().expect("a name")))
            }),
            "properties" => {
                for (name, field) in value.as_object().into_iter().flatten() {
                    if let Some(schema) = wanted.get(name) {
                        check(root, schema, field, &format!("{path}.{name}"), found);
                    }
                }
                true
            }
            "additionalProperties" => {
                let properties = keywords.get("properties");
                let named = |name: &String| properties.is_some_and(|p| p.get(name).is_some());
                for (name, field) in value.as_object().into_iter().flatten() {
                    // A map: names are the file's own, values alike.
                    if wanted.is_object() && !named(name) {
                        check(root, wanted, field, &format!("{path}.{name}"), found);
                    }
                }
                assert_ne!(wanted, &Value::Bool(true), "open objects are not understood");
                wanted.is_object()
                    || value.as_object().is_none_or(|fields| fields.keys().all(named))
            }
            other => panic!("{path}: the schema uses `{other}`, which this check does not know"),
        };
        if !holds {
            found.push(format!("{path}: {value} does not hold for {keyword} {wanted}"));
        }
    }
}

fn ways(root: &Value, schemas: &Value, value: &Value) -> usize {
    list(schemas).iter().filter(|schema| faults(root, schema, value).is_empty()).count()
}

fn list(value: &Value) -> &[Value] {
    value.as_array().expect("a list")
}

fn number(value: &Value) -> f64 {
    value.as_f64().expect("a number")
}

fn is_type(name: &Value, value: &Value) -> bool {
    match name.as_str().expect("a type's name") {
        "object" => value.is_object(),
        "array" => value.is_array(),
        "string" => value.is_string(),
        "number" => value.is_number(),
        "integer" => value.as_f64().is_some_and(|v| v.fract() == 0.0),
        "boolean" => value.is_boolean(),
        "null" => value.is_null(),
        other => panic!("no such type: {other}"),
    }
}
