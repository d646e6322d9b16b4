//! The command line as a person and as a tool meet it: exit statuses, messages, JSON keys, files.

use std::path::{Path, PathBuf};
use std::process::{Command, Output};

fn examples() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples")
}

fn spurline(folder: &Path, args: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_spurline"))
        .current_dir(folder)
        .args(args)
        .output()
        .expect("the binary runs")
}

fn status(o: &Output) -> i32 {
    o.status.code().unwrap_or(-1)
}

fn out(o: &Output) -> String {
    String::from_utf8(o.stdout.clone()).expect("UTF-8")
}

fn err(o: &Output) -> String {
    String::from_utf8(o.stderr.clone()).expect("UTF-8")
}

#[test]
fn the_farm_plan_is_reported_and_nothing_stops() {
    let o = spurline(&examples(), &["check", "farm.toml"]);
    assert_eq!(status(&o), 0, "{}", err(&o));
    insta::assert_snapshot!("check_farm", out(&o));
}

#[test]
fn the_camper_plan_has_no_finding_that_stops() {
    let o = spurline(&examples(), &["check", "camper.toml"]);
    assert_eq!(status(&o), 0, "{}", out(&o));
}

#[test]
fn every_planted_mistake_of_the_lorry_is_found() {
    let o = spurline(&examples(), &["check", "lorry.toml", "--json"]);
    assert_eq!(status(&o), 1);
    let json: serde_json::Value = serde_json::from_str(&out(&o)).expect("JSON");
    let found = |id: &str, at: &str| {
        json["findings"].as_array().is_some_and(|list| {
            list.iter().any(|f| {
                f["id"] == id
                    && f["at"]
                        .as_array()
                        .is_some_and(|names| names.iter().any(|n| n == at))
            })
        })
    };
    let planted = [
        ("no-grommet", "cab floor plate"),
        ("unshrouded-live", "X0.1"),
        ("signal-overloaded", "X0.3"),
        ("unfused-feeder", "W0.1"),
        ("unfused-in-cab", "W0.1"),
        ("fuse-far", "F0.1"),
        ("poor-earth", "XE2"),
        ("bare-tab", "K1"),
        ("switch-overloaded", "S2"),
        ("fuse-above-wire", "W3.1"),
        ("drop", "E4"),
    ];
    for (id, at) in planted {
        assert!(found(id, at), "{id} at {at} is not found");
    }
    let text = std::fs::read_to_string(examples().join("lorry.toml")).expect("the example");
    let marked = text.lines().filter(|l| l.contains("# mistake")).count();
    assert!(
        marked >= planted.len() - 2,
        "{marked} mistakes are marked in the plan"
    );
}

#[test]
fn json_has_the_keys_that_tools_rely_on() {
    let o = spurline(&examples(), &["check", "farm.toml", "--json"]);
    let json: serde_json::Value = serde_json::from_str(&out(&o)).expect("JSON");
    let keys = |list: &str, wanted: &[&str]| {
        let first = json[list]
            .get(0)
            .unwrap_or_else(|| panic!("{list} is empty"));
        for key in wanted {
            assert!(first.get(key).is_some(), "{list} has no {key}");
        }
    };
    keys(
        "wires",
        &[
            "name",
            "from",
            "to",
            "area_mm2",
            "awg",
            "length_m",
            "cut_m",
            "amps",
            "celsius",
            "limit_celsius",
            "drop_v",
            "fuse",
            "governed_by",
        ],
    );
    keys(
        "loads",
        &[
            "name",
            "circuit",
            "state",
            "volts",
            "amps",
            "drop_percent",
            "limit_percent",
            "usual",
            "worst",
            "best",
        ],
    );
    for sight in ["usual", "worst", "best"] {
        for key in ["state", "volts", "amps"] {
            let seen = &json["loads"][0][sight];
            assert!(seen.get(key).is_some(), "{sight} has no {key}");
        }
    }
    for key in [
        "states", "of", "whole", "pairs", "switches", "signals", "sized",
    ] {
        assert!(json["tried"].get(key).is_some(), "tried has no {key}");
    }
    keys("fuses", &["box", "way", "rating_a", "amps", "protects"]);
    keys(
        "findings",
        &["id", "weight", "at", "says", "mend", "source"],
    );
}

