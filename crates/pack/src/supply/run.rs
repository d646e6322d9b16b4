//! How long: with the engine off and things on, and with everything off.

use super::starts_engine;
use crate::content::Align::{Left as L, Right as R};
use crate::content::{Block, Section, Table};
use crate::report::Subject;
use crate::tables::columns;
use crate::words::{amps, capital, degrees, duration, percent, several};
use plan::SupplyState;
use quantity::figures;
use study::{Endurance, ReserveRule, RunEnd, SupplyAnswers};

/// How long things run with the engine off.
pub(super) fn endurance(s: &Subject, a: &SupplyAnswers) -> Section {
    let mut blocks = Vec::new();
    match a.endurance.first() {
        None => blocks.push(Block::Text(
            "Nothing of this plan runs with the engine off.".into(),
        )),
        Some(first) => {
            blocks.push(Block::Text(runs(s, a, first)));
            blocks.push(Block::Table(table(s, a)));
            blocks.push(Block::Text(
                "Each begins with a full battery. The current is the mean over the run, with the vehicle's own draw; \
                 what switches itself on and off counts with its mean."
                    .into(),
            ));
        }
    }
    Section {
        id: "engine-off",
        title: "How long things run with the engine off".into(),
        blocks,
    }
}

/// "The fridge runs for 19 h (from a full battery down to 60 %, drawing 2.1 A, …)".
fn runs(s: &Subject, a: &SupplyAnswers, e: &Endurance) -> String {
    let it = thing(&e.what);
    let many = several(&e.what);
    let run = if many { "run" } else { "runs" };
    let with = format!(
        "drawing {} on average, battery at {}",
        amps(e.amps),
        degrees(a.celsius)
    );
    match e.end {
        RunEnd::AtOnce => format!(
            "{it} can't run with the engine off: even a full battery has less than must be left in it."
        ),
        RunEnd::Never => format!(
            "{it} {run} for {}: next to nothing is drawn.",
            duration(e.hours)
        ),
        RunEnd::Reserve => format!(
            "{it} {run} for {} (from a full battery down to {}, {with}).",
            duration(e.hours),
            percent(e.to_charge)
        ),
        RunEnd::TooLow(load) => {
            let load = s.loom.part(load);
            format!(
                "{it} {run} for {}, until {} ({}) gets less than it works at (from a full battery down to {}, {with}).",
                duration(e.hours),
                load.name,
                load.label,
                percent(e.to_charge)
            )
        }
        RunEnd::CutOut(part) => {
            let cut = &s.loom.part(part).name;
            let them = if many { "them" } else { "it" };
            if e.hours == 0.0 {
                return format!(
                    "{it} can't run with the engine off: the cut-out {cut} lets go at once."
                );
            }
            format!(
                "{it} {run} for {}, until the cut-out {cut} lets {them} go (from a full battery down to {}, {with}).",
                duration(e.hours),
                percent(e.to_charge)
            )
        }
    }
}

/// "The fridge", "Everything".
fn thing(what: &str) -> String {
    if what == "everything" {
        capital(what)
    } else {
        format!("The {what}")
    }
}

fn table(s: &Subject, a: &SupplyAnswers) -> Table {
    let rows = a.endurance.iter().map(|e| {
        let key = match e.supply {
            SupplyState::KeyOn => "on",
            _ => "out",
        };
        vec![
            e.what.clone(),
            match e.hours {
                0.0 => "not at all".into(),
                h => duration(h),
            },
            figures(e.amps, 3),
            key.to_owned(),
            ends(s, a, e),
        ]
    });
    Table {
        columns: columns(&[
            ("what is on", L),
            ("runs for", R),
            ("A, mean", R),
            ("key", L),
            ("ends because", L),
        ]),
        rows: rows.collect(),
    }
}

/// What ends a run.
fn ends(s: &Subject, a: &SupplyAnswers, e: &Endurance) -> String {
    let left = percent(e.to_charge);
    match e.end {
        RunEnd::CutOut(part) => {
            format!("the cut-out {} lets go, at {left}", s.loom.part(part).name)
        }
        RunEnd::TooLow(load) => {
            let load = &s.loom.part(load).name;
            format!("{load} gets less than it works at, at {left}")
        }
        RunEnd::AtOnce => "even a full battery has less than must be left".into(),
        RunEnd::Never => "nothing ends it".into(),
        RunEnd::Reserve => match a.reserve.rule {
            ReserveRule::Said => format!("{left} is left, which the plan keeps for starting"),
            ReserveRule::Starter => format!(
                "{left} is left, which the starter needs at {}",
                degrees(a.celsius)
            ),
            ReserveRule::Practice => {
                format!("{left} is left, below which engines begin not to start")
            }
            ReserveRule::Wear => format!("{left} is left, below which the battery wears out"),
            ReserveRule::Never => "even a full battery does not start the engine".into(),
        },
    }
}

/// The vehicle left standing.
pub(super) fn parked(a: &SupplyAnswers) -> Section {
    let p = &a.parked;
    let left = percent(a.reserve.charge);
    let hours = p.days * 24.0;
    let from = format!(
        "(from a full battery down to {left}, every switch off, battery at {})",
        degrees(a.celsius)
    );
    let says = match (a.reserve.rule, starts_engine(a)) {
        (ReserveRule::Never, _) => format!(
            "At {} even a full battery does not start the engine, however short the vehicle stands.",
            degrees(a.celsius)
        ),
        (_, true) => format!("It still starts after {} {from}.", duration(hours)),
        (_, false) => format!("It may stand for {} {from}.", duration(hours)),
    };
    let mut says = vec![says];
    if let Some(days) = p
        .days_without
        .filter(|_| a.reserve.rule != ReserveRule::Never)
    {
        says.push(format!(
            "With what is always live switched off or unplugged: {}.",
            duration(days * 24.0)
        ));
    }
    let parts = vec![
        format!("the vehicle itself draws {}", amps(p.vehicle_a)),
        format!("what is added draws {}, every switch off", amps(p.added_a)),
        format!("the battery loses {} by itself", amps(p.self_a)),
    ];
    Section {
        id: "standing",
        title: "The vehicle left standing".into(),
        blocks: vec![Block::Text(says.join(" ")), Block::List(parts)],
    }
}
