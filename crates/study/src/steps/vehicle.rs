//! At the vehicle with its battery off: holes, the loom laid, ends that had to wait, then earths, loads, relays and
//! switches, boxes.

use super::waiting::Waiting;
use super::{Counted, Sight, Stage, Step, Work, bench};
use crate::fit::{Stud, end_words};
use loom::{Part, PartId, PartKind, PinId, PlaceId, WireId};
use quantity::{Quantity, figures};

pub(super) fn steps(w: Work, waiting: &Waiting) -> Vec<Step> {
    let mut found = vec![battery_off(w)];
    found.extend(holes(w, waiting));
    found.extend(lay(w, waiting));
    let circuits = std::iter::once(None).chain((0..w.loom.circuits.len()).map(Some));
    found.extend(circuits.filter_map(|c| bench::splices(w, (c, Stage::Vehicle), waiting)));
    let places = (0..w.loom.places.len()).map(|p| PlaceId(p as u32));
    found.extend(places.filter_map(|p| {
        let title = format!("Finish what had to wait at {}", w.place(p));
        let now = |end: (WireId, usize), together: Option<PinId>| {
            together.map_or(waiting.crimp(end), |pin| waiting.together(w, pin))
        };
        bench::ends(w, (p, Stage::Vehicle, title), &now, &|_| false)
    }));
    found.extend(housings(w, waiting));
    let title = "Sleeve and tie what had to go through panels";
    found.extend(bench::sleeves(w, (Stage::Vehicle, title), &|s| {
        waiting.late.contains(&s)
    }));
    found.extend(earths(w));
    found.extend(loads(w));
    let relays = |k: &PartKind| matches!(k, PartKind::Relay(_));
    found.extend(fitted(w, "Fit the relays", &relays).map(|mut step| {
        step.act.insert(0, SOCKETS.to_owned());
        step
    }));
    let cutouts = |k: &PartKind| matches!(k, PartKind::Cutout(_));
    found.extend(fitted(w, "Fit the cut-outs", &cutouts));
    let switches = |k: &PartKind| matches!(k, PartKind::Switch(_));
    found.extend(fitted(w, "Fit the switches", &switches));
    let signals = |k: &PartKind| matches!(k, PartKind::Signal(_));
    found.extend(fitted(w, "Join the vehicle’s signals", &signals));
    found.extend(boxes(w));
    found
}

fn names<'a>(w: Work<'a>, test: impl Fn(&Part) -> bool) -> Vec<(PartId, &'a Part)> {
    w.loom.each_part().filter(|(_, p)| test(p)).collect()
}

/// Before relays are joined.
const SOCKETS: &str = "Mount each socket; each receptacle clicks into the cavity of its terminal; the relay goes in last.";

/// Before any drilling.
const LOOK: &str =
    "Look behind a panel before drilling it: fuel, brake and coolant lines, looms and tanks.";

fn battery_off(w: Work) -> Step {
    let mut step = Step::new(Stage::Vehicle, "Take the battery off");
    step.sight = Sight::Route;
    let battery = names(w, |p| matches!(p.kind, PartKind::Battery { .. }));
    let at = battery.first().map_or("", |(_, p)| w.place(p.place));
    step.act = vec![
        "Ignition off, key out, every load off, doors shut; note the radio’s code.".to_owned(),
        "Once the vehicle is asleep, note what it draws, by a clamp meter around the negative lead: it is compared at the end.".to_owned(),
        format!(
            "At {at}: the negative lead comes off first and is tied aside; then the positive, if a ring goes under it."
        ),
    ];
    step.tools = vec![
        "spanners",
        "meter",
        "direct-current clamp meter",
        "eye protection",
    ];
    step.checks =
        vec!["The meter shows nothing between the vehicle’s supply and its body.".to_owned()];
    step.cautions = vec![
        "Rings and watches off; a lead-acid battery gives off explosive gas.",
        "Leave airbag (SRS) wiring and yellow connectors alone; wait as the vehicle’s manual says, ten minutes if it is not known.",
        "Never touch orange high-voltage cable.",
    ];
    step
}

