//! One file a stage: the job in, findings out. Plain data: a value with its ±, the working, the limit
//! with its source, a verdict, and what is still missing. No words for people, nothing of the web.

mod along;
mod amount;
pub mod angles;
mod at_weld;
pub mod balance;
mod basis;
mod bent;
mod bounds;
pub mod check;
mod complaint;
pub mod cut;
mod cut_list;
mod dial;
mod face;
mod field;
mod finding;
mod joint;
mod judged;
mod length;
mod line;
pub mod measure;
mod odd;
pub mod passes;
pub mod phase;
mod range;
mod reason;
mod reckoned;
mod reset;
pub mod seal;
mod sense;
mod setting;
mod shape;
pub mod slip;
pub mod strip;
mod tapping;
pub mod tilt;
pub mod truing;
mod turn;
pub mod weights;
mod whole;
mod yokes;

pub use crate::mechanics::aim::Answered;
pub use crate::mechanics::centreline::Cause;
pub use amount::Amount;
pub use bent::BentBy;
pub use complaint::Complaint;
pub use dial::AsideBy;
pub use field::read;
pub use finding::{
    Against, Answer, Blocked, Caution, Finding, Law, Limit, Name, Need, Reason, Reset, Sense, Shaken,
    Source, Step, TackSide, Value, Verdict, Why,
};
pub use range::{allowed, may_be_negative};
pub use whole::{Standing, Whole, standing, whole};

use crate::job::{Entry, Job};

/// A stage of the work.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Stage {
    /// Old and wanted length.
    Measure,
    /// How gearbox, shaft and pinion lie.
    Angles,
    /// Speed.
    Check,
    /// The cut.
    Cut,
    /// Phase of the yokes.
    Phase,
    /// Run-out.
    True,
    /// Balance weights.
    Weights,
    /// Balance on the car.
    Balance,
}

impl Stage {
    /// Every stage, in the order of the work.
    pub const ALL: [Stage; 8] = [
        Stage::Measure,
        Stage::Angles,
        Stage::Check,
        Stage::Cut,
        Stage::Phase,
        Stage::True,
        Stage::Weights,
        Stage::Balance,
    ];

