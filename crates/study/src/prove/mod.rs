//! Proving with a meter, and finding what is amiss: what sound readings are and how far they may lie from that, which of them
//! tell most, and what readings say of what has gone wrong.
//!
//! | file | step |
//! |---|---|
//! | `setting` | what is switched on while one measures |
//! | `probe` | what is measured, and how well a meter tells it |
//! | `spread` | by how much each element of a sound installation may be otherwise |
//! | `reading` | what probes read, with whatever is amiss, and what that hangs on |
//! | `probings` | everything that can be measured, and the minutes it takes |
//! | `cause` | what may be amiss, and how often |
//! | `bench` | the loom with each of them in it, solved when first asked for |
//! | `sheet` | the probings that together reveal everything that any reading can |
//! | `verdict` | on a reading, and on the installation |
//! | `symptom` | what is seen without a meter |
//! | `weigh` | readings and symptoms against everything that may be amiss |
//! | `answered` | all that is to be told at once |
//! | `practice` | a vehicle to practise on |
//! | `alike` | what no reading tells apart |
//! | `next` | the test that is expected to tell most per minute |

mod alike;
mod answered;
mod bench;
mod cause;
mod next;
mod practice;
mod probe;
mod probings;
mod reading;
mod setting;
mod sheet;
mod spread;
mod symptom;
#[cfg(test)]
mod tests;
mod verdict;
mod weigh;

pub use alike::{Class, alike, classes};
pub use answered::{Answered, Member, Ranked, Row, STANDS_OUT, answer};
pub use bench::{Bench, Goes, Kept, Suspect};
pub use cause::{Cause, Version};
pub use next::{Advice, Outcome, next};
pub use practice::Practice;
pub use probe::{Probe, meter_error};
pub use probings::Test;
pub use reading::Reads;
pub use setting::Setting;
pub use sheet::{Sheet, sheet};
pub use spread::Param;
pub use symptom::Symptom;
pub use verdict::{Band, Proof, Verdict};
pub use weigh::{Evidence, Measured, Weighed, Weight, weigh};
