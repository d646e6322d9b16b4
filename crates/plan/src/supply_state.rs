//! What the vehicle is doing, as far as its supply goes: parked, key on, idling, driving, cranking.
//! Takes a plan's word, gives the state and what is live in it.

use finding::word_of;

/// A state of the vehicle's supply. Ordered as one comes to them, cranking last: it lasts for seconds.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum SupplyState {
    /// Engine off, key out: the battery alone.
    Parked,
    /// Ignition on, engine off: the battery alone.
    KeyOn,
    /// Engine idling: the alternator gives what it can at idle.
    Idling,
    /// Engine at driving speed.
    Driving,
    /// The starter turns the engine.
    Cranking,
}

impl SupplyState {
    /// Each state with its word in plans.
    pub const WORDS: [(&'static str, Self); 5] = [
        ("parked", Self::Parked),
        ("key on", Self::KeyOn),
        ("idling", Self::Idling),
        ("driving", Self::Driving),
        ("cranking", Self::Cranking),
    ];

    /// Every state.
    pub const ALL: [Self; 5] = [
        Self::Parked,
        Self::KeyOn,
        Self::Idling,
        Self::Driving,
        Self::Cranking,
    ];

    /// Its word.
    pub fn word(self) -> &'static str {
        word_of(&Self::WORDS, &self)
    }

    /// Whether terminal 15 is live: in all states but parked, while cranking too.
    pub fn ignition(self) -> bool {
        self != Self::Parked
    }

    /// Whether the engine runs, and turns an alternator.
    pub fn runs(self) -> bool {
        matches!(self, Self::Idling | Self::Driving)
    }
}
