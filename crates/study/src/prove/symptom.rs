//! What somebody sees without a meter, in words to choose from; and how likely it is to be said, by what is there.

use super::bench::{Bench, Goes, Suspect};
use loom::{Loom, PartId, PartKind};

/// What is seen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Symptom {
    /// It does nothing when it is switched on.
    Dead(PartId),
    /// It is dim, or runs weakly.
    Weak(PartId),
    /// It works as it should.
    Works(PartId),
    /// It stays on when everything is off.
    StaysOn(PartId),
    /// Nothing works.
    Nothing,
    /// A fuse opens at once.
    BlowsAtOnce(PartId),
    /// A fuse opens after minutes.
    BlowsLater(PartId),
    /// A relay buzzes.
    Buzzes(PartId),
    /// The battery is flat after a week of standing.
    GoesFlat,
    /// It works until it is hot.
    UntilHot(PartId),
}

/// How likely a true thing is to be said, and a thing that is not there: our own.
const SAID: f64 = 0.95;
const NOT_SO: f64 = 0.003;
/// From here up a short opens a fuse at once, times the rating: blade fuses at 350 % within half a second (read).
const AT_ONCE: f64 = 3.5;
/// Heat of a joint that is felt, W: our own.
const FELT: f64 = 2.0;
/// So much more than it should is a battery flat in a week, A: 60 Ah in seven days.
const WEEK: f64 = 0.3;

impl Symptom {
    /// All that can be chosen from, for a loom.
    pub fn all(loom: &Loom) -> Vec<Self> {
        let mut found = vec![Self::Nothing];
        for load in loom.circuits.iter().flat_map(|c| &c.loads) {
            let of = [
                Self::Dead,
                Self::Weak,
                Self::StaysOn,
                Self::UntilHot,
                Self::Works,
            ];
            found.extend(of.map(|of| of(*load)));
        }
        for (id, part) in loom.each_part() {
            match part.kind {
                PartKind::Fuse(_) => found.extend([Self::BlowsAtOnce(id), Self::BlowsLater(id)]),
                PartKind::Relay(_) => found.push(Self::Buzzes(id)),
                _ => {}
            }
        }
        found.push(Self::GoesFlat);
        found
    }

    /// In words.
    pub fn says(self, loom: &Loom) -> String {
        let of = |p: PartId| format!("{} ({})", loom.part(p).name, loom.part(p).label);
        match self {
            Self::Dead(p) => format!("{} does nothing", of(p)),
            Self::Weak(p) => format!("{} is dim or weak", of(p)),
            Self::Works(p) => format!("{} works as it should", of(p)),
            Self::StaysOn(p) => format!("{} stays on", of(p)),
            Self::Nothing => "nothing works".to_owned(),
            Self::BlowsAtOnce(p) => format!("{} opens at once", of(p)),
            Self::BlowsLater(p) => format!("{} opens after minutes", of(p)),
            Self::Buzzes(p) => format!("{} buzzes", of(p)),
            Self::GoesFlat => "the battery is flat after a week".to_owned(),
            Self::UntilHot(p) => format!("{} works until it is hot", of(p)),
        }
    }

    /// The same as it is written and read: "dead E1.1", "opens-at-once F2".
    pub fn word(self, loom: &Loom) -> String {
        let (word, part) = self.parts();
        match part {
            Some(p) => format!("{word} {}", loom.part(p).name),
            None => word.to_owned(),
        }
    }

    fn parts(self) -> (&'static str, Option<PartId>) {
        match self {
            Self::Dead(p) => ("dead", Some(p)),
            Self::Weak(p) => ("weak", Some(p)),
            Self::Works(p) => ("works", Some(p)),
            Self::StaysOn(p) => ("stays-on", Some(p)),
            Self::Nothing => ("nothing-works", None),
            Self::BlowsAtOnce(p) => ("opens-at-once", Some(p)),
            Self::BlowsLater(p) => ("opens-later", Some(p)),
            Self::Buzzes(p) => ("buzzes", Some(p)),
            Self::GoesFlat => ("goes-flat", None),
            Self::UntilHot(p) => ("until-hot", Some(p)),
        }
    }

