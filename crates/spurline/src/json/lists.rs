//! `lists --json`.

use super::rounded;
use job::Job;
use job::study::{Amount, Buy, Lists, Rolls, Stud, WireEnd, end_words, ways};
use quantity::Quantity;
use serde::Serialize;

#[derive(Serialize)]
pub struct ListsJson {
    buy: Vec<BuyJson>,
    cut: Vec<CutJson>,
    missing: Vec<MissingJson>,
    rolls: Vec<RollsJson>,
    studs: Vec<StudJson>,
    connectors: Vec<ConnectorJson>,
    files: Vec<String>,
}

#[derive(Serialize)]
struct BuyJson {
    kind: String,
    what: String,
    metres: Option<f64>,
    pieces: Option<u32>,
    price: Option<f64>,
    r#for: Vec<String>,
}

#[derive(Serialize)]
struct CutJson {
    wire: String,
    kind: String,
    colour: String,
    cut_m: f64,
    from: EndJson,
    to: EndJson,
}

#[derive(Serialize)]
struct EndJson {
    at: String,
    strip_mm: Option<f64>,
    gets: String,
    pull_n: Option<f64>,
}

#[derive(Serialize)]
struct RollsJson {
    kind: String,
    roll_m: f64,
    /// By roll: names of the wires cut from it.
    rolls: Vec<Vec<String>>,
    /// No fewer will do.
    least: usize,
}

#[derive(Serialize)]
struct StudJson {
    at: String,
    thread: String,
    /// From the metal up.
    rings: Vec<String>,
    least_nm: Option<f64>,
    most_nm: Option<f64>,
}

#[derive(Serialize)]
struct ConnectorJson {
    name: String,
    ways: Vec<WayJson>,
}

#[derive(Serialize)]
struct WayJson {
    way: u32,
    /// In the sockets of the half towards the source.
    source_half: Vec<String>,
    far_half: Vec<String>,
}

#[derive(Serialize)]
struct MissingJson {
    what: String,
    at: Vec<String>,
}

/// All lists.
pub fn lists(job: &Job, l: &Lists, files: Vec<String>) -> ListsJson {
    let missing = job.loom().map_or_else(Vec::new, |loom| l.fit.missing(loom));
    ListsJson {
        buy: l.buy.iter().map(buy).collect(),
        cut: cut(job, l),
        rolls: l.rolls.iter().map(|r| rolls(job, r)).collect(),
        studs: l.studs.iter().filter_map(|s| stud(job, s)).collect(),
        connectors: connectors(job, l),
        missing: missing
            .into_iter()
            .map(|(what, at)| MissingJson { what, at })
            .collect(),
        files,
    }
}

fn stud(job: &Job, s: &Stud) -> Option<StudJson> {
    let loom = job.loom()?;
    let torque = s.torque.map(|t| &job.stock().torques[t]);
    Some(StudJson {
        at: loom.pin_name(s.pin),
        thread: s.stud.clone(),
        rings: s.rings.iter().map(|w| loom.wire(*w).name.clone()).collect(),
        least_nm: torque.map(|t| t.least),
        most_nm: torque.map(|t| t.most),
    })
}

fn connectors(job: &Job, l: &Lists) -> Vec<ConnectorJson> {
    let Some(loom) = job.loom() else {
        return Vec::new();
    };
    let names = |wires: &[job::loom::WireId]| -> Vec<String> {
        wires.iter().map(|w| loom.wire(*w).name.clone()).collect()
    };
    let plugs = l.fit.plugs.iter().map(|plug| ConnectorJson {
        name: loom.part(plug.part).name.clone(),
        ways: ways(loom, plug)
            .iter()
            .map(|way| WayJson {
                way: way.number,
                source_half: names(&way.live),
                far_half: names(&way.far),
            })
            .collect(),
    });
    plugs.collect()
}

fn buy(b: &Buy) -> BuyJson {
    let (metres, pieces) = match b.amount {
        Amount::Metres(m) => (Some(rounded(m)), None),
        Amount::Pieces(n) => (None, Some(n)),
    };
    BuyJson {
        kind: b.group.to_owned(),
        what: b.what.clone(),
        metres,
        pieces,
        price: b.price.map(rounded),
        r#for: b.used_by.clone(),
    }
}

fn rolls(job: &Job, r: &Rolls) -> RollsJson {
    let name = |w: &job::loom::WireId| {
        let loom = job.loom();
        loom.map_or_else(String::new, |l| l.wire(*w).name.clone())
    };
    RollsJson {
        kind: r.what.clone(),
        roll_m: r.metres,
        rolls: r
            .rolls
            .iter()
            .map(|roll| roll.iter().map(name).collect())
            .collect(),
        least: r.least,
    }
}

fn cut(job: &Job, l: &Lists) -> Vec<CutJson> {
    let (Some(loom), Some(answers)) = (job.loom(), job.answers()) else {
        return Vec::new();
    };
    let end = |e: &WireEnd| EndJson {
        at: loom.pin_name(e.pin),
        strip_mm: e.strip.map(|s| rounded(s.si() * 1e3)),
        gets: end_words(job.stock(), &l.fit, loom, e),
        pull_n: e.pull.map(rounded),
    };
    let rows = loom.wires.iter().zip(&l.fit.ends).enumerate();
    let rows = rows.map(|(i, (w, [from, to]))| CutJson {
        wire: w.name.clone(),
        kind: job.stock().conductors[answers.choice.wires[i]].id.clone(),
        colour: w.colour.to_string(),
        cut_m: rounded(w.cut.si()),
        from: end(from),
        to: end(to),
    });
    rows.collect()
}
