//! At the bench: wires are cut and labelled, what must be on a wire first is threaded on, ends are crimped, bundles sleeved.

use super::waiting::Waiting;
use super::{Counted, Sight, Stage, Step, Work};
use crate::fit::{Cover, Termination, WireEnd, end_words, label_words, terminal_words};
use crate::lists::wants_boot;
use loom::{PartId, PartKind, PinId, PlaceId, StretchId, WireId};
use quantity::{Quantity, figures};

pub(super) fn steps(w: Work, waiting: &Waiting) -> Vec<Step> {
    let mut found = Vec::new();
    let circuits = std::iter::once(None).chain((0..w.loom.circuits.len()).map(Some));
    let circuits: Vec<Option<usize>> = circuits.collect();
    found.extend(circuits.iter().filter_map(|c| cut(w, *c)));
    found.extend(grommets(w, waiting));
    found.extend(
        circuits
            .iter()
            .filter_map(|c| splices(w, (*c, Stage::Bench), waiting)),
    );
    let places = (0..w.loom.places.len()).map(|p| PlaceId(p as u32));
    found.extend(places.filter_map(|p| {
        let title = format!("Finish the ends at {}", w.place(p));
        let now = |end: (WireId, usize), together: Option<PinId>| {
            !together.map_or(waiting.crimp(end), |pin| waiting.together(w, pin))
        };
        ends(w, (p, Stage::Bench, title), &now, &|end| {
            waiting.housing(end)
        })
    }));
    found.extend(sleeves(
        w,
        (Stage::Bench, "Sleeve and tie the bundles"),
        &|s| !waiting.late.contains(&s),
    ));
    found
}

/// The circuit's wires, or those of the supply side.
fn cut(w: Work, circuit: Option<usize>) -> Option<Step> {
    let of = match circuit {
        Some(c) => w.loom.circuits[c].name.as_str(),
        None => "supply side",
    };
    let mut step = Step::new(Stage::Bench, format!("Cut and label the wires: {of}"));
    let mut sheathed = Vec::new();
    for (id, wire) in w
        .loom
        .each_wire()
        .filter(|(_, wire)| wire.circuit == circuit)
    {
        let at = id.0 as usize;
        let kind = &w.stock.conductors[w.answers.choice.wires[at]].id;
        let labels = match w.lists.labels[at] {
            1 => "1 label".to_owned(),
            n => format!("{n} labels"),
        };
        let measure = if stays(wire) { " or as measured" } else { "" };
        step.take.push(format!(
            "{}: {:.2} m{measure} of {kind}, {}, {labels}",
            wire.name,
            wire.cut.si(),
            wire.colour
        ));
        if wire.set.sheathed {
            step.take.push(format!(
                "{:.2} m of sleeve for {}",
                wire.cut.si(),
                wire.name
            ));
            sheathed.push(wire.name.clone());
        }
        step.brings.push(wire.name.clone());
    }
    if step.brings.is_empty() {
        return None;
    }
    step.act = vec![
        "Measure on the vehicle what stays within one place: a place has no size here, and such a wire is listed with what its ends need alone.".to_owned(),
        "Measure and cut each; put its labels on before anything else, one near each end."
            .to_owned(),
        "Lay each from place to place on the loom board, printed as large as the loom is or chalked on the floor by its lengths.".to_owned(),
    ];
    if !sheathed.is_empty() {
        step.act.push(format!(
            "{}: the sleeve of its own over its whole length now, before its ends are crimped.",
            sheathed.join(", ")
        ));
    }
    step.tools = vec!["wire cutters", "tape measure", "label printer or sleeves"];
    step.checks = vec![
        "Lay every wire along the board: it reaches both its places with a hand’s width over."
            .to_owned(),
    ];
    Some(step)
}

/// Whether a wire stays within one place, and its length is not the plan's.
fn stays(wire: &loom::Wire) -> bool {
    wire.length.si() < 1e-3 && !wire.set.length
}

