//! Plans drawn by lot: small vehicles with a few circuits of every kind of load and control.

use std::fmt::Write;

/// A fixed seed: the same plans each time (a linear congruential generator, Knuth's constants).
pub(crate) struct Lot(pub u64);

impl Lot {
    /// A whole number below `n`.
    fn below(&mut self, n: u64) -> u64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) % n
    }

    fn of<'a>(&mut self, list: &[&'a str]) -> &'a str {
        list[self.below(list.len() as u64) as usize]
    }
}

const LOADS: [&str; 6] = [
    "lamp = \"LED\", rated = \"40 W\"",
    "lamp = \"tungsten\", rated = \"55 W\"",
    "motor = \"fan\", rated = \"7 A\"",
    "heater = \"seat\", rated = \"5 A\"",
    "electronics = \"radio\", rated = \"3 A\"",
    "socket = \"lighter\", rated = \"8 A\"",
];

/// A vehicle of four places in a row and three to five circuits, drawn by lot.
pub(crate) fn drawn(lot: &mut Lot) -> String {
    let places = ["tray", "dash", "roof", "tail"];
    let (system, at) = if lot.below(3) == 0 {
        ("24 V", "27 V")
    } else {
        ("12 V", "13.5 V")
    };
    let mut plan = format!(
        "[job]\ntitle = \"drawn by lot\"\ndrop = \"6 %\"\n[supply]\nsystem = \"{system}\"\n\
         battery = {{ chemistry = \"{}\", capacity = \"90 Ah\", place = \"tray\" }}\n\
         alternator = {{ rated = \"{} A\" }}\nvehicle = {{ driving = \"{} A\", key_on = \"5 A\" }}\n[place]\n",
        lot.of(&["flooded", "AGM", "gel", "lithium iron phosphate"]),
        40 + lot.below(80),
        10 + lot.below(60),
    );
    for p in places {
        let comes_out = p == "dash" && lot.below(2) == 0;
        let _ = writeln!(
            plan,
            "\"{p}\" = {{ zone = \"outside\", heat = \"{} °C\", comes_out = {comes_out} }}",
            20 + lot.below(50)
        );
    }
    for pair in places.windows(2) {
        let _ = write!(
            plan,
            "[[stretch]]\nbetween = [\"{}\", \"{}\"]\nlength = \"{} cm\"\n",
            pair[0],
            pair[1],
            40 + lot.below(400)
        );
    }
    let _ = write!(
        plan,
        "[[box]]\nname = \"box\"\nplace = \"{}\"\nways = 6\nfeed = \"battery\"\nspare = \"4 A\"\n",
        lot.of(&["tray", "dash"])
    );
    for n in 0..3 + lot.below(3) {
        plan += &circuit(lot, n, at);
    }
    plan
}

/// One circuit, of any kind of load and control.
fn circuit(lot: &mut Lot, n: u64, at: &str) -> String {
    let control = match lot.below(3) {
        0 => "switch = { place = \"dash\" }",
        1 => "switch = { place = \"dash\", breaks = \"earth\" }\nrelay = { place = \"tray\" }",
        _ => "switch = { place = \"dash\" }\nrelay = { place = \"tray\" }",
    };
    format!(
        "[[circuit]]\nname = \"circuit {n}\"\nload = {{ {}, at = \"{at}\", count = {}, place = \"{}\", unplug = {} }}\nbox = \"box\"\n{control}\nearth = \"{}\"\n",
        lot.of(&LOADS),
        1 + lot.below(3),
        lot.of(&["roof", "tail"]),
        lot.below(2) == 0,
        lot.of(&["battery", "tail", "roof"]),
    )
}
