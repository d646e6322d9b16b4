//! Power comes on last: feeds joined with every fuse out, proved, then the battery, then one fuse after another.

use super::vehicle::by_terminal;
use super::{Stage, Step, Work};
use crate::first::first_reading;
use crate::fit::Stud;
use loom::{PartId, PartKind, Role};
use plan::FeedKind;
use quantity::{Quantity, figures};

pub(super) fn steps(w: Work) -> Vec<Step> {
    let mut found = Vec::new();
    found.extend(feeds(w));
    found.push(proved_dead(w));
    found.push(battery_on(w));
    found.extend(supply_fuses(w));
    found.extend((0..w.loom.circuits.len()).map(|c| circuit_on(w, c)));
    found.push(last(w));
    found
}

/// What the vehicle gives, and the holders of fuses in the line, the fuses out.
fn feeds(w: Work) -> Option<Step> {
    let mut step = Step::new(Stage::Power, "Join the feeds, battery still off");
    for (id, part) in w.loom.each_part() {
        let post = matches!(&part.kind, PartKind::Feed(f) if f.kind == FeedKind::BatteryPost);
        if let PartKind::Feed(_) = &part.kind
            && !post
            && joined(w, id)
        {
            step.act.push(by_terminal(w, id));
            step.brings.push(part.name.clone());
        }
        if let PartKind::Fuse(f) = &part.kind
            && f.way.is_none()
        {
            step.act.push(format!("Holder of {}", by_terminal(w, id)));
            let studs = w
                .lists
                .studs
                .iter()
                .filter(|s| w.loom.pin(s.pin).part == id);
            step.act
                .extend(studs.map(|s| format!("{}.", super::vehicle::stud_words(w, s))));
            // Bolted with the battery off, while nothing there is live.
            if bolted(w, id) {
                step.take.push(fuse_words(w, id));
                step.act.push(format!(
                    "Bolt {} in under its rings, cover on: it is never undone with the battery on.",
                    part.name
                ));
                step.brings.push(part.name.clone());
            }
        }
    }
    if step.act.is_empty() {
        return None;
    }
    step.tools = vec!["torque spanner", "screwdriver"];
    step.checks = vec!["No fuse is in but what is bolted.".to_owned()];
    step.cautions = vec!["A feed of the vehicle may be live as soon as the battery is on."];
    Some(step)
}

fn joined(w: Work, id: PartId) -> bool {
    let pins = &w.loom.part(id).pins;
    let mut wires = w.loom.wires.iter();
    wires.any(|wire| pins.contains(&wire.from) || pins.contains(&wire.to))
}

/// Whether a fuse is held by nuts.
fn bolted(w: Work, id: PartId) -> bool {
    let held = w.answers.choice.fuses[id.0 as usize];
    held.is_some_and(|held| w.stock.fuses[held.kind].stud().is_some())
}

/// What plus must not reach: the body, and every bar or stud whose way back is a wire, since that is not joined yet.
fn returns(w: Work) -> String {
    let wired = earth_studs(w).filter(|s| goes_back(w, s).is_some());
    let names = wired.map(|s| format!(" and to {}", w.loom.pin_name(s.pin)));
    format!("the body{}", names.collect::<String>())
}

/// The wire by which an earth goes back to the battery, if it does not go by the body.
fn goes_back<'a>(w: Work<'a>, stud: &Stud) -> Option<&'a loom::Wire> {
    let battery = |pin| matches!(w.loom.part_of(pin).kind, PartKind::Battery { .. });
    let mut wires = w.loom.wires.iter();
    wires.find(|wire| {
        let ends = [wire.from, wire.to];
        ends.contains(&stud.pin) && ends.into_iter().any(battery)
    })
}

/// What has to be apart for a circuit's fuse to read nothing towards earth: a relay's coil would read, and so would a load.
fn apart(w: Work, circuit: usize) -> String {
    let c = &w.loom.circuits[circuit];
    let relays = c.relay.iter().chain(&c.conditions);
    let relays: Vec<&str> = relays.map(|id| w.loom.part(*id).name.as_str()).collect();
    match (&relays[..], c.switch) {
        ([], Some(_)) => "its switch off".to_owned(),
        ([], None) => "what it feeds unplugged, else it reads through that".to_owned(),
        (relays, _) => format!("{} out of the socket", relays.join(" and ")),
    }
}

