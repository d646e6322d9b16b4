//! Whole diagrams: nothing overlaps in any of many generated plans, and layouts of small plans, one aspect each.

mod figures;
mod made;
mod small;

use super::check::overlaps;
use super::layout::{Layout, Words, layouts};
use super::path;
use crate::{Sheet, Title};
use loom::Loom;
use plan::Plan;
use rayon::prelude::*;
use std::sync::LazyLock;
use stock::Stock;
use study::{Answers, Habits};

/// A plan, walked as far as a drawing needs.
pub(crate) struct Walked {
    pub loom: Loom,
    pub answers: Answers,
    pub stock: Stock,
    pub title: Title,
    habits: Habits,
}

impl Walked {
    pub fn of(text: &str) -> Self {
        Self::with(text, |habits| habits)
    }

    /// With the first sizes that hold: a drawing asks no more.
    pub fn quick(text: &str) -> Self {
        Self::with(text, Habits::quick)
    }

    fn with(text: &str, how: impl Fn(Habits) -> Habits) -> Self {
        let stock = Stock::embedded();
        let (plan, errors) = Plan::read(text);
        assert_eq!(errors, [], "{text}");
        let plan = plan.unwrap();
        let (loom, errors) = loom::build(&plan, &stock);
        let Some(loom) = loom else {
            panic!("{errors:?}\n{text}")
        };
        let habits = how(Habits::of(&plan, &loom, &stock));
        let answers = study::study(&loom, &stock, &habits);
        let title = Title {
            title: plan.job.title,
            vehicle: plan.job.vehicle,
            owner: plan.job.owner,
        };
        Self {
            loom,
            answers,
            stock,
            title,
            habits,
        }
    }

    pub fn lists(&self) -> study::Lists {
        study::lists(&self.loom, &self.stock, &self.habits, &self.answers)
    }

    fn layouts(&self) -> Vec<Layout> {
        let words = Words::new(&self.loom, &self.answers, &self.stock);
        layouts(&path::blocks(&self.loom), &words, &self.title)
    }

    fn sheets(&self) -> Vec<Sheet> {
        super::circuit(&self.loom, &self.answers, &self.stock, &self.title)
    }

    /// What is wrong with the drawing: overlaps, wires and parts that are missing or stand twice,
    /// XML that can't be read.
    fn faults(&self) -> Vec<String> {
        let layouts = self.layouts();
        let mut out: Vec<String> = Vec::new();
        for sheet in &layouts {
            let said = overlaps(sheet)
                .into_iter()
                .map(|o| format!("sheet {}: {} × {}", sheet.number, o.one, o.other));
            out.extend(said);
        }
        for wire in &self.loom.wires {
            let drawn = |l: &super::layout::Line| l.name == wire.name;
            let times = layouts
                .iter()
                .flat_map(|s| &s.lines)
                .filter(|l| drawn(l))
                .count();
            let labels = layouts
                .iter()
                .flat_map(|s| &s.labels)
                .filter(|l| l.text == wire.name)
                .count();
            if (times, labels) != (1, 1) {
                out.push(format!(
                    "{} is drawn {times} times with {labels} labels",
                    wire.name
                ));
            }
        }
        for part in &self.loom.parts {
            // A feed that nothing is taken from is not drawn.
            let idle = matches!(
                part.kind,
                loom::PartKind::Feed(_) | loom::PartKind::Signal(_) | loom::PartKind::Earth(_)
            );
            let word = |t: &str| t.split([' ', ':']).any(|w| w == part.name);
            if !idle
                && !layouts
                    .iter()
                    .flat_map(|s| &s.labels)
                    .any(|l| word(&l.text))
            {
                out.push(format!("{} is not drawn", part.name));
            }
        }
        for sheet in self.sheets() {
            if let Err(e) = roxmltree::Document::parse(&sheet.svg) {
                out.push(format!("{}: {e}", sheet.name));
            }
        }
        out
    }
}

/// Every generated plan, walked once for all tests.
pub(crate) static MADE: LazyLock<Vec<Walked>> = LazyLock::new(|| {
    (0..made::PLANS)
        .into_par_iter()
        .map(|seed| Walked::quick(&made::plan(seed)))
        .collect()
});

