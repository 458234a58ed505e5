//! Weights: what came off, where each goes back, what that leaves, and what the run-out adds.

mod back;
mod clear;
mod grade;
mod lay;
mod left;
mod log;
mod models;
mod place;
mod put_back;
mod run_out;
mod sense;
mod told;

use super::amount::Amount;
use super::finding::{Finding, Name, Value, Verdict};
use crate::job::{Job, WeightsCame};
use crate::quantity::{Length, inches};
pub use back::{GoesBack, going_back};
pub(super) use back::{cut, made, spans};
pub(super) use clear::{Standing, ears_by_eye, placed};
pub use lay::{Lay, lay};
pub use left::leaves;
pub use log::{Logged, all_logged};
pub(super) use place::place;
pub(super) use put_back::parted;
pub use sense::{Cut, Drive, Piece, There, WeightReason, WeightSense};
pub use told::Told;
pub(super) use told::{in_its_way, told};

/// How far a weight must keep from a weld. Common practice, no source.
pub(super) fn keep_from_weld() -> Length {
    inches(0.5)
}

/// What follows for the weights.
pub fn findings(job: &Job) -> Vec<Finding> {
    let mut found = if job.weights.came == WeightsCame::None {
        let value = Value { amount: Amount::Count(0), plus_minus: None, sense: None };
        vec![Finding::known(Name::NothingToPutBack, value, Verdict::Good)]
    } else {
        let mut found = put_back::findings(job);
        found.extend(left::findings(job));
        found.extend(models::finding(job));
        found
    };
    found.extend(grade::findings(job));
    found
}
