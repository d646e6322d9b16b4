//! Each fuse against each wire that it protects, at every current: the fuse's band, the wire's damage curve, the
//! load with its start, and the fault currents that there are between. And each fuse against the one before it.
//!
//! The damage curve is worked out with the wire as it lies and as warm as in normal use: the time until it passes
//! its damage limit, or uses its insulation's life up. The margin is how many times later than the fuse's slow edge
//! that is, at the current at which it is least, between the lowest current at which an opening is promised and the
//! highest that can flow.

use loom::{PartId, WireId};

/// A fuse and a wire that it protects.
#[derive(Clone, Debug)]
pub struct Coordination {
    /// The fuse.
    pub fuse: PartId,
    /// The wire.
    pub wire: WireId,
    /// The fuse's rating, A.
    pub rating: f64,
    /// Its band: current (A), soonest opening (s), latest (s) where one is promised; by rising current.
    pub band: Vec<(f64, f64, Option<f64>)>,
    /// The wire's damage curve: current (A), time (s); by rising current, from the least that ever harms it.
    pub damage: Vec<(f64, f64)>,
    /// Most steady current through the fuse, A.
    pub load: f64,
    /// The loads' start, all at once: time since (s), current (A); empty where nothing starts with a pulse.
    pub start: Vec<(f64, f64)>,
    /// Lowest and highest fault current through the fuse with this wire on the body, A; none where it carries none.
    pub faults: Option<(f64, f64)>,
    /// From the rating to the first current at which an opening is promised, A: nothing is promised between.
    pub gap: (f64, f64),
    /// Least margin: how many times longer than the slow edge the wire bears it, and at which current, A. Below 1
    /// the wire is harmed first.
    pub margin: Option<(f64, f64)>,
}

/// A fuse and the one before it.
#[derive(Clone, Copy, Debug)]
pub struct Selective {
    /// The nearer to the fault.
    pub fuse: PartId,
    /// The one before it.
    pub before: PartId,
    /// From this fault current on their bands overlap, A: either may open. None where they never do up to `highest`.
    pub overlap_from: Option<f64>,
    /// The highest fault current right behind the nearer, A.
    pub highest: f64,
}
