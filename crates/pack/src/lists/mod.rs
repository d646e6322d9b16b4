//! What to buy and what to cut: tables for every face, and the same as comma-separated files.
//!
//! | file | sections |
//! |---|---|
//! | `buy` | what to buy |
//! | `cut` | each wire, and each of its ends |
//! | `places` | studs, and ways of connectors |
//! | `laid` | bundles, and what goes through panels |
//! | `spools` | from which roll or stick |

mod buy;
mod cut;
mod laid;
mod places;
mod spools;

use crate::content::{Block, Content, Section, Table};
use crate::report::{self, Subject};
use finding::{Finding, Weight};
use study::Lists;

/// What is not on the lists.
const NOT_LISTED: &str = "Not on these lists: the loads themselves, tools, spare fuses, screws, bolts, toothed washers and nuts, and what fixes boxes, relays and switches.";

/// All lists.
pub fn lists(s: &Subject, l: &Lists) -> Content {
    let mut sections = sections(s, l);
    sections.push(report::cautions());
    s.content(Some("what to buy and cut"), sections)
}

/// The sections of the lists, without the cautions.
pub(crate) fn sections(s: &Subject, l: &Lists) -> Vec<Section> {
    let mut sections = Vec::new();
    let missing = l.fit.missing(s.loom);
    if !missing.is_empty() {
        let line = |(what, names): (String, Vec<String>)| format!("{what}: {}", names.join(", "));
        let lines = Block::List(missing.into_iter().map(line).collect());
        sections.push(Section::of(
            "missing",
            "Not in stock: look for these",
            lines,
        ));
    }
    sections.extend(heed(s));
    sections.push(buy::section(l));
    sections.push(cut::wires(s, l));
    sections.push(cut::ends(s, l));
    sections.extend(places::studs(s, l));
    sections.extend(places::plugs(s, l));
    sections.push(laid::bundles(s, l));
    sections.extend(laid::panels(s, l));
    sections.push(spools::section(l));
    let taken = l.allowed.iter().chain(&l.fit.assumed).cloned().collect();
    let mut granted = Section::of("taken", "Taken for granted", Block::List(taken));
    granted.blocks.push(Block::Text(NOT_LISTED.into()));
    sections.push(granted);
    sections
}

/// The tables as comma-separated files: name and text.
///
/// # Errors
/// What the writer says, which writes to memory only.
pub fn lists_csv(s: &Subject, l: &Lists) -> Result<Vec<(&'static str, Vec<u8>)>, csv::Error> {
    Ok(vec![
        ("buy.csv", comma_separated(&buy::table(l))?),
        ("cut.csv", comma_separated(&cut::wire_table(s, l))?),
        ("ends.csv", comma_separated(&cut::end_table(s, l))?),
        ("studs.csv", comma_separated(&places::stud_table(s, l))?),
        ("ways.csv", comma_separated(&places::way_table(s, l))?),
        ("bundles.csv", comma_separated(&laid::bundle_table(s, l))?),
        ("fixings.csv", comma_separated(&laid::fixing_table(s, l))?),
        ("panels.csv", comma_separated(&laid::panel_table(s, l))?),
        ("rolls.csv", comma_separated(&spools::table(l))?),
    ])
}

/// What was found in the plan that should be mended before anything is bought.
fn heed(s: &Subject) -> Option<Section> {
    let found = s.answers.findings.iter();
    let heavy: Vec<Finding> = found
        .filter(|f| f.weight != Weight::Note)
        .cloned()
        .collect();
    let stops = heavy.iter().filter(|f| f.weight == Weight::Stop).count();
    let says = match stops {
        0 => "These lists are of the plan as it is; what is to be mended in it changes them.",
        _ => {
            "Do not build or use this as it is, and buy nothing for it: these lists are of a plan that has to be mended first."
        }
    };
    (!heavy.is_empty()).then(|| Section {
        id: "heed",
        title: "First mend the plan".into(),
        blocks: vec![Block::Text(says.into()), Block::Findings(heavy)],
    })
}

fn comma_separated(t: &Table) -> Result<Vec<u8>, csv::Error> {
    let mut out = csv::Writer::from_writer(Vec::new());
    out.write_record(t.columns.iter().map(|c| c.title.as_ref()))?;
    for row in &t.rows {
        out.write_record(row)?;
    }
    out.into_inner().map_err(|e| e.into_error().into())
}
