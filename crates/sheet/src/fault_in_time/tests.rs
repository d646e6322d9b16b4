//! Whole charts of made-up faults: no two words overlap, nothing lies outside the border, whatever the fault.

use super::compose::chart;
use super::{EVENT, FaultInTime, LIMITS, LINES, Line, Plot, fault_in_time};
use crate::Title;
use crate::chart::Chart;
use crate::chart::check::faults;

const LONG: [&str; 6] = [
    "W1.3",
    "W12.4 behind the passenger’s kick panel",
    "F1",
    "work lamps at the rear of the tray",
    "rear axle differential lock compressor, its relay and everything else that hangs on the same feed",
    "UHF",
];

fn title() -> Title {
    Title {
        title: "Farm ute: auxiliary circuits".to_owned(),
        vehicle: "two-seat farm utility, 12 V".to_owned(),
        owner: Some("Lower Orchard".to_owned()),
    }
}

/// A plot of so many lines over these moments; `limit` is the first line's.
fn plot((title, unit): (&str, &str), seconds: &[f64], lines: usize, limit: Option<f64>) -> Plot {
    let last = seconds.last().copied().unwrap_or(1.0).max(1e-9);
    let line = |n: usize| Line {
        name: LONG[n % 6].to_owned(),
        values: seconds
            .iter()
            .enumerate()
            .map(|(i, s)| {
                let rise = 1.0 - (-3.0 * s / last).exp();
                (i % 17 != 11 + n).then_some(20.0 + (60.0 + 13.0 * n as f64) * rise)
            })
            .collect(),
        limit: limit.map(|l| l + 7.0 * (n / 2) as f64),
    };
    Plot {
        whole: false,
        title: title.to_owned(),
        unit: unit.to_owned(),
        lines: (0..lines).map(line).collect(),
    }
}

/// A fault with so many moments up to `last` s, lines a plot and events.
fn made((moments, last): (usize, f64), lines: usize, events: usize) -> FaultInTime {
    let seconds: Vec<f64> = (0..moments)
        .map(|n| last * (n as f64 / (moments.max(2) - 1) as f64).powi(4))
        .collect();
    let event = |n: usize| {
        let at = last * ((n + 1) as f64 / (events + 1) as f64).powi(3);
        (at, format!("{} opens", LONG[2 * n % 6]))
    };
    FaultInTime {
        heading: "W1.3 chafed through to the body at its far end".to_owned(),
        says: "F1 opens after 0.12 s; W1.3 reaches 96 °C of the 105 °C that it bears, and the work lamps at the rear of the tray go out.".to_owned(),
        plots: vec![
            plot(("current", "A"), &seconds, lines, None),
            plot(("temperature of the wires", "°C"), &seconds, lines, Some(105.0)),
            plot(("voltage across the loads", "V"), &seconds, lines, None),
        ],
        seconds,
        events: (0..events).map(event).collect(),
    }
}

fn texts(chart: &Chart) -> String {
    let level = chart.labels.iter().map(|l| l.text.as_str());
    level.collect::<Vec<&str>>().join(" ")
}

#[test]
fn no_words_overlap_and_nothing_lies_outside_the_border() {
    for span in [(0, 1.0), (1, 0.0), (2, 0.004), (60, 3.0), (400, 9000.0)] {
        for lines in [0, 1, 3, 6, 8] {
            for events in [0, 1, 4, 12, 60] {
                let fault = made(span, lines, events);
                let chart = chart(&fault, &title());
                let what = format!("{span:?}, {lines} lines, {events} events");
                assert_eq!(faults(&chart), Vec::<String>::new(), "{what}");
            }
        }
    }
}

#[test]
fn a_fault_with_no_plot_has_a_sheet() {
    let bare = FaultInTime {
        events: vec![
            (0.1, "F1 opens".to_owned()),
            (f64::NAN, "W1 burns".to_owned()),
        ],
        ..FaultInTime::default()
    };
    assert_eq!(faults(&chart(&bare, &title())), Vec::<String>::new());
}

#[test]
fn few_events_are_told_above_the_plots_and_many_in_a_list() {
    let few = chart(&made((60, 3.0), 2, 2), &title());
    assert!(texts(&few).contains("F1 opens,"), "{}", texts(&few));
    assert!(!texts(&few).contains("1: "));
    let many = chart(&made((60, 3.0), 2, 12), &title());
    assert!(texts(&many).contains("12: "), "{}", texts(&many));
}

#[test]
fn an_event_is_marked_in_every_plot() {
    let chart = chart(&made((60, 3.0), 2, 2), &title());
    assert_eq!(chart.lines.iter().filter(|l| l.ink == EVENT).count(), 6);
}

#[test]
fn a_limit_is_a_line_of_its_own_with_its_figure() {
    let chart = chart(&made((60, 3.0), 1, 0), &title());
    assert_eq!(chart.lines.iter().filter(|l| l.ink == LIMITS[0]).count(), 1);
    let told = chart.labels.iter().any(|l| l.text == "105 °C");
    assert!(told && texts(&chart).contains("W1.3, limit 105 °C"));
}

#[test]
fn a_moment_without_a_figure_parts_a_line() {
    let mut fault = made((3, 2.0), 1, 0);
    fault.plots.truncate(1);
    fault.plots[0].lines[0].values = vec![Some(1.0), None, Some(2.0)];
    let chart = chart(&fault, &title());
    let curves = chart.lines.iter().filter(|l| l.ink == LINES[0]);
    assert_eq!(curves.count(), 3, "two pieces and the sample of the key");
}

#[test]
fn lines_differ_in_more_than_their_colour() {
    for (i, line) in LINES.iter().enumerate() {
        for other in &LINES[i + 1..] {
            assert!(line.width != other.width || line.dash != other.dash);
        }
    }
}

#[test]
fn a_fault_until_its_fuse_opens() {
    let mut fault = made((8, 0.4), 1, 1);
    fault.plots.truncate(2);
    let sheet = fault_in_time(&fault, &title());
    assert_eq!(
        sheet.name,
        "fault-w1.3-chafed-through-to-the-body-at-its-far-end"
    );
    assert!(roxmltree::Document::parse(&sheet.svg).is_ok());
    insta::assert_snapshot!(sheet.svg);
}
