//! Symbols against their descriptions in IEC 60617, as `reference/workmanship/symbols_iec60617.toml` has them in words: from
//! memory, and proportions rather than limits.

use super::{Across, Pen, Shape};
use crate::geometry::at;
use crate::svg::Svg;

/// What a symbol is drawn as, around nought.
struct Drawn {
    lines: Vec<(Vec<(f64, f64)>, f64)>,
    /// Half wide, half tall, whether filled, and the middle.
    rects: Vec<(f64, f64, bool, (f64, f64))>,
    circles: Vec<(f64, bool)>,
    polygons: Vec<Vec<(f64, f64)>>,
    arcs: usize,
    words: Vec<String>,
}

fn pairs(text: &str) -> Vec<(f64, f64)> {
    let number = |t: &str| t.parse().expect("a number");
    let pair = |t: &str| {
        let (x, y) = t.split_once(',').expect("two of them");
        (number(x), number(y))
    };
    text.split_whitespace().map(pair).collect()
}

fn drawn(shape: &Shape) -> Drawn {
    let mut svg = Svg::new("symbol", (40.0, 40.0), "", "");
    shape.draw(&mut Pen::new(&mut svg, at(0.0, 0.0)));
    let text = svg.finish();
    let document = roxmltree::Document::parse(&text).expect("XML");
    let mut out = Drawn {
        lines: Vec::new(),
        rects: Vec::new(),
        circles: Vec::new(),
        polygons: Vec::new(),
        arcs: 0,
        words: Vec::new(),
    };
    for node in document.descendants().filter(roxmltree::Node::is_element) {
        let number = |key: &str| -> f64 { node.attribute(key).map_or(0.0, |v| v.parse().unwrap()) };
        let filled = node.attribute("fill") == Some("black");
        match node.tag_name().name() {
            "polyline" => {
                let points = pairs(node.attribute("points").unwrap());
                out.lines.push((points, number("stroke-width")));
            }
            "rect" => {
                let half = (number("width") / 2.0, number("height") / 2.0);
                let middle = (number("x") + half.0, number("y") + half.1);
                out.rects.push((half.0, half.1, filled, middle));
            }
            "circle" => out.circles.push((number("r"), filled)),
            "polygon" => out.polygons.push(pairs(node.attribute("points").unwrap())),
            "path" => out.arcs += 1,
            "text" => out.words.push(node.text().unwrap_or_default().to_owned()),
            _ => {}
        }
    }
    out
}

impl Drawn {
    fn line(&self, from: (f64, f64), to: (f64, f64)) -> bool {
        self.lines
            .iter()
            .any(|(p, _)| p.first() == Some(&from) && p.last() == Some(&to))
    }

    /// Lines that are neither upright nor level.
    fn slanted(&self) -> Vec<&Vec<(f64, f64)>> {
        let each = self.lines.iter().map(|(p, _)| p);
        each.filter(|p| p.len() == 2 && p[0].0 != p[1].0 && p[0].1 != p[1].1)
            .collect()
    }
}

#[test]
fn a_fuse_is_three_by_one_with_the_conductor_through_it() {
    let fuse = drawn(&Shape::Fuse);
    let [(wide, tall, false, _)] = fuse.rects[..] else {
        panic!("one empty rectangle")
    };
    assert!((2.5..=3.5).contains(&(tall / wide)), "{tall} by {wide}");
    assert!(fuse.line((0.0, -6.0), (0.0, 6.0)), "straight through");
}

#[test]
fn a_coil_is_two_by_one_across_the_conductor_with_what_stands_beside_it() {
    for across in [Across::Nothing, Across::Resistor, Across::Diode] {
        let coil = drawn(&Shape::Coil(across));
        let (wide, tall, ..) = coil.rects[0];
        assert!((wide / tall - 2.0).abs() < 0.1, "{wide} by {tall}");
        let beside = (coil.rects.len() - 1, coil.polygons.len());
        let expect = match across {
            Across::Nothing => (0, 0),
            Across::Resistor => (1, 0),
            Across::Diode => (0, 1),
        };
        assert_eq!(beside, expect);
    }
    // Current runs down through the coil; the diode beside it points up, at its bar, and blocks.
    let coil = drawn(&Shape::Coil(Across::Diode));
    let highest = coil.polygons[0]
        .iter()
        .map(|p| p.1)
        .fold(f64::MAX, f64::min);
    let point: Vec<_> = coil.polygons[0].iter().filter(|p| p.1 == highest).collect();
    assert_eq!(point.len(), 1, "one corner is highest");
    let bar = |p: &[(f64, f64)]| p.len() == 2 && p[0].1 == highest && p[1].1 == highest;
    assert!(coil.lines.iter().any(|(p, _)| bar(p)));
}

