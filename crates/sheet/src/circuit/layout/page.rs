//! Sheets: which columns stand on which, how far apart, and the rails above them.

use super::panel::{self, Legend};
use super::piece::block;
use super::rows::{Key, Rows};
use super::strip::{Gap, Numbered, Strand, apart, clear_links, demand, numbered, strands};
use super::wires::{Placed, emit};
use super::words::{SIZE, Words};
use super::{Align, Ink, Label, Layout, Line, border};
use crate::Title;
use crate::circuit::path::{Block, Foot, Top};
use crate::geometry::{Frame, at};
use crate::text::{ASCENT, LEADING, wrap};
use loom::PinId;
use std::collections::BTreeMap;

/// Sheet sizes, mm: A3 if everything is low enough for it, then larger ones.
const SIZES: [(f64, f64); 3] = [(420.0, 297.0), (594.0, 420.0), (841.0, 594.0)];
/// Width of the panel at the right: the legend and the title block, mm.
pub(crate) const PANEL: f64 = 110.0;
/// Kept at both ends of the columns for the marks of rails that go on, mm.
const MARGIN: f64 = 11.0;
/// Between columns at least, and at most when there is room, mm.
const BETWEEN: (f64, f64) = (3.0, 14.0);
/// How much of the height that is left over goes above the loads.
const LOADS_SHARE: f64 = 0.4;
/// Height of the strip of column numbers, mm.
const NUMBERS: f64 = 7.0;

/// What all sheets are made of.
struct Job<'a> {
    words: &'a Words<'a>,
    blocks: &'a [Block],
    all: Vec<Numbered<'a>>,
    title: &'a Title,
    size: (f64, f64),
}

/// All sheets.
pub(crate) fn layouts(blocks: &[Block], words: &Words, title: &Title) -> Vec<Layout> {
    let mut sheets = Vec::new();
    for size in SIZES {
        let job = Job { words, blocks, all: numbered(blocks), title, size };
        let pages = job.pages();
        let built: Vec<(Layout, bool)> = (0..pages.len()).map(|i| job.sheet(&pages, i)).collect();
        let fits = built.iter().all(|(_, fits)| *fits);
        sheets = built.into_iter().map(|(layout, _)| layout).collect();
        if fits {
            break;
        }
    }
    sheets
}

impl<'a> Job<'a> {
    /// The part of a sheet that columns stand in.
    fn area(&self) -> Frame {
        let border = border(self.size.0, self.size.1);
        Frame { right: border.right - PANEL, ..border }
    }

