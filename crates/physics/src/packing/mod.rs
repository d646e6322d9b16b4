//! Circles in the smallest circle: the least diameter that wires can be drawn up to.
//!
//! Minimises `R + (k/2) Σ overlap²` over all centres and the outer radius R, with k rising, from many starts; the best is
//! drawn apart until nothing overlaps. Starts are the last place with circles moved, swapped, or put where there is most
//! room, and fresh ones; a place a little worse than the last may be gone on from.
//!
//! | symbol | meaning | unit |
//! |---|---|---|
//! | r | radius of a circle | any, all alike |
//! | R | radius of the circle around all | the same |
//!
//! Range: 1 to some 100 circles. No proof that it is the least. Source: common practice of the field; what it reaches of
//! published packings, with how many tries, is tested in `tests/published/packing.rs`.

mod descent;

use descent::{Function, descend};

/// Circles in a circle.
#[derive(Clone, Debug, PartialEq)]
pub struct Packing {
    /// Centres, in the order given; the outer circle's is the origin.
    pub centres: Vec<[f64; 2]>,
    /// Radius of the circle around all.
    pub radius: f64,
}

/// Numbers that look like chance and are the same each time (Knuth's linear congruence; from memory).
struct Dice(u64);

impl Dice {
    /// From 0 up to 1.
    fn roll(&mut self) -> f64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 11) as f64 / (1u64 << 53) as f64
    }

    fn below(&mut self, n: usize) -> usize {
        (self.roll() * n as f64) as usize
    }
}

/// The circles with a stiffness: what is minimised.
struct Loose<'a> {
    radii: &'a [f64],
    stiff: f64,
}

impl Function for Loose<'_> {
    fn of(&self, x: &[f64], slope: &mut [f64]) -> f64 {
        let n = self.radii.len();
        let (xs, ys) = (&x[..n], &x[n..2 * n]);
        let outer = x[2 * n];
        slope.fill(0.0);
        let mut sum = 0.0;
        for i in 0..n {
            let (xi, yi, ri) = (xs[i], ys[i], self.radii[i]);
            for j in 0..i {
                let (dx, dy, apart) = (xi - xs[j], yi - ys[j], ri + self.radii[j]);
                let square = dx * dx + dy * dy;
                if square < apart * apart {
                    let far = square.sqrt().max(1e-12);
                    let over = apart - far;
                    sum += over * over;
                    let push = self.stiff * over / far;
                    slope[i] -= push * dx;
                    slope[n + i] -= push * dy;
                    slope[j] += push * dx;
                    slope[n + j] += push * dy;
                }
            }
            let square = xi * xi + yi * yi;
            let room = outer - ri;
            if room < 0.0 || square > room * room {
                let far = square.sqrt().max(1e-12);
                let over = far - room;
                sum += over * over;
                let push = self.stiff * over;
                slope[i] += push * xi / far;
                slope[n + i] += push * yi / far;
                slope[2 * n] -= push;
            }
        }
        slope[2 * n] += 1.0;
        outer + 0.5 * self.stiff * sum
    }
}

/// Stiffnesses to begin with, for circles of about unit size. The softer, the more is forgotten of the start; for equal
/// circles the second does best.
const SOFT: [f64; 4] = [1.5, 3.0, 5.0, 8.0];
/// Steps at that, and the stiffnesses that follow, with the steps at each.
const SOFT_STEPS: usize = 60;
const STAGES: [(f64, usize); 2] = [(60.0, 60), (2e3, 120)];
/// The last stiffness for the best: what is then drawn apart is below a ten-thousandth.
const STIFFEST: [(f64, usize); 2] = [(1e5, 400), (3e6, 800)];

/// A place under way: all x, all y, then R.
type Place = Vec<f64>;

fn settle(radii: &[f64], place: &mut Place, stages: &[(f64, usize)]) {
    for (stiff, steps) in stages {
        descend(
            &Loose {
                radii,
                stiff: *stiff,
            },
            place,
            *steps,
            1e-7,
        );
    }
}

/// The radius once all is drawn apart from the middle until nothing overlaps, and by how much it is drawn.
fn apart(radii: &[f64], place: &Place) -> (f64, f64) {
    let n = radii.len();
    let mut draw = 1.0_f64;
    for i in 0..n {
        for j in 0..i {
            let far = (place[i] - place[j]).hypot(place[n + i] - place[n + j]);
            draw = draw.max((radii[i] + radii[j]) / far.max(1e-9));
        }
    }
    let reach = |i: usize| draw * place[i].hypot(place[n + i]) + radii[i];
    ((0..n).map(reach).fold(0.0, f64::max), draw)
}

/// Anywhere within a circle that they would half fill.
fn fresh(radii: &[f64], dice: &mut Dice) -> Place {
    let n = radii.len();
    let outer = (2.0 * radii.iter().map(|r| r * r).sum::<f64>()).sqrt();
    let mut place = vec![0.0; 2 * n + 1];
    for i in 0..n {
        let (far, turn) = (
            outer * dice.roll().sqrt(),
            std::f64::consts::TAU * dice.roll(),
        );
        (place[i], place[n + i]) = (far * turn.cos(), far * turn.sin());
    }
    place[2 * n] = outer;
    place
}

