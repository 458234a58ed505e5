//! All that Check says of the sample job, with its chart, its bent shape and the table of tubes, many times over, for
//! `tests/line_time.mjs` to time: what follows once the hand has paused there.

use std::hint::black_box;

use shaftwright::drawing::{bending, whirl_chart};
use shaftwright::job::sample;
use shaftwright::sheet::tube_table;
use shaftwright::stage::Stage;

/// Chains a batch, as in `line_time.mjs`.
const CHAINS: usize = 20;

fn main() {
    let job = sample();
    let mut said = 0;
    for _ in 0..CHAINS {
        said += black_box(Stage::Check.findings(black_box(&job))).len();
        said += black_box(whirl_chart(black_box(&job))).map_or(0, |text| text.len());
        said += black_box(bending(black_box(&job))).map_or(0, |text| text.len());
        said += black_box(tube_table(black_box(&job))).map_or(0, |rows| rows.len());
    }
    black_box(said);
}
