//! What was typed into a field, as TOML.

use crate::ask::{Ask, Takes};
use toml_edit::{Array, Value};

/// A text in quotes.
pub(super) fn text(typed: &str) -> String {
    Value::from(typed).to_string()
}

fn list<'a>(each: impl Iterator<Item = &'a str>) -> String {
    each.collect::<Array>().to_string()
}

/// The answer to a question; nothing if nothing was typed, or what holds anyway. What can't be right is written all the same:
/// the plan's reader says what is wrong with it, and nothing typed is lost.
pub(super) fn toml(ask: &Ask, typed: &[String]) -> Option<String> {
    let each = || typed.iter().map(|t| t.trim()).filter(|t| !t.is_empty());
    let first = each().next();
    match ask.takes {
        Takes::Some(_) | Takes::AllNamed(_) => {
            first?;
            Some(list(each()))
        }
        Takes::Listed(_) => {
            first?;
            Some(list(
                each()
                    .flat_map(|t| t.split(','))
                    .map(str::trim)
                    .filter(|t| !t.is_empty()),
            ))
        }
        Takes::YesNo(usual) => {
            let yes = matches!(first?, "yes" | "true");
            (yes != usual).then(|| yes.to_string())
        }
        Takes::Either(_) => Some(matches!(first?, "yes" | "true").to_string()),
        Takes::Whole(..) => Some(match first?.parse::<u32>() {
            Ok(n) => n.to_string(),
            Err(_) => text(first?),
        }),
        Takes::Number(_) => Some(match first?.parse::<f64>() {
            Ok(n) if n.is_finite() => first
                .map(str::to_owned)
                .filter(|t| is_toml(t))
                .unwrap_or(n.to_string()),
            _ => text(first?),
        }),
        Takes::Amount(example) => first.map(|t| text(&with_unit(t, example))),
        Takes::Fuse(_) if first? == "none" => Some("false".to_owned()),
        Takes::Table(_) => None,
        _ => first.map(text),
    }
}

/// Units that nobody takes for another where they are asked for. Watts may be amperes, and metres feet: those are asked back.
const PLAIN: [&str; 4] = ["%", "V", "A", "Ah"];

/// A bare figure in the unit that was asked for, where there is only one.
fn with_unit(typed: &str, example: &str) -> String {
    let unit = example.rsplit(' ').next().unwrap_or_default();
    match typed.parse::<f64>().is_ok() && PLAIN.contains(&unit) {
        true => format!("{typed} {unit}"),
        false => typed.to_owned(),
    }
}

fn is_toml(number: &str) -> bool {
    number.parse::<Value>().is_ok()
}
