//! A loom with everything that may be amiss in it, and what is read then: solved when first asked for, and kept.

use super::cause::{self, Cause};
use super::probe::Probe;
use super::probings::{self, Test};
use super::reading::{Found, Reads};
use super::setting::{self, Setting};
use crate::answers::Answers;
use crate::change::Change;
use crate::design::{Design, Habits};
use crate::heat::Heat;
use crate::settle::{View, glance_as, settle_as};
use crate::{on, state::State};
use loom::{Loom, PartId, WireId};
use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, PoisonError};
use stock::Stock;

/// What may be amiss: nothing, one cause in one version of it, or two.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Suspect {
    /// Nothing.
    Nothing,
    /// A cause and its version.
    One(usize, usize),
    /// Two.
    Two((usize, usize), (usize, usize)),
}

impl Suspect {
    /// Its causes, by index.
    pub fn causes(self) -> Vec<usize> {
        match self {
            Self::Nothing => Vec::new(),
            Self::One(c, _) => vec![c],
            Self::Two(a, b) => vec![a.0, b.0],
        }
    }
}

/// What is seen in a setting without a meter, with something amiss or nothing.
#[derive(Clone, Debug, Default)]
pub(crate) struct Sight {
    /// By load that is noticed: how it goes.
    pub loads: BTreeMap<PartId, Goes>,
    /// By load: volts and amperes that it gets.
    gets: BTreeMap<PartId, (f64, f64)>,
    /// Fuses that opened, with how many times their rating they carried.
    pub opened: Vec<(PartId, f64)>,
    /// Whether a relay never comes to rest.
    pub chatters: bool,
    /// Heat that what is amiss makes where it is, W.
    pub watts: f64,
    /// What the battery gives, A.
    pub given: f64,
}

/// How a load goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Goes {
    /// Nobody would notice that it does anything.
    Not,
    /// Clearly less than it should.
    Weakly,
    /// As it should.
    Well,
}

/// Below this part of its sound voltage a load goes weakly: a filament has a quarter less light at 0.92, our own.
const WEAK: f64 = 0.92;
/// The same of its current, where it is the load itself that is otherwise.
const WEAK_AMPS: f64 = 0.7;
/// Below this part of its sound current it does nothing that anybody sees.
const DEAD_AMPS: f64 = 0.05;

/// What concerns the whole supply is looked for in so many circuits: more tell no more.
const SOME: usize = 3;

/// A loom to be proved, as it is worked out.
pub struct Bench<'a> {
    pub(crate) d: Design<'a>,
    /// What is switched on while one measures.
    pub settings: Vec<Setting>,
    /// What can be measured.
    pub tests: Vec<Test>,
    /// What may be amiss.
    pub causes: Vec<Cause>,
    kept: Kept,
}

/// What was solved already, shared by every bench of the same loom.
#[derive(Clone, Default)]
pub struct Kept(Arc<Mutex<Known>>);

#[derive(Default)]
struct Known {
    heats: BTreeMap<usize, Arc<Heat>>,
    sights: BTreeMap<(Suspect, usize), Arc<Sight>>,
    reads: BTreeMap<(Suspect, usize), Arc<Vec<Reads>>>,
}

impl<'a> Bench<'a> {
    /// The bench of a loom that is answered.
    pub fn new(loom: &'a Loom, stock: &'a Stock, habits: &'a Habits, answers: &Answers) -> Self {
        let d = Design::answered(loom, stock, habits, answers);
        let settings = setting::all(&d, answers);
        let tests = probings::all(&d, &settings);
        let causes = cause::all(&d);
        Self {
            settings,
            tests,
            causes,
            d,
            kept: Kept::default(),
        }
    }

    /// With what another bench of the same loom has solved.
    pub fn knowing(self, kept: &Kept) -> Self {
        Self {
            kept: kept.clone(),
            ..self
        }
    }

