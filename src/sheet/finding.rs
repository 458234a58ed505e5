//! A finding in words: its title, its value, its verdict and why.

use super::amount::{amount, doubt, opposite};
use super::balance::{balance_title, why_good, worded_run};
use super::check::{fit_good, fit_title, worded_fit};
use super::label::{cut_yoke, label, stage_title};
use super::reason::reason_words;
use super::reset::worded_reset;
use super::truing::worded_truing;
use super::weights::worded_weight;
use crate::job::{AFTER_WELDING, BEFORE_CUT, Entry, Job};
use crate::quantity::{
    Angle, Base, Length, LengthDisplay, show_acceleration, show_angle, show_clock, show_length,
    show_number, show_speed,
};
use crate::stage::measure::reading_apart;
use crate::stage::{Answer, Finding, Name, Need, Reason, Sense, Shaken, Standing, Verdict, Whole, Why};
use crate::stage::{angles, phase};

/// A finding's value in words.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Shown {
    /// The value, large: what to lay off, turn or read.
    pub value: String,
    /// Its ± at 95 %.
    pub plus_minus: Option<String>,
    /// Which way, or where.
    pub sense: Option<String>,
}

/// The name of a finding.
pub fn title(name: Name) -> String {
    let fixed = match name {
        Name::LengthChange => "Change of length",
        Name::WantedLength => "New shaft, joint to joint",
        Name::RoutesDiffer => "The two ways differ by",
        Name::SetPoint => "Slip drawn out at ride",
        Name::PlungeIn => "Goes in, at the most",
        Name::PlungeOut => "Comes out, at the most",
        Name::EngagedSpline => "Engaged spline, at the least",
        Name::LipBand => "Seal lip runs, from the shoulder",
        Name::ShakeUnderPower => "Pinion shaken, under power",
        Name::ShakeAtRide => "Pinion shaken, no load",
        Name::FrontJoint => "Front joint works at",
        Name::RearJoint => "Rear joint works at",
        Name::SmoothUpTo => "Smooth up to",
        Name::ShaftLies => "Slope of the new shaft",
        Name::SpeedSwing => "Pinion's speed swings by",
        Name::ShakeAtBump => "Pinion shaken, at full bump",
        Name::ShakeAtDroop => "Pinion shaken, at full droop",
        Name::PlaneTwist => "Planes of the two joints, apart by",
        Name::PinionParallel => "To change: pinion parallel to the gearbox",
        Name::PinionIntersecting => "Or: pinion and gearbox leaning to each other",
        Name::GearboxMount => "Or: gearbox, at its rear mount",
        Name::PhaseForTwist => "Or: yokes turned to cancel the plan view",
        Name::PhaseCost => "Pinion shaken, with the yokes so",
        Name::WhirlSpeed => "Whirl speed of the new length",
        Name::SpeedShare => "Top speed as a share of whirl",
        Name::TubeRemoved => "Tube",
        Name::FinishedLength => "Finished length, reckoned back",
        Name::ScrapRing => "Ring between the cuts",
        Name::NewTube => "New tube",
        Name::WeldLine => "Weld line against the yoke's shoulder",
        Name::SpigotFit => "Play of the spigot in the tube",
        Name::FaceFound => "Face out of square, as read",
        Name::ClockStep => "From mark to mark round the tube",
        Name::FaceError => "Face out of square, at most",
        Name::PhaseError => "Yokes out by, before tacking",
        Name::PhaseTarget => "Turn wanted, rear yoke against front",
        Name::PhaseWelded => "Yokes out by, after welding",
        Name::PhaseArc => "Arc on the tube",
        Name::TotalReading => "Total reading",
        Name::OffsetReading => "Offset, as the dial shows it",
        Name::Correction => "Tube off true by",
        Name::Ovality => "Oval, as the dial shows it",
        Name::Leftover => "Left over",
        Name::WeldPull => "Pull of the weld",
        Name::WorstAlong => "Worst of the other places, total reading",
        Name::SetAside => "Set aside",
        Name::DialDrift => "First mark, read again: off by",
        Name::JointOpens => "Joint opens at the rim by",
        Name::LastMove => "Moved since the pass before",
        Name::TackFrom => "Tack first at",
        Name::WeldFrom => "Weld first at",
        Name::BentBy => "What bends it",
        Name::NothingToPutBack => "Weights to put back",
        Name::PutBack(row) => return format!("Weight {}", row + 1),
        Name::OnTheCar(found) => balance_title(found),
        Name::Fit(fit) => fit_title(fit),
        Name::LeftFront => "What moving the weights leaves, front joint's plane",
        Name::LeftRear => "What moving the weights leaves, rear joint's plane",
        Name::PutFront => "Weight at the gearbox end",
        Name::PutRear => "Weight at the axle end",
        Name::RulesDiffer => "The rules for putting back differ by, at the most",
        Name::RunOutGrade => "Run-out alone, at top speed",
        Name::RunOutFront => "What the run-out adds, front joint's plane",
        Name::RunOutRear => "What the run-out adds, rear joint's plane",
        Name::BowGrows => "A bow grows at top speed",
        Name::CancelFront => "To cancel the run-out: weight at the gearbox end",
        Name::CancelRear => "To cancel the run-out: weight at the axle end",
    };
    fixed.to_owned()
}

