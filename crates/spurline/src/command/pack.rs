//! `pack`: the documents that go to the vehicle: a PDF, the same as one page for a phone, the drawings.

use super::draw::svgs;
use super::{ended, write_into};
use crate::args::Pack;
use crate::show::under_way;
use crate::{Ended, files};
use job::pack::PARTS;

/// Runs it.
pub fn run(a: &Pack) -> Ended {
    packed(a).unwrap_or_else(|e| e)
}

fn packed(a: &Pack) -> Result<Ended, Ended> {
    under_way("working out the loom");
    let job = files::job(&a.texts)?;
    let parts = match &a.only[..] {
        [] => &PARTS[..],
        only => only,
    };
    under_way("drawing");
    let Some(content) = job.whole(parts, a.paper.into(), a.date.as_deref()) else {
        return Err(Ended::Unread);
    };
    let mut documents = vec![(
        "pack.html".to_owned(),
        job::pack::page(&content).into_bytes(),
    )];
    #[cfg(feature = "pdf")]
    if !a.html {
        under_way("typesetting");
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
    }
    if !a.html && a.only.is_empty() {
        documents.extend(svgs(job.drawings()));
    }
    write_into(&job, &a.writing, "pack", &documents)?;
    if cfg!(not(feature = "pdf")) && !a.html && !a.writing.json {
        anstream::eprintln!(
            "No PDF: this build was made without the feature `pdf`. Print pack.html instead."
        );
    }
    Ok(ended(&job))
}
