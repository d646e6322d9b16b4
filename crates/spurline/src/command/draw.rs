//! `draw`: every drawing, one SVG a sheet.

use super::{ended, write_into};
use crate::args::Draw;
use crate::show::under_way;
use crate::{Ended, files};
use job::sheet::Sheet;

/// Runs it.
pub fn run(a: &Draw) -> Ended {
    drawn(a).unwrap_or_else(|e| e)
}

fn drawn(a: &Draw) -> Result<Ended, Ended> {
    under_way("working out the loom");
    let job = files::job(&a.texts)?;
    if job.lists().is_none() {
        return Err(Ended::Unread);
    }
    under_way("drawing");
    let mut sheets = job.drawings();
    if a.full_size {
        sheets.extend(job.board_full_size(a.paper.into()));
    }
    write_into(&job, &a.writing, "drawings", &svgs(sheets))?;
    Ok(ended(&job))
}

/// Sheets as files.
pub(super) fn svgs(sheets: Vec<Sheet>) -> Vec<(String, Vec<u8>)> {
    let file = |s: Sheet| (format!("{}.svg", s.name), s.svg.into_bytes());
    sheets.into_iter().map(file).collect()
}
