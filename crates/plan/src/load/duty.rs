//! `duty = { on = "15 min", every = "1 h" }` of a load: a fridge or a heater that switches itself.

use crate::need::quantity_like;
use finding::Keys;
use quantity::{Quantity, Time, bounds};

/// How a load that switches itself is on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Duty {
    /// How long it is on at a time.
    pub on: Time,
    /// From one start to the next.
    pub every: Time,
}

impl Duty {
    /// The part of the time that it is on: on / every.
    pub fn part(&self) -> f64 {
        self.on.si() / self.every.si()
    }
}

pub(super) fn read(k: &Keys) -> Option<Duty> {
    let on = quantity_like(k, "on", &bounds::DUTY_ON, "15 min");
    let every = quantity_like(k, "every", &bounds::DUTY_EVERY, "1 h");
    let duty = Duty {
        on: on?.value,
        every: every?.value,
    };
    if duty.on >= duty.every {
        k.error(
            "duty",
            k.span(),
            format!(
                "a load that is on for {} of every {} is never off",
                duty.on.show(),
                duty.every.show()
            ),
            "make the time on the shorter: duty = { on = \"15 min\", every = \"1 h\" }, or leave duty out",
        );
    }
    Some(duty)
}