/// The value of a finding in words; `None` where there is none.
pub fn shown(finding: &Finding, job: &Job) -> Option<Shown> {
    let display = job.display.lengths();
    let value = finding.value()?;
    let number = amount(value.amount, display);
    let plus_minus = value.plus_minus.map(|value| format!("± {}", doubt(value, display)));
    let (number, sense) = match value.sense {
        None => (number, None),
        Some(sense) => worded_sense(finding.name, number, sense, job),
    };
    Some(Shown { value: number, plus_minus, sense })
}

/// What a sense says: some stand before the number, others behind it.
fn worded_sense(name: Name, number: String, sense: Sense, job: &Job) -> (String, Option<String>) {
    let yoke = cut_yoke(job);
    let seen_from_rear = "seen from the rear";
    match sense {
        Sense::Remove if name == Name::LengthChange => (format!("Shorten by {number}"), None),
        Sense::Add if name == Name::LengthChange => (format!("Lengthen by {number}"), None),
        Sense::Remove => (
            format!("Take out {number}"),
            Some("Weld shrinkage and root gap are allowed for.".to_owned()),
        ),
        Sense::Add => {
            (format!("Add {number}"), Some("Weld shrinkage and root gap are allowed for.".to_owned()))
        }
        Sense::LeaveAlone => {
            let why = match name {
                Name::LengthChange => "No difference that this tape can see.",
                Name::PhaseError | Name::PhaseArc | Name::PhaseWelded => {
                    "Too small for these readings to say which way."
                }
                Name::Correction => "No offset that this dial can see: stop tapping.",
                Name::WeldPull => "No pull that this dial can see.",
                Name::LastMove => "No move that this dial can see.",
                Name::FaceFound => "Nothing that these readings can see.",
                Name::OffsetReading => {
                    "Too small for this dial to say where. Scatter alone shows about as much, so the true one is more likely smaller than larger."
                }
                _ => "Too small for this dial to say where.",
            };
            (number, Some(why.to_owned()))
        }
        Sense::TurnClockwise => {
            (number, Some(format!("Turn the {yoke} yoke clockwise, {seen_from_rear}.")))
        }
        Sense::TurnCounterclockwise => {
            (number, Some(format!("Turn the {yoke} yoke counter-clockwise, {seen_from_rear}.")))
        }
        Sense::StandsClockwise => {
            (number, Some(format!("The rear yoke stands clockwise of its place, {seen_from_rear}.")))
        }
        Sense::StandsCounterclockwise => (
            number,
            Some(format!("The rear yoke stands counter-clockwise of its place, {seen_from_rear}.")),
        ),
        Sense::Of { available } => {
            (number, Some(format!("It may go {}.", show_length(available, job.display.lengths()))))
        }
        Sense::UpTo { to } => (format!("{number} to {}", show_length(to, job.display.lengths())), None),
        Sense::Tight => (number, Some("Larger than the bore: a driven fit.".to_owned())),
        Sense::Loose { lean } => (
            number,
            Some(format!(
                "Smaller than the bore: it can lean {}. The face and the dial hold it straight, not the spigot.",
                show_angle(lean, 2)
            )),
        ),
        Sense::FileBack => (format!("File back {number}"), None),
        Sense::FileAt(at) => (
            number,
            Some(format!(
                "Stands out at {}, {seen_from_rear}: file there, running out to nothing at {}.",
                show_clock(at),
                show_clock(opposite(at))
            )),
        ),
        Sense::Closes { wanted } => {
            let plain =
                |length| amount(crate::stage::Amount::PlainLength(length), job.display.lengths());
            (number, Some(format!("Wanted {}: it closes.", plain(wanted))))
        }
        Sense::At(at) => {
            let what = match name {
                Name::OffsetReading | Name::Correction | Name::FaceFound => "High at",
                Name::WeldPull => "Toward",
                _ => "At",
            };
            (number, Some(format!("{what} {}, {seen_from_rear}.", show_clock(at))))
        }
        Sense::LobesAt(at) => {
            (number, Some(format!("Wide at {} and {}.", show_clock(at), show_clock(opposite(at)))))
        }
        Sense::Tap { .. }
        | Sense::FitsLeast(_)
        | Sense::NotHere { .. }
        | Sense::Moved { .. }
        | Sense::OpenAt(_)
        | Sense::InThisOrder { .. }
        | Sense::SetAside { .. }
        | Sense::TakenOut
        | Sense::AtPlace(_)
        | Sense::Bent(_) => worded_truing(number, sense, job),
        Sense::HeatAt(at) => (
            number,
            Some(format!(
                "High at {}, {seen_from_rear}. Welded: one small heat spot there, never on the seam; let it cool, then read again. How far it moves the tube cannot be promised.",
                show_clock(at)
            )),
        ),
        Sense::LeaveWelded(at) => {
            let words = format!("High at {}, {seen_from_rear}. Welded: leave it.", show_clock(at));
            (number, Some(words))
        }
        Sense::LeaveToShop(at) => (
            number,
            Some(format!(
                "High at {}, {seen_from_rear}. Welded aluminium is never heated: cut the weld off and start again, or leave it to a driveline shop.",
                show_clock(at)
            )),
        ),
        Sense::AsOneJoint { angle, front, rear } => (
            number,
            Some(format!(
                "As one joint of {} alone would. Joints then: front {}, rear {}.",
                show_angle(angle, 2),
                show_angle(front, 2),
                show_angle(rear, 2)
            )),
        ),
        Sense::ShakesShaft(shaft) => {
            let when = if name == Name::FrontJoint { "in drive" } else { "with the foot off" };
            (number, Some(format!("Shakes the shaft with {} {when}.", show_acceleration(shaft))))
        }
        Sense::LimitedBy { shaft, by } => {
            let what = match by {
                Shaken::Pinion => "the pinion, under power",
                Shaken::Drive => "the shaft, in drive",
                Shaken::Coast => "the shaft, with the foot off",
            };
            (number, Some(format!("Shaft at {}: first to its limit is {what}.", show_speed(shaft))))
        }
        Sense::Steeper { by, was } => {
            let than = if by.base() * was.base() < 0.0 { "flatter" } else { "steeper" };
            let size = Angle::from_base(by.base().abs());
            (
                number,
                Some(format!(
                    "{} {than} than the old length between the same heights ({}).",
                    show_angle(size, 2),
                    show_angle(was, 2)
                )),
            )
        }
        Sense::ShaftSwings { share, lead } => (
            format!("± {number}"),
            Some(format!(
                "The shaft's own by ± {}. The pinion leads and lags by {} from end to end.",
                amount(crate::stage::Amount::Percent(share), job.display.lengths()),
                show_angle(lead, 3)
            )),
        ),
        Sense::TwistClockwise => (
            number,
            Some(format!(
                "The rear joint's plane is clockwise of the front one's, {seen_from_rear}. It counts as yokes out of phase."
            )),
        ),
        Sense::TwistCounterclockwise => (
            number,
            Some(format!(
                "The rear joint's plane is counter-clockwise of the front one's, {seen_from_rear}. It counts as yokes out of phase."
            )),
        ),
        Sense::NoPlane => (number, Some("A joint is straight, and has no plane.".to_owned())),
        Sense::InsteadOf(wanted) => {
            (number, Some(format!("With the turn that was wanted: {}.", show_acceleration(wanted))))
        }
        Sense::OnTheCar(sense) => worded_run(number, sense, job),
        Sense::Fit(sense) => worded_fit(number, sense, job.display.lengths()),
        Sense::Reset(reset) => worded_reset(name, &number, &reset, job),
        Sense::Weight(sense) => worded_weight(number, sense, job),
    }
}

