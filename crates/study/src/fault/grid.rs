//! Currents of what is hot, as its resistance rises: the network around its last solution as the hot wires and
//! fuses see it, solved anew when they have moved far from it.

use super::hot::Hot;
use crate::network::Model;
use crate::settle::Settled;
use crate::solve::Laid;
use physics::network::{ElementId, Knobs, Law, Network, Ports, Solution, Solver};
use physics::warming::Currents;
use std::cell::RefCell;

/// A conductance that has moved by more than this part since the last solution asks for a new one: the laws of
/// loads are curves. Tried: a third of it moves no time of opening in the examples.
const MOVED: f64 = 0.25;

/// The network with its hot elements at hand.
pub(super) struct Grid<'a> {
    model: &'a Model,
    laid: Laid,
    /// Of the hot wires, and then of the fuses.
    ids: Vec<ElementId>,
    wires: usize,
    inner: RefCell<Inner>,
}

struct Inner {
    network: Network,
    solver: Solver,
    solution: Solution,
    ports: Ports,
    /// Conductances in the last solution, S.
    base: Vec<f64>,
    /// And now.
    siemens: Vec<f64>,
    across: Vec<f64>,
}

impl<'a> Grid<'a> {
    /// None where the network can't be seen so: an element of it without resistance, or no solution.
    pub(super) fn new(settled: &Settled, model: &'a Model, hot: &Hot) -> Option<Self> {
        let laid = Laid::new(model);
        let wires = hot.wires.iter().map(|w| w.element);
        let fuses = hot.fuses.iter().map(|f| f.element);
        let ids: Vec<ElementId> = wires
            .chain(fuses)
            .map(|e| laid.id(e))
            .collect::<Option<_>>()?;
        let network = laid.network.clone();
        let mut solver = Solver::new();
        let from = laid.start(model, &settled.volts);
        let solution = solver.solve_from(&network, &Knobs::default(), &from).ok()?;
        let ports = Ports::new(&mut solver, &network, &solution, &ids)?;
        let base = siemens(&network, &ids);
        let inner = Inner {
            siemens: base.clone(),
            across: Vec::new(),
            network,
            solver,
            solution,
            ports,
            base,
        };
        Some(Self {
            model,
            laid,
            wires: hot.wires.len(),
            ids,
            inner: RefCell::new(inner),
        })
    }

    /// Solves anew if the hot wires have moved far. Whether it could be.
    pub(super) fn refresh(&self) -> bool {
        let inner = &mut *self.inner.borrow_mut();
        let far = |(now, then): (&f64, &f64)| (now / then - 1.0).abs() > MOVED;
        if !inner.siemens.iter().zip(&inner.base).any(far) {
            return true;
        }
        for (id, siemens) in self.ids.iter().zip(&inner.siemens) {
            let ohms = 1.0 / siemens;
            inner.network.set(*id, Law::Resistor { ohms });
        }
        let from = inner.ports.volts(&inner.siemens, &inner.across);
        let solved = inner
            .solver
            .solve_from(&inner.network, &Knobs::default(), &from);
        let Ok(solution) = solved else {
            return false;
        };
        let ports = Ports::new(&mut inner.solver, &inner.network, &solution, &self.ids);
        let Some(ports) = ports else {
            return false;
        };
        inner.base.clone_from(&inner.siemens);
        (inner.solution, inner.ports) = (solution, ports);
        true
    }

    /// Voltages by pin, as things stand.
    pub(super) fn volts_by_pin(&self) -> Vec<Option<f64>> {
        let inner = self.inner.borrow();
        let solved = match inner.across.is_empty() {
            true => inner.solution.volts.clone(),
            false => inner.ports.volts(&inner.siemens, &inner.across),
        };
        let volts = self.laid.volts(&solved);
        let by_pin = self.model.node_of_pin.iter();
        by_pin.map(|node| node.map(|node| volts[node])).collect()
    }
}

impl Currents for Grid<'_> {
    fn amps(&self, ohms: &[f64], amps: &mut [f64]) {
        let inner = &mut *self.inner.borrow_mut();
        for (siemens, ohms) in inner.siemens[..self.wires].iter_mut().zip(ohms) {
            *siemens = 1.0 / ohms;
        }
        inner.ports.amps(&inner.siemens, &mut inner.across, amps);
    }
}

fn siemens(network: &Network, ids: &[ElementId]) -> Vec<f64> {
    let each = ids.iter().map(|id| match network.get(*id).law {
        Law::Resistor { ohms } => 1.0 / ohms,
        _ => 0.0,
    });
    each.collect()
}
