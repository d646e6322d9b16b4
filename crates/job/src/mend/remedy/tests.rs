//! Each known mend on a plan that needs it: the finding is gone, and nothing else came.

use crate::{Job, Source};

const FARM: &str = include_str!("../../../../../examples/farm.toml");

fn job(text: &str) -> Job {
    let job = Job::read(
        Source {
            name: "farm.toml".to_owned(),
            text: text.to_owned(),
        },
        Vec::new(),
    );
    assert!(job.errors().is_empty(), "{:?}", job.errors());
    job
}

/// The farm's plan with one line changed has a finding; its mend is made.
fn mended(from: &str, to: &str, id: &str) -> (String, String) {
    let text = FARM.replace(from, to);
    assert_ne!(text, FARM, "{from}");
    let job = job(&text);
    let answers = job.answers().expect("answers");
    let finding = answers.findings.iter().find(|f| f.id == id);
    let found = || answers.findings.iter().map(|f| f.id).collect::<Vec<_>>();
    let finding = finding.unwrap_or_else(|| panic!("{id}: {:?}", found()));
    let done = job
        .remedied(finding)
        .unwrap_or_else(|| panic!("{id} is mended"));
    assert!(done.adds.is_empty(), "{id}: {:?}", done.adds);
    (done.says, done.text)
}

#[test]
fn what_a_person_set_wrongly_is_taken_back() {
    let feed = "feed  = \"battery\"\n";
    for (from, to, id) in [
        (
            feed,
            "feed  = \"battery\"\nfuse  = false\n",
            "unfused-feeder",
        ),
        (
            feed,
            "feed  = \"battery\"\ncover = false\n",
            "unshrouded-live",
        ),
        (
            "surface = \"bare metal\"",
            "surface = \"painted\"",
            "poor-earth",
        ),
        (
            "relay  = { place = \"inner wing\" }\nswitch = { place = \"dash\" }",
            "relay  = { place = \"inner wing\", bare = true }\nswitch = { place = \"dash\" }",
            "bare-tab",
        ),
        (
            "thickness = \"1.2 mm\" }",
            "thickness = \"1.2 mm\", grommet = false }",
            "no-grommet",
        ),
    ] {
        let (says, text) = mended(from, to, id);
        assert!(
            !says.is_empty() && !text.contains("false") && !text.contains("painted"),
            "{id}: {says}"
        );
    }
}

#[test]
fn a_thin_wire_is_left_to_be_chosen() {
    let (says, text) = mended(
        "drop   = \"7 %\"\n\n[[circuit]]\nname   = \"transfer pump\"",
        "drop   = \"7 %\"\n\n[wire.\"W1.7\"]\nsize = \"0.5 mm²\"\n\n[[circuit]]\nname   = \"transfer pump\"",
        "fuse-above-wire",
    );
    assert!(says.contains("W1.7") && !text.contains("0.5 mm²"), "{text}");
}

#[test]
fn a_drop_that_no_size_keeps_may_be_allowed() {
    let (says, text) = mended("drop   = \"7 %\"\n", "drop   = \"0.5 %\"\n", "drop");
    assert!(
        says.contains("may lose") && text.matches("\"0.5 %\"").count() == 1,
        "{says}"
    );
}

#[test]
fn a_switch_that_carries_too_much_works_a_relay() {
    let (says, text) = mended(
        "relay  = { place = \"inner wing\" }\nswitch = { place = \"dash\" }",
        "switch = { place = \"dash\", rating = \"5 A\" }",
        "switch-overloaded",
    );
    assert!(
        says.contains("relay")
            && text.matches("relay  =").count() + text.matches("relay =").count() == 2,
        "{text}"
    );
}
