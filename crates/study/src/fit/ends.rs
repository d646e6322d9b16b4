//! What each end of each wire gets, by what it goes onto. Wires that share a tab share its receptacle; on a stud each has
//! its own ring.

use super::{Plug, Table, Termination, WireEnd, at, cover};
use crate::design::Design;
use crate::ends::{USUAL_TAB_MM, stud_of};
use crate::laying::Laying;
use loom::{PartKind, PinId, WireId};
use plan::FeedKind;
use quantity::{Area, Quantity, figures, in_mm2};
use stock::Terminal;

/// What a wire's end is to get.
struct Wish<'a> {
    /// "ring", "tab", "butt".
    kind: &'static str,
    /// The stud it goes onto.
    stud: Option<&'a str>,
    /// The tab it goes onto, mm.
    tab_mm: Option<f64>,
    /// Copper that its barrel takes.
    area: Area,
    /// Water gets there.
    wet: bool,
    /// Nothing else covers it.
    bare: bool,
    /// What it goes onto, in words.
    onto: String,
}

/// One end of a wire.
pub(super) fn end(
    d: &Design,
    (table, laying, plugs): (&Table, &Laying, &[Plug]),
    (wire, pin): (WireId, PinId),
    assumed: &mut Vec<String>,
) -> WireEnd {
    let id = d.loom.pin(pin).part;
    let part = d.loom.part(id);
    let area = d.conductor(wire).area;
    let wet = d.loom.place(part.place).wet;
    if matches!(&part.kind, PartKind::Cutout(_))
        || matches!(&part.kind, PartKind::Feed(f) if !matches!(f.kind, FeedKind::BatteryPost | FeedKind::PowerStud))
    {
        assumed.push(format!(
            "taps, spare ways and cut-outs: {USUAL_TAB_MM} mm tabs, common practice; no document claimed"
        ));
    }
    let stud = stud_of(&part.kind).map(|on| {
        let row = table.stud(on);
        assumed.push(format!("{on}: {} stud, {}", row.stud, row.cite));
        ring(d, (area, wet), &row.stud)
    });
    let gets = stud.unwrap_or_else(|| match &part.kind {
        PartKind::Battery { .. } | PartKind::Box(_) | PartKind::Earth(_) => {
            Termination::Nothing("a ring for its stud".to_owned())
        }
        PartKind::Feed(_) | PartKind::Cutout(_) => tab(d, pin, USUAL_TAB_MM, true),
        PartKind::Switch(_) => {
            let chosen = d.choice.switches[id.0 as usize];
            let mm = chosen.map_or(USUAL_TAB_MM, |k| d.stock.switches[k].tab_mm);
            tab(d, pin, mm, true)
        }
        PartKind::Relay(_) => relay(d, (area, wet), pin),
        PartKind::Fuse(f) => fuse(d, (area, wet), pin, f.way.is_some()),
        PartKind::Connector { .. } => contact(d, plugs, (wire, pin)),
        PartKind::Splice => splice(d, pin, wet),
        // The thing's own lead.
        PartKind::Load(_) | PartKind::Signal(_) => butt(d, area, wet, "its own lead"),
    });
    let strip = match &gets {
        Termination::Terminal(t) | Termination::Shared(t) => d.stock.terminals[*t].strip,
        Termination::Contact { .. } => {
            let class = plugs.iter().find(|p| p.part == id);
            let class = class.and_then(|p| p.class.as_ref().ok());
            class.and_then(|(c, _)| d.stock.connectors[*c].strip)
        }
        Termination::Its(_) => d.fuse(id).and_then(|(kind, _)| kind.strip),
        Termination::Nothing(_) => None,
    };
    let crimped = !matches!(gets, Termination::Nothing(_));
    let pull = d.stock.pull_for(area).filter(|_| crimped);
    let cover = cover::over(d, laying, (wire, pin), &gets);
    WireEnd {
        slip_on: cover::slip_on(d, pin, &gets),
        cover,
        pin,
        gets,
        strip,
        pull: pull.map(|p| p.newton),
    }
}

/// The closest terminal: sealed where it is wet and insulated where nothing else covers it, if stock has such; then the
/// one whose range ends soonest.
fn closest(d: &Design, wish: &Wish) -> Result<usize, Termination> {
    let on_tab = |t: &Terminal| match (t.tab_mm, wish.tab_mm) {
        (Some(a), Some(b)) => (a - b).abs() < 1e-6,
        (a, b) => a.is_none() && b.is_none(),
    };
    let fits = |t: &Terminal| {
        let barrel = (t.wire_min..=t.wire_max).contains(&wish.area);
        t.kind == wish.kind && barrel && t.stud.as_deref() == wish.stud && on_tab(t)
    };
    let rank = |t: &Terminal| (t.sealed != wish.wet, t.insulated != wish.bare);
    let all = d.stock.terminals.iter().enumerate();
    let found = all.filter(|(_, t)| fits(t)).min_by(|(_, a), (_, b)| {
        let by_rank = rank(a).cmp(&rank(b));
        by_rank.then(a.wire_max.si().total_cmp(&b.wire_max.si()))
    });
    found.map(|(i, _)| i).ok_or_else(|| {
        let what = match wish.kind {
            "tab" => "receptacle",
            "butt" => "butt joint",
            "splice" => "splice band",
            kind => kind,
        };
        let area = figures(in_mm2(wish.area), 3);
        Termination::Nothing(format!("a {what} for {area} mm² on {}", wish.onto))
    })
}