fn holes(w: Work, waiting: &Waiting) -> Option<Step> {
    let mut step = Step::new(Stage::Vehicle, "Make the holes and fit the grommets");
    step.sight = Sight::Route;
    let mut take = Counted::default();
    for laid in &w.lists.laid {
        let (Some(panel), Some(hole)) = (&w.loom.stretch(laid.stretch).panel, &laid.hole) else {
            continue;
        };
        let across = hole
            .across
            .map_or("as its grommet asks".to_owned(), |a| a.show());
        let grommet = match &hole.grommet {
            None => "no grommet: round its edge".to_owned(),
            Some(Err(what)) => format!("not in stock: {what}"),
            Some(Ok(g)) => {
                let name = format!("grommet of {} bore", w.stock.grommets[*g].bore.show());
                match waiting.grommets.contains_key(&laid.stretch) {
                    true => format!("{name}, which is on the loom and goes in last"),
                    false => {
                        take.add(name.clone());
                        format!("fit {name}")
                    }
                }
            }
        };
        step.act.push(format!(
            "{} between {}: hole {across}, deburred and painted; {grommet}.",
            panel.name,
            w.between(laid.stretch)
        ));
    }
    if step.act.is_empty() {
        return None;
    }
    step.take = take.told();
    step.tools = vec!["drill or hole cutter", "deburring tool", "paint"];
    step.checks = vec!["No bare metal is left at any edge that the loom touches.".to_owned()];
    step.cautions = vec![LOOK];
    Some(step)
}

/// The loom goes in, panel by panel, and is clipped.
fn lay(w: Work, waiting: &Waiting) -> Option<Step> {
    let mut step = Step::new(Stage::Vehicle, "Lay the loom and clip it");
    step.sight = Sight::Route;
    let mut take = Counted::default();
    if let Some(from) = waiting.from {
        step.act.push(format!(
            "Begin at {}: everything goes outwards from there.",
            w.place(from)
        ));
    }
    for passing in &w.lists.passings {
        let panel = w.loom.stretch(passing.stretch).panel.as_ref();
        let panel = panel.map_or("panel", |p| p.name.as_str());
        let whats: Vec<&str> = passing.passes.iter().map(|p| p.what.as_str()).collect();
        let seat = match waiting.grommets.contains_key(&passing.stretch) {
            true => "; then seat the grommet in its hole, its lips on both sides",
            false => "",
        };
        step.act.push(format!(
            "Through {panel} towards {}, one after another: {}{seat}.",
            w.place(passing.towards),
            whats.join(", then ")
        ));
    }
    for laid in &w.lists.laid {
        take.add_many("clip".to_owned(), laid.clips);
        let mm = |l: quantity::Length| figures(l.si() * 1e3, 3);
        step.act.push(format!(
            "{}: {} clips, {} mm apart at most; bends no tighter than {} mm inside.",
            w.between(laid.stretch),
            laid.clips,
            mm(laid.every),
            mm(laid.bends[0])
        ));
    }
    if step.act.is_empty() {
        return None;
    }
    step.take = take.told();
    step.tools = vec!["clip tool or screwdriver"];
    step.checks = vec![
        "Nothing that moves or gets hot can touch it: steering, pedals, doors, exhaust.".to_owned(),
        "Where it comes down into something wet, it hangs lower than the entry first.".to_owned(),
    ];
    step.cautions = vec![
        "Keep clear of fuel and brake lines, steering, pedals, exhaust and anything that turns.",
    ];
    Some(step)
}

/// Housings that go on behind a panel.
fn housings(w: Work, waiting: &Waiting) -> Option<Step> {
    let mut step = Step::new(Stage::Vehicle, "Put the housings on behind the panels");
    let plugs = names(w, |p| matches!(p.kind, PartKind::Connector { .. }));
    let late = |id: &PartId| bench::late(w, *id, &|end| waiting.housing(end));
    for (_, part) in plugs.into_iter().filter(|(id, _)| late(id)) {
        step.act.push(format!(
            "{} ({}): each contact into the way on its label.",
            part.name, part.label
        ));
        step.brings.push(part.name.clone());
    }
    if step.act.is_empty() {
        return None;
    }
    step.checks = vec!["Each contact clicks home and stands a light pull.".to_owned()];
    Some(step)
}

/// The studs of a part.
fn studs<'a>(w: Work<'a>, id: PartId) -> impl Iterator<Item = &'a Stud> {
    w.lists
        .studs
        .iter()
        .filter(move |s| w.loom.pin(s.pin).part == id)
}

