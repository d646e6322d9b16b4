//! Names that refer to nothing, names given twice: every one, with the nearest known.

use crate::{Circuit, Name, Plan, Source};
use finding::{Finding, nearest};

/// The feed that every vehicle has, and the earth that is a wire back to it.
pub(crate) const BATTERY: &str = "battery";

/// What a name may refer to.
struct Known<'a> {
    what: &'static str,
    names: Vec<&'a str>,
}

impl<'a> Known<'a> {
    fn new(what: &'static str, names: impl Iterator<Item = &'a Name>) -> Self {
        Self {
            what,
            names: names.map(|n| n.value.as_str()).collect(),
        }
    }

    fn check(&self, name: &Name, errors: &mut Vec<Finding>) {
        if self.names.contains(&name.value.as_str()) {
            return;
        }
        let list = if self.names.is_empty() {
            format!("the plan has no {} yet", self.what)
        } else {
            format!(
                "the plan knows {}",
                self.names
                    .iter()
                    .map(|n| format!("“{n}”"))
                    .collect::<Vec<_>>()
                    .join(", ")
            )
        };
        let mend = match nearest(&name.value, self.names.iter().copied()) {
            Some(near) => format!("did you mean “{near}”? {list}"),
            None => format!("{list}: add it, or mend the name"),
        };
        errors.push(Finding::error(
            "unknown-name",
            name.span,
            format!("there is no {} “{}”", self.what, name.value),
            mend,
        ));
    }
}

fn twice<'a>(what: &str, names: impl Iterator<Item = &'a Name>, errors: &mut Vec<Finding>) {
    let mut seen: Vec<&str> = Vec::new();
    for name in names {
        if seen.contains(&name.value.as_str()) {
            errors.push(Finding::error(
                "name-twice",
                name.span,
                format!("there are two {what} called “{}”", name.value),
                "give each its own name",
            ));
        }
        seen.push(&name.value);
    }
}

/// Checks every name of the plan.
pub(crate) fn check(plan: &Plan) -> Vec<Finding> {
    let mut errors = Vec::new();
    let e = &mut errors;
    twice("feeds", plan.feeds.iter().map(|f| &f.name), e);
    twice("boxes", plan.boxes.iter().map(|b| &b.name), e);
    twice("earths", plan.earths.iter().map(|b| &b.name), e);
    twice("signals", plan.signals.iter().map(|s| &s.name), e);
    twice("circuits", plan.circuits.iter().map(|c| &c.name), e);

    let places = Known::new("place", plan.places.iter().map(|p| &p.name));
    let here = plan
        .stretches
        .iter()
        .flat_map(|s| &s.between)
        .chain(plan.feeds.iter().map(|f| &f.place))
        .chain(plan.boxes.iter().map(|b| &b.place))
        .chain(plan.earths.iter().map(|b| &b.place))
        .chain(plan.signals.iter().map(|b| &b.place))
        .chain(plan.wires.iter().flat_map(|w| &w.route))
        .chain(std::iter::once(&plan.supply.battery.place));
    for name in here {
        places.check(name, e);
    }
    let mut feeds = Known::new("feed", plan.feeds.iter().map(|f| &f.name));
    feeds.names.push(BATTERY);
    for b in &plan.boxes {
        feeds.check(&b.feed, e);
    }
    for circuit in &plan.circuits {
        check_circuit(plan, circuit, &places, &feeds, e);
    }
    let circuits = Known::new("circuit", plan.circuits.iter().map(|c| &c.name));
    for name in plan.day.iter().flat_map(|part| &part.on) {
        circuits.check(name, e);
    }
    errors
}

fn check_circuit(plan: &Plan, c: &Circuit, places: &Known, feeds: &Known, e: &mut Vec<Finding>) {
    let boxes = Known::new("box", plan.boxes.iter().map(|b| &b.name));
    let signals = Known::new("signal", plan.signals.iter().map(|s| &s.name));
    let mut earths = Known::new("earth or place", plan.earths.iter().map(|x| &x.name));
    earths.names.extend(&places.names);
    earths.names.push(BATTERY);
    earths.names.sort_unstable();
    earths.names.dedup();

    match &c.source {
        Source::Box { name, .. } => boxes.check(name, e),
        Source::Feed { name } => feeds.check(name, e),
    }
    for name in c.control.iter() {
        feeds.check(name, e);
    }
    for name in c
        .relay
        .iter()
        .map(|r| &r.place)
        .chain(c.switch.iter().map(|s| &s.place))
        .chain(c.cutout.iter().map(|o| &o.place))
        .chain(c.isolator.iter().map(|o| &o.place))
    {
        places.check(name, e);
    }
    for load in &c.loads {
        places.check(&load.place, e);
    }
    for name in c
        .only
        .iter()
        .chain(&c.unless)
        .chain(&c.trigger)
        .chain(c.switch.iter().filter_map(|s| s.auto.as_ref()))
    {
        signals.check(name, e);
    }
    let own = c.loads.iter().filter_map(|l| l.earth.as_ref());
    for name in own
        .chain(std::iter::once(&c.earth))
        .chain(c.switch.iter().filter_map(|s| s.earth.as_ref()))
        .chain(c.relay.iter().filter_map(|r| r.earth.as_ref()))
        .chain(c.cutout.iter().filter_map(|o| o.earth.as_ref()))
    {
        earths.check(name, e);
    }
}
