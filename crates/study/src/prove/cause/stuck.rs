//! Relays and switches that stand, whatever works them.

use super::{Cause, place_times};
use crate::change::Change;
use crate::design::Design;
use crate::state::Position;
use loom::PartKind;

pub(super) fn all(d: &Design) -> Vec<Cause> {
    let mut found = Vec::new();
    for (id, p) in d.loom.each_part() {
        let times = place_times(d, p.place);
        let of = format!("{} ({})", p.name, p.label);
        match &p.kind {
            PartKind::Relay(r) => {
                let held = |closed| Change {
                    held: Some((id, closed)),
                    ..Change::default()
                };
                let rests_closed = r.contact != "87";
                let open = Cause::new(
                    "relay-stuck",
                    &p.name,
                    format!("{of} never closes: its contact is burnt open"),
                    held(false),
                );
                let coil = Change {
                    dead: Some(id),
                    ..held(rests_closed)
                };
                let coil = Cause::new(
                    "coil-open",
                    &p.name,
                    format!("the coil of {of} is broken"),
                    coil,
                );
                let welded = Cause::new(
                    "relay-welded",
                    &p.name,
                    format!("{of} never opens: its contact is welded"),
                    held(true),
                );
                found.push(
                    open.of(p.circuit)
                        .often(d, "relay stuck", 0.5 * times)
                        .mended("replace it"),
                );
                found.push(
                    coil.of(p.circuit)
                        .often(d, "relay stuck", 0.5 * times)
                        .mended("replace it"),
                );
                found.push(
                    welded
                        .of(p.circuit)
                        .also_off()
                        .often(d, "relay welded", times)
                        .mended("replace it, and see what welded it"),
                );
            }
            PartKind::Switch(s) => {
                for (position, how) in [
                    (Position::Off, "never closes"),
                    (Position::On, "never opens"),
                ] {
                    if s.isolator && position == Position::On {
                        continue;
                    }
                    let change = Change {
                        turned: Some((id, position)),
                        ..Change::default()
                    };
                    let cause = Cause::new("switch-stuck", &p.name, format!("{of} {how}"), change);
                    found.push(
                        cause
                            .of(p.circuit)
                            .also_off()
                            .often(d, "switch stuck", 0.5 * times)
                            .mended("replace it"),
                    );
                }
            }
            _ => {}
        }
    }
    found
}
