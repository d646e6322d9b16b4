//! The command line as a person and as a tool meet it: exit statuses, messages, JSON keys, files.

use super::run::{err, examples, out, spurline, status};

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
fn the_pictures_in_the_readme_are_what_is_drawn_today() {
    let folder = tempfile::tempdir().expect("a folder");
    let plan = examples().join("farm.toml");
    let plan = plan.to_str().expect("a path");
    spurline(folder.path(), &["draw", plan, "--into", "."]);
    for name in ["circuit-1.svg", "board-1.svg"] {
        let today = std::fs::read(folder.path().join(name)).expect("a drawing");
        let shown = std::fs::read(examples().join("../docs").join(name)).expect("the picture");
        assert!(
            today == shown,
            "draw it anew: cargo run -- draw examples/farm.toml --into out, then copy circuit-1.svg and board-1.svg to docs"
        );
    }
}
