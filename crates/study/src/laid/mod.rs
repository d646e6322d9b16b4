//! How the loom is laid: bends, supports and ties of each bundle, its sleeve and grommet; what passes through which panel, in
//! which order. Takes a studied loom and what fits its ends; gives plain data for the lists.
//!
//! | file | step |
//! |---|---|
//! | `things` | how wide each thing is that must go through, with what hangs on it |
//! | `passing` | what goes through a panel whole, before its grommet, without its housing, or bare |

mod passing;
mod things;

use crate::bundles::Bundle;
use crate::design::Design;
use crate::fit::Fit;
use crate::laying::{Laying, bare_hole, bend_radius, labels, supports_between};
use loom::{PlaceId, Role, StretchId};
pub use passing::{How, Pass, Passing};
use plan::SleeveWish;
use quantity::{Area, Length, Quantity, in_mm2, millimetres};
use stock::Stock;

/// The bundle of one stretch as it is laid.
#[derive(Clone, Debug)]
pub struct Laid {
    /// Where.
    pub stretch: StretchId,
    /// How thick.
    pub bundle: Bundle,
    /// With its sleeve.
    pub outside: Length,
    /// Its sleeve: index into stock; none where it lies open; what to look for where stock has none.
    pub sleeve: Option<Result<usize, String>>,
    /// The panel's hole, if there is one: with its grommet (index into stock), or with room all round.
    pub hole: Option<Hole>,
    /// Least inside radius of a bend: where it hangs, and where it is held on both sides of the bend.
    pub bends: [Length; 2],
    /// Clips, those beside its ends and its panel included.
    pub clips: u32,
    /// How far apart they stand at most.
    pub every: Length,
    /// Ties between the clips; none where a sleeve holds it together.
    pub ties: u32,
    /// On whose word clips and ties stand so far apart.
    pub cites: Vec<String>,
}

impl Laid {
    /// The sleeve is thicker than the grommet's bore: it ends on each side of the panel.
    pub fn parts(&self, stock: &Stock) -> bool {
        let grommet = self.hole.as_ref().and_then(|h| h.grommet.as_ref());
        let bore = grommet
            .and_then(|g| g.as_ref().ok())
            .map(|g| stock.grommets[*g].bore);
        matches!(self.sleeve, Some(Ok(_))) && bore.is_some_and(|bore| self.outside > bore)
    }
}

/// A hole in a panel.
#[derive(Clone, Debug, PartialEq)]
pub struct Hole {
    /// Its diameter; none where no grommet of stock fits.
    pub across: Option<Length>,
    /// The grommet: index into stock, or what to look for. None where the plan wants none.
    pub grommet: Option<Result<usize, String>>,
}

/// Every stretch in which wires lie.
pub(crate) fn laid(d: &Design, bundles: &[Bundle]) -> Vec<Laid> {
    let table = Laying::default();
    let stretches = d.loom.stretches.iter().enumerate();
    let used = stretches.filter(|(_, s)| !s.wires.is_empty());
    used.map(|(i, _)| one(d, &table, StretchId(i as u32), bundles[i]))
        .collect()
}

fn one(d: &Design, table: &Laying, stretch: StretchId, bundle: Bundle) -> Laid {
    let s = d.loom.stretch(stretch);
    let sleeve = (s.sleeve != SleeveWish::Open).then(|| sleeve(d, s.sleeve.word(), bundle.laid));
    let outside = match &sleeve {
        Some(Ok(kind)) => d.stock.sleeves[*kind].outside_on(bundle.laid),
        _ => bundle.laid,
    };
    let widths = s.wires.iter().map(|w| d.conductor(*w).outside_d.si() * 1e3);
    let largest = widths.fold(0.0, f64::max);
    let bend = |rule| millimetres(bend_radius(largest, table.value(rule)));
    let zones = s.ends.map(|p| d.loom.place(p).zone);
    let battery = s.wires.iter().map(|w| d.loom.wire(*w).role);
    let battery = battery
        .into_iter()
        .any(|r| matches!(r, Role::Lead | Role::Feeder));
    let every = table.support((d.habits.rules, battery), zones);
    let mut cites = vec![format!("clips: {}", every.cite)];
    let mut ties = 0;
    if sleeve.is_none() && s.wires.len() > 1 {
        let apart = table.tie(bundle.laid.si() * 1e3);
        ties = supports_between(s.length.si() * 1e3, apart.mm);
        cites.push(format!("ties: {}", apart.cite));
    }
    Laid {
        stretch,
        bundle,
        outside,
        sleeve,
        hole: hole(d, table, s, (bundle.laid, outside)),
        bends: [bend("bend"), bend("bend, supported")],
        clips: clips(table, s, every.mm),
        every: millimetres(every.mm),
        ties,
        cites,
    }
}

