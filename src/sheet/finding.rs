//! A finding in words: its title, its value, its verdict and why.

use super::amount::amount;
use super::label::{cut_yoke, far_joint, label};
use crate::job::{Entry, Job};
use crate::quantity::{
    Angle, Base, Length, LengthDisplay, degrees, inches, millimetres, show_angle, show_clock,
    show_length, show_number,
};
use crate::stage::measure::reading_apart;
use crate::stage::{Answer, Finding, Name, Need, Reason, Sense, Standing, Verdict, Whole, Why};

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
        Name::WhirlSpeed => "Whirl speed of the new length",
        Name::SpeedShare => "Top speed as a share of whirl",
        Name::TubeRemoved => "Tube",
        Name::FinishedLength => "Finished length, reckoned back",
        Name::ScrapRing => "Ring between the cuts",
        Name::NewTube => "New tube",
        Name::WeldLine => "Weld line against the yoke's shoulder",
        Name::SpigotFit => "Spigot in the tube",
        Name::FaceFound => "Face out of square, as read",
        Name::ClockStep => "From mark to mark round the tube",
        Name::FaceError => "Face out of square, at most",
        Name::PhaseError => "Turn between the yokes",
        Name::PhaseArc => "Arc on the tube",
        Name::TotalReading => "Total reading",
        Name::OffsetReading => "Offset, as the dial shows it",
        Name::Correction => "Move the tube",
        Name::Ovality => "Oval, as the dial shows it",
        Name::Leftover => "Left over",
        Name::WeldPull => "Pull of the weld",
        Name::NothingToPutBack => "Weights to put back",
        Name::PutBack(row) => return format!("Weight {}", row + 1),
        Name::LeftFront => "What moving the weights leaves, front joint's plane",
        Name::LeftRear => "What moving the weights leaves, rear joint's plane",
    };
    fixed.to_owned()
}

/// The value of a finding in words; `None` where there is none.
pub fn shown(finding: &Finding, job: &Job) -> Option<Shown> {
    let display = job.display.lengths();
    let value = finding.value()?;
    let number = amount(value.amount, display);
    let plus_minus = value.plus_minus.map(|doubt| format!("± {}", amount(doubt, display)));
    let (number, sense) = match value.sense {
        None => (number, None),
        Some(sense) => worded_sense(finding.name, number, sense, job),
    };
    Some(Shown { value: number, plus_minus, sense })
}

fn opposite(at: Angle) -> Angle {
    at + degrees(180.0)
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
                Name::PhaseError | Name::PhaseArc => "No turn that this level can see: leave it.",
                Name::Correction => "No offset that this dial can see: stop tapping.",
                Name::WeldPull => "No pull that this dial can see.",
                Name::FaceFound => "Nothing that these readings can see.",
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
                Name::OffsetReading => "High at",
                Name::WeldPull => "Toward",
                _ => "At",
            };
            (number, Some(format!("{what} {}, {seen_from_rear}.", show_clock(at))))
        }
        Sense::LobesAt(at) => {
            (number, Some(format!("Wide at {} and {}.", show_clock(at), show_clock(opposite(at)))))
        }
        Sense::MoveAwayFrom(at) => (
            number,
            Some(format!(
                "Turn the witness mark to the top, then tap at {} toward {}, {seen_from_rear}.",
                show_clock(at),
                show_clock(opposite(at))
            )),
        ),
        Sense::HeatAt(at) => (
            number,
            Some(format!(
                "High at {}, {seen_from_rear}. Welded: small heat spots there, cooled and read again, or cut it off and start again.",
                show_clock(at)
            )),
        ),
        Sense::LeaveToShop(at) => (
            number,
            Some(format!(
                "High at {}, {seen_from_rear}. Welded aluminium is never heated: leave it to a driveline shop.",
                show_clock(at)
            )),
        ),
        Sense::Place { clock, distance } => (
            number,
            Some(format!(
                "Put it at {}, {} from the {} joint's centre.",
                show_clock(clock),
                show_length(distance, job.display.lengths()),
                far_joint(job)
            )),
        ),
    }
}