/// Grommets that must be on wires before their ends are crimped.
fn grommets(w: Work, waiting: &Waiting) -> Vec<Step> {
    let each = waiting.grommets.iter();
    each.map(|(stretch, wires)| {
        let stretch = *stretch;
        let panel = w.loom.stretch(stretch).panel.as_ref();
        let panel = panel.map_or("panel", |p| p.name.as_str());
        let names: Vec<&str> = wires
            .iter()
            .map(|id| w.loom.wire(*id).name.as_str())
            .collect();
        let mut step = Step::new(Stage::Bench, format!("Thread the grommet of {panel} on"));
        step.sight = Sight::Board;
        step.take.push(format!("the grommet for {panel}"));
        step.act.push(format!(
            "Slide it onto {}, between {}: made up, their ends pass the hole but not the grommet.",
            names.join(", "),
            w.between(stretch)
        ));
        step.checks
            .push("It slides freely along all its wires.".to_owned());
        step
    })
    .collect()
}

/// The splices of a circuit.
pub(super) fn splices(
    w: Work,
    (circuit, stage): (Option<usize>, Stage),
    waiting: &Waiting,
) -> Option<Step> {
    let of = |(_, p): &(PartId, &loom::Part)| {
        let late = p.pins.iter().any(|pin| waiting.together(w, *pin));
        let mine = matches!(p.kind, PartKind::Splice) && p.circuit == circuit;
        mine && late == (stage != Stage::Bench)
    };
    let name = circuit.map_or("supply side", |c| w.loom.circuits[c].name.as_str());
    let mut step = Step::new(stage, format!("Crimp the splices: {name}"));
    let mut take = Counted::default();
    for (_, part) in w.loom.each_part().filter(of) {
        let at_it: Vec<&WireEnd> = part.pins.iter().flat_map(|pin| ends_at(w, *pin)).collect();
        let Some(first) = at_it.iter().find(|e| e.cover.is_some()).or(at_it.first()) else {
            continue;
        };
        let strip = at_it.iter().filter_map(|e| e.strip).map(|s| s.si() * 1e3);
        let strip = strip.fold(0.0, f64::max);
        let what = end_words(w.stock, &w.lists.fit, w.loom, first);
        take.add(what.split(", one for").next().unwrap_or(&what).to_owned());
        let names = wires_at(w, part.pins[0]);
        let shrink = first.cover.as_ref().map(|c| shrink_kind(w, c));
        let thread = shrink
            .as_ref()
            .map_or_else(String::new, |s| format!("thread {s} on; "));
        let close = shrink.map_or("", |_| "; shrink it over the band");
        step.act.push(format!(
            "{}: {thread}strip {} by {} mm, crimp them into one band from both sides{close}.",
            part.name,
            names.join(", "),
            figures(strip, 3)
        ));
        for s in first.cover.iter().map(|c| shrink_kind(w, c)) {
            take.add(s);
        }
        step.brings.push(part.name.clone());
    }
    if step.brings.is_empty() {
        return None;
    }
    step.take = take.told();
    step.tools = vec!["stripper", "crimp tool for the band", "hot-air gun"];
    step.checks = vec![
        "Pull each wire by hand: none moves. Adhesive shows at both ends of each shrink."
            .to_owned(),
    ];
    step.cautions = vec!["Hot air burns insulation and skin."];
    Some(step)
}

fn wires_at(w: Work, pin: loom::PinId) -> Vec<String> {
    let each = w.loom.each_wire();
    let at_it = each.filter(|(_, wire)| wire.from == pin || wire.to == pin);
    at_it.map(|(_, wire)| wire.name.clone()).collect()
}

fn ends_at<'a>(w: Work<'a>, pin: loom::PinId) -> impl Iterator<Item = &'a WireEnd> {
    let all = w.lists.fit.ends.iter().flatten();
    all.filter(move |end| end.pin == pin)
}

