//! Names of sheets: stems of file names and of the ids in a drawing, so of few kinds of letters.

/// No longer than this: file systems and tables end somewhere.
const LONGEST: usize = 80;

/// “fault” and “W1.3 chafed through” give "fault-w1.3-chafed-through".
pub(crate) fn stem(kind: &str, of: &str) -> String {
    let mut out = kind.to_owned();
    for word in of.split(|c: char| !c.is_ascii_alphanumeric() && c != '.') {
        let word = word.trim_matches('.').to_ascii_lowercase();
        if !word.is_empty() && out.len() + word.len() < LONGEST {
            out += "-";
            out += &word;
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_stem_is_plain_and_not_endless() {
        assert_eq!(
            stem("fault", "W1.3, far end: öffnet."),
            "fault-w1.3-far-end-ffnet"
        );
        assert!(stem("fault", &"very ".repeat(50)).len() <= LONGEST);
    }
}
