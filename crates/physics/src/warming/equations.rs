//! The system of a run in the form that the integrator asks for: rates, slopes, events. Backward
//! differentiation of changing order and step (`diffsol`), with a sparse factor.

use super::run::{Care, End, Run, Sample};
use super::{Currents, Section};
use crate::conductor::{COPPER_ALPHA, resistance_at};
use crate::fuse_clock::opening_band;
use diffsol::{
    DiffsolError, FaerSparseLU, FaerSparseMat, OdeBuilder, OdeSolverMethod, OdeSolverStopReason,
    Vector,
};
use std::cell::RefCell;
use std::ops::ControlFlow;

/// The first step is as long as the quickest shell takes for this many kelvin.
const FIRST_K: f64 = 0.2;

/// How exactly a step is solved, over the error allowed in it: heat is kept to as much, and a pass costs little.
const EXACT: f64 = 1e-4;

/// A run with its currents, ready to be asked for rates.
pub(super) struct System<'a> {
    run: &'a Run,
    currents: &'a dyn Currents,
    /// Piece, section, first shell.
    places: Vec<(usize, usize, usize)>,
    heat: usize,
    room: RefCell<Room>,
}

/// Room to work in.
#[derive(Default)]
struct Room {
    ohms: Vec<f64>,
    amps: Vec<f64>,
    /// By piece: heat per metre where it is hottest, which its neighbours get.
    made: Vec<f64>,
    /// The state that `steep` belongs to: a matrix is asked for by many changes at one state.
    steep_at: Vec<f64>,
    /// By section: how much more its copper makes and its skin sheds for each kelvin, W/(m·K).
    steep: Vec<(f64, f64)>,
}

impl<'a> System<'a> {
    pub(super) fn new(run: &'a Run, currents: &'a dyn Currents) -> Self {
        Self {
            run,
            currents,
            places: run.places(),
            heat: run.heat_size(),
            room: RefCell::default(),
        }
    }

    fn section(&self, piece: usize, section: usize) -> &(Section, f64) {
        &self.run.pieces[piece].sections[section]
    }

    /// The first piece and section that is past its damage limit.
    pub(super) fn damaged(&self, values: &[f64]) -> Option<(usize, usize)> {
        let past =
            |(p, _, at): &&(usize, usize, usize)| values[*at] >= self.run.pieces[*p].damage_k;
        self.places.iter().find(past).map(|(p, s, _)| (*p, *s))
    }

    /// Works the currents out.
    fn flow(&self, values: &[f64], room: &mut Room) {
        room.ohms.clear();
        room.made.clear();
        for piece in &self.run.pieces {
            room.ohms.push(piece.joints_ohms);
            room.made.push(0.0);
        }
        for &(p, s, at) in &self.places {
            let (_, length) = self.section(p, s);
            let r = resistance_at(self.run.pieces[p].r20_per_m, values[at]);
            room.ohms[p] += length * r;
            room.made[p] = room.made[p].max(r);
        }
        let all = self.run.pieces.len() + self.run.clocks.len();
        room.amps.resize(all, 0.0);
        self.currents.amps(&room.ohms, &mut room.amps);
        for (made, amps) in room.made.iter_mut().zip(&room.amps) {
            *made *= amps * amps;
        }
    }

    fn rates(&self, values: &[f64], rate: &mut [f64]) {
        let room = &mut *self.room.borrow_mut();
        self.flow(values, room);
        let (mut made, mut shed) = (0.0, 0.0);
        for &(p, s, at) in &self.places {
            let (section, length) = self.section(p, s);
            let range = at..at + section.shells();
            let amps = room.amps[p];
            let own = amps * amps * resistance_at(self.run.pieces[p].r20_per_m, values[at]);
            section.rates(
                &values[range.clone()],
                own,
                &room.made,
                &mut rate[range.clone()],
            );
            let beside: f64 = section.given.iter().sum();
            let lent = section.lent.iter();
            let lent: f64 = lent
                .map(|(wire, parts)| room.made[*wire] * parts.iter().sum::<f64>())
                .sum();
            made += length * (own + beside + lent);
            shed += length * section.shed(values[range.end - 1]);
        }
        self.clocks(&room.amps, &mut rate[self.heat..]);
        let n = rate.len();
        (rate[n - 2], rate[n - 1]) = (made, shed);
    }

    fn clocks(&self, amps: &[f64], rate: &mut [f64]) {
        let n = self.run.clocks.len();
        for (c, clock) in self.run.clocks.iter().enumerate() {
            let amps = amps[self.run.pieces.len() + c].abs();
            let slow = opening_band(&clock.gates, amps / clock.slow_amps).1;
            let fast = opening_band(&clock.gates, amps / clock.fast_amps).0;
            rate[c] = 1.0 / slow;
            rate[n + c] = if fast > 0.0 { 1.0 / fast } else { 0.0 };
        }
    }

