//! `supply` as a person and as a tool meet it.

use super::run::{err, examples, farm_with, out, spurline, status};

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

/// What the plan says of the vehicle's draw is not added to what is assumed.
#[test]
fn a_draw_that_the_plan_says_stands_in_place_of_the_usual_one() {
    let folder = tempfile::tempdir().expect("a folder");
    farm_with(
        folder.path(),
        "plan.toml",
        "driving = \"28 A\"",
        "idling = \"10 A\"",
    );
    let o = spurline(folder.path(), &["supply", "plan.toml", "--json"]);
    let json: serde_json::Value = serde_json::from_str(&out(&o)).expect("JSON");
    let vehicle = |i: usize| json["balance"][i]["vehicle_a"].as_f64().expect("a number");
    assert_eq!(json["balance"][0]["supply"], "idling");
    assert!((vehicle(0) - 10.0).abs() < 2.0, "{}", vehicle(0));
    assert!((vehicle(1) - 20.0).abs() < 4.0, "{}", vehicle(1));
}

#[test]
fn a_battery_that_never_starts_the_engine_still_feeds_what_is_parked() {
    let folder = tempfile::tempdir().expect("a folder");
    farm_with(
        folder.path(),
        "plan.toml",
        "cranking = \"640 A\"",
        "cranking = \"150 A\"",
    );
    let (weak, cold) = (
        "driving = \"28 A\"",
        "cranking = \"300 A\", driving = \"28 A\"",
    );
    let text = std::fs::read_to_string(folder.path().join("plan.toml")).expect("written");
    std::fs::write(folder.path().join("plan.toml"), text.replace(weak, cold)).expect("written");
    let args = ["supply", "plan.toml", "--battery-at", "-30 °C", "--json"];
    let json: serde_json::Value =
        serde_json::from_str(&out(&spurline(folder.path(), &args))).expect("JSON");
    assert_eq!(json["reserve"]["rule"], "never");
    let draws = json["parked"]["vehicle_a"].as_f64().expect("a number");
    assert!((draws - 0.03).abs() < 0.005, "{draws}");
    assert_eq!(json["parked"]["days"], 0.0);
}
