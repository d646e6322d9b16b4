//! The list below the chart: what the numbers above its parts stand for, in as many columns as make it lowest.
//! Parts in which the same is done share a line.

use crate::chart::{Chart, STEP};
use crate::label::Align;
use crate::text::{SIZE, width, wrap};
use study::DayPart;

/// Free above and below, mm.
const AIR: f64 = 1.5;
/// Free between two columns, mm.
const BETWEEN: f64 = 6.0;
/// A column's words are at least this wide, mm.
const NARROWEST: f64 = 34.0;
/// So many columns at most.
const MOST: usize = 6;

/// One entry: its numbers, then what is done.
struct Entry {
    numbers: String,
    what: String,
}

/// The list, in columns of lines; the first of an entry bears its numbers.
pub(super) struct List {
    columns: Vec<Vec<(String, Vec<String>)>>,
    /// Width of a column.
    wide: f64,
    /// Width of the numbers.
    indent: f64,
}

impl List {
    /// Of these parts, by index, so wide together.
    pub fn of(parts: &[DayPart], numbered: &[usize], room: f64) -> Self {
        let entries = entries(parts, numbered);
        let lowest = (1..=MOST)
            .map(|n| Self::in_columns(&entries, n, room))
            .filter(|l| l.columns.len() == 1 || l.wide - l.indent >= NARROWEST)
            .min_by_key(Self::lines);
        lowest.unwrap_or(Self {
            columns: Vec::new(),
            wide: room,
            indent: 0.0,
        })
    }

    fn in_columns(entries: &[Entry], columns: usize, room: f64) -> Self {
        let wide = (room + BETWEEN) / columns as f64 - BETWEEN;
        // Numbers that many parts share are broken too.
        let most = wide / 3.0;
        let widest = entries.iter().map(|e| width(&e.numbers, SIZE));
        let indent = widest.fold(0.0, f64::max).min(most) + 2.0;
        let broken: Vec<(String, Vec<String>)> = entries
            .iter()
            .map(|e| match width(&e.numbers, SIZE) <= most {
                true => (e.numbers.clone(), wrap(&e.what, SIZE, wide - indent)),
                false => {
                    let all = format!("{}: {}", e.numbers, e.what);
                    (String::new(), wrap(&all, SIZE, wide - indent))
                }
            })
            .collect();
        let total: usize = broken.iter().map(|(_, l)| l.len()).sum();
        let mut tall = total.div_ceil(columns);
        let columns = loop {
            let dealt = dealt(&broken, tall);
            if dealt.len() <= columns {
                break dealt;
            }
            tall += 1;
        };
        Self {
            columns,
            wide,
            indent,
        }
    }

    fn lines(&self) -> usize {
        let tall = |c: &Vec<(String, Vec<String>)>| c.iter().map(|(_, l)| l.len()).sum();
        self.columns.iter().map(tall).max().unwrap_or(0)
    }

    /// How tall it is, mm.
    pub fn height(&self) -> f64 {
        match self.lines() {
            0 => 0.0,
            lines => lines as f64 * STEP + 2.0 * AIR,
        }
    }

    /// Puts it with its upper left corner here.
    pub fn place(&self, chart: &mut Chart, (left, top): (f64, f64)) {
        for (n, column) in self.columns.iter().enumerate() {
            let x = left + n as f64 * (self.wide + BETWEEN);
            let mut y = top + AIR;
            for (numbers, lines) in column {
                if !numbers.is_empty() {
                    chart.words(std::slice::from_ref(numbers), (x, y), Align::Start);
                }
                chart.words(lines, (x + self.indent, y), Align::Start);
                y += lines.len() as f64 * STEP;
            }
        }
    }
}

/// The entries in the order of the day.
fn entries(parts: &[DayPart], numbered: &[usize]) -> Vec<Entry> {
    let mut out: Vec<Entry> = Vec::new();
    for i in numbered {
        let (what, number) = (&parts[*i].what, (i + 1).to_string());
        match out.iter_mut().find(|e| e.what == *what) {
            Some(entry) => entry.numbers += &format!(", {number}"),
            None => out.push(Entry {
                numbers: number,
                what: what.clone(),
            }),
        }
    }
    out
}

/// Entries dealt out to columns no taller than `tall` lines, one entry at least in each.
fn dealt(entries: &[(String, Vec<String>)], tall: usize) -> Vec<Vec<(String, Vec<String>)>> {
    let mut columns: Vec<Vec<(String, Vec<String>)>> = Vec::new();
    let mut lines = usize::MAX;
    for entry in entries {
        let more = entry.1.len();
        match columns.last_mut().filter(|_| lines + more <= tall) {
            Some(column) => {
                column.push(entry.clone());
                lines += more;
            }
            None => {
                columns.push(vec![entry.clone()]);
                lines = more;
            }
        }
    }
    columns
}
