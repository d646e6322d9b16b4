//! `lists` as a person and as a tool meet it.

use super::run::{err, examples, farm_with, out, spurline, status};

#[test]
fn lists_tell_what_to_buy_then_what_to_cut() {
    let o = spurline(&examples(), &["lists", "farm.toml"]);
    assert_eq!(status(&o), 0, "{}", err(&o));
    let text = out(&o);
    let at = |heading: &str| {
        let place = text.find(&format!("\n{heading}\n"));
        place.unwrap_or_else(|| panic!("no “{heading}”:\n{text}"))
    };
    let headings = [
        "To buy",
        "To cut",
        "What goes on each end",
        "On which stud, in which order",
        "Which wire in which way",
        "How each bundle is laid",
        "Through the panels",
        "From which roll or stick",
        "Taken for granted",
        "Before you start",
    ];
    assert!(headings.windows(2).all(|pair| at(pair[0]) < at(pair[1])));
    assert!(!text.contains("Not in stock") && !text.contains("safe"));
    // What stock lacks comes first.
    let folder = tempfile::tempdir().expect("a folder");
    let thick = "[wire.\"W2.7\"]\nsize = \"50 mm²\"\n[[circuit]]\nname   = \"transfer pump\"";
    farm_with(
        folder.path(),
        "thick.toml",
        "[[circuit]]\nname   = \"transfer pump\"",
        thick,
    );
    let o = spurline(folder.path(), &["lists", "thick.toml"]);
    let text = out(&o);
    let at = |heading: &str| {
        text.find(heading)
            .unwrap_or_else(|| panic!("no “{heading}”:\n{text}"))
    };
    assert!(at("Not in stock: look for these") < at("To buy"));
}

#[test]
fn lists_json_has_the_keys_that_tools_rely_on() {
    let o = spurline(&examples(), &["lists", "camper.toml", "--json"]);
    assert_eq!(status(&o), 0, "{}", err(&o));
    let json: serde_json::Value = serde_json::from_str(&out(&o)).expect("JSON");
    let cut = json["cut"].as_array().expect("cut");
    assert!(cut.len() > 20);
    for wire in cut {
        assert!(wire["cut_m"].as_f64() > Some(0.0));
        for end in [&wire["from"], &wire["to"]] {
            assert!(
                end["gets"].as_str().is_some_and(|g| !g.is_empty()),
                "{wire}"
            );
            // The whole termination: what to strip, what to pull it by, what to call it.
            assert!(end["strip_mm"].as_f64() > Some(0.0), "{wire}");
            let way = end["gets"]
                .as_str()
                .is_some_and(|g| g.starts_with("the contact of a way"));
            assert!(way || end["pull_n"].as_f64() > Some(0.0), "{wire}");
            let label = format!(
                "{} {}",
                wire["wire"].as_str().unwrap(),
                end["at"].as_str().unwrap()
            );
            assert_eq!(end["label"], label);
        }
    }
    // Every ring lies on a stud, and every way of a connector has a wire or the load's own lead.
    let studs = json["studs"].as_array().expect("studs");
    let rings = studs
        .iter()
        .map(|s| s["rings"].as_array().map_or(0, Vec::len));
    let ringed = |e: &serde_json::Value| e["gets"].as_str().is_some_and(|g| g.contains("ring"));
    let ends = cut.iter().flat_map(|w| [&w["from"], &w["to"]]);
    assert_eq!(rings.sum::<usize>(), ends.filter(|e| ringed(e)).count());
    let connectors = json["connectors"].as_array().expect("connectors");
    for way in connectors
        .iter()
        .flat_map(|c| c["ways"].as_array().expect("ways"))
    {
        assert!(
            way["source_half"].is_array() && way["far_half"].is_array(),
            "{way}"
        );
    }
    for bundle in json["bundles"].as_array().expect("bundles") {
        assert!(bundle["laid_mm"].as_f64() >= bundle["least_mm"].as_f64());
        assert!(bundle["bend_mm"].as_f64() > bundle["bend_supported_mm"].as_f64());
        assert!(bundle["clips"].as_u64() > Some(0));
    }
    assert!(json["panels"].is_array() && json["colours"]["habit"] == "road");
    let buy = json["buy"].as_array().expect("buy");
    assert!(
        buy.iter()
            .all(|b| b["metres"].is_number() != b["pieces"].is_number())
    );
}

#[test]
fn the_tables_are_written_as_comma_separated_files_too() {
    let folder = tempfile::tempdir().expect("a folder");
    let into = folder.path().to_str().expect("a path");
    let o = spurline(&examples(), &["lists", "farm.toml", "--into", into]);
    assert_eq!(status(&o), 0, "{}", err(&o));
    let read = |name: &str| std::fs::read_to_string(folder.path().join(name)).expect(name);
    assert!(read("lists.html").contains("To cut"));
    let mut cut = csv::Reader::from_path(folder.path().join("cut.csv")).expect("cut.csv");
    let headers = cut.headers().expect("a heading").clone();
    assert_eq!(headers.get(0), Some("wire"));
    let rows: Vec<csv::StringRecord> = cut.records().map(|r| r.expect("a row")).collect();
    assert!(rows.iter().any(|r| r.get(0) == Some("W1.7")));
    for name in ["ends.csv", "bundles.csv", "rolls.csv", "buy.csv"] {
        assert!(read(name).lines().count() > 3, "{name}");
    }
    // Cells with commas of their own come back whole.
    assert!(rows.iter().all(|r| r.len() == headers.len()));
    let again = spurline(&examples(), &["lists", "farm.toml", "--into", into]);
    assert_eq!(status(&again), 2, "{}", out(&again));
}

/// A price of the user's own stock is on the rows that it is for, and in the sum.
#[test]
fn prices_of_the_users_own_stock_are_added_up() {
    let folder = tempfile::tempdir().expect("a folder");
    let mine = folder.path().join("mine.toml");
    let text = "[[price]]\nfuse = \"miniature blade\"\namps = 15\neach = 0.4\n";
    std::fs::write(&mine, text).expect("a file");
    let mine = mine.to_str().expect("a path");
    let o = spurline(
        &examples(),
        &["lists", "farm.toml", "--stock", mine, "--json"],
    );
    let json: serde_json::Value = serde_json::from_str(&out(&o)).expect("JSON");
    let buy = json["buy"].as_array().expect("buy");
    let fuse = buy
        .iter()
        .find(|b| b["what"] == "miniature blade 15 A (blue)");
    assert_eq!(fuse.expect("a fuse")["price"], 0.4);
    let o = spurline(&examples(), &["lists", "farm.toml", "--stock", mine]);
    assert!(out(&o).contains("Together 0.40"), "{}", out(&o));
}
