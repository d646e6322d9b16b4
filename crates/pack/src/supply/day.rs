//! A day of use: how low the battery falls and when, each part of the day, and what went wrong in it.

use crate::content::Align::{Left as L, Right as R};
use crate::content::{Block, Section, Table};
use crate::report::Subject;
use crate::tables::columns;
use crate::words::{clock, degrees, percent};
use quantity::figures;
use sheet::Sheet;
use study::{Day, SupplyAnswers};

const TITLE: &str = "A day of use";
/// A charge up to this is told as none, of one.
const NOTHING: f64 = 0.005;

/// The day, with its chart; or how to write one.
pub(super) fn day(s: &Subject, a: &SupplyAnswers, chart: Option<&Sheet>) -> Section {
    let Some(day) = &a.day else {
        return Section::of("day", TITLE, Block::Text(how_to(s)));
    };
    let mut blocks = vec![Block::Text(lowest(day, a.reserve.charge))];
    blocks.extend(day.flat.map(|hour| Block::Text(flat(day, hour, a.celsius))));
    let happened = happened(day, a.reserve.charge);
    if !happened.is_empty() {
        blocks.push(Block::List(happened));
    }
    blocks.extend(chart.cloned().map(Block::Drawing));
    blocks.push(Block::Table(parts(day)));
    Section {
        id: "day",
        title: TITLE.into(),
        blocks,
    }
}

/// How to have a day reckoned, with a circuit that the plan has.
fn how_to(s: &Subject) -> String {
    let switched = s.loom.circuits.iter().find(|c| c.switch.is_some());
    let circuit = switched.or(s.loom.circuits.first());
    let on = circuit.map_or_else(String::new, |c| format!("\"{}\"", c.name));
    format!(
        "The plan says no day of use. To have one reckoned, add its parts to the plan in their order, each like \
         [[day]] what = \"work\", hours = \"2 h\", supply = \"parked\", on = [{on}], with every key on a line of its own."
    )
}

/// What a day comes to, in a sentence; none of a plan without a day.
pub fn day_says(a: &SupplyAnswers) -> Option<String> {
    let day = a.day.as_ref()?;
    let reserve = a.reserve.charge;
    let mut says = vec![
        "The day is reckoned with the battery at 25 °C (assumed).".to_owned(),
        lowest(day, reserve),
    ];
    says.extend(day.flat.map(|hour| flat(day, hour, 25.0)));
    says.extend(
        happened(day, reserve)
            .into_iter()
            .map(|what| format!("{what}.")),
    );
    Some(says.join(" "))
}

/// "The battery is lowest after 14 h, at 62 %, …".
fn lowest(day: &Day, reserve: f64) -> String {
    let (charge, hour) = day.lowest;
    let begins = percent(day.from);
    if charge >= day.from {
        return format!("The battery never falls below the {begins} that the day begins with.");
    }
    let beside = if charge < reserve {
        format!("below the {} that must be left", percent(reserve))
    } else {
        format!("where {} must be left", percent(reserve))
    };
    format!(
        "The battery is lowest after {}, at {}, {beside}. The day begins at {begins} and ends at {}.",
        clock(hour),
        percent(charge),
        percent(day.to)
    )
}

/// "The battery is empty after 19 h 40 min, …".
fn flat(day: &Day, hour: f64, celsius: f64) -> String {
    let (when, left) = (at(hour), day.lowest.0);
    let cold = match left > NOTHING {
        true => format!(
            ", with {} in it that can't be drawn at {}",
            percent(left),
            degrees(celsius)
        ),
        false => String::new(),
    };
    format!(
        "The battery is empty {when}{cold}: nothing runs from then until the engine charges it."
    )
}