    /// From the word, if the loom knows it.
    pub fn read(loom: &Loom, word: &str) -> Option<Self> {
        Self::all(loom)
            .into_iter()
            .find(|s| s.word(loom) == word.trim())
    }

    /// How likely it is to be said with something amiss.
    pub(crate) fn likely(self, bench: &Bench, suspect: Suspect) -> f64 {
        let goes = |load: PartId| {
            let at = bench.setting_of(load)?;
            bench.sight(suspect, at).loads.get(&load).copied()
        };
        match self {
            Self::Dead(p) => level(goes(p), [SAID, 0.1, NOT_SO]),
            Self::Weak(p) => level(goes(p), [0.03, 0.9, 0.01]),
            Self::Works(p) => level(goes(p), [NOT_SO, 0.2, SAID]),
            Self::StaysOn(p) => {
                let rest = bench.sight(suspect, 0);
                let sound = bench.sight(Suspect::Nothing, 0);
                let on = rest.loads.get(&p).is_some_and(|g| *g > Goes::Not);
                let always = sound.loads.get(&p).is_some_and(|g| *g > Goes::Not);
                if on && !always { SAID } else { NOT_SO }
            }
            Self::Nothing => {
                let loads = bench.loom().circuits.iter().flat_map(|c| &c.loads);
                let works = |l: &&PartId| goes(**l).is_some_and(|g| g > Goes::Not);
                if loads.filter(works).count() == 0 {
                    SAID
                } else {
                    NOT_SO
                }
            }
            Self::BlowsAtOnce(p) => {
                opens(
                    bench,
                    suspect,
                    p,
                    |times| if times >= AT_ONCE { SAID } else { 0.2 },
                )
            }
            Self::BlowsLater(p) => {
                opens(
                    bench,
                    suspect,
                    p,
                    |times| if times < AT_ONCE { 0.9 } else { 0.1 },
                )
            }
            Self::Buzzes(p) => {
                let circuit = bench.loom().part(p).circuit;
                let at = bench
                    .settings
                    .iter()
                    .position(|s| s.circuit == circuit && circuit.is_some());
                match at.is_some_and(|at| bench.sight(suspect, at).chatters) {
                    true => SAID,
                    false => 0.02,
                }
            }
            Self::GoesFlat => {
                let more = bench.sight(suspect, 0).given - bench.sight(Suspect::Nothing, 0).given;
                let of_battery = bench
                    .each(suspect)
                    .any(|c| matches!(c.kind, "battery-flat" | "not-charged"));
                match (more > WEEK, more > WEEK / 5.0 || of_battery) {
                    (true, _) => 0.9,
                    (_, true) => 0.5,
                    _ => 0.02,
                }
            }
            Self::UntilHot(p) => {
                let felt = bench
                    .setting_of(p)
                    .is_some_and(|at| bench.sight(suspect, at).watts > FELT);
                let joint = bench.each(suspect).any(|c| c.kind.ends_with("poor"));
                match (felt, joint) {
                    (true, _) => 0.6,
                    (_, true) => 0.15,
                    _ => 0.03,
                }
            }
        }
    }
}

/// By how a load goes: not, weakly, well.
fn level(goes: Option<Goes>, by: [f64; 3]) -> f64 {
    match goes {
        Some(Goes::Not) | None => by[0],
        Some(Goes::Weakly) => by[1],
        Some(Goes::Well) => by[2],
    }
}

fn opens(bench: &Bench, suspect: Suspect, fuse: PartId, by: impl Fn(f64) -> f64) -> f64 {
    let circuit = bench.loom().part(fuse).circuit;
    let settings = bench.settings.iter().enumerate();
    let there = settings.filter(|(i, s)| {
        *i == 0
            || (s.circuit == circuit && circuit.is_some())
            || (circuit.is_none() && s.circuit.is_some())
    });
    let most = there
        .flat_map(|(i, _)| bench.sight(suspect, i).opened.clone())
        .filter(|(f, _)| *f == fuse)
        .map(|(_, times)| times)
        .fold(0.0, f64::max);
    match most > 0.0 {
        true => by(most),
        // One that is found open, and of which it is not known when it opened.
        false
            if bench
                .each(suspect)
                .any(|c| c.kind == "fuse-open" && c.at == bench.loom().part(fuse).name) =>
        {
            0.05
        }
        false => NOT_SO,
    }
}
