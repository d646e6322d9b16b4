//! `compare` as a person and as a tool meet it.

use super::run::{err, examples, farm_with, out, spurline, status};

#[test]
fn compare_tells_what_a_chafed_switch_wire_does_in_each_plan() {
    let folder = tempfile::tempdir().expect("a folder");
    farm_with(folder.path(), "earth.toml", "", "");
    let (earth, supply) = ("breaks = \"earth\"", "breaks = \"supply\"");
    farm_with(folder.path(), "supply.toml", earth, supply);
    let o = spurline(folder.path(), &["compare", "earth.toml", "supply.toml"]);
    assert_eq!(status(&o), 0, "{}", err(&o));
    let words = out(&o).split_whitespace().collect::<Vec<_>>().join(" ");
    for said in [
        "turns something on at 2 of 8 switch wires in “earth.toml”, and at 0 of 8 switch wires in “supply.toml”",
        "rack lamps come on",
        "in the other circuits with a switch: transfer pump.",
        "With the switch of rack lamps in its coil's earth (“earth.toml”) 1.98 m less wire is needed, and no live wire",
        "but a chafe turns rack lamps on. With it in its coil's supply (“supply.toml”) a chafe blows the fuse, but 1.98 m \
         more wire is needed",
    ] {
        assert!(words.contains(said), "{said} is not in {words}");
    }
    assert!(!words.contains("W2.2"), "the pump is alike in both");
    let args = ["compare", "earth.toml", "supply.toml", "--json"];
    let json: serde_json::Value =
        serde_json::from_str(&out(&spurline(folder.path(), &args))).expect("JSON");
    assert_eq!(json["chafes"][0][0]["off"]["does"], "turns-on");
    assert_eq!(json["chafes"][1][0]["off"]["does"], "opens");
}

#[test]
fn plans_without_a_difference_are_said_to_be_alike() {
    let o = spurline(&examples(), &["compare", "farm.toml", "farm.toml"]);
    let text = out(&o);
    let alike = "The two plans are alike: same findings, same wire.";
    assert!(text.contains(alike) && !text.contains("W1.3"), "{text}");
}

#[test]
fn compare_exits_1_on_a_stop_that_only_the_second_has() {
    let both =
        |first: &str, second: &str| status(&spurline(&examples(), &["compare", first, second]));
    assert_eq!(both("farm.toml", "lorry.toml"), 1);
    assert_eq!(both("lorry.toml", "farm.toml"), 0);
    assert_eq!(both("lorry.toml", "lorry.toml"), 0);
}

#[test]
fn compare_shows_the_errors_of_both_plans_by_their_files() {
    let folder = tempfile::tempdir().expect("a folder");
    farm_with(folder.path(), "one.toml", "\"1.9 m\"", "\"1.9\"");
    farm_with(folder.path(), "two.toml", "\"2.1 m\"", "\"2.1\"");
    let o = spurline(folder.path(), &["compare", "one.toml", "two.toml"]);
    assert_eq!(status(&o), 2);
    assert_eq!(out(&o), "");
    assert!(err(&o).contains("one.toml:") && err(&o).contains("two.toml:"));
}