/// The standing that a verdict has: what its shape and colour show.
pub const fn verdict_standing(verdict: &Verdict) -> Option<Standing> {
    match verdict {
        Verdict::Good => Some(Standing::Good),
        Verdict::Watch(_) => Some(Standing::Watch),
        Verdict::Stop(_) => Some(Standing::Stop),
        Verdict::NotYet | Verdict::Unjudged(_) => Some(Standing::NotYet),
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
        Verdict::NotYet => standing_word(Standing::NotYet),
    }
}

/// The word for a standing.
pub const fn standing_word(standing: Standing) -> &'static str {
    match standing {
        Standing::Good => "Good",
        Standing::Watch => "Watch",
        Standing::Stop => "Stop",
        Standing::NotYet => "Missing",
    }
}

/// One line on the shaft as a whole.
pub const fn shaft_line(whole: &Whole) -> &'static str {
    match (whole.shaft, whole.lengthened) {
        (Standing::Stop, _) => "Stop: something must be mended first.",
        (Standing::NotYet, _) => "Not judged: until every stage, Check among them, has its answer.",
        (Standing::Watch | Standing::Good, true) => {
            "Watch: a lengthened shaft wants a driveline shop's look."
        }
        (Standing::Watch, false) => "Watch: go on with care.",
        (Standing::Good, false) => "Good, as far as these numbers go.",
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
                Name::RoutesDiffer | Name::WeldLine => format!("They agree within {limit}."),
                _ => format!("Inside the limit of {limit}."),
            }
        }),
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

/// A length that is said with "at least": rounded up in its last digit, or what is done as told falls
/// short by it. A hair under half a digit, so that what is even stays as it is.
fn no_less(length: Length, display: LengthDisplay) -> Length {
    length
        + match display {
            LengthDisplay::Millimetre => millimetres(0.005 - 1e-7),
            _ => inches(0.000_05 - 1e-8),
        }
}

