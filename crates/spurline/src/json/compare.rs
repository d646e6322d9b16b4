//! `compare --json`: two plans side by side. Every pair holds the first plan's value, then the second's.

use super::{FindingJson, finding, rounded};
use job::loom::{Loom, PartId};
use job::study::{Chafe, Touch};
use job::{Comparison, Job};
use serde::Serialize;

/// `compare --json`.
#[derive(Serialize)]
pub struct CompareJson {
    titles: [String; 2],
    only_first: Vec<FindingJson>,
    only_second: Vec<FindingJson>,
    both: usize,
    wires: [usize; 2],
    cut_m: [f64; 2],
    copper_kg: [f64; 2],
    sizes: Vec<SizeJson>,
    through_panels: [usize; 2],
    live_through_panels: [usize; 2],
    chafes: [Vec<ChafeJson>; 2],
}

#[derive(Serialize)]
struct SizeJson {
    size: String,
    cut_m: [f64; 2],
}

#[derive(Serialize)]
struct ChafeJson {
    circuit: String,
    wire: String,
    off: TouchJson,
    on: TouchJson,
}

/// What a touch does; what does not apply is null or empty.
#[derive(Default, Serialize)]
struct TouchJson {
    does: &'static str,
    fuse: Option<String>,
    times_rating: Option<f64>,
    amps: Option<f64>,
    rating_a: Option<f64>,
    turns_on: Vec<String>,
}

/// The object; none when either plan has no loom.
pub fn compare(first: &Job, second: &Job, c: &Comparison) -> Option<CompareJson> {
    let (a, b) = (first.loom()?, second.loom()?);
    let title = |j: &Job| Some(j.plan()?.job.title.clone());
    let sizes = c.sizes.iter().map(|(size, metres)| SizeJson {
        size: size.to_string(),
        cut_m: metres.map(rounded),
    });
    let [of_first, of_second] = &c.chafes;
    Some(CompareJson {
        titles: [title(first)?, title(second)?],
        only_first: c.only_first.iter().map(finding).collect(),
        only_second: c.only_second.iter().map(finding).collect(),
        both: c.both,
        wires: c.wires,
        cut_m: c.metres.map(rounded),
        copper_kg: c.copper_kg.map(rounded),
        sizes: sizes.collect(),
        through_panels: c.through_panels,
        live_through_panels: c.live_through_panels,
        chafes: [chafes(a, of_first), chafes(b, of_second)],
    })
}

fn chafes(loom: &Loom, list: &[Chafe]) -> Vec<ChafeJson> {
    let told = list.iter().map(|c| {
        let w = loom.wire(c.wire);
        let circuit = w.circuit.map(|i| loom.circuits[i].name.clone());
        ChafeJson {
            circuit: circuit.unwrap_or_default(),
            wire: w.name.clone(),
            off: touch(loom, &c.off),
            on: touch(loom, &c.on),
        }
    });
    told.collect()
}

fn touch(loom: &Loom, t: &Touch) -> TouchJson {
    let name = |p: &PartId| loom.part(*p).name.clone();
    match t {
        Touch::Opens { fuse, times } => TouchJson {
            does: "opens",
            fuse: Some(name(fuse)),
            times_rating: Some(rounded(*times)),
            ..TouchJson::default()
        },
        Touch::OpensVehicles { amps, rating } => TouchJson {
            does: "opens-vehicles",
            amps: Some(rounded(*amps)),
            rating_a: rating.map(rounded),
            ..TouchJson::default()
        },
        Touch::TurnsOn(parts) => TouchJson {
            does: "turns-on",
            turns_on: parts.iter().map(name).collect(),
            ..TouchJson::default()
        },
        Touch::Nothing => TouchJson {
            does: "nothing",
            ..TouchJson::default()
        },
        Touch::Unknown(_) => TouchJson {
            does: "unknown",
            ..TouchJson::default()
        },
    }
}
