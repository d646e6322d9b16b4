//! Wires and the clocks of their fuses followed through time, until one event or the end.
//!
//! Takes pieces of wire as their sections, fuses as their gates, and something that gives currents from
//! resistances; gives what happened first. What changes then (a fuse open, a relay out) is the caller's
//! to say: it goes on with another run from where this one ended.

use super::equations::{self, System};
use super::section::Section;
use crate::fuse_clock::Gate;
use std::ops::ControlFlow;

/// A piece of wire that carries one current.
#[derive(Clone, Debug, PartialEq)]
pub struct Piece {
    /// What it lies in, and how much of it, m.
    pub sections: Vec<(Section, f64)>,
    /// Its resistance at 20 °C, Ω/m.
    pub r20_per_m: f64,
    /// Its joints, Ω.
    pub joints_ohms: f64,
    /// Its insulation is harmed at once at this, K.
    pub damage_k: f64,
}

/// A fuse as a clock, run on both edges of its band.
#[derive(Clone, Debug, PartialEq)]
pub struct Clock {
    /// When it opens.
    pub gates: Vec<Gate>,
    /// Its rating at the heat around it, A, on the slow edge.
    pub slow_amps: f64,
    /// The same on the fast edge.
    pub fast_amps: f64,
}

/// Whatever gives currents from resistances.
pub trait Currents {
    /// Currents of the pieces and then of the fuses, A, with the pieces at these resistances, Ω.
    fn amps(&self, ohms: &[f64], amps: &mut [f64]);
}

/// How closely a run is followed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Care {
    /// Error allowed in a step, K.
    pub kelvin: f64,
    /// Error allowed in a step, of a clock's round.
    pub clock: f64,
}

impl Default for Care {
    /// A tenth of a kelvin and a thousandth of a round: far below what any gate or limit is known to.
    fn default() -> Self {
        Self {
            kelvin: 0.1,
            clock: 1e-3,
        }
    }
}

/// A moment of a run.
#[derive(Clone, Copy, Debug)]
pub struct Sample<'a> {
    /// Since the run began, s.
    pub seconds: f64,
    /// Temperatures of all shells, section by section, K; then the clocks, slow and fast; then J made and shed.
    pub values: &'a [f64],
    /// Currents of the pieces and fuses, A.
    pub amps: &'a [f64],
}

/// How a run ended.
#[derive(Clone, Debug, PartialEq)]
pub enum End {
    /// Its time was over.
    Over,
    /// This fuse must have opened.
    Opens(usize),
    /// The copper of this piece passed its damage limit in this section.
    Damaged(usize, usize),
    /// The caller asked for it.
    Asked,
    /// The integrator gave up; in its own words.
    Lost(String),
}

/// Wires and clocks.
#[derive(Clone, Debug, PartialEq)]
pub struct Run {
    /// Pieces of wire.
    pub pieces: Vec<Piece>,
    /// Fuses.
    pub clocks: Vec<Clock>,
}

impl Run {
    /// How many values its state has.
    pub fn size(&self) -> usize {
        self.heat_size() + 2 * self.clocks.len() + 2
    }

    /// How many shells there are in all.
    pub fn heat_size(&self) -> usize {
        let sections = self.pieces.iter().flat_map(|p| &p.sections);
        sections.map(|(s, _)| s.shells()).sum()
    }

    /// Where the shells of each section begin: (piece, section, place).
    pub fn places(&self) -> Vec<(usize, usize, usize)> {
        let mut places = Vec::new();
        let mut at = 0;
        for (p, piece) in self.pieces.iter().enumerate() {
            for (s, (section, _)) in piece.sections.iter().enumerate() {
                places.push((p, s, at));
                at += section.shells();
            }
        }
        places
    }

    /// A state with these temperatures, the clocks at nothing.
    pub fn start(&self, kelvin: &[f64]) -> Vec<f64> {
        let mut values = kelvin.to_vec();
        values.resize(self.size(), 0.0);
        values
    }

    /// Copper of a piece where it is hottest in a state, K.
    pub fn hottest(&self, values: &[f64], piece: usize) -> f64 {
        let mine = self.places().into_iter().filter(|(p, _, _)| *p == piece);
        mine.map(|(_, _, at)| values[at]).fold(0.0, f64::max)
    }

    /// Heat in the shells of a state, J above absolute zero.
    pub fn stored(&self, values: &[f64]) -> f64 {
        let mut at = 0;
        let mut joules = 0.0;
        for (section, length) in self.pieces.iter().flat_map(|p| &p.sections) {
            let kelvin = &values[at..at + section.shells()];
            joules += length * section.stored(kelvin);
            at += section.shells();
        }
        joules
    }

    /// How far each fuse's clock has run: (slow edge, fast edge).
    pub fn rounds<'a>(&self, values: &'a [f64]) -> impl Iterator<Item = (f64, f64)> + use<'a> {
        let (heat, n) = (self.heat_size(), self.clocks.len());
        (0..n).map(move |c| (values[heat + c], values[heat + n + c]))
    }

    /// Follows the run from a state for `seconds`, telling of every step; the state is moved along.
    pub fn go(
        &self,
        currents: &dyn Currents,
        values: &mut Vec<f64>,
        (seconds, care): (f64, Care),
        watch: &mut dyn FnMut(Sample) -> ControlFlow<()>,
    ) -> (End, f64) {
        let system = System::new(self, currents);
        // Damaged before it begins: nothing would cross the limit on the way up.
        if let Some(place) = system.damaged(values) {
            return (End::Damaged(place.0, place.1), 0.0);
        }
        equations::follow(&system, values, (seconds, care), watch)
    }
}