/// How a circuit is turned on.
fn turned_on(w: Work, circuit: usize) -> String {
    let c = &w.loom.circuits[circuit];
    let signals: Vec<&str> = c
        .only
        .iter()
        .map(|id| w.loom.part(*id).label.as_str())
        .collect();
    match (c.switch, &signals[..], c.ignition) {
        (Some(_), ..) => "Switch it on, each position in turn, then off.".to_owned(),
        (None, [], true) => "It has no switch: it comes on with the ignition.".to_owned(),
        (None, [], false) => "It has no switch: it runs as soon as that is in.".to_owned(),
        (None, signals, _) => format!(
            "It has no switch: it comes on with “{}”.",
            signals.join("” and “")
        ),
    }
}

fn proved_dead(w: Work) -> Step {
    let mut step = Step::new(Stage::Power, "Prove it before power");
    let returns = returns(w);
    step.act
        .push("Every fuse out that is not bolted, every switch off, battery off.".to_owned());
    for wire in w.loom.wires.iter().filter(|wire| wire.fuse.is_none()) {
        if matches!(wire.role, Role::Lead | Role::Feeder) {
            step.act.push(format!(
                "{}, which no fuse protects, its ring off its post: no continuity to {returns}.",
                wire.name
            ));
        }
    }
    for (_, part) in w.loom.each_part() {
        if matches!(part.kind, PartKind::Box(_)) {
            step.act
                .push(format!("{}:30 to {returns}: no continuity.", part.name));
        }
        if let PartKind::Fuse(f) = &part.kind
            && f.way.is_some()
        {
            let how = part
                .circuit
                .map_or_else(String::new, |c| format!(", {}", apart(w, c)));
            step.act.push(format!(
                "{}, load side, to {returns}: no continuity{how}.",
                part.name
            ));
        }
    }
    step.act.push(
        "Then each switch on in turn, relays still out and what it feeds unplugged: the same; what has no plug reads its own resistance."
            .to_owned(),
    );
    for stud in earth_studs(w) {
        let to = match goes_back(w, stud) {
            Some(wire) => format!("the ring of {} that goes to the battery", wire.name),
            None => "the battery’s negative lead".to_owned(),
        };
        step.act.push(format!(
            "{} to {to}: under 0.1 Ω (common practice).",
            w.loom.pin_name(stud.pin)
        ));
    }
    step.tools = vec!["meter with a long lead"];
    step.checks =
        vec!["Every reading is as said. If one is not, look for why before you go on.".to_owned()];
    step
}

fn earth_studs<'a>(w: Work<'a>) -> impl Iterator<Item = &'a Stud> {
    let studs = w.lists.studs.iter();
    studs.filter(move |s| matches!(w.loom.part_of(s.pin).kind, PartKind::Earth(_)))
}

fn battery_on(w: Work) -> Step {
    let mut step = Step::new(Stage::Power, "Put the battery on");
    for stud in &w.lists.studs {
        let part = w.loom.part_of(stud.pin);
        let post = match &part.kind {
            PartKind::Battery { .. } => true,
            PartKind::Feed(f) => f.kind == FeedKind::BatteryPost,
            _ => false,
        };
        if post {
            step.act
                .push(format!("{}.", super::vehicle::stud_words(w, stud)));
        }
    }
    step.act
        .push("The positive lead first and its cover over it, the negative last.".to_owned());
    for (id, part) in w.loom.each_part() {
        let post = matches!(&part.kind, PartKind::Feed(f) if f.kind == FeedKind::BatteryPost);
        if matches!(part.kind, PartKind::Battery { .. }) || (post && joined(w, id)) {
            step.brings.push(part.name.clone());
        }
    }
    step.tools = vec!["spanners", "torque spanner", "eye protection"];
    step.checks = vec![
        "No spark but a small one; if there is a large one, take it off again and look for why."
            .to_owned(),
    ];
    step.cautions =
        vec!["A spanner from the positive post to the body burns: cover the post first."];
    step
}

