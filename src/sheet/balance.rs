//! Balancing on the car in words: what each method can do, its findings, its reasons.

use super::amount::amount;
use super::kept::{kept_title, worded_kept};
use crate::job::{BalanceBy, End, Entry, Job, RunsMade};
use crate::quantity::{
    Angle, LengthDisplay, as_grams, show_angle, show_clock, show_force, show_mass, show_number,
    show_plain_length, show_road_speed, show_speed, three_figures,
};
use crate::stage::Amount;
use crate::stage::balance::{Agreement, Clips, OnTheCar, Plane, RunReason, RunSense, heads_together};

/// What a method finds and what it cannot.
pub const fn balance_limits(by: BalanceBy) -> &'static str {
    match by {
        BalanceBy::Amplitudes => {
            "Finds one weight at one end, from a first run and three trials or more. Needs no flash. With three trials one misread run can pass for another answer: a fourth, or the check run, shows it."
        }
        BalanceBy::Phase => {
            "Finds one weight at one end, from a first run and one trial. The flash or the pick-up must show the same place each time it is read at a run. With one trial nothing contradicts a misread run: only the check run proves the answer."
        }
        BalanceBy::TwoPlanes => {
            "Finds a weight for each end, from a first run and a trial at each: both ends are read at every run. For a shaft that shakes at both ends, or gets worse at one as the other gets better. With one trial at each end, too, only the check run proves the answer."
        }
    }
}

/// What no trial weight cures, and when to stop.
pub const fn balance_not_for() -> &'static str {
    "Only a shake that comes once a turn of the shaft goes away by weights. Twice a turn comes from the joints' angles, another pace from wheels, engine or gearbox. No better after two tries, more weight called for than two screw heads make, or readings that will not repeat: a driveline shop."
}

/// What must stay the same from run to run.
pub const fn balance_same_runs() -> &'static str {
    "At every run the same speed within 1 %, the same gear, the same way of reaching it, and the instrument in the same place: under the joint at this end, pressed or taped on. Any instrument, any unit: mm/s, g, or a phone's own number."
}

/// Which end a trial sits at, where it matters.
pub const fn trial_place(job: &Job, run: usize) -> Option<&'static str> {
    match (job.balance.by, run) {
        (BalanceBy::TwoPlanes, 1) => Some("Put it on at the gearbox end, and read both ends."),
        (BalanceBy::TwoPlanes, _) => {
            Some("Take the first off, put this one on at the axle end, and read both ends.")
        }
        (BalanceBy::Amplitudes, 1) => {
            Some("The same weight at three places a third of a turn apart is best.")
        }
        _ => None,
    }
}

/// What to do about runs that were made for other ends than those chosen; nothing where there are none.
pub fn made_for_others(job: &Job) -> Option<String> {
    job.balance.made_for_others().map(other_runs)
}

fn other_runs(made: RunsMade) -> String {
    let ends = match made {
        RunsMade::Front => "the gearbox end",
        RunsMade::Rear => "the axle end",
        RunsMade::BothEnds => "both ends",
        // Never met: what is not said stands against nothing.
        RunsMade::NotSaid => "another end",
    };
    format!("These runs were made for {ends}. Choose that again, or empty the runs.")
}

/// What two heads make at some half-angles, ready to be read; nothing before a head is weighed.
pub fn clip_table(job: &Job) -> Vec<(String, String)> {
    let rows = heads_together(job).unwrap_or_default();
    rows.into_iter()
        .map(|(half, made)| (format!("± {}", show_angle(half, 0)), show_mass(made)))
        .collect()
}

/// The name of a finding.
pub(super) fn balance_title(found: OnTheCar) -> &'static str {
    match found {
        OnTheCar::Asked => "Balance on the car",
        OnTheCar::PutOn(Plane::One) => "Put on",
        OnTheCar::PutOn(Plane::Front) => "Put on at the gearbox end",
        OnTheCar::PutOn(Plane::Rear) => "Put on at the axle end",
        OnTheCar::Screws(Plane::One) => "Two clips make it, each turned away by",
        OnTheCar::Screws(Plane::Front) => "Gearbox end: two clips, each turned away by",
        OnTheCar::Screws(Plane::Rear) => "Axle end: two clips, each turned away by",
        OnTheCar::Expected(Plane::One) => "Reading to expect with it",
        OnTheCar::Expected(Plane::Front) => "Reading to expect, gearbox end",
        OnTheCar::Expected(Plane::Rear) => "Reading to expect, axle end",
        OnTheCar::Speed => "Speed of the runs",
        OnTheCar::MostTrial => "Heaviest trial to begin with",
        OnTheCar::LeastChange => "A trial must change the reading by",
        OnTheCar::Effect => "What the weakest trial changed",
        OnTheCar::Apart => "The readings of the runs",
        OnTheCar::Told => "Least sure way against the surest",
        OnTheCar::Check(Plane::One) => "Check run",
        OnTheCar::Check(Plane::Front) => "Check run, gearbox end",
        OnTheCar::Check(Plane::Rear) => "Check run, axle end",
        OnTheCar::Kept(plane) => kept_title(plane),
    }
}

