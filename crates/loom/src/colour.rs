//! Wire colours by IEC 60757 codes. Supply is red, earth is brown (DIN 72551-7's habit for
//! terminal 31, from memory) and nothing else is, so the two are never taken for one another.

use crate::wires::Role;
use std::fmt;

/// Base and stripe.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Colour {
    /// Base, IEC 60757 code.
    pub base: String,
    /// Stripe, if any.
    pub stripe: Option<String>,
}

impl fmt::Display for Colour {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.base)?;
        self.stripe.as_ref().map_or(Ok(()), |s| write!(f, "/{s}"))
    }
}

/// Bases for switched wires, told apart at a glance; brown and red are kept for earth and supply.
const BASES: [&str; 8] = ["YE", "BU", "WH", "VT", "OG", "GY", "PK", "TQ"];
/// Stripes when the bases run out, and for coil wires.
const STRIPES: [&str; 3] = ["BK", "GN", "RD"];

fn code(base: &str, stripe: Option<&str>) -> Colour {
    Colour {
        base: base.to_owned(),
        stripe: stripe.map(str::to_owned),
    }
}

/// The colour of a wire by its role and its circuit's number.
pub(crate) fn choose(role: Role, circuit: u32) -> Colour {
    let n = circuit.saturating_sub(1) as usize;
    let base = BASES[n % BASES.len()];
    let turn = n / BASES.len();
    match role {
        Role::Lead | Role::Feeder => code("RD", None),
        Role::Supply => code("RD", Some(base)),
        Role::Switched if turn == 0 => code(base, None),
        Role::Switched => code(base, Some(STRIPES[(turn - 1) % STRIPES.len()])),
        Role::Coil => code("BK", Some(base)),
        Role::CoilEarth => code("BN", Some(base)),
        Role::Earth | Role::Return => code("BN", None),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn earth_is_never_taken_for_supply() {
        for circuit in 0..60 {
            for role in [
                Role::Lead,
                Role::Feeder,
                Role::Supply,
                Role::Switched,
                Role::Coil,
            ] {
                assert_ne!(choose(role, circuit).base, "BN");
            }
            assert_eq!(choose(Role::Earth, circuit).to_string(), "BN");
        }
    }
}
