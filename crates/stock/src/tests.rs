//! What the embedded tables promise, and what laying a user's table over them does.

mod currents;
mod overlay;
mod parts;
mod tables;

use crate::*;
use finding::Basis;
use quantity::{
    Area, Gauge, Quantity, WireSize, amperes, celsius, in_celsius, in_mm2, millimetres,
};

fn mm2(v: f64) -> Area {
    Area::from_si(v * 1e-6)
}

fn gauge(n: i8) -> WireSize {
    WireSize::Gauge(Gauge(n))
}

fn allowed(
    table: &str,
    size: WireSize,
    area: f64,
    insulation_c: f64,
    engine: bool,
) -> Option<Allowed> {
    let stock = Stock::embedded();
    stock
        .currents(table)
        .unwrap()
        .allowed(size, mm2(area), insulation_c, engine, 1)
}

fn amps(found: Option<Allowed>) -> f64 {
    found.unwrap().amps.si()
}