#[test]
fn a_spelling_mistake_exits_2_and_points_at_the_line() {
    let folder = tempfile::tempdir().expect("a folder");
    let text = std::fs::read_to_string(examples().join("farm.toml")).expect("the example");
    let slipped = text
        .replace(
            "switch = { place = \"dash\", breaks",
            "swich  = { place = \"dash\", breaks",
        )
        .replace("\"1.9 m\"", "\"1.9\"");
    std::fs::write(folder.path().join("slip.toml"), slipped).expect("written");
    let o = spurline(folder.path(), &["check", "slip.toml"]);
    assert_eq!(status(&o), 2);
    assert_eq!(out(&o), "");
    insta::assert_snapshot!("spelling_mistake", err(&o));
}

#[test]
fn a_missing_plan_and_a_name_unknown_exit_2_with_a_mend() {
    let o = spurline(&examples(), &["check", "farmm.toml"]);
    assert_eq!(status(&o), 2);
    assert!(err(&o).contains("spurline new"), "{}", err(&o));
    let o = spurline(&examples(), &["check", "farm.toml", "--why", "W1.99"]);
    assert_eq!(status(&o), 2);
    assert!(err(&o).contains("did you mean"), "{}", err(&o));
}

#[test]
fn why_tells_the_whole_reason() {
    let o = spurline(&examples(), &["check", "farm.toml", "--why", "F1"]);
    assert_eq!(status(&o), 0);
    insta::assert_snapshot!("why_f1", out(&o));
    let o = spurline(&examples(), &["check", "farm.toml", "--why", "W1.6"]);
    insta::assert_snapshot!("why_w1_6", out(&o));
}

#[test]
fn why_finds_a_name_in_any_case_and_tells_each_part_of_a_circuit() {
    let why = |plan: &str, name: &str| {
        let o = spurline(&examples(), &["check", plan, "--why", name]);
        assert_eq!(status(&o), i32::from(plan == "lorry.toml"), "{}", err(&o));
        out(&o)
    };
    assert_eq!(why("farm.toml", "w1.1"), why("farm.toml", "W1.1"));
    let fridge = why("camper.toml", "Fridge");
    for said in ["Why fridge", "F1: fridge fuse", "A1: fridge", "usually "] {
        assert!(fridge.contains(said), "{said} is not in {fridge}");
    }
    let lamps = why("farm.toml", "rack lamps");
    let places = ["F1:", "K1:", "S1:", "E1.1:"].map(|p| lamps.find(p));
    assert!(places.is_sorted() && places[0].is_some(), "{lamps}");
    let cutout = why("lorry.toml", "Q5");
    for said in [
        "falls below 24.5 V, and lets in again above 24.7 V",
        "A at most (",
        "usually its input stands at ",
        "round and round",
    ] {
        assert!(cutout.contains(said), "{said} is not in {cutout}");
    }
}

#[test]
fn a_terminal_gets_the_long_lists_only_when_asked() {
    let short = out(&spurline(&examples(), &["check", "farm.toml"]));
    let whole = out(&spurline(&examples(), &["check", "farm.toml", "--all"]));
    for heading in ["\nAssumed, and how to set it\n", "\nRecalled, not read: "] {
        assert!(whole.contains(heading) && !short.contains(heading));
    }
    let last = short.trim_end().lines().last().expect("a line");
    assert!(
        last.contains(" values were assumed and ")
            && last.contains("`spurline check --all` lists them"),
        "{last}"
    );
    assert!(!whole.contains("`spurline check --all`"));
    let first = |heading: &str| short.find(heading).expect("the heading");
    assert!(first("\nWires\n") < first("\nBefore you start\n"));
    let folder = tempfile::tempdir().expect("a folder");
    let plan = examples().join("farm.toml");
    let args = ["pack", plan.to_str().expect("a path"), "--into", "."];
    assert_eq!(status(&spurline(folder.path(), &args)), 0);
    let page = std::fs::read_to_string(folder.path().join("pack.html")).expect("a page");
    assert!(page.contains("id=\"assumed\"") && page.contains("id=\"recalled\""));
}

#[test]
fn new_writes_a_plan_that_checks_and_never_overwrites() {
    for volts in ["12", "24"] {
        let folder = tempfile::tempdir().expect("a folder");
        assert_eq!(
            status(&spurline(
                folder.path(),
                &["new", "a.toml", "--volts", volts]
            )),
            0
        );
        let o = spurline(folder.path(), &["check", "a.toml"]);
        assert_eq!(status(&o), 0, "{}{}", out(&o), err(&o));
        let o = spurline(folder.path(), &["new", "a.toml"]);
        assert_eq!(status(&o), 2);
        assert!(err(&o).contains("is there already"));
    }
}