    /// Deals the columns out to sheets: blocks stay whole unless one alone is too wide.
    fn pages(&self) -> Vec<Vec<Numbered<'a>>> {
        let mut units: Vec<Vec<Numbered<'a>>> = Vec::new();
        let mut holds = false;
        for (b, block) in self.blocks.iter().enumerate() {
            let mine = self.all.iter().filter(|n| n.block == b).copied();
            match units.last_mut() {
                Some(last) if holds => last.extend(mine),
                _ => units.push(mine.collect()),
            }
            holds = block.holds_next;
        }
        let mut pages: Vec<Vec<Numbered<'a>>> = vec![Vec::new()];
        for unit in units {
            let last = pages.len() - 1;
            let joined = [&pages[last][..], &unit[..]].concat();
            if self.fits(&joined) {
                pages[last] = joined;
            } else if self.fits(&unit) {
                pages.push(unit);
            } else {
                // The control stays with the contact that it works.
                let contact = unit.iter().position(|n| matches!(n.column.top, Top::Rail(_)) && n.column.items.len() > 1);
                let whole = contact.map_or(1, |c| c + 1);
                for piece in std::iter::once(&unit[..whole]).chain(unit[whole..].chunks(1)) {
                    let last = pages.len() - 1;
                    let joined = [&pages[last][..], piece].concat();
                    if self.fits(&joined) || pages[last].is_empty() {
                        pages[last] = joined;
                    } else {
                        pages.push(piece.to_vec());
                    }
                }
            }
        }
        pages
    }

    fn fits(&self, page: &[Numbered]) -> bool {
        let strands = self.measured(page);
        let area = self.area();
        let wide: f64 = strands.iter().map(|s| s.left + s.right + BETWEEN.0).sum();
        let legend = Legend::of(self.words, page).height();
        wide <= area.right - area.left - 2.0 * MARGIN && legend <= panel::legend_room(self.size, self.title)
    }

    /// The strands of a sheet, with room for the names of rails.
    fn measured(&self, page: &[Numbered]) -> Vec<Strand> {
        let mut strands = strands(self.words, &self.all, page);
        for (_, mine) in rails(&strands) {
            let wide: f64 = mine.iter().map(|i| strands[*i].left + strands[*i].right + BETWEEN.0).sum();
            if let Some(last) = mine.last() {
                strands[*last].right += (30.0 - wide).max(0.0);
            }
        }
        strands
    }

    /// One sheet, and whether everything on it is within its height.
    fn sheet(&self, pages: &[Vec<Numbered>], index: usize) -> (Layout, bool) {
        let page = &pages[index];
        let mut sheet = Layout {
            number: index + 1,
            of: pages.len(),
            width: self.size.0,
            height: self.size.1,
            ..Layout::default()
        };
        let mut strands = self.measured(page);
        let area = self.area();
        let xs = spread(&strands, area);
        let head = self.headings(&mut sheet, &strands, &xs);
        let names = self.rail_names(&strands, &xs);
        let mut rows = Rows::default();
        let lines = |bus: bool| names.iter().filter(|n| n.bus == bus).map(|n| n.lines.len()).max();
        rows.least(Key::Feeds, head + block(lines(false).unwrap_or(1)) + 3.0);
        rows.below(Key::Feeds, Key::Buses, block(lines(true).unwrap_or(1)) + 4.0);
        self.demand_tops(&mut rows, &strands);
        clear_links(&mut rows, &mut strands);
        demand(&mut rows, &strands);
        let fits = self.lower(&mut rows, &strands, area.bottom - NUMBERS - 2.0);
        let placed: Vec<Placed> = strands.iter().zip(&xs).map(|(strand, x)| Placed { strand, x: *x }).collect();
        self.rails(&mut sheet, &rows, &placed, pages, index);
        emit(&mut sheet, &rows, &placed);
        self.body(&mut sheet, &rows, area);
        numbers(&mut sheet, &placed, area);
        panel::emit(&mut sheet, &Legend::of(self.words, page), self.title);
        (sheet, fits)
    }

    /// Whatever begins below the rails stands below those that pass above it.
    fn demand_tops(&self, rows: &mut Rows, strands: &[Strand]) {
        let boxes = strands.iter().any(|s| s.cells.iter().any(|c| c.key == Key::Buses));
        let above = if boxes { Key::Buses } else { Key::Feeds };
        let firsts = strands.iter().filter_map(|s| s.cells.first());
        for cell in firsts.filter(|c| !matches!(c.key, Key::Feeds | Key::Buses)) {
            rows.below(above, cell.key, 2.0 - cell.piece.frame().top);
        }
    }

    /// Settles the heights: first as high as can be, then the earths at the bottom and the loads part
    /// of the way down. Gives whether there was room.
    fn lower(&self, rows: &mut Rows, strands: &[Strand], bottom: f64) -> bool {
        rows.settle();
        let lowest = |rows: &Rows| {
            let cells = strands.iter().flat_map(|s| &s.cells);
            cells.map(|c| rows.at(c.key) + c.piece.frame().bottom).fold(rows.at(Key::Earths) + 4.0, f64::max)
        };
        let slack = bottom - lowest(rows);
        if slack > 0.0 {
            rows.least(Key::Earths, rows.at(Key::Earths) + slack);
            if rows.has(Key::Loads) {
                rows.least(Key::Loads, rows.at(Key::Loads) + slack * LOADS_SHARE);
            }
            rows.settle();
        }
        let sinks = strands.iter().flat_map(|s| &s.cells).filter(|c| c.key == Key::Sinks);
        if let Some(deep) = sinks.map(|c| c.piece.frame().bottom + 2.0).reduce(f64::max) {
            rows.least(Key::Sinks, rows.at(Key::Earths) - deep);
        }
        draw_near(rows, strands);
        slack >= -1e-6
    }

    /// What stands above each block; gives how far down the headings reach.
    fn headings(&self, sheet: &mut Layout, strands: &[Strand], xs: &[f64]) -> f64 {
        let top = self.area().top + 2.0;
        let mut lowest: f64 = top;
        let mut spans: Vec<(usize, f64, f64)> = Vec::new();
        for (s, x) in strands.iter().zip(xs) {
            match spans.last_mut() {
                Some((b, _, right)) if *b == s.block => *right = x + s.right,
                _ => spans.push((s.block, x - s.left, x + s.right)),
            }
        }
        let wrapped: Vec<_> = spans.iter().map(|(b, l, r)| (*l, *r, wrap(&self.blocks[*b].heading, 3.5, r - l))).collect();
        for (_, _, lines) in &wrapped {
            lowest = lowest.max(top + lines.len() as f64 * 3.5 * LEADING + 1.5);
        }
        for (left, right, lines) in wrapped {
            for (i, line) in lines.iter().enumerate() {
                let place = at(left, top + 3.5 * ASCENT + i as f64 * 3.5 * LEADING);
                sheet.labels.push(Label::new(line.clone(), 3.5, place, Align::Start));
            }
            let points = vec![at(left, lowest), at(right, lowest)];
            sheet.lines.push(Line { name: String::new(), ink: Ink::Rule { thick: false }, points });
        }
        lowest + 1.0
    }
}

