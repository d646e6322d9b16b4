//! The foot of a sheet: the key beside the title block, or above it where the sheet is narrow, and the border.

use super::{AIR, Chart, Key, Sample, THICK, THIN};
use crate::Title;
use crate::geometry::{Frame, at};
use crate::title::TitleBlock;

/// Width of a title block beside a key, mm.
const BLOCK: f64 = 110.0;
/// A key beside it is at least this wide, mm.
const LEAST_KEY: f64 = 50.0;

/// Key and title block.
pub(crate) struct Foot {
    key: Key,
    block: TitleBlock,
    beside: bool,
}

impl Foot {
    /// Of a sheet that shows `shows` inside a border so wide; `number` says which sheet of several it is.
    pub fn new(
        wanted: Vec<(Sample, String)>,
        title: &Title,
        (shows, number): (&'static str, String),
        room: f64,
    ) -> Self {
        let beside = room >= BLOCK + LEAST_KEY;
        let (key, block) = match beside {
            true => (room - BLOCK, BLOCK),
            false => (room, room),
        };
        Self {
            key: Key::of(wanted, key - 2.0 * AIR),
            block: TitleBlock::new(title, block, shows, number),
            beside,
        }
    }

    /// How tall it is, mm.
    pub fn height(&self) -> f64 {
        let (key, block) = (self.key.height(), self.block.height());
        if self.beside {
            block.max(key)
        } else {
            block + key
        }
    }

    /// Puts it at the bottom of the sheet, and the border around everything.
    pub fn place(&self, chart: &mut Chart) {
        let edge = chart.border;
        let top = edge.bottom - self.height();
        chart.line(THIN, vec![at(edge.left, top), at(edge.right, top)]);
        self.key.place(chart, (edge.left + AIR, top));
        let left = match self.beside {
            true => edge.right - BLOCK,
            false => edge.left,
        };
        let (labels, rules) = self.block.place(Frame { left, ..edge });
        chart.labels.extend(labels);
        chart.rules(rules);
        chart.edge(THICK, edge);
    }
}
