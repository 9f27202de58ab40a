//! The schema in `scenarios/schema/scenario-1.json`: up to date, complete, and true to the reader.

// A test may stop at the first thing that is not as it must be.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod json_schema;

use std::fs;
use std::path::{Path, PathBuf};

use jointwise::scenario::{file, read};
use serde_json::{Value, json};

fn scenarios() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../scenarios")
}

fn schema() -> Value {
    serde_json::from_str(&file::schema()).unwrap()
}

/// Every `.json` in a folder but the schema itself, as name and tree; those that are no JSON are left out.
fn trees(folder: &Path) -> Vec<(String, Value)> {
    let mut found: Vec<(String, Value)> = fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|p| p.extension().is_some_and(|e| e == "json"))
        .filter_map(|p| {
            let tree = serde_json::from_str(&fs::read_to_string(&p).unwrap()).ok()?;
            Some((p.file_stem().unwrap().to_string_lossy().into_owned(), tree))
        })
        .collect();
    found.sort_by(|a, b| a.0.cmp(&b.0));
    found
}

#[test]
fn the_committed_schema_is_up_to_date() {
    let path = scenarios().join("schema/scenario-1.json");
    let want = file::schema();
    if std::env::var_os("UPDATE_EXPECT").is_some() {
        fs::write(&path, &want).unwrap();
    }
    let have = fs::read_to_string(&path).unwrap_or_default();
    assert!(
        have == want,
        "scenarios/schema/scenario-1.json is out of date: run the tests once with UPDATE_EXPECT=1"
    );
}

#[test]
fn every_scenario_conforms() {
    let schema = schema();
    let mut found = trees(&scenarios());
    assert!(found.len() >= 3);
    found.extend(trees(&scenarios().join("cannot")));
    for (name, tree) in found {
        let faults = json_schema::faults(&schema, &schema, &tree);
        assert!(faults.is_empty(), "{name}: {faults:#?}");
    }
}

/// The schema may be looser than the reader (it does not know units), never stricter.
#[test]
fn what_the_schema_refuses_the_reader_refuses() {
    let schema = schema();
    let broken = trees(&Path::new(env!("CARGO_MANIFEST_DIR")).join("broken"));
    let mut refused = Vec::new();
    for (name, tree) in broken {
        if !json_schema::faults(&schema, &schema, &tree).is_empty() {
            assert!(read(&tree.to_string()).0.is_none(), "{name}");
            refused.push(name);
        }
    }
    for name in [
        "missing-height",
        "wrong-version",
        "unknown-field",
        "unknown-runner-kind",
        "wrong-type-people",
        "wrong-type-space",
        "people-none",
        "no-materials",
        "both-interiors",
        "no-interior",
        "piece-without-parts",
        "piece-part-without-stuff",
        "piece-bought-without-mass",
        "piece-place-of-two-lengths",
        "offcut-with-two-thicknesses",
    ] {
        assert!(refused.iter().any(|r| r == name), "the schema lets {name} pass");
    }
}

/// Calls `visit` with the path and schema of every field of every object.
fn fields(schema: &Value, visit: &mut impl FnMut(&str, &Value)) {
    let objects = std::iter::once(("", schema))
        .chain(schema["$defs"].as_object().unwrap().iter().map(|(name, def)| (name.as_str(), def)));
    for (object, def) in objects {
        for (name, field) in def["properties"].as_object().into_iter().flatten() {
            visit(&format!("{object}.{name}"), field);
        }
    }
}

#[test]
fn every_field_is_described_with_examples_that_hold() {
    let schema = schema();
    let mut count = 0;
    fields(&schema, &mut |path, field| {
        count += 1;
        let described = field["description"].as_str().unwrap_or_default();
        assert!(described.len() > 10, "{path} is not described");
        let examples = field["examples"].as_array().cloned().unwrap_or_default();
        assert!(!examples.is_empty(), "{path} has no example");
        for example in examples {
            let faults = json_schema::faults(&schema, field, &example);
            assert!(faults.is_empty(), "{path}: {faults:#?}");
        }
    });
    assert!(count > 60, "only {count} fields");
}

#[test]
fn optional_fields_say_what_stands_in_for_them() {
    let schema = schema();
    let required = |object: &Value, name: &str| {
        object["required"].as_array().is_some_and(|r| r.contains(&json!(name)))
    };
    let objects = std::iter::once(&schema).chain(schema["$defs"].as_object().unwrap().values());
    for object in objects {
        for (name, field) in object["properties"].as_object().into_iter().flatten() {
            let described = field["description"].as_str().unwrap_or_default();
            let says = if required(object, name) { "Required" } else { "Default" };
            assert!(
                described.contains(says)
                    || matches!(
                        name.as_str(),
                        "$schema" | "space" | "build" | "piece" | "pull_out" | "shelves"
                    ),
                "{name} does not say “{says}”: {described}"
            );
        }
    }
}
