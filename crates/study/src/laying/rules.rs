//! The rules of laying as plain sums: lengths in millimetres, counts.

/// Supports between the two ends of a run, so that no span is longer than `span`.
pub fn supports_between(run_mm: f64, span_mm: f64) -> u32 {
    spans(run_mm, span_mm).saturating_sub(1)
}

fn spans(run_mm: f64, span_mm: f64) -> u32 {
    (run_mm / span_mm - 1e-9).ceil().max(0.0) as u32
}

/// Labels on a wire: none on one shorter than `first`, one on one no longer than `single`; else one at `first` from each
/// end and others between, no farther apart than `interval`.
pub fn labels(wire_mm: f64, (first_mm, single_mm, interval_mm): (f64, f64, f64)) -> u32 {
    if wire_mm < first_mm {
        return 0;
    }
    if wire_mm <= single_mm {
        return 1;
    }
    1 + spans(wire_mm - 2.0 * first_mm, interval_mm).max(1)
}

/// Length to cut shrink sleeve to, so that it still covers `covered` and both overlaps when it has shrunk by the part
/// `shrinks` of its length.
pub fn shrink_cut(covered_mm: f64, overlaps_mm: f64, shrinks: f64) -> f64 {
    (covered_mm + overlaps_mm) / (1.0 - shrinks)
}

/// Least inside radius of a bend, by the diameter that the rule speaks of.
pub fn bend_radius(diameter_mm: f64, multiple: f64) -> f64 {
    diameter_mm * multiple
}

/// The hole that a clamped bundle passes with nothing around it.
pub fn bare_hole(bundle_mm: f64, clear_mm: f64) -> f64 {
    bundle_mm + 2.0 * clear_mm
}
