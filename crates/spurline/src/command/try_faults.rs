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
    let t0 = std::time::Instant::now();
    let p = job.protection().unwrap();
    println!("protection {:?}", t0.elapsed());
    let loom = job.loom().unwrap();
    for c in p.pairs {
        println!(
            "{} {} load {:.1} faults {:?} margin {:?} damage {} first {:?}",
            loom.part(c.fuse).name,
            loom.wire(c.wire).name,
            c.load,
            c.faults,
            c.margin,
            c.damage.len(),
            c.damage.first()
        );
    }
    for c in p.selective {
        println!(
            "{} before {} {:?} {}",
            loom.part(c.fuse).name,
            loom.part(c.before).name,
            c.overlap_from,
            c.highest
        );
    }
    Ok(ended(&job))
}