#[test]
fn farm_is_readable_and_fits_one_sheet() {
    let farm = Walked::of(include_str!("../../../../examples/farm.toml"));
    assert_eq!(farm.faults(), Vec::<String>::new());
    let sheets = farm.sheets();
    assert_eq!(sheets.len(), 1);
    assert_eq!(
        (
            sheets[0].name.as_str(),
            sheets[0].width_mm,
            sheets[0].height_mm
        ),
        ("circuit-1", 420.0, 297.0)
    );
}

#[test]
fn every_generated_plan_is_readable() {
    let mut told = Vec::new();
    for (seed, walked) in MADE.iter().enumerate() {
        told.extend(
            walked
                .faults()
                .into_iter()
                .map(|f| format!("plan {seed}: {f}")),
        );
    }
    assert!(
        told.is_empty(),
        "{} faults:\n{}",
        told.len(),
        told.join("\n")
    );
}

#[test]
fn the_same_plan_gives_the_same_bytes() {
    let text = made::plan(7);
    assert_eq!(Walked::quick(&text).sheets(), Walked::quick(&text).sheets());
}

#[test]
fn the_other_examples_are_readable() {
    for text in [
        include_str!("../../../../examples/camper.toml"),
        include_str!("../../../../examples/lorry.toml"),
    ] {
        assert_eq!(Walked::of(text).faults(), Vec::<String>::new());
    }
}

#[test]
fn hardly_a_sheet_is_larger_than_a3() {
    let sheets = MADE.iter().flat_map(Walked::layouts);
    let (larger, usual): (Vec<Layout>, Vec<Layout>) = sheets.partition(|s| s.width > 420.0);
    assert!(
        larger.len() * 50 <= usual.len(),
        "{} of {}",
        larger.len(),
        usual.len()
    );
}

/// Where each symbol stands: sheet, name and place, of those with a name.
fn stands(walked: &Walked) -> Vec<(usize, String, crate::geometry::Point)> {
    let each = walked.layouts().into_iter().flat_map(|sheet| {
        let symbols = sheet.symbols.into_iter();
        symbols.map(move |s| (sheet.number, s.name, s.at))
    });
    each.filter(|(_, name, _)| !name.is_empty()).collect()
}

#[test]
fn a_small_change_moves_little() {
    let lorry = include_str!("../../../../examples/lorry.toml");
    let before = Walked::quick(lorry);
    // Another rating: nothing moves by more than the width of a figure.
    let other = lorry.replace("rated = \"70 W\"", "rated = \"75 W\"");
    assert_ne!(other, lorry);
    let (a, b) = (stands(&before), stands(&Walked::quick(&other)));
    assert_eq!(a.len(), b.len());
    for (one, two) in a.iter().zip(&b) {
        assert_eq!((one.0, &one.1), (two.0, &two.1));
        let moved = (one.2.x - two.2.x).hypot(one.2.y - two.2.y);
        assert!(moved < 4.0, "{} moved {moved:.1} mm", one.1);
    }
    // One more circuit: the sheet that it is not on stays as it is, and all others keep their order.
    let more = format!(
        "{lorry}\n[[circuit]]\nname = \"one more lamp\"\nload = {{ lamp = \"LED\", rated = \"20 W\", place = \"bed\" }}\n\
         feed = \"chassis stud\"\nlive = \"always\"\nearth = \"bed\"\n"
    );
    let (a, b) = (stands(&before), stands(&Walked::quick(&more)));
    let first = |all: &[(usize, String, crate::geometry::Point)]| -> Vec<String> {
        let first = all.iter().filter(|s| s.0 == 1);
        first
            .map(|(_, name, at)| format!("{name} {:.2} {:.2}", at.x, at.y))
            .collect()
    };
    assert!(first(&a).len() > 10);
    assert_eq!(first(&a), first(&b));
    let known: std::collections::BTreeSet<&String> = a.iter().map(|s| &s.1).collect();
    let loads = |all: &[(usize, String, crate::geometry::Point)]| -> Vec<String> {
        let mut loads: Vec<_> = all
            .iter()
            .filter(|s| s.1.starts_with('E') && known.contains(&s.1))
            .collect();
        loads.sort_by(|a, b| (a.0, a.2.x).partial_cmp(&(b.0, b.2.x)).unwrap());
        loads.into_iter().map(|s| s.1.clone()).collect()
    };
    assert_eq!(loads(&a), loads(&b));
}
