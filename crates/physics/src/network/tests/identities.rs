//! Identities of every solved state, over networks drawn with a fixed seed that hold every law:
//! currents at each node, voltages around each loop, power over the whole, each law by itself.

use super::*;
use std::collections::VecDeque;

/// Currents, loops and power may be out by so much, over what meets there: a thousandth of a
/// thousandth of what any meter shows.
const PART: f64 = 1e-9;
/// What rounding leaves, over the largest voltage or the sum of currents: some tens of operations,
/// each good to 1.1e-16.
const ROUNDING: f64 = 1e-14;

fn log(least: f64, most: f64) -> impl Strategy<Value = f64> {
    (least.ln()..most.ln()).prop_map(f64::exp)
}

/// What a node hangs from the one before it by: wires, joints without resistance, a cell.
fn link() -> impl Strategy<Value = Law> {
    prop_oneof![
        8 => log(1e-4, 10.0).prop_map(|ohms| Law::Resistor { ohms }),
        2 => Just(Law::Resistor { ohms: 0.0 }),
        1 => (-2.0..2.0).prop_map(|volts| Law::Source { volts, ohms: 0.0 }),
        1 => (0.5..2.0).prop_map(|volts| Law::Source { volts, ohms: 0.01 }),
    ]
}

/// Each law that may stand across any two nodes.
fn each_law() -> [BoxedStrategy<Law>; 8] {
    [
        log(1e-2, 1e4)
            .prop_map(|ohms| Law::Resistor { ohms })
            .boxed(),
        (11.5..14.0, log(2e-3, 0.1))
            .prop_map(|(volts, ohms)| Law::Source { volts, ohms })
            .boxed(),
        (13.8..14.8, 0.0..90.0)
            .prop_map(|(volts, limit_amps)| Law::Regulated {
                volts,
                ohms: 5e-3,
                limit_amps,
            })
            .boxed(),
        (-3.0..3.0).prop_map(|amps| Law::Current { amps }).boxed(),
        log(0.1, 10.0)
            .prop_map(|rated_amps| Law::Tungsten {
                rated_volts: 12.0,
                rated_amps,
            })
            .boxed(),
        (log(0.5, 120.0), 5.0..10.5)
            .prop_map(|(watts, lowest_volts)| Law::ConstantPower {
                watts,
                lowest_volts,
                highest_volts: 32.0,
            })
            .boxed(),
        (log(0.5, 20.0), 0.05..0.6)
            .prop_map(|(rated_amps, armature_ohms)| Law::Motor {
                rated_volts: 12.0,
                rated_amps,
                armature_ohms,
            })
            .boxed(),
        Just(Law::Open).boxed(),
    ]
}

/// An element across two nodes, which are given as parts of all there are; half go to ground.
fn across(law: BoxedStrategy<Law>) -> impl Strategy<Value = (f64, Option<f64>, Law)> {
    (0.0..1.0, prop::option::of(0.0..1.0), law)
}

/// A battery, a tree of links, every law at least once across it, and more of any.
fn networks() -> impl Strategy<Value = Network> {
    let tree = prop::collection::vec((0.0..1.0, link()), 3..50);
    let once: Vec<_> = each_law().into_iter().map(across).collect();
    let any = across(prop::strategy::Union::new(each_law()).boxed());
    (tree, once, prop::collection::vec(any, 0..30)).prop_map(|(tree, once, more)| {
        let mut net = Network::new();
        let first = net.node();
        let battery = Law::Source {
            volts: 12.6,
            ohms: 0.006,
        };
        net.element(first, G, battery);
        let of = |net: &Network, part: f64| Node((part * net.nodes() as f64) as u32);
        for (parent, law) in tree {
            let parent = of(&net, parent);
            let node = net.node();
            net.element(node, parent, law);
        }
        for (a, b, law) in once.into_iter().chain(more) {
            let (a, b) = (of(&net, a), b.map_or(G, |b| of(&net, b)));
            net.element(a, b, law);
        }
        net
    })
}

/// The voltage that an element's own current makes, where its law gives one; else that between its
/// nodes.
fn own_volts(element: &Element, amps: f64, between: f64) -> f64 {
    match element.law {
        Law::Resistor { ohms } => amps * ohms,
        Law::Source { volts, ohms } => volts + amps * ohms,
        _ => between,
    }
}

fn between(element: &Element, solution: &Solution) -> f64 {
    solution.volts[element.a.index()] - solution.volts[element.b.index()]
}

