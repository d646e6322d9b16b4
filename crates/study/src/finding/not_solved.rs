//! A network that could not be solved.

use super::About;
use crate::amiss::{Amiss, Trouble, UNSOLVED_MEND};
use crate::answers::Answers;
use crate::design::Design;
use finding::{Finding, Weight};

pub(super) const ABOUT: About = About {
    id: "not-solved",
    weight: Weight::Stop,
    asks: "Could every state be solved?",
    source: "Kirchhoff's current law at every node to one part in 10⁹",
    find,
};

fn find(d: &Design, answers: &Answers) -> Vec<Finding> {
    let failed = answers.states.iter().filter_map(|s| {
        let why = s.settled.failure.as_ref()?;
        let name = &s.state.name;
        let says = format!(
            "“{name}” has no steady answer: {why}; its currents and temperatures below are not to be used"
        );
        Some((name, says))
    });
    let unsolved = |a: &&Amiss| matches!(a.trouble, Trouble::Unsolved(_));
    let beside = answers.amiss.iter().filter(unsolved).map(|a| {
        let says = format!("{}; what is on there is not known", a.says(d.loom));
        (&a.state, says)
    });
    let told = |failed: Vec<(&String, String)>| {
        let more = match failed.len() {
            0 | 1 => String::new(),
            n => format!("; so have {} more", n - 1),
        };
        let (name, says) = failed.into_iter().next()?;
        Some(ABOUT.at([name.clone()], says + &more, UNSOLVED_MEND))
    };
    let both = [told(failed.collect()), told(beside.collect())];
    both.into_iter().flatten().collect()
}

#[cfg(test)]
mod tests {
    use super::super::by_hand::studied_farm;
    use super::*;
    use crate::{Beside, Lost};

    /// No plan is known whose network the solver gives up on, so a failure is put in by hand.
    #[test]
    fn a_state_that_failed_stops_and_one_that_did_not_says_nothing() {
        studied_farm(|design, answers| {
            assert_eq!(find(design, answers), []);
            answers.states[1].settled.failure = Some("no balance".into());
            let found = find(design, answers);
            assert_eq!(found.len(), 1);
            assert_eq!(found[0].weight, Weight::Stop);
            assert_eq!(found[0].names(), [answers.states[1].state.name.clone()]);
        });
    }

    #[test]
    fn a_loss_that_failed_stops_beside_it() {
        studied_farm(|design, answers| {
            let wire = loom::WireId(0);
            answers.amiss.push(Amiss {
                state: "parked".into(),
                beside: Beside::Lost(Lost::Wire(wire)),
                trouble: Trouble::Unsolved("no balance".into()),
            });
            let found = find(design, answers);
            assert_eq!(found.len(), 1);
            let with = Lost::Wire(wire).says(design.loom);
            let says = format!("“parked” {with} has no steady answer: no balance");
            assert!(found[0].says.starts_with(&says), "{}", found[0].says);
        });
    }
}
