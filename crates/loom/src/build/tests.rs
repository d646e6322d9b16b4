//! Looms of small plans, and what stops one.

use super::build;
use crate::Loom;
use plan::Plan;
use stock::Stock;

fn loom(text: &str) -> Loom {
    let (plan, errors) = Plan::read(text);
    assert_eq!(errors, []);
    let (loom, errors) = build(&plan.unwrap(), &Stock::embedded());
    assert!(loom.is_some(), "{errors:?}");
    loom.unwrap()
}

/// A loom as lines, for snapshots: parts, then wires.
fn told(loom: &Loom) -> String {
    let mut out = String::new();
    for p in &loom.parts {
        let pins: Vec<_> = p
            .pins
            .iter()
            .map(|id| loom.pin(*id).terminal.as_str())
            .collect();
        out += &format!(
            "{} [{}] {} at {}\n",
            p.name,
            pins.join(" "),
            p.label,
            loom.place(p.place).name
        );
    }
    for w in &loom.wires {
        let places: Vec<_> = w
            .places
            .iter()
            .map(|p| loom.place(*p).name.as_str())
            .collect();
        out += &format!(
            "{} {} > {} {:?} {} {:.2} m by {}\n",
            w.name,
            loom.pin_name(w.from),
            loom.pin_name(w.to),
            w.role,
            w.colour,
            quantity::Quantity::si(w.cut),
            places.join(", ")
        );
    }
    out
}

#[test]
fn farm() {
    insta::assert_snapshot!(told(&loom(include_str!("../../../../examples/farm.toml"))));
}
