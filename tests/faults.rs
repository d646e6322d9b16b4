//! What trying every fault says of the examples: who burns, what comes on, what opens; and that the mends which were
//! tried, applied to the plan as a person would apply them, do what they promise.

use crate::walk::Walk;
use finding::Weight;
use job::{Job, Mended, Source, Tries};
use plan::Editor;
use study::{FAULTS, Outcome, Trial};

const FARM: &str = include_str!("../examples/farm.toml");
const CAMPER: &str = include_str!("../examples/camper.toml");
const LORRY: &str = include_str!("../examples/lorry.toml");

fn tried(walk: &Walk) -> Tries {
    let tries = walk.job().tries(&|_, _| {});
    tries.unwrap_or_else(|| panic!("no faults tried: {:#?}", walk.errors()))
}

fn mended(walk: &Walk, tries: &Tries) -> Vec<Mended> {
    walk.job().mended(tries, &|_, _| {})
}

/// The trial of a kind at a place.
fn trial<'a>(tries: &'a Tries, kind: &str, at: &str) -> &'a Trial {
    let case = tries
        .cases
        .iter()
        .position(|c| FAULTS[c.kind].id == kind && c.at == at);
    let case = case.unwrap_or_else(|| panic!("no {kind} at {at}"));
    tries.worst[case]
        .as_ref()
        .unwrap_or_else(|| panic!("{kind} at {at} came to no rest"))
}

#[test]
fn each_kind_of_fault_does_on_the_farm_what_an_electrician_expects() {
    let walk = Walk::of(FARM);
    let tries = tried(&walk);
    let fuse = |name: &str| walk.loom().part_named(name);
    let expected = [
        // The lamps' switch breaks the coil's earth: a chafe turns them on. The pump's breaks the supply: a fuse opens.
        ("wire-to-body", "W1.3, near end", Outcome::Unasked, None),
        ("wire-to-body", "W2.3, far end", Outcome::Opens, Some("F2")),
        ("wire-to-body", "W2.7, far end", Outcome::Opens, Some("F2")),
        ("wire-to-body", "W1.7, middle", Outcome::Opens, Some("F1")),
        // Through 50 mΩ a strip fuse sees twice its rating, and takes seconds.
        (
            "wire-to-body",
            "W0.2, far end",
            Outcome::OpensLate,
            Some("F0.1"),
        ),
        ("wire-to-body", "W0.1, middle", Outcome::Overheats, None),
        ("wire-to-wire", "W2.2 + W2.7", Outcome::Unasked, None),
        ("load-shorted", "M2", Outcome::Opens, Some("F2")),
        ("load-overloads", "E1.1", Outcome::Opens, Some("F1")),
        ("fuse-too-large", "F1", Outcome::Opens, Some("F1")),
        ("relay-welded", "K2", Outcome::Unasked, None),
        ("relay-stuck", "K1", Outcome::Dead, None),
        ("switch-stuck", "S2, on", Outcome::Unasked, None),
        ("switch-stuck", "S2, off", Outcome::Dead, None),
        ("earth-lost", "XE3", Outcome::Dead, None),
        ("connector-off", "X2.1", Outcome::Dead, None),
        ("wire-open", "W0.2", Outcome::Dead, None),
        ("joint-poor", "W2.7, joints × 10", Outcome::Nothing, None),
        ("battery-reversed", "supply", Outcome::HarmsLoad, None),
        ("jump-start", "supply", Outcome::HarmsLoad, None),
        ("load-dump", "supply", Outcome::HarmsLoad, None),
        ("charged-too-high", "supply", Outcome::Nothing, None),
    ];
    for (kind, at, outcome, opens) in expected {
        let t = trial(&tries, kind, at);
        assert_eq!(t.outcome, outcome, "{kind} at {at}: {}", t.says);
        assert_eq!(t.opens, opens.and_then(fuse), "{kind} at {at}: {}", t.says);
        assert_eq!(t.trouble, None, "{kind} at {at}");
    }
    // Every kind that a 12 V vehicle can have is tried, and more states were looked away from than at.
    for (index, kind) in FAULTS.iter().enumerate() {
        assert!(
            tries.cases.iter().any(|c| c.kind == index),
            "no {}",
            kind.id
        );
    }
    assert!(tries.tried >= 500 && tries.collapsed > tries.tried);
}

#[test]
fn a_vehicle_of_24_volts_is_not_jump_started_with_more() {
    let walk = Walk::of(LORRY);
    let tries = tried(&walk);
    assert!(
        !tries
            .cases
            .iter()
            .any(|c| FAULTS[c.kind].id == "jump-start")
    );
}

fn stops(mended: &[Mended]) -> Vec<&Mended> {
    mended
        .iter()
        .filter(|m| m.finding.weight == Weight::Stop)
        .collect()
}

