//! Boards of the examples and of generated plans: no words lie on others or leave the sheet, no stretch is missing, and as
//! large as the loom is means as large as it is.

use super::*;
use crate::circuit::tests::{MADE, Walked};
use crate::drawing::overlaps;
use rayon::prelude::*;

const EXAMPLES: [&str; 3] = [
    include_str!("../../../../examples/farm.toml"),
    include_str!("../../../../examples/camper.toml"),
    include_str!("../../../../examples/lorry.toml"),
];

/// What is wrong with a board.
fn faults(walked: &Walked) -> Vec<String> {
    let lists = walked.lists();
    let s = Subject {
        loom: &walked.loom,
        stock: &walked.stock,
        lists: &lists,
    };
    let mut found = Vec::new();
    let (pages, size) = pages(s, &walked.title);
    let inner = border(size.0, size.1);
    for (i, page) in pages.iter().enumerate() {
        let on = overlaps(page, inner).into_iter();
        found.extend(on.map(|o| format!("sheet {}: {o}", i + 1)));
    }
    let (whole, size) = full::full(s);
    let edge = Frame::around(at(0.0, 0.0), at(size.0, size.1));
    found.extend(
        overlaps(&whole, edge)
            .into_iter()
            .map(|o| format!("1:1: {o}")),
    );
    for run in full::runs(s) {
        let drawn: f64 = run
            .points
            .windows(2)
            .map(|p| (p[1].x - p[0].x).hypot(p[1].y - p[0].y))
            .sum();
        let long = walked.loom.stretch(run.stretch).length.si() * 1e3;
        if (drawn - long).abs() > 1e-6 && !run.stretched {
            found.push(format!("{long} mm are drawn as {drawn}"));
        }
    }
    let used = walked
        .loom
        .stretches
        .iter()
        .filter(|s| !s.wires.is_empty())
        .count();
    let drawn = full::runs(s).len();
    if used != drawn {
        found.push(format!("{drawn} of {used} stretches"));
    }
    found
}

#[test]
fn boards_of_the_examples_can_be_read() {
    for text in EXAMPLES {
        assert_eq!(faults(&Walked::of(text)), Vec::<String>::new());
    }
}

#[test]
fn boards_of_generated_plans_can_be_read() {
    let each = MADE.par_iter().enumerate();
    let told: Vec<String> = each
        .flat_map_iter(|(seed, walked)| {
            faults(walked)
                .into_iter()
                .map(move |f| format!("plan {seed}: {f}"))
        })
        .collect();
    assert!(
        told.is_empty(),
        "{} faults:\n{}",
        told.len(),
        told.join("\n")
    );
}

#[test]
fn tiles_join() {
    let farm = Walked::of(EXAMPLES[0]);
    let lists = farm.lists();
    let tiles = board_full_size(&farm.loom, &farm.stock, &lists, &farm.title, (297.0, 210.0));
    assert!(tiles.len() > 10, "{} tiles", tiles.len());
    for tile in &tiles {
        assert_eq!((tile.width_mm, tile.height_mm), (297.0, 210.0));
        roxmltree::Document::parse(&tile.svg).expect("well-formed");
        assert!(tile.svg.contains("Joins:"), "{}", tile.name);
    }
}

#[test]
fn a_loom_larger_than_the_largest_sheet_gets_one_as_large_as_it_is() {
    let mut text = include_str!("../../../../examples/farm.toml").to_owned();
    // Twenty places in a row behind the rack.
    let mut last = "rack".to_owned();
    for n in 0..20 {
        let next = format!("place with a long name behind the rack, number {n}");
        text += &format!(
            "[place.\"{next}\"]\nzone = \"outside\"\n[[stretch]]\nbetween = [\"{last}\", \"{next}\"]\nlength = \"1 m\"\n"
        );
        text += &format!(
            "[[circuit]]\nname = \"lamp {n}\"\nload = {{ lamp = \"LED\", rated = \"5 W\", place = \"{next}\" }}\nfeed = \"battery\"\nlive = \"always\"\nearth = \"tray earth\"\n"
        );
        last = next;
    }
    let walked = Walked::quick(&text);
    let lists = walked.lists();
    let sheets = board(&walked.loom, &walked.stock, &lists, &walked.title);
    assert!(sheets[0].width_mm > 1189.0, "{}", sheets[0].width_mm);
}
