//! What a stage finds, as plain data.

use super::amount::Amount;
use super::balance::OnTheCar;
pub use super::basis::{Law, Source};
use super::check::Fit;
use super::complaint::Complaint;
pub use super::reason::Reason;
pub use super::sense::{Against, Reset, Sense, Shaken, TackSide};
use crate::job::Entry;
use crate::mechanics::budget::Budget;
use crate::quantity::{Base, Length};

/// One list of the findings, so that each has a code that the page can be asked by.
macro_rules! names {
    ($($name:ident,)+) => {
        /// What is found.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
        #[allow(missing_docs)] // each is a name; its words stand in sheet
        pub enum Name {
            $($name,)+
            PutBack(usize),
            OnTheCar(OnTheCar),
            Fit(Fit),
        }

        impl Name {
            /// Its code in the page.
            pub fn code(self) -> String {
                let fixed = match self {
                    $(Name::$name => stringify!($name),)+
                    Name::PutBack(row) => return format!("PutBack-{row}"),
                    Name::OnTheCar(found) => return found.code(),
                    Name::Fit(fit) => fit.code(),
                };
                fixed.to_owned()
            }
        }
    };
}

names! {
    LengthChange,
    WantedLength,
    RoutesDiffer,
    SetPoint,
    PlungeIn,
    PlungeOut,
    EngagedSpline,
    LipBand,
    ShakeUnderPower,
    ShakeAtRide,
    FrontJoint,
    RearJoint,
    SmoothUpTo,
    ShaftLies,
    SpeedSwing,
    ShakeAtBump,
    ShakeAtDroop,
    PlaneTwist,
    PinionParallel,
    PinionIntersecting,
    GearboxMount,
    PhaseForTwist,
    PhaseCost,
    WhirlSpeed,
    SpeedShare,
    TubeRemoved,
    FinishedLength,
    ScrapRing,
    NewTube,
    WeldLine,
    SpigotFit,
    FaceError,
    FaceFound,
    ClockStep,
    PhaseError,
    PhaseArc,
    PhaseTarget,
    PhaseWelded,
    TotalReading,
    OffsetReading,
    Correction,
    Ovality,
    Leftover,
    WeldPull,
    WorstAlong,
    SetAside,
    DialDrift,
    JointOpens,
    LastMove,
    TackFrom,
    WeldFrom,
    BentBy,
    NothingToPutBack,
    LeftFront,
    LeftRear,
    PutFront,
    PutRear,
    RulesDiffer,
    RunOutGrade,
    RunOutFront,
    RunOutRear,
    BowGrows,
    CancelFront,
    CancelRear,
}

/// A value with its ± at 95 %.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Value {
    /// The value, without a sign where a sense says which way.
    pub amount: Amount,
    /// Its half-width at 95 %; `None` for a limit to keep to, or a spread, which is itself such a width.
    pub plus_minus: Option<Amount>,
    /// Which way.
    pub sense: Option<Sense>,
}

/// A field that stands in the way of a finding.
#[derive(Clone, Debug, PartialEq)]
pub struct Need {
    /// The field.
    pub entry: Entry,
    /// What is the matter with it.
    pub why: Why,
}

/// What is the matter with a needed field.
#[derive(Clone, Debug, PartialEq)]
pub enum Why {
    /// It is empty.
    Empty,
    /// What stands in it cannot be used.
    Wrong(Complaint),
}

/// What came out.
#[derive(Clone, Debug, PartialEq)]
pub enum Answer {
    /// A value.
    Known(Value),
    /// Nothing yet: these fields are needed.
    Missing(Vec<Need>),
    /// Nothing: the numbers given cannot be put together, or its time has not come yet.
    Impossible(Reason),
}

/// Why nothing came out.
#[derive(Clone, Debug, PartialEq)]
pub enum Blocked {
    /// These fields are needed.
    Missing(Vec<Need>),
    /// The numbers given cannot be put together.
    Impossible(Reason),
}

/// What to make of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Verdict {
    /// Go on.
    Good,
    /// Go on with care, for this reason.
    Watch(Reason),
    /// Do not go on before this is mended.
    Stop(Reason),
    /// A figure to work with; nothing to judge.
    Figure,
    /// Not known yet: something is missing.
    NotYet,
    /// A value stands, but what it is judged by is missing.
    Unjudged(Reason),
    /// Nobody asked for it, and nothing waits for it.
    IfWanted,
}

/// A limit with its source.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Limit {
    /// The limit.
    pub amount: Amount,
    /// Where it comes from.
    pub source: Source,
}

/// One line of working: a law, the numbers put in, what comes out.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// The law.
    pub law: Law,
    /// The numbers put in, in the order in which the law names them.
    pub put_in: Vec<Amount>,
    /// The result.
    pub gives: Amount,
}

