//! What can go wrong: every fault tried, one in detail, each fuse against its wires.

use crate::{FaultDrawings, Job, Mended};
use pack::Content;
use sheet::Sheet;
use study::{Asked, FaultCase, FaultDetail, Protection, Trial, Tries};

impl Job {
    /// What can go wrong: every fault that there is to try.
    pub fn fault_cases(&self) -> Option<Vec<FaultCase>> {
        let habits = self.habits()?;
        let (loom, answers) = (self.loom()?, self.answers()?);
        Some(study::cases(loom, self.stock(), habits, answers))
    }

    /// Every fault, tried. `told` hears how many are done, of how many.
    pub fn tries(&self, told: &(dyn Fn(usize, usize) + Sync)) -> Option<Tries> {
        self.tries_of(&Asked::ALL, told)
    }

    /// The faults that are asked for, tried.
    pub fn tries_of(&self, asked: &Asked, told: &(dyn Fn(usize, usize) + Sync)) -> Option<Tries> {
        let habits = self.habits()?;
        let (loom, answers) = (self.loom()?, self.answers()?);
        let design = (loom, self.stock());
        Some(study::tries(design, habits, answers, asked, told))
    }

    /// One that was tried, moment by moment.
    pub fn try_closely(&self, tries: &Tries, trial: &Trial) -> Option<FaultDetail> {
        let habits = self.habits()?;
        let (loom, answers) = (self.loom()?, self.answers()?);
        let case = &tries.cases[trial.case];
        let design = (loom, self.stock());
        Some(study::detail(design, habits, answers, (case, trial)))
    }

    /// Each fuse against the wires that it protects, and against the fuse before it.
    pub fn protection(&self) -> Option<Protection> {
        let habits = self.habits()?;
        Some(study::protection(
            self.loom()?,
            self.stock(),
            habits,
            self.answers()?,
        ))
    }

    /// What came of every fault, in a person's words.
    pub fn fault_report(
        &self,
        tries: &Tries,
        mended: &[Mended],
        protection: Option<&Protection>,
        drawn: Option<&FaultDrawings>,
    ) -> Option<Content> {
        let found = mended.iter().map(|m| m.finding.clone()).collect();
        Some(pack::faults(
            &self.subject()?,
            tries,
            found,
            protection,
            drawn.map(|d| (&d.matrix[..], d.tightest())),
        ))
    }

    /// Faults that were asked for: the first moment by moment, what was found of all, and the others in a sentence each.
    pub fn closely_report(
        &self,
        detail: &FaultDetail,
        (tries, trials): (&Tries, &[&Trial]),
        mended: &[Mended],
        chart: Option<&Sheet>,
    ) -> Option<Content> {
        let found = mended.iter().map(|m| m.finding.clone()).collect();
        let line = |t: &&Trial| {
            let kind = study::FAULTS[tries.cases[t.case].kind].id;
            format!("{} ({kind}): {}", t.outcome.word(), t.says)
        };
        let others = trials.iter().skip(1).map(line).collect();
        Some(pack::closely(
            &self.subject()?,
            detail,
            (found, others),
            chart,
        ))
    }
}
