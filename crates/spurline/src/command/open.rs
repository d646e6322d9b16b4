//! `open`: the page, served on this machine only.

use crate::args::Open;
use crate::{Ended, files};

/// Runs it until it is interrupted.
pub fn run(a: &Open) -> Ended {
    let texts = crate::args::Texts {
        plan: a.texts.plan.clone(),
        stock: a.texts.stock.clone(),
    };
    // A plan with errors opens too: the page shows them, and follows the file as it is mended.
    let load = move || {
        let read = |p: &std::path::Path| {
            std::fs::read_to_string(p).map(|text| job::Source {
                name: p.display().to_string(),
                text,
            })
        };
        let plan = read(&texts.plan)
            .map_err(|e| format!("{} can't be read: {e}", texts.plan.display()))?;
        let stock = texts
            .stock
            .iter()
            .map(|p| read(p).map_err(|e| format!("{} can't be read: {e}", p.display())));
        Ok((plan, stock.collect::<Result<Vec<_>, String>>()?))
    };
    if files::read(&a.texts.plan).is_err() {
        return Ended::Unread;
    }
    match page::serve(a.port, load, |address| {
        anstream::println!("The page is at http://{address}/ (stop with Ctrl-C)")
    }) {
        Ok(()) => Ended::Well,
        Err(e) => {
            crate::show::complain(
                &format!("port {} can't be had: {e}", a.port),
                "say another with --port, or 0 for any that is free",
            );
            Ended::Unread
        }
    }
}
