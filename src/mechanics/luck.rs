//! Luck for tests: numbers that look thrown and are the same on every run.
#![cfg(test)]

/// Numbers between two bounds, from a seed: a linear congruential generator (constants of Knuth's MMIX,
/// from memory), high bits only.
pub(super) fn luck(mut seed: u64) -> impl FnMut(f64, f64) -> f64 {
    move |least, most| {
        seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        least + (most - least) * (seed >> 11) as f64 / (1_u64 << 53) as f64
    }
}