/// The plan with every mend that cures applied to it.
fn with_mends<M: std::borrow::Borrow<Mended>>(plan: &str, mended: &[M]) -> String {
    let mut editor = Editor::new(plan).unwrap_or_else(|e| panic!("{e}"));
    let cures = mended
        .iter()
        .map(std::borrow::Borrow::borrow)
        .filter_map(|m| m.mends.last().filter(|t| t.cures));
    for change in cures.flat_map(|m| &m.changes) {
        let done = match &change.value {
            Some(value) => editor.set(&change.path, value),
            // Two findings may ask for the same to be taken out.
            None => editor.remove(&change.path).or(Ok(())),
        };
        done.unwrap_or_else(|e| panic!("{}: {e}", change.path));
    }
    editor.to_string()
}

#[test]
fn the_lorry_burns_where_it_should_and_its_mends_cure_it() {
    let walk = Walk::of(LORRY);
    let tries = tried(&walk);
    let mended = mended(&walk, &tries);
    let burning: Vec<&str> = stops(&mended)
        .iter()
        .map(|m| m.finding.names()[0].as_str())
        .collect();
    // Live wire without a fuse, a fuse too far from its stud, 0.75 mm² on a 30 A fuse behind the reversing lamp; and, which
    // nobody planted, the starter's own wire in the sleeve of a live one.
    assert_eq!(burning, ["W0.1", "W0.2", "E3", "W1.2"], "{mended:#?}");
    for m in stops(&mended) {
        let last = m.mends.last();
        assert!(
            last.is_some_and(|t| t.cures),
            "{}: {}",
            m.finding.says,
            m.finding.mend
        );
    }
    let again = Walk::of(&with_mends(LORRY, &mended));
    let tries = tried(&again);
    let left = self::mended(&again, &tries);
    let left: Vec<&str> = stops(&left)
        .iter()
        .map(|m| m.finding.says.as_str())
        .collect();
    assert_eq!(left, [""; 0]);
}

#[test]
fn the_farm_asks_for_a_second_thing_to_turn_before_its_pump_runs() {
    let walk = Walk::of(FARM);
    let tries = tried(&walk);
    let found = mended(&walk, &tries);
    let mends: Vec<&str> = stops(&found)
        .iter()
        .map(|m| m.finding.mend.as_str())
        .collect();
    assert_eq!(mends.len(), 3, "{mends:#?}");
    assert!(
        mends[0].contains("a sleeve of its own for W2.2"),
        "{mends:#?}"
    );
    for mend in &mends[1..] {
        assert!(mend.contains("isolator") && mend.contains("wires get other numbers"));
    }
    for m in stops(&found) {
        assert_eq!(m.finding.id, "hazard-unasked", "{}", m.finding.says);
        assert!(
            m.mends.last().is_some_and(|t| t.cures),
            "{}",
            m.finding.mend
        );
    }
    // The lead to the main fuse is told all the same: nothing but its place protects it.
    assert!(found.iter().any(|m| m.finding.id == "burns-by-place"));
    // Mended as a person would: one, then tried again, until nothing is left.
    let mut plan = FARM.to_owned();
    let mut rounds = 0;
    loop {
        let walk = Walk::of(&plan);
        let found = mended(&walk, &tried(&walk));
        let left = stops(&found);
        // The isolator first: it numbers the wires anew.
        let Some(next) = left.last() else { break };
        rounds += 1;
        assert!(rounds <= 3, "{:#?}", next.finding);
        plan = with_mends(&plan, std::slice::from_ref(next));
    }
}

#[test]
fn the_camper_has_nothing_that_burns_because_its_feeder_is_sheathed() {
    let walk = Walk::of(CAMPER);
    let tries = tried(&walk);
    assert_eq!(stops(&mended(&walk, &tries)).len(), 0);
    let bare = CAMPER.replace(
        "[wire.\"W0.2\"]\nsheathed = true",
        "[wire.\"W0.2\"]\nsheathed = false",
    );
    assert_ne!(bare, CAMPER);
    let walk = Walk::of(&bare);
    let tries = tried(&walk);
    let found = mended(&walk, &tries);
    assert_eq!(stops(&found).len(), 1);
    assert!(
        stops(&found)[0]
            .finding
            .mend
            .contains("sleeve of its own for W0.2")
    );
}

/// Published trap: 15 A on 0.5 mm² passes the I²t test at 350 % and 600 % of the rating, and fails it at 200 %.
#[test]
fn half_a_millimetre_on_fifteen_amps_is_refused_though_it_stands_a_dead_short() {
    let plan = FARM.replace(
        "name   = \"rack lamps\"",
        "name   = \"rack lamps\"\nfuse   = \"15 A\"",
    ) + "\n[wire.\"W1.1\"]\nsize = \"0.5 mm²\"\n";
    let walk = Walk::of(&plan);
    let finding = walk
        .answers()
        .findings
        .iter()
        .find(|f| f.id == "fuse-above-wire" && f.names()[0] == "W1.1");
    let finding = finding.unwrap_or_else(|| panic!("{:#?}", walk.answers().findings));
    assert!(
        finding
            .says
            .contains("at 30 A its 15 A fuse may take 5 s and let 4500 A²s through"),
        "{}",
        finding.says
    );
    let protection = walk
        .job()
        .protection()
        .unwrap_or_else(|| panic!("no protection"));
    let wire = walk.loom().wire_named("W1.1");
    let pair = protection.pairs.iter().find(|p| Some(p.wire) == wire);
    let pair = pair.unwrap_or_else(|| panic!("no pair of W1.1"));
    let (margin, at) = pair
        .margin
        .unwrap_or_else(|| panic!("W1.1 is never harmed"));
    assert!(margin < 1.0 && at <= 30.0 * 1.001, "{margin} at {at} A");
    let tries = tried(&walk);
    // A dead short is over in time; a lamp that draws twice as much burns the wire.
    assert_eq!(
        trial(&tries, "wire-to-body", "W1.1, far end").outcome,
        Outcome::Opens
    );
    let overload = trial(&tries, "load-overloads", "E1.1");
    assert_eq!(overload.outcome, Outcome::Overheats, "{}", overload.says);
    assert_eq!(overload.harmed, wire);
}