    fn lock(&self) -> std::sync::MutexGuard<'_, Known> {
        self.kept.0.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// The loom.
    pub fn loom(&self) -> &'a Loom {
        self.d.loom
    }

    /// Nominal voltage of the vehicle, V.
    pub fn nominal(&self) -> f64 {
        self.d.nominal()
    }

    /// What a wire resists with its joints at 20 °C, Ω.
    pub fn wire_ohms(&self, wire: WireId) -> f64 {
        let copper = self.d.copper_ohms(wire, self.d.conductor(wire), 293.15);
        copper + self.d.joint_ohms(wire)
    }

    /// The wire that rises furthest above what is around it in a setting that stays, and by how much, K.
    pub fn warmest(&self, setting: usize) -> Option<(&str, f64)> {
        let (d, heat) = (&self.d, self.heat(setting));
        let supply = self.state(setting).supply;
        let rises = d.loom.each_wire().map(|(id, w)| {
            let around = w
                .places
                .iter()
                .map(|p| d.around(supply, *p))
                .fold(0.0, f64::max);
            (w.name.as_str(), heat.mean[id.0 as usize] - around)
        });
        rises
            .max_by(|a, b| a.1.total_cmp(&b.1))
            .filter(|(_, rise)| *rise >= 1.0)
    }

    /// The probings of a setting, by index.
    pub(crate) fn of_setting(&self, setting: usize) -> std::ops::Range<usize> {
        let from = self.tests.partition_point(|t| t.setting < setting);
        let to = self.tests.partition_point(|t| t.setting <= setting);
        from..to
    }

    /// The setting that a load is switched on alone in.
    pub(crate) fn setting_of(&self, load: PartId) -> Option<usize> {
        let circuit = self.d.loom.part(load).circuit;
        self.settings
            .iter()
            .position(|s| s.circuit == circuit && circuit.is_some())
    }

    /// The causes of something amiss.
    pub(crate) fn each(&self, suspect: Suspect) -> impl Iterator<Item = &Cause> {
        suspect.causes().into_iter().map(|c| &self.causes[c])
    }

    /// What a probing reads with something amiss.
    pub(crate) fn reads(&self, suspect: Suspect, test: usize) -> Reads {
        let setting = self.tests[test].setting;
        let from = self.of_setting(setting).start;
        self.readings(suspect, setting)[test - from].clone()
    }

    /// What every probing of a setting reads with something amiss.
    pub(crate) fn readings(&self, suspect: Suspect, setting: usize) -> Arc<Vec<Reads>> {
        let amiss = self.shows(suspect, setting);
        if let Some(reads) = self.lock().reads.get(&(amiss, setting)) {
            return Arc::clone(reads);
        }
        let tests = &self.tests[self.of_setting(setting)];
        let probes: Vec<Probe> = tests.iter().map(|t| t.probe).collect();
        let reads = Arc::new(self.found(amiss, setting).read(&probes));
        self.lock()
            .reads
            .insert((amiss, setting), Arc::clone(&reads));
        reads
    }

    /// What a probing is expected to read with something amiss, in the unit of its probe.
    pub fn expected(&self, suspect: Suspect, test: usize) -> f64 {
        let value = self.reads(suspect, test).value;
        self.tests[test].probe.unscale(&self.d.limits, value)
    }

    /// What shows in a setting of something amiss: of what is switched off there, and shows only while it is on, nothing.
    fn shows(&self, suspect: Suspect, setting: usize) -> Suspect {
        let state = self.state(setting);
        let own = self.settings[setting].circuit;
        let unseen = |(cause, _): (usize, usize)| {
            let c = &self.causes[cause];
            if c.circuits.is_empty() || own.is_some_and(|o| c.circuits.contains(&o)) {
                return false;
            }
            // In the setting of another circuit, or of the whole: what is on there, or shows while it is off.
            let asked = c.circuits.iter().any(|i| state.asks(self.d.loom, *i));
            !(asked || c.shows_off && own.is_none())
        };
        match suspect {
            Suspect::One(c, v) if unseen((c, v)) => Suspect::Nothing,
            Suspect::Two(a, b) => match (unseen(a), unseen(b)) {
                (true, true) => Suspect::Nothing,
                (true, false) => Suspect::One(b.0, b.1),
                (false, true) => Suspect::One(a.0, a.1),
                _ => suspect,
            },
            _ => suspect,
        }
    }

    /// The settings in which something amiss shows at its best: its own circuits', at rest, and of what concerns the whole
    /// supply the first few; with the engine running what charges it alone, since a network with so much on is slow.
    pub(crate) fn showing(&self, suspect: Suspect) -> Vec<usize> {
        let whole = self.each(suspect).any(|c| c.circuits.is_empty());
        let charges = |c: &Cause| matches!(c.kind, "not-charged" | "battery-flat");
        let charged = self.each(suspect).any(charges);
        let own: Vec<usize> = self
            .each(suspect)
            .flat_map(|c| c.circuits.iter().copied())
            .collect();
        let each = self.settings.iter().enumerate();
        each.filter(|(i, s)| match s.circuit {
            None => *i == 0 || charged,
            Some(c) => own.contains(&c) || (whole && *i <= SOME),
        })
        .map(|(i, _)| i)
        .collect()
    }

    /// The changes that something amiss is.
    pub(crate) fn changes(&self, amiss: Suspect) -> Vec<Change> {
        let one = |(cause, version): (usize, usize)| self.causes[cause].versions[version].change;
        match amiss {
            Suspect::Nothing => Vec::new(),
            Suspect::One(cause, version) => vec![one((cause, version))],
            Suspect::Two(a, b) => vec![one(a), one(b)],
        }
    }

    fn state(&self, setting: usize) -> &State {
        &self.settings[setting].state
    }

    /// How warm the wires of a setting get.
    fn heat(&self, setting: usize) -> Arc<Heat> {
        if let Some(heat) = self.lock().heats.get(&setting) {
            return Arc::clone(heat);
        }
        let d = &self.d;
        let even = Arc::new(Heat::even(
            d.loom.wires.len(),
            d.around(self.state(setting).supply, d.loom.parts[0].place),
        ));
        let view = View {
            today: true,
            ..View::default()
        };
        let glance = glance_as(d, self.state(setting), view, &even, None);
        let heat = settle_as(d, self.state(setting), view, Some(&glance)).heat;
        self.lock().heats.insert(setting, Arc::clone(&heat));
        heat
    }

    /// A setting with something amiss, solved.
    pub(crate) fn found(&self, amiss: Suspect, setting: usize) -> Found<'_> {
        let heat = self.heat(setting);
        Found::new(&self.d, self.state(setting), &self.changes(amiss), &heat)
    }

    /// What is seen in a setting with something amiss.
    pub(crate) fn sight(&self, suspect: Suspect, setting: usize) -> Arc<Sight> {
        let amiss = self.shows(suspect, setting);
        if let Some(sight) = self.lock().sights.get(&(amiss, setting)) {
            return Arc::clone(sight);
        }
        let found = self.found(amiss, setting);
        let sound = (amiss != Suspect::Nothing).then(|| self.sight(Suspect::Nothing, setting));
        let loads = self.d.loom.circuits.iter().flat_map(|c| &c.loads);
        let gets: BTreeMap<PartId, (f64, f64)> = loads.map(|l| (*l, gets(&found, *l))).collect();
        let loads = gets.iter().map(|(l, gets)| {
            let sound = sound.as_ref().and_then(|s| s.gets.get(l));
            let on = on::load_on(&self.d, &found.settled, *l);
            (*l, goes(on, *gets, sound))
        });
        let sight = Arc::new(Sight {
            loads: loads.collect(),
            gets,
            chatters: !found.settled.chatter.is_empty(),
            watts: watts(&found),
            given: found.settled.given,
            opened: found.opened.clone(),
        });
        self.lock()
            .sights
            .insert((amiss, setting), Arc::clone(&sight));
        sight
    }
}

/// What a load gets: volts and amperes.
fn gets(found: &Found, load: PartId) -> (f64, f64) {
    let pins = &found.d.loom.part(load).pins;
    let volts = found.settled.across(pins[0], pins[1]);
    (volts, found.settled.part_amps[load.0 as usize])
}

/// How a load goes with what it gets, beside what it gets in a sound vehicle.
fn goes(on: bool, (volts, amps): (f64, f64), sound: Option<&(f64, f64)>) -> Goes {
    match sound {
        _ if !on => Goes::Not,
        Some((_, a)) if amps < DEAD_AMPS * a => Goes::Not,
        Some((v, a)) if volts < WEAK * v || amps < WEAK_AMPS * a => Goes::Weakly,
        _ => Goes::Well,
    }
}

/// Heat of what resists where it should not, W.
fn watts(found: &Found) -> f64 {
    let each = found.changes.iter().filter_map(|c| c.joint);
    each.map(|(poor, ohms)| found.settled.through_joint(poor).powi(2) * ohms)
        .sum()
}