    /// The stage's name in an address.
    pub const fn slug(self) -> &'static str {
        match self {
            Stage::Measure => "measure",
            Stage::Angles => "angles",
            Stage::Check => "check",
            Stage::Cut => "cut",
            Stage::Phase => "phase",
            Stage::True => "true",
            Stage::Weights => "weights",
            Stage::Balance => "balance",
        }
    }

    /// The stage of this name.
    pub fn from_slug(slug: &str) -> Option<Stage> {
        Stage::ALL.into_iter().find(|stage| stage.slug() == slug)
    }

    /// The stage at which a field is asked first.
    pub const fn of(entry: Entry) -> Stage {
        match entry {
            Entry::OldReading(_)
            | Entry::WantedReading(_)
            | Entry::EndsReading(_)
            | Entry::SetPoint
            | Entry::TakenAt
            | Entry::SplineLength
            | Entry::LeastEngaged
            | Entry::BumpRoom
            | Entry::BumpTravel
            | Entry::DroopTravel
            | Entry::AtBump
            | Entry::AtRide
            | Entry::AtDroop
            | Entry::ShaftSlope
            | Entry::LinkRadius
            | Entry::LinkRise
            | Entry::BottomedGap
            | Entry::LipDepth
            | Entry::BarrelLength
            | Entry::GroovePlace
            | Entry::GrooveWidth
            | Entry::GrooveMargin
            | Entry::FrontCup
            | Entry::RearCup
            | Entry::FrontEar
            | Entry::RearEar
            | Entry::WantedFrontEar
            | Entry::WantedRearEar
            | Entry::FrontDepth
            | Entry::RearDepth => Stage::Measure,
            Entry::GearboxSlope(_)
            | Entry::ShaftSlopeRead(_)
            | Entry::PinionSlope(_)
            | Entry::FrontHeight
            | Entry::RearHeight
            | Entry::OneWay
            | Entry::TurnedRound
            | Entry::SideOffset
            | Entry::GearboxPlan
            | Entry::ShaftPlan
            | Entry::PinionPlan
            | Entry::PowerRise
            | Entry::PinionArm
            | Entry::JointMost
            | Entry::JointOverhang
            | Entry::BumpRise
            | Entry::DroopRise
            | Entry::TorsionalLimit
            | Entry::InertiaLimit
            | Entry::LeastAngle
            | Entry::RoadSpeed
            | Entry::SpringPad
            | Entry::MountArm => Stage::Angles,
            Entry::TubeDiameter
            | Entry::TubeWall
            | Entry::TopSpeed
            | Entry::GearRatio(_)
            | Entry::EngineLimit
            | Entry::ReverseRatio
            | Entry::LowRange
            | Entry::AxleRatio
            | Entry::TyreSize
            | Entry::TyreTurns
            | Entry::RolledOut
            | Entry::RoadTop
            | Entry::Cruise
            | Entry::Modulus
            | Entry::ShearModulus
            | Entry::Density
            | Entry::FrontYokeMass
            | Entry::RearYokeMass
            | Entry::SlipMass
            | Entry::FrontSupport
            | Entry::RearSupport
            | Entry::StepAt
            | Entry::StepDiameter
            | Entry::StepWall
            | Entry::LumpMass
            | Entry::LumpAt
            | Entry::BearingAt
            | Entry::HungBehind
            | Entry::EngineTorque
            | Entry::StallRatio
            | Entry::AxleLoad
            | Entry::Friction
            | Entry::OwnYield
            | Entry::WeldLeg
            | Entry::ElectrodeStrength
            | Entry::SplineRoot
            | Entry::SplineBore
            | Entry::SplineYield
            | Entry::JointRating
            | Entry::JointRatedTo => Stage::Check,
            Entry::WeldLine
            | Entry::FarWeldLine
            | Entry::Kerf
            | Entry::RootGap
            | Entry::Shrinkage
            | Entry::Spigot
            | Entry::SpigotDiameter
            | Entry::Shoulder
            | Entry::Trim
            | Entry::ClearBy
            | Entry::FaceReading(_)
            | Entry::SeamClock
            | Entry::OwnLimit => Stage::Cut,
            Entry::Lift(..)
            | Entry::FrontLift(..)
            | Entry::Span
            | Entry::FrontSpan
            | Entry::FrontLevel(..)
            | Entry::RearLevel(..)
            | Entry::LineArc(..)
            | Entry::OwnTarget
            | Entry::PhaseLimit => Stage::Phase,
            Entry::StationAt(..)
            | Entry::StationReading(..)
            | Entry::Closing(..)
            | Entry::Backlash
            | Entry::FrontVee
            | Entry::RearVee
            | Entry::PlaceAlong(_) => Stage::True,
            Entry::WeightMass(_)
            | Entry::WeightClock(_)
            | Entry::WeightDistance(_)
            | Entry::WeightRadius(_)
            | Entry::WeightLength(_)
            | Entry::WeightWidth(_)
            | Entry::WeightThickness(_)
            | Entry::WeightNote(_)
            | Entry::EarClock
            | Entry::FrontPlane
            | Entry::RearPlane
            | Entry::StripThickness
            | Entry::StripWidth
            | Entry::YokeTurned
            | Entry::ShaftMass => Stage::Weights,
            Entry::RunSpeed
            | Entry::ClipRadius
            | Entry::ClipMass
            | Entry::RunScatter
            | Entry::TrialMass(_)
            | Entry::TrialClock(_)
            | Entry::RunAmplitude(..)
            | Entry::RunPhase(..)
            | Entry::CheckAmplitude(_) => Stage::Balance,
        }
    }

    /// What follows from the job at this stage. For True, of its latest turn with readings.
    pub fn findings(self, job: &Job) -> Vec<Finding> {
        match self {
            Stage::Measure => measure::findings(job),
            Stage::Angles => angles::findings(job),
            Stage::Check => check::findings(job),
            Stage::Cut => cut::findings(job),
            Stage::Phase => phase::findings(job),
            Stage::True => {
                let pass = truing::latest(job);
                truing::findings(job, pass, truing::first_read(job, pass))
            }
            Stage::Weights => weights::findings(job),
            Stage::Balance => balance::findings(job),
        }
    }

    /// The first of them, which says what to do: found alone where the others cost more than it.
    pub fn first(self, job: &Job) -> Option<Finding> {
        match self {
            Stage::Measure => Some(measure::change_finding(job)),
            Stage::Angles => Some(angles::first(job)),
            Stage::Check => Some(check::first(job)),
            Stage::Cut => Some(cut::tube_finding(job)),
            Stage::Phase => phase::first(job),
            _ => self.findings(job).into_iter().next(),
        }
    }

    /// What can hurt someone at this stage.
    pub const fn cautions(self) -> &'static [Caution] {
        match self {
            Stage::Measure => {
                &[Caution::LoadedSuspension, Caution::ChockBothWays, Caution::SupportTheShaft]
            }
            Stage::Angles => &[Caution::LoadedSuspension, Caution::ChockBothWays],
            Stage::Check => &[Caution::EstimateOnly],
            Stage::Cut => &[
                Caution::MarkFirst,
                Caution::SupportTheShaft,
                Caution::CuttingThinTube,
                Caution::ScrapTube,
            ],
            Stage::Phase => &[Caution::MarkFirst, Caution::OutOfPhaseOnPurpose, Caution::BeforeWelding],
            Stage::True => &[Caution::TurnByHand, Caution::BeforeWelding, Caution::HeatSparingly],
            Stage::Weights => {
                &[Caution::NotABalancingMachine, Caution::BeforeWelding, Caution::NobodyInThePlane]
            }
            Stage::Balance => &[
                Caution::AxleLoaded,
                Caution::BothWheelsOn,
                Caution::ChockWhatStands,
                Caution::SpeedCap,
                Caution::ControlsOff,
                Caution::FumesOut,
                Caution::StopSignal,
                Caution::NobodyInThePlane,
                Caution::ClipsLookedAt,
                Caution::ShortRuns,
            ],
        }
    }
}