/// The standing that a verdict has: what its shape and colour show.
pub const fn verdict_standing(verdict: &Verdict) -> Option<Standing> {
    match verdict {
        Verdict::Good => Some(Standing::Good),
        Verdict::Watch(_) => Some(Standing::Watch),
        Verdict::Stop(_) => Some(Standing::Stop),
        Verdict::NotYet | Verdict::Unjudged(_) => Some(Standing::NotYet),
        Verdict::IfWanted => Some(Standing::IfWanted),
        Verdict::Figure => None,
    }
}

/// The word for a verdict.
pub const fn verdict_word(verdict: &Verdict) -> &'static str {
    match verdict {
        Verdict::Figure => "Figure",
        Verdict::Unjudged(_) => "Not judged",
        Verdict::Good => standing_word(Standing::Good),
        Verdict::Watch(_) => standing_word(Standing::Watch),
        Verdict::Stop(_) => standing_word(Standing::Stop),
        Verdict::NotYet => "Missing",
        Verdict::IfWanted => standing_word(Standing::IfWanted),
    }
}

/// The word for a standing.
pub const fn standing_word(standing: Standing) -> &'static str {
    match standing {
        Standing::Good => "Good",
        Standing::Watch => "Watch",
        Standing::Stop => "Stop",
        Standing::NotYet => "Not yet",
        Standing::IfWanted => "If wanted",
    }
}

