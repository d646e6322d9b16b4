//! The drawings of faults: what fails against what it does to each load, one fault in time, each fuse against its wire.

use crate::Job;
use finding::Weight;
use loom::{Loom, PartId, WireId};
use quantity::{Quantity, figures};
use sheet::{
    Cell, CoordinationNames, FaultInTime, FaultMatrix, Line, MatrixRow, MatrixWeight, Plot, Sheet,
};
use study::{FAULTS, FaultDetail, Outcome, Protection, Trial, Tries};

/// Lines that a plot can hold and still be told apart.
const LINES: usize = 6;

/// What all faults of a plan are drawn as.
#[derive(Clone, Debug, Default)]
pub struct FaultDrawings {
    /// What fails, by what it does to each load.
    pub matrix: Vec<Sheet>,
    /// Each fuse against each of its wires, those with least to spare first.
    pub charts: Vec<Sheet>,
}

/// Charts of fuse and wire that a page shows; the others are drawings of their own.
const TIGHTEST: usize = 3;

impl FaultDrawings {
    /// Those of the fuses that have least to spare.
    pub(crate) fn tightest(&self) -> &[Sheet] {
        &self.charts[..TIGHTEST.min(self.charts.len())]
    }
}

impl Job {
    /// What fails, by what it does to each load; faults that nobody notices are left out.
    fn fault_matrix(&self, tries: &Tries) -> Vec<Sheet> {
        let (Some(loom), Some(title)) = (self.loom(), self.title()) else {
            return Vec::new();
        };
        let loads: Vec<PartId> = loom
            .circuits
            .iter()
            .flat_map(|c| c.loads.iter().copied())
            .collect();
        let name = |p: &PartId| {
            let part = loom.part(*p);
            format!("{} {}", part.name, part.label)
        };
        let mut trials: Vec<&Trial> = tries.worst.iter().flatten().collect();
        trials.retain(|t| t.outcome != Outcome::Nothing);
        trials.sort_by_key(|t| t.case);
        let stops: Vec<usize> = study::told(loom, tries)
            .into_iter()
            .filter(|f| f.finding.weight == Weight::Stop)
            .flat_map(|f| f.trials)
            .collect();
        let row = |t: &&Trial| {
            let case = &tries.cases[t.case];
            let cell = |p: &PartId| match () {
                () if t.unasked.contains(p) => Cell::Unasked,
                () if t.harms.iter().any(|h| h.0 == *p) => Cell::Harmed,
                () if t.dead.contains(p) => Cell::Lost,
                () => Cell::None,
            };
            MatrixRow {
                kind: FAULTS[case.kind].what.to_owned(),
                at: case.at.clone(),
                outcome: t.outcome.word().to_owned(),
                weight: weight(t.outcome, stops.contains(&t.case)),
                cells: loads.iter().map(cell).collect(),
            }
        };
        let m = FaultMatrix {
            columns: loads.iter().map(name).collect(),
            rows: trials.iter().map(row).collect(),
        };
        sheet::matrix(&m, &title)
    }

    /// What happens after a fault: currents, temperatures, voltages.
    pub fn fault_chart(&self, d: &FaultDetail) -> Option<Sheet> {
        let (loom, title) = (self.loom()?, self.title()?);
        // Before a second moment there is nothing to draw.
        if d.moments.len() < 2 {
            return None;
        }
        let (fuses, wires) = most(loom, d);
        let mut amps: Vec<Line> = fuses
            .iter()
            .map(|f| Line {
                name: loom.part(*f).name.clone(),
                values: each(d, |m| m.fuses.iter().find(|x| x.0 == *f).map(|x| x.1)),
                limit: None,
            })
            .collect();
        amps.extend(wires.iter().map(|w| Line {
            name: loom.wire(*w).name.clone(),
            values: each(d, |m| m.wires.iter().find(|x| x.0 == *w).map(|x| x.2)),
            limit: None,
        }));
        amps.truncate(LINES);
        let celsius = wires.iter().map(|w| Line {
            name: loom.wire(*w).name.clone(),
            values: each(d, |m| {
                m.wires.iter().find(|x| x.0 == *w).map(|x| x.1 - 273.15)
            }),
            limit: self.damage_celsius(*w),
        });
        let volts = moving(d).into_iter().map(|p| Line {
            name: loom.part(p).name.clone(),
            values: each(d, |m| m.loads.iter().find(|x| x.0 == p).map(|x| x.1)),
            limit: None,
        });
        let plot = |title: &str, unit: &str, lines: Vec<Line>| Plot {
            title: title.to_owned(),
            unit: unit.to_owned(),
            whole: unit != "°C",
            lines,
        };
        let opens = d
            .trial
            .opened
            .iter()
            .map(|(f, t)| (*t, format!("{} opens", study::fuse_words(loom, *f))));
        let harmed = d.trial.harmed.zip(d.trial.seconds);
        let harmed = harmed.map(|(w, t)| (t, format!("{} harmed", loom.wire(w).name)));
        let last = d.moments.last().map_or(0.0, |m| m.seconds);
        let chart = FaultInTime {
            heading: d.case.says.clone(),
            says: d.trial.says.clone(),
            seconds: d.moments.iter().map(|m| m.seconds).collect(),
            plots: vec![
                plot("currents", "A", amps),
                plot("copper of the wires", "°C", celsius.collect()),
                plot("voltage across loads", "V", volts.collect()),
            ],
            events: opens
                .chain(harmed)
                .filter(|(t, _)| *t <= last * 1.001)
                .collect(),
        };
        Some(sheet::fault_in_time(&chart, &title))
    }

