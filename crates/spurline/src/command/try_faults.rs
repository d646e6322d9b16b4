//! `try`: every fault, tried.

use super::ended;
use crate::args::Try;
use crate::{Ended, files};

/// Runs it.
pub fn run(a: &Try) -> Ended {
    tried(a).unwrap_or_else(|e| e)
}

fn tried(a: &Try) -> Result<Ended, Ended> {
    let job = files::job(&a.texts)?;
    let start = std::time::Instant::now();
    job.answers();
    let sized = start.elapsed();
    let Some(tries) = job.tries(&|_, _| {}) else {
        return Err(Ended::Unread);
    };
    let all = start.elapsed();
    for t in tries.by_outcome() {
        println!(
            "{:10} {:14} {:24} {}",
            t.outcome.word(),
            job::study::FAULTS[tries.cases[t.case].kind].id,
            tries.cases[t.case].at,
            t.says
        );
        if let Some(answers) = job.answers() {
            println!("      in {}", answers.states[t.state].state.name);
        }
    }
    println!(
        "{} tried, {} collapsed, sized {sized:?}, all {all:?}",
        tries.tried, tries.collapsed
    );
    Ok(ended(&job))
}
