//! Sheets: which columns stand on which, and each sheet put together.

use super::heads::{BETWEEN, Heads, MARGIN, NUMBERS, axes, numbers};
use super::heights::{Limits, settle};
use super::outlines;
use super::panel::{self, Legend, PANEL};
use super::piece::block;
use super::rails::{self, Among, Rail};
use super::rows::{Key, Rows};
use super::strip::{Numbered, Strand, numbered, strands};
use super::wires::{Placed, emit};
use super::words::Words;
use super::{Layout, border};
use crate::Title;
use crate::circuit::path::{Block, Top, fold};
use crate::geometry::Frame;
use loom::PinId;

/// Sheet sizes, mm: A3, or a larger one for what is too tall for it even when folded.
const SIZES: [(f64, f64); 3] = [(420.0, 297.0), (594.0, 420.0), (841.0, 594.0)];
/// A rail is at least this long with its name, mm.
const RAIL: f64 = 30.0;

/// Columns that stand on one sheet.
type Page<'a> = Vec<Numbered<'a>>;

/// What all sheets are made of.
struct Job<'a> {
    words: &'a Words<'a>,
    blocks: &'a [Block],
    all: Page<'a>,
    title: &'a Title,
    size: (f64, f64),
}

/// All sheets.
pub(crate) fn layouts(blocks: &[Block], words: &Words, title: &Title) -> Vec<Layout> {
    let blocks = low_enough(blocks, words, title);
    let job = |size| Job {
        words,
        blocks: &blocks,
        all: numbered(&blocks),
        title,
        size,
    };
    let pages = job(SIZES[0]).pages();
    let sheet = |index: usize| {
        let low = |size: &&(f64, f64)| job(**size).set(&pages[index]).low;
        let size = SIZES.iter().find(low).unwrap_or(&SIZES[SIZES.len() - 1]);
        job(*size).sheet(&Among {
            pages: &pages,
            index,
        })
    };
    (0..pages.len()).map(sheet).collect()
}

/// The blocks, with the control folded of those that are too tall for a sheet.
fn low_enough(blocks: &[Block], words: &Words, title: &Title) -> Vec<Block> {
    let size = SIZES[0];
    let mut out = blocks.to_vec();
    for at in 0..out.len() {
        let Some(folded) = fold(&out[at]) else {
            continue;
        };
        let job = Job {
            words,
            blocks: &out,
            all: numbered(&out),
            title,
            size,
        };
        let mine = |unit: &Page| unit.iter().any(|n| n.block == at);
        let low = job
            .units()
            .iter()
            .find(|u| mine(u))
            .is_none_or(|unit| job.set(unit).low);
        if !low {
            out[at] = folded;
        }
    }
    out
}

/// The columns of one sheet with their places.
struct Set {
    strands: Vec<Strand>,
    xs: Vec<f64>,
    heads: Heads,
    rails: Vec<Rail>,
    rows: Rows,
    /// Whether they are within the height of the sheet.
    low: bool,
}

impl<'a> Job<'a> {
    /// The part of a sheet that columns stand in.
    fn area(&self) -> Frame {
        let border = border(self.size.0, self.size.1);
        Frame {
            right: border.right - PANEL,
            ..border
        }
    }

