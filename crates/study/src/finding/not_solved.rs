//! A network that could not be solved.

use super::About;
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

fn find(_: &Design, answers: &Answers) -> Vec<Finding> {
    let failed = answers
        .states
        .iter()
        .filter_map(|s| Some((s, s.settled.failure.as_ref()?)));
    let failed: Vec<_> = failed.collect();
    let more = match failed.len() {
        0 | 1 => String::new(),
        n => format!("; so have {} more states", n - 1),
    };
    failed
        .first()
        .map(|(s, why)| {
            ABOUT.at(
                [s.state.name.clone()],
                format!("“{}” has no steady answer: {why}; its currents and temperatures below are not to be used{more}", s.state.name),
                "a load may ask for more power than its wires can pass: check its rating, its length and the wire sizes set by hand",
            )
        })
        .into_iter()
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Habits, study};
    use plan::Plan;
    use stock::Stock;

    /// No plan is known whose network the solver gives up on, so a failure is put in by hand.
    #[test]
    fn a_state_that_failed_stops_and_one_that_did_not_says_nothing() {
        let stock = Stock::embedded();
        let (plan, _) = Plan::read(include_str!("../../../../examples/farm.toml"));
        let plan = plan.expect("the example reads");
        let (loom, _) = loom::build(&plan, &stock);
        let loom = loom.expect("the example builds");
        let habits = Habits::of(&plan);
        let design = Design::new(&loom, &stock, &habits);
        let mut answers = study(&loom, &stock, &habits);
        assert_eq!(find(&design, &answers), []);
        answers.states[1].settled.failure = Some("no balance".into());
        let found = find(&design, &answers);
        assert_eq!(found.len(), 1);
        assert_eq!(found[0].weight, Weight::Stop);
        assert_eq!(found[0].names(), [answers.states[1].state.name.clone()]);
    }
}
