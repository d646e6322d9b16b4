//! The plans of a folder, or one alone, as the page opens them.

use crate::args::Texts;
use crate::files;
use crate::shelf::Files;
use job::plan::Written;
use page::{Cabinet, Found, Shelf};
use std::path::{Path, PathBuf};

/// Where plans lie.
pub enum Place {
    /// One plan.
    Plan(PathBuf),
    /// All of a folder.
    Folder(PathBuf),
}

/// The plans that lie there.
pub struct Drawer {
    place: Place,
    stock: Vec<PathBuf>,
}

/// A plan's name: its file's, without its ending.
fn name_of(path: &Path) -> Option<String> {
    let name = path.file_stem()?.to_str()?;
    (!name.starts_with('.')).then(|| name.to_owned())
}

/// The title of a plan, if a file is one.
fn title_of(path: &Path) -> Option<Option<String>> {
    let text = std::fs::read_to_string(path).ok()?;
    let written = Written::read(&text);
    let (job, _) = written.top().get("job")?;
    Some(job.get("title").and_then(|(title, _)| title.typed()))
}

/// A name for a file, made of a title's letters.
fn file_name(title: &str) -> String {
    let mut name = String::new();
    for letter in title.chars().flat_map(char::to_lowercase) {
        match letter {
            l if l.is_ascii_alphanumeric() => name.push(l),
            _ if name.ends_with('-') || name.is_empty() => {}
            _ => name.push('-'),
        }
    }
    let short: String = name.chars().take(40).collect();
    match short.trim_end_matches('-') {
        "" => "plan".to_owned(),
        name => name.to_owned(),
    }
}

impl Drawer {
    pub fn new(place: Place, stock: Vec<PathBuf>) -> Self {
        Self { place, stock }
    }

    /// The plans by their names.
    fn paths(&self) -> Vec<(Found, PathBuf)> {
        let paths: Vec<PathBuf> = match &self.place {
            Place::Plan(path) => vec![path.clone()],
            Place::Folder(folder) => {
                let entries = std::fs::read_dir(folder).into_iter().flatten().flatten();
                let mut paths: Vec<PathBuf> = entries
                    .map(|e| e.path())
                    .filter(|p| p.extension().is_some_and(|e| e == "toml") && p.is_file())
                    .collect();
                paths.sort_by(|a, b| a.file_stem().cmp(&b.file_stem()));
                paths
            }
        };
        let alone = matches!(self.place, Place::Plan(_));
        let found = paths.into_iter().filter_map(|path| {
            let title = title_of(&path);
            // A file that was named is a plan whatever stands in it.
            if title.is_none() && !alone {
                return None;
            }
            let name = name_of(&path)?;
            let title = title.flatten();
            Some((Found { name, title }, path))
        });
        found.collect()
    }
}

impl Cabinet for Drawer {
    fn plans(&self) -> Vec<Found> {
        self.paths().into_iter().map(|(found, _)| found).collect()
    }

    fn open(&self, name: &str) -> Option<Box<dyn Shelf>> {
        let found = self.paths().into_iter().find(|(f, _)| f.name == name);
        let (_, plan) = found?;
        let stock = self.stock.clone();
        Some(Box::new(Files::new(Texts { plan, stock })))
    }

    fn takes_new(&self) -> bool {
        matches!(self.place, Place::Folder(_))
    }

    fn create(&self, title: &str, text: &str) -> Result<String, String> {
        let Place::Folder(folder) = &self.place else {
            return Err("only one plan is open: start with a folder to make others".to_owned());
        };
        let stem = file_name(title);
        for n in 1..1000 {
            let name = if n == 1 {
                stem.clone()
            } else {
                format!("{stem}-{n}")
            };
            let path = folder.join(format!("{name}.toml"));
            match files::whole(&path, text.as_bytes(), false) {
                Ok(()) => return Ok(name),
                Err(e) if e.kind() == std::io::ErrorKind::AlreadyExists => {}
                Err(e) => return Err(format!("{} can’t be written: {e}", path.display())),
            }
        }
        Err(format!("there are too many plans called {stem} already"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_title_becomes_a_name_without_a_path_in_it() {
        assert_eq!(file_name("Rack lamps & pump!"), "rack-lamps-pump");
        assert_eq!(file_name("../../etc/passwd"), "etc-passwd");
        assert_eq!(file_name("…"), "plan");
        assert_eq!(file_name(&"long ".repeat(30)).len(), 39);
    }

    #[test]
    fn a_folder_opens_its_plans_and_takes_new_ones() {
        let folder = tempfile::tempdir().unwrap();
        let at = |name: &str| folder.path().join(name);
        std::fs::write(at("b.toml"), "[job]\ntitle = \"two\"\n").unwrap();
        std::fs::write(at("other.toml"), "[package]\n").unwrap();
        let drawer = Drawer::new(Place::Folder(folder.path().to_owned()), Vec::new());
        let names = || {
            drawer
                .plans()
                .into_iter()
                .map(|f| f.name)
                .collect::<Vec<_>>()
        };
        assert_eq!(names(), ["b"]);
        assert!(drawer.open("other").is_none() && drawer.open("../b").is_none());
        assert_eq!(drawer.create("A plan", "[job]\n").as_deref(), Ok("a-plan"));
        assert_eq!(
            drawer.create("A plan", "[job]\n").as_deref(),
            Ok("a-plan-2")
        );
        assert_eq!(names(), ["a-plan", "a-plan-2", "b"]);
    }
}
