//! The chain of a wire in the middle of a bundle: itself, its room, the others around it in rings with the
//! most heat for its area innermost, and what is drawn over them. The same body as [`crate::bundle`] takes,
//! with the heat that it takes up.

use super::Warmed;
use super::alone::covered;
use super::section::{Gap, Section};
use super::shells::{around, edges, passes, ring};
use crate::bundle::{Mix, Sleeve};
use crate::radiation;

/// A wire beside the one in the middle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Beside {
    /// The wire.
    pub wire: Warmed,
    /// Heat that it makes in normal use, W/m; of one of the run, what it makes at first.
    pub watts_per_m: f64,
    /// Its index in the run, if its current changes.
    pub runs: Option<usize>,
}

/// What is drawn over a bundle, as heat in time sees it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cover {
    /// The sleeve.
    pub sleeve: Sleeve,
    /// Heat that its wall takes up, J/(m³·K).
    pub j_m3k: f64,
}

/// A metre of `centre` in the middle of a bundle with these beside it.
pub fn laid(centre: &Warmed, beside: &[Beside], cover: Option<Cover>, ambient_k: f64) -> Section {
    let body = Round::new(centre, beside, ambient_k);
    let (mut capacity, mut link) = covered(centre);
    let own = capacity.len();
    let radii = body.radii(centre);
    // The outside of the wire itself is the first of these radii, and a shell already.
    for (i, pair) in radii.windows(2).enumerate() {
        // The first leads from the wire's outside over its own room.
        let k = if i == 0 { body.mix.room_k } else { body.mix.k };
        link.push(passes(pair[0], pair[1], k));
        capacity.push(0.0);
    }
    let edges = edges(&radii);
    let volumes: Vec<(f64, f64)> = edges
        .windows(2)
        .map(|pair| (body.share_within(pair[0]), body.share_within(pair[1])))
        .collect();
    let mut section = Section {
        given: vec![0.0; capacity.len()],
        capacity,
        link,
        lent: Vec::new(),
        gap: None,
        skin_d: 2.0 * body.radius,
        emissivity: body.mix.emissivity,
        ambient_k,
    };
    lay_beside(&mut section, own - 1, &body, &volumes);
    if let Some(cover) = cover {
        draw_over(&mut section, &body, cover);
    }
    section
}

/// Spreads what lies beside over the shells from `first` on, by the area that each takes.
fn lay_beside(section: &mut Section, first: usize, body: &Round, volumes: &[(f64, f64)]) {
    let shells = section.shells();
    let mut from = body.own_share;
    for one in &body.order {
        let share = one.wire.body.outside_d.powi(2) / body.mix.squares;
        let to = from + share;
        let mut parts = vec![0.0; shells];
        for (i, (inner, outer)) in volumes.iter().enumerate() {
            let common = (outer.min(to) - inner.max(from)).max(0.0);
            parts[first + i] = common / share;
        }
        for (i, part) in parts.iter().enumerate() {
            section.capacity[i] += part * one.wire.capacity();
            if one.runs.is_none() {
                section.given[i] += part * one.watts_per_m;
            }
        }
        if let Some(wire) = one.runs {
            section.lent.push((wire, parts));
        }
        from = to;
    }
    // The room around the wire itself is air, which takes up next to nothing; but no shell may take up none.
    for capacity in &mut section.capacity[first + 1..] {
        *capacity = capacity.max(1e-3 * centre_capacity(body));
    }
}

fn centre_capacity(body: &Round) -> f64 {
    body.centre.capacity()
}

/// Adds gap and wall of a sleeve.
fn draw_over(section: &mut Section, body: &Round, cover: Cover) {
    let sleeve = body.mix.beneath(cover.sleeve);
    let bore = body.radius + sleeve.gap;
    let over = bore + sleeve.wall;
    let wall = cover.j_m3k * ring(bore, over);
    let last = section.shells() - 1;
    if sleeve.gap > 0.0 {
        section.gap = Some(Gap {
            within: last,
            diameter: 2.0 * body.radius,
            bore: 2.0 * bore,
            emissivity: radiation::between(
                body.mix.emissivity,
                sleeve.emissivity,
                body.radius / bore,
            ),
        });
        section.link.push(0.0);
        section.capacity.push(0.5 * wall);
        section.given.push(0.0);
    } else {
        section.capacity[last] += 0.5 * wall;
    }
    if sleeve.wall > 0.0 {
        section.link.push(passes(bore, over, sleeve.k));
        section.capacity.push(0.5 * wall);
        section.given.push(0.0);
    }
    for (_, parts) in &mut section.lent {
        parts.resize(section.capacity.len(), 0.0);
    }
    section.skin_d = 2.0 * over;
    section.emissivity = sleeve.emissivity;
}

/// The round body that a bundle is taken for.
struct Round<'a> {
    centre: &'a Warmed,
    radius: f64,
    mix: Mix,
    /// The share of all wires' cross-section that is the one in the middle.
    own_share: f64,
    /// The others, the most heat for its area innermost.
    order: Vec<Beside>,
}

impl<'a> Round<'a> {
    fn new(centre: &'a Warmed, beside: &[Beside], ambient_k: f64) -> Self {
        let all = std::iter::once(&centre.body).chain(beside.iter().map(|b| &b.wire.body));
        let mix = Mix::new(all, ambient_k);
        let density = |b: &Beside| b.watts_per_m / b.wire.body.outside_d.powi(2);
        let mut order = beside.to_vec();
        order.sort_by(|a, b| density(b).total_cmp(&density(a)));
        Self {
            centre,
            radius: 0.5 * mix.diameter,
            mix,
            own_share: centre.body.outside_d.powi(2) / mix.squares,
            order,
        }
    }

    /// From the wire's own outside over its room to the bundle's outside.
    fn radii(&self, centre: &Warmed) -> Vec<f64> {
        let own = 0.5 * centre.body.outside_d;
        let room = self.radius * self.own_share.sqrt();
        let mut radii = vec![own];
        if room > own * (1.0 + 1e-9) {
            radii.push(room);
        }
        let last = radii[radii.len() - 1];
        radii.extend(around(last, self.radius).into_iter().skip(1));
        radii
    }

    /// The share of all wires' cross-section that lies within a radius.
    fn share_within(&self, radius: f64) -> f64 {
        (radius / self.radius).powi(2)
    }
}
