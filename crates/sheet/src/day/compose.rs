//! The sheet put together from the top down: names of the parts, charge, voltage, timetable, hours, list, and
//! at the bottom the key beside the title block. What has no fixed height is measured first; the plots share the rest.

use super::list::List;
use super::names::{Strip, Told};
use super::rows::Rows;
use super::scale::{hour_step, hour_tick};
use super::{PART, SHOWS, key, plots, told};
use crate::Title;
use crate::chart::{AIR, Chart, EDGE, Foot, GRID, Scale, THIN};
use crate::geometry::{Frame, at, border};
use crate::label::Align;
use study::Day;

/// Sheet sizes, mm: A4, or a larger one for a list that has no room on it.
const SIZES: [(f64, f64); 4] = [
    (297.0, 210.0),
    (420.0, 297.0),
    (594.0, 420.0),
    (841.0, 594.0),
];
/// From one plot to the next, and from the last to the timetable, mm.
const BETWEEN: f64 = 5.0;
/// The height of the hours below the timetable, mm.
const HOURS: f64 = 7.0;
/// From the timetable to the words of the hours: below the lowest figure of a scale, mm.
const HOURS_TOP: f64 = 2.2;
/// From the first hour to their unit: the widest first figure, 0:00, reaches half of this, mm.
const BESIDE_HOURS: f64 = 7.0;
/// The plots together are at least this tall: below it curves can't be read, mm.
const LEAST: f64 = 60.0;
/// How much of that is the charge's: it is what the chart is for.
const CHARGE: f64 = 0.62;

/// Everything of a chart that has a size before it has a place.
struct Measured<'a> {
    day: &'a Day,
    reserve: f64,
    size: (f64, f64),
    edge: Frame,
    hours: Scale,
    strip: Strip,
    rows: Rows,
    list: List,
    foot: Foot,
}

/// A day's chart on the smallest sheet that it fits; where none is large enough, on one made larger.
pub(super) fn chart(day: &Day, reserve: f64, title: &Title) -> Chart {
    let told = |size, told| Measured::of(day, (reserve, told), title, size);
    let measured = |size| told(size, Told::Level);
    let fits = |m: &Measured| m.missing() == (0.0, 0.0);
    // Names that run upwards take height from the plots: rather numbers than a larger sheet.
    let mut ways = SIZES
        .into_iter()
        .flat_map(|size| [Told::Upwards, Told::Level].map(|way| told(size, way)));
    let made = ways.find(fits).unwrap_or_else(|| {
        let last = SIZES[SIZES.len() - 1];
        let wide = last.0 + measured(last).missing().0;
        measured((wide, last.1 + measured((wide, last.1)).missing().1))
    });
    made.chart()
}

impl<'a> Measured<'a> {
    fn of(day: &'a Day, (reserve, told): (f64, Told), title: &Title, size: (f64, f64)) -> Self {
        let edge = border(size.0, size.1);
        let rows = Rows::of(day);
        let left = edge.left + AIR + rows.gutter().max(plots::LEFT);
        let hours = Scale {
            from: 0.0,
            to: whole(day),
            start: left,
            end: edge.right - plots::RIGHT,
        };
        let strip = Strip::of(&day.parts, &hours, told);
        let room = edge.right - edge.left;
        Self {
            day,
            reserve,
            size,
            edge,
            hours,
            list: List::of(&day.parts, &strip.numbered(), room - 2.0 * AIR),
            strip,
            rows,
            foot: Foot::new(key::wanted(day), title, (SHOWS, String::new()), room),
        }
    }

    /// How tall the plots are together.
    fn rest(&self) -> f64 {
        let below = HOURS + self.list.height() + self.foot.height();
        let between = if self.rows.height() > 0.0 { 2.0 } else { 1.0 } * BETWEEN;
        let taken = AIR + self.strip.height() + between + self.rows.height() + below;
        self.edge.bottom - self.edge.top - taken
    }

    /// How much wider and taller the sheet would have to be.
    fn missing(&self) -> (f64, f64) {
        (self.strip.missing.max(0.0), (LEAST - self.rest()).max(0.0))
    }

    fn chart(&self) -> Chart {
        let told = told::told(self.day, self.reserve);
        let mut chart = Chart::new(self.size, self.edge, told);
        let top = self.edge.top + AIR + self.strip.height();
        self.strip.place(&mut chart, top);
        let bottom = self.plots(&mut chart, top);
        let bottom = self.timetable(&mut chart, bottom);
        self.ticks(&mut chart, top, bottom);
        self.foot(&mut chart);
        chart
    }

    /// Both plots; gives where the lower one ends.
    fn plots(&self, chart: &mut Chart, top: f64) -> f64 {
        let frame = |top: f64, tall: f64| Frame {
            left: self.hours.start,
            right: self.hours.end,
            top,
            bottom: top + tall,
        };
        let upper = frame(top, self.rest() * CHARGE);
        let lower = frame(upper.bottom + BETWEEN, self.rest() * (1.0 - CHARGE));
        let left = self.edge.left + AIR;
        plots::bands(chart, self.day, &self.hours, upper);
        plots::bands(chart, self.day, &self.hours, lower);
        let day = (self.day, self.reserve);
        plots::charge(chart, day, &self.hours, upper, left);
        plots::volts(chart, self.day, &self.hours, lower, left);
        lower.bottom
    }

    /// The timetable below; gives where it ends.
    fn timetable(&self, chart: &mut Chart, below: f64) -> f64 {
        if self.rows.height() == 0.0 {
            return below;
        }
        let top = below + BETWEEN;
        let bottom = top + self.rows.height();
        let frame = Frame {
            left: self.hours.start,
            right: self.hours.end,
            top,
            bottom,
        };
        chart.edge(EDGE, frame);
        self.rows.place(chart, &self.hours, top);
        bottom
    }

    /// The hours, below everything that they run through, and where a part of the day follows one
    /// of the same tint.
    fn ticks(&self, chart: &mut Chart, top: f64, bottom: f64) {
        let step = hour_step(self.hours.to);
        for hour in self.hours.ticks(step) {
            let x = self.hours.at(hour);
            chart.line(GRID, vec![at(x, top), at(x, bottom + 1.2)]);
            let text = hour_tick(hour, step);
            chart.words(&[text], (x, bottom + HOURS_TOP), Align::Middle);
        }
        // Where the tint changes too, it shows by itself.
        let alike = |p: &&[study::DayPart]| p[0].supply == p[1].supply;
        for pair in self.day.parts.windows(2).filter(alike) {
            let x = self.hours.at(pair[1].from_h);
            chart.line(PART, vec![at(x, top), at(x, bottom)]);
        }
        let unit = if step < 1.0 { "h:min" } else { "hours" };
        let place = (self.hours.start - BESIDE_HOURS, bottom + HOURS_TOP);
        chart.words(&[unit.to_owned()], place, Align::End);
    }

    /// List, key, title block and border.
    fn foot(&self, chart: &mut Chart) {
        let edge = self.edge;
        if self.list.height() > 0.0 {
            let y = edge.bottom - self.foot.height() - self.list.height();
            chart.line(THIN, vec![at(edge.left, y), at(edge.right, y)]);
            self.list.place(chart, (edge.left + AIR, y));
        }
        self.foot.place(chart);
    }
}

/// How long the day is, h; never nothing, so that there is a scale.
fn whole(day: &Day) -> f64 {
    let last = day.parts.iter().map(|p| p.to_h);
    last.filter(|h| h.is_finite()).fold(1.0 / 3600.0, f64::max)
}