/// Lowers what hangs on something to just above it: the wire before it takes up the slack.
fn draw_near(rows: &mut Rows, strands: &[Strand]) {
    for strand in strands {
        for cell in &strand.cells {
            if let Key::Throw(part) = cell.key {
                rows.least(Key::ThrowTop(part), rows.at(cell.key) - cell.piece.pins.0);
            }
        }
        for pair in strand.cells.windows(2).rev() {
            if let (Key::Free(..), Gap::Inner) = (pair[0].key, &pair[1].above) {
                rows.least(pair[0].key, rows.at(pair[1].key) - apart(&pair[0], &pair[1]));
            }
        }
    }
}

/// The rails of a sheet, each with the strands on it.
fn rails(strands: &[Strand]) -> Vec<(PinId, Vec<usize>)> {
    let mut out: BTreeMap<PinId, Vec<usize>> = BTreeMap::new();
    for (i, s) in strands.iter().enumerate() {
        if let Top::Rail(pin) = s.top {
            out.entry(pin).or_default().push(i);
        }
        if let Foot::Bus(pin) = s.foot {
            out.entry(pin).or_default().push(i);
        }
    }
    out.into_iter().collect()
}

/// The axes of the strands.
fn spread(strands: &[Strand], area: Frame) -> Vec<f64> {
    let wide: f64 = strands.iter().map(|s| s.left + s.right).sum();
    let spare = area.right - area.left - 2.0 * MARGIN - wide;
    let between = (spare / strands.len().max(1) as f64).clamp(BETWEEN.0, BETWEEN.1);
    let mut x = area.left + MARGIN;
    strands
        .iter()
        .map(|s| {
            let axis = x + s.left;
            x = axis + s.right + between;
            axis
        })
        .collect()
}

/// A rail's name, and where it stands.
struct RailName {
    pin: PinId,
    bus: bool,
    left: f64,
    lines: Vec<String>,
    /// Below the rail: that of a box whose feeder is alone on the sheet.
    under: bool,
}

