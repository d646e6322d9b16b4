//! `open`: the page, served on this machine only.

use crate::args::Open;
use crate::shelf::Files;
use crate::{Ended, files};

/// Runs it until it is interrupted.
pub fn run(a: &Open) -> Ended {
    // A plan with errors opens too: the page shows them, and follows the file as it is mended.
    let texts = crate::args::Texts {
        plan: a.texts.plan.clone(),
        stock: a.texts.stock.clone(),
    };
    if files::read(&a.texts.plan).is_err() {
        return Ended::Unread;
    }
    match page::serve(a.port, Files::new(texts), |address| {
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
