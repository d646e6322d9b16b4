//! The pack, and the order of the work.

use crate::Job;
use pack::{Content, Paper, Part, Whole};
use sheet::{Picture, Sheet, Shown};
use std::collections::BTreeMap;
use study::{BuildStep, Lists};

impl Job {
    /// The order of the work.
    pub fn steps(&self, lists: &Lists) -> Option<Vec<BuildStep>> {
        let (loom, answers) = (self.loom()?, self.answers()?);
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

    /// The pack, or these parts of it. `date`: as it is to be printed.
    pub fn whole(&self, parts: &[Part], paper: Paper, date: Option<&str>) -> Option<Content> {
        let lists = self.lists()?;
        let steps = self.steps(&lists)?;
        let pictures = match parts.contains(&Part::Steps) {
            true => self.pictures(&steps),
            false => Vec::new(),
        };
        let whole = Whole {
            subject: self.subject()?,
            lists: &lists,
            steps: &steps,
            circuit: &self.circuit(),
            board: &self.board(&lists),
            route: &self.route(),
            pictures: &pictures,
            date,
            paper,
        };
        Some(pack::whole(&whole, parts))
    }
}
