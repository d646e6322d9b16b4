//! The vehicle seen from above, its places to be dragged where they are. What is typed in a place's form does the same.

use crate::kept::Seen;
use job::plan::form::said;
use job::plan::{Written, entry};
use maud::{Markup, PreEscaped, html};

/// The drawing with a handle on each place.
pub(crate) fn vehicle(seen: &Seen) -> Option<Markup> {
    let spots = seen.job.route_spots()?;
    let sheet = seen.job.route().into_iter().next()?;
    let [left, top, long, wide] = spots.vehicle;
    let written = Written::read(seen.job.sources().first().map_or("", |s| s.text.as_str()));
    let mark = |(name, [x, y]): &(String, [f64; 2])| {
        let percent = |v: f64| format!("{:.0}", v * 100.0);
        let (along, across) = (percent((x - left) / long), percent((y - top) / wide));
        let path = format!("{}.at", entry("place", name));
        let was = |key: &str| said(&written, &format!("{path}.{key}"));
        let says = format!(
            "{name}: {along} % from the front, {across} % from the left; drag it, or move it with the arrow keys"
        );
        html! {
            g.handle tabindex="0" role="button" aria-label=(says) data-path=(path) data-along=(along) data-across=(across) data-was-along=(was("along")) data-was-across=(was("across")) transform=(format!("translate({x:.2} {y:.2})")) {
                circle r="3.2" {}
                title { (says) }
            }
        }
    };
    let handles = html! { g.handles data-seen=(seen.revision) data-left=(left) data-top=(top) data-long=(long) data-wide=(wide) { @for spot in &spots.places { (mark(spot)) } } };
    // What can be dragged in it is to be reached.
    let svg = sheet
        .svg
        .replacen("role=\"img\"", "role=\"group\"", 1)
        .replace("</svg>", &format!("{}</svg>", handles.into_string()));
    Some(html! {
        section id="vehicle" aria-label="The vehicle" {
            p { "Drag a place to where it is. The figures beside it do the same; no length follows from it." }
            figure { div.drawing tabindex="0" role="group" aria-label=(sheet.title) { (PreEscaped(svg)) } }
        }
    })
}
