//! Tilt: where a slope goes that the tablet or phone read itself, and how it stands to the division.

use super::field::level_division;
use crate::job::{Entry, Job, LevelDivision};
use crate::mechanics::tilt::step;
pub use crate::mechanics::tilt::{Reading, Unread, Way, average, reading};
use crate::quantity::{Angle, Base};

/// The first of these fields in which nothing stands: its place among them.
pub fn first_free(job: &Job, entries: &[Entry]) -> Option<usize> {
    entries.iter().position(|entry| job.typed(*entry).is_some_and(|typed| typed.is_blank()))
}

/// What is too coarse for the division chosen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Coarse {
    /// The samples scatter by more.
    Scatter,
    /// Many browsers tell a tilt in steps of more.
    Step,
}

/// What is too coarse for a division, if anything.
pub fn too_coarse(scatter: Angle, division: LevelDivision) -> Option<Coarse> {
    let line = level_division(division).base();
    if scatter.base() > line {
        Some(Coarse::Scatter)
    } else if line < step().base() {
        Some(Coarse::Step)
    } else {
        None
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::degrees;

    #[test]
    fn the_first_free_field() {
        let mut job = Job::default();
        let gearbox: Vec<Entry> = (0..3).map(Entry::GearboxSlope).collect();
        assert_eq!(first_free(&job, &gearbox), Some(0));
        job.put(Entry::GearboxSlope(0), "3");
        job.put(Entry::GearboxSlope(1), " ");
        assert_eq!(first_free(&job, &gearbox), Some(1));
        // What cannot be read stands there all the same and is not written over.
        job.put(Entry::GearboxSlope(1), "abc");
        job.put(Entry::GearboxSlope(2), "2");
        assert_eq!(first_free(&job, &gearbox), None);
        assert_eq!(first_free(&job, &[Entry::OneWay]), Some(0));
        // A field that the job does not have takes nothing.
        assert_eq!(first_free(&job, &[Entry::GearboxSlope(99)]), None);
    }

    #[test]
    fn against_the_division() {
        let of = |scatter: f64, division| too_coarse(degrees(scatter), division);
        assert_eq!(of(0.04, LevelDivision::Tenth), None);
        assert_eq!(of(0.11, LevelDivision::Tenth), Some(Coarse::Scatter));
        assert_eq!(of(0.0, LevelDivision::Twentieth), Some(Coarse::Step));
        assert_eq!(of(0.06, LevelDivision::Twentieth), Some(Coarse::Scatter));
        assert_eq!(of(0.24, LevelDivision::Whole), None);
    }
}
