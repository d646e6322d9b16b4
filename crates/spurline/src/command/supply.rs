//! `supply`: how long things run with the engine off, how long the vehicle may stand, what the alternator
//! leaves, a day of use.

use super::{ended, write_all};
use crate::args::Supply;
use crate::show::{self, complain};
use crate::{Ended, files, json};
use job::{Job, SupplyAnswers};
use quantity::ThermodynamicTemperature;
use std::path::Path;

/// Runs it.
pub fn run(a: &Supply) -> Ended {
    supplied(a).unwrap_or_else(|e| e)
}

fn supplied(a: &Supply) -> Result<Ended, Ended> {
    let at = temperature(&a.battery_at)?;
    let job = files::job(&a.texts)?;
    let (Some(answers), Some(loom)) = (job.supply(at), job.loom()) else {
        return Err(Ended::Unread);
    };
    let answers = answers.map_err(|amiss| {
        complain(&amiss.says(loom), job::study::UNSOLVED_MEND);
        Ended::Stops
    })?;
    let written = match &a.into {
        Some(folder) => written(&job, &answers, folder, a.replace)?,
        None => Vec::new(),
    };
    if a.json {
        json::print(&json::supply(loom, &answers, written));
        return Ok(ended(&job));
    }
    // A terminal shows no chart.
    if let Some(content) = job.supply_report(&answers, None) {
        anstream::print!("{}", show::content(&content));
    }
    for file in written {
        anstream::println!("wrote {file}");
    }
    Ok(ended(&job))
}

/// The temperature as typed, or what to type.
fn temperature(text: &str) -> Result<ThermodynamicTemperature, Ended> {
    let read = quantity::read::<ThermodynamicTemperature>(text);
    let read = read.and_then(|t| quantity::bounds::BATTERY_HEAT.check(t));
    read.map_err(|e| {
        complain(&format!("--battery-at: {}", e.what), &e.mend);
        Ended::Unread
    })
}

/// Writes the page, and the chart if the plan has a day; gives their paths.
fn written(
    job: &Job,
    answers: &SupplyAnswers,
    folder: &Path,
    replace: bool,
) -> Result<Vec<String>, Ended> {
    let chart = job.day_chart(answers);
    let Some(content) = job.supply_report(answers, chart.as_ref()) else {
        return Err(Ended::Unread);
    };
    let page = job::pack::page(&content).into_bytes();
    let mut named = vec![("supply.html".to_owned(), page)];
    named.extend(chart.map(|sheet| ("day.svg".to_owned(), sheet.svg.into_bytes())));
    write_all(folder, replace, &named)
}
