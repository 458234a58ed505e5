//! The first bending frequency of a shaft in 16 elements, many times over, for `tests/line_time.mjs` to time: a
//! chain is one answer.

use std::hint::black_box;

use shaftwright::quantity::Base;

#[path = "beam/shaft.rs"]
mod shaft;

/// Chains a batch, as in `line_time.mjs`.
const CHAINS: usize = 200;

fn main() {
    let beam = shaft::shaft();
    let mut sum = 0.0;
    for _ in 0..CHAINS {
        let first = black_box(&beam).as_ref().and_then(|beam| beam.first(16).ok());
        sum += first.map_or(f64::NAN, |speed| speed.base());
    }
    // An answer that is none would be timed for nothing.
    assert!(black_box(sum) > 0.0);
}
