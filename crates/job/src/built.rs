//! What was really fitted, put into a plan: another size, another length, another fuse.

use crate::record::Noted;
use crate::{Job, Source};
use plan::Written;
use plan::form::{Edit, edited, said};

/// A plan with what was fitted.
#[derive(Clone, Debug, PartialEq)]
pub struct Built {
    /// The plan.
    pub text: String,
    /// What is to be noted of it.
    pub noted: Noted,
}

impl Job {
    /// This job's plan with what was fitted at a path, "wire[W1.3].size", in the words of a form.
    ///
    /// # Errors
    /// Why the plan can't be so, and what to do.
    pub fn built(&self, path: &str, is: &str) -> Result<Built, String> {
        let [plan, stock @ ..] = self.sources() else {
            return Err("there is no plan".to_owned());
        };
        let was = said(&Written::read(&plan.text), path);
        let wish = Edit::Set {
            path: path.to_owned(),
            typed: vec![is.to_owned()],
        };
        let text = edited(&plan.text, &wish).map_err(|e| e.to_string())?;
        let source = Source {
            name: plan.name.clone(),
            text: text.clone(),
        };
        let tried = Self::read(source, stock.to_vec());
        if let Some(e) = tried.errors().first() {
            return Err(format!("{}: {}", e.finding.says, e.finding.mend));
        }
        let noted = Noted::Built {
            path: path.to_owned(),
            was,
            is: is.to_owned(),
        };
        Ok(Built { text, noted })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_was_fitted_stands_in_the_plan_and_what_can_t_be_does_not() {
        let name = "farm.toml".to_owned();
        let text = include_str!("../../../examples/farm.toml").to_owned();
        let job = Job::read(Source { name, text }, Vec::new());
        let built = job.built("wire[W2.7].size", "6 mm²").expect("it can be");
        assert!(built.text.contains("6 mm²"));
        assert!(matches!(&built.noted, Noted::Built { was, .. } if was.is_empty()));
        assert!(job.built("wire[W9.9].size", "6 mm²").is_err());
        assert!(job.built("wire[W2.7].size", "six").is_err());
    }
}