fn shrink_kind(w: Work, c: &Cover) -> String {
    match &c.sleeve {
        Ok(sleeve) => format!("{} of {}", c.cut.show(), w.stock.sleeves[*sleeve].name),
        Err(what) => format!("{what} (not in stock)"),
    }
}

/// The ends at a place, of those that `now` says; contacts that `housing` says are left out of their housing.
pub(super) fn ends(
    w: Work,
    (place, stage, title): (PlaceId, Stage, String),
    now: &dyn Fn((WireId, usize), Option<PinId>) -> bool,
    housing: &dyn Fn((WireId, usize)) -> bool,
) -> Option<Step> {
    let mut step = Step::new(stage, title);
    let mut take = Counted::default();
    let mut pulls: Vec<String> = Vec::new();
    let mut hot = false;
    let all = w.loom.each_wire().zip(&w.lists.fit.ends);
    for ((id, wire), both) in all {
        for (i, end) in both.iter().enumerate() {
            let part = w.loom.part_of(end.pin);
            // Splices have steps of their own; a joint to a load's own lead is made at the load.
            let elsewhere = matches!(
                part.kind,
                PartKind::Splice | PartKind::Load(_) | PartKind::Signal(_)
            );
            if part.place != place || elsewhere {
                continue;
            }
            let shared = matches!(end.gets, Termination::Shared(_)).then_some(end.pin);
            if !now((id, i), shared) {
                continue;
            }
            // Wires that share a terminal are crimped together: told at the first.
            let mut together = vec![wire.name.clone()];
            if shared.is_some() {
                together = wires_at(w, end.pin);
                if together.first() != Some(&wire.name) {
                    continue;
                }
            }
            let names = together.join(" and ");
            let (words, said) = end_act(w, (&names, end), housing((id, i)));
            take.add(words);
            if boot(w, &wire.name, end.pin) {
                take.add(BOOT.to_owned());
            }
            if let Some(cover) = &end.cover {
                take.add(shrink_kind(w, cover));
                hot = true;
            }
            step.act.push(said);
            let kind = &w.stock.conductors[w.answers.choice.wires[id.0 as usize]];
            if let Some(newton) = end.pull {
                // Weight in standard gravity.
                let kilograms = newton / 9.806_65;
                pulls.push(format!("{} {newton:.0} N, {kilograms:.0} kg", kind.size));
            }
        }
    }
    if step.act.is_empty() {
        return None;
    }
    pulls.sort();
    pulls.dedup();
    step.take = take.told();
    step.tools = vec!["stripper", "crimp tools for these terminals"];
    if hot {
        step.tools.push("hot-air gun");
        step.cautions.push("Hot air burns insulation and skin.");
    }
    if !pulls.is_empty() {
        let trial = format!(
            "First one trial crimp of each size, hung with its weight for a minute: {}.",
            pulls.join("; ")
        );
        step.act.insert(0, trial);
    }
    step.checks.push(
        "No strand is cut or outside the crimp; the label at each end names its pin.".to_owned(),
    );
    let plugs = w.loom.each_part().filter(|(_, p)| p.place == place);
    let plugs = plugs.filter(|(_, p)| matches!(p.kind, PartKind::Connector { .. }));
    for (id, part) in plugs.filter(|(id, _)| stage == Stage::Bench && !late(w, *id, housing)) {
        if wired(w, id) {
            step.brings.push(part.name.clone());
            step.checks.push(format!(
                "Each contact of {} clicks home and stands a light pull.",
                part.name
            ));
        }
    }
    Some(step)
}

fn wired(w: Work, part: PartId) -> bool {
    let mut ends = w.lists.fit.ends.iter().flatten();
    ends.any(|end| w.loom.pin(end.pin).part == part)
}

/// Whether a contact of a connector waits for its housing behind a panel.
pub(super) fn late(w: Work, part: PartId, housing: &dyn Fn((WireId, usize)) -> bool) -> bool {
    let all = w.loom.each_wire().zip(&w.lists.fit.ends);
    let mut each = all.flat_map(|((id, _), both)| {
        let each = both.iter().enumerate();
        each.map(move |(i, end)| ((id, i), end.pin))
    });
    each.any(|(end, pin)| w.loom.pin(pin).part == part && housing(end))
}

