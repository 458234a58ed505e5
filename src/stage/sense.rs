//! Which way a value is meant, as plain data.

use super::balance::RunSense;
use super::bent::BentBy;
use super::check::FitSense;
use super::dial::AsideBy;
use super::weights::WeightSense;
use crate::mechanics::aim::Answered;
use crate::mechanics::centreline::Cause;
use crate::quantity::{Angle, AngularAcceleration, AngularVelocity, Length};

/// The side that is tacked or welded first.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TackSide {
    /// The high side, where the dial stands.
    High,
    /// The high side of the kink at the weld, which need not be high where the dial stands.
    Kink,
    /// Any: none is to be drawn in.
    Any,
}

/// Which way a value is meant.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Sense {
    /// To be taken out.
    Remove,
    /// To be added.
    Add,
    /// Too small to cut for.
    LeaveAlone,
    /// Of so much that there is.
    Of {
        /// What there is.
        available: Length,
    },
    /// From the value to here.
    UpTo {
        /// The other end.
        to: Length,
    },
    /// A spigot larger than its bore.
    Tight,
    /// A spigot smaller than its bore, so that it can lean.
    Loose {
        /// So far.
        lean: Angle,
    },
    /// To be filed or ground off.
    FileBack,
    /// The face stands out at this place: file there.
    FileAt(Angle),
    /// Comes out that near to what was wanted.
    Closes {
        /// What was wanted.
        wanted: Length,
    },
    /// Turn the cut end's yoke clockwise, seen from the rear.
    TurnClockwise,
    /// Turn the cut end's yoke counter-clockwise, seen from the rear.
    TurnCounterclockwise,
    /// The rear yoke stands clockwise of its place, seen from the rear.
    StandsClockwise,
    /// The rear yoke stands counter-clockwise of its place, seen from the rear.
    StandsCounterclockwise,
    /// At this place on the clock.
    At(Angle),
    /// Two lobes, at this place and opposite.
    LobesAt(Angle),
    /// Tap the tube at this place toward the place opposite.
    Tap {
        /// The place.
        at: Angle,
        /// How far the dial is to move there.
        by: Length,
        /// How the tube answered to the taps before, where that is allowed for.
        answered: Option<Answered>,
        /// It is inside the limit and need not be done.
        may_stay: bool,
    },
    /// The reading that fits least.
    FitsLeast(Angle),
    /// High at this place, and no tap at the weld mends it.
    NotHere {
        /// The place.
        at: Angle,
        /// What makes it.
        cause: Cause,
        /// High side of a kink at the weld that is there as well.
        kink: Option<Angle>,
    },
    /// What the tube moved since the pass before.
    Moved {
        /// To this side.
        toward: Angle,
        /// How that answers to what was asked.
        answered: Option<Answered>,
        /// It is something else than was asked.
        elsewhere: bool,
    },
    /// The joint opens at this side.
    OpenAt(Angle),
    /// Tack or weld from this place on, then opposite, then the quarters.
    InThisOrder {
        /// The place.
        from: Angle,
        /// Which side that is.
        side: TackSide,
    },
    /// Readings that do not count.
    SetAside {
        /// Where the most of them stands.
        at: Angle,
        /// It stands out, not in.
        out: bool,
        /// How many there are.
        count: usize,
        /// Who set them aside.
        by: AsideBy,
    },
    /// It was spread over the turn and taken out.
    TakenOut,
    /// At one of the places along the tube.
    AtPlace(usize),
    /// What the offsets along the tube come from.
    Bent(BentBy),
    /// Welded: heat small spots at this place.
    HeatAt(Angle),
    /// Welded, high at this place, and nothing to be done about it.
    LeaveWelded(Angle),
    /// High at this place, and nothing to do about it at home.
    LeaveToShop(Angle),
    /// As one joint of this angle would; both joints' own angles.
    AsOneJoint {
        /// That angle.
        angle: Angle,
        /// The front joint's.
        front: Angle,
        /// The rear joint's.
        rear: Angle,
    },
    /// Shakes the shaft by so much.
    ShakesShaft(AngularAcceleration),
    /// The speed at which the first of them comes to its limit.
    LimitedBy {
        /// Speed of the shaft.
        shaft: AngularVelocity,
        /// What comes to its limit.
        by: Shaken,
    },
    /// Than the old shaft, which lay so.
    Steeper {
        /// By so much, + steeper downward to the rear.
        by: Angle,
        /// The old slope.
        was: Angle,
    },
    /// The shaft's own swing, and the pinion's lead from end to end.
    ShaftSwings {
        /// Share of the speed, either way.
        share: f64,
        /// Peak to peak.
        lead: Angle,
    },
    /// The rear joint's plane clockwise from the front one's.
    TwistClockwise,
    /// The rear joint's plane counter-clockwise from the front one's.
    TwistCounterclockwise,
    /// A straight joint has no plane.
    NoPlane,
    /// Instead of this, with the turn that was wanted.
    InsteadOf(AngularAcceleration),
    /// A change and what comes of it.
    Reset(Reset),
    /// Of balancing on the car.
    OnTheCar(RunSense),
    /// What is said of the shaft's fitness.
    Fit(FitSense),
    /// Of a weight, or of what is out of balance.
    Weight(WeightSense),
}

/// What the joints shake.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shaken {
    /// The pinion, under power.
    Pinion,
    /// The shaft, in drive.
    Drive,
    /// The shaft, driven by the axle.
    Coast,
}

/// What speaks against a change.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Against {
    /// It leaves about as much as there is now, or more.
    NoBetter,
    /// More than wedges are made for.
    TooMuchForAWedge {
        /// What they are made for.
        most: Angle,
    },
    /// A joint would work at too large an angle for the top speed.
    TooSharp {
        /// Most angle at top speed.
        allowed: Angle,
    },
    /// A joint would be too straight for needle bearings.
    TooStraight {
        /// Least angle.
        least: Angle,
    },
    /// Parallel, with joints past the published bound of that layout.
    Parallel {
        /// The bound.
        allowed: Angle,
    },
    /// The pinion would still be shaken too much.
    Shakes {
        /// The limit.
        allowed: AngularAcceleration,
    },
}

/// A change and what comes of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reset {
    /// The slope or turn to set, without power on it.
    pub to: Angle,
    /// Pinion's nose up, gearbox's tail down, or yoke clockwise.
    pub plus: bool,
    /// Too small to set.
    pub leave: bool,
    /// Thickness of the wedge, or height of the shim.
    pub thick: Option<Length>,
    /// The pinion's shake that is left, under power.
    pub left: AngularAcceleration,
    /// Both joints' angles then.
    pub joints: [Angle; 2],
    /// What speaks against it.
    pub against: Option<Against>,
}
