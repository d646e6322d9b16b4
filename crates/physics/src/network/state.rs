//! Currents and imbalances of a network at one set of voltages.

use super::factor::Factor;
use super::law::{Flow, Law, Tie};
use super::shape::Shape;
use super::{Network, Node};

/// Currents below this are none at all, A: relative imbalance is not asked of them.
const NO_AMPS: f64 = 1e-9;
/// While still searching, currents below this are none, A: the last linear step does the rest, and
/// asking for less would be asking about rounding.
const FEW_AMPS: f64 = 1e-3;

/// A network with its sources at some part of their full value.
pub(super) struct Stage<'a> {
    pub(super) shape: &'a Shape,
    pub(super) network: &'a Network,
    laws: Vec<Law>,
    offsets: Vec<f64>,
    joins: Vec<bool>,
}

impl<'a> Stage<'a> {
    pub(super) fn new(shape: &'a Shape, network: &'a Network, part: f64) -> Self {
        let elements = network.elements().iter();
        Self {
            shape,
            network,
            laws: elements
                .clone()
                .map(|element| element.law.at_part(part))
                .collect(),
            offsets: shape.joins.offsets(network, part),
            joins: elements
                .map(|element| element.law.tie() == Tie::Joins)
                .collect(),
        }
    }
}

/// How a law is read: at its voltage, or as the straight line that a first guess is made with.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Reading {
    AsItIs,
    Straight,
}

/// All that is known at one set of voltages.
#[derive(Clone, Default)]
pub(super) struct State {
    /// The unknowns, V.
    pub(super) x: Vec<f64>,
    /// By node, V.
    pub(super) volts: Vec<f64>,
    /// By element; joining elements stay at zero here.
    pub(super) amps: Vec<f64>,
    siemens: Vec<f64>,
    /// By unknown: current that leaves and is not made up for, A.
    pub(super) imbalance: Vec<f64>,
    /// By unknown: sum of the sizes of currents that meet, A.
    meeting: Vec<f64>,
    /// By unknown: imbalance that rounding of the voltages alone can make, A.
    rounding: Vec<f64>,
}

impl State {
    pub(super) fn new(count: usize) -> Self {
        Self {
            x: vec![0.0; count],
            ..Self::default()
        }
    }

    /// Works everything out from `x`.
    pub(super) fn evaluate(&mut self, stage: &Stage<'_>, reading: Reading) {
        let shape = stage.shape;
        self.clear(shape.count);
        let x = &self.x;
        let volts = shape.unknowns.iter().zip(&stage.offsets);
        self.volts.extend(
            volts.map(|(unknown, offset)| unknown.map_or(0.0, |index| x[index as usize]) + offset),
        );
        for (index, element) in stage.network.elements().iter().enumerate() {
            if stage.joins[index] {
                self.amps.push(0.0);
                self.siemens.push(0.0);
                continue;
            }
            let (va, vb) = (self.volts[element.a.index()], self.volts[element.b.index()]);
            let law = &stage.laws[index];
            let flow = match reading {
                Reading::AsItIs => law.flow(va - vb),
                Reading::Straight => law.straight(va - vb),
            };
            self.amps.push(flow.amps);
            self.siemens.push(flow.siemens);
            self.add(shape.places[index].ends, flow, va.abs() + vb.abs());
        }
    }

    fn clear(&mut self, count: usize) {
        self.volts.clear();
        self.amps.clear();
        self.siemens.clear();
        for sums in [&mut self.imbalance, &mut self.meeting, &mut self.rounding] {
            sums.clear();
            sums.resize(count, 0.0);
        }
    }

    fn add(&mut self, ends: [Option<u32>; 2], flow: Flow, volts: f64) {
        let blur = flow.siemens.abs() * volts * 4.0 * f64::EPSILON;
        for (end, amps) in ends.into_iter().zip([flow.amps, -flow.amps]) {
            if let Some(end) = end {
                let end = end as usize;
                self.imbalance[end] += amps;
                self.meeting[end] += amps.abs();
                self.rounding[end] += blur;
            }
        }
    }

    /// Fills the matrix with the slopes here.
    pub(super) fn fill(&self, shape: &Shape, factor: &mut Factor) {
        factor.entries.fill(0.0);
        for (place, siemens) in shape.places.iter().zip(&self.siemens) {
            for (entry, sign) in place.entries.iter().zip([1.0, 1.0, -1.0]) {
                if let Some(entry) = *entry {
                    factor.entries[entry] += sign * siemens;
                }
            }
        }
        if shape.count == 0 {
            factor.damp(1.0);
        }
    }

    /// Whether every node balances, as far as voltages in double precision can tell.
    pub(super) fn balances(&self, tolerance: f64) -> bool {
        let sums = self.imbalance.iter().zip(&self.meeting).zip(&self.rounding);
        sums.into_iter().all(|((imbalance, meeting), rounding)| {
            imbalance.abs() <= tolerance * meeting.max(FEW_AMPS) + rounding
        })
    }

    /// Moves currents, not voltages, by a last small step: voltages near 12 V are only known to
    /// 2 fV, which over a milliohm joint would be more than the currents' own tolerance.
    pub(super) fn nudge(&mut self, shape: &Shape, step: &[f64]) {
        let of = |end: Option<u32>| end.map_or(0.0, |index| step[index as usize]);
        self.imbalance.fill(0.0);
        for (index, place) in shape.places.iter().enumerate() {
            let [a, b] = place.ends;
            self.amps[index] += self.siemens[index] * (of(a) - of(b));
            for (end, sign) in [(a, 1.0), (b, -1.0)] {
                if let Some(end) = end {
                    self.imbalance[end as usize] += sign * self.amps[index];
                }
            }
        }
    }

    /// The worst relative imbalance and its unknown.
    pub(super) fn worst(&self) -> (f64, usize) {
        let sums = self.imbalance.iter().zip(&self.meeting);
        let relative = sums.map(|(imbalance, meeting)| imbalance.abs() / meeting.max(NO_AMPS));
        relative
            .enumerate()
            .fold((0.0, 0), |worst, (index, value)| {
                // A NaN must come out as the worst, not be passed over.
                if value > worst.0 || value.is_nan() {
                    (value, index)
                } else {
                    worst
                }
            })
    }

    /// A node of the worst unknown, for a message.
    pub(super) fn worst_node(&self, shape: &Shape) -> Node {
        let worst = Some(self.worst().1 as u32);
        let index = shape.unknowns.iter().position(|&unknown| unknown == worst);
        Node(index.unwrap_or(0) as u32)
    }
}
