//! Heat of every wire: in the bundle of each stretch it lies in, and alone at its ends.

use crate::design::{Choice, Design};
use loom::{Loom, StretchId, WireId};
use physics::bundle::{self, BundleWire, Sleeve};
use physics::wire_heat::{self, WireBody};
use plan::SleeveWish;
use quantity::{Length, Quantity, metres};
use stock::{Conductor, Stock};

/// Temperatures of the wires, K.
#[derive(Clone, Debug, Default)]
pub(crate) struct Heat {
    /// By wire: the hottest it gets anywhere.
    pub hottest: Vec<f64>,
    /// By wire: its mean along the cut length, which sets its resistance.
    pub mean: Vec<f64>,
    /// By wire: the heat around it where it is hottest.
    pub around: Vec<f64>,
}

/// The body of a conductor as the heat laws see it.
pub(crate) fn body(d: &Design, c: &Conductor) -> WireBody {
    let i = d.insulation(c);
    WireBody {
        conductor_d: c.conductor_d.si(),
        outside_d: c.outside_d.si(),
        k_insulation: i.k_w_mk,
        emissivity: i.emissivity,
    }
}

/// Temperature of a conductor alone in still air, K.
pub(crate) fn alone(d: &Design, c: &Conductor, amps: f64, around: f64) -> f64 {
    wire_heat::steady_kelvin(&body(d, c), c.ohm_per_m_20, amps, around)
}

/// Diameter of the bundle in a stretch.
pub(crate) fn bundle_diameter(d: &Design, stretch: StretchId) -> Length {
    diameter(d.loom, d.stock, &d.choice, stretch)
}

/// The same, of a choice.
pub(crate) fn diameter(loom: &Loom, stock: &Stock, choice: &Choice, stretch: StretchId) -> Length {
    let outside = |w: &WireId| stock.conductors[choice.wires[w.0 as usize]].outside_d.si();
    let outsides: Vec<f64> = loom.stretch(stretch).wires.iter().map(outside).collect();
    metres(bundle::bundle_diameter(&outsides))
}

/// The sleeve on a bundle as the heat laws see it. A bundle too large for any sleeve in stock runs
/// open here, and a finding says so.
pub(crate) fn sleeve(d: &Design, stretch: StretchId) -> Option<Sleeve> {
    let wish = d.loom.stretch(stretch).sleeve;
    if wish == SleeveWish::Open {
        return None;
    }
    let diameter = bundle_diameter(d, stretch);
    let found = d.stock.sleeve_for(wish.word(), diameter)?;
    Some(Sleeve {
        gap: ((found.bore.si() - diameter.si()) / 2.0).max(0.0),
        wall: found.wall.si(),
        k: d.limits.value("sleeve conductivity"),
        emissivity: d.limits.value("sleeve emissivity"),
    })
}

/// Temperatures of all wires at these currents.
pub(crate) fn all(d: &Design, amps: &[f64]) -> Heat {
    let wires = d.loom.wires.len();
    let mut heat = Heat {
        hottest: vec![0.0; wires],
        mean: vec![0.0; wires],
        around: vec![0.0; wires],
    };
    let mut laid = vec![0.0; wires];
    for (i, s) in d.loom.stretches.iter().enumerate() {
        if s.wires.is_empty() {
            continue;
        }
        let lying: Vec<BundleWire> = s.wires.iter().map(|w| in_bundle(d, *w, amps)).collect();
        let kelvin = bundle::steady_kelvin(&lying, sleeve(d, StretchId(i as u32)), s.heat.si());
        for (w, t) in s.wires.iter().zip(kelvin) {
            let at = w.0 as usize;
            heat.mean[at] += t * s.length.si();
            laid[at] += s.length.si();
            if t > heat.hottest[at] {
                heat.hottest[at] = t;
                heat.around[at] = s.heat.si();
            }
        }
    }
    for (id, w) in d.loom.each_wire() {
        let at = id.0 as usize;
        let ends = [w.places[0], w.places[w.places.len() - 1]];
        let around = ends.iter().map(|p| d.heat_at(*p)).fold(0.0, f64::max);
        let t = alone(d, d.conductor(id), amps[at], around);
        if t > heat.hottest[at] {
            heat.hottest[at] = t;
            heat.around[at] = around;
        }
        let rest = (w.cut.si() - laid[at]).max(0.0);
        let length = laid[at] + rest;
        heat.mean[at] = if length > 0.0 {
            (heat.mean[at] + t * rest) / length
        } else {
            t
        };
    }
    heat
}

fn in_bundle(d: &Design, wire: WireId, amps: &[f64]) -> BundleWire {
    let c = d.conductor(wire);
    BundleWire {
        body: body(d, c),
        r20_per_m: c.ohm_per_m_20,
        amps: amps[wire.0 as usize],
    }
}
