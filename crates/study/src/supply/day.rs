//! A day of use, stepped through: each part's circuits on, the battery followed minute by minute.

use super::Study;
use super::answers::{Day, DayPart, DayPoint};
use super::endure::circuit_named;
use super::moment::Moment;
use crate::amiss::Amiss;
use crate::state::State;
use plan::{DayPart as Wish, SupplyState};
use quantity::Quantity;

/// Steps of a minute, or coarser so that a long list has no more than this many.
const STEP_H: f64 = 1.0 / 60.0;
const MOST_STEPS: f64 = 2000.0;
/// A battery that gives less than this gives nothing, A.
const NO_DRAW: f64 = 1e-3;

/// Steps through the plan's list; none where the plan has none. It begins with a full battery.
pub(super) fn step_through(s: &Study, wishes: &[Wish]) -> Result<Option<Day>, Amiss> {
    if wishes.is_empty() {
        return Ok(None);
    }
    let whole: f64 = wishes.iter().map(|w| w.hours.value.si() / 3600.0).sum();
    let mut walk = Walk {
        study: s,
        step_h: STEP_H.max(whole / MOST_STEPS),
        hour: 0.0,
        charge: 1.0,
        running: false,
        standing: None,
        day: Day::from_full(),
    };
    for wish in wishes {
        walk.part(wish)?;
    }
    let mut day = walk.day;
    day.to = walk.charge;
    Ok(Some(day))
}

struct Walk<'a> {
    study: &'a Study<'a>,
    step_h: f64,
    hour: f64,
    charge: f64,
    /// Whether the engine runs.
    running: bool,
    /// How relays and cut-outs stand.
    standing: Option<Vec<bool>>,
    day: Day,
}

impl Walk<'_> {
    fn part(&mut self, wish: &Wish) -> Result<(), Amiss> {
        let s = self.study;
        let on: Vec<usize> = wish
            .on
            .iter()
            .filter_map(|n| circuit_named(s, &n.value))
            .collect();
        let state = s.moments.state(wish.supply, &on);
        let starts = match wish.supply {
            SupplyState::Cranking => true,
            SupplyState::Idling | SupplyState::Driving => !self.running,
            _ => false,
        };
        let short = self.charge < s.least || s.never();
        if starts && short && s.moments.design.supply.starter > 0.0 {
            self.day.no_start.push((self.hour, wish.what.clone()));
        }
        self.running = matches!(
            wish.supply,
            SupplyState::Idling | SupplyState::Driving | SupplyState::Cranking
        );
        let (from_h, hours) = (self.hour, wish.hours.value.si() / 3600.0);
        let steps = (hours / self.step_h).ceil().max(1.0);
        let mut into = 0.0;
        for _ in 0..steps as usize {
            into += self.step(&state, &on, hours / steps)?;
        }
        self.hour = from_h + hours;
        self.day.parts.push(DayPart {
            what: wish.what.clone(),
            supply: wish.supply,
            from_h,
            to_h: self.hour,
            on: self.live(&state),
            charge: self.charge,
            amps: into / steps,
        });
        Ok(())
    }

    /// The circuits that are on: those of the list, and what is live always.
    fn live(&self, state: &State) -> Vec<String> {
        let loom = self.study.moments.design.loom;
        let asked = (0..loom.circuits.len()).filter(|c| state.asks(loom, *c));
        asked.map(|c| loom.circuits[c].name.clone()).collect()
    }

    /// One step; gives the current into the battery, A.
    fn step(&mut self, state: &State, on: &[usize], hours: f64) -> Result<f64, Amiss> {
        let s = self.study;
        let m = s.moments.at(state, self.charge, self.standing.as_deref())?;
        self.watch_cutouts(&m, on);
        let mut amps = self.battery_takes(state.supply, &m);
        if self.charge <= s.store.empty_at && amps < 0.0 {
            // Empty: nothing runs until it is charged.
            self.day.flat.get_or_insert(self.hour);
            amps = 0.0;
        }
        let change = match amps >= 0.0 {
            true => s.store.put_back_per_hour(amps),
            false => -s.store.taken_per_hour(-amps),
        };
        self.day.points.push(DayPoint {
            hour: self.hour,
            charge: self.charge,
            volts: m.volts,
            amps,
        });
        self.charge = (self.charge + change * hours).clamp(0.0, 1.0);
        self.hour += hours;
        if self.charge < self.day.lowest.0 {
            self.day.lowest = (self.charge, self.hour);
        }
        self.standing = Some(m.energised);
        Ok(amps)
    }

    /// Current into the battery: what the alternator has left and the battery takes, or what it gives.
    fn battery_takes(&self, supply: SupplyState, m: &Moment) -> f64 {
        let s = self.study;
        let left = match s.moments.design.supply.alternator_amps(supply) {
            Some(gives) => gives - m.alternator,
            None => 0.0,
        };
        match m.battery < NO_DRAW {
            true => s.store.accepts(self.charge, left),
            false => -m.battery,
        }
    }

    /// Notes the cut-outs of circuits that are on and have just let go.
    fn watch_cutouts(&mut self, m: &Moment, on: &[usize]) {
        let loom = self.study.moments.design.loom;
        for c in &loom.circuits {
            let Some(q) = c.cutout else { continue };
            let is_on = c.switch.is_none() || on.iter().any(|o| loom.circuits[*o].name == c.name);
            let was = self.standing.as_ref().is_none_or(|s| s[q.0 as usize]);
            if is_on && was && !m.energised[q.0 as usize] {
                self.day.cut_out.push((self.hour, c.name.clone()));
            }
        }
    }
}
