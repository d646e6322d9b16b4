//! Shapes of vehicles seen from above, the front to the left: our own, of no vehicle there is. Figures are parts of length and width.

use plan::{Outline, Zone};

/// A shape.
pub(super) struct Shape {
    /// The outer line, closed.
    pub hull: &'static [(f64, f64)],
    /// Lines inside it: panels, edges of glass.
    pub lines: &'static [&'static [(f64, f64)]],
    /// Wheels, each by its corners.
    pub wheels: &'static [[f64; 4]],
    /// Length over width on paper.
    pub slender: f64,
    zones: [(f64, f64); 4],
}

const CAR: Shape = Shape {
    hull: &[
        (0.0, 0.3),
        (0.02, 0.14),
        (0.07, 0.07),
        (0.2, 0.04),
        (0.8, 0.04),
        (0.94, 0.07),
        (0.99, 0.16),
        (1.0, 0.3),
        (1.0, 0.7),
        (0.99, 0.84),
        (0.94, 0.93),
        (0.8, 0.96),
        (0.2, 0.96),
        (0.07, 0.93),
        (0.02, 0.86),
        (0.0, 0.7),
    ],
    lines: &[
        &[(0.28, 0.06), (0.26, 0.5), (0.28, 0.94)],
        &[(0.36, 0.12), (0.34, 0.5), (0.36, 0.88)],
        &[(0.76, 0.1), (0.78, 0.5), (0.76, 0.9)],
    ],
    wheels: &[
        [0.13, -0.02, 0.25, 0.06],
        [0.13, 0.94, 0.25, 1.02],
        [0.74, -0.02, 0.86, 0.06],
        [0.74, 0.94, 0.86, 1.02],
    ],
    slender: 2.6,
    zones: [(0.03, 0.26), (0.3, 0.74), (0.79, 0.97), (0.05, 0.95)],
};

const VAN: Shape = Shape {
    hull: &[
        (0.0, 0.25),
        (0.03, 0.09),
        (0.1, 0.04),
        (0.98, 0.03),
        (1.0, 0.06),
        (1.0, 0.94),
        (0.98, 0.97),
        (0.1, 0.96),
        (0.03, 0.91),
        (0.0, 0.75),
    ],
    lines: &[
        &[(0.15, 0.05), (0.13, 0.5), (0.15, 0.95)],
        &[(0.22, 0.1), (0.2, 0.5), (0.22, 0.9)],
        &[(0.38, 0.03), (0.38, 0.97)],
    ],
    wheels: &[
        [0.13, -0.03, 0.23, 0.05],
        [0.13, 0.95, 0.23, 1.03],
        [0.75, -0.03, 0.85, 0.05],
        [0.75, 0.95, 0.85, 1.03],
    ],
    slender: 2.8,
    zones: [(0.02, 0.13), (0.17, 0.36), (0.41, 0.97), (0.04, 0.96)],
};

const PICK_UP: Shape = Shape {
    hull: &[
        (0.0, 0.28),
        (0.02, 0.13),
        (0.08, 0.06),
        (0.5, 0.04),
        (0.55, 0.06),
        (1.0, 0.06),
        (1.0, 0.94),
        (0.55, 0.94),
        (0.5, 0.96),
        (0.08, 0.94),
        (0.02, 0.87),
        (0.0, 0.72),
    ],
    lines: &[
        &[(0.26, 0.05), (0.24, 0.5), (0.26, 0.95)],
        &[(0.33, 0.11), (0.31, 0.5), (0.33, 0.89)],
        &[(0.53, 0.05), (0.53, 0.95)],
        &[
            (0.56, 0.11),
            (0.98, 0.11),
            (0.98, 0.89),
            (0.56, 0.89),
            (0.56, 0.11),
        ],
    ],
    wheels: &[
        [0.12, -0.02, 0.23, 0.06],
        [0.12, 0.94, 0.23, 1.02],
        [0.71, -0.02, 0.82, 0.06],
        [0.71, 0.94, 0.82, 1.02],
    ],
    slender: 2.8,
    zones: [(0.03, 0.24), (0.28, 0.51), (0.58, 0.96), (0.56, 0.97)],
};

const LORRY: Shape = Shape {
    hull: &[
        (0.0, 0.1),
        (0.02, 0.03),
        (0.2, 0.02),
        (0.22, 0.05),
        (0.22, 0.2),
        (0.25, 0.2),
        (0.25, 0.0),
        (1.0, 0.0),
        (1.0, 1.0),
        (0.25, 1.0),
        (0.25, 0.8),
        (0.22, 0.8),
        (0.22, 0.95),
        (0.2, 0.98),
        (0.02, 0.97),
        (0.0, 0.9),
    ],
    lines: &[
        &[(0.03, 0.08), (0.02, 0.5), (0.03, 0.92)],
        &[
            (0.27, 0.03),
            (0.98, 0.03),
            (0.98, 0.97),
            (0.27, 0.97),
            (0.27, 0.03),
        ],
    ],
    wheels: &[
        [0.06, -0.04, 0.16, 0.03],
        [0.06, 0.97, 0.16, 1.04],
        [0.66, -0.04, 0.76, 0.03],
        [0.66, 0.97, 0.76, 1.04],
        [0.8, -0.04, 0.9, 0.03],
        [0.8, 0.97, 0.9, 1.04],
    ],
    slender: 3.0,
    zones: [(0.02, 0.2), (0.03, 0.2), (0.28, 0.96), (0.2, 0.98)],
};

