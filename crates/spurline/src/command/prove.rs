//! `prove`: the test sheet, readings and what they tell, what may be amiss, the next test.

use super::write_all;
use crate::args::Prove;
use crate::record::Record;
use crate::shelf::Files;
use crate::show::{self, Progress, complain};
use crate::{Ended, files, json};
use job::record::{Entry, Noted};
use job::study::prove::{Bench, Practice, Proof, Symptom};
use job::{Job, Proved};
use page::{Shelf, Stroke};

/// Runs it.
pub fn run(a: &Prove) -> Ended {
    proved(a).unwrap_or_else(|e| e)
}

fn proved(a: &Prove) -> Result<Ended, Ended> {
    built(a)?;
    let job = files::job(&a.texts)?;
    let bench = job.bench().ok_or(Ended::Unread)?;
    if a.symptoms {
        for s in Symptom::all(bench.loom()) {
            anstream::println!("{:<24} {}", s.word(bench.loom()), s.says(bench.loom()));
        }
        return Ok(Ended::Well);
    }
    if a.tests {
        for test in 0..bench.tests.len() {
            anstream::println!("{}", job::pack::probing_words(&bench, test));
        }
        return Ok(Ended::Well);
    }
    // What is read of no real vehicle stands in no real one’s record.
    let record = match a.practise {
        Some(number) => Record::of_practice(&a.texts.plan, number),
        None => Record::of(&a.texts.plan),
    };
    let text = job.sources().first().map_or("", |s| s.text.as_str());
    let mut entries = record.entries();
    for noted in noted(a, &bench, entries.is_empty())? {
        if !a.unrecorded {
            record.note(noted.clone(), &a.who, text).map_err(|why| {
                complain(
                    &why,
                    "make room, or make the folder one that can be written to",
                );
                Ended::Unread
            })?;
        }
        entries.push(Entry {
            time_s: 0,
            who: a.who.clone(),
            plan: job::record::fingerprint(text),
            noted,
        });
    }
    let bar = Progress::new("things that may be amiss, worked out what each would read");
    job.test_sheet(&|done, of| bar.at(done, of));
    bar.over();
    let proved = job.proved(&entries).ok_or(Ended::Unread)?;
    tell(a, &job, &proved)?;
    Ok(match proved.answered.proof {
        Proof::Except(_) | Proof::NotProved { .. } => Ended::Stops,
        _ => Ended::Well,
    })
}

fn tell(a: &Prove, job: &Job, proved: &Proved) -> Result<(), Ended> {
    let next = proved.answered.next.as_ref();
    let pictures = next.map_or_else(Vec::new, |n| job.probing_picture(&proved.bench, n.test));
    let written = match &a.into {
        Some(folder) => {
            let content = job.proof_report(proved, &pictures).ok_or(Ended::Unread)?;
            let page = job::pack::page(&content).into_bytes();
            write_all(folder, a.replace, &[("prove.html".to_owned(), page)])?
        }
        None => Vec::new(),
    };
    let amiss = a.practise.filter(|_| a.reveal);
    let amiss = amiss.map(|number| Practice::new(&proved.bench, number).amiss().causes());
    let amiss = amiss.and_then(|causes| causes.first().copied());
    if a.json {
        json::print(&json::prove(proved, amiss));
        return Ok(());
    }
    if let Some(cause) = amiss {
        let says = &proved.bench.causes[cause].says;
        anstream::println!("Amiss with the vehicle to practise on: {says}.");
    }
    // A terminal shows no picture.
    if let Some(content) = job.proof_report(proved, &[]) {
        anstream::print!("{}", show::content(&content));
    }
    for file in written {
        anstream::println!("wrote {file}");
    }
    Ok(())
}

/// Everything that the command line notes, in order.
fn noted(a: &Prove, bench: &Bench, first: bool) -> Result<Vec<Noted>, Ended> {
    let mut noted = Vec::new();
    if a.afresh {
        noted.push(Noted::Fresh);
    }
    noted.extend(a.note.clone().map(Noted::Note));
    for word in &a.seen {
        let Some(symptom) = Symptom::read(bench.loom(), word) else {
            complain(
                &format!("“{word}” is nothing that can be seen here"),
                "`--symptoms` lists what can be said",
            );
            return Err(Ended::Unread);
        };
        noted.push(Noted::Seen(symptom.word(bench.loom())));
    }
    let practice = a.practise.map(|number| Practice::new(bench, number));
    if let Some(practice) = practice.as_ref().filter(|_| first || a.afresh) {
        // What somebody sees who comes to it.
        let seen = practice.symptoms().into_iter();
        noted.extend(seen.map(|s| Noted::Seen(s.word(bench.loom()))));
    }
    for text in &a.reading {
        let Some((name, value)) = text.rsplit_once('=') else {
            complain(
                &format!("“{text}” says no reading"),
                "write the test, an equals sign, and what was read: \"12 = 11.8 V\"",
            );
            return Err(Ended::Unread);
        };
        let test = test(bench, name)?;
        let value =
            job::reading(bench.tests[test].probe, value, bench.nominal()).map_err(|why| {
                complain(&why, "write it as the meter shows it, with its unit");
                Ended::Unread
            })?;
        noted.push(Noted::Reading {
            test: bench.name(test),
            value,
        });
    }
    for name in &a.measure {
        let test = test(bench, name)?;
        let read = practice.as_ref().and_then(|p| p.measure(test));
        let Some(read) = read else {
            complain(
                "the vehicle to practise on gives no reading there",
                "measure something else",
            );
            return Err(Ended::Unread);
        };
        let probe = bench.tests[test].probe;
        let (shown, band) = (job::pack::reading(probe, read.value), bench.band(test));
        let sound = job::pack::band_words(probe, band.low, band.high);
        let verdict = band.verdict(read.value).word();
        anstream::eprintln!(
            "{}: {shown}, {verdict} (sound: {sound})",
            job::pack::probing_words(bench, test)
        );
        noted.push(Noted::Reading {
            test: bench.name(test),
            value: read.value,
        });
    }
    Ok(noted)
}

fn test(bench: &Bench, name: &str) -> Result<usize, Ended> {
    bench.named(name).ok_or_else(|| {
        complain(
            &format!("there is no test “{}”", name.trim()),
            "`--tests` lists them, each with its number",
        );
        Ended::Unread
    })
}

/// Puts what was really fitted into the plan, and notes it.
fn built(a: &Prove) -> Result<(), Ended> {
    for text in &a.built {
        let Some((path, is)) = text.split_once('=').map(|(p, v)| (p.trim(), v.trim())) else {
            complain(
                &format!("“{text}” says nothing that was fitted"),
                "write where and what: \"wire[W1.3].size = 4 mm²\"",
            );
            return Err(Ended::Unread);
        };
        let shelf = Files::new(a.texts.clone());
        let failed = |why: String| {
            complain(&why, "`spurline open` shows what a plan can say, and where");
            Ended::Unread
        };
        let (plan, stock) = shelf.read().map_err(failed)?;
        let now = plan.text.clone();
        let built = Job::read(plan, stock).built(path, is).map_err(failed)?;
        shelf
            .write(&|t| t == now, &built.text, Stroke::Anew)
            .map_err(|_| failed("the plan was changed meanwhile".to_owned()))?;
        shelf.note(built.noted, &a.who).map_err(failed)?;
        eprintln!("the plan says now: {path} = {is}");
    }
    Ok(())
}
