//! The circuit as it is in a state that somebody chose: pressed on the drawing, solved again, drawn again.

use crate::Job;
use loom::{Part, PartId, PartKind, WireId};
use quantity::figures;
use sheet::{Going, Sheet, Tip, Worked};
use std::collections::{BTreeMap, BTreeSet};
use study::{Chosen, Position, State, StateAnswer};

/// Below this nothing is said to flow, A.
const STILL: f64 = 1e-3;

/// What a press on the drawing asks for.
#[derive(Clone, Debug)]
pub enum Press<'a> {
    /// Another state.
    State(Chosen),
    /// A fault at this wire or part.
    Strike(&'a str),
    /// Why this wire or part is as it is.
    Why(&'a str),
}

/// What faults are looked for on the drawing.
#[derive(Clone, Debug, Default)]
pub struct Aim {
    /// Where one can be made, by name, and what it would be.
    pub can: BTreeMap<String, String>,
    /// Where one was made, and what it struck.
    pub struck: Vec<String>,
    /// Fuses that opened.
    pub opened: Vec<String>,
    /// What is to be found on the drawing: wires, parts, circuits, places, by name.
    pub shown: Vec<String>,
}

/// A state that was chosen, as it is drawn.
#[derive(Clone, Debug)]
pub struct Live {
    /// The state with its network solved.
    pub seen: StateAnswer,
    /// The drawing.
    pub sheets: Vec<Sheet>,
}

impl Job {
    /// A state that somebody chose, solved. None of a plan that can't be read or built.
    pub fn look(&self, chosen: &Chosen) -> Option<StateAnswer> {
        let habits = self.habits()?;
        let (loom, answers) = (self.loom()?, self.answers()?);
        Some(study::look(loom, self.stock(), habits, answers, chosen))
    }

    /// The same, drawn. `href`: where what a press asks for is to be had.
    pub fn live(
        &self,
        chosen: &Chosen,
        aim: &Aim,
        href: &dyn Fn(&Press) -> String,
    ) -> Option<Live> {
        self.drawn(chosen, (aim, &[]), Some(href))
    }

    /// A state with names marked, on the sheets where they stand, to be looked at and not pressed.
    pub(crate) fn marked(&self, state: &State, names: &[String], tips: &[Tip]) -> Vec<Sheet> {
        let chosen = Chosen {
            supply: state.supply,
            positions: state.positions.clone(),
            signals: state.signals.clone(),
        };
        let aim = Aim {
            shown: names.to_vec(),
            ..Aim::default()
        };
        let live = self.drawn(&chosen, (&aim, tips), None);
        let mut sheets = live.map_or_else(Vec::new, |live| live.sheets);
        let there = |s: &Sheet| {
            let is = |name: &String| s.svg.contains(&format!("data-of=\"{name}\""));
            names.iter().any(is)
        };
        sheets.retain(there);
        sheets
    }

    fn drawn(
        &self,
        chosen: &Chosen,
        (aim, tips): (&Aim, &[Tip]),
        href: Option<&dyn Fn(&Press) -> String>,
    ) -> Option<Live> {
        let seen = self.look(chosen)?;
        let (s, title) = (self.subject()?, self.title()?);
        let parts: BTreeMap<&str, PartId> = s
            .loom
            .each_part()
            .map(|(id, p)| (p.name.as_str(), id))
            .collect();
        let wires: BTreeMap<&str, WireId> = s
            .loom
            .each_wire()
            .map(|(id, w)| (w.name.as_str(), id))
            .collect();
        let rests = seen.settled.rests();
        let shown = self.parts_of(&aim.shown);
        let going = |name: &str| {
            let mut going = match (wires.get(name), parts.get(name)) {
                (Some(wire), _) => self.wire_going(&seen, *wire),
                (None, Some(part)) => {
                    let mut going = self.part_going(&seen, *part);
                    going.press = href.and_then(|href| self.press(chosen, *part, href));
                    going
                }
                (None, None) => return Going::default(),
            };
            going.more = href.map(|href| (href(&Press::Why(name)), going.says.clone()));
            if !rests {
                // What is not known is not shown as nothing.
                going.carries = false;
                going.says = format!("{name}: no figures, since this state does not come to rest");
            }
            if let Some((what, href)) = aim.can.get(name).zip(href) {
                let says = format!("{name}: press for “{what}”");
                going.press = Some((href(&Press::Strike(name)), says));
            }
            let in_list = |list: &[String]| list.iter().any(|n| n == name);
            going.struck = in_list(&aim.struck);
            going.shown = shown.contains(name);
            if in_list(&aim.opened) {
                going.struck = true;
                going.says += "; it opens";
            }
            going
        };
        let sheets = sheet::circuit_live((s.loom, s.answers, s.stock), &title, &going, tips);
        Some(Live { seen, sheets })
    }

    /// Names of wires and parts; those of a circuit and of a place where the name is one of these.
    fn parts_of(&self, names: &[String]) -> BTreeSet<String> {
        let mut found: BTreeSet<String> = names.iter().cloned().collect();
        let Some(loom) = self.loom() else {
            return found;
        };
        let asked = |name: &str| names.iter().any(|n| n == name);
        for (_, part) in loom.each_part() {
            let circuit = part.circuit.map(|c| loom.circuits[c].name.as_str());
            let of_circuit = circuit.is_some_and(asked);
            if of_circuit || asked(&loom.place(part.place).name) || asked(&part.label) {
                found.insert(part.name.clone());
            }
        }
        found
    }

    fn wire_going(&self, seen: &StateAnswer, id: WireId) -> Going {
        let (Some(loom), Some(answers)) = (self.loom(), self.answers()) else {
            return Going::default();
        };
        let (wire, settled) = (loom.wire(id), &seen.settled);
        let at = id.0 as usize;
        let amps = settled.wire_amps[at].abs();
        let size = self.stock().conductors[answers.choice.wires[at]].size;
        let from = settled.volts[wire.from.0 as usize];
        let says = match from {
            None => format!("{}, {size}: nothing reaches it", wire.name),
            Some(from) => {
                let lost = (settled.at(wire.from) - settled.at(wire.to)).abs();
                format!(
                    "{}, {size}: {}, {lost:.3} V lost, at {from:.2} V, {:.0} °C",
                    wire.name,
                    ampere(amps),
                    settled.heat.hottest[at] - 273.15
                )
            }
        };
        Going {
            carries: amps > STILL,
            says,
            ..Going::default()
        }
    }

    fn part_going(&self, seen: &StateAnswer, id: PartId) -> Going {
        let Some(loom) = self.loom() else {
            return Going::default();
        };
        let (part, settled) = (loom.part(id), &seen.settled);
        let amps = settled.part_amps[id.0 as usize].abs();
        let across = |part: &Part| {
            let ends = (part.pins.first(), part.pins.get(1));
            ends.0
                .zip(ends.1)
                .map_or(0.0, |(a, b)| settled.across(*a, *b).abs())
        };
        let pulled = settled.energised[id.0 as usize];
        let (worked, how) = match &part.kind {
            PartKind::Relay(_) if pulled => (
                Worked::On,
                format!("pulled in, its contact carries {}", ampere(amps)),
            ),
            PartKind::Relay(_) => (Worked::Rest, "at rest".to_owned()),
            PartKind::Cutout(_) if pulled => (Worked::On, format!("in, carries {}", ampere(amps))),
            PartKind::Cutout(_) => (Worked::Rest, "out".to_owned()),
            PartKind::Switch(_) => {
                let at = part.circuit.and_then(|c| seen.state.positions.get(c));
                match at {
                    Some(Position::On) => (Worked::On, "on".to_owned()),
                    Some(Position::Auto) => (Worked::Auto, "on auto".to_owned()),
                    _ => (Worked::Rest, "off".to_owned()),
                }
            }
            PartKind::Load(_) => {
                let volts = across(part);
                let how = match amps > STILL {
                    true => format!("{} at {volts:.2} V", ampere(amps)),
                    false => "off".to_owned(),
                };
                (Worked::Rest, how)
            }
            PartKind::Fuse(_) => (Worked::Rest, format!("carries {}", ampere(amps))),
            PartKind::Battery { .. } => {
                let posts = settled.across(part.pins[0], part.pins[1]);
                (
                    Worked::Rest,
                    format!("{posts:.2} V, gives {}", ampere(settled.given)),
                )
            }
            PartKind::Signal(_) => {
                let there = seen.state.signals.contains(&id);
                (
                    Worked::Rest,
                    if there { "there" } else { "not there" }.to_owned(),
                )
            }
            _ => (Worked::Rest, String::new()),
        };
        let says = match how.is_empty() {
            true => format!("{} ({})", part.name, part.label),
            false => format!("{} ({}): {how}", part.name, part.label),
        };
        Going {
            carries: amps > STILL,
            worked,
            says,
            ..Going::default()
        }
    }

    /// Where a press on a part leads.
    fn press(
        &self,
        chosen: &Chosen,
        id: PartId,
        href: &dyn Fn(&Press) -> String,
    ) -> Option<(String, String)> {
        let loom = self.loom()?;
        let part = loom.part(id);
        match &part.kind {
            PartKind::Switch(_) => {
                let circuit = part.circuit?;
                let next = chosen.pressed(loom, circuit);
                let to = match next.positions[circuit] {
                    Position::On => "on",
                    Position::Auto => "auto",
                    Position::Off => "off",
                };
                Some((
                    href(&Press::State(next)),
                    format!("{} ({}): press for {to}", part.name, part.label),
                ))
            }
            PartKind::Signal(_) => {
                let mut next = chosen.clone();
                let there = next.signals.contains(&id);
                next.signals.retain(|s| *s != id);
                if !there {
                    next.signals.push(id);
                }
                let to = if there { "taken away" } else { "there" };
                Some((
                    href(&Press::State(next)),
                    format!("{} ({}): press for {to}", part.name, part.label),
                ))
            }
            _ => None,
        }
    }
}

fn ampere(amps: f64) -> String {
    match amps.abs() {
        a if a < STILL => "no current".to_owned(),
        a if a < 1.0 => format!("{} mA", figures(a * 1e3, 3)),
        a => format!("{} A", figures(a, 3)),
    }
}
