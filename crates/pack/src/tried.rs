//! Which states were tried, in a sentence or two: how many out of how many, and how they were chosen.

use crate::words::counted;
use finding::joined;
use plan::SupplyState;
use quantity::figures;
use study::{Answers, Tried};

/// From so many on, a count is told in millions.
const MANY: f64 = 1e6;

/// "States: 20 of 20 were tried, …".
pub(crate) fn says(a: &Answers) -> String {
    let there = |s: &SupplyState| a.states.iter().any(|x| x.state.supply == *s);
    let supplies: Vec<SupplyState> = SupplyState::ALL.into_iter().filter(there).collect();
    format!(
        "States: {}. Each earth, wire and connector was also lost, one at a time.",
        chosen(&a.tried, &supplies)
    )
}

/// "in all five supply states (parked, key on, …)".
fn supplied(supplies: &[SupplyState]) -> String {
    let words: Vec<&str> = supplies.iter().map(|s| s.word()).collect();
    let many = match words.len() {
        5 => "all five supply states",
        4 => "four supply states",
        _ => "the supply states that come about",
    };
    format!("in {many} ({})", words.join(", "))
}

fn chosen(t: &Tried, supplies: &[SupplyState]) -> String {
    let of = if t.all < MANY {
        format!("{:.0}", t.all)
    } else {
        format!("some {} million", figures(t.all / MANY, 3))
    };
    let how = if t.whole {
        let switches = counted(t.switches, "switch", "switches");
        let signals = match t.signals {
            0 => None,
            n => Some(counted(
                n,
                "signal of the vehicle",
                "signals of the vehicle",
            )),
        };
        let turned: Vec<&str> = [Some(&switches), signals.as_ref()]
            .into_iter()
            .flatten()
            .map(String::as_str)
            .collect();
        let rest = match (t.states as f64) < t.all {
            true => ", the rest can't come about",
            false => "",
        };
        format!("every combination of {}{rest}", joined(&turned))
    } else {
        let pairs = match t.pairs {
            0 => "no two share a wire or an earth".to_owned(),
            1 => "and the 1 pair that shares a wire or an earth".to_owned(),
            n => format!("and the {n} pairs that share a wire or an earth"),
        };
        format!("all off, each alone, all on, each off alone, {pairs}")
    };
    format!(
        "{} of {of} were tried, {}: {how}",
        t.states,
        supplied(supplies)
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    fn tried() -> Tried {
        Tried {
            switches: 2,
            signals: 1,
            all: 40.0,
            states: 36,
            whole: true,
            pairs: 1,
        }
    }

    #[test]
    fn a_whole_try_and_a_chosen_one_are_told_apart() {
        let chosen = |t: &Tried| chosen(t, &SupplyState::ALL);
        assert!(
            chosen(&tried()).starts_with("36 of 40 were tried, in all five supply states (parked")
        );
        assert!(chosen(&tried()).ends_with(
            "every combination of 2 switches and 1 signal of the vehicle, the rest can't come about"
        ));
        let many = Tried {
            switches: 24,
            all: 5.0 * 2f64.powi(25),
            states: 600,
            whole: false,
            pairs: 12,
            ..tried()
        };
        assert!(chosen(&many).starts_with("600 of some 168 million were tried"));
        assert!(chosen(&many).ends_with("and the 12 pairs that share a wire or an earth"));
    }

    #[test]
    fn supply_states_that_were_not_tried_are_not_named() {
        let four = &SupplyState::ALL[..4];
        assert_eq!(
            supplied(four),
            "in four supply states (parked, key on, idling, driving)"
        );
    }
}
