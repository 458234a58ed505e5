//! Findings to drawings: the mechanic's own sketch, as SVG text.
//!
//! Colours come from the page: lines are `currentColor`, the accent is a custom property, so one
//! drawing serves the dark bay, sunlight and paper. Every string put in is escaped; nothing that was
//! typed gets in but numbers worded by `sheet`.

mod bending;
mod centreline;
mod clock;
mod cut_zone;
mod dial;
mod elevation;
mod end_view;
mod graph;
mod history;
mod line;
mod older;
mod pieces;
mod runout_curve;
mod slip;
mod speed_curve;
mod strip;
mod svg;
mod trial;
mod turn_curve;
mod unrolled;
mod whirl_chart;

pub use bending::bending;
pub use centreline::centreline;
pub use clock::{phase, weights};
pub use cut_zone::cut_zone;
pub use elevation::elevation;
pub use end_view::end_view;
pub use history::history;
pub use line::line_views;
pub use older::{Older, older_turns};
pub use runout_curve::runout_curve;
pub use slip::slip;
pub use speed_curve::speed_curve;
pub use strip::strip_pages;
pub use trial::{clips_on_the_clock, run_vectors, weight_plane};
pub use turn_curve::turn_curve;
pub use unrolled::unrolled;
pub use whirl_chart::whirl_chart;

#[cfg(test)]
mod tests;
