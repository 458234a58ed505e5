//! What is odd about a list of readings, whatever they are readings of.

use super::field::read;
use super::finding::Reason;
use crate::job::{Entry, Job};
use crate::mechanics::apart::{stands_apart, two_disagree};
use crate::quantity::{Angle, Base, Length};

/// What is odd about a list of readings.
pub(super) enum Odd<Q> {
    /// One stands apart from the others.
    Apart {
        /// Its field.
        entry: Entry,
        /// How far it is from the others' mean.
        by: Q,
        /// How far the others are from each other.
        others: Q,
    },
    /// There are two, and they disagree.
    Two {
        /// By so much.
        by: Q,
    },
}

/// Looks at the readings that a list of fields gave; `None` where nothing is odd.
pub(super) fn odd<Q: Base>(job: &Job, entries: &[Entry], readings: &[Q], line: Q) -> Option<Odd<Q>> {
    if let Some(apart) = stands_apart(readings, line) {
        // Empty and wrong rows lie between the readings: the one pointed at is counted among the others.
        let counts = |entry: &&Entry| matches!(read(job, **entry), Ok(Some(_)));
        let entry = entries.iter().filter(counts).nth(apart.index).copied()?;
        return Some(Odd::Apart { entry, by: apart.by, others: apart.others });
    }
    two_disagree(readings, line).map(|by| Odd::Two { by })
}

impl From<Odd<Length>> for Reason {
    fn from(odd: Odd<Length>) -> Reason {
        match odd {
            Odd::Apart { entry, by, others } => Reason::ReadingApart { entry, by, others },
            Odd::Two { by } => Reason::TwoReadingsDiffer { by },
        }
    }
}

impl From<Odd<Angle>> for Reason {
    fn from(odd: Odd<Angle>) -> Reason {
        match odd {
            Odd::Apart { entry, by, others } => Reason::AngleApart { entry, by, others },
            Odd::Two { by } => Reason::TwoAnglesDiffer { by },
        }
    }
}
