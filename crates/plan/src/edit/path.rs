//! Where something stands in a plan, as a text: `circuit[rack lamps].load[1].rated`. A name that could be misread stands in
//! quotes: `place["a ] b"]`.

/// One step of a path: a key, with the name of the entry if the key holds a list.
/// `circuit[rack lamps].drop` is the steps `circuit[rack lamps]` and `drop`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Step {
    pub key: String,
    pub entry: Option<String>,
}

/// The path of an entry of a list: `entry("circuit", "rack lamps")`.
pub fn entry(list: &str, name: &str) -> String {
    match name.starts_with('"') || name.contains(']') {
        false => format!("{list}[{name}]"),
        true => {
            let name = name.replace('\\', "\\\\").replace('"', "\\\"");
            format!("{list}[\"{name}\"]")
        }
    }
}

/// The name at the start of what stands after a bracket, and the rest behind its closing one.
fn named(inside: &str) -> (String, &str) {
    let Some(quoted) = inside.strip_prefix('"') else {
        let close = inside.find(']').unwrap_or(inside.len());
        return (
            inside[..close].to_owned(),
            inside.get(close + 1..).unwrap_or(""),
        );
    };
    let mut name = String::new();
    let mut letters = quoted.char_indices();
    while let Some((at, letter)) = letters.next() {
        match letter {
            '\\' => name.extend(letters.next().map(|(_, l)| l)),
            '"' => {
                let rest = &quoted[at + 1..];
                return (name, rest.strip_prefix(']').unwrap_or(rest));
            }
            _ => name.push(letter),
        }
    }
    (name, "")
}

/// The steps of a path.
pub(super) fn steps(path: &str) -> Vec<Step> {
    let mut steps = Vec::new();
    let mut rest = path;
    while !rest.is_empty() {
        let end = rest.find(['.', '[']).unwrap_or(rest.len());
        let key = rest[..end].to_owned();
        rest = &rest[end..];
        let mut entry = None;
        if let Some(inside) = rest.strip_prefix('[') {
            let (name, after) = named(inside);
            entry = Some(name);
            rest = after;
        }
        rest = rest.strip_prefix('.').unwrap_or(rest);
        steps.push(Step { key, entry });
    }
    steps
}

/// The keys of a path, each with the name of its entry, or none.
pub(crate) fn names_of(path: &str) -> Vec<(String, String)> {
    let each = steps(path).into_iter();
    each.map(|s| (s.key, s.entry.unwrap_or_default())).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn a_path_is_read_step_by_step() {
        let read = steps("circuit[rack lamps].load[1].rated");
        let told: Vec<_> = read
            .iter()
            .map(|s| (s.key.as_str(), s.entry.as_deref()))
            .collect();
        assert_eq!(
            told,
            [
                ("circuit", Some("rack lamps")),
                ("load", Some("1")),
                ("rated", None)
            ]
        );
        assert_eq!(entry("wire", "W1.2"), "wire[W1.2]");
    }

    proptest! {
        #[test]
        fn any_name_leads_back_to_itself(name in ".*") {
            let path = format!("{}.zone", entry("place", &name));
            let read = steps(&path);
            prop_assert_eq!(read.len(), 2);
            prop_assert_eq!(read[0].entry.as_deref(), Some(name.as_str()));
            prop_assert_eq!(&read[1].key, "zone");
        }
    }
}
