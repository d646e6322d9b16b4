//! What a cut-out is set to, what it carries, and what it stands at.

use crate::report::Subject;
use crate::words::{amps, volts};
use loom::{CutoutPart, PartId};
use quantity::Quantity;
use study::StateAnswer;

/// Its two voltages, the most that it carries, and its input in the usual state.
pub(super) fn lines(s: &Subject, id: PartId, c: &CutoutPart) -> Vec<String> {
    let mut told = vec![format!(
        "it lets go when its input falls below {}, and lets in again above {}",
        c.opens.show(),
        c.closes.show()
    )];
    told.push(carries(s, id, c));
    if let Some(state) = usual(s, id) {
        let at = across(s, id, state);
        let lets = if state.settled.energised[id.0 as usize] {
            "it lets current through"
        } else {
            "it has let go"
        };
        told.push(format!(
            "usually its input stands at {} ({}): {lets}",
            volts(at),
            state.state.name
        ));
    }
    told.push(format!("it draws {} itself", amps(c.draws.si())));
    told
}

/// "it carries 10.2 A at most (driving, everything on); it may carry 20 A".
fn carries(s: &Subject, id: PartId, c: &CutoutPart) -> String {
    let current = |a: &StateAnswer| a.settled.part_amps[id.0 as usize].abs();
    let states = s.answers.states.iter().enumerate();
    // Of equals the first is the one that is told.
    let most = states.max_by(|(i, a), (j, b)| current(a).total_cmp(&current(b)).then(j.cmp(i)));
    let carried = most.map_or_else(String::new, |(_, m)| {
        let amps = amps(current(m));
        format!("it carries {amps} at most ({})", m.state.name)
    });
    match &c.rating {
        Some(rating) => format!(
            "{carried}; the plan says that it may carry {}",
            rating.show()
        ),
        None => format!(
            "{carried}; the plan does not say what it may carry: add rating = \"20 A\" to it"
        ),
    }
}

/// The state in which its first load is as it usually is.
fn usual<'a>(s: &Subject<'a>, id: PartId) -> Option<&'a StateAnswer> {
    let circuit = s.loom.circuits.iter().find(|c| c.cutout == Some(id))?;
    let of = |a: &&study::LoadAnswer| circuit.loads.contains(&a.part);
    let seen = s.answers.loads.iter().find(of)?.seen?;
    s.answers.states.get(seen.usual.state)
}

/// The voltage that it measures: its input against its own earth.
fn across(s: &Subject, id: PartId, a: &StateAnswer) -> f64 {
    let pins = &s.loom.part(id).pins;
    a.settled.across(pins[0], pins[2])
}
