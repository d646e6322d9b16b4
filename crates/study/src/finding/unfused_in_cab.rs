//! Live wire without a fuse where people sit.

use super::About;
use crate::answers::Answers;
use crate::design::Design;
use finding::{Finding, Weight};
use plan::Zone;

pub(super) const ABOUT: About = About {
    id: "unfused-in-cab",
    weight: Weight::Stop,
    asks: "Does any live wire enter the cab before its fuse?",
    source: "common practice, no source: nothing unfused where people sit",
    find,
};

fn find(d: &Design, _: &Answers) -> Vec<Finding> {
    let in_cab = |p: &loom::PlaceId| d.loom.place(*p).zone == Zone::Cabin;
    let mut found = Vec::new();
    for (id, w) in d.loom.each_wire() {
        // The short lead to a fuse beside a battery that stands in the cab is judged by its length.
        let to_fuse = matches!(d.loom.part_of(w.to).kind, loom::PartKind::Fuse(_));
        let lead = w.role == loom::Role::Lead && d.protection(id).is_none() && !to_fuse;
        if lead && w.places.iter().any(in_cab) {
            let where_ = w
                .places
                .iter()
                .find(|p| in_cab(p))
                .map_or("", |p| d.loom.place(*p).name.as_str());
            found.push(ABOUT.at(
                [w.name.clone(), where_.to_owned()],
                format!("{} is live and unfused in the cab, at {where_}", w.name),
                "put its fuse at the source, before the wire enters the cab",
            ));
        }
    }
    found
}