    /// Where a wire's insulation is harmed at once, °C.
    fn damage_celsius(&self, wire: WireId) -> Option<f64> {
        let answer = &self.answers()?.wires[wire.0 as usize];
        let insulation = &self.stock().conductors[answer.conductor].insulation;
        Some(self.stock().insulation(insulation)?.damage.si() - 273.15)
    }

    /// All drawings of all faults.
    pub fn fault_drawings(&self, tries: &Tries, p: Option<&Protection>) -> FaultDrawings {
        FaultDrawings {
            matrix: self.fault_matrix(tries),
            charts: p.map_or_else(Vec::new, |p| self.protection_charts(p)),
        }
    }

    /// One chart for each fuse and wire that it protects, those with least to spare first.
    pub(crate) fn protection_charts(&self, p: &Protection) -> Vec<Sheet> {
        let (Some(loom), Some(title), Some(answers)) = (self.loom(), self.title(), self.answers())
        else {
            return Vec::new();
        };
        let margin = |c: &study::Coordination| c.margin.map_or(f64::INFINITY, |m| m.0);
        let mut pairs: Vec<&study::Coordination> = p.pairs.iter().collect();
        pairs.sort_by(|a, b| margin(a).total_cmp(&margin(b)));
        let each = pairs.into_iter().map(|c| {
            let fuse = loom.part(c.fuse);
            let class = answers.fuses.iter().find(|f| f.part == c.fuse);
            let class = class.map_or("", |f| self.stock().fuses[f.kind].name.as_str());
            let conductor = &self.stock().conductors[answers.wires[c.wire.0 as usize].conductor];
            let fed = fuse
                .circuit
                .map_or(fuse.label.as_str(), |i| loom.circuits[i].name.as_str());
            let names = CoordinationNames {
                fuse: format!("{}, {} A {class}", fuse.name, figures(c.rating, 3)),
                wire: format!(
                    "{}, {} {}",
                    loom.wire(c.wire).name,
                    conductor.size,
                    conductor.insulation
                ),
                load: fed.to_owned(),
            };
            sheet::coordination(c, &names, &title)
        });
        each.collect()
    }
}

/// As its finding weighs, if that stops; else by its outcome.
fn weight(outcome: Outcome, stops: bool) -> MatrixWeight {
    match outcome {
        _ if stops => MatrixWeight::Stop,
        Outcome::Overheats => MatrixWeight::Note,
        Outcome::Unasked | Outcome::WrongFuse | Outcome::HarmsLoad | Outcome::Drains => {
            MatrixWeight::Mend
        }
        Outcome::OpensLate | Outcome::Dead => MatrixWeight::Note,
        Outcome::Opens | Outcome::Nothing => MatrixWeight::None,
    }
}

fn each(d: &FaultDetail, of: impl Fn(&study::Moment) -> Option<f64>) -> Vec<Option<f64>> {
    d.moments.iter().map(of).collect()
}

/// The fuses that ran, and the wires that got hottest.
fn most(loom: &Loom, d: &FaultDetail) -> (Vec<PartId>, Vec<WireId>) {
    let mut fuses: Vec<PartId> = Vec::new();
    let mut wires: Vec<(WireId, f64)> = Vec::new();
    for m in &d.moments {
        for (f, _) in &m.fuses {
            if !fuses.contains(f) {
                fuses.push(*f);
            }
        }
        for (w, kelvin, _) in &m.wires {
            match wires.iter_mut().find(|x| x.0 == *w) {
                Some(x) => x.1 = x.1.max(*kelvin),
                None => wires.push((*w, *kelvin)),
            }
        }
    }
    // Where the fault is first, then the hottest.
    let elsewhere = |w: WireId| !d.case.names.contains(&loom.wire(w).name);
    wires.sort_by(|a, b| {
        let place = elsewhere(a.0).cmp(&elsewhere(b.0));
        place.then(b.1.total_cmp(&a.1))
    });
    (fuses, wires.into_iter().take(LINES).map(|w| w.0).collect())
}

/// The loads whose voltage differs most from nothing and from one another, a few of them.
fn moving(d: &FaultDetail) -> Vec<PartId> {
    let Some(first) = d.moments.first() else {
        return Vec::new();
    };
    let swing = |p: PartId| {
        let volts = d
            .moments
            .iter()
            .filter_map(|m| m.loads.iter().find(|x| x.0 == p).map(|x| x.1));
        volts.fold(0.0_f64, |most, v| most.max(v.abs()))
    };
    let mut loads: Vec<(PartId, f64)> = first.loads.iter().map(|(p, _)| (*p, swing(*p))).collect();
    loads.sort_by(|a, b| b.1.total_cmp(&a.1).then(a.0.cmp(&b.0)));
    let kept = loads.into_iter().filter(|l| l.1 > 0.1).take(LINES);
    kept.map(|l| l.0).collect()
}
