//! `draw`: the circuit diagram, one SVG a sheet.

use super::{ended, write_into};
use crate::args::Draw;
use crate::{Ended, files};

/// Runs it.
pub fn run(a: &Draw) -> Ended {
    drawn(a).unwrap_or_else(|e| e)
}

fn drawn(a: &Draw) -> Result<Ended, Ended> {
    let job = files::job(&a.texts)?;
    let sheets = job.drawings();
    let named: Vec<(String, Vec<u8>)> = sheets
        .into_iter()
        .map(|s| (format!("{}.svg", s.name), s.svg.into_bytes()))
        .collect();
    write_into(&job, &a.writing, "drawings", &named)?;
    Ok(ended(&job))
}
