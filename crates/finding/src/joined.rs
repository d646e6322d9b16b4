//! Words in a row, as they are told.

/// "a", "a and b", "a, b and c".
pub fn joined(words: &[&str]) -> String {
    match words {
        [] => String::new(),
        [one] => (*one).to_owned(),
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    }
}

#[cfg(test)]
mod tests {
    use super::joined;

    #[test]
    fn the_last_two_have_an_and() {
        assert_eq!(joined(&[]), "");
        assert_eq!(joined(&["a"]), "a");
        assert_eq!(joined(&["a", "b", "c"]), "a, b and c");
    }
}
