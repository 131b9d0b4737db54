//! The JSON Schema of the plan, generated from the types that write it.

use std::borrow::Cow;

use schemars::generate::{Contract, SchemaSettings};
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde_json::{Map, Value};

use super::{Order, Plan};

/// Returns the JSON Schema (draft 2020-12) of `setwright plan --format json`.
///
/// It is strict: unknown fields and missing fields are errors, and an optional field is left out
/// instead of being null.
#[must_use]
pub fn schema() -> Schema {
    let mut settings = SchemaSettings::draft2020_12();
    settings.contract = Contract::Serialize;
    settings.untagged_enum_variant_titles = false;
    let mut schema = settings.into_generator().into_root_schema_for::<Plan>();
    if let Some(root) = schema.as_object_mut() {
        if let Some(Value::Object(definitions)) = root.get_mut("$defs") {
            definitions.values_mut().for_each(tighten);
        }
        close(root);
        never_null(root);
    }
    schema
}

/// Makes a definition strict: no unknown fields, and no null in optional fields.
fn tighten(definition: &mut Value) {
    if let Value::Object(definition) = definition {
        close(definition);
        for variants in ["oneOf", "anyOf"] {
            let Some(Value::Array(variants)) = definition.get_mut(variants) else { continue };
            variants.iter_mut().filter_map(Value::as_object_mut).for_each(never_null);
        }
        never_null(definition);
    }
}

/// Forbids fields that neither the object nor its variant defines.
fn close(definition: &mut Map<String, Value>) {
    let is_object = definition.get("type").is_some_and(|kind| kind == "object");
    let of_variants = definition.get("oneOf").and_then(Value::as_array).is_some_and(|variants| {
        variants.iter().any(|variant| variant.get("type").is_some_and(|kind| kind == "object"))
    });
    // Without variants, `additionalProperties` means the same and validators are much faster with
    // it.
    if of_variants {
        definition.insert("unevaluatedProperties".to_owned(), Value::Bool(false));
    } else if is_object && definition.contains_key("properties") {
        definition.insert("additionalProperties".to_owned(), Value::Bool(false));
    }
}

/// Forbids null in optional fields.
fn never_null(object: &mut Map<String, Value>) {
    let required: Vec<String> = object
        .get("required")
        .and_then(Value::as_array)
        .into_iter()
        .flatten()
        .filter_map(|name| name.as_str().map(str::to_owned))
        .collect();
    let Some(Value::Object(properties)) = object.get_mut("properties") else { return };
    for (_, property) in properties.iter_mut().filter(|(name, _)| !required.contains(name)) {
        if let Value::Object(property) = property {
            without_null(property);
        }
    }
}

fn without_null(property: &mut Map<String, Value>) {
    if let Some(Value::Array(kinds)) = property.get_mut("type") {
        kinds.retain(|kind| kind != "null");
        if let [only] = kinds.as_slice() {
            let only = only.clone();
            property.insert("type".to_owned(), only);
        }
    }
    if let Some(Value::Array(variants)) = property.get_mut("anyOf") {
        variants.retain(|variant| variant.get("type").is_none_or(|kind| kind != "null"));
        if let [Value::Object(only)] = variants.as_slice() {
            let only = only.clone();
            property.remove("anyOf");
            property.extend(only);
        }
    }
}

/// A calendar date, for the schema.
pub(super) struct IsoDate;

impl JsonSchema for IsoDate {
    fn schema_name() -> Cow<'static, str> {
        "Date".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "description": "A date: year, month, day.",
            "type": "string",
            "format": "date",
            "pattern": "^[0-9]{4}-[0-9]{2}-[0-9]{2}$"
        })
    }
}

impl JsonSchema for Order {
    fn schema_name() -> Cow<'static, str> {
        "Order".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "description": "An order letter, with its number in a group: A, D1.",
            "type": "string",
            "pattern": "^[A-Z](0|[1-9][0-9]*)?$"
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_optional_field_is_never_null_and_a_required_one_may_be() {
        let schema = schema();
        let of = |pointer: &str| schema.pointer(pointer).cloned().unwrap_or_default();
        assert_eq!(of("/properties/goal/type"), "string");
        let date = of("/$defs/Session/properties/date/anyOf");
        assert_eq!(date.pointer("/1/type"), Some(&Value::from("null")));
        assert_eq!(of("/$defs/PlannedSet/properties/work_max_s/$ref"), "#/$defs/UpperBound");
        assert_eq!(of("/$defs/UpperBound/type"), serde_json::json!(["integer", "null"]));
    }

    /// Every object forbids unknown fields, at any depth.
    #[test]
    fn every_definition_with_fields_is_closed() {
        let schema = schema();
        let definitions = schema.get("$defs").and_then(Value::as_object).unwrap();
        for (name, definition) in definitions {
            let fields = definition.get("properties").is_some();
            let closed = ["additionalProperties", "unevaluatedProperties"]
                .iter()
                .any(|key| definition.get(key) == Some(&Value::Bool(false)));
            assert!(closed || !fields, "{name}");
        }
        assert_eq!(schema.get("additionalProperties"), Some(&Value::Bool(false)));
    }

    /// The schema describes every field.
    #[test]
    fn every_field_is_described() {
        fn look(at: &Value, path: &str, missing: &mut Vec<String>) {
            if let Some(Value::Object(properties)) = at.get("properties") {
                for (name, property) in properties {
                    // A variant with one field is described as a whole.
                    let whole = properties.len() == 1 && at.get("description").is_some();
                    let told = ["description", "$ref", "const"];
                    if !whole && !told.iter().any(|key| property.get(key).is_some()) {
                        missing.push(format!("{path}/{name}"));
                    }
                }
            }
            match at {
                Value::Object(map) => {
                    map.iter()
                        .for_each(|(key, value)| look(value, &format!("{path}/{key}"), missing));
                }
                Value::Array(all) => all.iter().for_each(|value| look(value, path, missing)),
                _ => {}
            }
        }
        let mut missing = Vec::new();
        look(&Value::from(schema()), "", &mut missing);
        assert_eq!(missing, Vec::<String>::new());
    }
}