/// Stages named one by one while they are no more than this.
const NAMED: usize = 3;

/// One line on the shaft as a whole.
pub fn shaft_line(whole: &Whole) -> String {
    let fixed = match (whole.shaft, whole.lengthened) {
        (Standing::Stop, _) => "Stop: something must be mended first.",
        (Standing::NotYet | Standing::IfWanted, _) => return no_answer_yet(whole),
        (Standing::Watch | Standing::Good, true) => {
            "Watch: a lengthened shaft wants a driveline shop's look."
        }
        (Standing::Watch, false) => "Watch: go on with care.",
        (Standing::Good, false) => "Good, as far as these numbers go.",
    };
    fixed.to_owned()
}

/// Which stages have no answer yet: the first of them by name where they are many.
fn no_answer_yet(whole: &Whole) -> String {
    let open = whole.stages.iter().filter(|(_, standing)| *standing == Standing::NotYet);
    let names: Vec<&str> = open.map(|(stage, _)| stage_title(*stage)).collect();
    let named = |names: &[&str]| names.join(", ");
    match names.split_last() {
        None => "Not judged yet.".to_owned(),
        Some((last, [])) => format!("Not judged yet: {last} has no answer."),
        Some((last, before)) if names.len() <= NAMED => {
            format!("Not judged yet: {} and {last} have no answer.", named(before))
        }
        Some(_) => {
            let first = names.get(..NAMED - 1).unwrap_or_default();
            let more = names.len() - first.len();
            format!("Not judged yet: {} and {more} more have no answer.", named(first))
        }
    }
}

