//! A job's text as a tree of plain values, and one value of it.

use serde_json::{Map, Value};

/// The text as a tree; null where it is not TOML.
pub fn values(text: &str) -> Value {
    toml::from_str::<toml::Table>(text).map_or(Value::Null, |t| json(toml::Value::Table(t)))
}

/// A TOML value as JSON; dates as text.
fn json(value: toml::Value) -> Value {
    match value {
        toml::Value::String(s) => Value::String(s),
        toml::Value::Integer(n) => Value::from(n),
        toml::Value::Float(n) => Value::from(n),
        toml::Value::Boolean(b) => Value::Bool(b),
        toml::Value::Datetime(d) => Value::String(d.to_string()),
        toml::Value::Array(all) => all.into_iter().map(json).collect(),
        toml::Value::Table(table) => {
            let entries = table.into_iter().map(|(k, v)| (k, json(v)));
            Value::Object(entries.collect::<Map<_, _>>())
        }
    }
}

/// What stands at a path of a text; null where nothing does.
pub fn value_at(text: &str, path: &str) -> Value {
    match jobfile::edit::found(text, path) {
        Ok(Some(jobfile::edit::Found::Value(v))) => values(&format!("x = {v}"))
            .get("x")
            .cloned()
            .unwrap_or(Value::Null),
        Ok(Some(jobfile::edit::Found::Table(body))) => values(&body),
        Ok(None) | Err(_) => Value::Null,
    }
}

/// A JSON value as it would stand in the file; none for null and for what TOML cannot hold.
pub fn toml_text(value: &Value) -> Option<String> {
    toml_of(value).map(|v| v.to_string())
}

/// The lines of a table.
pub fn table_body(entries: &Map<String, Value>) -> Option<String> {
    let mut out = String::new();
    for (key, value) in entries {
        let key = if key
            .chars()
            .all(|c| c.is_ascii_alphanumeric() || c == '_' || c == '-')
        {
            key.clone()
        } else {
            toml::Value::String(key.clone()).to_string()
        };
        out.push_str(&[&key, " = ", &toml_text(value)?, "\n"].concat());
    }
    Some(out)
}

fn toml_of(value: &Value) -> Option<toml::Value> {
    Some(match value {
        Value::Null => return None,
        Value::Bool(b) => toml::Value::Boolean(*b),
        Value::Number(n) => match n.as_i64() {
            Some(n) => toml::Value::Integer(n),
            None => toml::Value::Float(n.as_f64()?),
        },
        Value::String(s) => toml::Value::String(s.clone()),
        Value::Array(all) => toml::Value::Array(all.iter().map(toml_of).collect::<Option<_>>()?),
        Value::Object(entries) => toml::Value::Table(
            entries
                .iter()
                .map(|(k, v)| Some((k.clone(), toml_of(v)?)))
                .collect::<Option<_>>()?,
        ),
    })
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::{table_body, toml_text, values};

    #[test]
    fn texts_stay_texts_and_lists_lists() {
        assert_eq!(toml_text(&json!("70 F")).as_deref(), Some("\"70 F\""));
        let list = json!(["0 ft, 0 ft", "18 ft, 0 ft"]);
        let text = toml_text(&list).expect("list");
        assert_eq!(values(&format!("x = {text}"))["x"], list);
        let body = json!({ "room": "bed 1", "door_to": [{ "room": "hall", "width": "30 in" }] });
        let text = table_body(body.as_object().expect("object")).expect("body");
        assert_eq!(values(&text), body);
        assert_eq!(toml_text(&json!([null])), None);
    }
}
