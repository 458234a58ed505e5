//! What balancing on the car finds, as plain data: names, reasons and senses of its own.

use super::Kept;
use crate::job::{End, RunsMade};
use crate::quantity::{Angle, AngularVelocity, Force, Length, Mass, RoadSpeed};

/// Where a correction goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Plane {
    /// At the one end that weights are put at.
    One,
    /// At the gearbox end, of two.
    Front,
    /// At the axle end, of two.
    Rear,
}

/// What is found.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum OnTheCar {
    /// The whole of it, while nobody asked for it.
    Asked,
    /// What to put on.
    PutOn(Plane),
    /// How two clips make it.
    Screws(Plane),
    /// What is left to read with it.
    Expected(Plane),
    /// How fast the runs are.
    Speed,
    /// How heavy a trial may be.
    MostTrial,
    /// How much a trial must change.
    LeastChange,
    /// How much the weakest of them changed.
    Effect,
    /// How far the readings disagree.
    Apart,
    /// How well the two ends are told apart.
    Told,
    /// What came of the correction.
    Check(Plane),
    /// What is welded on in place of the clips.
    Kept(Plane),
}

impl OnTheCar {
    /// Its code in the page.
    pub fn code(self) -> String {
        let (name, plane) = match self {
            OnTheCar::Asked => ("BalanceAsked", Plane::One),
            OnTheCar::PutOn(plane) => ("PutOn", plane),
            OnTheCar::Screws(plane) => ("Screws", plane),
            OnTheCar::Expected(plane) => ("ExpectedLeft", plane),
            OnTheCar::Speed => ("SpeedOfRuns", Plane::One),
            OnTheCar::MostTrial => ("MostTrial", Plane::One),
            OnTheCar::LeastChange => ("LeastChange", Plane::One),
            OnTheCar::Effect => ("TrialEffect", Plane::One),
            OnTheCar::Apart => ("ReadingsApart", Plane::One),
            OnTheCar::Told => ("EndsTold", Plane::One),
            OnTheCar::Check(plane) => ("CheckRun", plane),
            OnTheCar::Kept(plane) => ("Kept", plane),
        };
        let end = match plane {
            Plane::One => "",
            Plane::Front => "-front",
            Plane::Rear => "-rear",
        };
        format!("{name}{end}")
    }
}

/// Why a verdict is not good.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum RunReason {
    /// Balancing on the car is for a shaft that shakes.
    IfItShakes,
    /// What must be so was not said to be so.
    NotReady,
    /// No instrument reads the same twice.
    NoScatter,
    /// The runs were made for other ends than those chosen now.
    OtherRuns {
        /// What they were made for.
        made: RunsMade,
    },
    /// The first run reads nothing that stands clear of the scatter.
    NothingShakes,
    /// Two trials leave two answers, mirrored.
    TwoAnswers {
        /// Mass and place of each.
        pair: [(Mass, Angle); 2],
    },
    /// All trials sat in one place.
    SamePlace,
    /// Both runs with a trial, each at its own end, read the same.
    SameRuns,
    /// No trial changed anything by more than the scatter.
    NoEffect {
        /// The effect, in scatters.
        times: f64,
        /// What is enough.
        needed: f64,
    },
    /// A reading of nothing, which no instrument shows of a shaft that turns.
    ReadsNothing,
    /// Numbers too far apart to be reckoned with.
    NoSum,
    /// The readings cannot all be right.
    Disagree {
        /// The scatter from which on luck would leave as much.
        scatter: f64,
    },
    /// They may all be right, but luck leaves so much once in twenty times at the most.
    HardlyAgree {
        /// The scatter from which on it would be less seldom.
        scatter: f64,
    },
    /// The two ends cannot be told apart.
    NotTold {
        /// How much worse the badly told direction is than the well told one.
        condition: f64,
    },
    /// Told apart, but not well.
    BarelyTold {
        /// The same.
        condition: f64,
    },
    /// A trial pulls harder than is usual.
    HeavyTrial {
        /// The most.
        most: Mass,
    },
    /// Two heads make no trial as light as is allowed.
    NoTrialByHeads {
        /// Heads that do.
        head: Mass,
        /// Or the speed at which these do.
        speed: AngularVelocity,
    },
    /// No trial as light as is allowed shows in the readings.
    NoTrialShows {
        /// One that does.
        least: Mass,
    },
    /// A trial pulls harder than the shaft's end weighs.
    TooHeavyTrial {
        /// The most.
        most: Mass,
    },
    /// The runs are faster than the share of the whirl speed that is allowed.
    OverWhirl {
        /// The share.
        allowed: f64,
    },
    /// The runs are faster than wheels are run off the ground.
    FastOnTheRoad,
    /// A correction pulls harder than a trial may.
    HeavyCorrection {
        /// A tenth of what rests on that end.
        tenth: Force,
    },
    /// A correction pulls harder than the shaft's end weighs.
    TooHeavyCorrection {
        /// What rests on that end.
        load: Force,
    },
    /// A trial changed too little to be read well.
    SmallEffect {
        /// The least, in scatters.
        least: f64,
    },
    /// A trial turned and changed the vibration by less than is usual.
    SmallChange,
    /// Two such heads do not make it.
    LightHeads {
        /// What each had to weigh.
        needed: Mass,
    },
    /// It is not known well enough to say that it helps.
    NotKnownEnough,
    /// The check run is no better than the first one.
    NoBetter,
    /// How hard it pulls at the speed of the runs, or what rests on that end, is not known.
    PullUnknown,
    /// It shakes more than before, beyond what readings change by themselves.
    Worse,
    /// Better, but not as was predicted.
    NotAsPredicted,
    /// More than was predicted, at an end that had nothing to gain.
    MoreThanPredicted,
    /// The check run was not good: nothing is welded on.
    NotKept,
    /// It must not stand there, and no two beside it do its work.
    NoPlaceToKeep,
}

