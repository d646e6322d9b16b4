//! The budget: how long files and functions may be and how much a function may ask for. Measured on
//! everything but tests; a function whose body is one bare `match` is a table and may be long.

use super::Violation;
use super::house::House;
use super::source::Source;
use std::collections::BTreeMap;
use std::fmt::Write;
use syn::visit::{self, Visit};

/// The median file has at most so many lines.
const MEDIAN_FILE: usize = 250;
/// Most functions have at most so many lines,
const USUAL_FUNCTION: usize = 50;
/// and so many of a hundred are most.
const MOST_PERCENT: usize = 95;
/// No function has more lines than this.
const LONGEST_FUNCTION: usize = 150;
/// No function asks for more than this, `self` not counted.
const PARAMETERS: usize = 5;

/// A measured function.
#[derive(Clone, Debug)]
struct Function {
    path: String,
    name: String,
    line: usize,
    lines: usize,
    parameters: usize,
    bare_match: bool,
}

/// What was measured in one crate.
#[derive(Clone, Debug, Default)]
struct Room {
    files: Vec<(usize, String)>,
    functions: Vec<Function>,
}

/// Everything measured, by crate.
pub(super) struct Budget(BTreeMap<String, Room>);

/// Measures every source.
pub(super) fn measure(house: &House) -> Budget {
    let mut rooms: BTreeMap<String, Room> = BTreeMap::new();
    for source in &house.sources {
        let room = rooms.entry(source.room().to_owned()).or_default();
        room.files.push((source.lines(), source.path.clone()));
        let mut finder = Finder {
            source,
            found: &mut room.functions,
        };
        finder.visit_file(&source.syntax);
    }
    Budget(rooms)
}

struct Finder<'a> {
    source: &'a Source,
    found: &'a mut Vec<Function>,
}

impl Finder<'_> {
    fn take(&mut self, signature: &syn::Signature, block: &syn::Block) {
        let line = signature.fn_token.span.start().line;
        if self.source.in_tests(line) {
            return;
        }
        let typed = signature
            .inputs
            .iter()
            .filter(|i| matches!(i, syn::FnArg::Typed(_)));
        self.found.push(Function {
            path: self.source.path.clone(),
            name: signature.ident.to_string(),
            line,
            lines: block.brace_token.span.close().end().line - line + 1,
            parameters: typed.count(),
            bare_match: matches!(&block.stmts[..], [syn::Stmt::Expr(syn::Expr::Match(_), _)]),
        });
    }
}

impl<'a> Visit<'a> for Finder<'_> {
    fn visit_item_fn(&mut self, f: &'a syn::ItemFn) {
        self.take(&f.sig, &f.block);
        visit::visit_item_fn(self, f);
    }

    fn visit_impl_item_fn(&mut self, f: &'a syn::ImplItemFn) {
        self.take(&f.sig, &f.block);
        visit::visit_impl_item_fn(self, f);
    }

    fn visit_trait_item_fn(&mut self, f: &'a syn::TraitItemFn) {
        if let Some(block) = &f.default {
            self.take(&f.sig, block);
        }
        visit::visit_trait_item_fn(self, f);
    }
}

impl Room {
    fn median(&self) -> usize {
        let mut lines: Vec<usize> = self.files.iter().map(|(lines, _)| *lines).collect();
        lines.sort_unstable();
        lines.get(lines.len() / 2).copied().unwrap_or(0)
    }

    /// Functions above the usual length, the longest first.
    fn long(&self) -> Vec<&Function> {
        let mut long: Vec<&Function> = self
            .functions
            .iter()
            .filter(|f| f.lines > USUAL_FUNCTION && !f.bare_match)
            .collect();
        long.sort_by(|a, b| b.lines.cmp(&a.lines).then_with(|| a.path.cmp(&b.path)));
        long
    }

    /// How many of a hundred functions have at most the usual length.
    fn percent(&self) -> f64 {
        let all = self.functions.len().max(1) as f64;
        (1.0 - self.long().len() as f64 / all) * 100.0
    }