/// "W1.10, W2.6 onto the M8 stud, that order from the metal, 8 to 10 N·m".
pub(super) fn stud_words(w: Work, stud: &Stud) -> String {
    let rings: Vec<&str> = stud
        .rings
        .iter()
        .map(|r| w.loom.wire(*r).name.as_str())
        .collect();
    let order = match rings.len() {
        _ if stud.is_bar(w.loom) => ", each on a stud of its own",
        0 | 1 => "",
        _ => ", in this order from the metal up",
    };
    let torque = stud.torque.map_or("as its own sheet says".to_owned(), |t| {
        let t = &w.stock.torques[t];
        match t.least == t.most {
            true => format!("{} N·m", figures(t.least, 3)),
            false => format!("{} to {} N·m", figures(t.least, 3), figures(t.most, 3)),
        }
    });
    format!(
        "{} onto {} ({}){order}; {torque}",
        rings.join(", "),
        w.loom.pin_name(stud.pin),
        stud.stud
    )
}

fn earths(w: Work) -> Option<Step> {
    let mut step = Step::new(Stage::Vehicle, "Make the earths");
    for (id, part) in names(w, |p| matches!(p.kind, PartKind::Earth(_))) {
        let mut any = false;
        for stud in studs(w, id) {
            step.act.push(format!(
                "{} at {}: {}.",
                part.label,
                w.place(part.place),
                stud_words(w, stud)
            ));
            any = true;
        }
        if any {
            step.brings.push(part.name.clone());
        }
    }
    if step.brings.is_empty() {
        return None;
    }
    if w.lists.studs.iter().any(|s| s.is_bar(w.loom)) {
        step.act.insert(
            0,
            "A bar is screwed down first, on something that does not conduct.".to_owned(),
        );
    }
    step.act.insert(0, "Each earth point: down to bright metal as wide as the ring, ring against it, toothed washer, nut; then paint or grease over it.".to_owned());
    step.tools = vec![
        "torque spanner",
        "wire brush",
        "paint or grease",
        "drill",
        "screwdriver",
        "meter with a long lead",
    ];
    step.checks = vec!["Under 0.1 Ω (common practice) between each ring and the battery’s negative lead, or, where the way back is a wire, that wire’s other ring: touch the probes together first, and subtract what that shows.".to_owned()];
    Some(step)
}

/// Each circuit's loads.
fn loads(w: Work) -> Vec<Step> {
    let mut found = Vec::new();
    for circuit in &w.loom.circuits {
        let mut step = Step::new(Stage::Vehicle, format!("Fit and join: {}", circuit.name));
        let mut take = Counted::default();
        for id in &circuit.loads {
            let part = w.loom.part(*id);
            take.add(part.label.clone());
            step.act.push(format!(
                "{} ({}) at {}.",
                part.name,
                part.label,
                w.place(part.place)
            ));
            step.brings.push(part.name.clone());
            for (wire, end) in joints(w, *id) {
                let said = end_words(w.stock, &w.lists.fit, w.loom, end);
                take.add(said.split(';').next().unwrap_or(&said).to_owned());
                let shrink = end.cover.as_ref().map_or("", |c| {
                    if c.before {
                        "; its shrink is on the wire first"
                    } else {
                        "; shrink over it"
                    }
                });
                step.act.push(format!(
                    "{wire} to {}: {said}{shrink}.",
                    w.loom.pin_name(end.pin)
                ));
            }
            // Its own pins, each with the pin of the connector that it meets.
            let meets = w.loom.mates.iter().filter_map(|m| {
                let either = [(m.far, m.live), (m.live, m.far)].into_iter();
                let mut mine = either.filter(|(own, _)| part.pins.contains(own));
                mine.next()
            });
            let meets: Vec<(PinId, PinId)> = meets.collect();
            let plug = meets.first().map(|(_, other)| &w.loom.part_of(*other).name);
            let ways = meets.iter().map(|(own, other)| {
                let own = &w.loom.pin(*own).terminal;
                format!("{own} with {}", w.loom.pin_name(*other))
            });
            let ways: Vec<String> = ways.collect();
            if let Some(plug) = plug {
                let sealed = sealed(w, plug);
                let (with, and) = match sealed {
                    true => (", with seals by its lead’s own thickness,", " and seals"),
                    false => ("", ""),
                };
                step.act.push(format!(
                    "Crimp contacts{with} to {}’s lead, and pull each; into the other half of {plug}: {}; plug it in.",
                    part.name,
                    ways.join(", ")
                ));
                take.add(format!("the other half of {plug}, with its contacts{and}"));
            }
        }
        step.take = take.told();
        step.tools = vec!["spanners", "screwdriver", "drill", "crimp tool"];
        if w.lists
            .fit
            .ends
            .iter()
            .flatten()
            .any(|e| e.cover.is_some() && circuit.loads.contains(&w.loom.pin(e.pin).part))
        {
            step.tools.push("hot-air gun");
        }
        step.checks =
            vec!["It is fast, and its lead hangs lower than its entry where it is wet.".to_owned()];
        found.push(step);
    }
    found
}

