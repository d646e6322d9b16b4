//! The rooms stand in walking order: a crate under `crates/` uses only crates that stand above it in
//! `members`; typst and axum each stay in their one room.

use super::Violation;
use super::house::House;
use toml::{Table, Value};

/// Packages that look at the rooms from outside: they may use any room, and no room may use them.
const OUTSIDE: [&str; 3] = ["bench", "suite", "xtask"];

/// Libraries that belong to one room, by the beginning of their name.
const OWNED: [(&str, &str); 4] = [
    ("typst", "pack"),
    ("axum", "page"),
    ("tower-http", "page"),
    ("hyper", "page"),
];

const SECTIONS: [&str; 3] = ["dependencies", "build-dependencies", "dev-dependencies"];

/// A package of the workspace.
struct Member<'a> {
    /// Path of its Cargo.toml.
    path: String,
    /// Its name.
    name: String,
    text: &'a str,
    table: Table,
}

pub(super) fn check(house: &House) -> Vec<Violation> {
    let (members, mut found) = match read(house) {
        Ok(read) => read,
        Err(broken) => return vec![broken],
    };
    let rooms: Vec<&str> = members
        .iter()
        .map(|m| m.name.as_str())
        .filter(|n| !OUTSIDE.contains(n))
        .collect();
    for (path, _) in &house.texts {
        if path.ends_with("/Cargo.toml")
            && path.starts_with("crates/")
            && members.iter().all(|m| m.path != *path)
        {
            found.push(Violation::new(
                path,
                1,
                "this crate is no member of the workspace",
                "name it in members of Cargo.toml, in walking order",
            ));
        }
    }
    for member in &members {
        for (section, name) in dependencies(&member.table) {
            let line = line_of(member.text, &section, &name);
            let broken = owned(&member.name, &name).or_else(|| above(&rooms, &member.name, &name));
            found.extend(broken.map(|(what, mend)| Violation::new(&member.path, line, what, mend)));
        }
    }
    found
}

/// The members in their order, and what is wrong with reading them.
fn read(house: &House) -> Result<(Vec<Member<'_>>, Vec<Violation>), Violation> {
    let root = parse(house, "Cargo.toml")?;
    let list = root
        .1
        .get("workspace")
        .and_then(|w| w.get("members"))
        .and_then(Value::as_array);
    let paths = list
        .into_iter()
        .flatten()
        .filter_map(Value::as_str)
        .map(|p| format!("{p}/Cargo.toml"));
    let (mut members, mut found) = (Vec::new(), Vec::new());
    for path in paths {
        match parse(house, &path) {
            Ok((text, table)) => {
                let name = table
                    .get("package")
                    .and_then(|p| p.get("name"))
                    .and_then(Value::as_str);
                let name = name.unwrap_or_default().to_owned();
                members.push(Member {
                    path,
                    name,
                    text,
                    table,
                });
            }
            Err(broken) => found.push(broken),
        }
    }
    Ok((members, found))
}

fn parse<'a>(house: &'a House, path: &str) -> Result<(&'a str, Table), Violation> {
    let text = house.text(path).ok_or_else(|| {
        Violation::new(
            path,
            1,
            "the file is missing",
            "write it, or take it out of members",
        )
    })?;
    let table = text
        .parse::<Table>()
        .map_err(|e| Violation::new(path, 1, e.message(), "mend the TOML"))?;
    Ok((text, table))
}

/// Every dependency as section and package name, those for one platform too.
fn dependencies(table: &Table) -> Vec<(String, String)> {
    let targets = table.get("target").and_then(Value::as_table);
    let all = std::iter::once(table).chain(
        targets
            .into_iter()
            .flat_map(Table::values)
            .filter_map(Value::as_table),
    );
    let mut found = Vec::new();
    for table in all {
        for section in SECTIONS {
            let listed = table.get(section).and_then(Value::as_table);
            for (key, value) in listed.into_iter().flatten() {
                let name = value.get("package").and_then(Value::as_str).unwrap_or(key);
                found.push((section.to_owned(), name.to_owned()));
            }
        }
    }
    found
}

/// The line that names a dependency, in its section.
fn line_of(text: &str, section: &str, name: &str) -> usize {
    let from = text
        .lines()
        .position(|l| l.trim().ends_with(&format!("{section}]")))
        .unwrap_or(0);
    let names = |line: &str| {
        line.split(['.', '=', ' '])
            .any(|w| w.trim_matches('"') == name)
    };
    text.lines()
        .enumerate()
        .skip(from)
        .find(|(_, l)| names(l))
        .map_or(1, |(i, _)| i + 1)
}

/// Whether a library is used outside the room that it belongs to.
fn owned(member: &str, name: &str) -> Option<(String, String)> {
    let (_, room) = OWNED
        .iter()
        .find(|(library, _)| name.starts_with(library))?;
    (member != *room).then(|| {
        (
            format!("{member} depends on {name}"),
            format!("only {room} does: ask that room for what you need"),
        )
    })
}

/// Whether a crate of the workspace is used that does not stand above.
fn above(rooms: &[&str], member: &str, name: &str) -> Option<(String, String)> {
    if OUTSIDE.contains(&name) && !OUTSIDE.contains(&member) {
        return Some((
            format!("{member} depends on {name}"),
            format!("{name} looks at the rooms from outside: move what is shared into a room"),
        ));
    }
    let own = rooms.iter().position(|r| *r == member)?;
    let other = rooms.iter().position(|r| *r == name)?;
    if other < own {
        return None;
    }
    let mend = match name {
        "job" => "test through the façade in the suite (tests/), not in a room".to_owned(),
        _ => format!(
            "{name} does not stand above {member} in members: move the code, or argue the order in ARCHITECTURE.md"
        ),
    };
    Some((format!("{member} depends on {name}"), mend))
}

#[cfg(test)]
mod tests {
    use super::check;
    use crate::tidy::house::House;

    fn whats(plan: &str, pack: &str) -> Vec<(usize, String)> {
        let crate_of = |name: &str, rest: &str| {
            (
                format!("crates/{name}/Cargo.toml"),
                format!("[package]\nname = \"{name}\"\n{rest}"),
            )
        };
        let root =
            "[workspace]\nmembers = [\"crates/plan\", \"crates/pack\", \"crates/job\"]".to_owned();
        let files = [
            ("Cargo.toml".to_owned(), root),
            crate_of("plan", plan),
            crate_of("pack", pack),
            crate_of("job", ""),
        ];
        check(&House::of(files))
            .into_iter()
            .map(|v| (v.line, v.what))
            .collect()
    }

    #[test]
    fn dependencies_point_up() {
        assert!(
            whats(
                "",
                "[dependencies]\nplan.workspace = true\ntypst = { version = \"1\" }\n"
            )
            .is_empty()
        );
        let found = whats(
            "[dependencies]\npack.workspace = true\n[dev-dependencies]\njob = { path = \"../job\" }\n",
            "",
        );
        assert_eq!(
            found,
            [
                (4, "plan depends on pack".to_owned()),
                (6, "plan depends on job".to_owned())
            ]
        );
    }

    #[test]
    fn typst_and_axum_keep_to_their_rooms() {
        let found = whats(
            "[dependencies]\ntypst-pdf.workspace = true\n",
            "[dependencies]\naxum = \"1\"\n",
        );
        assert_eq!(
            found,
            [
                (4, "plan depends on typst-pdf".to_owned()),
                (4, "pack depends on axum".to_owned())
            ]
        );
    }
}