/// A fuse in words, with its rating.
fn fuse_words(w: Work, id: PartId) -> String {
    let part = w.loom.part(id);
    let held = w.answers.choice.fuses[id.0 as usize];
    let held = held.map_or_else(String::new, |held| {
        let kind = &w.stock.fuses[held.kind];
        let amps = kind.ratings[held.rating].amps.si();
        format!(", {} {} A", kind.name, figures(amps, 3))
    });
    format!(
        "{} ({}{held}) at {}",
        part.name,
        part.label,
        w.place(part.place)
    )
}

/// Fuses of the supply side.
fn supply_fuses(w: Work) -> Option<Step> {
    let mut step = Step::new(Stage::Power, "Put the fuses of the supply side in");
    for (id, part) in w.loom.each_part() {
        if matches!(part.kind, PartKind::Fuse(_)) && part.circuit.is_none() && !bolted(w, id) {
            step.take.push(fuse_words(w, id));
            step.act.push(format!("{}.", fuse_words(w, id)));
            step.brings.push(part.name.clone());
        }
    }
    if step.brings.is_empty() {
        return None;
    }
    step.tools = vec!["meter"];
    step.checks =
        vec!["Battery voltage at each box’s 30, within 0.1 V (common practice).".to_owned()];
    Some(step)
}

/// A circuit's fuses, and what it then does.
fn circuit_on(w: Work, circuit: usize) -> Step {
    let c = &w.loom.circuits[circuit];
    let mut step = Step::new(Stage::Power, format!("Switch on and measure: {}", c.name));
    for (id, part) in w.loom.each_part() {
        if matches!(part.kind, PartKind::Fuse(_)) && part.circuit == Some(circuit) {
            step.take.push(fuse_words(w, id));
            step.act.push(format!("Put {} in.", fuse_words(w, id)));
            step.brings.push(part.name.clone());
        }
    }
    step.act.push(turned_on(w, circuit));
    for part in &w.loom.parts {
        if let PartKind::Cutout(c) = &part.kind
            && part.circuit == Some(circuit)
        {
            step.act.push(format!(
                "{} lets current through only once the battery has been above {}: if it stays out, run the engine or a charger first.",
                part.name,
                c.closes.show()
            ));
        }
    }
    for load in &c.loads {
        let part = w.loom.part(*load);
        step.checks
            .push(match first_reading(w.loom, w.answers, *load) {
                Some(r) => format!(
                    "{} ({}): {} V and {} A in “{}”.",
                    part.name,
                    part.label,
                    figures(r.volts, 3),
                    figures(r.amps, 3),
                    r.state.name
                ),
                None => format!("{} ({}) works.", part.name, part.label),
            });
    }
    step.tools = vec![
        "meter with fine probes, from behind the plugs",
        "direct-current clamp meter",
    ];
    step.cautions = vec!["A fuse that blows is not replaced by a larger one."];
    step
}

fn last(w: Work) -> Step {
    let mut step = Step::new(Stage::Power, "Leave it so that it is found");
    let covers: Vec<&str> = w
        .loom
        .parts
        .iter()
        .filter(|p| matches!(p.kind, PartKind::Box(_)))
        .map(|p| p.label.as_str())
        .collect();
    if !covers.is_empty() {
        step.act.push(format!("Covers on: {}.", covers.join(", ")));
    }
    step.act.push(
        "Glovebox card in the vehicle, the pack with its papers; date and name on both.".to_owned(),
    );
    step.act
        .push("After a week of use: every nut and clip once more.".to_owned());
    step.checks = vec![asleep(w.loom)];
    step
}

/// What may flow while everything is off.
fn asleep(loom: &loom::Loom) -> String {
    let always = |c: &&loom::LoomCircuit| {
        c.switch.is_none() && !c.ignition && c.only.is_empty() && c.auto.is_none()
    };
    let live = loom.circuits.iter().filter(always);
    let mut more: Vec<String> = live
        .map(|c| format!("what “{}” takes, which is live always", c.name))
        .collect();
    let guards = loom.circuits.iter().filter(|c| c.cutout.is_some());
    more.extend(guards.map(|c| {
        format!(
            "the few milliamperes of the battery protection of “{}”",
            c.name
        )
    }));
    let more: Vec<&str> = more.iter().map(String::as_str).collect();
    let besides = match more.is_empty() {
        true => String::new(),
        false => format!(", and on top of it {}", finding::joined(&more)),
    };
    format!(
        "Everything off, vehicle asleep: the current from the battery is what it was before the work{besides}."
    )
}
