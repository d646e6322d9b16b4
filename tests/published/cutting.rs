//! Cutting stock: every published instance reaches its published optimum, proved, with its kerf honoured, and never less.

use super::reference::{Look, reference};
use study::cut;
use toml::Value;

/// Lengths, one for each piece.
fn pieces(case: &Value) -> Vec<u64> {
    let each = case.rows("items").iter().flat_map(|item| {
        let pair: Vec<u64> = item
            .as_array()
            .into_iter()
            .flatten()
            .filter_map(|v| v.number().map(|n| n as u64))
            .collect();
        assert_eq!(pair.len(), 2, "{item} is no [length, quantity]");
        std::iter::repeat_n(pair[0], pair[1] as usize)
    });
    each.collect()
}

/// What the cut takes in a case, in its unit: only the note of one says it.
fn kerf(case: &Value) -> u64 {
    match case.word("id") {
        "sleeve_kerf2" => 2,
        _ => 0,
    }
}

#[test]
fn every_instance_reaches_its_published_optimum_and_proves_it() {
    let table = reference!("workmanship/cutting_stock_cases.toml");
    let cases = table.rows("case");
    assert_eq!(cases.len(), 12);
    let mut better = 0;
    for case in cases {
        let (id, stick, pieces) = (case.word("id"), case.num("stock") as u64, pieces(case));
        let found = cut(stick, kerf(case), &pieces).unwrap_or_else(|e| panic!("{id}: {e:?}"));
        assert_eq!(
            found.sticks.len(),
            case.num("optimum_bins") as usize,
            "{id}"
        );
        assert!(found.is_proved(), "{id}: {} at least", found.least);
        let mut cut: Vec<usize> = found.sticks.concat();
        cut.sort_unstable();
        assert!(
            cut.iter().copied().eq(0..pieces.len()),
            "{id}: pieces are lost"
        );
        for stick_of in &found.sticks {
            let lengths: u64 = stick_of.iter().map(|i| pieces[*i]).sum();
            assert!(
                lengths + kerf(case) * (stick_of.len() as u64 - 1) <= stick,
                "{id}"
            );
        }
        let greedy = case.get_at("ffd_bins").and_then(Value::number);
        better += usize::from(greedy.is_some_and(|g| found.sticks.len() < g as usize));
    }
    // The longest piece first, wherever it fits, needs more on some of them.
    assert!(better >= 4, "{better}");
}

/// With no kerf and with two millimetres the same mix takes five sticks.
#[test]
fn a_kerf_of_two_millimetres_changes_what_it_changes() {
    let table = reference!("workmanship/cutting_stock_cases.toml");
    let of = |id: &str| {
        let found = table.rows("case").iter().find(|c| c.word("id") == id);
        let case = found.unwrap_or_else(|| panic!("no {id}"));
        (case.num("stock") as u64, pieces(case))
    };
    let (stick, mix) = of("loss_mix");
    let sticks = |kerf| cut(stick, kerf, &mix).map(|c| c.sticks.len());
    assert_eq!((sticks(0), sticks(2)), (Ok(5), Ok(5)));
    let (stick, sleeves) = of("sleeve_kerf0");
    let sticks = |kerf| cut(stick, kerf, &sleeves).map(|c| c.sticks.len());
    assert_eq!((sticks(0), sticks(2)), (Ok(3), Ok(4)));
}
