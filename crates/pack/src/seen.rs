//! What each load sees over all states that were tried: its usual, its fewest and its most volts, with the
//! state that gives them. As a table of the report, and as the three lines of one load's reason.

use crate::content::Align::{Left as L, Right as R};
use crate::content::Table;
use crate::report::Subject;
use crate::tables::columns;
use quantity::figures;
use study::{LoadAnswer, Sight};

/// In this order wherever they are told.
const WORDS: [&str; 3] = ["usually", "at least", "at most"];

fn sights(l: &LoadAnswer) -> Option<[Sight; 3]> {
    l.seen.map(|seen| [seen.usual, seen.worst, seen.best])
}

fn state<'a>(s: &'a Subject, sight: &Sight) -> &'a str {
    &s.answers.states[sight.state].state.name
}

/// Every load.
pub(crate) fn table(s: &Subject) -> Table {
    let rows = s.answers.loads.iter().map(|l| {
        let mut row = vec![s.loom.part(l.part).name.clone()];
        match sights(l) {
            Some(three) => {
                for sight in &three {
                    row.push(format!("{:.2}", sight.volts));
                    row.push(state(s, sight).to_owned());
                }
            }
            None => {
                row.extend(["–", "no state asks for it", "–", "", "–", ""].map(str::to_owned));
            }
        }
        row
    });
    Table {
        columns: columns(&[
            ("load", L),
            ("usual V", R),
            ("when", L),
            ("least V", R),
            ("when", L),
            ("most V", R),
            ("when", L),
        ]),
        rows: rows.collect(),
    }
}

/// One load's three lines.
pub(crate) fn lines(s: &Subject, l: &LoadAnswer) -> Vec<String> {
    let Some(three) = sights(l) else {
        return vec!["no state that was tried asks for it".into()];
    };
    let told = three.iter().zip(WORDS).map(|(sight, word)| {
        format!(
            "{word} {:.2} V, with {} A ({})",
            sight.volts,
            figures(sight.amps, 3),
            state(s, sight)
        )
    });
    told.collect()
}
