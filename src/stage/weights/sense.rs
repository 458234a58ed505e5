//! What is said of a weight, and why it is not good, as plain data.

use crate::job::PutBack;
use crate::quantity::{Angle, Length, Mass};

/// How long a strip to cut for a weight.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Cut {
    /// No strip was named.
    NotAsked,
    /// So long.
    Long(Length),
    /// No length of it that fits the tube is heavy enough.
    TooThin,
}

/// A part of a weight at a place of its own.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Piece {
    /// Place on the clock.
    pub clock: Angle,
    /// Its mass.
    pub mass: Mass,
    /// The strip for it.
    pub cut: Cut,
}

/// Where a weight goes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct There {
    /// Place on the clock.
    pub clock: Angle,
    /// Distance from the far datum on the new shaft.
    pub distance: Length,
    /// How thick the one was that came off.
    pub thick: Option<Length>,
    /// The strip for it.
    pub cut: Cut,
    /// Where it must not stand: the two that do its work beside that place.
    pub split: Option<[Piece; 2]>,
    /// Nobody said where along the shaft it goes: so far inside the weld.
    pub inside_weld: Option<Length>,
    /// ± of its place on the clock, of one that stands for several.
    pub around: Option<Angle>,
    /// Nobody said where the ears of its end are: so far to keep off them by eye. Of the first weight alone.
    pub by_eye: Option<Angle>,
}

/// What to do about what the run-out adds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Drive {
    /// Drive it.
    Freely,
    /// Drive it gently and listen.
    Gently,
    /// Take it to a shop.
    Shop,
    /// One place was read, and the rest is a guess: read more before you say.
    Guess,
    /// No place was read in the middle third, where a bow is largest: read one before you say.
    Ends,
}

/// What is said of a weight, or of what is out of balance.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum WeightSense {
    /// It goes there.
    There(There),
    /// The weights of this end cancel each other, as far as they are known.
    Cancelled,
    /// Too light for a scale to tell it from none.
    TooLight,
    /// The two rules that differ most, and in which plane.
    Rules {
        /// The one.
        one: PutBack,
        /// The other.
        other: PutBack,
        /// In the rear joint's plane.
        rear: bool,
    },
    /// What is said of the run-out.
    RunOut {
        /// What to do; `None` before it is welded.
        drive: Option<Drive>,
        /// The turn that it is judged by, from 0.
        pass: usize,
        /// Whether that was read after welding.
        welded: bool,
    },
    /// What the larger of both planes comes to as a grade, standing still and at speed.
    Grows {
        /// As it was read.
        still: f64,
        /// Bowed out at top speed.
        grown: f64,
    },
}

/// Why a weight, or what is out of balance, is not good.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum WeightReason {
    /// It would stand on the tube's seam.
    OnTheSeam {
        /// To keep off it, to either side.
        keep: Angle,
        /// Two beside it do the same.
        split: bool,
    },
    /// It would stand on the line through the ears.
    OnTheEars {
        /// To keep off it, to either side.
        keep: Angle,
        /// Two beside it do the same.
        split: bool,
    },
    /// It would stand on a weight that is there.
    OnAWeight {
        /// Two beside it do the same.
        split: bool,
    },
    /// It, or one of the two that do its work, would touch another weight that goes back.
    TouchesAnother {
        /// The one that does the work of both; `None` where it must not stand there either.
        both: Option<Piece>,
    },
    /// Stage True says stop: weights would hide a crooked tube.
    TrueItFirst,
    /// It would lie on a yoke, beyond the tube's end, or reach over it.
    OffTheTube,
    /// The tube alone weighs more than the whole shaft is said to.
    TubeHeavier {
        /// The tube.
        tube: Mass,
    },
    /// The tube ends before it begins.
    NoTubeLeft,
    /// Too near the whirl speed to be judged as rigid.
    NotRigid {
        /// The share of the whirl speed up to which it is.
        share: f64,
    },
    /// The shaft did not turn about its own joints.
    OtherAxis,
    /// Read before welding: judged by what is read after it.
    AfterWelding,
    /// Inside G 16 as it was read, but bowed out at top speed it may be past it.
    GrowsPastSixteen,
    /// Over G 16, inside G 40.
    OverSixteen,
    /// Within its ± of G 16.
    NearSixteen,
    /// Over G 40.
    OverForty,
    /// Inside G 40, and within its ± of it.
    NearForty,
}
