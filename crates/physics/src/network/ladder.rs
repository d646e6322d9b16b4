//! What is tried, in order, until the currents balance.
//!
//! 0. **Newton from a start** that the caller has, if there is one: the last answer, usually.
//! 1. **Newton** from full voltage with the electronic loads not yet drawing. Full steps, shortened
//!    only where the slope along the step turns. Stops where the matrix is not positive definite.
//! 2. **Settling**: the same start, with a capacitor on every node (conductance added to the
//!    diagonal) that shrinks as long as steps go well. It follows the way the real circuit would
//!    come to rest, so it also finds the state where a driver has given up for want of voltage.
//! 3. **Source stepping**: all supplies raised from nothing in steps, settling at each. Lamps and
//!    motors then follow from dark; of two resting states it may find the lower one.
//!
//! Load continuation (growing the constant powers) was left out: settling finds every state that
//! it does, and also those after the fold where it stops.

use super::Network;
use super::factor::Factor;
use super::knobs::Knobs;
use super::shape::Shape;
use super::solver::Rung;
use super::state::{Reading, Stage, State};

/// Where the ladder ended.
pub(super) struct Climb {
    pub(super) state: State,
    pub(super) rung: Option<Rung>,
    pub(super) passes: usize,
}

/// Tries each rung in turn, first of all from voltages that the caller may have; no rung where none
/// held.
pub(super) fn climb(
    shape: &Shape,
    factor: &mut Factor,
    network: &Network,
    knobs: &Knobs,
    from: Option<&[f64]>,
) -> Climb {
    let full = Stage::new(shape, network, 1.0);
    let mut walk = Walk::new(&full, factor, knobs);
    if let Some(volts) = from {
        let mut state = State::at(shape, volts);
        walk.step_in(&mut state);
        if walk.newton(&mut state) {
            return walk.end(state, Some(Rung::Newton));
        }
    }
    let mut start = State::new(shape);
    walk.first_guess(&mut start);
    let mut state = start.clone();
    if walk.newton(&mut state) {
        return walk.end(state, Some(Rung::Newton));
    }
    state = start;
    if walk.settle(&mut state) {
        return walk.end(state, Some(Rung::Settling));
    }
    let mut stepped = State::new(shape);
    for step in 1..=knobs.source_steps {
        let part = f64::from(step) / f64::from(knobs.source_steps.max(1));
        let stage = Stage::new(shape, network, part);
        let mut part_walk = Walk::new(&stage, walk.factor, knobs);
        part_walk.step_in(&mut stepped);
        let held = part_walk.settle(&mut stepped);
        walk.passes += part_walk.passes;
        walk.factor = part_walk.factor;
        if held && step == knobs.source_steps {
            return walk.end(stepped, Some(Rung::SourceStepping));
        }
    }
    walk.end(state, None)
}

/// One stage being solved.
struct Walk<'a, 'b> {
    stage: &'a Stage<'a>,
    factor: &'b mut Factor,
    knobs: &'a Knobs,
    passes: usize,
    /// The last step worked out, with one place more for ground.
    step: Vec<f64>,
}

impl<'a, 'b> Walk<'a, 'b> {
    fn new(stage: &'a Stage<'a>, factor: &'b mut Factor, knobs: &'a Knobs) -> Self {
        Self {
            stage,
            factor,
            knobs,
            passes: 0,
            step: vec![0.0; stage.shape.count + 1],
        }
    }

    fn end(self, state: State, rung: Option<Rung>) -> Climb {
        Climb {
            state,
            rung,
            passes: self.passes,
        }
    }

    /// Works the state out afresh for this stage.
    fn step_in(&mut self, state: &mut State) {
        state.evaluate(self.stage, Reading::AsItIs);
    }

