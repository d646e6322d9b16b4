//! A loom that is built otherwise than its plan says: a sneak path with nothing lost. No plan gives one,
//! since the loom follows from the plan; a slip of the hand does.

use crate::{Direction, Habits, Lost, Piece, study};
use finding::Weight;
use plan::Plan;
use stock::Stock;

/// The farm's pump, with its earth wire put onto a lamp's live terminal.
#[test]
fn a_pump_earthed_to_a_lamp_is_found_with_its_path() {
    let stock = Stock::embedded();
    let (plan, _) = Plan::read(include_str!("../../../../examples/farm.toml"));
    let plan = plan.expect("the example reads");
    let (loom, _) = loom::build(&plan, &stock);
    let mut loom = loom.expect("the example builds");
    let habits = Habits::of(&plan, &loom, &stock);
    assert!(
        study(&loom, &stock, &habits)
            .sneaks
            .iter()
            .all(|s| s.lost != Lost::Nothing)
    );

    let lamp = loom.part_named("E1.1").expect("it has rack lamps");
    let pump = loom.part_named("M2").expect("it has a pump");
    let (back, live) = (loom.part(pump).pins[1], loom.part(lamp).pins[0]);
    let wires_back = |w: &&mut loom::Wire| w.to == back || w.from == back;
    let plugged = loom
        .mates
        .iter()
        .find(|m| m.far == back || m.live == back)
        .copied();
    let end = plugged.map_or(back, |m| if m.far == back { m.live } else { m.far });
    let wire = loom
        .wires
        .iter_mut()
        .find(|w| wires_back(w) || w.from == end);
    let wire = wire.expect("the pump is earthed");
    wire.to = live;

    let answers = study(&loom, &stock, &habits);
    let sneak = answers
        .sneaks
        .iter()
        .find(|s| s.lost == Lost::Nothing && s.on == lamp)
        .expect("the lamp glows though only the pump is on");
    let step = sneak.path.iter().find(|s| s.through == Piece::Load(pump));
    assert_eq!(step.map(|s| s.way), Some(Direction::Forwards));
    assert!(sneak.path.iter().any(|s| s.through == Piece::Load(lamp)));
    let told = answers.findings.iter().find(|f| f.id == "sneak-path");
    let told = told.expect("it is a finding");
    assert_eq!(told.weight, Weight::Stop);
    assert!(told.says.contains("M2 (transfer pump)"), "{}", told.says);
}
