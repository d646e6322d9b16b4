//! The programs that tests compare with or look through. Installs what is missing with `apt-get` where
//! that is allowed, else says which package to install.

use super::shell::{printed, program, there_is};
use super::{Outcome, say};
use std::path::Path;

/// A program, its Debian package, and who needs it.
type Need = (&'static str, &'static str, &'static str);

const NEEDS: [Need; 5] = [
    (
        "ngspice",
        "ngspice",
        "solves the same networks as an outside reference",
    ),
    ("chromium", "chromium", "looks at the page and the drawings"),
    (
        "chromedriver",
        "chromium-driver",
        "drives the browser in tests of the page",
    ),
    ("pdftotext", "poppler-utils", "reads the pack back"),
    ("qpdf", "qpdf", "checks that the pack is sound PDF"),
];

/// Installs the outside programs that are missing.
pub fn install(root: &Path) -> Outcome {
    for (name, _, why) in NEEDS {
        let here = if there_is(name) { "here" } else { "missing" };
        say(&format!("{name:<14}{here:<9}{why}"));
    }
    packages(root, &missing(&NEEDS))
}

fn missing(needs: &[Need]) -> Vec<&'static str> {
    needs
        .iter()
        .filter(|(name, ..)| !there_is(name))
        .map(|(_, package, _)| *package)
        .collect()
}

/// Installs Debian packages, or says that somebody has to.
pub fn packages(root: &Path, packages: &[&str]) -> Outcome {
    if packages.is_empty() {
        return Ok(());
    }
    let list = packages.join(" ");
    if !there_is("apt-get") {
        return Err(format!(
            "missing, and there is no apt-get: install what your system calls {list}"
        ));
    }
    if printed(root, "id", &["-u"]).as_deref() != Some("0") {
        return Err(format!(
            "missing; as root: apt-get install --no-install-recommends {list}"
        ));
    }
    program(root, "apt-get", &["update", "--quiet"])?;
    let mut words = vec!["DEBIAN_FRONTEND=noninteractive", "apt-get", "install"];
    words.extend(["--yes", "--quiet", "--no-install-recommends"]);
    words.extend(packages);
    program(root, "env", &words)
}
