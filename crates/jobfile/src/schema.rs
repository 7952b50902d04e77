//! The published JSON Schema of the job file, made from the field tables the reader uses.

use serde_json::{Map, Value, json};
use units::quantity_of;

use crate::carriers;
use crate::field::{Field, Kind, Need, Table};
use crate::tables::FILE;

/// A number and something after it, an R-value, or money with its sign before it. The reader knows the units; a schema only sees
/// that there is one.
const WITH_UNIT: &str = "[0-9].*[^0-9., ]|^R|^-?[$€£]";

/// The schema, draft 2020-12, of the job file as JSON has it (a TOML date is a text).
pub fn json_schema() -> Value {
    let mut schema = table(&FILE);
    let mut top = Map::new();
    top.insert(
        "$schema".to_owned(),
        json!("https://json-schema.org/draft/2020-12/schema"),
    );
    top.insert("title".to_owned(), json!("Northwall job file, version 1"));
    if let Some(object) = schema.as_object_mut() {
        top.append(object);
    }
    Value::Object(top)
}

/// The schema as it is committed in `schema/job.schema.json`.
pub fn text() -> String {
    let mut text = serde_json::to_string_pretty(&json_schema()).unwrap_or_default();
    text.push('\n');
    text
}

fn table(table: &Table) -> Value {
    let mut properties = Map::new();
    let mut required = Vec::new();
    for field in table.all_fields() {
        properties.insert(field.key.to_owned(), property(field));
        if field.need == Need::Must {
            required.push(json!(field.key));
        }
    }
    let mut object = Map::new();
    object.insert("type".to_owned(), json!("object"));
    object.insert("description".to_owned(), json!(table.about));
    object.insert("properties".to_owned(), Value::Object(properties));
    if !required.is_empty() {
        object.insert("required".to_owned(), Value::Array(required));
    }
    object.insert("additionalProperties".to_owned(), json!(false));
    Value::Object(object)
}

fn property(field: &Field) -> Value {
    let mut value = kind(&field.kind);
    if let Some(object) = value.as_object_mut() {
        object.insert("description".to_owned(), json!(field.what));
        if let Need::Usual(usual) = field.need {
            let usual = match field.kind {
                Kind::YesNo => json!(usual == "true"),
                Kind::Whole(..) => usual.parse::<i64>().map_or(Value::Null, |n| json!(n)),
                _ => json!(usual),
            };
            object.insert("default".to_owned(), usual);
        }
    }
    value
}

fn kind(of: &Kind) -> Value {
    let text = json!({ "type": "string", "minLength": 1 });
    match of {
        Kind::Text => text,
        Kind::Texts => json!({ "anyOf": [text, { "type": "array", "items": text }] }),
        Kind::NewName => {
            json!({ "type": "string", "minLength": 1, "maxLength": 60, "pattern": "^[^.]+$" })
        }
        Kind::Ref(family) => {
            json!({ "type": "string", "minLength": 1, "x-names": family.table() })
        }
        Kind::Word(words) => json!({ "enum": words }),
        Kind::YesNo => json!({ "type": "boolean" }),
        Kind::Whole(least, most) => {
            json!({ "type": "integer", "minimum": least, "maximum": most })
        }
        Kind::Q(dim, _, _) => quantity(*dim),
        Kind::Odd(odd, _, _) => {
            let units: Vec<&str> = odd.units.iter().map(|u| u.0).collect();
            json!({ "type": "string", "minLength": 1, "x-units": units, "examples": [odd.example] })
        }
        Kind::Day => json!({ "type": "string", "format": "date" }),
        Kind::Point => {
            json!({ "type": "string", "pattern": "[^0-9., ].*,.*[^0-9., ]", "examples": ["18 ft, 0 ft"] })
        }
        Kind::ByHour(dim, _, _) => {
            json!({ "anyOf": [quantity(*dim), { "const": "off" }, ranges(true)] })
        }
        Kind::OnHours => json!({ "anyOf": [{ "const": "always" }, ranges(false)] }),
        Kind::FlowAt => {
            json!({ "type": "string", "pattern": " at ", "examples": ["2100 cfm at 50 Pa"] })
        }
        Kind::Price(carrier) => json!({
            "type": "string", "pattern": "/", "x-units": carriers::price_units(*carrier),
            "examples": [carriers::price_example(*carrier)],
        }),
        Kind::Side => json!({ "anyOf": [
            { "enum": ["north", "east", "south", "west"] },
            { "type": "integer", "minimum": 1, "maximum": 200 },
        ] }),
        Kind::List(inner, least) => {
            json!({ "type": "array", "minItems": least, "items": kind(inner) })
        }
        Kind::Sub(inner) => table(inner),
        Kind::Rows(inner) => json!({ "type": "array", "items": table(inner) }),
        Kind::Map(inner) => json!({
            "type": "object", "propertyNames": { "pattern": "^[^.]+$" },
            "additionalProperties": table(inner),
        }),
        Kind::TextOr(inner) => json!({ "anyOf": [text, table(inner)] }),
        Kind::Any => json!({}),
    }
}

/// A quantity: a text with its unit; a number alone only where the kind of quantity has none.
fn quantity(dim: units::Dim) -> Value {
    let quantity = quantity_of(dim);
    let units: Vec<&str> = quantity.units.iter().map(|u| u.name).collect();
    if quantity.bare {
        json!({ "type": ["string", "number"], "x-units": units, "examples": [quantity.example] })
    } else {
        json!({ "type": "string", "pattern": WITH_UNIT, "x-units": units, "examples": [quantity.example] })
    }
}

fn ranges(with_value: bool) -> Value {
    let from_to = if with_value {
        &crate::check::RANGE
    } else {
        &crate::check::STRETCH
    };
    json!({ "type": "array", "items": table(from_to) })
}
