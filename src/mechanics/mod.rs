//! The physics of a drive shaft, one noun a file: pure functions on quantities, each with its source.
//! No job, no string for people, nothing of the web.
//!
//! Conventions, one for everything: angles run clockwise seen from the rear, looking forward, from the
//! witness mark at 12; z runs rearward from the centre of the front joint; L is joint centre to joint
//! centre.

pub mod across;
pub mod aim;
pub mod apart;
pub mod apportion;
pub mod attitude;
pub mod beam;
pub mod budget;
pub mod centreline;
mod chi_squared;
pub mod cut;
pub mod drift;
pub mod drive;
pub mod drive_shaft;
pub mod ellipse;
mod extremes;
pub mod fisher;
pub mod grade;
pub mod high_low;
pub mod keep_off;
mod least_squares;
pub mod line;
#[cfg(test)]
mod luck;
pub mod material;
pub mod mend;
pub mod models;
pub mod one_place;
pub mod phase;
pub mod plate;
pub mod residual;
pub mod runout;
pub mod seam;
mod space;
pub mod square;
pub mod strip;
pub mod student;
pub mod tilt;
pub mod torsion;
pub mod travel;
pub mod trial;
pub mod tube;
pub mod tyre;
pub mod unbalance;
pub mod uncertainty;
mod uneven;
pub mod weld;
pub mod whirl;
