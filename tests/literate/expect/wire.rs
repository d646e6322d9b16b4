//! Expectations of wires: size, colour, insulation, ends, way, cut length, what governed them.

use super::{Outcome, part, same, unknown};
use crate::walk::Walk;
use loom::Wire;
use quantity::{Length, Quantity, WireSize};
use stock::Conductor;
use study::WireAnswer;

fn of<'a>(walk: &'a Walk, name: &str) -> Result<(&'a Wire, &'a WireAnswer), String> {
    let known = || walk.loom().wires.iter().map(|w| w.name.clone());
    walk.wire_of(name)
        .ok_or_else(|| unknown("wire", name, known()))
}

fn conductor<'a>(walk: &'a Walk, name: &str) -> Result<&'a Conductor, String> {
    Ok(&walk.stock().conductors[of(walk, name)?.1.conductor])
}

/// "2.5 mm²", "12 AWG", a colour of a wire; or the rating or class of a part.
pub(super) fn or_part(walk: &Walk, name: &str, rest: &str) -> Outcome {
    if !name.starts_with('W') {
        return part::class(walk, name, rest);
    }
    let wire = conductor(walk, name)?;
    match WireSize::read(rest) {
        Ok(size) => same(wire.size.to_string(), &size.to_string()),
        Err(_) => same(of(walk, name)?.0.colour.to_string(), rest),
    }
}

/// True copper areas, so that families can be compared.
fn areas(walk: &Walk, name: &str, rest: &str) -> Result<(f64, f64), String> {
    let size = WireSize::read(rest).map_err(|e| e.mend)?;
    let wanted = match size {
        WireSize::Metric(a) => a.si(),
        WireSize::Gauge(g) => g.area_mm2() * 1e-6,
    };
    Ok((conductor(walk, name)?.area.si(), wanted))
}

pub(super) fn at_least(walk: &Walk, name: &str, rest: &str) -> Outcome {
    if !name.starts_with('W') {
        return part::at_least(walk, name, rest);
    }
    let (ours, wanted) = areas(walk, name, rest)?;
    // A gauge of SAE cable has a little less copper than its number says.
    if ours >= wanted * 0.88 {
        Ok(())
    } else {
        same(conductor(walk, name)?.id.clone(), rest)
    }
}

pub(super) fn at_most(walk: &Walk, name: &str, rest: &str) -> Outcome {
    if !name.starts_with('W') {
        return part::at_most(walk, name, rest);
    }
    let (ours, wanted) = areas(walk, name, rest)?;
    if ours <= wanted * 1.001 {
        Ok(())
    } else {
        same(conductor(walk, name)?.id.clone(), rest)
    }
}

pub(super) fn governed(walk: &Walk, name: &str, rest: &str) -> Outcome {
    same(of(walk, name)?.1.governed_by.clone(), rest)
}

/// The fuse before it, or "nothing".
pub(super) fn protected(walk: &Walk, name: &str, rest: &str) -> Outcome {
    let fuse = of(walk, name)?.0.fuse;
    same(
        fuse.map_or("nothing", |f| walk.loom().part(f).name.as_str()),
        rest,
    )
}

pub(super) fn cut(walk: &Walk, name: &str, rest: &str) -> Outcome {
    let wanted: Length = quantity::read(rest).map_err(|e| e.mend)?;
    same(of(walk, name)?.0.cut.show(), &wanted.show())
}

pub(super) fn role(walk: &Walk, name: &str, rest: &str) -> Outcome {
    same(format!("{:?}", of(walk, name)?.0.role), rest)
}

pub(super) fn insulation(walk: &Walk, name: &str, rest: &str) -> Outcome {
    same(conductor(walk, name)?.insulation.clone(), rest)
}

/// "F1:2 to K1:30".
pub(super) fn ends(walk: &Walk, name: &str, rest: &str) -> Outcome {
    let w = of(walk, name)?.0;
    same(
        format!(
            "{} to {}",
            walk.loom().pin_name(w.from),
            walk.loom().pin_name(w.to)
        ),
        rest,
    )
}

/// The places on its way, both ends included, in the order of its current.
pub(super) fn passes(walk: &Walk, name: &str, rest: &str) -> Outcome {
    let places = of(walk, name)?
        .0
        .places
        .iter()
        .map(|p| walk.loom().place(*p).name.as_str());
    same(places.collect::<Vec<_>>().join(", "), rest)
}
