//! Whole charts of made-up days: no two words overlap, nothing lies outside the sheet, whatever the day.

use super::compose::chart;
use super::{ON, tint};
use crate::Title;
use crate::chart::check::faults;
use crate::chart::{Band, EDGE};
use plan::SupplyState;
use study::{Day, DayPart, DayPoint};

const LONG: [&str; 5] = [
    "drive to the orchard",
    "spray the lower rows between the old windbreak and the creek, pump and work lamps on",
    "lunch",
    "Donaudampfschifffahrtsgesellschaftskapitän",
    "fill the tank at the neighbour’s bore",
];
const CIRCUITS: [&str; 4] = [
    "fridge",
    "work lamps at the rear of the tray",
    "rear axle differential lock compressor",
    "UHF",
];

fn title() -> Title {
    Title {
        title: "Farm ute: auxiliary circuits".to_owned(),
        vehicle: "two-seat farm utility, 12 V".to_owned(),
        owner: Some("Lower Orchard".to_owned()),
    }
}

/// A day of so many parts, each of these hours in turn.
fn made(parts: usize, hours: &[f64]) -> Day {
    let mut day = Day::from_full();
    let mut from_h = 0.0;
    for n in 0..parts {
        let supply = SupplyState::ALL[n * 2 % 5];
        let to_h = from_h + hours[n % hours.len()];
        let slope = if supply.ignition() { 0.03 } else { -0.05 };
        for step in 0..20 {
            day.to = (day.to + slope * (to_h - from_h) / 20.0).clamp(0.0, 1.0);
            day.points.push(DayPoint {
                hour: from_h + (to_h - from_h) * f64::from(step) / 20.0,
                charge: day.to,
                volts: 12.0 + 10.0 * slope * f64::from(step) / 10.0 + n as f64 % 3.0,
                amps: 100.0 * slope,
            });
        }
        let on = (0..4).filter(|c| (n + c) % 3 == 0);
        day.parts.push(DayPart {
            what: LONG[n % 5].to_owned(),
            supply,
            from_h,
            to_h,
            on: on.map(|c| CIRCUITS[c].to_owned()).collect(),
            charge: day.to,
            amps: 100.0 * slope,
        });
        if n % 4 == 3 {
            day.no_start.push((from_h, LONG[n % 5].to_owned()));
            day.cut_out.push((from_h, CIRCUITS[n % 4].to_owned()));
        }
        from_h = to_h;
    }
    day
}

/// The days that are tried: even parts, uneven ones, and a starter that turns for seconds.
fn days() -> Vec<(String, Day)> {
    let hours: [&[f64]; 4] = [
        &[2.0],
        &[6.0, 0.25, 1.5],
        &[0.004, 9.0, 0.02, 0.02],
        &[0.003],
    ];
    let each = [1, 4, 12, 30]
        .into_iter()
        .flat_map(|parts| hours.map(|h| (format!("{parts} parts of {h:?} h"), made(parts, h))));
    each.collect()
}

#[test]
fn no_words_overlap_and_nothing_lies_outside_the_sheet() {
    for (name, day) in days() {
        for reserve in [0.0, 0.6, 1.0] {
            let chart = chart(&day, reserve, &title());
            assert_eq!(faults(&chart), Vec::<String>::new(), "{name}");
        }
    }
}

#[test]
fn days_of_up_to_thirty_parts_fit_a4() {
    for (name, day) in days() {
        let chart = chart(&day, 0.6, &title());
        assert_eq!((chart.width, chart.height), (297.0, 210.0), "{name}");
    }
}

#[test]
fn a_list_of_any_length_has_a_sheet() {
    for parts in [0, 60, 200, 500] {
        let mut day = made(parts, &[6.0, 0.1]);
        if parts == 60 {
            day.parts.iter_mut().for_each(|p| p.on.clear());
            day.cut_out.clear();
        }
        let chart = chart(&day, 0.6, &title());
        assert_eq!(faults(&chart), Vec::<String>::new(), "{parts}");
    }
}

#[test]
fn the_same_day_gives_the_same_bytes_and_they_are_xml() {
    let day = made(12, &[6.0, 0.25, 1.5]);
    let sheet = super::day(&day, 0.6, &title());
    assert_eq!(sheet, super::day(&day, 0.6, &title()));
    assert!(roxmltree::Document::parse(&sheet.svg).is_ok());
}

#[test]
fn the_starters_seconds_can_be_seen() {
    let chart = chart(&made(4, &[0.004, 9.0]), 0.6, &title());
    let cranking = tint(SupplyState::Cranking);
    let seen = chart.bands.iter().filter(|b| b.fill == cranking);
    assert!(seen.clone().count() >= 2);
    assert!(
        seen.into_iter()
            .all(|b| b.frame.right - b.frame.left >= 0.69)
    );
}

#[test]
fn a_narrow_part_has_its_name_upright_and_a_number_only_where_that_is_too_tall() {
    let mut day = made(4, &[9.0, 0.5, 9.0, 0.5]);
    day.parts[1].what = "lunch".to_owned();
    let chart = chart(&day, 0.6, &title());
    let upright: Vec<&str> = chart.uprights.iter().map(|u| u.text.as_str()).collect();
    assert_eq!(upright, ["lunch"]);
    let numbers = chart.labels.iter().filter(|l| l.text == "4").count();
    assert_eq!(numbers, 2, "above the part and in the list");
}

#[test]
fn circuits_on_in_parts_that_follow_one_another_have_one_bar() {
    let mut day = made(2, &[1.0]);
    for part in &mut day.parts {
        part.on = vec!["fridge".to_owned()];
    }
    let chart = chart(&day, 0.6, &title());
    let plot = chart.lines.iter().find(|l| l.ink == EDGE).unwrap();
    let (left, right) = (plot.points[0].x, plot.points[1].x);
    let whole = |b: &&Band| b.fill == ON && b.frame.left == left && b.frame.right == right;
    assert_eq!(chart.bands.iter().filter(whole).count(), 1);
}

#[test]
fn a_day_with_a_start_that_fails() {
    let mut day = made(4, &[1.5, 9.0, 0.004, 3.0]);
    day.no_start = vec![(10.5, LONG[2].to_owned())];
    day.cut_out = vec![(9.25, "fridge".to_owned())];
    insta::assert_snapshot!(super::day(&day, 0.6, &title()).svg);
}