/// A sleeve of a kind for a bundle, or what to look for.
pub(crate) fn sleeve(d: &Design, kind: &str, bundle: Length) -> Result<usize, String> {
    let fits = d.stock.sleeve_for(kind, bundle);
    let at = fits.and_then(|f| d.stock.sleeves.iter().position(|s| std::ptr::eq(s, f)));
    at.ok_or_else(|| format!("{kind} for a bundle of {}", bundle.show()))
}

/// A bare hole is clear of the sleeve; into a grommet's bore go the wires alone.
fn hole(
    d: &Design,
    table: &Laying,
    s: &loom::LoomStretch,
    (bundle, outside): (Length, Length),
) -> Option<Hole> {
    let panel = s.panel.as_ref()?;
    if !panel.grommet {
        let bare = bare_hole(outside.si() * 1e3, table.value("clear of a bare hole"));
        return Some(Hole {
            across: Some(millimetres(bare)),
            grommet: None,
        });
    }
    let fits = d.stock.grommet_for(bundle, panel.thickness);
    let at = fits.and_then(|f| d.stock.grommets.iter().position(|g| std::ptr::eq(g, f)));
    Some(Hole {
        across: fits.map(|g| g.hole),
        grommet: Some(at.ok_or_else(|| format!("grommet for a bundle of {}", bundle.show()))),
    })
}

/// One beside each end and each side of a panel, and between them no farther apart than the table says.
fn clips(table: &Laying, s: &loom::LoomStretch, every_mm: f64) -> u32 {
    let (run, first) = (s.length.si() * 1e3, table.value("first support"));
    let beside_panel = if s.panel.is_some() { 2 } else { 0 };
    if run <= 2.0 * first {
        return 1 + beside_panel;
    }
    2 + beside_panel + supports_between(run - 2.0 * first, every_mm)
}

/// Labels of every wire.
pub(crate) fn labels_of(d: &Design, table: &Laying) -> Vec<u32> {
    let limits = ["end label", "one label", "label sleeves"].map(|rule| table.value(rule));
    let count = |w: &loom::Wire| labels(w.cut.si() * 1e3, limits.into());
    d.loom.wires.iter().map(count).collect()
}

/// What goes through each panel, and how. The loom is laid outwards from one place, so that every end goes one way only: from
/// the place that asks for the least work behind all panels together.
pub(crate) fn passings(d: &Design, fit: &Fit, laid: &[Laid]) -> Vec<Passing> {
    let table = Laying::default();
    let panels = laid.iter().filter(|l| l.hole.is_some());
    let panels: Vec<[Passing; 2]> = panels
        .filter_map(|l| passing::both_ways(d, &table, fit, l))
        .collect();
    let from = |root: PlaceId| -> Vec<&Passing> {
        let far = distances(d, root);
        let outward = |ways: &'_ [Passing; 2]| {
            let [a, b] = ways.each_ref().map(|p| far[p.towards.0 as usize]);
            usize::from(b > a)
        };
        panels.iter().map(|ways| &ways[outward(ways)]).collect()
    };
    let roots = (0..d.loom.places.len()).map(|i| PlaceId(i as u32));
    let work = |passings: &Vec<&Passing>| {
        let each = passings.iter().map(|p| passing::work(p));
        each.fold([0; 3], |sum, w| std::array::from_fn(|i| sum[i] + w[i]))
    };
    let least = roots.map(from).min_by_key(work);
    least.unwrap_or_default().into_iter().cloned().collect()
}

/// How many stretches lie between a place and every other.
fn distances(d: &Design, root: PlaceId) -> Vec<usize> {
    let mut far = vec![usize::MAX; d.loom.places.len()];
    far[root.0 as usize] = 0;
    for step in 0..d.loom.stretches.len() {
        for s in &d.loom.stretches {
            let [a, b] = s.ends.map(|p| p.0 as usize);
            for (from, to) in [(a, b), (b, a)] {
                if far[from] == step && far[to] > step + 1 {
                    far[to] = step + 1;
                }
            }
        }
    }
    far
}

/// What may stay bare between the insulation and the crimp of a conductor of this area: least and most.
pub fn insulation_gap(area: Area) -> [Length; 2] {
    let table = Laying::default();
    let most = match in_mm2(area) <= GAUGE_20_MM2 {
        true => "gap, most for 20 AWG and smaller",
        false => "gap, most for larger",
    };
    ["gap, least", most].map(|rule| millimetres(table.value(rule)))
}

/// 20 AWG, 0.519 mm², with its rounding.
const GAUGE_20_MM2: f64 = 0.52;
