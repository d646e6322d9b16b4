//! Worked cases of heat transfer (23, HT*): a covered wire with a fixed coefficient, the critical
//! radius, a pipe in air, and copper heated faster than it can cool.

use super::bench::{FOOT, ZERO};
use super::case::Case;
use super::ledger::Run;
use super::reference::{Look, reference};
use super::tolerance::Tolerance::{Absolute, Relative};
use super::tolerance::near;
use physics::{adiabatic, convection, shell};
use std::f64::consts::PI;

pub(crate) const RUNS: &[Run] = &[
    Run {
        ids: &["HT1"],
        check: plastic_cover,
    },
    Run {
        ids: &["HT2"],
        check: rubber_sheath,
    },
    Run {
        ids: &["HT4"],
        check: bare_and_covered,
    },
    Run {
        ids: &["HT6"],
        check: pipe_in_air,
    },
    Run {
        ids: &["HT7"],
        check: warming,
    },
];

/// A covered wire with a fixed coefficient outside: our shell, and the film that the cases give.
#[derive(Clone, Copy)]
struct Covered {
    d: f64,
    k: f64,
    h: f64,
    contact: f64,
}

impl Covered {
    /// Thermal resistance from wire to air, K·m/W, with this much cover.
    fn resistance(self, cover: f64) -> f64 {
        let outside = self.d + 2.0 * cover;
        shell::resistance(self.d, outside, self.k)
            + 1.0 / (PI * outside * self.h)
            + self.contact / (PI * self.d)
    }

    /// The radius at which most heat gets out, m, found by trying.
    fn critical_radius(self) -> f64 {
        let steps = (1..60_000).map(|i| f64::from(i) * 1e-6);
        let best = steps.min_by(|a, b| self.resistance(*a).total_cmp(&self.resistance(*b)));
        self.d / 2.0 + best.unwrap_or(0.0)
    }
}

fn covered(c: &Case) -> Covered {
    Covered {
        d: c.num("d_mm") * 1e-3,
        k: c.num("k"),
        h: c.num("h"),
        contact: if c.has("rtc") { c.num("rtc") } else { 0.0 },
    }
}

fn plastic_cover(c: &mut Case) {
    let (wire, cover) = (covered(c), c.num("cover_mm") * 1e-3);
    let q = c.num("p_w") / c.num("l_m");
    c.near("t_c", c.num("ta") + q * wire.resistance(cover));
    c.near("t_double_c", c.num("ta") + q * wire.resistance(2.0 * cover));
    c.near("rcr_mm", wire.critical_radius() * 1e3);
}

fn rubber_sheath(c: &mut Case) {
    let wire = covered(c);
    c.near(
        "q_w_m",
        c.num("dt") / wire.resistance(c.num("cover_mm") * 1e-3),
    );
    c.near("rcr_mm", wire.critical_radius() * 1e3);
    c.holds(
        "not the rounded 4.51",
        (c.num("dt") / wire.resistance(2e-3) - 4.51).abs() > 0.02,
    );
}

fn bare_and_covered(c: &mut Case) {
    let wire = covered(c);
    let out = |cover: f64| c.num("dt") / wire.resistance(cover);
    let (bare, sheathed) = (out(0.0), out(c.num("cover_mm") * 1e-3));
    let best = out(wire.critical_radius() - wire.d / 2.0);
    c.near("q_bare", bare);
    c.near("q_ins", sheathed);
    c.near("q_rcr", best);
    c.near("rcr_mm", wire.critical_radius() * 1e3);
}

fn pipe_in_air(c: &mut Case) {
    let nu = convection::nusselt(c.num("ra"), c.num("pr"));
    let h = nu * c.num("k") / c.num("d_m");
    c.near("nu", nu);
    c.near("h", h);
    let ours = convection::coefficient(c.num("d_m"), ZERO + 70.0, ZERO + 20.0);
    c.holds(
        "with air of our own the same",
        (ours / h - 1.0).abs() < 1e-3,
    );
    let flux = convection::flux(c.num("d_m"), ZERO + 20.0 + c.num("dt"), ZERO + 20.0);
    c.wider(
        "q_w",
        flux * PI * c.num("d_m") * c.num("l_m"),
        Relative(2e-3),
        "Ra is worked out from air, not given",
    );
}

fn warming(c: &mut Case) {
    let density = c.num("j_a_mm2") * 1e6;
    c.near(
        "k_per_s",
        adiabatic::heating_rate(&adiabatic::COPPER, density, ZERO + 20.0),
    );
}

/// The cases that stand in the table only.
#[test]
fn plastic_wire_in_british_units_and_another_critical_radius() {
    let table = reference!("conductors/23_heat_transfer_cases.toml");
    let case = |id: &str| {
        let found = table.rows("case").iter().find(|r| r.word("id") == id);
        found.unwrap_or_else(|| panic!("no {id}"))
    };
    let ht3 = case("HT3");
    let wire = Covered {
        d: ht3.num("d_in") * FOOT / 12.0,
        k: ht3.num("k_ins_btu_hftf") * 1.730_735,
        h: ht3.num("h_btu_hft2f") * 5.678_263,
        contact: 0.0,
    };
    let rise = (ht3.num("limit_f") - ht3.num("ambient_f")) / 1.8;
    let cover = (ht3.num("od_in") - ht3.num("d_in")) / 2.0 * FOOT / 12.0;
    let q = rise / wire.resistance(cover);
    near("HT3 heat", q, ht3.num("q_w_per_m"), Relative(1e-3));
    near(
        "HT3 current",
        (q / ht3.num("r_ohm_per_m")).sqrt(),
        ht3.num("current_a"),
        Relative(1.5e-3),
    );

    let ht5 = case("HT5");
    let wire = Covered {
        d: 1.3e-3,
        k: ht5.num("k_ins"),
        h: ht5.num("h"),
        contact: 0.0,
    };
    near(
        "HT5",
        wire.critical_radius() * 1e3,
        ht5.num("critical_radius_mm"),
        Absolute(0.05),
    );
}