/// From each node the elements that lead to ground, by way of a tree; and those that close loops.
fn tree_and_chords(net: &Network) -> (Vec<Vec<usize>>, Vec<usize>) {
    let leads = |e: &Element| e.law.tie() != law::Tie::Blind;
    let mut unused: Vec<bool> = net.elements().iter().map(leads).collect();
    let mut paths: Vec<Option<Vec<usize>>> = vec![None; net.nodes()];
    paths[0] = Some(Vec::new());
    let mut queue = VecDeque::from([G]);
    while let Some(near) = queue.pop_front() {
        let path = paths[near.index()].clone().unwrap_or_default();
        for (index, e) in net.elements().iter().enumerate() {
            let far = if e.a == near { e.b } else { e.a };
            let touches = e.a == near || e.b == near;
            if unused[index] && touches && paths[far.index()].is_none() {
                unused[index] = false;
                paths[far.index()] = Some([&[index], &path[..]].concat());
                queue.push_back(far);
            }
        }
    }
    let paths = paths
        .into_iter()
        .map(|path| path.expect("every node leads to ground"));
    let chords = (0..unused.len()).filter(|&index| unused[index]);
    (paths.collect(), chords.collect())
}

/// Goes from a node along elements; gives the voltage met and the sum of its sizes.
fn along(net: &Network, own: &[f64], from: Node, path: &[usize]) -> (f64, f64) {
    let (mut node, mut sum, mut sizes) = (from, 0.0, 0.0);
    for &index in path {
        let e = net.elements()[index];
        let (sign, next) = if e.a == node { (1.0, e.b) } else { (-1.0, e.a) };
        sum += sign * own[index];
        sizes += own[index].abs();
        node = next;
    }
    (sum, sizes)
}

/// Kirchhoff's law of voltages around every independent loop, with what each element's own current
/// makes by its law, so that voltages and currents are held against each other. Gives how many loops.
fn loops_close(net: &Network, solution: &Solution) -> usize {
    let elements = net.elements().iter().zip(&solution.amps);
    let own: Vec<f64> = elements
        .map(|(e, &amps)| own_volts(e, amps, between(e, solution)))
        .collect();
    let sizes = solution.volts.iter().map(|volts| volts.abs());
    let highest = sizes.fold(0.0_f64, f64::max);
    let (paths, chords) = tree_and_chords(net);
    for &chord in &chords {
        let e = &net.elements()[chord];
        let (mut from_a, mut from_b) = (&paths[e.a.index()][..], &paths[e.b.index()][..]);
        // What both ways to ground share is no part of the loop.
        while let (Some((x, a)), Some((y, b))) = (from_a.split_last(), from_b.split_last()) {
            if x != y {
                break;
            }
            (from_a, from_b) = (a, b);
        }
        let (a, b) = (along(net, &own, e.a, from_a), along(net, &own, e.b, from_b));
        let (sum, sizes) = (own[chord] - a.0 + b.0, own[chord].abs() + a.1 + b.1);
        let allowed = PART * sizes + ROUNDING * highest;
        assert!(
            sum.abs() <= allowed,
            "loop of element {chord}: {sum} V of {sizes} V"
        );
    }
    chords.len()
}

/// Each element's current is what its law gives at the voltage between its nodes; one without
/// resistance holds its voltage.
fn laws_hold(net: &Network, solution: &Solution) {
    for (e, &amps) in net.elements().iter().zip(&solution.amps) {
        let (va, vb) = (solution.volts[e.a.index()], solution.volts[e.b.index()]);
        let rounding = ROUNDING * (va.abs() + vb.abs());
        if e.law.tie() == law::Tie::Joins {
            let off = (va - vb - own_volts(e, 0.0, 0.0)).abs();
            assert!(off <= rounding, "{e:?} is out by {off} V");
            continue;
        }
        let flow = e.law.flow(va - vb);
        // A voltage is known to its last figure, and over a small resistance that is a current.
        let blur = flow.siemens.abs() * rounding;
        let off = (flow.amps - amps).abs();
        assert!(
            off <= PART * amps.abs() + blur + 1e-12,
            "{e:?}: {amps} A is out by {off} A"
        );
    }
}

/// What supplies give is what all others turn to heat, light and motion, and those only take.
fn power_balances(net: &Network, solution: &Solution) {
    let (mut given, mut taken, mut turned) = (0.0, 0.0, 0.0);
    for (e, &amps) in net.elements().iter().zip(&solution.amps) {
        let watts = between(e, solution) * amps;
        turned += watts.abs();
        match e.law {
            Law::Source { .. } | Law::Regulated { .. } | Law::Current { .. } => given -= watts,
            _ => {
                // Of a wire that drops next to nothing the voltage between its ends is rounding.
                let rounding = ROUNDING * 100.0 * amps.abs();
                assert!(watts >= -rounding, "{e:?} gives {watts} W");
                taken += watts;
            }
        }
    }
    let off: f64 = given - taken;
    assert!(
        off.abs() <= PART * turned,
        "{given} W given, {taken} W taken, of {turned} W"
    );
}

proptest! {
    #![proptest_config(fixed())]
    #[test]
    fn every_identity_holds_in_every_solved_state_of_every_law(net in networks()) {
        let solution = solved(&net);
        let loops = loops_close(&net, &solution);
        // Each element that is a path stands in the tree or closes a loop.
        let paths = net.elements().iter().filter(|e| e.law.tie() != law::Tie::Blind).count();
        prop_assert_eq!(loops, paths + 1 - net.nodes());
        laws_hold(&net, &solution);
        power_balances(&net, &solution);
    }
}