/// The value and what goes with it.
pub(super) fn worded_run(number: String, sense: RunSense, job: &Job) -> (String, Option<String>) {
    let display = job.display.lengths();
    let words = match sense {
        RunSense::Kept(kept) => worded_kept(&kept, job),
        RunSense::PutOn { end, at, doubt, radius, added, pull, check_next } => {
            let around = doubt.map_or(String::new(), |doubt| format!(" ± {}", show_angle(doubt, 0)));
            let (off, with) = if added {
                ("The trial stays on; this comes beside it. ", "With the trial it pulls")
            } else {
                ("Take all trial weights off first. ", "It pulls")
            };
            let end = match end {
                Some(End::Rear) => "Axle end, where",
                Some(End::Front) => "Gearbox end, where",
                None => "Where",
            };
            let pull = pull.map_or(String::new(), |pull| {
                format!(" {with} with {} at the run's speed.", show_force(pull))
            });
            let next = if check_next { " Then make the check run." } else { "" };
            format!(
                "{off}{end} the clips sat in the trials, at {}{around}, seen from the rear, {} from the shaft's axis.{pull}{next}",
                show_clock(at),
                show_plain_length(radius, display)
            )
        }
        RunSense::Nothing => {
            return (
                "Nothing".to_owned(),
                Some(
                    "There is nothing to correct that these readings can see: put no more on."
                        .to_owned(),
                ),
            );
        }
        RunSense::NotKnown { at, doubt } => {
            return (
                "Not known".to_owned(),
                Some(format!(
                    "It comes out as {number} at {}, give or take {}: no weight to put on.",
                    show_clock(at),
                    show_mass(doubt)
                )),
            );
        }
        RunSense::ToOne { ends } => {
            let words = if ends {
                "What the two weights do alike at both ends, and what they do against each other, are not told equally well."
            } else {
                "Its ± is so many times as large the one way as across it."
            };
            return (format!("{number} to 1"), Some(words.to_owned()));
        }
        RunSense::StopHere => {
            "It would gain no more than a reading changes by itself: put no more on.".to_owned()
        }
        RunSense::Done { came, before, clips } => {
            let next = match clips {
                Clips::None => "",
                Clips::Kept => {
                    " Take the clips off and weld the kept weight, shaft off the car: see For keeps."
                }
                Clips::NotTold => " What takes the clips' place: see For keeps.",
            };
            let left = format!("{} left of {}.{next}", three_figures(came), three_figures(before));
            return ("Done".to_owned(), Some(left));
        }
        RunSense::Screws { half, at: [one, other], middle, alone } => {
            let single = if alone {
                format!(" Or one clip alone at {}: as near as the ± tells.", show_clock(middle))
            } else {
                String::new()
            };
            return (
                format!("± {}", show_angle(half, 0)),
                Some(format!(
                    "One screw head at {}, the other at {}: as far either side of {}.{single}",
                    show_clock(one),
                    show_clock(other),
                    show_clock(middle)
                )),
            );
        }
        RunSense::Was { first } => format!("It reads {} without.", three_figures(first)),
        RunSense::AtThatSpeed { share, road } => {
            let share = share.map_or(String::new(), |share| {
                format!("{} of this length's whirl speed. ", show_number(share, 2))
            });
            let road = road.map_or(String::new(), |road| {
                format!("{} on the speedometer.", show_road_speed(road, display))
            });
            format!("{share}{road}").trim_end().to_owned()
        }
        RunSense::AsClips { head, half: Some(half), far: true } => format!(
            "Two heads of {} come down to it only at ± {} either side of a place: so far apart a degree astray counts for over a tenth.",
            show_mass(head),
            show_angle(half, 1)
        ),
        RunSense::AsClips { head, half, .. } => match half {
            Some(half) => format!(
                "Start low. Two heads of {} make it at ± {} either side of a place; together at one place they make {}.",
                show_mass(head),
                show_angle(half, 0),
                show_mass(head * 2.0)
            ),
            None => format!("Start low. Two heads of {} at one place stay below it.", show_mass(head)),
        },
        RunSense::TimesScatter { least, phase } => {
            let how = if phase {
                "counted as a vector. Better by 30 % of the first reading, or by 30°."
            } else {
                "up or down."
            };
            format!("{} times what a reading changes by itself, {how}", show_number(least, 1))
        }
        RunSense::ByLuck { freedom, agree } => {
            let agree = match agree {
                Agreement::Agree => "They agree",
                Agreement::Hardly => "They hardly agree",
                Agreement::No => "They do not agree",
            };
            let words = format!(
                "There is {} {} more than the answer takes, to check it by.",
                show_number(freedom, 0),
                if freedom < 1.5 { "reading" } else { "readings" }
            );
            return (agree.to_owned(), Some(words));
        }
        RunSense::Predicted { left, doubt, before, done } => {
            let next =
                if done { " Nothing more to be seen by these readings: put no more on." } else { "" };
            format!(
                "Predicted {} ± {}; before, it read {}.{next}",
                three_figures(left),
                three_figures(doubt),
                three_figures(before)
            )
        }
    };
    (number, Some(words))
}