    /// Slopes with the currents held: what heat does to currents is slow against what it does to heat.
    fn slopes(&self, values: &[f64], along: &[f64], rate: &mut [f64]) {
        rate.fill(0.0);
        let room = &mut *self.room.borrow_mut();
        if room.steep_at != values {
            self.flow(values, room);
            room.steep.clear();
            for &(p, s, at) in &self.places {
                let section = &self.section(p, s).0;
                let amps = room.amps[p];
                let own = amps * amps * self.run.pieces[p].r20_per_m * COPPER_ALPHA;
                let skin = values[at + section.shells() - 1];
                room.steep.push((own, section.shed_slope(skin)));
            }
            room.steep_at.clear();
            room.steep_at.extend_from_slice(values);
        }
        for (&(p, s, at), steep) in self.places.iter().zip(&room.steep) {
            let section = &self.section(p, s).0;
            let range = at..at + section.shells();
            let kelvin = &values[range.clone()];
            section.slopes(kelvin, *steep, &along[range.clone()], &mut rate[range]);
        }
    }

    /// What crosses nothing at an event.
    fn events(&self, values: &[f64], event: &mut [f64]) {
        let n = self.run.clocks.len();
        for c in 0..n {
            event[c] = values[self.heat + c] - 1.0;
        }
        for (event, &(p, _, at)) in event[n..].iter_mut().zip(&self.places) {
            *event = values[at] - self.run.pieces[p].damage_k;
        }
    }

    fn end(&self, event: usize) -> End {
        match event.checked_sub(self.run.clocks.len()) {
            None => End::Opens(event),
            Some(place) => End::Damaged(self.places[place].0, self.places[place].1),
        }
    }

    /// A first step that no shell leaps in.
    fn first_step(&self, values: &[f64], seconds: f64) -> f64 {
        let mut rate = vec![0.0; values.len()];
        self.rates(values, &mut rate);
        let quickest = rate[..self.heat]
            .iter()
            .fold(0.0_f64, |m, r| m.max(r.abs()));
        (FIRST_K / quickest.max(1e-9)).min(0.01 * seconds)
    }
}

/// Integrates until an event or the end. Values are moved along.
pub(super) fn follow(
    system: &System,
    values: &mut Vec<f64>,
    (seconds, care): (f64, Care),
    watch: &mut dyn FnMut(Sample) -> ControlFlow<()>,
) -> (End, f64) {
    let from = values.clone();
    match integrate(system, &from, values, (seconds, care), watch) {
        Ok(end) => end,
        Err(why) => (End::Lost(why.to_string()), 0.0),
    }
}

fn integrate(
    system: &System,
    from: &[f64],
    values: &mut Vec<f64>,
    (seconds, care): (f64, Care),
    watch: &mut dyn FnMut(Sample) -> ControlFlow<()>,
) -> Result<(End, f64), DiffsolError> {
    let size = from.len();
    let mut allowed = vec![care.kelvin; system.heat];
    allowed.resize(size - 2, care.clock);
    // What was made and shed steers nothing: it is integrated with whatever steps the heat asks for.
    allowed.resize(size, f64::MAX.sqrt());
    let mut problem = OdeBuilder::<FaerSparseMat<f64>>::new()
        .h0(system.first_step(from, seconds))
        .rtol(1e-12)
        .atol(allowed)
        .use_coloring(true)
        .rhs_implicit(
            |x, _, _, y| system.rates(x, y),
            |x, _, _, along, y| system.slopes(x, along, y),
        )
        .init(|_, _, y| y.copy_from_slice(from), size)
        .root(
            |x, _, _, y| system.events(x, y),
            system.run.clocks.len() + system.places.len(),
        )
        .build()?;
    problem.ode_options.nonlinear_solver_tolerance = EXACT;
    let mut solver = problem.bdf::<FaerSparseLU<f64>>()?;
    solver.set_stop_time(seconds)?;
    loop {
        let reason = solver.step()?;
        let (t, y) = match reason {
            OdeSolverStopReason::RootFound(t, _) => (t, solver.interpolate(t)?),
            _ => (solver.state().t, solver.state().y.clone()),
        };
        *values = y.clone_as_vec();
        let asked = {
            let room = &mut *system.room.borrow_mut();
            system.flow(values, room);
            watch(Sample {
                seconds: t,
                values,
                amps: &room.amps,
            })
        };
        match (reason, asked) {
            (OdeSolverStopReason::RootFound(t, event), _) => return Ok((system.end(event), t)),
            (_, ControlFlow::Break(())) => return Ok((End::Asked, t)),
            (OdeSolverStopReason::TstopReached, _) => return Ok((End::Over, t)),
            (OdeSolverStopReason::InternalTimestep, _) => {}
        }
    }
}
