//! What a plan's reader must do as a whole.

mod battery;

use super::*;

const SMALL: &str = r#"
[job]
title = "lamps"
[supply]
system = "12 V"
battery = { chemistry = "flooded", capacity = "74 Ah", cranking = "640 A", place = "tray" }
[place]
"tray" = { zone = "engine bay" }
"dash" = { zone = "cabin" }
"rack" = { zone = "outside" }
[[stretch]]
between = ["tray", "dash"]
length = "2 ft 4 in"
[[stretch]]
between = ["dash", "rack"]
length = "2 m"
[[box]]
name = "aux"
place = "tray"
ways = 2
feed = "battery"
[[circuit]]
name = "lamps"
load = { lamp = "LED", rated = "40 W", place = "rack" }
box = "aux"
switch = { place = "dash" }
earth = "rack"
"#;

fn ids(text: &str) -> Vec<&'static str> {
    let (plan, errors) = Plan::read(text);
    assert_eq!(plan.is_none(), !errors.is_empty());
    errors.iter().map(|e| e.id).collect()
}

fn with(from: &str, to: &str) -> String {
    assert!(SMALL.contains(from), "{from}");
    SMALL.replace(from, to)
}

#[test]
fn a_small_plan_reads() {
    let (plan, errors) = Plan::read(SMALL);
    assert_eq!(errors, []);
    let plan = plan.unwrap();
    assert_eq!(plan.circuits[0].number, 1);
    assert_eq!(plan.stretches.len(), 2);
    assert!(plan.job.drop_assumed);
}

#[test]
fn each_slip_is_named() {
    assert_eq!(
        ids(&with("box = \"aux\"", "box = \"axu\"")),
        ["unknown-name"]
    );
    assert_eq!(
        ids(&with("length = \"2 m\"", "length = \"0 m\"")),
        ["bad-value"]
    );
    assert_eq!(
        ids(&with("length = \"2 m\"", "length = \"-2 m\"")),
        ["bad-value"]
    );
    assert_eq!(ids(&with("\"40 W\"", "\"4 kA\"")), ["bad-value"]);
    assert_eq!(ids(&with("\"40 W\"", "\"4000 A\"")), ["bad-value"]);
    assert_eq!(
        ids(&with("\"dash\", \"rack\"", "\"rack\", \"rack\"")),
        ["stretch-to-itself"]
    );
    assert_eq!(
        ids(&with("\"dash\", \"rack\"", "\"dash\", \"tray\"")),
        ["stretch-twice"]
    );
    assert_eq!(
        ids(&with("switch = { place = \"dash\" }", "")),
        ["no-control"]
    );
    assert_eq!(
        ids(&with(
            "switch = { place = \"dash\" }",
            "switch = { place = \"dash\" }\nlive = \"always\""
        )),
        ["two-controls"]
    );
    assert_eq!(
        ids(&with(
            "switch = { place = \"dash\" }",
            "switch = { place = \"dash\", breaks = \"earth\" }"
        )),
        ["needs-relay"]
    );
    assert_eq!(
        ids(&with(
            "switch = { place = \"dash\" }",
            "live = \"ignition\""
        )),
        ["no-ignition"]
    );
    assert_eq!(
        ids(&with("box = \"aux\"", "box = \"aux\"\nway = 3")),
        ["no-such-way"]
    );
    assert_eq!(
        ids(&with("earth = \"rack\"", "earth = \"rack\"\nerth = 1")),
        ["unknown-key"]
    );
}

#[test]
fn all_errors_are_told_in_order() {
    let text = SMALL
        .replace("\"12 V\"", "\"13 V\"")
        .replace("\"2 m\"", "\"2\"")
        .replace("ways = 2", "wys = 2");
    assert_eq!(
        ids(&text),
        ["bad-value", "bad-value", "missing-key", "unknown-key"]
    );
}

proptest::proptest! {
    #[test]
    fn any_text_gives_a_plan_or_errors(text in "[ -~\n\"=\\[\\]{}]{0,200}") {
        let (plan, errors) = Plan::read(&text);
        proptest::prop_assert!(plan.is_some() || !errors.is_empty());
    }

    #[test]
    fn cutting_a_plan_anywhere_never_panics(at in 0usize..700) {
        let mut at = at.min(SMALL.len());
        while !SMALL.is_char_boundary(at) { at -= 1; }
        let _ = Plan::read(&SMALL[..at]);
    }
}
