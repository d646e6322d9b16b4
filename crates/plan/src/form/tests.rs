//! Forms on a plan's text.

use super::*;
use crate::Plan;

const TEXT: &str = r#"# a cart
[job]
title = "lamps"   # short

[supply]
system  = "12 V"
battery = { capacity = "70 Ah", place = "tray" }

[place]
"tray" = { zone = "engine bay" }   # hot
"dash" = { zone = "cabin" }
"rack" = { zone = "outside" }

[[stretch]]
between = ["tray", "dash"]
length  = "1.5 m"

[[stretch]]
between = ["dash", "rack"]
length  = "2 m"

[[box]]
name  = "box"
place = "tray"
ways  = 4
feed  = "battery"

[[circuit]] # the first
name   = "rack lamps"
load   = { lamp = "LED", rated = "20 W", place = "rack" }
box    = "box"
relay  = { place = "tray" }
switch = { place = "dash", breaks = "earth" }
earth  = "tray"

[[day]]
hours  = "2 h"
supply = "parked"
on     = ["rack lamps"]
"#;

fn sound(text: &str) {
    let (plan, errors) = Plan::read(text);
    assert!(plan.is_some(), "{errors:#?}\n{text}");
}

fn with(edit: &Edit) -> String {
    edited(TEXT, edit).unwrap_or_else(|e| panic!("{edit:?}: {e}"))
}

fn set(path: &str, typed: &[&str]) -> String {
    with(&Edit::Set {
        path: path.to_owned(),
        typed: typed.iter().map(|t| (*t).to_owned()).collect(),
    })
}

fn answers(each: &[(&str, &str)]) -> Vec<(String, Vec<String>)> {
    each.iter()
        .map(|(k, v)| ((*k).to_owned(), vec![(*v).to_owned()]))
        .collect()
}

#[test]
fn an_answer_changes_its_value_only() {
    sound(TEXT);
    assert_eq!(
        set("circuit[rack lamps].load[1].rated", &["30 W"]),
        TEXT.replace("20 W", "30 W")
    );
    // A bare figure has the unit that was asked for, where no other is meant.
    assert!(set("circuit[rack lamps].drop", &["4"]).contains("drop = \"4 %\""));
    assert!(set("stretch[1].length", &["4"]).contains("length  = \"4\""));
    // What it was called before goes.
    let motor = set("circuit[rack lamps].load[1].motor", &["pump"]);
    sound(&motor);
    assert!(
        motor.contains("motor = \"pump\"") && !motor.contains("LED"),
        "{motor}"
    );
    assert_eq!(set("box[box].ways", &["6"]), TEXT.replace("= 4", "= 6"));
    let none = set("circuit[rack lamps].switch.breaks", &[""]);
    assert!(!none.contains("breaks"), "{none}");
    assert_eq!(set("place[dash].comes_out", &["no"]), TEXT);
    assert!(set("place[dash].comes_out", &["yes"]).contains("comes_out = true"));
    // What can't be right is written, so that the plan's reader can say why.
    assert!(set("box[box].ways", &["many"]).contains("ways  = \"many\""));
}

#[test]
fn a_name_is_followed_to_where_it_is_used() {
    let text = set("place[tray]", &["battery tray"]);
    sound(&text);
    assert!(
        !text.contains("\"tray\"") && text.contains("# hot"),
        "{text}"
    );
    let text = set("box[box].name", &["auxiliary box"]);
    sound(&text);
    let text = set("circuit[rack lamps].name", &["work lamps"]);
    sound(&text);
    assert!(text.contains("on     = [\"work lamps\"]"), "{text}");
}

#[test]
fn a_circuit_is_switched_another_way_and_back() {
    for (word, _, how) in How::WORDS {
        let circuit = "circuit[rack lamps]".to_owned();
        let text = with(&Edit::How {
            circuit: circuit.clone(),
            how,
        });
        let circuits = Written::read(&text);
        let node = walk::at(&circuits, &circuit).expect("there");
        assert_eq!(How::of(node).word(), word, "{text}");
        let back = edited(
            &text,
            &Edit::How {
                circuit,
                how: How::Relay,
            },
        )
        .expect("back");
        sound(&back);
        // With a tap and a signal the rest are sound too.
        let more = format!("{text}\n[[signal]]\nname = \"which signal?\"\nplace = \"dash\"\n");
        sound(&more);
    }
}

#[test]
fn new_entries_are_sound() {
    let circuit = with(&Edit::Add {
        list: "circuit".into(),
        answers: answers(&[
            ("name", "fridge"),
            ("load.kind", "fridge"),
            ("load.rated", "5 A"),
            ("load.count", "1"),
            ("load.place", "rack"),
            ("box", "box"),
            ("how", "always"),
            ("switch.place", "dash"),
            ("earth", "rack"),
        ]),
    });
    sound(&circuit);
    // It comes after the last of its kind; every line that was there is there still.
    let mut lines = circuit.lines();
    assert!(TEXT.lines().all(|l| lines.any(|now| now == l)), "{circuit}");
    assert!(
        circuit.contains("electronics = \"fridge\", rated = \"5 A\", place = \"rack\" }"),
        "{circuit}"
    );
    let place = with(&Edit::Add {
        list: "place".into(),
        answers: answers(&[
            ("name", "roof"),
            ("zone", "outside"),
            ("from", "dash"),
            ("length", "1 m"),
            ("guessed", "yes"),
        ]),
    });
    sound(&place);
    assert!(place.contains("guessed = true"), "{place}");
    let load = with(&Edit::Add {
        list: "circuit[rack lamps].load".into(),
        answers: answers(&[
            ("kind", "halogen lamp"),
            ("rated", "55 W"),
            ("count", "2"),
            ("place", "rack"),
        ]),
    });
    sound(&load);
    for (list, given) in [
        (
            "feed",
            vec![("name", "key"), ("kind", "ignition tap"), ("place", "dash")],
        ),
        ("earth", vec![("name", "bar"), ("place", "tray")]),
        ("signal", vec![("name", "reverse"), ("place", "dash")]),
        ("day", vec![("hours", "1 h"), ("supply", "driving")]),
        (
            "box",
            vec![
                ("name", "second"),
                ("place", "dash"),
                ("ways", "2"),
                ("feed", "battery"),
            ],
        ),
        ("wire", vec![("name", "W1.1"), ("size", "4 mm²")]),
    ] {
        let text = with(&Edit::Add {
            list: list.into(),
            answers: answers(&given),
        });
        sound(&text);
        assert!(text.starts_with("# a cart"), "{text}");
    }
    let taken = Edit::Add {
        list: "box".into(),
        answers: answers(&[("name", "box")]),
    };
    assert_eq!(edited(TEXT, &taken), Err(EditError::Taken("box".into())));
}

#[test]
fn a_place_goes_with_the_ways_that_end_there() {
    let text = with(&Edit::Add {
        list: "place".into(),
        answers: answers(&[
            ("name", "roof"),
            ("zone", "outside"),
            ("from", "rack"),
            ("length", "1 m"),
        ]),
    });
    let path = "place[roof]".to_owned();
    let gone = edited(&text, &Edit::Remove { path }).expect("gone");
    sound(&gone);
    assert!(!gone.contains("roof"), "{gone}");
}

#[test]
fn tables_are_made_with_the_place_that_they_need() {
    let text = with(&Edit::Make {
        path: "circuit[rack lamps].cutout".into(),
    });
    assert!(text.contains("cutout = { place = \"tray\" }"), "{text}");
    let text = with(&Edit::Make {
        path: "supply.alternator".into(),
    });
    assert!(text.contains("alternator = {}"), "{text}");
}