/// Whether a connector keeps water out.
fn sealed(w: Work, plug: &str) -> bool {
    let mut plugs = w.lists.fit.plugs.iter();
    let found = plugs.find(|p| w.loom.part(p.part).name == plug);
    found.is_some_and(|p| matches!(p.class, Ok((c, _)) if w.stock.connectors[c].sealed))
}

/// Wires joined to a part's own lead.
fn joints<'a>(w: Work<'a>, id: PartId) -> Vec<(&'a str, &'a crate::fit::WireEnd)> {
    let pins = &w.loom.part(id).pins;
    let all = w.loom.each_wire().zip(&w.lists.fit.ends);
    let each = all.flat_map(|((_, wire), both)| both.iter().map(move |e| (wire.name.as_str(), e)));
    each.filter(|(_, end)| pins.contains(&end.pin)).collect()
}

/// Parts of a kind, each with its wires by terminal.
fn fitted(w: Work, title: &str, test: &dyn Fn(&PartKind) -> bool) -> Option<Step> {
    let mut step = Step::new(Stage::Vehicle, title);
    for (id, part) in names(w, |p| test(&p.kind)) {
        step.take.push(format!("{}: {}", part.name, part.label));
        step.act.push(by_terminal(w, id));
        step.brings.push(part.name.clone());
    }
    if step.brings.is_empty() {
        return None;
    }
    step.tools = vec!["screwdriver", "drill"];
    step.cautions = vec![LOOK];
    step.checks = vec![
        "Each wire’s label names the terminal that it is on; each receptacle stands a light pull."
            .to_owned(),
    ];
    Some(step)
}

/// "K1 at inner wing: 30 W1.1; 86 W1.2; 85 W1.3; 87 W1.7."
pub(super) fn by_terminal(w: Work, id: PartId) -> String {
    let part = w.loom.part(id);
    let each = part.pins.iter().filter_map(|pin| {
        let wires = w.loom.each_wire();
        let wires = wires.filter(|(_, wire)| wire.from == *pin || wire.to == *pin);
        let wires: Vec<&str> = wires.map(|(_, wire)| wire.name.as_str()).collect();
        (!wires.is_empty())
            .then(|| format!("{} {}", w.loom.pin(*pin).terminal, wires.join(" and ")))
    });
    let each: Vec<String> = each.collect();
    let wires = if each.is_empty() {
        "nothing to join".to_owned()
    } else {
        each.join("; ")
    };
    format!(
        "{} ({}) at {}: {wires}.",
        part.name,
        part.label,
        w.place(part.place)
    )
}

/// Boxes with their ways; no fuse in yet.
fn boxes(w: Work) -> Vec<Step> {
    let mut found = Vec::new();
    for (id, part) in names(w, |p| matches!(p.kind, PartKind::Box(_))) {
        let mut step = Step::new(Stage::Vehicle, format!("Fit {}", part.label));
        step.take.push(part.label.clone());
        step.act
            .push(format!("Mount it at {}.", w.place(part.place)));
        for stud in studs(w, id) {
            step.act.push(format!("{}.", stud_words(w, stud)));
        }
        for (_, fuse) in names(
            w,
            |p| matches!(&p.kind, PartKind::Fuse(f) if f.way.is_some_and(|(b, _)| b == id)),
        ) {
            let PartKind::Fuse(f) = &fuse.kind else {
                continue;
            };
            let way = f.way.map_or(0, |(_, way)| way);
            let out: Vec<String> = fuse
                .pins
                .iter()
                .flat_map(|pin| {
                    let wires = w.loom.each_wire();
                    wires
                        .filter(|(_, wire)| wire.from == *pin || wire.to == *pin)
                        .map(|(_, wire)| wire.name.clone())
                        .collect::<Vec<_>>()
                })
                .collect();
            step.act.push(format!(
                "Way {way}, for {} later: push {} in until it clicks; a light pull.",
                fuse.name,
                out.join(", ")
            ));
        }
        step.tools = vec!["torque spanner", "screwdriver"];
        step.checks = vec![
            "No fuse is in; nothing bare can touch its live metal once the cover is on.".to_owned(),
        ];
        step.brings.push(part.name.clone());
        found.push(step);
    }
    found
}
