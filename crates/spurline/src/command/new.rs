//! `new`: a plan to start from.

use crate::args::New;
use crate::show::complain;
use crate::{Ended, files};

const START: &str = include_str!("start.toml");

/// Runs it.
pub fn run(a: &New) -> Ended {
    let text = match a.volts {
        12 => START.to_owned(),
        24 => START.replace("system     = \"12 V\"", "system     = \"24 V\""),
        _ => {
            complain(
                &format!("a {} V vehicle is not known", a.volts),
                "say --volts 12 or --volts 24",
            );
            return Ended::Unread;
        }
    };
    if let Err(e) = files::write(&a.plan, text.as_bytes(), files::Existing::Stays) {
        return e;
    }
    anstream::println!(
        "wrote {0}\nChange it to what you want, then: spurline check {0}",
        a.plan.display()
    );
    Ended::Well
}
