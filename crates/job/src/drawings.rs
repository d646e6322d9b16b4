//! The drawings of a job, each kind as many sheets as it takes; none of a plan that can't be read or built.

use crate::Job;
use pack::Paper;
use sheet::Sheet;

impl Job {
    /// All of them: the circuit diagram, the loom board, where it runs, where the volts go.
    pub fn drawings(&self) -> Vec<Sheet> {
        let mut sheets = self.circuit();
        sheets.extend(self.board());
        sheets.extend(self.route());
        sheets.extend(self.fall_charts());
        sheets
    }

    /// The circuit diagram.
    pub fn circuit(&self) -> Vec<Sheet> {
        let (Some(s), Some(title)) = (self.subject(), self.title()) else {
            return Vec::new();
        };
        sheet::circuit(s.loom, s.answers, s.stock, &title)
    }

    /// Where the loom runs.
    pub fn route(&self) -> Vec<Sheet> {
        let (Some(s), Some(title)) = (self.subject(), self.title()) else {
            return Vec::new();
        };
        vec![sheet::route(s.loom, &title, s.plan.job.outline)]
    }

    /// Where places stand on that drawing.
    pub fn route_spots(&self) -> Option<sheet::Spots> {
        let (s, title) = (self.subject()?, self.title()?);
        Some(sheet::route_spots(s.loom, &title, s.plan.job.outline))
    }

    /// The loom board.
    pub fn board(&self) -> Vec<Sheet> {
        let (Some(loom), Some(title), Some(lists)) = (self.loom(), self.title(), self.lists())
        else {
            return Vec::new();
        };
        sheet::board(loom, self.stock(), lists, &title)
    }

    /// The loom board as large as the loom is, in tiles of paper that lies across.
    pub fn board_full_size(&self, paper: Paper) -> Vec<Sheet> {
        let (Some(loom), Some(title), Some(lists)) = (self.loom(), self.title(), self.lists())
        else {
            return Vec::new();
        };
        let (tall, wide) = paper.size();
        sheet::board_full_size(loom, self.stock(), lists, &title, (wide, tall))
    }
}
