//! The outside's view of what was worked out: keys carry their unit, may be added to, never renamed. One command,
//! one file.

mod check;
mod compare;
mod lists;
mod prove;
mod supply;
mod tries;

pub use check::check;
pub use compare::compare;
pub use lists::lists;
pub use prove::prove;
pub use supply::supply;
pub use tries::{closely, tries};

use serde::Serialize;

#[derive(Serialize)]
struct FindingJson {
    id: String,
    weight: String,
    at: Vec<String>,
    says: String,
    mend: String,
    source: String,
}

#[derive(Serialize)]
struct AssumedJson {
    what: String,
    value: String,
    source: String,
    basis: String,
    set: String,
}

/// Figures that mean something: six significant, so that output stays the same to the byte between machines.
fn rounded(v: f64) -> f64 {
    if v == 0.0 || !v.is_finite() {
        return 0.0;
    }
    let scale = 10f64.powi(5 - v.abs().log10().floor() as i32);
    (v * scale).round() / scale
}

/// A part of a whole, as per cent.
fn percent(part: f64) -> f64 {
    rounded(part * 100.0)
}

/// A time, or nothing where it never ends.
fn ending(time: f64) -> Option<f64> {
    time.is_finite().then(|| rounded(time))
}

fn finding(f: &job::Finding) -> FindingJson {
    FindingJson {
        id: f.id.to_owned(),
        weight: f.weight.to_string(),
        at: f.names().to_vec(),
        says: f.says.clone(),
        mend: f.mend.clone(),
        source: f.source.clone(),
    }
}

fn assumed(a: &job::loom::Assumption) -> AssumedJson {
    AssumedJson {
        what: a.what.clone(),
        value: a.value.clone(),
        source: a.source.clone(),
        basis: a.basis.to_string(),
        set: a.set.clone(),
    }
}

/// Prints an object, or says that it can't.
pub fn print(value: &impl Serialize) {
    match serde_json::to_string_pretty(value) {
        Ok(text) => anstream::println!("{text}"),
        Err(e) => crate::show::complain(
            &format!("the answer can't be written as JSON: {e}"),
            "report this as a defect",
        ),
    }
}