/// The lorry's own mistake: with the bed's earth off, its work lamps find their way back through the reversing lamp's relay.
#[test]
fn an_earth_is_lost_in_the_state_in_which_that_wakes_another_circuit() {
    let walk = Walk::of(LORRY);
    let tries = tried(&walk);
    let t = trial(&tries, "earth-lost", "XE3");
    assert_eq!(t.outcome, Outcome::Unasked, "{}", t.says);
    assert_eq!(
        t.unasked,
        walk.loom().part_named("E3").into_iter().collect::<Vec<_>>()
    );
    // What a study of sneak paths finds lost and awake, trying finds too.
    for sneak in walk
        .answers()
        .sneaks
        .iter()
        .filter(|s| s.lost != study::Lost::Nothing)
    {
        let found = tries.worst.iter().flatten().any(|t| {
            let case = &tries.cases[t.case];
            case.changes[t.change].lost == sneak.lost && t.unasked.contains(&sneak.on)
        });
        assert!(found, "{sneak:?}");
    }
}

/// Two live wires of one circuit are not alike to what touches them where a switch parts them.
#[test]
fn wires_on_both_sides_of_a_switch_are_tried_each() {
    let walk = Walk::of(FARM);
    let tries = tried(&walk);
    let pump = walk.loom().part_named("M2");
    let starts = |at: &str| {
        let t = trial(&tries, "wire-to-wire", at);
        t.unasked.iter().any(|p| Some(*p) == pump)
    };
    // W2.2 runs to the pump's switch, W2.5 from it to the coil.
    assert!(!starts("W1.7 + W2.2"));
    assert!(starts("W2.2 + W2.5"));
    assert!(tries.cases.iter().any(|c| c.at == "W1.7 + W2.5"));
}

/// A load that overloads beside others draws what is left of the gate: the fuse feels no more than it.
#[test]
fn an_overload_counts_what_else_flows_through_its_fuse() {
    let walk = Walk::of(FARM);
    let tries = tried(&walk);
    let t = trial(&tries, "load-overloads", "E1.1");
    let case = &tries.cases[t.case];
    let (_, total) = case.changes[t.change]
        .draws
        .unwrap_or_else(|| panic!("no load"));
    let detail = walk.job().try_closely(&tries, t);
    let detail = detail.unwrap_or_else(|| panic!("no detail"));
    let first = &detail.moments[0];
    let felt = first.fuses.iter().find(|f| Some(f.0) == t.opens);
    let felt = felt
        .unwrap_or_else(|| panic!("{:?} does not run", t.opens))
        .1;
    // Less where the load gets less than its rated voltage; far less than both lamps would add up to.
    assert!(
        (0.9..=1.05).contains(&(felt / total)),
        "{felt} A of {total} A"
    );
}

/// A poor plug makes heat that nobody notices.
#[test]
fn a_poor_contact_is_told_with_its_heat() {
    let tries = tried(&Walk::of(LORRY));
    let t = trial(&tries, "joint-poor", "X0.5:1, contact × 100");
    let joint = tries.cases[t.case].changes[t.change].joint;
    let (_, ohms) = joint.unwrap_or_else(|| panic!("no joint"));
    // Some 10 A on 24 V through 99 times 3 mΩ: I²R.
    let amps = (t.joint_w / ohms).sqrt();
    assert!((5.0..20.0).contains(&amps), "{amps} A");
    assert!(t.says.contains("W of heat in the joint"), "{}", t.says);
}

/// One thread or several, the same to the last word.
#[test]
fn the_same_faults_end_the_same_on_one_thread_and_on_several() {
    let says = |threads: usize| -> Vec<String> {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build();
        let pool = pool.unwrap_or_else(|e| panic!("{e}"));
        pool.install(|| {
            let job = Job::read(
                Source {
                    name: "plan".into(),
                    text: CAMPER.into(),
                },
                Vec::new(),
            );
            let tries = job.tries(&|_, _| {});
            let tries = tries.unwrap_or_else(|| panic!("no faults"));
            tries
                .worst
                .iter()
                .flatten()
                .map(|t| t.says.clone())
                .collect()
        })
    };
    assert_eq!(says(1), says(3));
}
