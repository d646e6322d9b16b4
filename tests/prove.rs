//! Searching for what is amiss in plans drawn by lot: vehicles with something that somebody notices are measured as advised,
//! and what comes out first is what was put in, or what no reading tells from it.

use crate::walk::Walk;
use job::study::prove::{Bench, Evidence, Practice, STANDS_OUT, alike, classes, next, weigh};

/// Nobody measures longer.
const MOST: usize = 25;

/// Whether it is found, and after how many probings.
fn found(bench: &Bench, number: u64) -> (bool, usize) {
    let vehicle = Practice::new(bench, number);
    let mut evidence = Evidence {
        symptoms: vehicle.symptoms(),
        ..Evidence::default()
    };
    let mut weighed = weigh(bench, &evidence);
    while evidence.readings.len() < MOST {
        if classes(bench, &weighed)[0].probability > STANDS_OUT {
            break;
        }
        let Some(advice) = next(bench, &evidence, &weighed) else {
            break;
        };
        let read = vehicle.measure(advice.test).expect("it solves");
        evidence.readings.push(read);
        weighed = weigh(bench, &evidence);
    }
    let first = &classes(bench, &weighed)[0];
    let is = |m: &usize| {
        let w = &weighed.weights[*m];
        w.causes == vehicle.amiss().causes() || alike(bench, w.suspect, vehicle.amiss())
    };
    (first.members.iter().any(is), evidence.readings.len())
}

#[test]
fn what_is_amiss_in_plans_drawn_by_lot_is_found() {
    let (mut right, mut all, mut probings) = (0, 0, 0);
    for circuits in [2, 4, 6] {
        let walk = Walk::of(&bench::plan_text(circuits));
        let bench = walk.job().bench().expect("a bench");
        for number in 0..20 {
            let (is, count) = found(&bench, number + 1000 * circuits as u64);
            right += usize::from(is);
            all += 1;
            probings += count;
        }
    }
    assert!(right * 100 >= all * 95, "{right} of {all}");
    assert!(probings <= all * 7, "{probings} for {all}");
}
