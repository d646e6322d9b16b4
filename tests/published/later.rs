//! Cases of the two lists that nothing here runs, each group with its reason.

type Later = &'static [(&'static str, &'static [&'static str])];

/// Of `conductors/99_check_cases.toml`.
pub(crate) const CONDUCTORS: Later = &[
    (
        "class 5 installation cable is not in stock; vehicle cable is held against the class in `resistance`",
        &["R-CL5-2.5"],
    ),
    (
        "the circular's square-root estimate of a wire's temperature is no law of ours; its correction of the run is run as FAA-L2",
        &["FAA-EX2B", "FAA-EX2C"],
    ),
    (
        "altitude is not modelled, and the harness is loaded to a fifth at 60 000 ft",
        &["FAA-HA"],
    ),
    (
        "Morgan's correlation is not used; Churchill and Chu's is",
        &["NU-MO"],
    ),
    (
        "a wire is judged by the damage of its insulation, not by Preece's melting of bare wire",
        &["PRE-16", "PRE-100A"],
    ),
];

/// Of `protection/90_cases.toml`.
pub(crate) const PROTECTION: Later = &[
    (
        "chip fuses are no vehicle fuses; the same rule is run as F15",
        &["F12"],
    ),
    (
        "the aircraft protector chart is none of the rule sets that a plan can choose",
        &["P03"],
    ),
    (
        "tables of other industries (mines, passenger vessels) are none of the rule sets",
        &["P12", "P13"],
    ),
    (
        "light on the ground is not worked out",
        &["X01", "X02", "X03"],
    ),
];
