//! How readings on a solved network move when its elements are a little otherwise, to first order.
//!
//! Kirchhoff's sums `F(v)` are zero in the solution. An element that passes `δ` A more than its law says, at the same
//! voltage, moves the voltages by `J dv = −A_e δ`, with `J` the matrix of all slopes and `A_e` the element's column of
//! +1 and −1. For a reading `r = cᵀ v` one solution of `J λ = c` gives all of them at once: `∂r/∂δ_e = −A_eᵀ λ` (the
//! adjoint of the network, Director and Rohrer 1969, textbook). What a changed value of the element is as `δ` its law
//! says: of a resistor `∂i/∂ln R = −i`, of a source `∂i/∂E = −G`, of a load that draws more `∂i/∂ln P = i`.

use super::shape::Shape;
use super::state::{Reading, Stage, State};
use super::{ElementId, Network, Node, Solution, Solver, factor::Factor};

/// A network around a solution, its slopes factored.
pub struct Slopes<'s> {
    shape: &'s Shape,
    factor: &'s mut Factor,
    /// By element, S.
    siemens: Vec<f64>,
}

impl<'s> Slopes<'s> {
    /// Around a solution; none where the slopes there make no sound matrix.
    pub fn new(solver: &'s mut Solver, network: &Network, solution: &Solution) -> Option<Self> {
        let (shape, factor) = solver.known(network).ok()?;
        let stage = Stage::new(shape, network, 1.0);
        let mut state = State::at(shape, &solution.volts);
        state.evaluate(&stage, Reading::AsItIs);
        state.fill(shape, factor);
        if !factor.factorise() {
            return None;
        }
        let siemens = state.slopes().to_vec();
        Some(Self {
            shape,
            factor,
            siemens,
        })
    }

    /// Slope of an element's law in the solution, S.
    pub fn siemens(&self, element: ElementId) -> f64 {
        self.siemens[element.index()]
    }

    /// By element: volts from `a` to `b` for each ampere that the element passes beyond its law, V/A.
    pub fn of_volts(&mut self, a: Node, b: Node) -> Vec<f64> {
        self.along(a, b, 1.0)
    }

    /// By element: amperes through `element` for each ampere that an element passes beyond its law.
    pub fn of_amps(&mut self, element: ElementId) -> Vec<f64> {
        let [a, b] = self.shape.places[element.index()].nodes;
        let mut moved = self.along(a, b, self.siemens[element.index()]);
        moved[element.index()] += 1.0;
        moved
    }

    fn along(&mut self, a: Node, b: Node, weight: f64) -> Vec<f64> {
        let shape = self.shape;
        let count = shape.count;
        let mut adjoint = vec![0.0; count + 1];
        for (node, sign) in [(a, weight), (b, -weight)] {
            adjoint[shape.unknowns[node.index()] as usize] += sign;
        }
        if count > 0 {
            self.factor.solve(&mut adjoint[..count]);
        }
        adjoint[count] = 0.0;
        let places = shape.places.iter();
        places
            .map(|p| adjoint[p.ends[1] as usize] - adjoint[p.ends[0] as usize])
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::network::{Knobs, Law};

    /// A battery, a wire, a lamp, and a second branch beside the lamp.
    fn sample(more: [f64; 4]) -> (Network, Vec<ElementId>) {
        let mut n = Network::new();
        let (post, lamp) = (n.node(), n.node());
        let law = [
            Law::Source {
                volts: 12.6 * (1.0 + more[0]),
                ohms: 0.01,
            },
            Law::Resistor {
                ohms: 0.1 * (1.0 + more[1]),
            },
            Law::Tungsten {
                rated_volts: 13.2,
                rated_amps: 4.0 * (1.0 + more[2]),
            },
            Law::Resistor {
                ohms: 5.0 * (1.0 + more[3]),
            },
        ];
        let ends = [
            (post, Node::GROUND),
            (post, lamp),
            (lamp, Node::GROUND),
            (lamp, Node::GROUND),
        ];
        let ids = law.into_iter().zip(ends);
        let ids = ids.map(|(law, (a, b))| n.element(a, b, law)).collect();
        (n, ids)
    }

    /// Volts at the lamp, and amperes in the wire.
    fn read(more: [f64; 4]) -> [f64; 2] {
        let (n, ids) = sample(more);
        let s = Solver::new().solve(&n, &Knobs::default()).unwrap();
        [s.volts[2], s.amps[ids[1].index()]]
    }

    #[test]
    fn they_are_what_a_small_change_does() {
        let (n, ids) = sample([0.0; 4]);
        let mut solver = Solver::new();
        let solution = solver.solve(&n, &Knobs::default()).unwrap();
        let mut slopes = Slopes::new(&mut solver, &n, &solution).unwrap();
        let amps = |i: usize| solution.amps[ids[i].index()];
        // What each value's relative growth is as amperes beyond the law.
        let beyond = [-12.6 * slopes.siemens(ids[0]), -amps(1), amps(2), -amps(3)];
        let by = [
            slopes.of_volts(Node(2), Node::GROUND),
            slopes.of_amps(ids[1]),
        ];
        for (i, beyond) in beyond.into_iter().enumerate() {
            let step = 1e-5;
            let at = |sign: f64| {
                let mut more = [0.0; 4];
                more[i] = sign * step;
                read(more)
            };
            let (up, down) = (at(1.0), at(-1.0));
            for r in 0..2 {
                let seen = (up[r] - down[r]) / (2.0 * step);
                let told = by[r][ids[i].index()] * beyond;
                assert!(
                    (seen - told).abs() < 1e-6 * seen.abs().max(1e-3),
                    "{i} {r}: {seen} {told}"
                );
            }
        }
    }
}