/// The words of a reason.
pub(super) fn run_reason(reason: RunReason) -> String {
    let fixed = match reason {
        RunReason::IfItShakes => {
            "Only if it shakes on the road once it is together again. Nothing waits for it."
        }
        RunReason::NotReady => "Read what must be so before the wheels turn, and say that it is.",
        RunReason::OtherRuns { made } => return other_runs(made),
        RunReason::NoScatter => {
            "No instrument reads the same twice: type how much a reading changes by itself, at least half its last digit."
        }
        RunReason::NothingShakes => {
            "The first run reads no more than a reading changes by itself: there is nothing to balance."
        }
        RunReason::ReadsNothing => {
            "A reading of 0 cannot be reckoned with: type the least that the instrument shows."
        }
        RunReason::NoSum => {
            "These numbers cannot be reckoned with: look for a reading or a weight that is far too large or too small."
        }
        RunReason::TwoAnswers { pair } => return two_answers(pair),
        RunReason::SamePlace => {
            "The trials sat in one place: put the next one a third of a turn farther."
        }
        RunReason::SameRuns => {
            "Both trials read just the same at both ends. Was the first taken off, and the second put on at the other end? Make the second run again; if it reads the same once more, the ends cannot be told apart: balance one end."
        }
        RunReason::NoEffect { times, needed } => {
            return format!(
                "The trials changed the reading by {} times what it changes by itself; {} times are wanted. Take a heavier trial, up to the heaviest allowed, or read finer.",
                show_number(times, 1),
                show_number(needed, 1)
            );
        }
        RunReason::Disagree { scatter } => {
            return format!(
                "These readings cannot all be right, unless a reading changes by {} by itself. Another speed or gear, a clip that slipped, or one left on? Make the first run again, then each trial.",
                three_figures(scatter)
            );
        }
        RunReason::HardlyAgree { scatter } => {
            return format!(
                "These readings hardly go together: luck leaves as much once in twenty times at the most, unless a reading changes by {} by itself. One more trial, at another place, tells; or make the runs again.",
                three_figures(scatter)
            );
        }
        RunReason::NotTold { .. } => {
            "Both trials did nearly the same at both ends: the ends cannot be told apart. Balance one end."
        }
        RunReason::BarelyTold { condition } => {
            return format!(
                "One way it is {} times less sure than the other: its ± is wide. Trials elsewhere on the clock, or heavier, tell more.",
                three_figures(condition)
            );
        }
        RunReason::HeavyTrial { most } => {
            return format!(
                "A trial heavier than {} pulls with more than a tenth of what rests on that end. Turn slower, or set two heads against each other for less.",
                show_mass(most)
            );
        }
        RunReason::NoTrialByHeads { head, speed } => {
            return format!(
                "These heads make no trial so light. Heads of {} and lighter do, or these in a run at {} and slower. If neither can be had, a driveline shop: more than this pulls with over a tenth of what rests on that end.",
                show_mass(head),
                show_speed(speed)
            );
        }
        RunReason::NoTrialShows { least } => {
            return format!(
                "By the runs so far no trial so light shows: it takes about {}. An instrument that repeats better, taped on nearer the joint, or a driveline shop. A slower run allows a heavier trial, but it shows less too.",
                show_mass(least)
            );
        }
        RunReason::TooHeavyTrial { most } => {
            return format!(
                "A trial of more than ten times {} pulls harder than that end of the shaft weighs: do not run it.",
                show_mass(most)
            );
        }
        RunReason::OverWhirl { allowed } => {
            return format!(
                "Over {} of the whirl speed: do not run it so fast. A long shaft bows there, and may break.",
                show_number(allowed, 2)
            );
        }
        RunReason::FastOnTheRoad => {
            "Faster than 55 mph (88 km/h): never with the wheels off the ground. A lower gear, or a slower run."
        }
        RunReason::HeavyCorrection { tenth } => {
            return format!(
                "It pulls harder than {}, a tenth of what rests on that end. Read the runs again before it goes on, clamp it so that it cannot move, and come up to speed slowly.",
                show_force(tenth)
            );
        }
        RunReason::TooHeavyCorrection { load } => {
            return format!(
                "It pulls harder than that end of the shaft weighs, {}: do not run it. A misread run, or a fault that no weight cures: a driveline shop.",
                show_force(load)
            );
        }
        RunReason::SmallEffect { least } => {
            return format!(
                "Less than {} times what a reading changes by itself: the ± may not hold. A heavier trial says more.",
                show_number(least, 1)
            );
        }
        RunReason::SmallChange => {
            "A trial should change the reading by 30 %, or the phase by 30°: a heavier one says more."
        }
        RunReason::LightHeads { needed } => {
            return format!(
                "Not enough: two such heads side by side are too light. Each must weigh {} at this radius: heavier heads, or two clips at each place. If that is far more, a driveline shop.",
                show_mass(needed)
            );
        }
        RunReason::NotKnownEnough => {
            "Not known well enough to say that it helps. Worth reading the runs again, with a heavier trial or a steadier instrument."
        }
        RunReason::PullUnknown => {
            "How hard it pulls is not known yet: give the speed of the shaft at the runs here, and its mass at Weights, before it is run."
        }
        RunReason::Worse => {
            "Worse: take it off now, before anything else. Was the clock read from the rear, clockwise, and the mass put where it was said? Read from the front, or turned the wrong way, it goes on at the mirrored place."
        }
        RunReason::NotKept => "The check run is not good: nothing is welded on for it.",
        RunReason::NoPlaceToKeep => {
            "No weight may stand there, and no two beside it do its work: leave the clips on no longer than the way to a driveline shop."
        }
        RunReason::NoBetter => {
            "No better. Something changed: speed, gear, a clip that moved, a trial left on, the clock read from the front? Take it off, make the first run again. If that is no better either: a driveline shop."
        }
        RunReason::MoreThanPredicted => {
            "More than predicted at this end: speed, a clip that moved, a trial left on? Or begin anew with this as the first run."
        }
        RunReason::NotAsPredicted => {
            "Better, but not by as much as predicted: speed, a clip that moved, a trial left on? Or begin anew with this as the first run."
        }
    };
    fixed.to_owned()
}

