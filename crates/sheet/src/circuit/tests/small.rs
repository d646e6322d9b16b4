//! Layouts of small plans, one aspect each: what stands where, without the words.

use super::Walked;
use crate::circuit::layout::{Ink, Layout};
use std::fmt::Write;

/// What every small plan has.
const BENCH: &str = r#"
[job]
title = "bench"
vehicle = "bench"
[supply]
system = "12 V"
battery = { chemistry = "AGM", capacity = "90 Ah", cranking = "800 A", place = "tray" }
[place]
"tray" = { zone = "engine bay" }
"dash" = { zone = "cabin" }
"rack" = { zone = "outside" }
[[stretch]]
between = ["tray", "dash"]
length = "1 m"
[[stretch]]
between = ["dash", "rack"]
length = "2 m"
[[signal]]
name = "beam"
place = "dash"
[[signal]]
name = "reverse"
place = "dash"
[[box]]
name = "box"
place = "tray"
ways = 4
feed = "battery"
"#;

/// A layout as lines of text: symbols by column, then lines; millimetres.
fn told(layout: &Layout) -> String {
    let mut out = format!("sheet {} of {}\n", layout.number, layout.of);
    for s in &layout.symbols {
        let _ = writeln!(out, "{:.1} {:.1}  {} {:?}", s.at.x, s.at.y, s.name, s.shape);
    }
    for l in layout
        .lines
        .iter()
        .filter(|l| !matches!(l.ink, Ink::Rule { .. } | Ink::Inner))
    {
        let way: Vec<String> = l
            .points
            .iter()
            .map(|p| format!("{:.1} {:.1}", p.x, p.y))
            .collect();
        let ink = match &l.ink {
            Ink::Wire(colour) => colour.to_string(),
            other => format!("{other:?}"),
        };
        let _ = writeln!(out, "{} {ink}: {}", l.name, way.join(", "));
    }
    out
}

/// The layouts of the bench with these circuits, after nothing was found wrong in them.
fn drawn(circuits: &str) -> String {
    let walked = Walked::of(&format!("{BENCH}{circuits}"));
    assert_eq!(walked.faults(), Vec::<String>::new());
    walked.layouts().iter().map(told).collect()
}

#[test]
fn a_direct_switch_stands_in_the_only_column() {
    insta::assert_snapshot!(drawn(
        r#"
[[circuit]]
name = "lamp"
load = [{ lamp = "LED", rated = "20 W", place = "rack" }]
box = "box"
switch = { place = "dash" }
earth = "rack"
"#
    ));
}

#[test]
fn a_switch_in_the_coils_earth_stands_below_the_coil() {
    insta::assert_snapshot!(drawn(
        r#"
[[circuit]]
name = "lamp"
load = [{ lamp = "tungsten", rated = "55 W", place = "rack" }]
box = "box"
relay = { place = "tray" }
switch = { place = "dash", breaks = "earth" }
earth = "tray"
"#
    ));
}

#[test]
fn a_three_position_switch_takes_its_signal_from_the_left() {
    insta::assert_snapshot!(drawn(
        r#"
[[circuit]]
name = "lamp"
load = [{ lamp = "tungsten", rated = "55 W", place = "rack" }]
box = "box"
relay = { place = "tray" }
switch = { place = "dash", auto = "reverse" }
earth = "tray"
"#
    ));
}

#[test]
fn condition_relays_stand_left_of_what_they_hold_without_a_crossing() {
    insta::assert_snapshot!(drawn(
        r#"
[[circuit]]
name = "fan"
load = [{ motor = "fan", rated = "6 A", place = "rack" }]
box = "box"
relay = { place = "tray" }
switch = { place = "dash" }
unless = ["beam", "reverse"]
earth = "tray"
"#
    ));
}

#[test]
fn loads_that_share_ways_meet_at_splices_above_and_below() {
    insta::assert_snapshot!(drawn(
        r#"
[[circuit]]
name = "lamps"
load = [{ lamp = "tungsten", rated = "21 W", place = "dash", count = 2 }, { lamp = "LED", rated = "20 W", place = "rack", unplug = true }]
box = "box"
live = "always"
earth = "tray"
"#
    ));
}

#[test]
fn rails_carry_on_over_boxes_and_direct_feeds() {
    insta::assert_snapshot!(drawn(
        r#"
[[box]]
name = "second"
place = "dash"
ways = 2
feed = "battery"
[[circuit]]
name = "radio"
load = [{ electronics = "radio", rated = "4 A", place = "dash" }]
box = "second"
live = "always"
earth = "battery"
[[circuit]]
name = "heater"
load = [{ heater = "seat", rated = "60 W", place = "dash" }]
feed = "battery"
switch = { place = "dash" }
earth = "dash"
"#
    ));
}

#[test]
fn many_loads_go_on_by_reference() {
    insta::assert_snapshot!(drawn(
        r#"
[[circuit]]
name = "lamps"
load = [{ lamp = "LED", rated = "5 W", place = "rack", count = 14 }]
box = "box"
switch = { place = "dash" }
earth = "tray"
"#
    ));
}

#[test]
fn cut_outs_stand_before_relay_or_switch_and_their_earth_stands_right_of_the_loads() {
    insta::assert_snapshot!(drawn(
        r#"
[[circuit]]
name = "fridge"
load = [{ electronics = "fridge", rated = "4 A", place = "rack" }]
box = "box"
cutout = { place = "dash", opens = "11.5 V", closes = "12.5 V" }
live = "always"
earth = "rack"
[[circuit]]
name = "lamps"
load = [{ lamp = "LED", rated = "20 W", place = "rack", count = 2 }]
box = "box"
cutout = { place = "dash", opens = "11.8 V", closes = "12.6 V" }
switch = { place = "dash" }
earth = "tray"
[[circuit]]
name = "heater"
load = [{ heater = "seat", rated = "60 W", place = "rack" }]
box = "box"
cutout = { place = "tray", opens = "11.5 V", closes = "12.5 V" }
relay = { place = "tray" }
switch = { place = "dash" }
unless = ["beam"]
earth = "tray"
[[circuit]]
name = "pump"
load = [{ motor = "pump", rated = "8 A", place = "rack" }]
box = "box"
cutout = { place = "tray", opens = "11.5 V", closes = "12.5 V", earth = "battery" }
relay = { place = "tray" }
switch = { place = "dash", breaks = "earth" }
earth = "tray"
"#
    ));
}

#[test]
fn the_earth_of_a_cut_out_goes_on_by_reference_when_its_loads_fill_the_sheet() {
    let walked = Walked::of(&format!(
        r#"{BENCH}
[[circuit]]
name = "lamps"
load = [{{ lamp = "LED", rated = "5 W", place = "rack", count = 14 }}]
box = "box"
cutout = {{ place = "dash", opens = "11.5 V", closes = "12.5 V" }}
switch = {{ place = "dash" }}
earth = "tray"
"#
    ));
    assert_eq!(walked.faults(), Vec::<String>::new());
    let layouts = walked.layouts();
    let on = |text: &str| {
        layouts
            .iter()
            .position(|s| s.labels.iter().any(|l| l.text == text))
    };
    assert!(on("out below 11.5 V,") < on("Q1:31"), "{layouts:?}");
}
