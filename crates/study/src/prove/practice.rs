//! A vehicle to practise on: one of the many that the loom may be, with something amiss in it that whoever searches does not
//! know. It is measured like a real one. The same number gives the same vehicle.

use super::bench::{Bench, Goes, Suspect};
use super::spread::Param;
use super::symptom::Symptom;
use super::weigh::Measured;

/// Lots drawn from a number (xorshift64*, Vigna 2016; normal by Box and Muller, textbook).
struct Lots(u64);

impl Lots {
    fn new(number: u64) -> Self {
        // The same spread of bits for numbers next to one another (splitmix64, Steele 2014).
        let mut z = number.wrapping_add(0x9E37_79B9_7F4A_7C15);
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        Self((z ^ (z >> 31)) | 1)
    }

    /// Evenly from 0 to 1.
    fn even(&mut self) -> f64 {
        self.0 ^= self.0 >> 12;
        self.0 ^= self.0 << 25;
        self.0 ^= self.0 >> 27;
        (self.0.wrapping_mul(0x2545_F491_4F6C_DD1D) >> 11) as f64 / (1_u64 << 53) as f64
    }

    fn normal(&mut self) -> f64 {
        let (a, b) = (self.even().max(1e-12), self.even());
        (-2.0 * a.ln()).sqrt() * (std::f64::consts::TAU * b).cos()
    }
}

/// So often another is drawn.
const MOST_DRAWS: usize = 200;
/// So many loads are said to work.
const SAID_TO_WORK: usize = 4;

/// A vehicle with something amiss.
pub struct Practice<'b, 'a> {
    bench: &'b Bench<'a>,
    amiss: Suspect,
    number: u64,
}

impl<'b, 'a> Practice<'b, 'a> {
    /// The vehicle of a number, with one cause that somebody notices, drawn by how often each happens.
    pub fn new(bench: &'b Bench<'a>, number: u64) -> Self {
        let works = |s: &Symptom| matches!(s, Symptom::Works(_));
        Self::drawn(bench, number, |vehicle| {
            !vehicle.symptoms().iter().all(works)
        })
    }

    /// The same, with one that some reading reveals, whether anybody notices it or not.
    pub fn unnoticed(bench: &'b Bench<'a>, number: u64) -> Self {
        Self::drawn(bench, number, |vehicle| !bench.is_hidden(vehicle.amiss))
    }

    fn drawn(bench: &'b Bench<'a>, number: u64, fits: impl Fn(&Self) -> bool) -> Self {
        let mut lots = Lots::new(number);
        let total: f64 = bench.causes.iter().map(|c| c.prior).sum();
        let mut vehicle = Self::of(bench, Suspect::Nothing, number);
        // A few draws nearly always find one that fits.
        for _ in 0..MOST_DRAWS {
            let mut left = lots.even() * total;
            let cause = bench.causes.iter().position(|c| {
                left -= c.prior;
                left <= 0.0
            });
            let Some(cause) = cause else { continue };
            let versions = bench.causes[cause].versions.len();
            let version = ((lots.even() * versions as f64) as usize).min(versions - 1);
            vehicle.amiss = Suspect::One(cause, version);
            if fits(&vehicle) {
                break;
            }
        }
        vehicle
    }

    /// One with this amiss.
    pub fn of(bench: &'b Bench<'a>, amiss: Suspect, number: u64) -> Self {
        Self {
            bench,
            amiss,
            number,
        }
    }

    /// What is amiss.
    pub fn amiss(&self) -> Suspect {
        self.amiss
    }

    /// Lots of this vehicle for one thing, whatever is asked before it.
    fn lots(&self, of: &str) -> Lots {
        let bytes = of.bytes();
        let hash = bytes.fold(0xcbf2_9ce4_8422_2325_u64, |h, b| {
            (h ^ u64::from(b)).wrapping_mul(0x0100_0000_01b3)
        });
        Lots::new(self.number.wrapping_mul(0x2545_F491_4F6C_DD1D) ^ hash)
    }

    /// How each thing that is not known exactly is in this vehicle, in its standard deviations.
    pub fn by(&self, param: Param) -> f64 {
        self.lots(&format!("{param:?}")).normal()
    }

    /// What a meter says of a probing on it; none where the network with it can't be solved.
    pub fn measure(&self, test: usize) -> Option<Measured> {
        let t = self.bench.tests.get(test)?;
        let limits = &self.bench.d.limits;
        let found = self.bench.found(self.amiss, t.setting);
        let read = *found.drawn(&[t.probe], &|p| self.by(p))?.first()?;
        let noise = self.lots(&self.bench.name(test)).normal() * t.probe.meter(limits, read);
        Some(Measured {
            test,
            value: t.probe.unscale(limits, read + noise),
        })
    }

    /// What somebody sees of it before a meter is fetched.
    pub fn symptoms(&self) -> Vec<Symptom> {
        let bench = self.bench;
        let mut seen = Vec::new();
        let mut works = 0;
        for load in bench.loom().circuits.iter().flat_map(|c| &c.loads) {
            let at = bench.setting_of(*load);
            let goes = at.and_then(|s| bench.sight(self.amiss, s).loads.get(load).copied());
            match goes {
                // That everything else works is hardly ever said of more than a few.
                Some(Goes::Well) if works >= SAID_TO_WORK => {}
                Some(Goes::Well) => {
                    works += 1;
                    seen.push(Symptom::Works(*load));
                }
                Some(Goes::Weakly) => seen.push(Symptom::Weak(*load)),
                _ => seen.push(Symptom::Dead(*load)),
            }
            let on = |suspect| bench.sight(suspect, 0).loads.get(load).copied() > Some(Goes::Not);
            if on(self.amiss) && !on(Suspect::Nothing) {
                seen.push(Symptom::StaysOn(*load));
            }
        }
        let flat = |c: &super::Cause| matches!(c.kind, "battery-flat" | "not-charged");
        if bench.each(self.amiss).any(flat) {
            seen.push(Symptom::GoesFlat);
        }
        seen
    }
}
