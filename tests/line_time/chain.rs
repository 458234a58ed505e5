//! What the page has to do when one angle of the line was typed anew, many times over, for
//! `tests/line_time.mjs` to time: 720 moments for the curves, and the peaks of twenty lines, each with
//! one of ten inputs moved up or down by its doubt, for the ±.

use std::hint::black_box;

use shaftwright::mechanics::attitude::{Attitude, Leaning};
use shaftwright::quantity::{Angle, Base, degrees};

/// Chains a batch, as in `line_time.mjs`: a batch is then long against the clock's own step.
const CHAINS: u32 = 200;

fn leaning(slope: f64, plan: f64) -> Leaning {
    Leaning { slope: degrees(slope), plan: degrees(plan) }
}

/// The attitude with one input moved. There are seven angles; three are moved twice, as for the length
/// and the heights that a slope may come from.
fn moved(mut attitude: Attitude, input: u32, by: Angle) -> Attitude {
    let angle = match input % 7 {
        0 => &mut attitude.gearbox.slope,
        1 => &mut attitude.shaft.slope,
        2 => &mut attitude.pinion.slope,
        3 => &mut attitude.phase,
        4 => &mut attitude.gearbox.plan,
        5 => &mut attitude.shaft.plan,
        _ => &mut attitude.pinion.plan,
    };
    *angle += by;
    attitude
}

/// Peak gain of the line of an attitude.
fn peak(attitude: &Attitude) -> f64 {
    attitude.line().map_or(0.0, |line| line.peaks().pinion_gain)
}

fn chain(attitude: &Attitude) -> f64 {
    let curves = attitude.line().map_or_else(|_| Vec::new(), |line| line.turn(720));
    let curve: f64 = black_box(&curves).iter().map(|moment| moment.pinion_lead.base()).sum();
    let doubt = degrees(0.1);
    let squares = (0..10).map(|input| {
        let [up, down] = [doubt, -doubt].map(|by| peak(&black_box(moved(*attitude, input, by))));
        (up - down) * (up - down) / 4.0
    });
    curve + squares.sum::<f64>().sqrt()
}

fn main() {
    let attitude = Attitude {
        gearbox: leaning(2.0, 1.5),
        shaft: leaning(5.0, -3.0),
        pinion: leaning(-1.5, 1.0),
        phase: degrees(10.0),
    };
    for _ in 0..CHAINS {
        black_box(chain(black_box(&attitude)));
    }
}
