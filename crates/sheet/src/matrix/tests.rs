//! Whole matrices of made-up faults: no two words overlap, nothing lies outside the border, no row is left out.

use super::compose::charts;
use super::{Cell, FaultMatrix, MatrixRow, MatrixWeight, matrix};
use crate::Title;
use crate::chart::check::faults;
use crate::chart::{Chart, Sign};

const LOADS: [&str; 5] = [
    "M2 work lamps",
    "M14 work lamps at the rear of the tray",
    "B3 UHF",
    "M7 rear axle differential lock compressor, its relay and everything that hangs on it",
    "E1",
];
const KINDS: [&str; 4] = [
    "a wire chafed through to the body",
    "a wire broken",
    "a fuse one size up",
    "an earth point lost",
];
const PLACES: [&str; 4] = [
    "W1.3, far end",
    "W12.4 behind the passenger’s kick panel, at the side of the fuse box",
    "F3",
    "XE2, Donaudampfschifffahrtsgesellschaftskapitän",
];
const OUTCOMES: [(&str, MatrixWeight); 5] = [
    ("fuse opens", MatrixWeight::None),
    (
        "a wire passes its limit before anything opens",
        MatrixWeight::Stop,
    ),
    ("load lost", MatrixWeight::Note),
    ("opens late", MatrixWeight::Mend),
    ("nothing", MatrixWeight::None),
];

fn title() -> Title {
    Title {
        title: "Farm ute: auxiliary circuits".to_owned(),
        vehicle: "two-seat farm utility, 12 V".to_owned(),
        owner: Some("Lower Orchard".to_owned()),
    }
}

/// A matrix of so many rows and columns, with `each` rows of a kind.
fn made(rows: usize, columns: usize, each: usize) -> FaultMatrix {
    let cell = |n: usize| match n % 11 {
        0 | 5 => Cell::Lost,
        3 => Cell::Unasked,
        7 => Cell::Harmed,
        _ => Cell::None,
    };
    let row = |n: usize| MatrixRow {
        kind: format!("{} {}", KINDS[n / each % 4], n / each),
        at: format!("{} {n}", PLACES[n * 3 % 4]),
        outcome: OUTCOMES[n % 5].0.to_owned(),
        weight: OUTCOMES[n % 5].1,
        cells: (0..columns).map(|c| cell(n * 7 + c * c)).collect(),
    };
    FaultMatrix {
        columns: (0..columns).map(|c| LOADS[c % 5].to_owned()).collect(),
        rows: (0..rows).map(row).collect(),
    }
}

fn texts(chart: &Chart) -> Vec<&str> {
    chart.labels.iter().map(|l| l.text.as_str()).collect()
}

#[test]
fn no_words_overlap_and_nothing_lies_outside_the_border() {
    for rows in [0, 1, 7, 60, 400] {
        for columns in [0, 1, 6, 22, 60] {
            let matrix = made(rows, columns, 9);
            for (i, chart) in charts(&matrix, &title()).iter().enumerate() {
                let what = format!("{rows} rows, {columns} columns, sheet {}", i + 1);
                assert_eq!(faults(chart), Vec::<String>::new(), "{what}");
            }
        }
    }
}

#[test]
fn every_row_stands_on_one_sheet() {
    let matrix = made(400, 12, 37);
    let charts = charts(&matrix, &title());
    let signs = [Sign::FullSquare, Sign::HalfSquare, Sign::Square];
    let weighty = matrix.rows.iter().filter(|r| r.weight.sign().is_some());
    let marks = charts.iter().flat_map(|c| &c.marks);
    let drawn = marks.filter(|m| signs.contains(&m.sign)).count();
    assert_eq!(drawn, weighty.count() + signs.len() * charts.len());
}

#[test]
fn few_columns_fit_a_card_and_many_a_sheet_that_is_no_taller_than_a4() {
    let widths = [(6, 128.0), (20, 210.0), (35, 297.0), (60, 420.0)];
    for (columns, width) in widths {
        let mut matrix = made(60, columns, 9);
        matrix.columns.fill(LOADS[0].to_owned());
        let charts = charts(&matrix, &title());
        let fits = |c: &Chart| c.width <= width && c.height <= 297.0;
        assert!(charts.iter().all(fits), "{columns}: {}", charts[0].width);
    }
}

#[test]
fn a_kind_that_goes_on_is_told_again_and_no_heading_stands_last() {
    let charts = charts(&made(120, 4, 100), &title());
    assert!(charts.len() > 2);
    assert_eq!(
        texts(&charts[1])[2],
        "a wire chafed through to the body 0, continued"
    );
    for rows in 1..60 {
        for chart in super::compose::charts(&made(rows, 2, 2), &title()) {
            let kinds = chart.bands.iter().filter(|b| b.fill == super::KIND);
            let lowest = kinds.map(|b| b.frame.bottom).fold(0.0, f64::max);
            let below = |y: &f64| *y > lowest + 1.0;
            let grid = chart.lines.iter().filter(|l| l.ink == crate::chart::GRID);
            assert!(grid.map(|l| l.points[0].y).any(|y| below(&y)), "{rows}");
        }
    }
}

#[test]
fn a_row_with_too_few_cells_is_drawn() {
    let mut small = made(1, 3, 1);
    small.rows[0].cells.clear();
    assert_eq!(matrix(&small, &title()).len(), 1);
}

#[test]
fn what_fails_and_what_it_does() {
    let sheets = matrix(&made(5, 4, 2), &title());
    assert_eq!(sheets.len(), 1);
    assert_eq!(sheets[0].name, "matrix-1");
    assert!(roxmltree::Document::parse(&sheets[0].svg).is_ok());
    insta::assert_snapshot!(sheets[0].svg);
}
