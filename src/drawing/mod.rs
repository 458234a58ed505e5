//! Findings to drawings: the mechanic's own sketch, as SVG text.
//!
//! Colours come from the page: lines are `currentColor`, the accent is a custom property, so one
//! drawing serves the dark bay, sunlight and paper. Every string put in is escaped; nothing that was
//! typed gets in but numbers worded by `sheet`.

mod clock;
mod cut_zone;
mod elevation;
mod pieces;
mod runout_curve;
mod slip;
mod strip;
mod svg;

pub use clock::{high_spot, phase, weights};
pub use cut_zone::cut_zone;
pub use elevation::elevation;
pub use runout_curve::runout_curve;
pub use slip::slip;
pub use strip::strip_pages;

#[cfg(test)]
mod tests;