/// Starts with too little left, and what cut out.
fn happened(day: &Day, reserve: f64) -> Vec<String> {
    let starts = day.no_start.iter().map(|(hour, what)| {
        let left = charge_at(day, *hour);
        let but = match left < reserve {
            true => format!("below the {} that must be left", percent(reserve)),
            false => "and even a full battery does not start it".to_owned(),
        };
        let with = percent(left);
        let says = format!(
            "{}: “{what}” starts the engine with {with}, {but}; what follows is reckoned as if it were jump-started",
            at(*hour)
        );
        (*hour, says)
    });
    let cuts = day.cut_out.iter().map(|(hour, circuit)| {
        let says = format!("{}: the cut-out lets “{circuit}” go", at(*hour));
        (*hour, says)
    });
    let mut all: Vec<(f64, String)> = starts.chain(cuts).collect();
    all.sort_by(|a, b| a.0.total_cmp(&b.0));
    all.into_iter().map(|(_, says)| says).collect()
}

/// The charge with which a part of the day begins: what the part before it left.
fn charge_at(day: &Day, hour: f64) -> f64 {
    let mut before = day.parts.iter().filter(|p| p.to_h <= hour + 1e-9);
    before.next_back().map_or(day.from, |p| p.charge)
}

fn at(hour: f64) -> String {
    if hour <= 0.0 {
        "at the beginning".into()
    } else {
        format!("after {}", clock(hour))
    }
}

fn parts(day: &Day) -> Table {
    let rows = day.parts.iter().map(|p| {
        vec![
            p.what.clone(),
            clock(p.from_h),
            clock(p.to_h - p.from_h),
            p.supply.word().to_owned(),
            p.on.join(", "),
            figures(p.amps, 3),
            format!("{:.0}", p.charge * 100.0),
        ]
    });
    Table {
        columns: columns(&[
            ("what", L),
            ("from", R),
            ("for", R),
            ("supply", L),
            ("on", L),
            ("A into battery", R),
            ("% at its end", R),
        ]),
        rows: rows.collect(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sample() -> Day {
        let part = |what: &str, (from_h, to_h): (f64, f64), charge| study::DayPart {
            what: what.into(),
            supply: plan::SupplyState::Parked,
            from_h,
            to_h,
            on: Vec::new(),
            charge,
            amps: -5.0,
        };
        Day {
            parts: vec![
                part("pick", (0.0, 14.5), 0.55),
                part("drive home", (14.5, 15.0), 0.88),
            ],
            to: 0.88,
            lowest: (0.55, 14.5),
            no_start: vec![(14.5, "drive home".into())],
            cut_out: vec![(13.0, "fridge".into())],
            ..Day::from_full()
        }
    }

    #[test]
    fn the_lowest_charge_is_said_beside_what_must_be_left() {
        assert_eq!(
            lowest(&sample(), 0.6),
            "The battery is lowest after 14 h 30 min, at 55 %, below the 60 % that must be left. The day begins at 100 % and \
             ends at 88 %."
        );
        assert!(lowest(&sample(), 0.5).contains("where 50 % must be left"));
    }

    #[test]
    fn what_went_wrong_is_told_in_its_order() {
        let told = happened(&sample(), 0.6);
        assert_eq!(told[0], "after 13 h: the cut-out lets “fridge” go");
        assert_eq!(
            told[1],
            "after 14 h 30 min: “drive home” starts the engine with 55 %, below the 60 % that must be left; what follows \
             is reckoned as if it were jump-started"
        );
        assert!(happened(&sample(), 0.5)[1].contains("even a full battery does not start it"));
    }

    #[test]
    fn an_empty_battery_is_said_with_its_hour() {
        let mut day = sample();
        let cold = flat(&day, 19.667, -20.0);
        assert!(
            cold.contains(
                "after 19 h 40 min, with 55 % in it that can't be drawn at -20 °C: nothing"
            )
        );
        day.lowest.0 = 0.0;
        let warm = flat(&day, 19.667, 25.0);
        assert!(warm.starts_with("The battery is empty after 19 h 40 min: nothing runs"));
    }
}
