//! The Python references: finite elements and stiff transients that published values are checked with.
//! Installs them into `target/python-venv`, and only those that a script in `tests/published` imports.

use super::programs::packages;
use super::shell::{printed, program};
use super::{Outcome, say};
use std::path::Path;

/// A module, and the release that the published values were checked with.
const MODULES: [(&str, &str); 3] = [
    ("numpy", "numpy==2.4.6"),
    ("scipy", "scipy==1.17.1"),
    ("skfem", "scikit-fem==12.0.2"),
];

/// What the browser tests check the pages' accessibility with: axe-core, as this package brings it. What else the package
/// asks for is not needed.
const CHECKER: &str = "axe-playwright-python==0.1.8";

/// Scripts that compare what they made with a coarser run of themselves, in half a minute or less.
const CHECKS: [&str; 1] = ["tests/published/fem/bundle.py"];

/// Makes the environment that scripts in `tests/published` run in.
pub fn install(root: &Path) -> Outcome {
    let scripts = scripts(&root.join("tests/published"));
    let wanted = wanted(&scripts);
    let python = root.join("target/python-venv/bin/python");
    let python = python.to_string_lossy().into_owned();
    if printed(root, &python, &["--version"]).is_none() {
        if printed(root, "python3", &["-c", "import venv, ensurepip"]).is_none() {
            packages(root, &["python3", "python3-venv"])?;
        }
        program(root, "python3", &["-m", "venv", "target/python-venv"])?;
    }
    let pip = |what: &[&str]| {
        let quietly = [
            "-m",
            "pip",
            "install",
            "--quiet",
            "--disable-pip-version-check",
        ];
        program(root, &python, &[&quietly[..], what].concat())
    };
    if wanted.is_empty() {
        say("no script in tests/published asks for any");
    } else {
        pip(&wanted)?;
    }
    pip(&["--no-deps", CHECKER])
}

/// Runs the scripts' own comparisons.
pub fn check(root: &Path) -> Outcome {
    let python = root.join("target/python-venv/bin/python");
    let python = python.to_string_lossy().into_owned();
    CHECKS
        .iter()
        .try_for_each(|script| program(root, &python, &[script, "--check"]))
}

/// The texts of the scripts, those in folders among them.
fn scripts(folder: &Path) -> Vec<String> {
    let Ok(entries) = std::fs::read_dir(folder) else {
        return Vec::new();
    };
    let each = entries
        .flatten()
        .map(|e| e.path())
        .flat_map(|path| match path.is_dir() {
            true => scripts(&path),
            false => {
                let script = path.extension().is_some_and(|e| e == "py");
                let text = script.then(|| std::fs::read_to_string(&path).ok());
                text.flatten().into_iter().collect()
            }
        });
    each.collect()
}

/// The releases of the modules that any of the scripts imports.
fn wanted(scripts: &[String]) -> Vec<&'static str> {
    let imports = |module: &str| {
        let says = |line: &str| {
            let mut words = line.split([' ', '.', ',']);
            matches!(words.next(), Some("import" | "from")) && words.any(|w| w == module)
        };
        scripts
            .iter()
            .any(|s| s.lines().any(|line| says(line.trim_start())))
    };
    MODULES
        .iter()
        .filter(|(module, _)| imports(module))
        .map(|(_, release)| *release)
        .collect()
}

#[cfg(test)]
mod tests {
    use super::wanted;

    #[test]
    fn only_imported_modules_are_wanted() {
        let script = |text: &str| vec![text.to_owned()];
        assert_eq!(
            wanted(&script("# scipy\nimport math\n")),
            Vec::<&str>::new()
        );
        assert_eq!(
            wanted(&script("import numpy\nfrom scipy.sparse import eye\n")),
            ["numpy==2.4.6", "scipy==1.17.1"]
        );
        assert_eq!(
            wanted(&script("  import skfem as fem\n")),
            ["scikit-fem==12.0.2"]
        );
    }
}