/// One finding of a stage.
#[derive(Clone, Debug, PartialEq)]
pub struct Finding {
    /// What it is.
    pub name: Name,
    /// What came out.
    pub answer: Answer,
    /// What to make of it.
    pub verdict: Verdict,
    /// The limit it was judged by.
    pub limit: Option<Limit>,
    /// The working, line by line.
    pub working: Vec<Step>,
    /// Where the formulas come from.
    pub sources: Vec<Source>,
    /// What makes the ±, as shares of its square, largest first.
    pub causes: Vec<(Entry, f64)>,
}

impl Finding {
    /// A finding with a value. A number that cannot be shown is caught here, so that none gets past.
    #[inline(never)]
    pub(super) fn known(name: Name, value: Value, verdict: Verdict) -> Finding {
        let fine = value.amount.is_finite() && value.plus_minus.is_none_or(Amount::is_finite);
        if !fine {
            return Finding::impossible(name, Reason::NotComputable);
        }
        Finding {
            name,
            answer: Answer::Known(value),
            verdict,
            limit: None,
            working: Vec::new(),
            sources: Vec::new(),
            causes: Vec::new(),
        }
    }

    /// A finding that waits for fields.
    pub(super) fn missing(name: Name, needs: Vec<Need>) -> Finding {
        Finding {
            name,
            answer: Answer::Missing(needs),
            verdict: Verdict::NotYet,
            limit: None,
            working: Vec::new(),
            sources: Vec::new(),
            causes: Vec::new(),
        }
    }

    /// A finding whose numbers cannot be put together.
    pub(super) fn impossible(name: Name, reason: Reason) -> Finding {
        Finding {
            name,
            answer: Answer::Impossible(reason),
            verdict: Verdict::Stop(reason),
            limit: None,
            working: Vec::new(),
            sources: Vec::new(),
            causes: Vec::new(),
        }
    }

    /// A finding whose time has not come yet: nothing is asked for, and nothing is good before it.
    pub(super) fn later(name: Name, reason: Reason) -> Finding {
        Finding { verdict: Verdict::Unjudged(reason), ..Finding::impossible(name, reason) }
    }

    /// A finding that nobody asked for, and that nothing waits for.
    pub(super) fn if_wanted(name: Name, reason: Reason) -> Finding {
        Finding { verdict: Verdict::IfWanted, ..Finding::impossible(name, reason) }
    }

    /// A finding that nothing came out of.
    pub(super) fn blocked(name: Name, blocked: Blocked) -> Finding {
        match blocked {
            Blocked::Missing(needs) => Finding::missing(name, needs),
            Blocked::Impossible(reason) => Finding::impossible(name, reason),
        }
    }

    /// Adds a working line, unless a number in it cannot be shown.
    #[inline(never)]
    pub(super) fn step(mut self, law: Law, put_in: &[Amount], gives: Amount) -> Finding {
        if gives.is_finite() && put_in.iter().all(|amount| amount.is_finite()) {
            self.working.push(Step { law, put_in: put_in.to_vec(), gives });
        }
        self
    }

    /// Adds where it comes from.
    #[inline(never)]
    pub(super) fn from(mut self, sources: &[Source]) -> Finding {
        self.sources.extend_from_slice(sources);
        self
    }

    /// Adds what each measurement does to the ±, largest first.
    pub(super) fn caused_by(mut self, budget: &Budget<Entry>) -> Finding {
        let whole = budget.measured().spread.standard.base();
        if whole > 0.0 {
            let share = |part: Length| (part.base() / whole).powi(2);
            self.causes =
                budget.causes().into_iter().map(|(entry, part)| (entry, share(part))).collect();
        }
        self
    }

    /// Adds the limit it was judged by.
    #[inline(never)]
    pub(super) fn within(mut self, amount: Amount, source: Source) -> Finding {
        self.limit = Some(Limit { amount, source });
        self
    }

    /// Every source it rests on, the limit's among them, each once.
    pub fn all_sources(&self) -> Vec<Source> {
        let mut all = self.sources.clone();
        if let Some(limit) = self.limit.filter(|limit| !all.contains(&limit.source)) {
            all.push(limit.source);
        }
        all
    }

    /// The value, where there is one.
    pub fn value(&self) -> Option<Value> {
        match self.answer {
            Answer::Known(value) => Some(value),
            _ => None,
        }
    }
}

/// What can hurt someone, worded elsewhere.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)] // each is a name; its words stand in sheet
pub enum Caution {
    LoadedSuspension,
    ChockBothWays,
    EstimateOnly,
    SupportTheShaft,
    CuttingThinTube,
    ScrapTube,
    OutOfPhaseOnPurpose,
    MarkFirst,
    TurnByHand,
    BeforeWelding,
    HeatSparingly,
    NotABalancingMachine,
    NobodyInThePlane,
    AxleLoaded,
    BothWheelsOn,
    ChockWhatStands,
    SpeedCap,
    ControlsOff,
    FumesOut,
    StopSignal,
    ClipsLookedAt,
    ShortRuns,
}