const TRAILER: Shape = Shape {
    hull: &[
        (0.0, 0.47),
        (0.18, 0.2),
        (0.18, 0.03),
        (1.0, 0.03),
        (1.0, 0.97),
        (0.18, 0.97),
        (0.18, 0.8),
        (0.0, 0.53),
    ],
    lines: &[
        &[
            (0.21, 0.08),
            (0.98, 0.08),
            (0.98, 0.92),
            (0.21, 0.92),
            (0.21, 0.08),
        ],
        &[(0.18, 0.2), (0.18, 0.8)],
    ],
    wheels: &[[0.56, -0.05, 0.7, 0.03], [0.56, 0.97, 0.7, 1.05]],
    slender: 2.4,
    zones: [(0.02, 0.18), (0.22, 0.96), (0.22, 0.96), (0.05, 0.98)],
};

const BOAT: Shape = Shape {
    hull: &[
        (0.0, 0.5),
        (0.06, 0.33),
        (0.16, 0.18),
        (0.3, 0.07),
        (0.5, 0.01),
        (0.8, 0.04),
        (1.0, 0.12),
        (1.0, 0.88),
        (0.8, 0.96),
        (0.5, 0.99),
        (0.3, 0.93),
        (0.16, 0.82),
        (0.06, 0.67),
    ],
    lines: &[
        &[
            (0.22, 0.24),
            (0.26, 0.2),
            (0.6, 0.16),
            (0.6, 0.84),
            (0.26, 0.8),
            (0.22, 0.76),
            (0.22, 0.24),
        ],
        &[
            (0.63, 0.18),
            (0.95, 0.2),
            (0.95, 0.8),
            (0.63, 0.82),
            (0.63, 0.18),
        ],
    ],
    wheels: &[],
    slender: 2.9,
    zones: [(0.64, 0.9), (0.24, 0.58), (0.24, 0.58), (0.06, 0.97)],
};

impl Shape {
    pub fn of(outline: Outline) -> &'static Self {
        match outline {
            Outline::Car => &CAR,
            Outline::Van => &VAN,
            Outline::PickUp => &PICK_UP,
            Outline::Lorry => &LORRY,
            Outline::Trailer => &TRAILER,
            Outline::Boat => &BOAT,
        }
    }

    /// From where to where the hull reaches across, so far along.
    pub fn across(&self, along: f64) -> (f64, f64) {
        let next = self.hull.iter().cycle().skip(1);
        let (mut from, mut to) = (1.0_f64, 0.0_f64);
        for (a, b) in self.hull.iter().zip(next) {
            let (low, high) = if a.0 <= b.0 { (a, b) } else { (b, a) };
            if low.0 <= along && along <= high.0 {
                let part = if high.0 > low.0 {
                    (along - low.0) / (high.0 - low.0)
                } else {
                    0.0
                };
                let y = low.1 + (high.1 - low.1) * part;
                (from, to) = (from.min(y), to.max(y));
            }
        }
        (from, to)
    }

    /// From where to where a zone reaches along the vehicle.
    pub fn zone(&self, zone: Zone) -> (f64, f64) {
        match zone {
            Zone::EngineBay | Zone::EngineSpace | Zone::NearExhaust => self.zones[0],
            Zone::Cabin => self.zones[1],
            Zone::LoadSpace => self.zones[2],
            Zone::Outside | Zone::Underbody => self.zones[3],
        }
    }
}

/// What words of a vehicle say of its shape; a car where they say nothing.
pub(super) fn guessed(words: &str) -> Outline {
    const SAID: [(&str, Outline); 20] = [
        ("trailer", Outline::Trailer),
        ("caravan", Outline::Trailer),
        ("pick-up", Outline::PickUp),
        ("pickup", Outline::PickUp),
        ("utility", Outline::PickUp),
        ("ute", Outline::PickUp),
        ("tray", Outline::PickUp),
        ("van", Outline::Van),
        ("camper", Outline::Van),
        ("bus", Outline::Van),
        ("lorry", Outline::Lorry),
        ("truck", Outline::Lorry),
        ("tipper", Outline::Lorry),
        ("boat", Outline::Boat),
        ("yacht", Outline::Boat),
        ("launch", Outline::Boat),
        ("hull", Outline::Boat),
        ("cruiser", Outline::Boat),
        ("car", Outline::Car),
        ("estate", Outline::Car),
    ];
    let words: Vec<String> = words
        .split(|c: char| !c.is_alphabetic() && c != '-')
        .map(str::to_lowercase)
        .collect();
    let said = SAID
        .iter()
        .find(|(word, _)| words.iter().any(|w| w == word));
    said.map_or(Outline::Car, |(_, outline)| *outline)
}
