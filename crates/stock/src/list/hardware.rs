//! The cells of terminals, connectors, sleeves and grommets.

use super::{Listing, bare, listing, maybe, mm, show, yes};
use crate::{Connector, Stock, Terminal};
use quantity::{Area, figures, in_mm2};

fn range_mm2(from: Area, to: Area) -> String {
    format!("{}–{}", figures(in_mm2(from), 3), figures(in_mm2(to), 3))
}

pub(super) fn terminals(stock: &Stock) -> Listing {
    let heads = [
        "terminal",
        "onto",
        "wire mm²",
        "barrel",
        "seals",
        "continuous A",
        "most A",
        "strip (from memory)",
        "over its barrel (from memory)",
        "at its widest (from memory)",
    ];
    let line = |t: &Terminal| {
        let tab = t.tab_mm.map(|mm| format!("{} mm tab", figures(mm, 3)));
        vec![
            t.kind.clone(),
            maybe(t.stud.clone().or(tab)),
            range_mm2(t.wire_min, t.wire_max),
            t.colour.clone().unwrap_or_else(|| "bare".to_owned()),
            yes(t.sealed),
            t.amps.map_or_else(|| "as its wire".to_owned(), bare),
            maybe(t.most.map(bare)),
            show(t.strip),
            show(t.barrel),
            show(t.across),
        ]
    };
    listing(
        "Terminals",
        &heads,
        stock.terminals.iter().map(|t| (line(t), &t.origin)),
    )
}

fn seals(connector: &Connector) -> String {
    let each = connector
        .seals
        .iter()
        .map(|s| format!("{}–{}", mm(s.od_min), mm(s.od_max)));
    maybe(Some(each.collect::<Vec<_>>().join(", ")).filter(|s| !s.is_empty()))
}

pub(super) fn pulls(stock: &Stock) -> Listing {
    let heads = ["gauge", "mm²", "stands N for a minute"];
    let line = |p: &crate::Pull| {
        let area = figures(in_mm2(p.area), 3);
        vec![format!("{} AWG", p.awg), area, figures(p.newton, 4)]
    };
    listing(
        "Pull on a crimp",
        &heads,
        stock.pulls.iter().map(|p| (line(p), &p.origin)),
    )
}

pub(super) fn tabs(stock: &Stock) -> Listing {
    let heads = ["tab", "wire", "mm²", "continuous A"];
    let line = |t: &crate::Tab| {
        let tab = format!("{} mm", figures(t.tab_mm, 3));
        let area = figures(in_mm2(t.area), 3);
        vec![tab, format!("{} AWG", t.awg), area, bare(t.amps)]
    };
    listing(
        "Current of push-on tabs",
        &heads,
        stock.tabs.iter().map(|t| (line(t), &t.origin)),
    )
}

pub(super) fn torques(stock: &Stock) -> Listing {
    let heads = ["of", "thread", "N·m"];
    let line = |t: &crate::Torque| {
        let range = match t.least == t.most {
            true => figures(t.least, 3),
            false => format!("{} to {}", figures(t.least, 3), figures(t.most, 3)),
        };
        vec![t.of.clone(), t.stud.clone(), range]
    };
    listing(
        "Torque of nuts and screws",
        &heads,
        stock.torques.iter().map(|t| (line(t), &t.origin)),
    )
}

pub(super) fn connectors(stock: &Stock) -> Listing {
    let heads = [
        "connector",
        "ways",
        "wire mm²",
        "seals for wire mm",
        "continuous A",
        "most A",
    ];
    let line = |c: &Connector| {
        vec![
            c.name.clone(),
            c.ways
                .iter()
                .map(u32::to_string)
                .collect::<Vec<_>>()
                .join(", "),
            range_mm2(c.wire_min, c.wire_max),
            seals(c),
            bare(c.amps),
            maybe(c.most.map(bare)),
        ]
    };
    listing(
        "Connectors",
        &heads,
        stock.connectors.iter().map(|c| (line(c), &c.origin)),
    )
}

pub(super) fn sleeves(stock: &Stock) -> Listing {
    let heads = [
        "sleeve",
        "kind",
        "bore mm",
        "shrunk mm",
        "wall mm",
        "bundle mm",
        "to °C",
    ];
    let line = |s: &crate::Sleeve| {
        vec![
            s.name.clone(),
            s.kind.clone(),
            mm(s.bore),
            maybe(s.recovered.map(mm)),
            mm(s.wall),
            format!("{}–{}", mm(s.bundle_min), mm(s.bundle_max)),
            figures(quantity::in_celsius(s.limit), 3),
        ]
    };
    listing(
        "Sleeves",
        &heads,
        stock.sleeves.iter().map(|s| (line(s), &s.origin)),
    )
}

pub(super) fn grommets(stock: &Stock) -> Listing {
    let heads = ["bore mm", "bundle to mm", "hole mm", "panel mm"];
    let line = |g: &crate::Grommet| {
        let panel = format!("{}–{}", mm(g.panel_min), mm(g.panel_max));
        vec![mm(g.bore), mm(g.bundle_max), mm(g.hole), panel]
    };
    listing(
        "Grommets",
        &heads,
        stock.grommets.iter().map(|g| (line(g), &g.origin)),
    )
}

pub(super) fn supply_classes(stock: &Stock) -> Listing {
    let heads = ["class", "vehicle V", "from V", "to V"];
    let volts = |v: quantity::ElectricPotential| figures(quantity::Quantity::si(v), 3);
    let line = |c: &crate::SupplyClass| {
        vec![
            c.code.clone(),
            c.volts.to_string(),
            volts(c.lowest),
            volts(c.highest),
        ]
    };
    listing(
        "Supply-voltage classes",
        &heads,
        stock.supply_classes.iter().map(|c| (line(c), &c.origin)),
    )
}
