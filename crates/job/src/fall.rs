//! Where the volts of loads go, as charts.

use crate::Job;
use loom::{Loom, PartKind, PinId};
use quantity::{Quantity, figures};
use sheet::{FallChart, FallKind, FallRow, Sheet};
use study::{FallIn, LoadAnswer};

impl Job {
    /// A chart for every circuit, of that load of it which is nearest to what it may lose; the nearest first.
    pub fn fall_charts(&self) -> Vec<Sheet> {
        let (Some(s), Some(title)) = (self.subject(), self.title()) else {
            return Vec::new();
        };
        let part = |l: &LoadAnswer| l.drop_percent / l.limit_percent.max(1e-9);
        let of_circuit = |i: usize| {
            let mine = s.answers.loads.iter();
            let mine = mine.filter(|l| s.loom.part(l.part).circuit == Some(i));
            mine.max_by(|a, b| part(a).total_cmp(&part(b)).then(b.part.cmp(&a.part)))
        };
        let mut loads: Vec<&LoadAnswer> = (0..s.loom.circuits.len())
            .filter_map(of_circuit)
            .filter(|l| l.amps.abs() > 1e-3)
            .collect();
        loads.sort_by(|a, b| part(b).total_cmp(&part(a)));
        let chart = |l: &LoadAnswer| self.fall_of(l).map(|f| sheet::fall(&f, &title));
        loads.into_iter().filter_map(chart).collect()
    }

    fn fall_of(&self, load: &LoadAnswer) -> Option<FallChart> {
        let s = self.subject()?;
        let (loom, nominal) = (s.loom, s.plan.supply.system.nominal());
        let part = loom.part(load.part);
        let row = |f: &study::Fall| {
            let (kind, name, what) = match f.within {
                FallIn::Wire(id) => {
                    let wire = loom.wire(id);
                    let size = s.stock.conductors[s.answers.choice.wires[id.0 as usize]].size;
                    let what = format!("{size}, {}", long(wire.length.si()));
                    (FallKind::Wire, wire.name.clone(), what)
                }
                FallIn::Between(from, to) => between(loom, from, to),
                FallIn::Load => (FallKind::Load, part.name.clone(), String::new()),
            };
            FallRow {
                kind,
                name,
                what,
                volts: f.volts,
            }
        };
        let falls = study::falls(loom, s.answers, load);
        let allowed = load.limit_percent / 100.0 * nominal;
        Some(FallChart {
            heading: format!("{}, {}", part.name, part.label),
            says: format!(
                "It gets {:.2} V and draws {} A ({}); {:.2} V, {} % of {} V, is lost on the way out and back.",
                load.volts,
                figures(load.amps, 3),
                s.answers.states[load.state].state.name,
                load.drop_percent / 100.0 * nominal,
                figures(load.drop_percent, 3),
                figures(nominal, 3),
            ),
            rows: falls.iter().map(row).collect(),
            limit: (
                allowed,
                format!(
                    "allowed: {allowed:.2} V, {} %",
                    figures(load.limit_percent, 3)
                ),
            ),
        })
    }
}

/// How long a wire's way is; one between parts in one place has none worth telling.
fn long(metres: f64) -> String {
    match metres {
        m if m < 5e-3 => "short".to_owned(),
        m => format!("{} m", figures(m, 3)),
    }
}

/// What stands between two pins that no wire of the loom joins.
fn between(loom: &Loom, from: PinId, to: PinId) -> (FallKind, String, String) {
    let ends = [loom.part_of(from), loom.part_of(to)];
    let vehicles = |kind: &PartKind| matches!(kind, PartKind::Feed(_) | PartKind::Battery { .. });
    let body = matches!(&ends[0].kind, PartKind::Earth(_)) && vehicles(&ends[1].kind);
    if body {
        let ends = format!("from {} to {}", ends[0].name, ends[1].name);
        return (FallKind::Vehicle, "body".to_owned(), ends);
    }
    if vehicles(&ends[0].kind) && vehicles(&ends[1].kind) {
        let what = "the vehicle’s wiring".to_owned();
        return (FallKind::Vehicle, ends[1].name.clone(), what);
    }
    // Of what stands between, the ends that are not the load itself, each once.
    let told = |p: &&loom::Part| !matches!(p.kind, PartKind::Load(_) | PartKind::Box(_));
    let mut names: Vec<&str> = ends
        .iter()
        .filter(|p| told(&&***p))
        .map(|p| p.name.as_str())
        .collect();
    names.dedup();
    let what = match &ends[1].kind {
        PartKind::Fuse(_) => "fuse",
        PartKind::Relay(_) | PartKind::Switch(_) | PartKind::Cutout(_) => "contact",
        _ => "plug",
    };
    (FallKind::Part, names.join(", "), what.to_owned())
}