    /// Columns that stay on one sheet if it is wide enough: a block, with a feeder before it.
    fn units(&self) -> Vec<Page<'a>> {
        let mut units: Vec<Page<'a>> = Vec::new();
        let mut holds = false;
        for (b, block) in self.blocks.iter().enumerate() {
            let mine = self.all.iter().filter(|n| n.block == b).copied();
            match units.last_mut() {
                Some(last) if holds => last.extend(mine),
                _ => units.push(mine.collect()),
            }
            holds = block.holds_next;
        }
        units
    }

    /// Deals the columns out to sheets.
    fn pages(&self) -> Vec<Page<'a>> {
        let mut pages: Vec<Page<'a>> = Vec::new();
        for unit in self.units() {
            match pages.last_mut().filter(|last| self.takes(last, &unit)) {
                Some(last) => last.extend(unit),
                None if self.wide_enough(&unit) => pages.push(unit),
                None => pages.extend(self.dealt(&unit)),
            }
        }
        pages
    }

    /// Whether a sheet takes more columns.
    fn takes(&self, page: &[Numbered<'a>], more: &[Numbered<'a>]) -> bool {
        let joined = [page, more].concat();
        self.wide_enough(&joined) && self.set(&joined).low
    }

    /// A unit that is too wide for any sheet, on several. The control stays with the contact that it works.
    fn dealt(&self, unit: &[Numbered<'a>]) -> Vec<Page<'a>> {
        let on_rail =
            |n: &Numbered| matches!(n.column.top, Top::Rail(_)) && n.column.items.len() > 1;
        let control = unit.iter().position(on_rail).map_or(1, |c| c + 1);
        let mut pages: Vec<Page<'a>> = vec![unit[..control].to_vec()];
        for column in &unit[control..] {
            let last = pages.len() - 1;
            let joined = [&pages[last][..], &[*column]].concat();
            if self.wide_enough(&joined) {
                pages[last] = joined;
            } else {
                pages.push(vec![*column]);
            }
        }
        pages
    }

    /// Whether columns have room on one sheet side by side, and their legend beside them.
    fn wide_enough(&self, page: &[Numbered]) -> bool {
        let strands = self.measured(page);
        let area = self.area();
        let wide: f64 = strands.iter().map(|s| s.left + s.right + BETWEEN.0).sum();
        let legend = Legend::of(self.words, page).height();
        let room = panel::legend_room(self.words, self.size, self.title);
        wide <= area.right - area.left - 2.0 * MARGIN && legend <= room
    }

    /// The strands of a sheet, with room for the names of rails.
    fn measured(&self, page: &[Numbered]) -> Vec<Strand> {
        let mut strands = strands(self.words, &self.all, page);
        for (_, mine) in rails::rails(&strands) {
            let wide: f64 = mine
                .iter()
                .map(|i| strands[*i].left + strands[*i].right + BETWEEN.0)
                .sum();
            if let Some(last) = mine.last() {
                strands[*last].right += (RAIL - wide).max(0.0);
            }
        }
        strands
    }

    /// Gives every column of a sheet its place.
    fn set(&self, page: &[Numbered]) -> Set {
        let area = self.area();
        let mut strands = self.measured(page);
        let xs = axes(&strands, area);
        let heads = Heads::of(self.blocks, &strands, &xs, area);
        let number = |n: Option<&Numbered>| n.map_or(0, |n| n.number);
        let (first, last) = (number(page.first()), number(page.last()));
        let elsewhere = |pin: PinId| {
            let on = |n: &&Numbered| n.is_on(pin);
            let comes = self.all.iter().filter(on).any(|n| n.number < first);
            (comes, self.all.iter().filter(on).any(|n| n.number > last))
        };
        let edge = area.right - MARGIN;
        let rails = rails::named(self.words, &strands, &xs, (edge, &elsewhere));
        let lines = |bus: bool| {
            rails
                .iter()
                .filter(|r| r.bus == bus)
                .map(|r| r.lines.len())
                .max()
        };
        let limits = Limits {
            feeds: heads.bottom + block(lines(false).unwrap_or(1)) + 4.0,
            buses: block(lines(true).unwrap_or(1)) + 4.0,
            bottom: area.bottom - NUMBERS - 2.0,
        };
        let (rows, low) = settle(&mut strands, &limits);
        Set {
            strands,
            xs,
            heads,
            rails,
            rows,
            low,
        }
    }

    /// One sheet.
    fn sheet(&self, among: &Among) -> Layout {
        let page = &among.pages[among.index];
        let set = self.set(page);
        let area = self.area();
        let mut sheet = Layout {
            number: among.index + 1,
            of: among.pages.len(),
            width: self.size.0,
            height: self.size.1,
            ..Layout::default()
        };
        rails::emit(&mut sheet, self.words, &set.rows, &set.rails, (among, area));
        let both = set.strands.iter().zip(&set.xs);
        let placed: Vec<Placed> = both.map(|(strand, x)| Placed { strand, x: *x }).collect();
        emit(&mut sheet, &set.rows, &placed);
        let earthed = |s: &Strand| s.cells.iter().any(|c| c.key == Key::Earths);
        if set.strands.iter().any(earthed) {
            rails::body(&mut sheet, &set.rows, area);
        }
        outlines::emit(&mut sheet, &set.rows, &placed);
        numbers(&mut sheet, &set.strands, &set.xs, area);
        set.heads.emit(&mut sheet);
        panel::emit(
            &mut sheet,
            self.words,
            &Legend::of(self.words, page),
            self.title,
        );
        sheet.told = self.told(page);
        sheet
    }

    /// What stands on a sheet, for screen readers: the blocks with their columns, then every wire.
    fn told(&self, page: &[Numbered]) -> String {
        let mut out = Vec::new();
        for n in page {
            let heading = format!("{}:", self.blocks[n.block].heading);
            if !out.contains(&heading) {
                out.push(heading);
            }
            out.extend(n.column.items.iter().filter_map(|i| self.words.told(i)));
        }
        out.join(" ")
    }
}
