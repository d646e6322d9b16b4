//! How often one machine may ask, and how much may be worked out at once.

use std::collections::BTreeMap;
use std::net::IpAddr;
use std::sync::{Mutex, PoisonError};
use std::time::{Duration, Instant};
use tokio::sync::Semaphore;

/// So many requests within [`SPAN`]: a letter typed is one, and nobody types 60 a second.
const MOST: u32 = 600;
const SPAN: Duration = Duration::from_secs(10);

/// So many things are worked out at once, and so many wait.
const AT_ONCE: usize = 4;

/// Machines are forgotten when so many are known.
const KNOWN: usize = 1000;

/// How often each machine asked lately.
pub(crate) struct Rates {
    asked: Mutex<BTreeMap<IpAddr, (Instant, u32)>>,
    /// What works things out holds one of these.
    pub work: Semaphore,
}

impl Default for Rates {
    fn default() -> Self {
        Self {
            asked: Mutex::default(),
            work: Semaphore::new(AT_ONCE),
        }
    }
}

impl Rates {
    /// Whether a machine may ask once more.
    pub fn takes(&self, from: IpAddr) -> bool {
        self.takes_at(from, Instant::now())
    }

    fn takes_at(&self, from: IpAddr, now: Instant) -> bool {
        let mut asked = self.asked.lock().unwrap_or_else(PoisonError::into_inner);
        if asked.len() > KNOWN {
            asked.retain(|_, (since, _)| now.duration_since(*since) < SPAN);
        }
        let (since, count) = asked.entry(from).or_insert((now, 0));
        if now.duration_since(*since) >= SPAN {
            (*since, *count) = (now, 0);
        }
        *count += 1;
        *count <= MOST
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_machine_is_held_back_and_another_is_not() {
        let rates = Rates::default();
        let [a, b]: [IpAddr; 2] = [[10, 0, 0, 1].into(), [10, 0, 0, 2].into()];
        let now = Instant::now();
        assert!((0..MOST).all(|_| rates.takes_at(a, now)));
        assert!(!rates.takes_at(a, now) && rates.takes_at(b, now));
        assert!(rates.takes_at(a, now + SPAN));
    }
}
