//! A phone is let in once it has told the code that stands on the terminal; from then on by a cookie.

use std::sync::{Mutex, PoisonError};
use std::time::{Duration, Instant};

/// The name of the cookie.
const COOKIE: &str = "spurline";

/// So many wrong codes, then none is taken for a while; a new code stands on the terminal.
const TRIES: u32 = 5;
const PAUSE: Duration = Duration::from_secs(60);

/// So many browsers at most; the first is forgotten.
const PAIRED: usize = 20;

/// Letters and figures that are not taken for one another.
const LETTERS: &[u8; 32] = b"23456789ABCDEFGHJKLMNPQRSTUVWXYZ";

struct State {
    code: String,
    wrong: u32,
    until: Option<Instant>,
    tokens: Vec<String>,
}

/// What is given to each browser and asked of it again.
pub struct Pairing {
    state: Mutex<State>,
    told: Box<dyn Fn(&str) + Send + Sync>,
    random: fn() -> Option<[u8; 16]>,
}

/// What came of a code.
#[derive(Debug, PartialEq, Eq)]
pub(crate) enum Told {
    /// It is right: the cookie to be given.
    Right(String),
    /// It is wrong.
    Wrong,
    /// Too many were.
    Wait,
}

/// Whether two texts are the same, in a time that tells nothing of where they differ.
fn same(a: &str, b: &str) -> bool {
    let differ = a.bytes().zip(b.bytes()).fold(0, |d, (a, b)| d | (a ^ b));
    a.len() == b.len() && differ == 0
}

impl Pairing {
    /// `told` hears of each code that is to be shown on the terminal.
    ///
    /// # Errors
    /// If the machine has no randomness to give.
    pub fn new(told: impl Fn(&str) + Send + Sync + 'static) -> Result<Self, String> {
        Self::with(told, random)
    }

    fn with(
        told: impl Fn(&str) + Send + Sync + 'static,
        random: fn() -> Option<[u8; 16]>,
    ) -> Result<Self, String> {
        let code = code(random).ok_or("this machine gives no random numbers")?;
        told(&code);
        Ok(Self {
            state: Mutex::new(State {
                code,
                wrong: 0,
                until: None,
                tokens: Vec::new(),
            }),
            told: Box::new(told),
            random,
        })
    }

    /// Whether a browser with these cookies is known.
    pub(crate) fn knows(&self, cookies: &str) -> bool {
        let state = self.state.lock().unwrap_or_else(PoisonError::into_inner);
        let own = cookies.split(';').filter_map(|c| c.trim().split_once('='));
        let mut own = own.filter(|(name, _)| *name == COOKIE);
        own.any(|(_, token)| state.tokens.iter().any(|t| same(t, token)))
    }

    /// A code that somebody typed.
    pub(crate) fn tell(&self, typed: &str) -> Told {
        self.tell_at(typed, Instant::now())
    }

    fn tell_at(&self, typed: &str, now: Instant) -> Told {
        let mut state = self.state.lock().unwrap_or_else(PoisonError::into_inner);
        if state.until.is_some_and(|until| now < until) {
            return Told::Wait;
        }
        let typed: String = typed.chars().filter(char::is_ascii_alphanumeric).collect();
        let plain: String = state.code.chars().filter(|c| *c != '-').collect();
        if same(&typed.to_ascii_uppercase(), &plain)
            && let Some(bytes) = (self.random)()
        {
            let token: String = bytes.iter().map(|b| format!("{b:02x}")).collect();
            if state.tokens.len() == PAIRED {
                state.tokens.remove(0);
            }
            state.tokens.push(token.clone());
            state.wrong = 0;
            return Told::Right(format!(
                "{COOKIE}={token}; Path=/; HttpOnly; SameSite=Strict; Max-Age=604800"
            ));
        }
        state.wrong += 1;
        if state.wrong >= TRIES {
            state.wrong = 0;
            state.until = Some(now + PAUSE);
            if let Some(code) = code(self.random) {
                (self.told)(&code);
                state.code = code;
            }
        }
        Told::Wrong
    }
}

fn random() -> Option<[u8; 16]> {
    let mut bytes = [0; 16];
    getrandom::fill(&mut bytes).ok()?;
    Some(bytes)
}

/// Eight letters, 40 bits: "7KQ2-M9XD".
fn code(random: fn() -> Option<[u8; 16]>) -> Option<String> {
    let bytes = random()?;
    let letters = bytes
        .iter()
        .take(8)
        .map(|b| char::from(LETTERS[usize::from(b % 32)]));
    let letters: String = letters.collect();
    Some(format!("{}-{}", &letters[..4], &letters[4..]))
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::sync::Arc;

    fn pairing() -> (Pairing, Arc<Mutex<Vec<String>>>) {
        let codes = Arc::new(Mutex::new(Vec::new()));
        let to = Arc::clone(&codes);
        let told = move |code: &str| to.lock().unwrap().push(code.to_owned());
        (Pairing::new(told).unwrap(), codes)
    }

    #[test]
    fn whoever_tells_the_code_is_known_from_then_on() {
        let (pairing, codes) = pairing();
        let code = codes.lock().unwrap()[0].clone();
        assert!(!pairing.knows("spurline="));
        let Told::Right(cookie) = pairing.tell(&code.to_lowercase().replace('-', " ")) else {
            panic!("the code is right")
        };
        assert!(cookie.contains("HttpOnly") && cookie.contains("SameSite=Strict"));
        let pair = cookie.split(';').next().unwrap();
        assert!(pairing.knows(&format!("other=1; {pair}")));
        assert!(!pairing.knows(&format!("{pair}0")) && !pairing.knows("spurline=00"));
    }

    #[test]
    fn codes_are_not_guessed() {
        let (pairing, codes) = pairing();
        let now = Instant::now();
        for _ in 0..TRIES {
            assert_eq!(pairing.tell_at("AAAA-AAAA", now), Told::Wrong);
        }
        let both = codes.lock().unwrap().clone();
        assert_eq!(both.len(), 2);
        // Not even the right one, for a while; and the one before no longer.
        assert_eq!(pairing.tell_at(&both[1], now), Told::Wait);
        assert_eq!(pairing.tell_at(&both[0], now + PAUSE), Told::Wrong);
        assert!(matches!(
            pairing.tell_at(&both[1], now + PAUSE),
            Told::Right(_)
        ));
    }
}
