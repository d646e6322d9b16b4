//! Sleeves and shrink by the metre, grommets and boots, by what goes in and under them.

use super::{Amount, Buy, Piece, Rows, pieces};
use crate::design::Design;
use crate::fit::{Fit, Stud, Table, Termination};
use crate::laid::{Laid, sleeve};
use loom::{Loom, PartKind, PinId};
use quantity::{Quantity, figures};
use std::collections::{BTreeMap, BTreeSet};

/// Sleeve is bought in tenths of a metre.
const STEP_M: f64 = 0.1;
/// What a wire with a sleeve of its own gets.
const OWN: &str = "PVC sleeve";

/// Pieces of sleeve and shrink, by index into stock; and what stock has not, with what it is for.
#[derive(Default)]
pub(super) struct Sleeving {
    pub pieces: BTreeMap<usize, Vec<Piece>>,
    lacking: Vec<(String, Piece)>,
}

impl Sleeving {
    fn add(&mut self, sleeve: &Result<usize, String>, piece: Piece) {
        match sleeve {
            Ok(sleeve) => self.pieces.entry(*sleeve).or_default().push(piece),
            Err(what) => self.lacking.push((what.clone(), piece)),
        }
    }
}

/// All pieces of a loom.
pub(super) fn sleeving(d: &Design, laid: &[Laid], fit: &Fit) -> Sleeving {
    let mut found = Sleeving::default();
    for l in laid {
        let s = d.loom.stretch(l.stretch);
        let name = s.ends.map(|p| d.loom.place(p).name.as_str()).join(" – ");
        if let Some(sleeve) = &l.sleeve {
            let metres = s.length.si();
            found.add(sleeve, Piece { name, metres });
        }
    }
    for (id, w) in d.loom.each_wire().filter(|(_, w)| w.set.sheathed) {
        let fits = sleeve(d, OWN, d.conductor(id).outside_d);
        let (name, metres) = (format!("around {}", w.name), w.cut.si());
        found.add(&fits, Piece { name, metres });
    }
    for (w, ends) in d.loom.wires.iter().zip(&fit.ends) {
        for end in ends {
            let Some(cover) = &end.cover else { continue };
            let pin = d.loom.pin_name(end.pin);
            let name = match end.gets {
                Termination::Shared(_) => pin,
                _ => format!("{} at {pin}", w.name),
            };
            let metres = cover.cut.si();
            found.add(&cover.sleeve, Piece { name, metres });
        }
    }
    found
}

pub(super) fn rows(
    d: &Design,
    table: &Table,
    (sleeving, laid): (&Sleeving, &[Laid]),
    (fit, studs): (&Fit, &[Stud]),
) -> Vec<Buy> {
    let more = 1.0 + table.allowance("sleeve").value;
    let metres = |needed: f64| Amount::Metres((needed * more / STEP_M - 1e-9).ceil() * STEP_M);
    let (mut sleeves, mut shrinks) = (Rows::default(), Rows::default());
    for (sleeve, pieces) in &sleeving.pieces {
        let sleeve = &d.stock.sleeves[*sleeve];
        let rows = match sleeve.recovered {
            Some(_) => &mut shrinks,
            None => &mut sleeves,
        };
        for p in pieces {
            rows.add(sleeve.name.clone(), p.metres, &p.name);
        }
    }
    for (what, piece) in &sleeving.lacking {
        let rows = match what.contains("shrink") {
            true => &mut shrinks,
            false => &mut sleeves,
        };
        rows.add(
            format!("{what}: none in stock fits"),
            piece.metres,
            &piece.name,
        );
    }
    let mut grommets = Rows::default();
    for l in laid {
        let panel = d.loom.stretch(l.stretch).panel.as_ref();
        let (Some(panel), Some(hole)) = (panel, &l.hole) else {
            continue;
        };
        let what = match &hole.grommet {
            Some(Ok(g)) => {
                let g = &d.stock.grommets[*g];
                format!(
                    "grommet of {} bore, for a hole of {}",
                    g.bore.show(),
                    g.hole.show()
                )
            }
            Some(Err(what)) => format!("{what}: none in stock fits"),
            None => continue,
        };
        grommets.add(what, 1.0, &panel.name);
    }
    let mut found = sleeves.of("sleeve", metres);
    found.extend(shrinks.of("shrink", metres));
    found.extend(grommets.of("grommet", pieces));
    found.extend(boots(d, fit, studs).of("boot", pieces));
    let mut bars = Rows::default();
    for stud in studs.iter().filter(|s| s.is_bar(d.loom)) {
        let name = d.loom.pin_name(stud.pin);
        let what = format!("bus bar of {} studs, {}", stud.rings.len(), stud.stud);
        bars.add(what, 1.0, &name);
    }
    found.extend(bars.of("bus bar", pieces));
    found
}

/// Studs that may be live and that no lid of their own covers (33 CFR 183.445(b), read: a boot or cover on every permanently
/// live ungrounded stud), and bare receptacles.
fn boots(d: &Design, fit: &Fit, studs: &[Stud]) -> Rows {
    let mut boots = Rows::default();
    let mut met: BTreeSet<PinId> = BTreeSet::new();
    for end in fit.ends.iter().flatten().filter(|e| e.slip_on) {
        let (Termination::Terminal(t) | Termination::Shared(t)) = end.gets else {
            continue;
        };
        if met.insert(end.pin) {
            let mm = figures(d.stock.terminals[t].tab_mm.unwrap_or_default(), 3);
            let name = d.loom.pin_name(end.pin);
            boots.add(
                format!("slip-on cover for a {mm} mm receptacle"),
                1.0,
                &name,
            );
        }
    }
    for stud in studs {
        if wants_boot(d.loom, stud.pin) {
            let name = d.loom.pin_name(stud.pin);
            boots.add(
                format!("insulating boot for an {} stud", stud.stud),
                1.0,
                &name,
            );
        }
    }
    boots
}

/// A stud that may be live and that no lid of its own covers.
pub(crate) fn wants_boot(loom: &Loom, stud: PinId) -> bool {
    match &loom.part_of(stud).kind {
        PartKind::Battery { .. } => loom.pin(stud).terminal == "30",
        PartKind::Relay(_) => true,
        PartKind::Feed(f) => !f.cover,
        _ => false,
    }
}
