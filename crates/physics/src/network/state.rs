//! Currents and imbalances of a network at one set of voltages.

use super::factor::Factor;
use super::law::{Flow, Law, Tie};
use super::shape::{Place, Shape};
use super::{Element, Network, Node};

/// Currents below this are none at all, A: relative imbalance is not asked of them.
const NO_AMPS: f64 = 1e-9;
/// While still searching, currents below this are none, A: the last linear step does the rest, and
/// asking for less would be asking about rounding.
const FEW_AMPS: f64 = 1e-3;

/// An element whose current is a straight line, `i = (v − E) G`.
struct Line {
    element: usize,
    volts: f64,
    siemens: f64,
}

/// An element with any other law.
struct Curve {
    element: usize,
    law: Law,
}

/// A network with its sources at some part of their full value.
pub(super) struct Stage<'a> {
    pub(super) shape: &'a Shape,
    lines: Vec<Line>,
    curves: Vec<Curve>,
    offsets: Vec<f64>,
}

impl<'a> Stage<'a> {
    pub(super) fn new(shape: &'a Shape, network: &Network, part: f64) -> Self {
        let (mut lines, mut curves) = (Vec::with_capacity(shape.places.len()), Vec::new());
        for (element, &Element { law, .. }) in network.elements().iter().enumerate() {
            let law = law.at_part(part);
            let volts = match law {
                _ if law.tie() == Tie::Joins => continue,
                Law::Open => continue,
                Law::Resistor { .. } => 0.0,
                Law::Source { volts, .. } => volts,
                _ => {
                    curves.push(Curve { element, law });
                    continue;
                }
            };
            lines.push(Line {
                element,
                volts,
                siemens: law.flow(volts).siemens,
            });
        }
        Self {
            shape,
            lines,
            curves,
            offsets: shape.joins.offsets(network, part),
        }
    }
}

/// How a law is read: at its voltage, or as the straight line that a first guess is made with.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Reading {
    AsItIs,
    Straight,
}

/// What meets at an unknown.
#[derive(Clone, Copy, Default)]
struct Meeting {
    /// Sum of the sizes of currents, A.
    amps: f64,
    /// Imbalance that rounding of the voltages alone can make, A.
    rounding: f64,
}

/// All that is known at one set of voltages. What is by unknown has one place more, for ground.
#[derive(Clone, Default)]
pub(super) struct State {
    /// The unknowns, V.
    pub(super) x: Vec<f64>,
    /// By node, V.
    pub(super) volts: Vec<f64>,
    /// By element; joining elements stay at zero here.
    pub(super) amps: Vec<f64>,
    siemens: Vec<f64>,
    /// By unknown: current that leaves and is not made up for, A. Nobody looks at ground's.
    pub(super) imbalance: Vec<f64>,
    /// By unknown.
    meeting: Vec<Meeting>,
}

impl State {
    pub(super) fn new(shape: &Shape) -> Self {
        Self {
            x: vec![0.0; shape.count + 1],
            ..Self::default()
        }
    }

    /// At voltages of nodes that are known from before.
    pub(super) fn at(shape: &Shape, volts: &[f64]) -> Self {
        let mut state = Self::new(shape);
        for (node, root) in shape.joins.roots.iter().enumerate() {
            // A root stands at its unknown itself, those joined to it some volts above.
            if root.index() == node && *root != Node::GROUND {
                state.x[shape.unknowns[node] as usize] = volts[node];
            }
        }
        state
    }

    /// Works everything out from `x`.
    pub(super) fn evaluate(&mut self, stage: &Stage<'_>, reading: Reading) {
        let shape = stage.shape;
        self.clear(shape);
        let x = &self.x;
        let volts = shape.unknowns.iter().zip(&stage.offsets);
        self.volts
            .extend(volts.map(|(&unknown, offset)| x[unknown as usize] + offset));
        for line in &stage.lines {
            let siemens = line.siemens;
            self.add(shape, line.element, |v| Flow {
                amps: (v - line.volts) * siemens,
                siemens,
            });
        }
        for Curve { element, law } in &stage.curves {
            match reading {
                Reading::AsItIs => self.add(shape, *element, |v| law.flow(v)),
                Reading::Straight => self.add(shape, *element, |v| law.straight(v)),
            }
        }
    }

