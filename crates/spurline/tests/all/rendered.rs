//! Six kinds of drawing look the same in two renderers that others wrote: Chromium and `resvg`. Both are asked for the same
//! size with the same font; edges are smoothed differently, so squares of a few pixels are compared by their mean.

use crate::run::{examples, spurline};
use resvg::{tiny_skia, usvg};
use std::path::Path;
use std::process::Command;

/// Pixels of a screen in a millimetre (CSS: 96 to an inch).
const PER_MM: f32 = 96.0 / 25.4;
/// Side of a square that is compared, pixels.
const SIDE: u32 = 6;
/// Squares differ from here on, of 255.
const APART: f32 = 40.0;

fn by_resvg(svg: &str) -> tiny_skia::Pixmap {
    let mut options = usvg::Options::default();
    options
        .fontdb_mut()
        .load_font_data(dejavu::sans::regular().to_vec());
    let tree = usvg::Tree::from_str(svg, &options).expect("SVG");
    let size = tree.size();
    let mut page = tiny_skia::Pixmap::new(size.width().ceil() as u32, size.height().ceil() as u32)
        .expect("a page");
    page.fill(tiny_skia::Color::WHITE);
    resvg::render(&tree, tiny_skia::Transform::identity(), &mut page.as_mut());
    page
}

fn by_chromium(svg: &Path, (wide, tall): (u32, u32)) -> tiny_skia::Pixmap {
    let folder = tempfile::tempdir().expect("a folder");
    let picture = folder.path().join("shot.png");
    let done = Command::new("chromium")
        .args([
            "--headless",
            "--no-sandbox",
            "--disable-gpu",
            "--hide-scrollbars",
        ])
        .arg("--disable-background-networking")
        .arg("--blink-settings=preferredColorScheme=1")
        .arg(format!(
            "--user-data-dir={}",
            folder.path().join("profile").display()
        ))
        .arg(format!("--window-size={wide},{tall}"))
        .arg(format!("--screenshot={}", picture.display()))
        .arg(format!("file://{}", svg.display()))
        .output();
    let done = done.unwrap_or_else(|e| panic!("chromium: {e}; `cargo xtask ci` installs it"));
    assert!(done.status.success(), "{done:?}");
    tiny_skia::Pixmap::load_png(&picture).expect("a picture")
}

/// Mean grey of each square.
fn squares(page: &tiny_skia::Pixmap, (wide, tall): (u32, u32)) -> Vec<f32> {
    let grey = |x: u32, y: u32| {
        page.pixel(x, y).map_or(255.0, |p| {
            (f32::from(p.red()) + f32::from(p.green()) + f32::from(p.blue())) / 3.0
        })
    };
    let mean = |column: u32, row: u32| {
        let each = (0..SIDE * SIDE).map(|i| grey(column * SIDE + i % SIDE, row * SIDE + i / SIDE));
        each.sum::<f32>() / (SIDE * SIDE) as f32
    };
    let (columns, rows) = (wide / SIDE, tall / SIDE);
    (0..columns * rows)
        .map(|i| mean(i % columns, i / columns))
        .collect()
}

#[test]
fn drawings_look_the_same_in_chromium_and_resvg() {
    let folder = tempfile::tempdir().expect("a folder");
    let plan = examples().join("camper.toml");
    let plan = plan.to_str().expect("a path");
    spurline(folder.path(), &["draw", plan, "--into", "."]);
    spurline(folder.path(), &["supply", plan, "--into", "."]);
    for name in [
        "circuit-1",
        "circuit-2",
        "board-1",
        "route-1",
        "drop-x3.2",
        "day",
    ] {
        let path = folder.path().join(format!("{name}.svg"));
        let svg = std::fs::read_to_string(&path).expect("a drawing");
        let ours = by_resvg(&svg);
        let size = (ours.width(), ours.height());
        assert!((size.0 as f32) > 100.0 * PER_MM, "{name}: {size:?}");
        let theirs = by_chromium(&path, size);
        let (a, b) = (squares(&ours, size), squares(&theirs, size));
        let inked = a.iter().filter(|grey| **grey < 250.0).count();
        assert!(inked > 500, "{name}: {inked} squares have ink");
        let apart = a.iter().zip(&b).filter(|(a, b)| (*a - *b).abs() > APART);
        let apart = apart.count();
        assert!(
            apart * 100 <= inked,
            "{name}: {apart} of {inked} squares with ink differ"
        );
    }
}
