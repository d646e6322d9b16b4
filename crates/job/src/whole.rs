//! The pack, and the order of the work.

use crate::Job;
use pack::{Content, Paper, Part, Whole};
use quantity::{Quantity, ThermodynamicTemperature};
use sheet::{Picture, Sheet, Shown};
use std::collections::BTreeMap;
use study::BuildStep;

/// The battery's temperature, K: 25 °C, at which capacities are told.
const BATTERY: f64 = 298.15;
/// So many charts of a kind at most.
const MOST: usize = 3;

impl Job {
    /// The order of the work.
    pub fn steps(&self) -> Option<Vec<BuildStep>> {
        let (loom, answers, lists) = (self.loom()?, self.answers()?, self.lists()?);
        Some(study::steps(loom, self.stock(), answers, lists))
    }

    /// By step: the circuits as far as they have come with it, of each sheet on which something is new.
    pub fn pictures(&self, steps: &[BuildStep]) -> Vec<Vec<Sheet>> {
        let (Some(s), Some(title)) = (self.subject(), self.title()) else {
            return Vec::new();
        };
        let brings = steps.iter().enumerate();
        let brings =
            brings.flat_map(|(i, step)| step.brings.iter().map(move |name| (name.as_str(), i)));
        let when: BTreeMap<&str, usize> = brings.collect();
        let at = |step: usize| {
            let when = &when;
            move |name: &str| match when.get(name) {
                Some(then) if *then > step => Shown::ToCome,
                Some(then) if *then == step => Shown::New,
                _ => Shown::Done,
            }
        };
        let shown: Vec<_> = (0..steps.len()).map(at).collect();
        let pictures = shown.iter().enumerate().map(|(i, shown)| {
            let name = format!("step-{}", i + 1);
            Picture { name, shown }
        });
        let pictures: Vec<_> = pictures.collect();
        sheet::circuit_so_far((s.loom, s.answers, s.stock), &title, &pictures)
    }

    /// Charts of what has least to spare: where the volts go, each fuse and its wire; and the day, if the plan has one.
    fn charts(&self) -> (Vec<Sheet>, Option<String>) {
        let mut sheets = self.fall_charts();
        sheets.truncate(MOST);
        if let Some(p) = self.protection() {
            let mut fuses = self.protection_charts(&p);
            fuses.truncate(MOST);
            sheets.extend(fuses);
        }
        if self.plan().is_none_or(|p| p.day.is_empty()) {
            return (sheets, None);
        }
        let warm = ThermodynamicTemperature::from_si(BATTERY);
        let Some(Ok(supply)) = self.supply(warm) else {
            return (sheets, None);
        };
        sheets.extend(self.day_chart(&supply));
        (sheets, pack::day_says(&supply))
    }

    /// The pack, or these parts of it. `date`: as it is to be printed.
    pub fn whole(&self, parts: &[Part], paper: Paper, date: Option<&str>) -> Option<Content> {
        let lists = self.lists()?;
        let steps = self.steps()?;
        let pictures = match parts.contains(&Part::Steps) {
            true => self.pictures(&steps),
            false => Vec::new(),
        };
        let (charts, day) = match parts.contains(&Part::Charts) {
            true => self.charts(),
            false => (Vec::new(), None),
        };
        let bench = self.bench().filter(|_| parts.contains(&Part::Proof));
        let proof = match &bench {
            Some(bench) => self.to_be_proved(bench),
            None => None,
        };
        let whole = Whole {
            proof,
            subject: self.subject()?,
            lists,
            steps: &steps,
            circuit: &self.circuit(),
            board: &self.board(),
            route: &self.route(),
            charts: &charts,
            day,
            pictures: &pictures,
            date,
            paper,
        };
        Some(pack::whole(&whole, parts))
    }
}
