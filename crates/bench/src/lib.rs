//! `bench`: plans of any size to measure with. Takes a number of circuits, gives the text of a plan
//! that reads without an error, builds and solves; the same text each time. `benches/stages.rs`
//! measures each stage of the walk on them.
//!
//! Absent from this crate: chance. A generated vehicle is nothing that anybody would build, but every
//! circuit of it is one that somebody would.

use std::fmt::Write;

/// Circuits that share a box.
const WAYS: usize = 8;

/// The vehicle: a large 24 V one, so that fifty circuits at once are no more than it gives.
const VEHICLE: &str = r#"
[supply]
system     = "24 V"
battery    = { chemistry = "AGM", capacity = "120 Ah", cranking = "500 A", place = "battery tray" }
alternator = { rated = "150 A", idling = "70 A" }
vehicle    = { driving = "20 A", key_on = "6 A", parked = "30 mA" }

[place]
"battery tray" = { zone = "engine bay", heat = "70 °C" }
"inner wing"   = { zone = "engine bay", heat = "70 °C" }
"dash"         = { zone = "cabin", heat = "50 °C" }
"console"      = { zone = "cabin", heat = "50 °C" }
"cab rear"     = { zone = "cabin", heat = "50 °C" }
"rack"         = { zone = "outside", heat = "45 °C" }
"tray left"    = { zone = "outside", heat = "45 °C" }
"tray right"   = { zone = "outside", heat = "45 °C" }
"tailgate"     = { zone = "outside", heat = "45 °C" }

[[stretch]]
between = ["battery tray", "inner wing"]
length  = "0.7 m"

[[stretch]]
between = ["inner wing", "dash"]
length  = "1.9 m"
through = { panel = "bulkhead", thickness = "1.2 mm" }

[[stretch]]
between = ["dash", "console"]
length  = "0.8 m"

[[stretch]]
between = ["console", "cab rear"]
length  = "1.4 m"

[[stretch]]
between = ["cab rear", "rack"]
length  = "1.3 m"
through = { panel = "rear cab wall", thickness = "0.9 mm" }

[[stretch]]
between = ["cab rear", "tray left"]
length  = "1.8 m"
through = { panel = "rear cab wall", thickness = "0.9 mm" }

[[stretch]]
between = ["cab rear", "tray right"]
length  = "1.9 m"
through = { panel = "rear cab wall", thickness = "0.9 mm" }

[[stretch]]
between = ["tray left", "tailgate"]
length  = "2.2 m"

[[feed]]
name  = "ignition"
kind  = "ignition tap"
place = "dash"
fused = "15 A"
gives = "10 A"

[[signal]]
name  = "main beam"
place = "dash"
gives = "5 A"

[[earth]]
name    = "left earth"
place   = "tray left"
surface = "bare metal"

[[earth]]
name    = "right earth"
place   = "tray right"
surface = "bare metal"
"#;

/// A pattern of circuit: loads, how it is turned on, where it returns.
type Pattern = (&'static str, &'static str, &'static str, &'static str);

/// One of each kind of load and of each way to switch; a plan goes round them.
const PATTERNS: [Pattern; 8] = [
    (
        "work lamps",
        r#"[{ lamp = "tungsten", rated = "21 W", count = 2, place = "rack", unplug = true }]"#,
        "relay  = { place = \"inner wing\" }\nswitch = { place = \"dash\", breaks = \"earth\" }",
        "cab rear",
    ),
    (
        "strip lights",
        r#"[{ lamp = "LED", rated = "15 W", count = 2, place = "tray left" }]"#,
        "switch = { place = \"dash\" }",
        "left earth",
    ),
    (
        "pump",
        r#"[{ motor = "pump", rated = "4 A", start = "16 A", place = "tray right", unplug = true, hazard = true }]"#,
        "relay  = { place = \"console\" }\nswitch = { place = \"dash\" }",
        "right earth",
    ),
    (
        "seat heater",
        r#"[{ heater = "seat", rated = "100 W", place = "console" }]"#,
        "relay  = { place = \"console\" }\nlive   = \"ignition\"",
        "console",
    ),
    (
        "radio",
        r#"[{ electronics = "radio", rated = "3 A", place = "dash" }]"#,
        "live   = \"always\"",
        "dash",
    ),
    (
        "socket",
        r#"[{ socket = "lighter", rated = "4 A", place = "cab rear" }]"#,
        "switch = { place = \"cab rear\" }",
        "cab rear",
    ),
    (
        "light bar",
        r#"[{ lamp = "LED", rated = "80 W", place = "rack", unplug = true }]"#,
        "relay  = { place = \"inner wing\" }\nswitch = { place = \"dash\", auto = \"main beam\" }",
        "cab rear",
    ),
    (
        "rear lamps and fan",
        r#"[{ lamp = "LED", rated = "20 W", place = "tailgate" }, { motor = "fan", rated = "1.5 A", start = "5 A", place = "tray left" }]"#,
        "relay  = { place = \"cab rear\" }\nswitch = { place = \"dash\" }",
        "left earth",
    ),
];

/// The text of a plan of so many circuits, six wires each on average.
pub fn plan_text(circuits: usize) -> String {
    let mut text = format!(
        "[job]\ntitle = \"{circuits} circuits to measure with\"\ninsulation = \"cross-linked\"\ndrop = \"5 %\"\n{VEHICLE}"
    );
    for n in 0..circuits.div_ceil(WAYS) {
        let place = ["inner wing", "console", "cab rear"][n % 3];
        let _ = write!(
            text,
            "\n[[box]]\nname  = \"box {}\"\nplace = \"{place}\"\nways  = {WAYS}\nfeed  = \"battery\"\n",
            n + 1
        );
    }
    for n in 0..circuits {
        let (name, loads, control, earth) = PATTERNS[n % PATTERNS.len()];
        let _ = write!(
            text,
            "\n[[circuit]]\nname   = \"{name} {}\"\nload   = {loads}\nbox    = \"box {}\"\n{control}\nearth  = \"{earth}\"\n",
            n + 1,
            n / WAYS + 1
        );
    }
    text
}

#[cfg(test)]
mod tests {
    use super::plan_text;
    use job::{Job, Source};

    fn walked(circuits: usize) -> Job {
        let text = plan_text(circuits);
        Job::read(
            Source {
                name: "generated".into(),
                text,
            },
            Vec::new(),
        )
    }

    #[test]
    fn plans_of_any_size_read_build_and_solve() {
        for circuits in [1, 8, 13] {
            let job = walked(circuits);
            assert!(job.errors().is_empty(), "{circuits}: {:?}", job.errors());
            let answers = job.answers().unwrap();
            let unsolved: Vec<_> = answers
                .findings
                .iter()
                .filter(|f| f.id == "not-solved")
                .collect();
            assert!(unsolved.is_empty(), "{circuits}: {unsolved:?}");
        }
    }

    #[test]
    fn the_largest_plan_has_about_six_wires_a_circuit() {
        let job = walked(40);
        let wires = job.loom().unwrap().wires.len();
        assert!((220..=300).contains(&wires), "{wires} wires");
    }

    #[test]
    fn the_same_number_gives_the_same_text() {
        assert_eq!(plan_text(20), plan_text(20));
    }
}
