//! Connectors: all wires of one go into contacts and seals of one class. The class is a thing of the problem beside wires
//! and fuses; it costs nothing, and forbids what does not fit.

use super::program::{Cut, Need, Step};
use crate::design::Design;
use crate::fit;
use crate::settle::Settled;
use loom::{PartKind, WireId};
use stock::Connector;

/// A contact may carry so much less than in the loom that was settled, as a part.
const ABOUT: f64 = 0.03;

/// A connector whose class asks something of its wires.
pub(super) struct Plug {
    /// Its wires.
    pub wires: Vec<usize>,
    /// By class: by wire: whether it takes each of the wire's options.
    pub takes: Vec<Vec<Vec<bool>>>,
}

/// The connectors of which no class takes all that their wires may be, and some class takes something of each. Where none
/// does, findings tell of it. `lists`: by wire, what it may be.
pub(super) fn all(d: &Design, settled: &[Settled], lists: &[Vec<usize>]) -> Vec<Plug> {
    let parts = d.loom.each_part();
    let plugs = parts.filter(|(_, p)| matches!(p.kind, PartKind::Connector { .. }));
    plugs
        .filter_map(|(id, _)| {
            let wires: Vec<WireId> = fit::plug_wires(d.loom, id);
            let classes = fit::classes(d.loom, d.stock, id);
            let takes = classes.map(|(_, class)| {
                let each = wires.iter();
                each.map(|w| takes(d, settled, class, (*w, &lists[w.0 as usize])))
                    .collect()
            });
            let takes = takes.collect();
            plug(&wires, takes)
        })
        .collect()
}

/// Leaves out of what wires may be what the one class of their connector does not take, where there is but one.
pub(super) fn narrow(d: &Design, settled: &[Settled], lists: &mut [Vec<usize>]) {
    let mut kept: Vec<Vec<bool>> = lists.iter().map(|list| vec![true; list.len()]).collect();
    for plug in all(d, settled, lists) {
        let [class] = &plug.takes[..] else { continue };
        for (w, takes) in plug.wires.iter().zip(class) {
            kept[*w]
                .iter_mut()
                .zip(takes)
                .for_each(|(kept, takes)| *kept &= takes);
        }
    }
    for (list, kept) in lists
        .iter_mut()
        .zip(&kept)
        .filter(|(_, kept)| kept.contains(&true))
    {
        let mut kept = kept.iter();
        list.retain(|_| kept.next() == Some(&true));
    }
}

/// Which of a wire's options a class takes.
fn takes(
    d: &Design,
    settled: &[Settled],
    class: &Connector,
    (wire, list): (WireId, &[usize]),
) -> Vec<bool> {
    use quantity::Quantity;
    let amps = settled.iter().map(|s| s.wire_amps[wire.0 as usize].abs());
    let least = amps.fold(0.0, f64::max) * (1.0 - ABOUT);
    let takes = |c: &usize| {
        let c = &d.stock.conductors[*c];
        class.takes(c) && d.stock.contact_bears(class, c.area).si() >= least
    };
    list.iter().map(takes).collect()
}

fn plug(wires: &[WireId], mut takes: Vec<Vec<Vec<bool>>>) -> Option<Plug> {
    takes.retain(|class| class.iter().all(|wire| wire.contains(&true)));
    if takes.is_empty() || takes.iter().any(|class| class.iter().flatten().all(|t| *t)) {
        return None;
    }
    // A class that takes no more than another is not wanted.
    let flat = |class: &Vec<Vec<bool>>| class.iter().flatten().copied().collect::<Vec<bool>>();
    let mut kept: Vec<Vec<Vec<bool>>> = Vec::new();
    takes.sort_by_key(|class| std::cmp::Reverse(flat(class).iter().filter(|t| **t).count()));
    for class in takes {
        let mine = flat(&class);
        let covers = |other: &Vec<Vec<bool>>| flat(other).iter().zip(&mine).all(|(o, m)| *o || !m);
        if !kept.iter().any(covers) {
            kept.push(class);
        }
    }
    Some(Plug {
        wires: wires.iter().map(|w| w.0 as usize).collect(),
        takes: kept,
    })
}

impl Plug {
    /// What its classes ask of its wires, the connector being this thing of the problem.
    pub fn binds(&self, thing: usize) -> (Vec<Need>, Vec<Cut>) {
        let (mut needs, mut cuts) = (Vec::new(), Vec::new());
        let last = self.takes.len() - 1;
        for (k, class) in self.takes.iter().enumerate() {
            // Of another class, or else.
            let mut other = Vec::new();
            if k > 0 {
                other.push(Step::Down(thing, k));
            }
            if k < last {
                other.push(Step::Up(thing, k + 1));
            }
            let mut or = |steps: &[Step]| cuts.push(Cut([&other[..], steps].concat()));
            for (w, takes) in self.wires.iter().zip(class) {
                let first = takes.iter().position(|t| *t).unwrap_or(0);
                let beyond = takes.iter().rposition(|t| *t).map_or(0, |k| k + 1);
                if first > 0 {
                    needs.push(Need {
                        of: (thing, k),
                        asks: (*w, first),
                    });
                }
                if beyond < takes.len() {
                    or(&[Step::Down(*w, beyond)]);
                }
                for hole in (first..beyond).filter(|j| !takes[*j]) {
                    or(&[Step::Down(*w, hole), Step::Up(*w, hole + 1)]);
                }
            }
        }
        (needs, cuts)
    }

    /// The first class that takes what is taken of all its wires.
    pub fn class(&self, taken: &[usize]) -> Option<usize> {
        let all = |class: &Vec<Vec<bool>>| {
            let mut each = self.wires.iter().zip(class);
            each.all(|(w, takes)| takes[taken[*w]])
        };
        self.takes.iter().position(all)
    }
}
