//! What goes through a panel, tried in order of assembly: whole through the grommet; whole through the bare hole, with the
//! grommet on the wires before the end is crimped; a connector's contacts with the housing put on behind the panel; and
//! where nothing of these will do, bare wire that is crimped behind it, last.
//!
//! Ends go through one at a time, the widest first, while fewest wires lie in the hole: an end passes if it and the wires
//! already there can be packed into the bore.

use super::Laid;
use super::things::{Ends, Thing};
use crate::design::Design;
use crate::fit::Fit;
use crate::laying::Laying;
use loom::{PlaceId, StretchId, WireId};
use physics::packing::pack;
use quantity::{Length, Quantity};

/// How an end goes through.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum How {
    /// Made up, with the grommet in its place.
    Whole,
    /// Made up, through the bare hole; the grommet is on the wires already.
    GrommetFirst,
    /// Contacts crimped, the housing put on behind the panel.
    HousingAfter,
    /// Crimped behind the panel.
    CrimpAfter,
}

/// One thing that goes through, with the wires that it is on.
#[derive(Clone, Debug, PartialEq)]
pub struct Pass {
    /// Its wires in the hole.
    pub wires: Vec<WireId>,
    /// Wires that hang on them beyond, through a joint.
    pub hang: Vec<WireId>,
    /// In words.
    pub what: String,
    /// Its widest as it goes through, where that is known.
    pub across: Option<Length>,
    /// How.
    pub how: How,
}

/// What goes through one panel.
#[derive(Clone, Debug, PartialEq)]
pub struct Passing {
    /// Where the panel is.
    pub stretch: StretchId,
    /// The end of the stretch towards which things go through: away from where the loom is laid from.
    pub towards: PlaceId,
    /// The bore, or the hole where there is no grommet.
    pub bore: Length,
    /// In the order in which they go.
    pub passes: Vec<Pass>,
}

/// Tries of the packing: a handful of circles.
const TRIES: usize = 20;

/// Through a panel, each way: towards the one end of its stretch and the other; nothing where stock has no grommet for it.
pub(super) fn both_ways(
    d: &Design,
    table: &Laying,
    fit: &Fit,
    laid: &Laid,
) -> Option<[Passing; 2]> {
    let hole = laid.hole.as_ref()?;
    let across = hole.across?;
    let bore = match &hole.grommet {
        Some(Ok(g)) => d.stock.grommets[*g].bore,
        Some(Err(_)) => return None,
        None => across,
    };
    let ends = d.loom.stretch(laid.stretch).ends;
    Some(ends.map(|towards| {
        let ends = Ends {
            d,
            table,
            fit,
            through: through_ends(d, laid.stretch, towards),
        };
        Passing {
            stretch: laid.stretch,
            towards,
            bore,
            passes: passes(d, [across.si(), bore.si()], ends.things()),
        }
    }))
}

/// How much is to be done behind the panel: crimps, then housings, then what has to go before the grommet.
pub(super) fn work(passing: &Passing) -> [usize; 3] {
    [How::CrimpAfter, How::HousingAfter, How::GrommetFirst]
        .map(|how| passing.passes.iter().filter(|p| p.how == how).count())
}

/// The end of each wire of a stretch that lies towards one of its ends.
fn through_ends(d: &Design, stretch: StretchId, towards: PlaceId) -> Vec<(WireId, usize)> {
    let wires = d.loom.stretch(stretch).wires.iter();
    let each = wires.map(|id| {
        let w = d.loom.wire(*id);
        let at = w.stretches.iter().position(|s| *s == stretch);
        let forwards = at.is_some_and(|i| w.places.get(i + 1) == Some(&towards));
        (*id, usize::from(forwards))
    });
    each.collect()
}

/// Each thing with how it goes: the widest first, and what is crimped behind the panel last.
fn passes(d: &Design, [hole, bore]: [f64; 2], mut things: Vec<Thing>) -> Vec<Pass> {
    let width = |t: &Thing| t.whole.or(t.bare).unwrap_or(0.0);
    things.sort_by(|a, b| width(b).total_cmp(&width(a)));
    let radius = |w: &WireId| d.conductor(*w).outside_d.si() / 2.0;
    let mut lying = Lying::default();
    let (mut done, mut last) = (Vec::new(), Vec::new());
    for thing in things {
        let own: Vec<f64> = thing.wires.iter().map(radius).collect();
        // One contact after another: the last passes beside the wires of those before it.
        let before_it = &own[1..];
        let passes = |across: Option<f64>, beside: &[f64], opening: f64| {
            across.is_some_and(|across| lying.lets(across / 2.0, beside, opening / 2.0))
        };
        let how = if passes(thing.whole, &[], bore) {
            How::Whole
        } else if passes(thing.whole, &[], hole) {
            How::GrommetFirst
        } else if passes(thing.bare, before_it, bore) {
            How::HousingAfter
        } else {
            How::CrimpAfter
        };
        let across = match how {
            How::Whole | How::GrommetFirst => thing.whole,
            How::HousingAfter => thing.bare,
            How::CrimpAfter => None,
        };
        let pass = Pass {
            wires: thing.wires,
            hang: thing.hang,
            what: thing.what,
            across: across.map(Length::from_si),
            how,
        };
        match how {
            How::CrimpAfter => last.push(pass),
            _ => {
                lying.add(&own);
                done.push(pass);
            }
        }
    }
    done.extend(last);
    done
}

/// The wires that lie in the hole, and a circle that holds them.
#[derive(Default)]
struct Lying {
    radii: Vec<f64>,
    radius: f64,
}

impl Lying {
    fn add(&mut self, radii: &[f64]) {
        self.radii.extend(radii);
        self.radius = pack(&self.radii, TRIES).radius;
    }

    /// Whether a thing goes through an opening beside them and these others.
    fn lets(&self, thing: f64, beside: &[f64], opening: f64) -> bool {
        let slack = 1.0 + 1e-6;
        let others: f64 = beside.iter().sum();
        // Side by side is room enough; the area of all is the least that they need.
        if self.radius + others + thing <= opening * slack {
            return true;
        }
        let mut radii = self.radii.clone();
        radii.extend(beside);
        radii.push(thing);
        let area: f64 = radii.iter().map(|r| r * r).sum();
        let widest = radii.iter().copied().fold(0.0, f64::max);
        widest <= opening
            && area <= opening * opening
            && pack(&radii, TRIES).radius <= opening * slack
    }
}
