//! Every key that a plan knows is asked for, and none that it does not know.

use super::*;
use crate::Plan;

/// The keys that a reader knows: it tells them when it meets one that it does not.
fn known(text: &str, what: &str) -> Vec<String> {
    let (_, errors) = Plan::read(text);
    let says = format!("a {what} has no “zzz”");
    let told = errors.iter().find(|e| e.says == says);
    let told = told.unwrap_or_else(|| panic!("{what}: {errors:#?}"));
    let (_, list) = told.mend.split_once("knows: ").expect("a list");
    list.split(", ").map(str::to_owned).collect()
}

fn asked(asks: &[Ask], and: &[&str]) -> Vec<String> {
    let keys = asks.iter().map(|a| a.key).chain(and.iter().copied());
    let mut keys: Vec<String> = keys.map(str::to_owned).collect();
    keys.sort();
    keys
}

/// The questions of a table within others.
fn within(asks: &'static [Ask], key: &str) -> &'static [Ask] {
    match asks.iter().find(|a| a.key == key).map(|a| a.takes) {
        Some(Takes::Table(inner) | Takes::Fuse(inner)) => inner,
        _ => panic!("{key} is no table"),
    }
}

#[test]
fn every_key_is_asked_for() {
    let of = |key: &str| table(key).expect("a table").asks;
    for t in TABLES {
        let text = match t.stands {
            Stands::Once => format!("[{}]\nzzz = 1", t.key),
            Stands::Listed => format!("[[{}]]\nzzz = 1", t.key),
            Stands::Named => format!("[{}]\na = {{ zzz = 1 }}", t.key),
        };
        let what = match t.key {
            "box" => "box",
            "earth" => "earth",
            _ => t.what,
        };
        let and: &[&str] = if t.key == "circuit" { &["load"] } else { &[] };
        assert_eq!(known(&text, what), asked(t.asks, and), "{}", t.key);
    }
    let load = "[[circuit]]\nload = { zzz = 1, lamp = \"LED\", duty = { zzz = 1 } }";
    assert_eq!(known(load, "load"), asked(LOAD, &[]));
    assert_eq!(known(load, "duty"), asked(within(LOAD, "duty"), &[]));
    let inner = [
        ("circuit", "relay", "relay"),
        ("circuit", "switch", "switch"),
        ("circuit", "cutout", "cutout"),
        ("circuit", "isolator", "isolator"),
        ("circuit", "fuse", "fuse"),
        ("box", "fuse", "fuse"),
        ("stretch", "through", "panel"),
    ];
    for (list, key, what) in inner {
        let text = format!("[[{list}]]\n{key} = {{ zzz = 1 }}");
        assert_eq!(
            known(&text, what),
            asked(within(of(list), key), &[]),
            "{key}"
        );
    }
    for (key, what) in [
        ("battery", "battery"),
        ("alternator", "alternator"),
        ("vehicle", "vehicle's own draw"),
    ] {
        let text = format!("[supply]\n{key} = {{ zzz = 1 }}");
        assert_eq!(known(&text, what), asked(within(of("supply"), key), &[]));
    }
    let at = "[place]\na = { zone = \"cabin\", at = { zzz = 1 } }";
    assert_eq!(
        known(at, "place in the vehicle"),
        asked(within(of("place"), "at"), &[])
    );
}

#[test]
fn examples_are_what_the_plan_takes() {
    // Each amount stands in a plan of its own; no error is about its value.
    let wrong = |text: &str| {
        let (_, errors) = Plan::read(text);
        let about = ["bad-value", "unknown-word", "wrong-kind", "out-of-range"];
        errors.into_iter().find(|e| about.contains(&e.id))
    };
    let value = |takes: Takes| match takes {
        Takes::Words(e) | Takes::Amount(e) => Some(format!("\"{e}\"")),
        Takes::Number(e) => Some(e.to_owned()),
        Takes::Listed(e) => Some(format!("[\"{e}\"]")),
        Takes::One(of) => Some(format!("\"{}\"", of()[0])),
        Takes::Whole(least, _) => Some(least.to_string()),
        _ => None,
    };
    fn each(asks: &'static [Ask]) -> Vec<(String, Ask)> {
        asks.iter()
            .flat_map(|a| match a.takes {
                Takes::Table(inner) | Takes::Fuse(inner) => inner
                    .iter()
                    .map(|i| (format!("{} = {{ {} = ", a.key, i.key), *i))
                    .collect(),
                _ => vec![(format!("{} = ", a.key), *a)],
            })
            .collect()
    }
    let mut tried = 0;
    for t in TABLES {
        for (head, ask) in each(t.asks) {
            let Some(value) = value(ask.takes) else {
                continue;
            };
            let close = if head.contains('{') { " }" } else { "" };
            let text = match t.stands {
                Stands::Once => format!("[{}]\n{head}{value}{close}", t.key),
                Stands::Listed => format!("[[{}]]\n{head}{value}{close}", t.key),
                Stands::Named => format!("[{}]\na = {{ {head}{value}{close} }}", t.key),
            };
            assert_eq!(wrong(&text), None, "{text}");
            tried += 1;
        }
    }
    for (head, ask) in each(LOAD) {
        let Some(value) = value(ask.takes) else {
            continue;
        };
        let close = if head.contains('{') { " }" } else { "" };
        let text = format!("[[circuit]]\nload = {{ {head}{value}{close} }}");
        assert_eq!(wrong(&text), None, "{text}");
        tried += 1;
    }
    assert!(tried > 80, "{tried}");
}
