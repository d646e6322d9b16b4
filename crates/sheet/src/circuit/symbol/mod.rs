//! Symbols after IEC 60617, one a file, drawn at rest: no current, nothing operated. Each says how far it
//! reaches from its anchor, which lies on the column's axis, and draws itself around it.

mod battery;
mod boxed;
mod coil;
mod connector;
mod contact;
mod cutout;
mod dot;
mod earth;
mod fuse;
mod heater;
mod lamp;
mod led;
mod motor;
mod pen;
mod socket;
mod stub;
mod switch;
mod throw;

#[cfg(test)]
mod tests;

pub(crate) use boxed::Words;
pub(crate) use coil::Across;
pub(crate) use contact::MAKE_BLADE;
pub(crate) use cutout::CUTOUT_SIDE;
pub(crate) use pen::{Pen, THIN};
pub(crate) use throw::SECOND_INPUT;

use crate::geometry::{Frame, Point};

/// How far a symbol reaches from its anchor, mm. Its pins lie on the axis at `up` and `down`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Extent {
    pub up: f64,
    pub down: f64,
    pub left: f64,
    pub right: f64,
}

impl Extent {
    /// The same to both sides, and the same up and down.
    const fn even(tall: f64, wide: f64) -> Self {
        Self {
            up: tall,
            down: tall,
            left: wide,
            right: wide,
        }
    }
}

/// How a switch, a relay or a cut-out is worked.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Worked {
    /// At rest.
    #[default]
    Rest,
    /// A switch of three positions: on auto.
    Auto,
    /// On; pulled in.
    On,
}

/// A symbol.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Shape {
    Battery,
    Box(Words),
    Coil(Across),
    Connector { socket_above: bool },
    MakeContact,
    ChangeOver,
    Cutout,
    Dot,
    Earth,
    Fuse,
    Heater,
    Lamp,
    Led,
    Motor,
    Socket,
    Stub,
    Switch,
    Throw,
}

impl Shape {
    /// How far it reaches.
    pub fn extent(&self) -> Extent {
        match self {
            Self::Battery => battery::EXTENT,
            Self::Box(words) => words.extent(),
            Self::Coil(across) => coil::extent(*across),
            Self::Connector { .. } => connector::EXTENT,
            Self::MakeContact => contact::MAKE,
            Self::ChangeOver => contact::CHANGE_OVER,
            Self::Cutout => cutout::EXTENT,
            Self::Dot => dot::EXTENT,
            Self::Earth => earth::EXTENT,
            Self::Fuse => fuse::EXTENT,
            Self::Heater => heater::EXTENT,
            Self::Lamp => lamp::EXTENT,
            Self::Led => led::EXTENT,
            Self::Motor => motor::EXTENT,
            Self::Socket => socket::EXTENT,
            Self::Stub => stub::EXTENT,
            Self::Switch => switch::EXTENT,
            Self::Throw => throw::EXTENT,
        }
    }

    /// How much of its reach up and down is a thin lead, beside which a terminal mark may stand.
    #[cfg(test)]
    pub fn lead(&self) -> f64 {
        match self {
            Self::Dot | Self::Earth | Self::Stub => 0.0,
            Self::Connector { .. } => 0.5,
            Self::Fuse => 2.0,
            Self::Switch | Self::MakeContact | Self::ChangeOver => 3.6,
            Self::Throw => 5.6,
            _ => 3.8,
        }
    }

    /// The box it covers when its anchor is here.
    pub fn frame(&self, at: Point) -> Frame {
        let e = self.extent();
        Frame {
            left: at.x - e.left,
            top: at.y - e.up,
            right: at.x + e.right,
            bottom: at.y + e.down,
        }
    }

    /// Whether it is a load, which runs or does not.
    pub fn runs(&self) -> bool {
        matches!(
            self,
            Self::Box(_) | Self::Heater | Self::Lamp | Self::Led | Self::Motor | Self::Socket
        )
    }

    /// Draws it as it is worked.
    pub fn draw_worked(&self, pen: &mut Pen, worked: Worked) {
        match (self, worked) {
            (Self::MakeContact, Worked::On) => contact::draw_made(pen),
            (Self::ChangeOver, Worked::On) => contact::draw_changed(pen),
            (Self::Switch, Worked::On) => switch::draw_on(pen),
            (Self::Throw, worked) => throw::draw_at(pen, worked),
            (Self::Cutout, Worked::On) => cutout::draw_in(pen),
            (other, _) => other.draw(pen),
        }
    }

    /// Draws it.
    pub fn draw(&self, pen: &mut Pen) {
        match self {
            Self::Battery => battery::draw(pen),
            Self::Box(words) => words.draw(pen),
            Self::Coil(across) => coil::draw(pen, *across),
            Self::Connector { socket_above } => connector::draw(pen, *socket_above),
            Self::MakeContact => contact::draw_make(pen),
            Self::ChangeOver => contact::draw_change_over(pen),
            Self::Cutout => cutout::draw(pen),
            Self::Dot => dot::draw(pen),
            Self::Earth => earth::draw(pen),
            Self::Fuse => fuse::draw(pen),
            Self::Heater => heater::draw(pen),
            Self::Lamp => lamp::draw(pen),
            Self::Led => led::draw(pen),
            Self::Motor => motor::draw(pen),
            Self::Socket => socket::draw(pen),
            Self::Stub => stub::draw(pen),
            Self::Switch => switch::draw(pen),
            Self::Throw => throw::draw(pen),
        }
    }
}
