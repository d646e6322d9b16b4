//! For tests of findings that no plan is known to bring about: a studied loom whose answers a test changes by hand.

use crate::answers::Answers;
use crate::design::Design;
use crate::{Habits, study};
use plan::Plan;
use stock::Stock;

/// Hands over the farm's design and answers.
pub(crate) fn studied_farm(test: impl FnOnce(&Design, &mut Answers)) {
    let stock = Stock::embedded();
    let (plan, _) = Plan::read(include_str!("../../../../examples/farm.toml"));
    let plan = plan.expect("the example reads");
    let (loom, _) = loom::build(&plan, &stock);
    let loom = loom.expect("the example builds");
    let habits = Habits::of(&plan, &loom, &stock);
    let mut answers = study(&loom, &stock, &habits);
    test(&Design::new(&loom, &stock, &habits), &mut answers);
}
