//! What Check finds, as plain data: names, reasons and senses of its own.

use crate::quantity::{Angle, AngularVelocity, Length, Mass, RoadSpeed, SpringRate, Torque};

/// What is found.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Fit {
    /// The fastest the shaft turns.
    TopSpeed,
    /// First bending speed by elements, held rigidly.
    Elements,
    /// The same before the change.
    ElementsBefore,
    /// The same, with what holds it giving way.
    Soft,
    /// How soft what holds it may be.
    Softest,
    /// Cruising speed against half of the whirl speed.
    Half,
    /// Torque by the engine.
    ByEngine,
    /// Torque at which the wheels slip.
    BySlip,
    /// Shear in the tube.
    Shear,
    /// Thin wall folding under torque.
    Folds,
    /// How far the tube winds up.
    Twist,
    /// Leg of the weld.
    Weld,
    /// Shear in the splined part.
    Spline,
    /// Rating of the joints.
    Joints,
}

impl Fit {
    /// Its code in the page.
    pub const fn code(self) -> &'static str {
        match self {
            Fit::TopSpeed => "ShaftTopSpeed",
            Fit::Elements => "WhirlByElements",
            Fit::ElementsBefore => "WhirlBefore",
            Fit::Soft => "WhirlHeldSoftly",
            Fit::Softest => "SoftestHold",
            Fit::Half => "HalfOfWhirl",
            Fit::ByEngine => "TorqueByEngine",
            Fit::BySlip => "TorqueBySlip",
            Fit::Shear => "ShearInTube",
            Fit::Folds => "TubeFolds",
            Fit::Twist => "TubeWindsUp",
            Fit::Weld => "WeldLeg",
            Fit::Spline => "ShearInSpline",
            Fit::Joints => "JointRating",
        }
    }
}

/// What makes the shaft turn as fast as it does.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Fastest {
    /// The mechanic says so.
    Typed,
    /// The engine at its top speed in this gear, from 0.
    Gear(usize),
    /// The fastest on the road.
    Road(RoadSpeed),
}

/// Which of two torques counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Governs {
    /// This one, the lesser.
    Lesser,
    /// This one, as long as the other is not known.
    Alone,
    /// The other.
    Never,
}

/// Why a verdict is not good.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum FitReason {
    /// Engine and gears, or tyre and axle, make it turn faster than was typed.
    FasterThanTyped {
        /// So fast.
        reckoned: AngularVelocity,
    },
    /// Of the gears that are given the highest may be missing.
    IsItTheHighest,
    /// The engine alone can turn it past the share of the whirl speed that is allowed.
    SpinsPastWhirl {
        /// So fast.
        engine: AngularVelocity,
        /// The share.
        allowed: f64,
    },
    /// Only what is driven on the road is known: the engine may turn it faster.
    RoadOnly,
    /// Yokes that weigh more than the whole shaft.
    YokesHeavier {
        /// Both.
        yokes: Mass,
        /// The shaft.
        whole: Mass,
    },
    /// What holds it is too soft.
    SoftHold {
        /// Least stiffness, the same at both ends.
        least: SpringRate,
    },
    /// It was typed faster than anything makes it.
    NothingMakesIt {
        /// The fastest of what does.
        reckoned: AngularVelocity,
    },
    /// The yokes weigh nothing, or the parts do not fit into the length.
    NoSuchShaft,
    /// The beam cannot be reckoned.
    NotReckoned,
    /// Cruising within this share of half the whirl speed.
    NearHalf {
        /// Whirl speed to keep clear of, halved.
        half: AngularVelocity,
    },
    /// Cruising clear of both halves, but between them: how softly it is really held is not known.
    BetweenHalves {
        /// Half the whirl speed, held as softly as was typed.
        low: AngularVelocity,
        /// Held rigidly.
        high: AngularVelocity,
    },
    /// Breaks, folds or yields under that torque.
    Fails,
    /// Holds it, but not the double of it.
    NotTwice,
    /// The weld is to be larger.
    SmallWeld {
        /// The leg that is needed.
        needed: Length,
    },
    /// It carries the torque, but not twice.
    WeldNotTwice {
        /// The leg for twice the torque.
        needed: Length,
    },
    /// Not even a weld as thick as the wall bears it.
    WallTooThin {
        /// The wall.
        wall: Length,
    },
    /// A weld as thick as the wall bears it, but not twice.
    WallNotTwice {
        /// The wall.
        wall: Length,
    },
    /// Nobody said how large the weld will be.
    LegNotGiven,
    /// What is no metal is not welded.
    NotWelded,
    /// Beside the weld a drawn tube may not bear twice the torque.
    DrawnSoftens,
    /// The joints are rated for less.
    OverRating {
        /// The rating.
        rating: Torque,
    },
    /// The joints work at more than they are rated up to.
    OverRatedAngle,
    /// The working angle is not known yet.
    AngleUnknown,
    /// Of the splined part nothing was said.
    SplineNotAsked,
    /// Of the joints' rating nothing was said.
    JointsNotAsked,
}

/// Which way a value is meant.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum FitSense {
    /// The fastest case, and what the other would be.
    Fastest {
        /// What makes it so.
        by: Fastest,
        /// Whether the engine could turn it faster than this.
        engine: Option<AngularVelocity>,
    },
    /// Second and third bending speed, and top speed as a share of the first.
    Modes {
        /// Second and third.
        next: [AngularVelocity; 2],
        /// Top speed as a share of the first, where it is known.
        share: Option<f64>,
    },
    /// The old length.
    OldLength(Length),
    /// Held so softly.
    Held {
        /// Front and rear; `None` is rigid.
        by: [Option<SpringRate>; 2],
        /// Top speed as a share of it, where that is known.
        share: Option<f64>,
    },
    /// At this softness the share is used up.
    UsedUp {
        /// What is allowed.
        allowed: f64,
    },
    /// Half the whirl speed, and how far the cruising speed is from it.
    FromHalf {
        /// Half the whirl speed.
        half: AngularVelocity,
        /// Cruising speed on the road.
        road: RoadSpeed,
        /// It holds only where the joints are held hard, which was not given.
        if_rigid: bool,
    },
    /// Whether this torque is the one that counts.
    Governs(Governs),
    /// So many times stronger than is asked.
    Factor(f64),
    /// The rating, so many times the torque; where the joints work, and up to where they are rated.
    Rated {
        /// Times the torque.
        factor: f64,
        /// The larger working angle, under power.
        works_at: Option<Angle>,
        /// As its maker says.
        rated_to: Option<Angle>,
    },
    /// The leg that is needed, and what the given one is worth.
    Leg {
        /// Given.
        given: Option<Length>,
        /// How many times stronger the given one is.
        factor: Option<f64>,
    },
}
