//! The usual cautions, what a study looks at, and what it does not. Shown with every report.

/// Cautions for work on a vehicle. Common practice and workshop manuals (reference procedures, read).
pub const CAUTIONS: [&str; 9] = [
    "Ignition off and every load off; then the battery's negative lead comes off first and goes on last.",
    "Wear eye protection near batteries; a lead-acid battery gives off explosive gas. Take off rings and watches.",
    "Leave airbag (SRS) wiring and yellow connectors alone. After the battery is off, wait as the vehicle's manual says; if it is not known, ten minutes.",
    "Never touch the orange high-voltage cables of a hybrid or electric vehicle.",
    "Look behind a panel before drilling it: fuel, brake and coolant lines, looms and tanks.",
    "Keep wiring clear of fuel and brake lines, steering, pedals, exhaust and anything that turns.",
    "Lamps on a public road follow local law; work lamps stay off there.",
    "Prove dead with a meter before touching, and put the last fuse in last.",
    "Local codes come before anything printed here. Where the law asks for a licensed person, ask one.",
];

/// What a study looks at.
pub const CHECKED: &str = "Currents and voltages in every state that was tried, temperatures in those that last; \
every wire against heat in its bundle, the rule set's table, its fuse and its loads' voltage drop; every fuse against \
steady load, heat, start and what the battery can push; contacts by kind of load; relay coils at their own heat, and on a cold \
morning while the starter pulls the battery down; in every state, that only what is asked for is on, by whatever path current \
could come; earths, covers and grommets.";

/// What it does not look at yet. The pack says so rather than stay silent.
pub const NOT_CHECKED: &str = "What happens in time after a fault, two things gone wrong at once, workmanship, the vehicle's own wiring and \
anything that the plan does not say. Read the vehicle's own manual.";
