//! Heat of every wire: in the bundle of each stretch it lies in, and alone at its ends.

use crate::design::Design;
use crate::duty::{self, Share};
use crate::settle::Settled;
use loom::{StretchId, WireId};
use physics::bundle::{self, BundleWire, Sleeve};
use physics::wire_heat::{self, WireBody};
use plan::SleeveWish;
use quantity::{Length, Quantity, metres};
use stock::Conductor;

/// Temperatures of the wires, K.
#[derive(Clone, Debug, Default)]
pub struct Heat {
    /// By wire: the hottest it gets anywhere.
    pub hottest: Vec<f64>,
    /// By wire: its mean along the cut length, which sets its resistance.
    pub mean: Vec<f64>,
    /// By wire: the heat around it where it is hottest.
    pub around: Vec<f64>,
    /// By wire: the steady current that would heat it as much, A. Below its current where what it feeds
    /// switches itself on and off.
    pub felt: Vec<f64>,
    /// By wire: the current that it was worked out at, A.
    pub amps: Vec<f64>,
}

impl Heat {
    /// All wires at one temperature.
    pub(crate) fn even(wires: usize, kelvin: f64) -> Self {
        Self {
            hottest: vec![kelvin; wires],
            mean: vec![kelvin; wires],
            around: vec![kelvin; wires],
            felt: vec![0.0; wires],
            amps: vec![0.0; wires],
        }
    }

    /// By wire the hottest of several.
    pub(crate) fn hottest_of<'a>(all: impl Iterator<Item = &'a Self>) -> Self {
        let mut most = Self::default();
        for h in all {
            if most.hottest.is_empty() {
                most = h.clone();
                continue;
            }
            for i in 0..most.hottest.len() {
                most.mean[i] = most.mean[i].max(h.mean[i]);
                if h.hottest[i] > most.hottest[i] {
                    most.hottest[i] = h.hottest[i];
                    most.around[i] = h.around[i];
                    most.felt[i] = h.felt[i];
                    most.amps[i] = h.amps[i];
                }
            }
        }
        most
    }
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

