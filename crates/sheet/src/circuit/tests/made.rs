//! Plans made up from a number: one to twelve circuits of every form there is, the same for the same number.

use std::fmt::Write;

/// How many are tried.
pub(super) const PLANS: u64 = 200;
/// So many of them have up to twelve circuits, the others up to four: a study of twelve takes a second or two.
const LARGE: u64 = 40;

/// A small generator of numbers (xorshift, 64 bits).
struct Dice(u64);

impl Dice {
    fn roll(&mut self, sides: u64) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 >> 11) % sides
    }

    fn coin(&mut self) -> bool {
        self.roll(2) == 0
    }

    fn pick<'a>(&mut self, from: &[&'a str]) -> &'a str {
        from[self.roll(from.len() as u64) as usize]
    }
}

const PLACES: [(&str, &str); 8] = [
    ("battery tray", "engine bay"),
    ("inner wing", "engine bay"),
    ("dash", "cabin"),
    ("cab rear", "cabin"),
    ("rack", "outside"),
    ("tray side", "outside"),
    ("behind the passenger's left kick panel", "cabin"),
    ("tailgate", "outside"),
];
/// A tree of ways.
const WAYS: [(usize, usize); 7] = [(0, 1), (1, 2), (2, 3), (3, 4), (3, 5), (2, 6), (5, 7)];
const LOADS: [&str; 8] = [
    "lamp = \"tungsten\", rated = \"55 W\"",
    "lamp = \"LED\", rated = \"20 W\"",
    "motor = \"pump\", rated = \"8 A\"",
    "motor = \"fan\", rated = \"6 A\"",
    "heater = \"seat\", rated = \"60 W\"",
    "electronics = \"fridge controller\", rated = \"4 A\"",
    "electronics = \"radio\", rated = \"2 A\"",
    "socket = \"lighter\", rated = \"10 A\"",
];
const NAMES: [&str; 4] = [
    "work lamps",
    "transfer pump",
    "rear axle differential lock compressor",
    "beacon",
];

/// A plan.
pub(super) fn plan(seed: u64) -> String {
    let mut dice = Dice(0x9e37_79b9_7f4a_7c15 ^ (seed + 1).wrapping_mul(0xbf58_476d_1ce4_e5b9));
    let volts = if seed % 5 == 4 { 24 } else { 12 };
    let wire = ["metric", "metric", "SAE", "AWG boat"][(seed % 4) as usize];
    let mut out = format!(
        "[job]\ntitle = \"Generated {seed} <&>\"\nvehicle = \"test bench\"\nwire = \"{wire}\"\n{}\n[supply]\nsystem = \"{volts} V\"\n\
         battery = {{ chemistry = \"AGM\", capacity = \"90 Ah\", cranking = \"800 A\", place = \"battery tray\" }}\n\
         alternator = {{ rated = \"120 A\" }}\n\n[place]\n",
        if dice.coin() {
            "owner = \"Nobody\""
        } else {
            ""
        }
    );
    for (name, zone) in PLACES {
        let out_again = if name == "dash" && dice.coin() {
            ", comes_out = true"
        } else {
            ""
        };
        let _ = writeln!(out, "\"{name}\" = {{ zone = \"{zone}\"{out_again} }}");
    }
    for (a, b) in WAYS {
        let _ = writeln!(
            out,
            "[[stretch]]\nbetween = [\"{}\", \"{}\"]\nlength = \"1.{} m\"",
            PLACES[a].0,
            PLACES[b].0,
            dice.roll(9)
        );
    }
    for (name, kind, place) in [
        ("aux stud", "power stud", "inner wing"),
        ("spare way 9", "spare way", "dash"),
        ("radio ignition", "ignition tap", "dash"),
    ] {
        let _ = writeln!(
            out,
            "[[feed]]\nname = \"{name}\"\nkind = \"{kind}\"\nplace = \"{place}\"\nfused = \"40 A\""
        );
    }
    for signal in ["main beam", "reverse", "cranking", "door open"] {
        let _ = writeln!(
            out,
            "[[signal]]\nname = \"{signal}\"\nplace = \"{}\"\ngives = \"1 A\"",
            dice.pick(&["dash", "cab rear"])
        );
    }
    let _ = writeln!(
        out,
        "[[earth]]\nname = \"tray earth\"\nplace = \"tray side\"\n[[earth]]\nname = \"wired back\"\nplace = \"cab rear\"\nto = \"battery\""
    );
    let feed = dice.pick(&["battery", "aux stud"]);
    for (name, feed, ways) in [("auxiliary box", "battery", 12), ("second box", feed, 12)] {
        let _ = writeln!(
            out,
            "[[box]]\nname = \"{name}\"\nplace = \"inner wing\"\nways = {ways}\nfeed = \"{feed}\""
        );
    }
    let most = if seed < LARGE { 12 } else { 4 };
    for n in 0..=seed % most {
        circuit(&mut out, &mut dice, seed + n * 5, n);
    }
    out
}

