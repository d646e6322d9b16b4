//! `pack`: the documents that go to the vehicle: a PDF, the same as one page of HTML, the drawings.

use super::{ended, write_into};
use crate::args::Pack;
use crate::{Ended, files};

/// Runs it.
pub fn run(a: &Pack) -> Ended {
    packed(a).unwrap_or_else(|e| e)
}

fn packed(a: &Pack) -> Result<Ended, Ended> {
    let job = files::job(&a.texts)?;
    let Some(content) = job.report(true) else {
        return Err(Ended::Unread);
    };
    let mut documents = vec![(
        "pack.html".to_owned(),
        job::pack::page(&content).into_bytes(),
    )];
    #[cfg(feature = "pdf")]
    match job::pack::pdf(&content) {
        Ok(bytes) => documents.push(("pack.pdf".to_owned(), bytes)),
        Err(e) => {
            crate::show::complain(
                &e.to_string(),
                "report this as a defect; the HTML page holds the same",
            );
            return Err(Ended::Unread);
        }
    }
    let drawings = job
        .drawings()
        .into_iter()
        .map(|s| (format!("{}.svg", s.name), s.svg.into_bytes()));
    documents.extend(drawings);
    write_into(&job, &a.writing, "pack", &documents)?;
    if cfg!(not(feature = "pdf")) && !a.writing.json {
        anstream::eprintln!(
            "No PDF: this build was made without the feature `pdf`. Print pack.html instead."
        );
    }
    Ok(ended(&job))
}
