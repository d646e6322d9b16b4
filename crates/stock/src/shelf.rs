//! The whole stock: the embedded tables read, and a user's own table laid over them.

use crate::row::{Kind, read_rows};
use crate::{
    AmpacityTable, Conductor, Connector, Derating, FuseKind, Grommet, Insulation, JointKind,
    Origin, Pull, RelayKind, Sleeve, SupplyClass, SwitchKind, Tab, Terminal, Torque, price,
};
use finding::{Finding, Keys, nearest, read_toml};

/// The embedded tables, one text for each kind of row.
const TABLES: [&str; 15] = [
    include_str!("../tables/insulation.toml"),
    include_str!("../tables/conductor.toml"),
    include_str!("../tables/fuse.toml"),
    include_str!("../tables/relay.toml"),
    include_str!("../tables/switch.toml"),
    include_str!("../tables/joint.toml"),
    include_str!("../tables/terminal.toml"),
    include_str!("../tables/tab.toml"),
    include_str!("../tables/pull.toml"),
    include_str!("../tables/torque.toml"),
    include_str!("../tables/connector.toml"),
    include_str!("../tables/sleeve.toml"),
    include_str!("../tables/grommet.toml"),
    include_str!("../tables/current.toml"),
    include_str!("../tables/supply_class.toml"),
];

/// Everything that can be bought, and the tables of what it may carry.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Stock {
    /// Insulations.
    pub insulations: Vec<Insulation>,
    /// Wires, by family and rising area.
    pub conductors: Vec<Conductor>,
    /// Fuse classes.
    pub fuses: Vec<FuseKind>,
    /// Relay classes.
    pub relays: Vec<RelayKind>,
    /// Switch classes.
    pub switches: Vec<SwitchKind>,
    /// How much larger a switch must be than its load.
    pub deratings: Vec<Derating>,
    /// Joints.
    pub joints: Vec<JointKind>,
    /// Terminals.
    pub terminals: Vec<Terminal>,
    /// What push-on tabs bear, by width and rising copper.
    pub tabs: Vec<Tab>,
    /// How hard nuts are drawn.
    pub torques: Vec<Torque>,
    /// How hard crimps can be pulled.
    pub pulls: Vec<Pull>,
    /// Connectors.
    pub connectors: Vec<Connector>,
    /// Sleeves.
    pub sleeves: Vec<Sleeve>,
    /// Grommets.
    pub grommets: Vec<Grommet>,
    /// Tables of allowed current, one for each rule set.
    pub currents: Vec<AmpacityTable>,
    /// Supply-voltage classes of equipment.
    pub supply_classes: Vec<SupplyClass>,
}

impl Stock {
    /// The stock that comes with the program.
    pub fn embedded() -> Self {
        Self::read_embedded().0
    }

    /// The same with whatever is wrong in the tables; a test holds that nothing is.
    pub(crate) fn read_embedded() -> (Self, Vec<Finding>) {
        let mut stock = Self::default();
        let found = TABLES
            .iter()
            .flat_map(|text| stock.lay_over(text, None))
            .collect();
        (stock, found)
    }

    /// Lays a user's own table over the stock: a row with a known name replaces it, others are added.
    /// Rows that say no `basis` and `source` are the user's. Gives every error in the text; what
    /// could be read is laid over all the same.
    pub fn overlay(&mut self, text: &str) -> Vec<Finding> {
        self.lay_over(text, Some(&Origin::user()))
    }

    pub(crate) fn lay_over(&mut self, text: &str, default: Option<&Origin>) -> Vec<Finding> {
        let ((), found) = read_toml(text, "stock table", |top| {
            lay(&mut self.insulations, top, default);
            self.lay_wires(top, default);
            lay(&mut self.fuses, top, default);
            lay(&mut self.relays, top, default);
            lay(&mut self.switches, top, default);
            lay(&mut self.deratings, top, default);
            lay(&mut self.joints, top, default);
            lay(&mut self.terminals, top, default);
            lay(&mut self.tabs, top, default);
            lay(&mut self.pulls, top, default);
            lay(&mut self.torques, top, default);
            lay(&mut self.connectors, top, default);
            lay(&mut self.sleeves, top, default);
            lay(&mut self.grommets, top, default);
            lay(&mut self.currents, top, default);
            lay(&mut self.supply_classes, top, default);
            price::read(self, top);
        });
        self.conductors.sort_by(|a, b| {
            let by_area = a
                .area
                .partial_cmp(&b.area)
                .unwrap_or(std::cmp::Ordering::Equal);
            a.family.cmp(&b.family).then(by_area)
        });
        found
    }

    /// Lays wires; one whose insulation is not in stock could not be sized, and is told and left out.
    fn lay_wires(&mut self, top: &Keys, default: Option<&Origin>) {
        for wire in read_rows::<Conductor>(top, default) {
            if self.insulation(&wire.insulation).is_some() {
                put(&mut self.conductors, wire);
                continue;
            }
            let span = top.span_of(Conductor::KEY).unwrap_or_default();
            let says = format!(
                "{}: there is no insulation “{}” in stock",
                wire.id, wire.insulation
            );
            let known: Vec<&str> = self.insulations.iter().map(|i| i.name.as_str()).collect();
            let near = nearest(&wire.insulation, known.iter().copied());
            let hint = near
                .map(|n| format!("did you mean \"{n}\"? "))
                .unwrap_or_default();
            let list = known.join("\", \"");
            top.error(
                "unknown-word",
                span,
                says,
                format!("{hint}It can be \"{list}\", or add an [[insulation]]"),
            );
        }
    }
}

/// Puts a row in the place of the one that is the same thing, else at the end.
fn put<T: Kind>(shelf: &mut Vec<T>, row: T) {
    match shelf.iter_mut().find(|old| old.same(&row)) {
        Some(old) => *old = row,
        None => shelf.push(row),
    }
}

/// Lays the rows of one kind over those that are there, keeping their order.
fn lay<T: Kind>(shelf: &mut Vec<T>, top: &Keys, default: Option<&Origin>) {
    for row in read_rows::<T>(top, default) {
        put(shelf, row);
    }
}