/// What covers a stud that may be live.
const BOOT: &str = "insulating boot";

/// Whether a stud's boot goes onto this wire: that whose ring lies uppermost.
fn boot(w: Work, wire: &str, pin: PinId) -> bool {
    let on_stud = w.lists.studs.iter().find(|s| s.pin == pin);
    let top = on_stud.and_then(|s| s.rings.last());
    top.is_some_and(|id| w.loom.wire(*id).name == wire) && wants_boot(w.loom, pin)
}

/// What an end gets in a few words, and what is done there.
fn end_act(w: Work, (wire, end): (&str, &WireEnd), housing_later: bool) -> (String, String) {
    let label = label_words(w.loom, wire, end.pin);
    let words = end_words(w.stock, &w.lists.fit, w.loom, end);
    let mut acts = Vec::new();
    if boot(w, wire, end.pin) {
        acts.push(format!("thread its {BOOT} on"));
    }
    for cover in end.cover.iter().filter(|c| c.before) {
        acts.push(format!("thread {} on", shrink_kind(w, cover)));
    }
    if let Some(strip) = end.strip {
        acts.push(format!("strip {} mm", figures(strip.si() * 1e3, 3)));
    }
    acts.push(match &end.gets {
        Termination::Contact { seal, .. } => {
            let seal = if seal.is_some() { "seal on, " } else { "" };
            let home = match housing_later {
                true => "leave it out of its housing: that goes on behind the panel",
                false => "push it home into its way",
            };
            format!("{seal}crimp the {words}; {home}")
        }
        Termination::Its(_) => {
            format!("crimp the {words}; it goes into its way when the box is there")
        }
        Termination::Nothing(_) => words.clone(),
        Termination::Shared(t) => {
            format!(
                "crimp them into one {}",
                terminal_words(&w.stock.terminals[*t])
            )
        }
        Termination::Terminal(_) => format!("crimp the {words}"),
    });
    if let Some(cover) = &end.cover {
        acts.push(match cover.before {
            true => "shrink it over the crimp".to_owned(),
            false => format!("shrink {} over it", shrink_kind(w, cover)),
        });
    }
    (words, format!("{label}: {}.", acts.join("; ")))
}

/// Sleeves over bundles, ties where they lie open; of those that `now` says.
pub(super) fn sleeves(
    w: Work,
    (stage, title): (Stage, &str),
    now: &dyn Fn(StretchId) -> bool,
) -> Option<Step> {
    let mut step = Step::new(stage, title);
    step.sight = Sight::Board;
    let mut take = Counted::default();
    for laid in w.lists.laid.iter().filter(|l| now(l.stretch)) {
        let length = w.loom.stretch(laid.stretch).length.show();
        let between = w.between(laid.stretch);
        match &laid.sleeve {
            Some(Ok(kind)) => {
                let name = &w.stock.sleeves[*kind].name;
                take.add(format!("{length} of {name}"));
                let cut = match laid.parts(w.stock) {
                    true => ", cut where the panel comes, both ends taped",
                    false => ", its ends taped",
                };
                step.act
                    .push(format!("{between}: {name} over the wires{cut}."));
            }
            Some(Err(what)) => step.act.push(format!("{between}: not in stock: {what}.")),
            None if laid.ties > 0 => {
                take.add_many("tie".to_owned(), laid.ties);
                step.act
                    .push(format!("{between}: {} ties, evenly.", laid.ties));
            }
            None => {}
        }
    }
    if step.act.is_empty() {
        return None;
    }
    step.take = take.told();
    step.tools = vec!["tape", "side cutters", "scissors or a hot knife"];
    step.checks = vec![
        "No wire is pulled tight where a branch leaves; the labels at the ends are still to be seen."
            .to_owned(),
    ];
    Some(step)
}