fn reason_words(reason: Reason, display: LengthDisplay) -> String {
    let long = |length| show_length(length, display);
    let fine = |length| amount(crate::stage::Amount::FineLength(length), display);
    let at_least = |length| amount(crate::stage::Amount::PlainLength(no_less(length, display)), display);
    let work = |unbalance| amount(crate::stage::Amount::Unbalance(unbalance), display);
    match reason {
        Reason::DifferenceWithinDoubt => {
            "The difference is inside its own ±: measure again before you cut.".to_owned()
        }
        Reason::OneReading => {
            "One reading only, of the old or the wanted length: measure again before you cut.".to_owned()
        }
        Reason::LooseLength { allowed } => format!(
            "Not known to the ± {} that is wanted: take more readings, or a finer tape.",
            long(allowed)
        ),
        Reason::Lengthened => {
            "The shaft gets longer: new tube in one piece, welded at both ends. Whirl speed falls; phase, run-out at both welds and balance are to be proved again. Never judged good here.".to_owned()
        }
        Reason::ReadingApart { by, others, .. } => format!(
            "One reading stands {} from the others, which agree within {}: take it again.",
            long(Length::from_base(by.base().abs())),
            long(others)
        ),
        Reason::TwoReadingsDiffer { by } => {
            format!("Two readings differ by {}: take a third to see which to believe.", long(by))
        }
        Reason::RoutesDisagree { doubt } => format!(
            "More than their ± {} together: one of the numbers is wrong. Measure both again.",
            amount(crate::stage::Amount::PlainLength(doubt), display)
        ),
        Reason::TooCloseToBump { least } => {
            format!("Less than {} of room left at bump: it can bottom and break a gearbox. Draw it out further.", long(least))
        }
        Reason::NearBump { least } => {
            format!("Within its ± of the {} of room wanted: measure the travel again.", long(least))
        }
        Reason::TooLittleSpline { least } => format!(
            "Less than {} engaged at full droop: it can come apart. Push it in further, or fit a longer slip.",
            long(least)
        ),
        Reason::NearLeastSpline { least } => {
            format!("Within its ± of the {} engaged that is wanted: measure the travel again.", long(least))
        }
        Reason::LipOffBarrel => {
            "At droop the seal can run off the barrel's end: the oil comes out. Push it in further.".to_owned()
        }
        Reason::LipInGroove { out, inward } => {
            let mut text = "The lip would run in the old groove and leak.".to_owned();
            if let Some(out) = out {
                text.push_str(&format!(" Draw the slip out at least {} further to miss it.", at_least(out)));
            }
            if let Some(inward) = inward {
                text.push_str(&format!(" Push it in at least {} further to miss it.", at_least(inward)));
            }
            if out.is_none() && inward.is_none() {
                text.push_str(" Neither way leaves room and spline enough: sleeve the barrel or renew the yoke.");
            }
            text
        }
        Reason::NearGroove => "Off the groove, but within its ±: look for a leak after the first drive.".to_owned(),
        Reason::TravelUnfit => {
            "These distances do not go together: a link cannot be shorter than its own rise. Check the travel.".to_owned()
        }
        Reason::WeldLineDisagrees { by } => format!(
            "Old length less shoulder puts it {} elsewhere: measure both again, each from the right joint.",
            long(by)
        ),
        Reason::CutTooFarIn { removed } => format!(
            "The first cut must stay outside the new face: less than {} inside the old weld.",
            long(removed)
        ),
        Reason::CutOnSpigot { least } => format!(
            "The first cut would go through the spigot: at least {} inside the old weld.",
            long(no_less(least, display))
        ),
        Reason::SpigotLoose => "Much too loose: is this the right tube for this yoke?".to_owned(),
        Reason::SpigotTight => "Larger than the bore by more than its ±: measure both again.".to_owned(),
        Reason::FaceOverLimit { allowed } => {
            format!("Over the {} allowed: file the high side and read again.", fine(allowed))
        }
        Reason::FaceNearLimit { allowed } => {
            format!("Within its ± of the {} allowed: read finer.", fine(allowed))
        }
        Reason::FaceLimitUnknown => {
            "To judge it: what the allowed face error still needs.".to_owned()
        }
        Reason::FaceNotSeen => "Too few or too rough readings to say: read all eight places, or finer.".to_owned(),
        Reason::OverWhirlShare { allowed } => format!(
            "Over the allowed {}: too fast for this length. Larger tube, or a slower shaft.",
            show_number(allowed, 2)
        ),
        Reason::NearWhirlShare { allowed } => {
            format!("Within its ± of the allowed {}.", show_number(allowed, 2))
        }
        Reason::MoreThanTheTube => {
            "More than the tube there is: check the lengths and the weld lines.".to_owned()
        }
        Reason::LessThanAKerf { kerf } => format!(
            "Slots of {} leave no ring: do not saw twice. Open the weld, then file or grind the face back.",
            long(kerf)
        ),
        Reason::WeldDrawsMore => {
            "The new weld will draw the shaft shorter by more than comes off: no second cut. Leave a larger root gap.".to_owned()
        }
        Reason::FaceOverSpigot => {
            "The new face lies over the yoke's spigot: open the old weld and draw the yoke out first, then cut to length.".to_owned()
        }
        Reason::TravelNotChecked => "Not proven until the axle's travel is known.".to_owned(),
        Reason::PartRead => "Not judged: some marks have no reading yet.".to_owned(),
        Reason::FewStations { better } => format!(
            "So few marks cannot tell an offset from an oval tube or a seam: take {better} or more before you act on it."
        ),
        Reason::DentOrKink { most } => format!(
            "More than {} of it is no offset: a dent, a kink or a weld bead. Look; a dented tube is scrap.",
            fine(most)
        ),
        Reason::SpigotWontGoIn => "What is left of the tube is too short for the spigots.".to_owned(),
        Reason::OutOfPhase { allowed } => {
            format!("Over the limit of {}: turn the yoke before it is tacked.", show_angle(allowed, 2))
        }
        Reason::PhaseWithinDoubt { allowed } => {
            format!("Within its ± of the limit of {}: turn it, or read finer.", show_angle(allowed, 2))
        }
        Reason::OffsetOverLimit { limit } => {
            format!("The offset alone is over the limit of {}: true it.", fine(limit))
        }
        Reason::OffsetNearLimit { limit } => {
            format!("Within its ± of the limit of {}: read more stations.", fine(limit))
        }
        Reason::TotalOverLimit { limit } => format!(
            "Over the limit of {}. Look at the offset: an oval tube reads high and runs true.",
            fine(limit)
        ),
        Reason::OffsetNotSeen => {
            "Too few or too rough readings to say: take 8 stations or more.".to_owned()
        }
        Reason::DialDrifted { by } => format!(
            "The dial came back {} away, more than one line: something moved. Read the turn again.",
            fine(by)
        ),
        Reason::TooFewStations { got, needed } => {
            format!("{got} stations have a reading: at least {needed} are needed, better 8.")
        }
        Reason::SamePlace { at } => {
            format!("Two readings stand at {}: correct one of the places.", show_clock(at))
        }
        Reason::OneSided => {
            "The stations lie too close together to tell an offset: spread them round the tube.".to_owned()
        }
        Reason::OverGrade { permitted } => {
            format!("Over {}: a driveline shop should balance it.", work(permitted))
        }
        Reason::NearGrade { permitted } => format!("Within its ± of {}.", work(permitted)),
        Reason::GradeUnknown => {
            "To judge it: the mass of the whole shaft here, top speed and tube at Check, weld line at Cut.".to_owned()
        }
        Reason::OnTheWeld { keep } => {
            format!("Too near the new weld: keep {} off it, on the same clock position.", long(keep))
        }
        Reason::OffTheShaft => "It would lie off the shaft: check its distance.".to_owned(),
        Reason::WrongField => "Not judged: an entry that this is checked by is marked wrong.".to_owned(),
        Reason::NotWelded => {
            "Inside the limit so far. Welding moves the tube a few thousandths: judged by a turn taken after it.".to_owned()
        }
        Reason::NotComputable => {
            "These numbers do not go together: check the fields above.".to_owned()
        }
    }
}