/// Diameter of the bundle in a stretch, by the bench rule.
fn bundle_diameter(d: &Design, stretch: StretchId) -> Length {
    let outside = |w: &WireId| d.conductor(*w).outside_d.si();
    let outsides: Vec<f64> = d.loom.stretch(stretch).wires.iter().map(outside).collect();
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

/// Temperatures of all wires in a settled state, starting from an earlier answer if there is one.
pub(crate) fn all(d: &Design, s: &Settled, before: Option<&Heat>) -> Heat {
    let wires = d.loom.wires.len();
    let mut heat = Heat {
        amps: s.wire_amps.iter().map(|a| a.abs()).collect(),
        ..Heat::even(wires, 0.0)
    };
    let mut laid = vec![0.0; wires];
    let shares: Vec<Option<Share>> = d
        .loom
        .each_wire()
        .map(|(id, _)| duty::share(d, s, id))
        .collect();
    for (i, stretch) in d.loom.stretches.iter().enumerate() {
        if stretch.wires.is_empty() {
            continue;
        }
        let id = StretchId(i as u32);
        let lying = in_stretch(d, id, s, &shares, before);
        let length = stretch.length.si();
        for (w, (kelvin, felt)) in stretch.wires.iter().zip(lying) {
            let at = w.0 as usize;
            heat.mean[at] += kelvin * length;
            laid[at] += length;
            if kelvin > heat.hottest[at] {
                heat.hottest[at] = kelvin;
                heat.around[at] = stretch.heat.si();
                heat.felt[at] = felt;
            }
        }
    }
    for (id, _) in d.loom.each_wire() {
        finish(
            d,
            s,
            &mut heat,
            (id, laid[id.0 as usize]),
            shares[id.0 as usize],
        );
    }
    heat
}

/// What the ends of a wire add, which lie alone, to sums over `laid` metres of it; and its mean.
fn finish(
    d: &Design,
    s: &Settled,
    heat: &mut Heat,
    (id, laid): (WireId, f64),
    share: Option<Share>,
) {
    let at = id.0 as usize;
    let w = d.loom.wire(id);
    let ends = [w.places[0], w.places[w.places.len() - 1]];
    let around = ends.iter().map(|p| d.heat_at(*p)).fold(0.0, f64::max);
    let amps = s.wire_amps[at].abs();
    let felt = share.map_or(amps, |share| {
        share.felt(amps, duty::alone_constant(d, d.conductor(id), amps, around))
    });
    let t = alone(d, d.conductor(id), felt, around);
    if t > heat.hottest[at] {
        heat.hottest[at] = t;
        heat.around[at] = around;
        heat.felt[at] = felt;
    }
    let rest = (w.cut.si() - laid).max(0.0);
    let length = laid + rest;
    heat.mean[at] = if length > 0.0 {
        (heat.mean[at] + t * rest) / length
    } else {
        t
    };
}

/// The heat of a settled state with that of one wire worked out anew, for what is chosen now; its neighbours' stays.
pub(crate) fn anew(d: &Design, s: &Settled, wire: WireId) -> Heat {
    let at = wire.0 as usize;
    let mut heat = (*s.heat).clone();
    (heat.hottest[at], heat.mean[at]) = (0.0, 0.0);
    let shares: Vec<Option<Share>> = d
        .loom
        .each_wire()
        .map(|(id, _)| duty::share(d, s, id))
        .collect();
    let mut laid = 0.0;
    for id in &d.loom.wire(wire).stretches {
        let stretch = d.loom.stretch(*id);
        let place = stretch.wires.iter().position(|w| *w == wire);
        let lying = in_stretch(d, *id, s, &shares, Some(&s.heat));
        let Some((kelvin, felt)) = place.map(|p| lying[p]) else {
            continue;
        };
        let length = stretch.length.si();
        heat.mean[at] += kelvin * length;
        laid += length;
        if kelvin > heat.hottest[at] {
            heat.hottest[at] = kelvin;
            heat.around[at] = stretch.heat.si();
            heat.felt[at] = felt;
        }
    }
    finish(d, s, &mut heat, (wire, laid), shares[at]);
    heat
}

/// Temperature and felt current of each wire of a stretch. With loads that switch themselves, the bundle as a
/// whole follows slowly and is reckoned with what it feels; the rise within it follows at once.
fn in_stretch(
    d: &Design,
    id: StretchId,
    s: &Settled,
    shares: &[Option<Share>],
    before: Option<&Heat>,
) -> Vec<(f64, f64)> {
    let stretch = d.loom.stretch(id);
    let around = stretch.heat.si();
    let over = sleeve(d, id);
    let amps: Vec<f64> = stretch
        .wires
        .iter()
        .map(|w| s.wire_amps[w.0 as usize].abs())
        .collect();
    let lying = |amps: &[f64]| -> Vec<BundleWire> {
        let each = stretch.wires.iter().zip(amps);
        each.map(|(w, amps)| in_bundle(d, *w, *amps)).collect()
    };
    let start: Option<Vec<f64>> = before.map(|h| {
        stretch
            .wires
            .iter()
            .map(|w| h.hottest[w.0 as usize])
            .collect()
    });
    let full = bundle::steady(&lying(&amps), over, around, start.as_deref());
    let of = |w: &WireId| shares[w.0 as usize];
    if stretch.wires.iter().all(|w| of(w).is_none()) {
        return full.kelvin.into_iter().zip(amps).collect();
    }
    let slow = duty::bundle_constant(d, &stretch.wires, &full, around);
    let felt: Vec<f64> = stretch
        .wires
        .iter()
        .zip(&amps)
        .map(|(w, amps)| of(w).map_or(*amps, |share| share.felt(*amps, slow)))
        .collect();
    let eased = bundle::steady(&lying(&felt), over, around, None);
    let within = |i: usize| {
        let extra = if felt[i] > 0.0 {
            (amps[i] / felt[i]).powi(2) - 1.0
        } else {
            0.0
        };
        let rise = (eased.kelvin[i] - eased.outside_k).max(0.0);
        (eased.kelvin[i] + rise * extra).min(full.kelvin[i])
    };
    (0..felt.len()).map(|i| (within(i), felt[i])).collect()
}

/// A wire as it lies in a bundle, at a current.
pub(crate) fn in_bundle(d: &Design, wire: WireId, amps: f64) -> BundleWire {
    let c = d.conductor(wire);
    BundleWire {
        body: body(d, c),
        r20_per_m: c.ohm_per_m_20,
        amps,
    }
}
