//! Names round the vehicle: those of the upper half above it, of the lower below, each in the order of its place, in as many
//! rows as they take, with a line to its place.

use crate::drawing::{Drawing, Stroke};
use crate::geometry::{Frame, Point, at};
use crate::label::{Align, Label};
use crate::text::{ASCENT, DESCENT, SIZE, width};
use loom::Loom;
use quantity::in_celsius;

/// Between names, mm.
const BETWEEN: f64 = 4.0;
/// Between a name and the line to another, mm.
const LINE: f64 = 1.0;
/// From an end of a name to its line, mm.
const END: f64 = 3.0;
/// Between rows, mm.
const ROW: f64 = 7.0;
/// From the vehicle to the first row, mm.
const CLEAR: f64 = 8.0;

/// Draws them in a room above and below the vehicle, which reaches from `top` to `bottom`.
pub(super) fn names(
    loom: &Loom,
    spots: &[Point],
    (room, top, bottom): (Frame, f64, f64),
    page: &mut Drawing,
) {
    let middle = (top + bottom) / 2.0;
    let (above, below): (Vec<usize>, Vec<usize>) =
        (0..spots.len()).partition(|i| spots[*i].y <= middle);
    for (mut mine, up) in [(above, true), (below, false)] {
        mine.sort_by(|a, b| spots[*a].x.total_cmp(&spots[*b].x));
        let words: Vec<String> = mine.iter().map(|i| said(loom, *i)).collect();
        let wanted: Vec<(f64, f64)> = mine
            .iter()
            .zip(&words)
            .map(|(i, w)| (spots[*i].x, width(w, SIZE)))
            .collect();
        for ((i, words), (left, row)) in mine.iter().zip(&words).zip(rows(&wanted, room)) {
            let y = match up {
                true => top - CLEAR - row as f64 * ROW,
                false => bottom + CLEAR + SIZE * ASCENT + row as f64 * ROW,
            };
            let label = Label::new(words.clone(), SIZE, at(left, y), Align::Start);
            let f = label.frame();
            let end = at(
                spots[*i].x.clamp(f.left, f.right),
                if up {
                    y + DESCENT * SIZE + 0.3
                } else {
                    f.top - 0.3
                },
            );
            page.line(vec![spots[*i], end], Stroke::solid("#999999", 0.25));
            page.words(label);
        }
    }
    for p in spots {
        page.circle(*p, 1.6, "white", crate::drawing::INK);
    }
}

fn said(loom: &Loom, i: usize) -> String {
    let p = &loom.places[i];
    let wet = if p.wet { ", wet" } else { "" };
    format!("{}, {:.0} °C{wet}", p.name, in_celsius(p.heat))
}

/// Left edge and row of each: the nearest row that has room under its place; a line to a far row passes between those nearer.
fn rows(wanted: &[(f64, f64)], room: Frame) -> Vec<(f64, usize)> {
    let mut placed: Vec<(f64, usize)> = Vec::new();
    // By row: what is taken in it, lines to farther rows with it.
    let mut taken: Vec<Vec<(f64, f64)>> = Vec::new();
    for (n, (x, wide)) in wanted.iter().enumerate() {
        // In the middle over its place, or with its place near either end.
        let lefts = [x - wide / 2.0, x - END, x - wide + END];
        let lefts = lefts.map(|left| left.clamp(room.left, (room.right - wide).max(room.left)));
        let clear = |(a, b): (f64, f64), air: f64, row: usize| {
            let taken: &[(f64, f64)] = taken.get(row).map_or(&[], |row| row);
            taken.iter().all(|(l, r)| b + air <= *l || *r + air <= a)
        };
        let others = wanted.iter().enumerate().filter(|(o, _)| *o != n);
        let others: Vec<f64> = others.map(|(_, (x, _))| *x).collect();
        let tries = (0..=wanted.len()).flat_map(|row| lefts.iter().map(move |left| (*left, row)));
        let fits = |(left, row): &(f64, usize)| clear((*left, left + wide), BETWEEN, *row);
        let through = |(_, row): &(f64, usize)| (0..*row).all(|r| clear((*x, *x), LINE, r));
        // It should stand in the way of no other's line.
        let open = |(left, _): &(f64, usize)| {
            let mut others = others.iter();
            others.all(|o| *o + LINE <= *left || left + wide + LINE <= *o)
        };
        let best = tries.clone().find(|t| fits(t) && through(t) && open(t));
        let good = || tries.clone().find(|t| fits(t) && through(t));
        // Where two places lie at the same length, a line passes through a name.
        let any = || tries.clone().find(fits);
        let (left, row) = best
            .or_else(good)
            .or_else(any)
            .unwrap_or((lefts[0], wanted.len()));
        while taken.len() <= row {
            taken.push(Vec::new());
        }
        taken[row].push((left, left + wide));
        for nearer in &mut taken[..row] {
            nearer.push((*x, *x));
        }
        placed.push((left, row));
    }
    placed
}
