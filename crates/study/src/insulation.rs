//! Which insulation all wires get, where the plan leaves it open: each that the wire family has is sized with, and the one that
//! breaks fewest rules and then is best by the plan's aim is taken.

use crate::combine;
use crate::design::{Design, Habits};
use crate::size::{self, Weighed};
use loom::Loom;
use plan::{Aim, Plan};
use stock::Stock;

/// An insulation that was sized with.
#[derive(Clone, Debug, PartialEq)]
pub struct Insulated {
    /// By stock name.
    pub name: String,
    /// How many rules no size of it keeps.
    pub broken: usize,
    /// What its sizes come to.
    pub weighed: Weighed,
}

impl Habits {
    /// From the plan's `[job]`, for its loom. Where the plan leaves the insulation open, the loom is sized with each.
    pub fn of(plan: &Plan, loom: &Loom, stock: &Stock) -> Self {
        Self::settle(Self::said(plan), loom, stock)
    }

    /// The same for an answer at once: the first sizes that hold, in the few states that mostly tell.
    pub fn at_once(plan: &Plan, loom: &Loom, stock: &Stock) -> Self {
        let said = Self {
            survey: false,
            ..Self::said(plan).quick()
        };
        Self::settle(said, loom, stock)
    }

    fn settle(said: Self, loom: &Loom, stock: &Stock) -> Self {
        match said.any_insulation {
            true => settled(loom, stock, &said),
            false => said,
        }
    }
}

fn settled(loom: &Loom, stock: &Stock, habits: &Habits) -> Habits {
    let mut names: Vec<&str> = Vec::new();
    let family = habits.stock_family();
    for c in stock.conductors.iter().filter(|c| c.family == family) {
        if !names.contains(&c.insulation.as_str()) {
            names.push(&c.insulation);
        }
    }
    let with = |name: &str| Habits {
        insulation: Some(name.to_owned()),
        any_insulation: false,
        ..habits.clone()
    };
    let mut tried: Vec<Insulated> = names.iter().map(|n| sized(loom, stock, &with(n))).collect();
    let value = |i: &Insulated| match habits.aim {
        Aim::Cost => [i.weighed.money, 0.0],
        Aim::Mass => [i.weighed.kilograms, i.weighed.money],
        Aim::Kinds => [i.weighed.kinds as f64, i.weighed.money],
    };
    tried.sort_by(|a, b| {
        let by_value = value(a).partial_cmp(&value(b));
        let by_value = by_value.unwrap_or(std::cmp::Ordering::Equal);
        a.broken.cmp(&b.broken).then(by_value)
    });
    Habits {
        insulations: tried.clone(),
        ..with(&tried[0].name)
    }
}

fn sized(loom: &Loom, stock: &Stock, habits: &Habits) -> Insulated {
    let mut design = Design::new(loom, stock, habits);
    let states = combine::to_size(loom);
    let rough = size::rough(&mut design, &states);
    let mut nodes = size::nodes(loom.wires.len());
    let (settled, sizing) = size::best(&mut design, &states, rough, &mut nodes);
    let verdicts = loom.each_wire().flat_map(|(wire, _)| {
        size::judge(&size::Case {
            design: &design,
            settled: &settled,
            wire,
            conductor: design.conductor(wire),
            quiet: true,
        })
    });
    Insulated {
        name: habits.insulation.clone().unwrap_or_default(),
        broken: verdicts.filter(|v| !v.holds()).count(),
        weighed: sizing.found,
    }
}