#[test]
fn draw_writes_into_the_folder_named_and_asks_before_replacing() {
    let folder = tempfile::tempdir().expect("a folder");
    let plan = examples().join("farm.toml");
    let plan = plan.to_str().expect("a path");
    let o = spurline(folder.path(), &["draw", plan, "--into", "out"]);
    assert_eq!(status(&o), 0, "{}", err(&o));
    let svg = std::fs::read_to_string(folder.path().join("out/circuit-1.svg")).expect("a drawing");
    assert!(svg.contains("W1.6"));
    assert_eq!(
        status(&spurline(folder.path(), &["draw", plan, "--into", "out"])),
        2
    );
    assert_eq!(
        status(&spurline(
            folder.path(),
            &["draw", plan, "--into", "out", "--replace"]
        )),
        0
    );
}

#[test]
fn a_users_stock_file_is_laid_over_and_its_errors_are_its_own() {
    let folder = tempfile::tempdir().expect("a folder");
    let plan = examples().join("farm.toml");
    let plan = plan.to_str().expect("a path");
    std::fs::write(
        folder.path().join("mine.toml"),
        "[[switch]]\nnmae = \"key\"\n",
    )
    .expect("written");
    let o = spurline(folder.path(), &["check", plan, "--stock", "mine.toml"]);
    assert_eq!(status(&o), 2);
    assert!(err(&o).contains("mine.toml:2"), "{}", err(&o));
}

#[test]
fn stock_lists_every_table_with_basis_and_source() {
    let o = spurline(&examples(), &["stock"]);
    assert_eq!(status(&o), 0);
    for table in job::WHATS {
        assert!(out(&o).contains(table), "{table}");
        let o = spurline(&examples(), &["stock", table, "--json"]);
        let json: serde_json::Value = serde_json::from_str(&out(&o)).expect("JSON");
        let columns = json["columns"].as_array().expect("columns");
        assert!(
            columns.iter().any(|c| c == "basis") && columns.iter().any(|c| c == "source"),
            "{table}"
        );
        assert!(
            !json["rows"].as_array().expect("rows").is_empty(),
            "{table}"
        );
    }
    assert_eq!(status(&spurline(&examples(), &["stock", "wires"])), 2);
}

#[test]
fn the_deck_is_written_for_a_simulator() {
    let folder = tempfile::tempdir().expect("a folder");
    let plan = examples().join("camper.toml");
    let o = spurline(
        folder.path(),
        &["check", plan.to_str().expect("a path"), "--deck", "a.cir"],
    );
    assert_eq!(status(&o), 0);
    let deck = std::fs::read_to_string(folder.path().join("a.cir")).expect("a deck");
    assert!(deck.contains(".op") && deck.contains("wire W1.1"));
}

#[test]
fn the_picture_in_the_readme_is_what_is_drawn_today() {
    let folder = tempfile::tempdir().expect("a folder");
    let plan = examples().join("farm.toml");
    let plan = plan.to_str().expect("a path");
    spurline(folder.path(), &["draw", plan, "--into", "."]);
    let today = std::fs::read(folder.path().join("circuit-1.svg")).expect("a drawing");
    let shown = std::fs::read(examples().join("../docs/circuit-1.svg")).expect("the picture");
    assert!(
        today == shown,
        "draw it anew: cargo run -- draw examples/farm.toml --into docs --replace"
    );
}

/// The farm's plan in a folder of its own, with this put in place of that.
fn farm_with(folder: &Path, name: &str, that: &str, this: &str) {
    let text = std::fs::read_to_string(examples().join("farm.toml")).expect("the example");
    let changed = text.replace(that, this);
    assert!(that.is_empty() || changed != text, "nothing was changed");
    std::fs::write(folder.join(name), changed).expect("written");
}

const A_DAY: &str = r#"
[[day]]
what   = "drive to the orchard"
hours  = "45 min"
supply = "driving"

[[day]]
what   = "pick until dark"
hours  = "1 h 30 min"
supply = "parked"
on     = ["rack lamps"]

[[circuit]]
name   = "transfer pump""#;