fn one(found: Result<usize, Termination>) -> Termination {
    found.map_or_else(|nothing| nothing, Termination::Terminal)
}

fn ring(d: &Design, (area, wet): (Area, bool), stud: &str) -> Termination {
    one(closest(
        d,
        &Wish {
            kind: "ring",
            stud: Some(stud),
            tab_mm: None,
            area,
            wet,
            bare: true,
            onto: format!("an {stud} stud"),
        },
    ))
}

/// All wires at the pin in one receptacle.
fn tab(d: &Design, pin: PinId, mm: f64, bare: bool) -> Termination {
    let areas: Vec<f64> = at(d.loom, pin).map(|w| d.conductor(w).area.si()).collect();
    let found = closest(
        d,
        &Wish {
            kind: "tab",
            stud: None,
            tab_mm: Some(mm),
            area: Area::from_si(areas.iter().sum()),
            wet: false,
            bare,
            onto: format!("a {mm} mm tab"),
        },
    );
    match (found, areas.len()) {
        (Ok(t), 1) => Termination::Terminal(t),
        (Ok(t), _) => Termination::Shared(t),
        (Err(nothing), _) => nothing,
    }
}

fn butt_of(area: Area, wet: bool, onto: &str) -> Wish<'static> {
    Wish {
        kind: "butt",
        stud: None,
        tab_mm: None,
        area,
        wet,
        bare: true,
        onto: onto.to_owned(),
    }
}

fn butt(d: &Design, area: Area, wet: bool, onto: &str) -> Termination {
    one(closest(d, &butt_of(area, wet, onto)))
}

fn relay(d: &Design, of: (Area, bool), pin: PinId) -> Termination {
    let part = d.loom.part_of(pin);
    let Some(kind) = d.relay(d.loom.pin(pin).part) else {
        return Termination::Nothing("a relay that stock knows".to_owned());
    };
    let coil = part.pins[2] == pin || part.pins[3] == pin;
    match (coil, kind.coil_tab_mm, kind.tab_mm, &kind.stud) {
        // Its socket covers them.
        (true, Some(mm), ..) | (false, _, Some(mm), _) => tab(d, pin, mm, false),
        (_, _, _, Some(stud)) => ring(d, of, stud),
        _ => Termination::Nothing(format!("what fits the pins of a {}", kind.name)),
    }
}

/// In a way the box's own contact; on studs a ring; in the line the holder's own lead.
fn fuse(d: &Design, (area, wet): (Area, bool), pin: PinId, in_way: bool) -> Termination {
    let Some((kind, _)) = d.fuse(d.loom.pin(pin).part) else {
        return Termination::Nothing("a fuse that stock knows".to_owned());
    };
    if in_way {
        return match area <= kind.max_wire_area {
            true => Termination::Its(format!("contact of a way for {} fuses", kind.name)),
            false => Termination::Nothing(format!(
                "a way for {} fuses that takes {} mm²",
                kind.name,
                figures(in_mm2(area), 3)
            )),
        };
    }
    match kind.stud() {
        Some(stud) => ring(d, (area, wet), stud),
        None => butt(d, area, wet, "the holder's own lead"),
    }
}

fn contact(d: &Design, plugs: &[Plug], (wire, pin): (WireId, PinId)) -> Termination {
    let part = d.loom.pin(pin).part;
    let Some(plug) = plugs.iter().find(|p| p.part == part) else {
        return Termination::Nothing("a connector".to_owned());
    };
    if at(d.loom, pin).count() > 1 {
        return Termination::Nothing(format!(
            "a contact for the two wires at {}: splice them before it",
            d.loom.pin_name(pin)
        ));
    }
    match &plug.class {
        Ok((class, _)) => {
            let (class, wire) = (&d.stock.connectors[*class], d.conductor(wire));
            let seal = class.seal(wire.area, wire.outside_d);
            let at = seal.and_then(|s| class.seals.iter().position(|x| std::ptr::eq(x, s)));
            Termination::Contact {
                plug: part,
                seal: at,
            }
        }
        Err(wanted) => Termination::Nothing(wanted.clone()),
    }
}

/// One band for all wires of a splice, by all their copper.
fn splice(d: &Design, pin: PinId, wet: bool) -> Termination {
    let areas: Vec<f64> = at(d.loom, pin).map(|w| d.conductor(w).area.si()).collect();
    let wish = Wish {
        kind: "splice",
        ..butt_of(
            Area::from_si(areas.iter().sum()),
            wet,
            &format!("a splice of {} wires", areas.len()),
        )
    };
    closest(d, &wish).map_or_else(|nothing| nothing, Termination::Shared)
}
