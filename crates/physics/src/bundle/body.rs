//! The round body that a bundle is taken for: its kinds of wire, its mixed conductivity, its way out.
//! Takes the wires and their sleeve, gives what each kind resists in its own place and what leaves
//! the outside.

use super::{BundleWire, Mix, Sleeve};
use crate::wire_heat::{self, RUNAWAY_K, WireBody, surface_kelvin, surface_loss};
use crate::{air, radiation, root, shell};
use std::f64::consts::PI;

/// The gap is settled to this, K: below what the rest of the way out can tell.
const WITHIN_K: f64 = 1e-9;

/// Wires of one body.
pub(super) struct Kind {
    body: WireBody,
    count: f64,
    /// One wire's share of the cross-section of all wires.
    pub share: f64,
    /// One wire's own resistance when it lies in the middle: insulation and its share of the mix.
    pub middle: f64,
}

/// A bundle as heat sees it.
pub(super) struct Body {
    diameter: f64,
    /// Mixed conductivity inside, W/m·K.
    pub k: f64,
    emissivity: f64,
    pub ambient_k: f64,
    sleeve: Option<Sleeve>,
    pub kinds: Vec<Kind>,
    /// The kind of each wire, in the order given.
    pub kind_of: Vec<usize>,
}

impl Body {
    pub(super) fn new(wires: &[BundleWire], sleeve: Option<Sleeve>, ambient_k: f64) -> Self {
        let mix = Mix::new(wires.iter().map(|wire| &wire.body), ambient_k);
        let (diameter, k, emissivity) = (mix.diameter, mix.k, mix.emissivity);
        let (mut kinds, kind_of) = sorted(wires, mix.squares);
        for kind in &mut kinds {
            let room = diameter * kind.share.sqrt();
            let mix = shell::resistance(kind.body.outside_d, room, mix.room_k);
            kind.middle = kind.body.insulation_resistance() + mix;
        }
        Self {
            diameter,
            k,
            emissivity,
            ambient_k,
            sleeve: sleeve.map(|s| mix.beneath(s)),
            kinds,
            kind_of,
        }
    }

    /// What the outermost surface sheds at `skin_k`, W/m, and the bundle's own surface with it, K.
    pub(super) fn shedding(&self, skin_k: f64) -> (f64, f64) {
        let (over, emissivity) = self.skin();
        let shed = surface_loss(over, emissivity, skin_k, self.ambient_k);
        (shed, self.beneath(skin_k, shed))
    }

    /// Temperature of the bundle's own surface when it sheds `heat` (W/m) in all.
    pub(super) fn outside_kelvin(&self, heat: f64) -> f64 {
        let (over, emissivity) = self.skin();
        let skin_k = surface_kelvin(over, emissivity, heat, self.ambient_k);
        self.beneath(skin_k, heat)
    }

    /// A skin that is above any that `made` (at ambient, and for each kelvin) settles at, K: as if the
    /// gap were as cold as ambient and did not radiate.
    pub(super) fn most_skin_kelvin(&self, made: (f64, f64)) -> f64 {
        let (over, emissivity) = self.skin();
        let least = wire_heat::least_loss(over, emissivity, self.ambient_k);
        let inside = self.sleeve.map_or(0.0, |sleeve| {
            let bore = self.diameter + 2.0 * sleeve.gap;
            shell::resistance(self.diameter, bore, air::at(self.ambient_k).k)
                + shell::resistance(bore, over, sleeve.k)
        });
        wire_heat::most_kelvin(least, made, inside, self.ambient_k)
    }

    /// Diameter and emissivity of the outermost surface.
    fn skin(&self) -> (f64, f64) {
        self.sleeve
            .map_or((self.diameter, self.emissivity), |sleeve| {
                let over = self.diameter + 2.0 * (sleeve.gap + sleeve.wall);
                (over, sleeve.emissivity)
            })
    }

    /// Temperature of the bundle's own surface beneath a skin at `skin_k` that passes `heat` (W/m).
    fn beneath(&self, skin_k: f64, heat: f64) -> f64 {
        let Some(sleeve) = self.sleeve else {
            return skin_k;
        };
        let bore = self.diameter + 2.0 * sleeve.gap;
        let wall = shell::resistance(bore, bore + 2.0 * sleeve.wall, sleeve.k);
        self.across_gap(sleeve, skin_k + heat * wall, heat)
            .min(RUNAWAY_K)
    }

    /// Temperature inside the air gap that drives `heat` (W/m) to a bore at `bore_k`.
    fn across_gap(&self, sleeve: Sleeve, bore_k: f64, heat: f64) -> f64 {
        if sleeve.gap <= 0.0 || heat <= 0.0 || bore_k >= RUNAWAY_K {
            return bore_k;
        }
        let bore = self.diameter + 2.0 * sleeve.gap;
        let emissivity =
            radiation::between(self.emissivity, sleeve.emissivity, self.diameter / bore);
        // Air at the cooler wall conducts a little less: the cautious side, and it stays monotone.
        let still = shell::resistance(self.diameter, bore, air::at(bore_k).k);
        let short = |hot: f64| {
            let radiated = PI * self.diameter * radiation::flux(emissivity, hot, bore_k);
            (hot - bore_k) / still + radiated - heat
        };
        // Without radiation the air alone would need the most.
        let most = (bore_k + heat * still + WITHIN_K).min(RUNAWAY_K);
        if short(most) < 0.0 {
            return RUNAWAY_K;
        }
        root::bracketed(short, bore_k, most, WITHIN_K)
    }
}

/// The kinds among the wires (`middle` still to come), and the kind of each wire.
fn sorted(wires: &[BundleWire], squares: f64) -> (Vec<Kind>, Vec<usize>) {
    let mut kinds: Vec<Kind> = Vec::new();
    let mut kind_of = Vec::with_capacity(wires.len());
    for wire in wires {
        let known = kinds.iter().position(|kind| kind.body == wire.body);
        let at = known.unwrap_or(kinds.len());
        if known.is_none() {
            kinds.push(Kind {
                body: wire.body,
                count: 0.0,
                share: wire.body.outside_d.powi(2) / squares,
                middle: 0.0,
            });
        }
        kinds[at].count += 1.0;
        kind_of.push(at);
    }
    (kinds, kind_of)
}
