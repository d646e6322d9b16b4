//! What a study of the supply answers: what the alternator leaves, how long things run with the engine
//! off, how long the vehicle may stand, how long a drive puts it back, and a day of use.

use loom::{Assumption, PartId};
use plan::SupplyState;

/// Everything the supply answers.
#[derive(Clone, Debug)]
pub struct SupplyAnswers {
    /// Temperature of the battery, °C.
    pub celsius: f64,
    /// Ampere-hours that a full battery gives at its rated current, at this temperature and age.
    pub usable_ah: f64,
    /// What must be left in it, and why.
    pub reserve: Reserve,
    /// The alternator's balance with everything on that can be, idling and driving; none without one.
    pub balance: Vec<Balance>,
    /// How long things run with the engine off: each circuit alone, what the day has on, everything.
    pub endurance: Vec<Endurance>,
    /// How long the vehicle may stand.
    pub parked: Parked,
    /// How long the engine must run to put it back; none without an alternator.
    pub recharge: Vec<Recharge>,
    /// The plan's day, if it has one.
    pub day: Option<Day>,
    /// Everything assumed here, beyond what the loom's own study assumed.
    pub assumptions: Vec<Assumption>,
}

/// The charge below which the battery is not to fall.
#[derive(Clone, Debug)]
pub struct Reserve {
    /// Part of full, 0 to 1.
    pub charge: f64,
    /// Which rule asks most.
    pub rule: ReserveRule,
    /// Voltage at the posts while the starter turns at that charge, V; none when it starts no engine.
    pub cranking_volts: Option<f64>,
    /// On whose word.
    pub source: String,
}

/// What decides the reserve.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ReserveRule {
    /// The plan says at what charge it still cranks.
    Said,
    /// Below it the starter would pull the posts down too far.
    Starter,
    /// Service practice: no-starts begin here.
    Practice,
    /// No engine hangs on it: deeper discharge wears the battery out.
    Wear,
    /// Even full it can't hold the starter at this temperature.
    Never,
}

/// The alternator against what is drawn.
#[derive(Clone, Debug)]
pub struct Balance {
    /// Idling or driving.
    pub supply: SupplyState,
    /// What the hot alternator can give, A.
    pub gives_a: f64,
    /// What the vehicle itself draws, A.
    pub vehicle_a: f64,
    /// What the added circuits draw with everything on that can be, A.
    pub added_a: f64,
    /// What is left to charge with; below zero the battery gives it, A.
    pub left_a: f64,
    /// Voltage at the posts then, V.
    pub volts: f64,
}

/// How a run with the engine off ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RunEnd {
    /// At the reserve.
    Reserve,
    /// The circuit's battery protection cuts it out before.
    CutOut(PartId),
    /// A load that is named gets less than it works at.
    TooLow(PartId),
    /// The battery is below its reserve before it starts.
    AtOnce,
    /// It draws nothing that counts.
    Never,
}

/// How long a set of circuits runs with the engine off.
#[derive(Clone, Debug)]
pub struct Endurance {
    /// In a person's words: "fridge", "everything".
    pub what: String,
    /// The circuits that are on, by index.
    pub circuits: Vec<usize>,
    /// Parked, or with the key on where a circuit needs it.
    pub supply: SupplyState,
    /// Mean current from the battery over the run, the vehicle's own draw included, A.
    pub amps: f64,
    /// How long, h; infinite when it never ends.
    pub hours: f64,
    /// Charge at the end, 0 to 1.
    pub to_charge: f64,
    /// What ends it.
    pub end: RunEnd,
}

/// The vehicle left standing with every switch off.
#[derive(Clone, Debug)]
pub struct Parked {
    /// What the vehicle draws by itself, A.
    pub vehicle_a: f64,
    /// What the added circuits draw with every switch off, A.
    pub added_a: f64,
    /// What the battery loses by itself, as a current, A.
    pub self_a: f64,
    /// Days until the reserve.
    pub days: f64,
    /// The same with everything that is live always switched off or unplugged; none where nothing is.
    pub days_without: Option<f64>,
}

/// How long the engine must run.
#[derive(Clone, Debug)]
pub struct Recharge {
    /// Idling or driving.
    pub supply: SupplyState,
    /// From this charge.
    pub from: f64,
    /// To this charge.
    pub to: f64,
    /// Charging current at the start, A.
    pub amps: f64,
    /// How long, h; infinite when nothing is left to charge with.
    pub hours: f64,
}

/// A day of use, stepped through.
#[derive(Clone, Debug)]
pub struct Day {
    /// Its parts in order.
    pub parts: Vec<DayPart>,
    /// What was reckoned, minute by minute or coarser.
    pub points: Vec<DayPoint>,
    /// Charge at the start and at the end, 0 to 1.
    pub from: f64,
    /// Charge at the end.
    pub to: f64,
    /// The lowest charge, and when, h.
    pub lowest: (f64, f64),
    /// The hour at which the battery was empty: nothing runs from then until it is charged.
    pub flat: Option<f64>,
    /// Times at which the engine was to be started below the reserve: hour and part.
    pub no_start: Vec<(f64, String)>,
    /// Circuits that their protection cut out: hour and circuit.
    pub cut_out: Vec<(f64, String)>,
}

impl Day {
    /// A day that begins with a full battery, before anything is done.
    pub fn from_full() -> Self {
        Self {
            parts: Vec::new(),
            points: Vec::new(),
            from: 1.0,
            to: 1.0,
            lowest: (1.0, 0.0),
            flat: None,
            no_start: Vec::new(),
            cut_out: Vec::new(),
        }
    }
}

/// A part of the day.
#[derive(Clone, Debug)]
pub struct DayPart {
    /// What is done.
    pub what: String,
    /// What the supply does.
    pub supply: SupplyState,
    /// From this hour of the day's list.
    pub from_h: f64,
    /// To this hour.
    pub to_h: f64,
    /// Circuits that are on, by name: those of the plan's list, and what is live always.
    pub on: Vec<String>,
    /// Charge at its end.
    pub charge: f64,
    /// Mean current into the battery, A; below zero out of it.
    pub amps: f64,
}

/// One reckoned moment.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DayPoint {
    /// Hours since the list began.
    pub hour: f64,
    /// Charge of the battery, 0 to 1.
    pub charge: f64,
    /// Voltage at its posts, V.
    pub volts: f64,
    /// Current into the battery, A; below zero out of it.
    pub amps: f64,
}