    fn clear(&mut self, shape: &Shape) {
        self.volts.clear();
        for by_element in [&mut self.amps, &mut self.siemens] {
            by_element.clear();
            by_element.resize(shape.places.len(), 0.0);
        }
        self.imbalance.clear();
        self.imbalance.resize(shape.count + 1, 0.0);
        self.meeting.clear();
        self.meeting.resize(shape.count + 1, Meeting::default());
    }

    #[inline]
    fn add(&mut self, shape: &Shape, element: usize, flow: impl FnOnce(f64) -> Flow) {
        let Place { nodes, ends, .. } = &shape.places[element];
        let (va, vb) = (self.volts[nodes[0].index()], self.volts[nodes[1].index()]);
        let Flow { amps, siemens } = flow(va - vb);
        self.amps[element] = amps;
        self.siemens[element] = siemens;
        let blur = siemens.abs() * (va.abs() + vb.abs()) * 4.0 * f64::EPSILON;
        for (&end, amps) in ends.iter().zip([amps, -amps]) {
            self.imbalance[end as usize] += amps;
            let meeting = &mut self.meeting[end as usize];
            meeting.amps += amps.abs();
            meeting.rounding += blur;
        }
    }

    /// By element, S.
    pub(super) fn slopes(&self) -> &[f64] {
        &self.siemens
    }

    /// Fills the matrix with the slopes here.
    pub(super) fn fill(&self, shape: &Shape, factor: &mut Factor) {
        factor.entries.fill(0.0);
        for (place, siemens) in shape.places.iter().zip(&self.siemens) {
            for (&entry, sign) in place.entries.iter().zip([1.0, 1.0, -1.0]) {
                factor.entries[entry as usize] += sign * siemens;
            }
        }
        if shape.count == 0 {
            factor.damp(1.0);
        }
    }

    /// Whether every node balances, as far as voltages in double precision can tell.
    pub(super) fn balances(&self, tolerance: f64) -> bool {
        self.sums().all(|(imbalance, meeting)| {
            imbalance.abs() <= tolerance * meeting.amps.max(FEW_AMPS) + meeting.rounding
        })
    }

    /// Imbalance of each unknown, and what meets there.
    fn sums(&self) -> impl Iterator<Item = (f64, Meeting)> {
        let count = self.imbalance.len().saturating_sub(1);
        let sums = self.imbalance.iter().zip(&self.meeting);
        sums.map(|(&imbalance, &meeting)| (imbalance, meeting))
            .take(count)
    }

    /// Goes a last small step, by which currents move along their slopes. Worked out from the new
    /// voltages they would be no better than before: voltages near 12 V are only known to 2 fV, which
    /// over a milliohm joint is more than the currents' own tolerance.
    pub(super) fn nudge(&mut self, shape: &Shape, step: &[f64]) {
        for (volts, &unknown) in self.volts.iter_mut().zip(&shape.unknowns) {
            *volts += step[unknown as usize];
        }
        self.imbalance.fill(0.0);
        for (index, place) in shape.places.iter().enumerate() {
            let [a, b] = place.ends.map(|end| end as usize);
            self.amps[index] += self.siemens[index] * (step[a] - step[b]);
            self.imbalance[a] += self.amps[index];
            self.imbalance[b] -= self.amps[index];
        }
    }

    /// The worst relative imbalance and its unknown.
    pub(super) fn worst(&self) -> (f64, usize) {
        let relative = self
            .sums()
            .map(|(imbalance, meeting)| imbalance.abs() / meeting.amps.max(NO_AMPS));
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
        let worst = self.worst().1 as u32;
        let index = shape.unknowns.iter().position(|&unknown| unknown == worst);
        Node(index.unwrap_or(0) as u32)
    }
}
