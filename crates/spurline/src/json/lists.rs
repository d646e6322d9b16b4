//! `lists --json`.

use super::rounded;
use job::Job;
use job::study::{
    Amount, Buy, How, Laid, Lists, Passing, Spools, Stud, WireEnd, end_words, label_words, ways,
};
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
    bundles: Vec<BundleJson>,
    panels: Vec<PanelJson>,
    colours: ColoursJson,
    findings: Vec<super::FindingJson>,
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
    labels: u32,
    from: EndJson,
    to: EndJson,
}

#[derive(Serialize)]
struct EndJson {
    at: String,
    strip_mm: Option<f64>,
    gets: String,
    pull_n: Option<f64>,
    label: String,
    shrink: Option<ShrinkJson>,
}

#[derive(Serialize)]
struct ShrinkJson {
    /// None where stock has none that fits.
    kind: Option<String>,
    cut_mm: f64,
    before_the_crimp: bool,
}

#[derive(Serialize)]
struct BundleJson {
    between: [String; 2],
    wires: usize,
    least_mm: f64,
    laid_mm: f64,
    sleeve: Option<String>,
    outside_mm: f64,
    hole_mm: Option<f64>,
    bend_mm: f64,
    bend_supported_mm: f64,
    clips: u32,
    clips_apart_mm: f64,
    ties: u32,
}

#[derive(Serialize)]
struct PanelJson {
    panel: String,
    towards: String,
    passes: Vec<PassJson>,
}

#[derive(Serialize)]
struct PassJson {
    what: String,
    wires: Vec<String>,
    widest_mm: Option<f64>,
    how: &'static str,
}

#[derive(Serialize)]
struct ColoursJson {
    habit: &'static str,
    says: String,
    source: String,
}

#[derive(Serialize)]
struct RollsJson {
    kind: String,
    roll_m: f64,
    lost_a_cut_mm: f64,
    /// By roll or stick: what is cut from it, by name.
    rolls: Vec<Vec<String>>,
    /// The same with lengths.
    pieces: Vec<Vec<PieceJson>>,
    /// No fewer will do.
    least: usize,
}

#[derive(Serialize)]
struct PieceJson {
    name: String,
    metres: f64,
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
        rolls: l.spools.iter().map(rolls).collect(),
        studs: l.studs.iter().filter_map(|s| stud(job, s)).collect(),
        connectors: connectors(job, l),
        bundles: l.laid.iter().filter_map(|b| bundle(job, b)).collect(),
        panels: l.passings.iter().filter_map(|p| panel(job, p)).collect(),
        colours: colours(job),
        findings: job.answers().map_or_else(Vec::new, |a| {
            a.findings.iter().map(super::finding).collect()
        }),
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

fn rolls(r: &Spools) -> RollsJson {
    let piece = |p: &job::study::CutPiece| PieceJson {
        name: p.name.clone(),
        metres: rounded(p.metres),
    };
    RollsJson {
        kind: r.what.clone(),
        roll_m: r.metres,
        lost_a_cut_mm: r.kerf_mm,
        rolls: r
            .rolls
            .iter()
            .map(|roll| roll.iter().map(|p| p.name.clone()).collect())
            .collect(),
        pieces: r
            .rolls
            .iter()
            .map(|roll| roll.iter().map(piece).collect())
            .collect(),
        least: r.least,
    }
}

fn mm(l: quantity::Length) -> f64 {
    rounded(l.si() * 1e3)
}

fn bundle(job: &Job, l: &Laid) -> Option<BundleJson> {
    let loom = job.loom()?;
    let s = loom.stretch(l.stretch);
    let sleeve = |s: &usize| job.stock().sleeves[*s].name.clone();
    Some(BundleJson {
        between: s.ends.map(|p| loom.place(p).name.clone()),
        wires: s.wires.len(),
        least_mm: mm(l.bundle.least),
        laid_mm: mm(l.bundle.laid),
        sleeve: l.sleeve.as_ref().and_then(|s| s.as_ref().ok()).map(sleeve),
        outside_mm: mm(l.outside),
        hole_mm: l.hole.as_ref().and_then(|h| h.across).map(mm),
        bend_mm: mm(l.bends[0]),
        bend_supported_mm: mm(l.bends[1]),
        clips: l.clips,
        clips_apart_mm: mm(l.every),
        ties: l.ties,
    })
}

fn panel(job: &Job, p: &Passing) -> Option<PanelJson> {
    let loom = job.loom()?;
    let pass = |p: &job::study::Pass| PassJson {
        what: p.what.clone(),
        wires: p.wires.iter().map(|w| loom.wire(*w).name.clone()).collect(),
        widest_mm: p.across.map(mm),
        how: match p.how {
            How::Whole => "made up",
            How::GrommetFirst => "made up, grommet first",
            How::HousingAfter => "housing after",
            How::CrimpAfter => "crimp after",
        },
    };
    Some(PanelJson {
        panel: loom.stretch(p.stretch).panel.as_ref()?.name.clone(),
        towards: loom.place(p.towards).name.clone(),
        passes: p.passes.iter().map(pass).collect(),
    })
}

fn colours(job: &Job) -> ColoursJson {
    let palette = job.loom().map(|l| l.palette.clone()).unwrap_or_default();
    ColoursJson {
        habit: palette.habit,
        says: palette.says,
        source: palette.source,
    }
}

fn cut(job: &Job, l: &Lists) -> Vec<CutJson> {
    let (Some(loom), Some(answers)) = (job.loom(), job.answers()) else {
        return Vec::new();
    };
    let shrink = |c: &job::study::Cover| ShrinkJson {
        kind: c
            .sleeve
            .as_ref()
            .ok()
            .map(|s| job.stock().sleeves[*s].name.clone()),
        cut_mm: mm(c.cut),
        before_the_crimp: c.before,
    };
    let end = |wire: &str, e: &WireEnd| EndJson {
        label: label_words(loom, wire, e.pin),
        shrink: e.cover.as_ref().map(shrink),
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
        labels: l.labels[i],
        from: end(&w.name, from),
        to: end(&w.name, to),
    });
    rows.collect()
}
