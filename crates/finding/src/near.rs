//! Known words: the nearest to one that is not known, and the word of a thing.

/// Least likeness (Jaro-Winkler) worth offering. Below it a guess misleads more than it helps;
/// 0.75 keeps "lenght"/"length" and "bottery"/"battery" and drops unrelated words.
const LEAST_LIKENESS: f64 = 0.75;

/// The word of a thing, from the closed list of words by which texts call such things; empty where it has none.
pub fn word_of<T: PartialEq>(words: &[(&'static str, T)], thing: &T) -> &'static str {
    let found = words.iter().find(|(_, t)| t == thing);
    found.map_or("", |(word, _)| word)
}

/// The known word most like `word`, if any is like enough.
pub fn nearest<'a>(word: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let lower = word.to_lowercase();
    let mut best: Option<(&str, f64)> = None;
    for k in known {
        let likeness = strsim::jaro_winkler(&lower, &k.to_lowercase());
        if likeness >= LEAST_LIKENESS && best.is_none_or(|(_, b)| likeness > b) {
            best = Some((k, likeness));
        }
    }
    best.map(|(k, _)| k)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn offers_the_slip_and_nothing_far() {
        assert_eq!(nearest("lenght", ["length", "between"]), Some("length"));
        assert_eq!(nearest("zebra", ["length", "between"]), None);
    }
}