/// Another place near one: two circles of unlike size swapped, one put elsewhere, or all moved a little.
fn near(radii: &[f64], place: &Place, kind: usize, dice: &mut Dice) -> Place {
    let n = radii.len();
    let mut place = place.clone();
    match kind {
        0 => {
            for i in 0..n {
                place[i] += radii[i] * (dice.roll() - 0.5) * 1.6;
                place[n + i] += radii[i] * (dice.roll() - 0.5) * 1.6;
            }
        }
        1 | 2 => {
            let i = dice.below(n);
            (place[i], place[n + i]) = roomiest(radii, &place, i, dice);
        }
        _ => {
            let i = dice.below(n);
            // Among the few next in size.
            let mut order: Vec<usize> = (0..n).filter(|j| radii[*j] != radii[i]).collect();
            order.sort_by(|a, b| {
                (radii[*a] - radii[i])
                    .abs()
                    .total_cmp(&(radii[*b] - radii[i]).abs())
            });
            let j = order[dice.below(order.len().min(6))];
            place.swap(i, j);
            place.swap(n + i, n + j);
        }
    }
    place
}

/// Spots that are looked at for a circle that is put elsewhere: with one it is put anywhere, with thirty always into the
/// same few gaps; radii 1 to 17 came out best with three.
const LOOKS: usize = 3;

/// Of a few spots away from its own, the one where a circle overlaps least.
fn roomiest(radii: &[f64], place: &Place, i: usize, dice: &mut Dice) -> (f64, f64) {
    let n = radii.len();
    let outer = place[2 * n];
    let mut best = (f64::INFINITY, (place[i], place[n + i]));
    for _ in 0..LOOKS {
        let (far, turn) = (
            outer * dice.roll().sqrt(),
            std::f64::consts::TAU * dice.roll(),
        );
        let (x, y) = (far * turn.cos(), far * turn.sin());
        if (place[i] - x).hypot(place[n + i] - y) < radii[i] {
            continue;
        }
        let others = (0..n).filter(|j| *j != i);
        let over = others.map(|j| radii[i] + radii[j] - (x - place[j]).hypot(y - place[n + j]));
        let over = over.fold((far + radii[i] - outer).max(0.0), f64::max);
        if over < best.0 {
            best = (over, (x, y));
        }
    }
    best.1
}

/// By how much worse, as a part, a place may be that is gone on from: the mean of what is allowed at each try. A third of it
/// hangs in one valley, three times as much wanders.
const GIVE: f64 = 1.2e-3;
/// Tries without anything better before it begins afresh, for circles all alike and for others.
const PATIENCE: [usize; 2] = [60, 800];

/// Radii closer than this are one place.
const SAME: f64 = 1e-7;

/// Packs circles, with so many tries; the more, the closer.
pub fn pack(radii: &[f64], tries: usize) -> Packing {
    let n = radii.len();
    let most = radii.iter().copied().fold(0.0, f64::max);
    if n < 2 || most <= 0.0 {
        return Packing {
            centres: vec![[0.0; 2]; n],
            radius: most,
        };
    }
    let mean = radii.iter().sum::<f64>() / n as f64;
    let unit: Vec<f64> = radii.iter().map(|r| r / mean).collect();
    let alike = unit.iter().all(|r| *r == unit[0]);
    let mut dice = Dice(n as u64 + 1);
    let mut best: Option<(f64, Place)> = None;
    let mut here: Option<(f64, Place)> = None;
    let mut idle = 0;
    for _ in 0..tries {
        let kind = here
            .is_some()
            .then(|| dice.below(if alike { 3 } else { 6 }));
        let mut place = match (&here, kind) {
            (Some((_, place)), Some(kind)) => near(&unit, place, kind, &mut dice),
            _ => fresh(&unit, &mut dice),
        };
        // Half of what only swaps two is not softened: the rest stays where it is.
        let swapped = matches!(kind, Some(k) if k > 2);
        if !swapped || dice.below(2) == 0 {
            let soft = if alike {
                SOFT[1]
            } else {
                SOFT[dice.below(SOFT.len())]
            };
            settle(&unit, &mut place, &[(soft, SOFT_STEPS)]);
        }
        settle(&unit, &mut place, &STAGES);
        let (radius, _) = apart(&unit, &place);
        idle += 1;
        if best.as_ref().is_none_or(|b| radius < b.0 * (1.0 - SAME)) {
            best = Some((radius, place.clone()));
            idle = 0;
        }
        // Equal circles have few valleys: giving way only loses them.
        let give = match alike {
            true => 0.0,
            false => -GIVE * dice.roll().max(1e-12).ln(),
        };
        if here.as_ref().is_none_or(|h| {
            let another = (radius / h.0 - 1.0).abs() > SAME;
            another && radius < h.0 * (1.0 + give)
        }) {
            here = Some((radius, place));
        }
        if idle == PATIENCE[usize::from(!alike)] {
            (here, idle) = (None, 0);
        }
    }
    let (_, mut place) = best.unwrap_or_else(|| (0.0, fresh(&unit, &mut dice)));
    settle(&unit, &mut place, &STIFFEST);
    let (radius, draw) = apart(&unit, &place);
    let at = |i: usize| [place[i] * draw * mean, place[n + i] * draw * mean];
    Packing {
        centres: (0..n).map(at).collect(),
        radius: radius * mean,
    }
}