#[test]
fn a_lamp_is_a_circle_with_two_diagonals() {
    let lamp = drawn(&Shape::Lamp);
    let [(radius, false)] = lamp.circles[..] else {
        panic!("one empty circle")
    };
    let diagonals = lamp.slanted();
    assert_eq!(diagonals.len(), 2);
    for d in diagonals {
        assert!(d.iter().all(|(x, y)| (x.hypot(*y) - radius).abs() < 0.01));
        assert_eq!((d[0].0 + d[1].0, d[0].1 + d[1].1), (0.0, 0.0));
    }
}

#[test]
fn a_motor_is_a_circle_with_its_letter_and_a_line_for_direct_current() {
    let motor = drawn(&Shape::Motor);
    assert_eq!(
        (motor.circles.len(), &motor.words[..]),
        (1, &["M".to_owned()][..])
    );
    let level = |p: &[(f64, f64)]| p[0].1 == p[1].1 && p[0].1 > 0.0;
    assert!(motor.lines.iter().any(|(p, _)| level(p)));
}

#[test]
fn a_heater_is_a_rectangle_divided_by_cross_lines() {
    let heater = drawn(&Shape::Heater);
    let (wide, tall, ..) = heater.rects[0];
    let across = |p: &[(f64, f64)]| p[0] == (-wide, p[0].1) && p[1] == (wide, p[0].1);
    let lines = heater.lines.iter().filter(|(p, _)| across(p)).count();
    assert!(lines >= 3 && tall > wide);
}

#[test]
fn a_light_emitting_diode_points_along_the_current_and_sends_two_arrows() {
    let led = drawn(&Shape::Led);
    let triangle = &led.polygons[0];
    let lowest = triangle.iter().map(|p| p.1).fold(f64::MIN, f64::max);
    assert_eq!(triangle.iter().filter(|p| p.1 == lowest).count(), 1);
    let bar = |p: &[(f64, f64)]| p.len() == 2 && p[0].1 == lowest && p[1].1 == lowest;
    assert!(led.lines.iter().any(|(p, _)| bar(p)), "a bar at its point");
    assert_eq!((led.polygons.len(), led.slanted().len()), (3, 2));
}

#[test]
fn contacts_are_open_or_rest_on_their_break_side() {
    // A make contact: its blade ends beside the other pin's line, not on it.
    for (shape, open) in [
        (Shape::MakeContact, true),
        (Shape::Switch, true),
        (Shape::ChangeOver, false),
    ] {
        let contact = drawn(&shape);
        let blade = contact.slanted()[0].clone();
        let reaches = |end: &(f64, f64)| {
            let others = contact.lines.iter().filter(|(p, _)| *p != blade);
            others.map(|(p, _)| p).any(|p| {
                p.windows(2).any(|w| {
                    let (low, high) = (w[0].0.min(w[1].0), w[0].0.max(w[1].0));
                    let (top, bottom) = (w[0].1.min(w[1].1), w[0].1.max(w[1].1));
                    (low..=high).contains(&end.0) && (top..=bottom).contains(&end.1)
                })
            })
        };
        let touching = blade.iter().filter(|end| reaches(end)).count();
        assert_eq!(touching, if open { 1 } else { 2 }, "{shape:?}");
    }
}

#[test]
fn earth_is_a_level_line_with_three_slanted_strokes_below() {
    let earth = drawn(&Shape::Earth);
    let strokes = earth.slanted();
    assert_eq!(strokes.len(), 3);
    assert!(strokes.iter().all(|s| s[1].1 > 0.0 && s[1].0 < s[0].0));
}

#[test]
fn a_battery_is_long_and_thin_for_plus_and_short_and_thick_for_minus() {
    let battery = drawn(&Shape::Battery);
    let plates: Vec<(f64, f64, f64)> = battery
        .lines
        .iter()
        .filter(|(p, _)| p[0].1 == p[1].1 && p[0].0 == -p[1].0)
        .map(|(p, width)| (p[0].1, p[1].0 - p[0].0, *width))
        .collect();
    assert_eq!(plates.len(), 4);
    for cell in plates.chunks(2) {
        let [plus, minus] = cell else { unreachable!() };
        assert!(plus.0 < minus.0 && plus.1 > minus.1 && plus.2 < minus.2);
    }
}

#[test]
fn a_plug_is_a_bow_around_a_filled_bar_and_a_splice_a_filled_dot() {
    for socket_above in [true, false] {
        let pair = drawn(&Shape::Connector { socket_above });
        assert_eq!(pair.arcs, 1);
        let (.., filled, middle) = pair.rects[0];
        assert!(
            filled && (middle.1 > 0.0) == socket_above,
            "the bar is the pin"
        );
    }
    let dot = drawn(&Shape::Dot);
    assert!(matches!(dot.circles[..], [(_, true)]));
}
