//! Downhill by limited-memory quasi-Newton steps (L-BFGS), for functions of some hundred variables that are worked out in
//! a microsecond: a general library's bookkeeping takes longer than the function.
//!
//! Source: J. Nocedal, “Updating quasi-Newton matrices with limited storage” (1980), two-loop recursion; from memory.

/// Steps that are remembered.
const MEMORY: usize = 6;
/// A step must lower the function by this part of what its slope promises.
const ENOUGH: f64 = 1e-4;
/// Halvings of a step before it is given up.
const HALVINGS: usize = 20;

/// A function with its slope: `of(x, slope)` gives the value at `x` and writes the slope.
pub(super) trait Function {
    fn of(&self, x: &[f64], slope: &mut [f64]) -> f64;
}

/// Remembered steps.
#[derive(Default)]
struct Memory {
    steps: Vec<(Vec<f64>, Vec<f64>, f64)>,
}

fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

impl Memory {
    /// The way down from a slope, as far as the remembered steps tell.
    fn direction(&self, slope: &[f64]) -> Vec<f64> {
        let mut way: Vec<f64> = slope.iter().map(|s| -s).collect();
        let mut parts = [0.0; MEMORY];
        for (i, (step, change, inverse)) in self.steps.iter().enumerate().rev() {
            parts[i] = dot(step, &way) * inverse;
            way.iter_mut()
                .zip(change)
                .for_each(|(w, c)| *w -= parts[i] * c);
        }
        if let Some((step, change, _)) = self.steps.last() {
            let scale = dot(step, change) / dot(change, change);
            way.iter_mut().for_each(|w| *w *= scale);
        }
        for (i, (step, change, inverse)) in self.steps.iter().enumerate() {
            let part = dot(change, &way) * inverse;
            way.iter_mut()
                .zip(step)
                .for_each(|(w, s)| *w += (parts[i] - part) * s);
        }
        way
    }

    fn keep(&mut self, step: Vec<f64>, change: Vec<f64>) {
        let curve = dot(&step, &change);
        if curve <= 1e-14 * dot(&change, &change) {
            return;
        }
        if self.steps.len() == MEMORY {
            self.steps.remove(0);
        }
        self.steps.push((step, change, 1.0 / curve));
    }
}

/// Goes down from `x` for at most so many steps, or until the slope is below `flat`.
pub(super) fn descend(f: &impl Function, x: &mut Vec<f64>, steps: usize, flat: f64) -> f64 {
    let mut slope = vec![0.0; x.len()];
    let mut value = f.of(x, &mut slope);
    let mut memory = Memory::default();
    let mut next = x.clone();
    let mut there = slope.clone();
    for _ in 0..steps {
        if dot(&slope, &slope) < flat * flat {
            break;
        }
        let mut way = memory.direction(&slope);
        let mut fall = dot(&way, &slope);
        if fall >= 0.0 {
            memory.steps.clear();
            way = slope.iter().map(|s| -s).collect();
            fall = -dot(&slope, &slope);
        }
        // The first step has no measure: a tenth of a unit.
        let mut length = match memory.steps.is_empty() {
            true => 0.1 / dot(&way, &way).sqrt(),
            false => 1.0,
        };
        let mut halvings = 0;
        let lower = loop {
            let moved = x.iter().zip(&way).map(|(x, w)| x + length * w);
            next.iter_mut().zip(moved).for_each(|(n, m)| *n = m);
            let lower = f.of(&next, &mut there);
            if lower <= value + ENOUGH * length * fall {
                break Some(lower);
            }
            halvings += 1;
            if halvings == HALVINGS {
                break None;
            }
            length *= 0.5;
        };
        let Some(lower) = lower else { break };
        let step = next.iter().zip(&*x).map(|(n, x)| n - x).collect();
        let change = there.iter().zip(&slope).map(|(t, s)| t - s).collect();
        memory.keep(step, change);
        std::mem::swap(x, &mut next);
        std::mem::swap(&mut slope, &mut there);
        value = lower;
    }
    value
}