fn circuit(out: &mut String, dice: &mut Dice, form: u64, n: u64) {
    let _ = writeln!(
        out,
        "[[circuit]]\nname = \"{} {n}\"\nload = [",
        dice.pick(&NAMES)
    );
    for _ in 0..=dice.roll(3) {
        let count = [1, 1, 2, 3][dice.roll(4) as usize];
        let place = PLACES[2 + dice.roll(6) as usize].0;
        let unplug = dice.coin();
        let earth = if dice.roll(4) == 0 {
            format!(
                ", earth = \"{}\"",
                dice.pick(&["tray earth", "battery", "rack"])
            )
        } else {
            String::new()
        };
        let _ = writeln!(
            out,
            "  {{ {}, count = {count}, place = \"{place}\", unplug = {unplug}{earth} }},",
            dice.pick(&LOADS)
        );
    }
    let earth = dice.pick(&["tray earth", "wired back", "inner wing", "rack", "battery"]);
    let relay = format!(
        "relay = {{ place = \"{}\" }}\n",
        dice.pick(&["inner wing", "dash", "cab rear"])
    );
    let switch = "switch = { place = \"dash\" }\n";
    let boxed = format!(
        "box = \"{}\"\n",
        dice.pick(&["auxiliary box", "second box"])
    );
    let text = match form % 12 {
        0 => format!("{boxed}{switch}"),
        1 => format!("{boxed}{relay}{switch}"),
        2 => format!("{boxed}{relay}switch = {{ place = \"dash\", breaks = \"earth\" }}\n"),
        3 => format!("{boxed}live = \"always\"\n"),
        4 => format!("{boxed}{relay}live = \"ignition\"\n"),
        5 => format!("{boxed}{relay}switch = {{ place = \"dash\", auto = \"reverse\" }}\n"),
        6 => format!("{boxed}{relay}{switch}only = [\"main beam\"]\n"),
        7 => format!("{boxed}{relay}{switch}unless = [\"cranking\"]\n"),
        8 => {
            format!("{boxed}{relay}trigger = \"door open\"\nunless = [\"reverse\", \"cranking\"]\n")
        }
        9 => format!(
            "feed = \"battery\"\n{relay}{switch}only = [\"main beam\", \"door open\"]\nunless = [\"cranking\"]\n"
        ),
        10 => format!("feed = \"spare way 9\"\n{relay}{switch}control = \"radio ignition\"\n"),
        _ => format!(
            "feed = \"{}\"\nlive = \"always\"\nfuse = {}\n",
            dice.pick(&["battery", "aux stud"]),
            dice.pick(&["false", "\"20 A\""])
        ),
    };
    let cutout = if dice.roll(4) == 0 {
        let place = dice.pick(&[
            "dash",
            "inner wing",
            "behind the passenger's left kick panel",
        ]);
        let earth = if dice.coin() {
            format!(
                ", earth = \"{}\"",
                dice.pick(&["tray earth", "battery", "wired back"])
            )
        } else {
            String::new()
        };
        format!(
            "cutout = {{ place = \"{place}\", opens = \"11.5 V\", closes = \"12.5 V\"{earth} }}\n"
        )
    } else {
        String::new()
    };
    let _ = writeln!(out, "]\n{text}{cutout}earth = \"{earth}\"");
}