impl Job<'_> {
    fn rail_names(&self, strands: &[Strand], xs: &[f64]) -> Vec<RailName> {
        let first = strands.first().map_or(0, |s| s.number);
        let comes = |pin: PinId| self.all.iter().take_while(|n| n.number < first).any(|n| n.is_on(pin));
        let name = |(pin, mine): (PinId, Vec<usize>)| {
            let feeder = |i: &usize| matches!(strands[*i].foot, Foot::Bus(p) if p == pin);
            let bus = matches!(self.words.loom.part_of(pin).kind, loom::PartKind::Box(_));
            // The name of a box stands right of its feeder, whose own labels end at the rail.
            let first = mine.first().map_or(0, |i| if feeder(i) && mine.len() > 1 { i + 1 } else { *i });
            let last = mine.last().copied().unwrap_or(first);
            // One that comes from another sheet is named at once.
            let first = if comes(pin) { 0 } else { first };
            let left = xs[first] - strands[first].left.min(4.0);
            let right = xs[last] + strands[last].right;
            let lines = wrap(&self.words.rail(pin), SIZE, right - left);
            let under = mine.len() == 1 && feeder(&first);
            RailName { pin, bus, left, lines, under }
        };
        rails(strands).into_iter().map(name).collect()
    }

    /// Draws the rails, with marks where they come from another sheet or go on to one.
    fn rails(&self, sheet: &mut Layout, rows: &Rows, placed: &[Placed], pages: &[Vec<Numbered>], index: usize) {
        let strands: Vec<Strand> = placed.iter().map(|p| p.strand.clone()).collect();
        let xs: Vec<f64> = placed.iter().map(|p| p.x).collect();
        let names = self.rail_names(&strands, &xs);
        let area = self.area();
        for ((pin, mine), name) in rails(&strands).into_iter().zip(names) {
            debug_assert_eq!(pin, name.pin);
            let y = rows.at(if name.bus { Key::Buses } else { Key::Feeds });
            let uses = |page: &Vec<Numbered>| page.iter().any(|n| n.is_on(pin));
            let before = (0..index).rev().find(|i| uses(&pages[*i]));
            let after = (index + 1..pages.len()).find(|i| uses(&pages[*i]));
            let (Some(first), Some(last)) = (mine.first(), mine.last()) else { continue };
            let left = before.map_or(xs[*first] - if name.bus { 0.0 } else { 4.0 }, |_| area.left + 2.0);
            let right = after.map_or(xs[*last] + 4.0, |_| area.right - 2.0);
            let mut label = |text: String, place, align| sheet.labels.push(Label::new(text, SIZE, place, align));
            if let Some(page) = before {
                label(format!("{} →", page + 1), at(area.left + 2.0, y - 1.8), Align::Start);
            }
            if let Some(page) = after {
                label(format!("→ {}", page + 1), at(area.right - 2.0, y - 1.8), Align::End);
            }
            let step = SIZE * LEADING;
            let lowest = if name.under { y + 1.0 + SIZE * ASCENT + (name.lines.len() - 1) as f64 * step } else { y - 1.8 };
            for (i, line) in name.lines.iter().rev().enumerate() {
                label(line.clone(), at(name.left, lowest - i as f64 * step), Align::Start);
            }
            let points = vec![at(left, y), at(right, y)];
            sheet.lines.push(Line { name: self.words.loom.part_of(pin).name.clone(), ink: Ink::Rail, points });
        }
    }

    /// The body: one line along the bottom.
    fn body(&self, sheet: &mut Layout, rows: &Rows, area: Frame) {
        let y = rows.at(Key::Earths);
        let points = vec![at(area.left + 2.0, y), at(area.right - 2.0, y)];
        sheet.lines.push(Line { name: "31".to_owned(), ink: Ink::Body, points });
        sheet.labels.push(Label::new("31".to_owned(), SIZE, at(area.left + 2.0, y - 1.5), Align::Start));
    }
}

/// The column numbers, in one run along the bottom.
fn numbers(sheet: &mut Layout, placed: &[Placed], area: Frame) {
    let y = area.bottom - NUMBERS;
    let rule = |points| Line { name: String::new(), ink: Ink::Rule { thick: false }, points };
    sheet.lines.push(rule(vec![at(area.left, y), at(area.right, y)]));
    for p in placed {
        sheet.lines.push(rule(vec![at(p.x, y), at(p.x, y + 1.2)]));
        let place = at(p.x, y + 1.6 + SIZE * ASCENT);
        sheet.labels.push(Label::new(p.strand.number.to_string(), SIZE, place, Align::Middle));
    }
}
