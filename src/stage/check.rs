//! Check: whether the shaft is fit for its speed and its torque, before a cut is made.

mod build;
mod chart;
mod elements;
mod found;
mod half;
mod parts;
mod speeds;
mod strength;
mod torque;
mod tubes;
mod weld;
mod whirl;
mod yields;

pub use crate::mechanics::tyre::{NoSuchTyre, Part as TyrePart};
pub use chart::{Chart, Shape, chart, shape};
pub use found::{Fastest, Fit, FitReason, FitSense, Governs};
pub(super) use speeds::top_speed;
pub use speeds::{gears, road_at};
pub use tubes::{Choice, choices};
pub(super) use whirl::{of_whirl, stiffness, whirl_speed};

use super::finding::{Finding, Name, Reason, Sense};
use crate::job::Job;

const fn name(fit: Fit) -> Name {
    Name::Fit(fit)
}

const fn why(reason: FitReason) -> Reason {
    Reason::Fit(reason)
}

const fn sense(sense: FitSense) -> Sense {
    Sense::Fit(sense)
}

/// What follows for speed and torque.
pub fn findings(job: &Job) -> Vec<Finding> {
    let mut found = vec![whirl::share_finding(job), speeds::finding(job), whirl::whirl_finding(job)];
    found.extend(elements::findings(job));
    found.extend(half::finding(job));
    found.extend(torque::findings(job));
    found.extend(strength::findings(job));
    found
}

/// The first of them.
pub fn first(job: &Job) -> Finding {
    whirl::share_finding(job)
}
