//! What is tried, in order, until the currents balance.
//!
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

/// Tries each rung in turn; no rung where none held.
pub(super) fn climb(shape: &Shape, factor: &mut Factor, network: &Network, knobs: &Knobs) -> Climb {
    let full = Stage::new(shape, network, 1.0);
    let mut walk = Walk {
        stage: &full,
        factor,
        knobs,
        passes: 0,
    };
    let mut start = State::new(shape.count);
    walk.first_guess(&mut start);
    let mut state = start.clone();
    if walk.newton(&mut state) {
        return walk.end(state, Some(Rung::Newton));
    }
    state = start;
    if walk.settle(&mut state) {
        return walk.end(state, Some(Rung::Settling));
    }
    let mut stepped = State::new(shape.count);
    for step in 1..=knobs.source_steps {
        let part = f64::from(step) / f64::from(knobs.source_steps.max(1));
        let stage = Stage::new(shape, network, part);
        let mut part_walk = Walk {
            stage: &stage,
            factor: walk.factor,
            knobs,
            passes: 0,
        };
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
}

impl Walk<'_, '_> {
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
        if let Some(step) = self.step(state, 0.0) {
            for (x, step) in state.x.iter_mut().zip(&step) {
                *x += step;
            }
        }
        state.evaluate(self.stage, Reading::AsItIs);
    }

    /// The Newton step here, if the damped matrix is positive definite.
    fn step(&mut self, state: &State, damping: f64) -> Option<Vec<f64>> {
        self.passes += 1;
        state.fill(self.stage.shape, self.factor);
        if damping > 0.0 {
            self.factor.damp(damping);
        }
        if !self.factor.factorise() {
            return None;
        }
        // The matrix of a network of nothing but ground still has one row.
        let mut step: Vec<f64> = state.imbalance.iter().map(|amps| -amps).collect();
        if !step.is_empty() {
            self.factor.solve(&mut step);
        }
        step.iter().all(|step| step.is_finite()).then_some(step)
    }

    /// Rung 1.
    fn newton(&mut self, state: &mut State) -> bool {
        let mut spare = State::default();
        for _ in 0..self.knobs.newton_passes {
            let Some(step) = self.step(state, 0.0) else {
                return false;
            };
            if state.balances(self.knobs.tolerance) {
                return self.polish(state, step);
            }
            self.search(state, &step, &mut spare);
            std::mem::swap(state, &mut spare);
        }
        false
    }

    /// Goes along a step until the slope no longer turns too far; leaves the result in `next`.
    fn search(&self, state: &State, step: &[f64], next: &mut State) {
        let slope = -dot(&state.imbalance, step);
        let mut length = 1.0;
        for _ in 0..=self.knobs.trims {
            next.x.clear();
            let ahead = state.x.iter().zip(step).map(|(x, step)| x + length * step);
            next.x.extend(ahead);
            next.evaluate(self.stage, Reading::AsItIs);
            let turned = dot(&next.imbalance, step);
            if turned <= self.knobs.overshoot * slope {
                return;
            }
            // Where the slope, as a straight line, crosses zero.
            length *= (slope / (slope + turned)).clamp(0.05, 0.9);
        }
    }

    /// Rung 2.
    fn settle(&mut self, state: &mut State) -> bool {
        let mut damping = self.knobs.settle_siemens;
        let mut next = State::default();
        for _ in 0..self.knobs.settle_passes {
            if state.balances(self.knobs.tolerance) {
                // At rest only if it would stay without the capacitors.
                return match self.step(state, 0.0) {
                    Some(step) => self.polish(state, step),
                    None => false,
                };
            }
            let Some(step) = self.step(state, damping) else {
                damping *= self.knobs.settle_factor;
                continue;
            };
            next.x.clear();
            next.x
                .extend(state.x.iter().zip(&step).map(|(x, step)| x + step));
            next.evaluate(self.stage, Reading::AsItIs);
            let slope = -dot(&state.imbalance, &step);
            let far = step.iter().any(|step| step.abs() > self.knobs.settle_volts);
            if far || dot(&next.imbalance, &step) > self.knobs.overshoot * slope {
                damping *= self.knobs.settle_factor;
            } else {
                damping /= self.knobs.settle_factor;
                std::mem::swap(state, &mut next);
            }
        }
        false
    }

    /// Moves the currents onto balance with the factor in hand; false if they don't come.
    fn polish(&mut self, state: &mut State, mut step: Vec<f64>) -> bool {
        const MOST_ROUNDS: usize = 4;
        let wanted = 1e-3 * self.knobs.tolerance;
        for _ in 0..MOST_ROUNDS {
            state.nudge(self.stage.shape, &step);
            if state.worst().0 <= wanted {
                break;
            }
            step.clear();
            step.extend(state.imbalance.iter().map(|amps| -amps));
            self.factor.solve(&mut step);
        }
        state.worst().0 <= self.knobs.tolerance
    }
}

fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}
