//! Published tables of allowed current: one struct for each rule set. How they are asked is in `allowed`.

use crate::Origin;
use crate::range;
use crate::row::{Kind, Row};
use quantity::WireSize;

/// A factor for a number of current-carrying wires in one bundle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BundleFactor {
    /// Fewest wires.
    pub min_n: u32,
    /// Most wires.
    pub max_n: u32,
    /// Factor on the current.
    pub factor: f64,
}

/// One row of a table: a wire size and its currents, A, one for each column.
pub type AmpacityRow = (WireSize, Vec<Option<f64>>);

/// A table of allowed currents, by wire size and insulation temperature.
#[derive(Clone, Debug, PartialEq)]
pub struct AmpacityTable {
    /// "33 CFR 183.425", "NEC free air", "ISO 10133", "boat practice".
    pub name: String,
    /// Ambient that the currents hold for, °C.
    pub ambient_c: f64,
    /// Insulation temperature of each column, °C, rising.
    pub columns_c: Vec<f64>,
    /// Rows, rising in size.
    pub rows: Vec<AmpacityRow>,
    /// Origin of each row, in the same order.
    pub row_origins: Vec<Origin>,
    /// Factor of each column in an engine space (50 °C); zero: this insulation is not allowed there.
    pub engine_space: Vec<f64>,
    /// Of the engine-space factors.
    pub engine_origin: Origin,
    /// Factors for bundles; empty where the rule set has none at these voltages.
    pub bundle: Vec<BundleFactor>,
    /// Of the bundle factors, or of there being none.
    pub bundle_origin: Origin,
    /// Largest fuse over the allowed current.
    pub fuse_max_fraction: f64,
    /// Of that fraction.
    pub fuse_origin: Origin,
    /// Of the table as a whole.
    pub origin: Origin,
}

type Cells = (AmpacityRow, Origin);

fn cells(row: &Row) -> Option<Cells> {
    let amps = row.numbers("amps", range::CELL);
    let filled = amps.into_iter().map(|a| (a > 0.0).then_some(a)).collect();
    row.made(((row.need_size("size"), filled), row.origin()))
}

fn bundle(row: &Row) -> Option<BundleFactor> {
    row.made(BundleFactor {
        min_n: row.need_whole("from", range::COUNT),
        max_n: row.need_whole("to", range::COUNT),
        factor: row.need("factor", range::FACTOR),
    })
}

impl Kind for AmpacityTable {
    const KEY: &'static str = "current";

    fn read(row: &Row) -> Option<Self> {
        let origin = row.origin();
        let columns_c = row.numbers("columns_c", range::CELSIUS);
        let engine_space = row.numbers("engine_space", range::FACTOR);
        let (rows, row_origins): (Vec<AmpacityRow>, Vec<Origin>) =
            row.children("cells", &origin, cells).into_iter().unzip();
        let n = columns_c.len();
        if engine_space.len() != n || rows.iter().any(|r| r.1.len() != n) {
            let mend = "give one number for each of columns_c; 0 where the table has none";
            row.refuse(
                "uneven-lists",
                "its rows or engine_space don't match its columns",
                mend,
            );
        }
        if !columns_c.is_sorted_by(|a, b| a < b) {
            row.refuse(
                "uneven-lists",
                "its columns_c do not rise",
                "write the coolest insulation first",
            );
        }
        row.made(Self {
            name: row.need_text("name", "my table"),
            ambient_c: row.need("ambient_c", range::CELSIUS),
            columns_c,
            rows,
            row_origins,
            engine_space,
            engine_origin: row.part_origin("engine_source", "engine_basis"),
            bundle: row.children("bundle", &origin, bundle),
            bundle_origin: row.part_origin("bundle_source", "bundle_basis"),
            fuse_max_fraction: row.need("fuse_max_fraction", range::FACTOR),
            fuse_origin: row.part_origin("fuse_source", "fuse_basis"),
            origin,
        })
    }

    fn same(&self, other: &Self) -> bool {
        self.name == other.name
    }
}
