//! What a change of the plan made of the sizes: wires and fuses that are others than before.

use crate::compare::Side;
use loom::PartKind;
use quantity::figures;
use std::collections::BTreeMap;

/// A wire or a fuse that is another than before.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Resized {
    /// Its name, as in both looms: "W1.3", "F2".
    pub name: String,
    /// What it was: "1.5 mm²", "10 A midi".
    pub was: String,
    /// What it is.
    pub is: String,
}

/// The wires, then the fuses, that both looms have between the same things and that are not the same in both.
pub fn resized(before: &Side, now: &Side) -> Vec<Resized> {
    let mut found = Vec::new();
    for of in [wires, fuses] {
        let was = of(before);
        for (name, is) in of(now) {
            match was.get(&name) {
                Some(was) if *was != is => found.push(Resized {
                    name: name.0,
                    was: was.clone(),
                    is,
                }),
                _ => {}
            }
        }
    }
    found
}

/// By name and what it joins: its size.
fn wires(s: &Side) -> BTreeMap<(String, String), String> {
    let one = |a: &crate::WireAnswer| {
        let w = s.loom.wire(a.wire);
        let ends = [w.from, w.to].map(|pin| s.loom.pin_name(pin));
        let size = s.stock.conductors[a.conductor].size.to_string();
        ((w.name.clone(), ends.join(" ")), size)
    };
    s.answers.wires.iter().map(one).collect()
}

fn fuses(s: &Side) -> BTreeMap<(String, String), String> {
    let one = |f: &crate::FuseAnswer| {
        let part = s.loom.part(f.part);
        let kind = &s.stock.fuses[f.kind].name;
        let is = format!("{} A {kind}", figures(f.rating_a, 3));
        ((part.name.clone(), part.label.clone()), is)
    };
    let fuse = |f: &&crate::FuseAnswer| matches!(s.loom.part(f.part).kind, PartKind::Fuse(_));
    s.answers.fuses.iter().filter(fuse).map(one).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Habits;
    use stock::Stock;

    fn told(lengths: [&str; 2]) -> Vec<Resized> {
        let stock = Stock::embedded();
        let farm = include_str!("../../../examples/farm.toml");
        let sides = lengths.map(|length| {
            let text = farm.replace("\"2.1 m\"", length);
            let (plan, _) = plan::Plan::read(&text);
            let plan = plan.expect("it reads");
            let (loom, _) = loom::build(&plan, &stock);
            let loom = loom.expect("it builds");
            let habits = Habits::of(&plan, &loom, &stock).quick();
            let answers = crate::study(&loom, &stock, &habits);
            (loom, habits, answers)
        });
        let [a, b] = sides.each_ref().map(|(loom, habits, answers)| Side {
            loom,
            stock: &stock,
            habits,
            answers,
        });
        resized(&a, &b)
    }

    #[test]
    fn a_longer_way_makes_thicker_wire_and_nothing_is_told_of_what_stays() {
        assert_eq!(told(["\"2.1 m\"", "\"2.1 m\""]), Vec::new());
        let longer = told(["\"2.1 m\"", "\"9 m\""]);
        let wire = longer
            .iter()
            .find(|r| r.name.starts_with('W'))
            .expect("a wire");
        assert!(
            wire.was.contains("mm²") && wire.was != wire.is,
            "{longer:?}"
        );
    }
}