    fn row(&self, name: &str) -> String {
        let longest = self.files.iter().max().map_or(0, |(lines, _)| *lines);
        let lines = self.functions.iter().map(|f| f.lines).max().unwrap_or(0);
        let asks = self
            .functions
            .iter()
            .map(|f| f.parameters)
            .max()
            .unwrap_or(0);
        let (files, functions) = (self.files.len(), self.functions.len());
        let (median, percent) = (self.median(), self.percent());
        format!(
            "{name:<10}{files:>6}{median:>8}{longest:>9}{functions:>11}{percent:>8.1} %{lines:>9}{asks:>12}\n"
        )
    }
}

impl Budget {
    /// All crates as one.
    fn whole(&self) -> Room {
        let mut whole = Room::default();
        for room in self.0.values() {
            whole.files.extend(room.files.iter().cloned());
            whole.functions.extend(room.functions.iter().cloned());
        }
        whole
    }

    /// The budget as a table, a line a crate.
    pub fn table(&self) -> String {
        let mut out = String::from(
            "crate      files  median  longest  functions  ≤50 lines  longest  parameters\n",
        );
        for (name, room) in &self.0 {
            out += &room.row(name);
        }
        out += &self.whole().row("together");
        let _ = writeln!(
            out,
            "allowed: median file {MEDIAN_FILE}, {MOST_PERCENT} % of functions {USUAL_FUNCTION} lines, none over {LONGEST_FUNCTION} but a bare match, {PARAMETERS} parameters\n"
        );
        out
    }

    /// What goes over the budget.
    pub fn check(&self) -> Vec<Violation> {
        let whole = self.whole();
        let mut found = Vec::new();
        if whole.median() > MEDIAN_FILE {
            let mend = "split the longest files, one step or one thing a file";
            let over = whole.files.iter().filter(|(lines, _)| *lines > MEDIAN_FILE);
            found.extend(over.map(|(lines, path)| {
                Violation::new(
                    path,
                    1,
                    format!("{lines} lines, and the median file is over budget"),
                    mend,
                )
            }));
        }
        let crowded = whole.percent() < MOST_PERCENT as f64;
        for f in whole.long() {
            let (what, mend) = (
                format!("{} has {} lines", f.name, f.lines),
                "let its steps be functions, and it their contents list",
            );
            if crowded || f.lines > LONGEST_FUNCTION {
                found.push(Violation::new(&f.path, f.line, what, mend));
            }
        }
        for f in whole.functions.iter().filter(|f| f.parameters > PARAMETERS) {
            let what = format!("{} asks for {} parameters", f.name, f.parameters);
            found.push(Violation::new(
                &f.path,
                f.line,
                what,
                "give what belongs together a struct",
            ));
        }
        found
    }
}

#[cfg(test)]
mod tests {
    use super::measure;
    use crate::tidy::house::House;

    fn whats(text: String) -> Vec<String> {
        let house = House::of([("crates/plan/src/a.rs".to_owned(), text)]);
        measure(&house)
            .check()
            .into_iter()
            .map(|v| v.what)
            .collect()
    }

    #[test]
    fn a_long_function_is_over_unless_it_is_one_match_or_a_test() {
        let lines = "    x();\n".repeat(160);
        assert_eq!(
            whats(format!("fn a() {{\n{lines}}}\n")),
            ["a has 162 lines"]
        );
        assert!(whats(format!("fn a() {{\n match b {{ _ => {{\n{lines}}} }} }}\n")).is_empty());
        assert!(whats(format!("#[test]\nfn a() {{\n{lines}}}\n")).is_empty());
    }

    #[test]
    fn self_is_no_parameter() {
        let f = |list: &str| format!("struct S; impl S {{ fn a({list}) {{}} }}");
        assert!(whats(f("&self, a: u8, b: u8, c: u8, d: u8, e: u8")).is_empty());
        assert_eq!(
            whats(f("a: u8, b: u8, c: u8, d: u8, e: u8, f: u8")),
            ["a asks for 6 parameters"]
        );
    }
}
