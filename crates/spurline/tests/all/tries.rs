//! `try` as a person and as a tool meet it.

use super::run::{err, examples, out, spurline, status};

#[test]
fn try_tells_what_stops_first_and_then_every_outcome() {
    let o = spurline(&examples(), &["try", "lorry.toml"]);
    assert_eq!(status(&o), 1, "{}", err(&o));
    let text = out(&o);
    let at = |heading: &str| {
        let place = text.find(&format!("\n{heading}\n"));
        place.unwrap_or_else(|| panic!("no “{heading}”:\n{text}"))
    };
    let headings = [
        "Found by trying",
        "How they end",
        "Fault by fault, the worst first",
        "Each fuse against its wires",
        "Assumed when faults are tried",
        "Before you start",
    ];
    assert!(headings.windows(2).all(|pair| at(pair[0]) < at(pair[1])));
    assert!(text.contains("Tried: it cures"), "{text}");
    assert!(text.contains("overheats  ") && !text.contains("NaN") && !text.contains("safe"));
    let camper = spurline(&examples(), &["try", "camper.toml"]);
    assert_eq!(status(&camper), 0, "{}", err(&camper));
}

#[test]
fn try_json_has_the_keys_that_tools_rely_on() {
    let o = spurline(&examples(), &["try", "farm.toml", "--json"]);
    assert_eq!(status(&o), 1, "{}", err(&o));
    let json: serde_json::Value = serde_json::from_str(&out(&o)).expect("JSON");
    assert!(json["tried"].as_u64() > Some(500) && json["collapsed"].as_u64() > Some(500));
    let faults = json["faults"].as_array().expect("faults");
    for key in [
        "fault",
        "at",
        "state",
        "outcome",
        "opens",
        "seconds",
        "peak_celsius",
        "peak_wire",
        "says",
    ] {
        assert!(faults.iter().all(|f| f.get(key).is_some()), "no {key}");
    }
    let unasked = json["unasked"].as_array().expect("unasked");
    assert!(
        unasked.iter().all(|f| f["outcome"] == "unasked"),
        "{unasked:#?}"
    );
    assert!(
        json["mends"]
            .as_array()
            .is_some_and(|m| m.iter().any(|m| m["cures"] == true))
    );
}

#[test]
fn one_fault_is_looked_at_closely_with_its_moments() {
    let o = spurline(
        &examples(),
        &[
            "try",
            "farm.toml",
            "--fault",
            "wire-to-body",
            "--at",
            "W2.7, far end",
            "--state",
            "driving, everything on",
        ],
    );
    assert_eq!(status(&o), 0, "{}", err(&o));
    let text = out(&o);
    assert!(
        text.contains("F2 opens within") && text.contains("after, s"),
        "{text}"
    );
    let o = spurline(&examples(), &["try", "farm.toml", "--at", "K2", "--json"]);
    let json: serde_json::Value = serde_json::from_str(&out(&o)).expect("JSON");
    let faults = json["faults"].as_array().expect("faults");
    assert_eq!(faults.len(), 2, "welded and stuck");
}

#[test]
fn what_is_not_known_is_told_with_what_is_like_it() {
    for (args, says, mend) in [
        (
            ["--fault", "wire-to-boddy"],
            "no kind of fault",
            "wire-to-body",
        ),
        (["--at", "W2.77"], "no such fault", "W2.7"),
        (
            ["--state", "driving, everythin on"],
            "no state",
            "driving, everything on",
        ),
    ] {
        let o = spurline(&examples(), &["try", "farm.toml", args[0], args[1]]);
        assert_eq!(status(&o), 2, "{args:?}");
        assert!(
            err(&o).contains(says) && err(&o).contains(mend),
            "{}",
            err(&o)
        );
    }
}

#[test]
fn the_page_and_its_drawings_are_written_whole_and_not_over_others() {
    let folder = tempfile::tempdir().expect("a folder");
    let into = folder.path().join("faults");
    let into = into.to_str().expect("a path");
    let o = spurline(&examples(), &["try", "farm.toml", "--into", into]);
    assert_eq!(status(&o), 1, "{}", err(&o));
    let names = std::fs::read_dir(into).expect("the folder").flatten();
    let names: Vec<String> = names
        .map(|e| e.file_name().to_string_lossy().into_owned())
        .collect();
    let has = |start: &str| names.iter().any(|n| n.starts_with(start));
    assert!(
        has("try.html") && has("matrix-1.svg") && has("coordination-f1-and-w1.7.svg"),
        "{names:?}"
    );
    let again = spurline(&examples(), &["try", "farm.toml", "--into", into]);
    assert_eq!(status(&again), 2, "{}", out(&again));
}

#[test]
fn the_chart_in_the_readme_is_what_is_drawn_today() {
    let folder = tempfile::tempdir().expect("a folder");
    let into = folder.path().to_str().expect("a path");
    spurline(&examples(), &["try", "lorry.toml", "--into", into]);
    let name = "coordination-f3-and-w3.1.svg";
    let today = std::fs::read(folder.path().join(name)).expect("a drawing");
    let shown = std::fs::read(examples().join("../docs/coordination.svg")).expect("the picture");
    assert!(
        today == shown,
        "draw it anew: cargo run -- try examples/lorry.toml --into out, then copy {name} to docs/coordination.svg"
    );
}

/// The same rule as of `try` by itself: a finding that stops, and no other, shows in the exit status.
#[test]
fn a_close_look_ends_as_its_findings_weigh() {
    for (plan, at, wanted, finding) in [
        ("farm.toml", "W0.1, near end", 0, "burns-by-place"),
        ("farm.toml", "K2", 1, "hazard-unasked"),
        ("lorry.toml", "E3", 1, "burns"),
        ("farm.toml", "XE3", 0, ""),
    ] {
        let o = spurline(&examples(), &["try", plan, "--at", at]);
        assert_eq!(status(&o), wanted, "{plan} {at}: {}", out(&o));
        assert!(out(&o).contains(finding), "{plan} {at}: {}", out(&o));
    }
}

#[test]
fn where_nothing_warms_the_page_says_why_it_has_no_chart() {
    let folder = tempfile::tempdir().expect("a folder");
    let into = folder.path().to_str().expect("a path");
    let o = spurline(
        &examples(),
        &["try", "farm.toml", "--at", "XE3", "--into", into],
    );
    assert_eq!(status(&o), 0, "{}", err(&o));
    assert!(out(&o).contains("There is no chart"), "{}", out(&o));
    let page = std::fs::read_to_string(folder.path().join("fault.html")).expect("a page");
    assert!(page.contains("There is no chart") && !page.contains("<svg"));
}
