//! What can go wrong: every fault tried, one in detail, each fuse against its wires.

use crate::{Job, Mended};
use pack::Content;
use sheet::Sheet;
use study::{FaultCase, FaultDetail, Habits, Protection, Tries};

impl Job {
    /// Every fault, tried. `told` hears how many are done, of how many.
    pub fn tries(&self, told: &(dyn Fn(usize, usize) + Sync)) -> Option<Tries> {
        let habits = Habits::of(self.plan()?);
        Some(study::tries(
            self.loom()?,
            self.stock(),
            &habits,
            self.answers()?,
            told,
        ))
    }

    /// One fault moment by moment: in a state, or in the one in which it ends worst.
    pub fn try_closely(&self, case: &FaultCase, state: Option<usize>) -> Option<FaultDetail> {
        let habits = Habits::of(self.plan()?);
        study::detail(
            self.loom()?,
            self.stock(),
            &habits,
            self.answers()?,
            (case, state),
        )
    }

    /// Each fuse against the wires that it protects, and against the fuse before it.
    pub fn protection(&self) -> Option<Protection> {
        let habits = Habits::of(self.plan()?);
        Some(study::protection(
            self.loom()?,
            self.stock(),
            &habits,
            self.answers()?,
        ))
    }

    /// What came of every fault, in a person's words.
    pub fn fault_report(
        &self,
        tries: &Tries,
        mended: &[Mended],
        protection: Option<&Protection>,
        sheets: &[Sheet],
    ) -> Option<Content> {
        let found = mended.iter().map(|m| m.finding.clone()).collect();
        Some(pack::faults(
            &self.subject()?,
            tries,
            found,
            protection,
            sheets,
        ))
    }

    /// One fault moment by moment, in the same way.
    pub fn closely_report(&self, detail: &FaultDetail, chart: Option<&Sheet>) -> Option<Content> {
        Some(pack::closely(&self.subject()?, detail, chart))
    }
}
