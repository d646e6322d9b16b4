//! A day of use: how low the battery falls and when, each part of the day, and what went wrong in it.

use crate::content::Align::{Left as L, Right as R};
use crate::content::{Block, Section, Table};
use crate::report::Subject;
use crate::tables::columns;
use crate::words::percent;
use quantity::{Quantity, figures, hours, trim_zeros};
use sheet::Sheet;
use study::{Day, SupplyAnswers};

const TITLE: &str = "A day of use";

/// The day, with its chart; or how to write one.
pub(super) fn day(s: &Subject, a: &SupplyAnswers, chart: Option<&Sheet>) -> Section {
    let Some(day) = &a.day else {
        return Section::of("day", TITLE, Block::Text(how_to(s)));
    };
    let mut blocks = vec![Block::Text(lowest(day, a.reserve.charge))];
    let happened = happened(day);
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
        hours(hour).show(),
        percent(charge),
        percent(day.to)
    )
}

/// Starts with too little left, and what cut out.
fn happened(day: &Day) -> Vec<String> {
    let starts = day.no_start.iter().map(|(hour, what)| {
        (
            *hour,
            format!(
                "{}: “{what}” begins with a start, and less is left than that needs",
                at(*hour)
            ),
        )
    });
    let cuts = day.cut_out.iter().map(|(hour, circuit)| {
        (
            *hour,
            format!("{}: the cut-out lets “{circuit}” go", at(*hour)),
        )
    });
    let mut all: Vec<(f64, String)> = starts.chain(cuts).collect();
    all.sort_by(|a, b| a.0.total_cmp(&b.0));
    all.into_iter().map(|(_, says)| says).collect()
}

fn at(hour: f64) -> String {
    if hour <= 0.0 {
        "at the beginning".into()
    } else {
        format!("after {}", hours(hour).show())
    }
}

fn parts(day: &Day) -> Table {
    let rows = day.parts.iter().map(|p| {
        vec![
            trim_zeros(&format!("{:.1}", p.from_h)),
            hours(p.to_h - p.from_h).show(),
            p.what.clone(),
            p.supply.word().to_owned(),
            p.on.join(", "),
            figures(p.amps, 3),
            format!("{:.0}", p.charge * 100.0),
        ]
    });
    Table {
        columns: columns(&[
            ("from hour", R),
            ("for", R),
            ("what", L),
            ("supply", L),
            ("switched on", L),
            ("A into the battery, on average", R),
            ("charge at its end, %", R),
        ]),
        rows: rows.collect(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn empty() -> Day {
        Day {
            parts: Vec::new(),
            points: Vec::new(),
            from: 1.0,
            to: 0.88,
            lowest: (0.55, 14.5),
            no_start: vec![(14.5, "drive home".into())],
            cut_out: vec![(13.0, "fridge".into())],
        }
    }

    #[test]
    fn the_lowest_charge_is_said_beside_what_must_be_left() {
        assert_eq!(
            lowest(&empty(), 0.6),
            "The battery is lowest after 14 h 30 min, at 55 %, below the 60 % that must be left. The day begins at 100 % and \
             ends at 88 %."
        );
        assert!(lowest(&empty(), 0.5).contains("where 50 % must be left"));
    }

    #[test]
    fn what_went_wrong_is_told_in_its_order() {
        let told = happened(&empty());
        assert_eq!(told[0], "after 13 h: the cut-out lets “fridge” go");
        assert!(told[1].starts_with("after 14 h 30 min: “drive home”"));
    }
}
