//! The words above the plot: the load, the fault currents, and the gap where it is too narrow for words of its own.

use super::CoordinationNames;
use super::axes::Axes;
use super::shape::between;
use crate::chart::Strip;
use quantity::figures;
use study::Coordination;

/// So many lines at most; a load with a longer name is told in the key.
const LINES: usize = 4;
/// A gap at least so wide has room for words that run upwards, mm.
const WIDE: f64 = 4.4;
/// What the gap says.
pub(super) const PROMISED: &str = "no opening is promised";

/// The words above the plot.
pub(super) struct Marks {
    pub strip: Option<Strip>,
    /// Whether the load's name stands there.
    pub names_load: bool,
    /// Whether the gap's words do.
    pub tells_gap: bool,
}

impl Marks {
    /// Above this plot, between two ends.
    pub fn of(c: &Coordination, names: &CoordinationNames, axes: &Axes, ends: (f64, f64)) -> Self {
        let tells_gap = between(axes, c.gap).is_some_and(|f| f.right - f.left < WIDE);
        let named = Strip::of(&marked(c, &names.load, axes, tells_gap), ends, LINES);
        let names_load = named.is_some();
        let strip = named.or_else(|| Strip::of(&marked(c, "load", axes, tells_gap), ends, LINES));
        Self {
            names_load,
            tells_gap: tells_gap && strip.is_some(),
            strip,
        }
    }
}

fn marked(c: &Coordination, load: &str, axes: &Axes, gap: bool) -> Vec<(f64, String)> {
    let told = |amps: f64| format!("{} A", figures(amps, 3));
    let place = |amps: f64| {
        let x = axes.amps.at(amps);
        x.clamp(axes.plot.left, axes.plot.right)
    };
    let mut out = Vec::new();
    if c.load > 0.0 && c.load.is_finite() {
        out.push((place(c.load), format!("{load}, {}", told(c.load))));
    }
    if gap {
        let middle = (c.gap.0 * c.gap.1).sqrt();
        let (from, to) = (figures(c.gap.0, 3), told(c.gap.1));
        out.push((place(middle), format!("{from} to {to}: {PROMISED}")));
    }
    match c.faults {
        Some((low, high)) if told(low) != told(high) => {
            out.push((place(low), format!("lowest fault {}", told(low))));
            out.push((place(high), format!("highest fault {}", told(high))));
        }
        Some((low, _)) => out.push((place(low), format!("fault {}", told(low)))),
        None => {}
    }
    out
}
