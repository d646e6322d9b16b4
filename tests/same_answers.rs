//! A study gives the same answers to the last digit, on one thread or on several, once or again.

use crate::walk::Walk;
use job::quantity::celsius;

/// Everything that a plan's answers say.
fn told(plan: &str, threads: usize) -> String {
    let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build();
    let pool = pool.unwrap_or_else(|e| panic!("no {threads} threads: {e}"));
    pool.install(|| {
        let walk = Walk::of(plan);
        let supply = walk.job().supply(celsius(25.0));
        format!("{:?} {supply:?}", walk.answers())
    })
}

#[test]
fn on_one_thread_and_on_four() {
    for plan in [
        include_str!("../examples/lorry.toml"),
        include_str!("../examples/camper.toml"),
        include_str!("published/plans/every_form.toml"),
    ] {
        let one = told(plan, 1);
        assert!(one.len() > 10_000, "it tells next to nothing");
        for threads in [4, 2] {
            // Not `assert_eq`: megabytes of figures help nobody.
            assert!(
                told(plan, threads) == one,
                "{threads} threads say otherwise"
            );
        }
    }
}