    /// Solves the circuit of straight lines, then reads it as it is.
    fn first_guess(&mut self, state: &mut State) {
        state.evaluate(self.stage, Reading::Straight);
        if self.step(state, 0.0) {
            for (x, step) in state.x.iter_mut().zip(&self.step) {
                *x += step;
            }
        }
        state.evaluate(self.stage, Reading::AsItIs);
    }

    /// Works the Newton step here out; false where the damped matrix is not positive definite.
    fn step(&mut self, state: &State, damping: f64) -> bool {
        self.passes += 1;
        state.fill(self.stage.shape, self.factor);
        if damping > 0.0 {
            self.factor.damp(damping);
        }
        self.factor.factorise() && self.back(state)
    }

    /// The step that the factor in hand gives here; false where it is no number.
    fn back(&mut self, state: &State) -> bool {
        let count = self.stage.shape.count;
        let unknowns = &mut self.step[..count];
        for (step, amps) in unknowns.iter_mut().zip(&state.imbalance) {
            *step = -amps;
        }
        // The matrix of a network of nothing but ground still has one row.
        if count > 0 {
            self.factor.solve(unknowns);
        }
        unknowns.iter().all(|step| step.is_finite())
    }

    /// Rung 1.
    fn newton(&mut self, state: &mut State) -> bool {
        let mut spare = State::default();
        for _ in 0..self.knobs.newton_passes {
            if !self.step(state, 0.0) {
                return false;
            }
            if state.balances(self.knobs.tolerance) {
                return self.polish(state);
            }
            self.search(state, &mut spare);
            std::mem::swap(state, &mut spare);
        }
        false
    }

    /// Goes along a step until the slope no longer turns too far; leaves the result in `next`.
    fn search(&self, state: &State, next: &mut State) {
        let step = &self.step;
        let slope = -dot(&state.imbalance, step);
        let mut length = 1.0;
        for _ in 0..=self.knobs.trims {
            self.go(state, length, next);
            let turned = dot(&next.imbalance, step);
            if turned <= self.knobs.overshoot * slope {
                return;
            }
            // Where the slope, as a straight line, crosses zero.
            length *= (slope / (slope + turned)).clamp(0.05, 0.9);
        }
    }

    /// Works out in `next` what is so at a part of the step from `state`.
    fn go(&self, state: &State, length: f64, next: &mut State) {
        next.x.clear();
        let ahead = state.x.iter().zip(&self.step);
        next.x.extend(ahead.map(|(x, step)| x + length * step));
        next.evaluate(self.stage, Reading::AsItIs);
    }

    /// Rung 2.
    fn settle(&mut self, state: &mut State) -> bool {
        let mut damping = self.knobs.settle_siemens;
        let mut next = State::default();
        for _ in 0..self.knobs.settle_passes {
            if state.balances(self.knobs.tolerance) {
                // At rest only if it would stay without the capacitors.
                return self.step(state, 0.0) && self.polish(state);
            }
            if !self.step(state, damping) {
                damping *= self.knobs.settle_factor;
                continue;
            }
            self.go(state, 1.0, &mut next);
            let step = &self.step;
            let slope = -dot(&state.imbalance, step);
            let far = step.iter().any(|step| step.abs() > self.knobs.settle_volts);
            if far || dot(&next.imbalance, step) > self.knobs.overshoot * slope {
                damping *= self.knobs.settle_factor;
            } else {
                damping /= self.knobs.settle_factor;
                std::mem::swap(state, &mut next);
            }
        }
        false
    }

    /// Moves the currents onto balance with the factor in hand; false if they don't come.
    fn polish(&mut self, state: &mut State) -> bool {
        const MOST_ROUNDS: usize = 4;
        let wanted = 1e-3 * self.knobs.tolerance;
        for _ in 0..MOST_ROUNDS {
            state.nudge(self.stage.shape, &self.step);
            if state.worst().0 <= wanted || !self.back(state) {
                break;
            }
        }
        state.worst().0 <= self.knobs.tolerance
    }
}

fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}
