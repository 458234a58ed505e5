//! What can be wrong with an entry, as plain data.

use super::amount::Amount;
use crate::job::Entry;
use crate::mechanics::tyre::NoSuchTyre;
use crate::quantity::{Angle, Unreadable};

/// What is wrong with what stands in a field.
#[derive(Clone, Debug, PartialEq)]
pub enum Complaint {
    /// It cannot be read.
    Unreadable(Unreadable),
    /// It is outside what this field can be.
    OutOfRange {
        /// What was given.
        given: Amount,
        /// The least allowed.
        least: Amount,
        /// The most allowed.
        most: Amount,
    },
    /// It is finer than any dial in use shows, though not nothing: inches typed for thousandths, likely.
    FinerThanDial,
    /// It is of the same spot as another field, and too far from it.
    FarFrom {
        /// The other field.
        other: Entry,
        /// How far they are apart.
        apart: Angle,
    },
    /// No axle and tyre give this road speed at that speed of the shaft.
    SpeedsApart {
        /// The other field.
        other: Entry,
    },
    /// No tyre has this marking.
    NoTyre(NoSuchTyre),
    /// It must stay below another field.
    NotBelow {
        /// What was given.
        given: Amount,
        /// The other field.
        other: Entry,
        /// What the other field allows.
        most: Amount,
    },
    /// It cannot be more than another field.
    Above {
        /// What was given.
        given: Amount,
        /// The other field.
        other: Entry,
        /// What that one is.
        most: Amount,
    },
    /// It cannot be less than another field makes it.
    TooLittle {
        /// The other field.
        other: Entry,
        /// What it is at least by that.
        least: Amount,
    },
}