/// The name of a needed field, and whether it is empty or wrong. What is wrong stands at the field.
pub fn need(job: &Job, need: &Need) -> String {
    let name = match need.entry {
        Entry::StationReading(..) => format!("Reading at {}", label(job, need.entry)),
        _ => label(job, need.entry),
    };
    match &need.why {
        Why::Empty => name,
        Why::Wrong(_) => format!("{name}: marked wrong"),
    }
}

/// What is odd about a reading among the others of its list, said at its field.
pub fn remark(job: &Job, entry: Entry) -> Option<String> {
    match reading_apart(job, entry)? {
        Reason::ReadingApart { by, .. } => {
            let by = show_length(Length::from_base(by.base().abs()), job.display.lengths());
            Some(format!("Stands {by} from the others: take it again. It still counts."))
        }
        _ => None,
    }
}

/// What makes the ±, largest first: what to measure again. `None` where one measurement makes it all.
pub fn causes(job: &Job, finding: &Finding) -> Option<String> {
    let words = finding.causes.iter().filter(|(_, share)| *share >= 0.005).map(|(entry, share)| {
        let name = match entry {
            Entry::OldReading(_) => "old length".to_owned(),
            Entry::WantedReading(_) => "wanted distance".to_owned(),
            Entry::EndsReading(_) => "distance from the ends".to_owned(),
            entry => label(job, *entry).to_ascii_lowercase(),
        };
        format!("{name} {} %", show_number(share * 100.0, 0))
    });
    let words: Vec<String> = words.collect();
    (words.len() > 1).then(|| format!("The ± comes from: {}.", words.join("; ")))
}