fn two_answers([(mass, at), (other_mass, other_at)]: [(crate::quantity::Mass, Angle); 2]) -> String {
    if (as_grams(mass) - as_grams(other_mass)).abs() < 1e-9 && at == other_at {
        return format!(
            "Two trials are not enough: {} at {} is as near as they tell. Make a third trial at another place.",
            show_mass(mass),
            show_clock(at)
        );
    }
    format!(
        "Two answers: {} at {}, or its mirror image, {} at {}. Make one more trial, at a place off the line through the others and the axis: it tells which.",
        show_mass(mass),
        show_clock(at),
        show_mass(other_mass),
        show_clock(other_at)
    )
}

/// Why a good verdict is good.
pub(super) fn why_good(found: OnTheCar, limit: Amount, display: LengthDisplay) -> String {
    let limit = amount(limit, display);
    match found {
        OnTheCar::Effect => format!("At least {limit}: well more than a reading changes by itself."),
        OnTheCar::Apart => format!("They differ by no more than a reading changes by itself, {limit}."),
        OnTheCar::Speed => format!("Below {limit} of the whirl speed."),
        _ => format!("Up to {limit} to 1 it is sure enough every way."),
    }
}

/// What to know while filling in a field of this stage.
pub(super) const fn balance_hint(entry: Entry) -> &'static str {
    match entry {
        Entry::RunSpeed => {
            "Engine speed divided by the gear's ratio. Where it shakes most, within the speed cap; never above the whirl speed's share at Check."
        }
        Entry::ClipRadius => "Half the tube's diameter and half the screw head's height.",
        Entry::ClipMass => {
            "What is heavier on the screw's side: weigh the clip, and take off a band of the same length."
        }
        Entry::RunScatter => {
            "Read the first run five times, stopping in between, with nothing changed: two fifths of what the largest and the smallest reading differ by. Every ± here takes it that it comes from five readings. The same unit as the reading."
        }
        Entry::TrialMass(1) => "One head, or what two heads make together: see the table.",
        Entry::TrialClock(1) => "Clockwise from the witness mark, seen from the rear: 4:30, or 135°.",
        Entry::RunPhase(0, _) => "In degrees, clockwise seen from the rear; or by the clock: 4:30.",
        _ => super::check_field::check_hint(entry),
    }
}
