//! `prove` as a person and as a tool meet it.

use super::run::{err, examples, out, spurline, status};
use std::path::Path;

/// The farm in a folder of its own: what is read is noted beside it.
fn farm(folder: &Path) {
    std::fs::copy(examples().join("farm.toml"), folder.join("farm.toml")).expect("copied");
}

fn json(folder: &Path, more: &[&str]) -> serde_json::Value {
    let args: Vec<&str> = ["prove", "farm.toml", "--json"]
        .iter()
        .chain(more)
        .copied()
        .collect();
    let o = spurline(folder, &args);
    assert!(status(&o) < 2, "{}", err(&o));
    serde_json::from_str(&out(&o)).expect("JSON")
}

#[test]
fn the_sheet_says_what_to_measure_and_what_a_sound_one_reads() {
    let folder = tempfile::tempdir().expect("a folder");
    farm(folder.path());
    let o = spurline(folder.path(), &["prove", "farm.toml"]);
    assert_eq!(status(&o), 0, "{}", err(&o));
    insta::assert_snapshot!("prove_farm", out(&o));
    assert!(!folder.path().join("farm.record.jsonl").exists());
}

#[test]
fn readings_are_kept_judged_and_found_again_by_their_names() {
    let folder = tempfile::tempdir().expect("a folder");
    farm(folder.path());
    let name = "parked, transfer pump on | V M2:31 G1:31";
    let sheet = json(folder.path(), &[]);
    let row = |v: &serde_json::Value| {
        let rows = v["readings"].as_array().expect("rows");
        let found = rows.iter().find(|r| r["test"] == name);
        found.cloned().expect("the test")
    };
    for key in [
        "number", "test", "expected", "low", "high", "measured", "verdict",
    ] {
        assert!(row(&sheet).get(key).is_some(), "{key}");
    }
    assert!(row(&sheet)["measured"].is_null());
    let o = spurline(
        folder.path(),
        &[
            "prove",
            "farm.toml",
            "--reading",
            &format!("{name} = 900 mV"),
            "--who",
            "Kim",
        ],
    );
    assert_eq!(status(&o), 1, "{}", out(&o));
    // The plan is changed since: the pump comes last, and is called otherwise in nothing that was read.
    let text = std::fs::read_to_string(folder.path().join("farm.toml")).expect("read");
    std::fs::write(
        folder.path().join("farm.toml"),
        text.replace("\"2.1 m\"", "\"2.2 m\""),
    )
    .expect("written");
    let after = json(folder.path(), &[]);
    assert_eq!(row(&after)["measured"], 0.9);
    assert_eq!(row(&after)["verdict"], "too high");
    assert_eq!(after["of_another_version"], 1);
    // The return of the pump is what resists.
    let first = &after["causes"][0];
    let at = first["at"].as_str().expect("a place");
    assert!(["W2.8", "XE3", "X2.1:2"].contains(&at), "{first}");
    assert!(
        after["next"]["test"]
            .as_str()
            .is_some_and(|t| t.contains("transfer pump")),
        "{}",
        after["next"]
    );
    let record =
        std::fs::read_to_string(folder.path().join("farm.record.jsonl")).expect("a record");
    assert!(
        record.contains("\"who\":\"Kim\"") && record.contains("time_s"),
        "{record}"
    );
    // Afresh: it stays in the record, and no longer counts.
    let fresh = json(folder.path(), &["--afresh"]);
    assert!(row(&fresh)["measured"].is_null() && fresh["causes"] == serde_json::json!([]));
}

#[test]
fn what_can_t_be_read_is_told_with_its_mend() {
    let folder = tempfile::tempdir().expect("a folder");
    farm(folder.path());
    for (args, says, mend) in [
        (["--reading", "999 = 3 V"], "no test", "--tests"),
        (
            ["--reading", "1 = 3 bananas"],
            "bananas",
            "as the meter shows it",
        ),
        (["--reading", "1"], "no reading", "equals sign"),
        (
            ["--seen", "sad E1.1"],
            "nothing that can be seen",
            "--symptoms",
        ),
        (["--built", "wire[W9.9].size = 4 mm²"], "W9.9", ""),
    ] {
        let o = spurline(folder.path(), &["prove", "farm.toml", args[0], args[1]]);
        assert_eq!(status(&o), 2, "{args:?}: {}", out(&o));
        assert!(
            err(&o).contains(says) && err(&o).contains(mend),
            "{args:?}: {}",
            err(&o)
        );
    }
    assert!(!folder.path().join("farm.record.jsonl").exists());
}

#[test]
fn what_was_really_fitted_goes_into_the_plan_and_the_record_keeps_what_it_was() {
    let folder = tempfile::tempdir().expect("a folder");
    farm(folder.path());
    let o = spurline(
        folder.path(),
        &["prove", "farm.toml", "--built", "wire[W2.7].size = 6 mm²"],
    );
    assert_eq!(status(&o), 0, "{}", err(&o));
    let plan = std::fs::read_to_string(folder.path().join("farm.toml")).expect("read");
    assert!(plan.contains("6 mm²"), "{plan}");
    let record =
        std::fs::read_to_string(folder.path().join("farm.record.jsonl")).expect("a record");
    assert!(
        record.contains("wire[W2.7].size") && record.contains("\"is\":\"6 mm²\""),
        "{record}"
    );
    let o = spurline(folder.path(), &["check", "farm.toml", "--json"]);
    let checked: serde_json::Value = serde_json::from_str(&out(&o)).expect("JSON");
    let wires = checked["wires"].as_array().expect("wires");
    let fitted = wires
        .iter()
        .find(|w| w["name"] == "W2.7")
        .expect("the wire");
    assert!(
        (fitted["area_mm2"].as_f64().expect("an area") - 6.0).abs() < 0.2,
        "{fitted}"
    );
}

/// Ten vehicles with something amiss that whoever searches does not know: each is found through the program alone.
#[test]
fn what_is_amiss_is_found_in_every_one_of_ten_tries() {
    let folder = tempfile::tempdir().expect("a folder");
    for number in 1..=10_u32 {
        farm(folder.path());
        let _ = std::fs::remove_file(folder.path().join("farm.record.jsonl"));
        let number = number.to_string();
        let mut told = json(folder.path(), &["--practise", &number]);
        let mut probings = 0;
        while let Some(next) = told["next"]["number"].as_u64() {
            probings += 1;
            assert!(probings < 20, "{number}: {told:#}");
            told = json(
                folder.path(),
                &["--practise", &number, "--measure", &next.to_string()],
            );
        }
        let last = json(
            folder.path(),
            &[
                "--practise",
                &number,
                "--reveal",
                "--unrecorded",
                "--note",
                "done",
            ],
        );
        let amiss = &last["amiss"];
        let causes = told["causes"].as_array().expect("causes");
        let mine = |c: &&serde_json::Value| c["class"] == 0;
        let first: Vec<&serde_json::Value> = causes.iter().filter(mine).collect();
        let is = |c: &&&serde_json::Value| c["fault"] == amiss["fault"] && c["at"] == amiss["at"];
        assert!(
            first.iter().any(|c| is(&c)),
            "{number} after {probings}: {amiss} is not among {first:#?}"
        );
    }
}