/// Why a verdict is what it is.
pub fn verdict_reason(finding: &Finding, display: LengthDisplay) -> Option<String> {
    match (&finding.verdict, &finding.answer) {
        (_, Answer::Impossible(reason)) => Some(reason_words(*reason, display)),
        (Verdict::Watch(reason) | Verdict::Stop(reason) | Verdict::Unjudged(reason), _) => {
            Some(reason_words(*reason, display))
        }
        (Verdict::Good, Answer::Known(_)) => finding.limit.map(|limit| {
            if let Name::OnTheCar(found) = finding.name {
                return why_good(found, limit.amount, display);
            }
            if let Name::Fit(fit) = finding.name {
                return fit_good(fit, limit.amount, display);
            }
            let limit = amount(limit.amount, display);
            match finding.name {
                Name::LengthChange | Name::WantedLength | Name::FinishedLength => {
                    format!("Known within the ± {limit} that a finished length may have.")
                }
                Name::Correction => {
                    format!("Shows inside the limit of {limit} on the dial: it may stay as it is.")
                }
                Name::PlungeIn => format!("At least {limit} of room is left."),
                Name::PlungeOut | Name::EngagedSpline => format!("At least {limit} stays engaged."),
                Name::RoutesDiffer => format!("They agree within {limit}; joint to joint is used."),
                Name::WeldLine => format!("They agree within {limit}."),
                Name::RulesDiffer => format!("Under {limit}: it matters little which you take."),
                Name::RunOutGrade => {
                    format!("Inside {limit}, as far as the run-out goes. Weights and yokes come on top.")
                }
                _ => format!("Inside the limit of {limit}."),
            }
        }),
        (Verdict::Figure, Answer::Known(_))
            if matches!(finding.name, Name::CancelFront | Name::CancelRear) =>
        {
            Some("Instead of balancing on the car, not beside it. Weights that are put back may already cancel part of it.".to_owned())
        }
        (Verdict::Figure, Answer::Known(_))
            if matches!(finding.name, Name::LeftFront | Name::LeftRear) =>
        {
            finding.limit.map(|limit| {
                let limit = amount(limit.amount, display);
                format!("The move of the weights alone, against {limit}. It is not the shaft's balance.")
            })
        }
        _ => None,
    }
}

/// The name of a needed field, and whether it is empty or wrong. What is wrong stands at the field.
pub fn need(job: &Job, need: &Need) -> String {
    let name = match need.entry {
        Entry::StationReading(_, place, _) if job.truing.places.len() > 1 => {
            format!("Place {}: reading at {}", place + 1, label(job, need.entry))
        }
        Entry::StationReading(..) => format!("Reading at {}", label(job, need.entry)),
        Entry::FrontLevel(at, _)
        | Entry::RearLevel(at, _)
        | Entry::FrontLift(at, _)
        | Entry::Lift(at, _)
        | Entry::LineArc(at, _) => {
            let when = match at {
                BEFORE_CUT => ", before the cut",
                AFTER_WELDING => ", after welding",
                _ => "",
            };
            format!("{}{when}", label(job, need.entry))
        }
        _ => label(job, need.entry),
    };
    match &need.why {
        Why::Empty => name,
        Why::Wrong(_) => format!("{name}: marked wrong"),
    }
}

/// What is odd about a reading among the others of its list, said at its field.
pub fn remark(job: &Job, entry: Entry) -> Option<String> {
    let apart = reading_apart(job, entry)
        .or_else(|| phase::reading_apart(job, entry))
        .or_else(|| angles::reading_apart(job, entry))?;
    let by = match apart {
        Reason::ReadingApart { by, .. } => {
            show_length(Length::from_base(by.base().abs()), job.display.lengths())
        }
        Reason::AngleApart { by, .. } => show_angle(Angle::from_base(by.base().abs()), 2),
        _ => return None,
    };
    Some(format!("Stands {by} from the others: take it again. It still counts."))
}

/// What makes the ±, largest first: what to measure again. `None` where one measurement makes it all.
pub fn causes(job: &Job, finding: &Finding) -> Option<String> {
    let words = finding.causes.iter().filter(|(_, share)| *share >= 0.005).map(|(entry, share)| {
        let name = match entry {
            Entry::OldReading(_) => "old length".to_owned(),
            Entry::WantedReading(_) => "wanted distance".to_owned(),
            Entry::EndsReading(_) => "distance from the ends".to_owned(),
            Entry::GearboxSlope(_) => "gearbox slope".to_owned(),
            Entry::ShaftSlopeRead(_) => "shaft slope".to_owned(),
            Entry::PinionSlope(_) => "pinion slope".to_owned(),
            Entry::OneWay => "the instrument's own error".to_owned(),
            Entry::Modulus => "what the tube is of".to_owned(),
            Entry::RearLevel(..) | Entry::Lift(..) | Entry::LineArc(..) => "the yokes' turn".to_owned(),
            entry => label(job, *entry).to_ascii_lowercase(),
        };
        format!("{name} {} %", show_number(share * 100.0, 0))
    });
    let words: Vec<String> = words.collect();
    (words.len() > 1).then(|| format!("The ± comes from: {}.", words.join("; ")))
}