#[test]
fn supply_answers_each_question_in_its_first_sentence() {
    let o = spurline(&examples(), &["supply", "farm.toml"]);
    assert_eq!(status(&o), 0, "{}", err(&o));
    let text = out(&o);
    for (heading, answer) in [
        (
            "How long things run with the engine off",
            "The rack lamps run for ",
        ),
        ("The vehicle left standing", "It still starts after "),
        (
            "What the alternator leaves",
            "At idle with everything on 11.",
        ),
        ("Putting it back", "Driving takes "),
        ("A day of use", "The plan says no day of use."),
        (
            "What must be left, and why",
            "60 % of its charge must be left",
        ),
    ] {
        let begins = text.split(&format!("\n{heading}\n")).nth(1);
        let begins = begins.unwrap_or_else(|| panic!("no “{heading}”"));
        assert!(begins.starts_with(answer), "{heading}: {begins}");
    }
    assert!(text.contains("Before you start") && text.contains("[[day]]"));
}

#[test]
fn supply_json_has_the_keys_that_tools_rely_on() {
    let folder = tempfile::tempdir().expect("a folder");
    let pump = "[[circuit]]\nname   = \"transfer pump\"";
    farm_with(folder.path(), "day.toml", pump, A_DAY);
    let o = spurline(folder.path(), &["supply", "day.toml", "--json"]);
    assert_eq!(status(&o), 0, "{}", err(&o));
    let json: serde_json::Value = serde_json::from_str(&out(&o)).expect("JSON");
    for path in [
        "/celsius",
        "/usable_ah",
        "/reserve/percent",
        "/balance/0/left_a",
        "/endurance/0/what",
        "/endurance/0/circuits/0",
        "/endurance/0/supply",
        "/endurance/0/amps",
        "/endurance/0/hours",
        "/endurance/0/to_percent",
        "/endurance/0/ends",
        "/parked/days",
        "/parked/days_without",
        "/recharge/1/hours",
        "/day/parts/1/on/0",
        "/day/lowest_percent",
        "/day/points/0/hour",
        "/day/points/0/percent",
        "/day/points/0/volts",
        "/day/points/0/amps",
        "/assumed/0/what",
    ] {
        assert!(json.pointer(path).is_some(), "no {path}");
    }
    let o = spurline(&examples(), &["supply", "farm.toml", "--json"]);
    let json: serde_json::Value = serde_json::from_str(&out(&o)).expect("JSON");
    assert!(json["day"].is_null());
}

#[test]
fn a_cold_battery_runs_things_for_less_and_a_temperature_needs_its_unit() {
    let hours = |at: &str| {
        let args = ["supply", "farm.toml", "--json", "--battery-at", at];
        let o = spurline(&examples(), &args);
        assert_eq!(status(&o), 0, "{}", err(&o));
        let json: serde_json::Value = serde_json::from_str(&out(&o)).expect("JSON");
        json["endurance"][0]["hours"].as_f64().expect("hours")
    };
    assert!(hours("-5 °C") < hours("25 °C"));
    assert_eq!(hours("77 °F"), hours("25 °C"));
    for (typed, mend) in [
        ("-5", "°C"),
        ("cold", "°C"),
        ("100 °C", "between -40 °C and 60 °C"),
    ] {
        let o = spurline(&examples(), &["supply", "farm.toml", "--battery-at", typed]);
        assert_eq!(status(&o), 2, "{typed}");
        assert!(err(&o).contains(mend), "{}", err(&o));
    }
}

#[test]
fn supply_writes_page_and_chart_and_asks_before_replacing() {
    let folder = tempfile::tempdir().expect("a folder");
    let pump = "[[circuit]]\nname   = \"transfer pump\"";
    farm_with(folder.path(), "day.toml", pump, A_DAY);
    let args = ["supply", "day.toml", "--into", "out"];
    let o = spurline(folder.path(), &args);
    assert_eq!(status(&o), 0, "{}", err(&o));
    let page = std::fs::read_to_string(folder.path().join("out/supply.html")).expect("a page");
    let chart = std::fs::read_to_string(folder.path().join("out/day.svg")).expect("a chart");
    assert!(chart.contains("<svg") && page.contains("<svg"));
    assert!(page.contains("pick until dark") && page.contains("The battery is lowest after"));
    assert_eq!(status(&spurline(folder.path(), &args)), 2);
    let again = [&args[..], &["--replace"]].concat();
    assert_eq!(status(&spurline(folder.path(), &again)), 0);
}

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
        "With the switch of rack lamps in its coil's earth (“earth.toml”) 1.9 m less wire is needed, and no live wire",
        "but a chafe turns rack lamps on. With it in its coil's supply (“supply.toml”) a chafe blows the fuse, but 1.9 m \
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