/// How well readings agree.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Agreement {
    /// As luck leaves them.
    Agree,
    /// As luck seldom leaves them.
    Hardly,
    /// They cannot all be right.
    No,
}

/// What becomes of the clips after a good check run.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Clips {
    /// Nothing was put on at this end.
    None,
    /// A weight that is kept takes their place.
    Kept,
    /// What takes their place is not told yet, or cannot be.
    NotTold,
}

/// Which way a value is meant.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum RunSense {
    /// Put it on there.
    PutOn {
        /// The end, where there is but one to put weights at.
        end: Option<End>,
        /// Place on the clock.
        at: Angle,
        /// Its ± at 95 %; `None` where every place is possible.
        doubt: Option<Angle>,
        /// Distance from the axis.
        radius: Length,
        /// Beside the trial that stays on.
        added: bool,
        /// The force of all that is then on, where the run's speed is known.
        pull: Option<Force>,
        /// It is the last thing before the check run, which was not read yet.
        check_next: bool,
    },
    /// Nothing to correct that these readings can see.
    Nothing,
    /// It shakes, and what cures it is less known than it is large.
    NotKnown {
        /// Where it came out.
        at: Angle,
        /// Its ± at 95 %.
        doubt: Mass,
    },
    /// It would gain no more than the scatter.
    StopHere,
    /// The check run was good: nothing more is put on.
    Done {
        /// What it read.
        came: f64,
        /// What was read before.
        before: f64,
        /// What becomes of the clips of this end.
        clips: Clips,
    },
    /// As a ratio.
    ToOne {
        /// Of the weights at two ends.
        ends: bool,
    },
    /// Two screw heads.
    Screws {
        /// How far each stands from the middle.
        half: Angle,
        /// Places of both.
        at: [Angle; 2],
        /// The middle between both.
        middle: Angle,
        /// One of them alone at the middle does it as well, within the ±.
        alone: bool,
    },
    /// It was read before.
    Was {
        /// The first run.
        first: f64,
    },
    /// What else that speed is, where it is known.
    AtThatSpeed {
        /// As a share of the whirl speed.
        share: Option<f64>,
        /// On the speedometer.
        road: Option<RoadSpeed>,
    },
    /// As a pull, and by two heads.
    AsClips {
        /// What one head weighs.
        head: Mass,
        /// How far each stands from the middle; `None` where both side by side are lighter.
        half: Option<Angle>,
        /// That is farther than they can be set.
        far: bool,
    },
    /// In the reading's own unit, times the scatter.
    TimesScatter {
        /// So many.
        least: f64,
        /// With phase it shall also change by a share or an angle.
        phase: bool,
    },
    /// Allowed by luck.
    ByLuck {
        /// Degrees of freedom.
        freedom: f64,
        /// How well they agree.
        agree: Agreement,
    },
    /// What is welded on, and where.
    Kept(Kept),
    /// What was predicted, and what it was.
    Predicted {
        /// Predicted.
        left: f64,
        /// Its ±.
        doubt: f64,
        /// What it read before, in the first run or with the trial that stays on.
        before: f64,
        /// Nothing more can be told by these readings.
        done: bool,
    },
}
