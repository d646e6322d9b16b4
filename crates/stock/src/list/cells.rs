//! The cells of wires, insulations, fuses, relays, switches and joints.

use super::{Listing, bare, listing, maybe, mm, mohm, yes};
use crate::{ContactRating, FuseKind, Stock};
use quantity::{Quantity, figures, in_mm2};

pub(super) fn wire(stock: &Stock) -> Listing {
    let heads = [
        "wire",
        "family",
        "size",
        "insulation",
        "wall",
        "copper mm²",
        "mΩ/m at 20 °C",
        "conductor mm",
        "outside mm",
        "price per m",
    ];
    let line = |c: &crate::Conductor| {
        vec![
            c.id.clone(),
            c.family.to_string(),
            c.size.to_string(),
            c.insulation.clone(),
            c.wall.clone(),
            figures(in_mm2(c.area), 4),
            mohm(c.ohm_per_m_20),
            mm(c.conductor_d),
            mm(c.outside_d),
            maybe(c.price_per_m.map(|p| figures(p, 4))),
        ]
    };
    listing(
        "Wires by the metre",
        &heads,
        stock.conductors.iter().map(|c| (line(c), &c.origin)),
    )
}

/// Between which times a class opens at twice the rating.
fn at_twice(kind: &FuseKind) -> Option<String> {
    let gate = kind.gates.iter().find(|g| g.multiple == 2.0)?;
    Some(format!(
        "{}–{}",
        figures(gate.min_s, 3),
        figures(gate.max_s?, 3)
    ))
}

pub(super) fn fuses(stock: &Stock) -> Listing {
    let heads = [
        "class",
        "rating A",
        "colour",
        "cold mΩ",
        "opens at twice it, s",
        "V",
        "breaks A",
        "price",
    ];
    let rows = stock
        .fuses
        .iter()
        .flat_map(|kind| kind.ratings.iter().map(move |r| (kind, r)));
    let lines = rows.map(|(kind, r)| {
        let cells = vec![
            kind.name.clone(),
            bare(r.amps),
            r.colour.clone(),
            mohm(r.cold_ohms),
            maybe(at_twice(kind)),
            figures(kind.volts.si(), 3),
            bare(kind.breaking),
            maybe(r.price.map(|p| figures(p, 4))),
        ];
        (cells, &r.resistance_origin)
    });
    listing("Fuses", &heads, lines)
}

/// Resistive, lamp, motor and hot currents of a contact.
fn contact(rating: Option<&ContactRating>) -> String {
    maybe(rating.map(|c| [c.resistive, c.lamp, c.motor, c.hot].map(bare).join(" / ")))
}

pub(super) fn relays(stock: &Stock) -> Listing {
    let each = "A: resistive / lamp / motor / at 85 °C";
    let make = format!("make {each}");
    let rest = format!("break {each}");
    let heads = [
        "class",
        "V",
        "terminals",
        "coil Ω",
        "closes by V",
        "open by V",
        "contact mΩ",
        &make,
        &rest,
        "tab mm",
    ];
    let line = |r: &crate::RelayKind| {
        vec![
            r.name.clone(),
            r.volts.to_string(),
            r.terminals.join(" "),
            figures(r.coil_ohms, 3),
            figures(r.pull_in.si(), 3),
            figures(r.drop_out.si(), 3),
            mohm(r.contact_ohms),
            contact(Some(&r.make)),
            contact(r.break_.as_ref()),
            r.stud
                .clone()
                .unwrap_or_else(|| maybe(r.tab_mm.map(|t| figures(t, 3)))),
        ]
    };
    listing(
        "Relays",
        &heads,
        stock.relays.iter().map(|r| (line(r), &r.make.origin)),
    )
}

pub(super) fn switches(stock: &Stock) -> Listing {
    let heads = [
        "class",
        "positions",
        "V",
        "resistive A",
        "contact mΩ",
        "own lamp",
        "tab mm",
    ];
    let line = |s: &crate::SwitchKind| {
        vec![
            s.name.clone(),
            s.positions.to_string(),
            s.volts.to_string(),
            bare(s.rating),
            mohm(s.contact_ohms),
            yes(s.illuminated),
            figures(s.tab_mm, 3),
        ]
    };
    listing(
        "Switches",
        &heads,
        stock.switches.iter().map(|s| (line(s), &s.origin)),
    )
}

pub(super) fn joints(stock: &Stock) -> Listing {
    let heads = ["joint", "sound mΩ", "times that late in life"];
    let line = |j: &crate::JointKind| vec![j.name.clone(), mohm(j.ohms), figures(j.life_factor, 3)];
    listing(
        "Joints",
        &heads,
        stock.joints.iter().map(|j| (line(j), &j.origin)),
    )
}

pub(super) fn insulation(stock: &Stock) -> Listing {
    let heads = [
        "insulation",
        "from °C",
        "to °C",
        "short circuit to °C",
        "table column °C",
        "W/m·K",
        "emissivity",
    ];
    let line = |i: &crate::Insulation| {
        vec![
            i.name.clone(),
            figures(quantity::in_celsius(i.lowest), 3),
            figures(quantity::in_celsius(i.limit), 3),
            figures(quantity::in_celsius(i.damage), 3),
            figures(i.table_column_c, 3),
            figures(i.k_w_mk, 3),
            figures(i.emissivity, 3),
        ]
    };
    listing(
        "Insulations",
        &heads,
        stock.insulations.iter().map(|i| (line(i), &i.origin)),
    )
}
