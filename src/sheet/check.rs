//! Check in words: its findings and its reasons.

use super::amount::amount;
use super::check_tables::plain_figures;
use crate::quantity::{
    LengthDisplay, show_angle, show_number, show_plain_length, show_rate, show_road_speed, show_speed,
    show_torque, three_figures,
};
use crate::stage::Amount;
use crate::stage::check::{Fastest, Fit, FitReason, FitSense, Governs};

/// The name of a finding.
pub(super) const fn fit_title(fit: Fit) -> &'static str {
    match fit {
        Fit::TopSpeed => "Fastest the shaft turns",
        Fit::Elements => "Whirl speed, yokes counted",
        Fit::ElementsBefore => "The same at the old length",
        Fit::Soft => "The same, held as softly as you say",
        Fit::Softest => "What holds it may give way down to",
        Fit::Half => "Cruising speed of the shaft",
        Fit::ByEngine => "Torque by the engine, lowest gear",
        Fit::BySlip => "Torque at which the wheels slip",
        Fit::Shear => "Shear in the tube",
        Fit::Folds => "Shear in the tube, against folding",
        Fit::Twist => "The tube winds up by",
        Fit::Weld => "Leg of the weld, at the least",
        Fit::Spline => "Shear in the splined part",
        Fit::Joints => "Rating of the joints",
    }
}

/// The value and what goes with it.
pub(super) fn worded_fit(
    number: String,
    sense: FitSense,
    display: LengthDisplay,
) -> (String, Option<String>) {
    let words = match sense {
        FitSense::Fastest { by, engine } => {
            let by = match by {
                Fastest::Typed => "As you typed it.".to_owned(),
                Fastest::Gear(row) => format!("In gear {}, the engine at its top speed.", row + 1),
                Fastest::Road(road) => format!("At {} on the road.", show_road_speed(road, display)),
            };
            let engine = engine.map_or(String::new(), |engine| {
                format!(
                    " The engine alone could turn it at {}: with the wheels off the ground it will.",
                    show_speed(engine)
                )
            });
            format!("{by}{engine}")
        }
        FitSense::Modes { next: [second, third], share } => {
            let share = share.map_or(String::new(), |share| {
                format!("Top speed is {} of it. ", show_number(share, 2))
            });
            let speed = |speed| amount(Amount::EstimatedSpeed(speed), display);
            format!(
                "{share}Held rigidly where it is held. In two bows at {}, in three at {}.",
                speed(second),
                speed(third)
            )
        }
        FitSense::OldLength(length) => format!("At {}.", show_plain_length(length, display)),
        FitSense::Held { by: [front, rear], share } => {
            let held =
                |rate: Option<_>| rate.map_or("rigidly".to_owned(), |rate| show_rate(rate, display));
            let share = share.map_or(String::new(), |share| {
                format!(" Top speed is {} of it.", show_number(share, 2))
            });
            format!("Front {}, rear {}.{share}", held(front), held(rear))
        }
        FitSense::UsedUp { allowed } => format!(
            "At each end; softer than that, top speed is more than {} of the whirl speed. A worn rear bushing or a soft mount is softer than it looks: push and measure.",
            show_number(allowed, 2)
        ),
        FitSense::FromHalf { half, road, if_rigid } => {
            let hold = if if_rigid {
                " As long as both joints are held hard: what gives way lowers that half toward it."
            } else {
                ""
            };
            format!(
                "At {} on the road. Half the whirl speed, with its ±, is {} where it comes nearest: there the joints' two shakes a turn meet the bending.{hold}",
                show_road_speed(road, display),
                amount(Amount::EstimatedSpeed(half), display)
            )
        }
        FitSense::Governs(Governs::Lesser) => {
            "The lesser counts, which is this one: more cannot last, but a shock can pass it.".to_owned()
        }
        FitSense::Governs(Governs::Alone) => {
            "This one counts, as long as the other is not known.".to_owned()
        }
        FitSense::Governs(Governs::Never) => "Not reached in steady pull: the other is less.".to_owned(),
        FitSense::Factor(factor) => {
            format!("It bears {} times the torque; 2 is asked.", three_figures(factor))
        }
        FitSense::Rated { factor, works_at, rated_to } => {
            let at = works_at.map_or(String::new(), |at| {
                format!(" The larger of both works at {}", show_angle(at, 1))
            });
            let to = match (works_at, rated_to) {
                (Some(_), Some(to)) => format!("; rated up to {}.", show_angle(to, 1)),
                (Some(_), None) => ".".to_owned(),
                _ => String::new(),
            };
            format!("{} times the torque; 2 is asked.{at}{to}", three_figures(factor))
        }
        FitSense::Leg { given, factor } => match given.zip(factor) {
            Some((leg, factor)) => format!(
                "A fillet all round, without a gap. {} of yours counts: it bears {} times the torque; 2 is asked.",
                show_plain_length(leg, display),
                three_figures(factor)
            ),
            None => {
                "A fillet all round, without a gap; twice that for a shock, as a dropped clutch makes."
                    .to_owned()
            }
        },
    };
    (number, Some(words))
}

/// The words of a reason.
pub(super) fn fit_reason(reason: FitReason, display: LengthDisplay) -> String {
    let fixed = match reason {
        FitReason::FasterThanTyped { reckoned } => {
            return format!(
                "Engine, gears, tyre and axle as you gave them turn it at {}: type that, or look for what is wrong.",
                show_speed(reckoned)
            );
        }
        FitReason::YokesHeavier { yokes, whole } => {
            return format!(
                "Yokes of {} on a shaft of {}: one of these is wrong.",
                amount(Amount::Mass(yokes), display),
                amount(Amount::Mass(whole), display)
            );
        }
        FitReason::SoftHold { least } => {
            return format!(
                "What holds it is too soft: at least {} at each end, or a slower shaft.",
                show_rate(least, display)
            );
        }
        FitReason::NothingMakesIt { reckoned } => {
            return format!(
                "Engine and gears as you gave them turn it no faster than {}: one of these is wrong.",
                show_speed(reckoned)
            );
        }
        FitReason::IsItTheHighest => {
            "By the gears you gave, of which the highest may be missing: give all of them, from first up."
        }
        FitReason::SpinsPastWhirl { engine, allowed } => {
            return format!(
                "A wheel that spins on ice, in mud or off the ground lets the engine turn it at {}, past {} of the whirl speed: ease off at once when one does, and keep below that on stands.",
                show_speed(engine),
                show_number(allowed, 2)
            );
        }
        FitReason::RoadOnly => {
            "By the road alone: give engine and gears as well, since nothing else stops a driver or a wheel that spins."
        }
        FitReason::NoSuchShaft => {
            "These parts do not fit into the new length: look at the weld lines, and at what you placed along the shaft."
        }
        FitReason::NotReckoned => {
            "The bending cannot be reckoned with these numbers: look for one far too large or too small."
        }
        FitReason::NearHalf { half } => {
            return format!(
                "Within 8 % of {}, half the whirl speed: it may hum or shake on the motorway. Small joint angles help; a stiffer tube moves it.",
                amount(Amount::EstimatedSpeed(half), display)
            );
        }
        FitReason::BetweenHalves { low, high } => {
            return format!(
                "Between {} and {}, where half the whirl speed lies by its ± and by what holds the shaft: it may hum or shake here. Small joint angles help.",
                amount(Amount::EstimatedSpeed(low), display),
                amount(Amount::EstimatedSpeed(high), display)
            );
        }
        FitReason::Fails => {
            "It does not bear this torque: it must be stronger, or the torque less. The table of tubes shows which would do."
        }
        FitReason::NotTwice => {
            "It bears this torque, but not the double of it, which a shock can make for a moment: a dropped clutch, a wheel that grips again."
        }
        FitReason::SmallWeld { needed } => {
            return format!("Too small: at least {}.", show_plain_length(needed, display));
        }
        FitReason::WeldNotTwice { needed } => {
            return format!(
                "Enough for this torque, not for the double that a shock can make: {} is.",
                show_plain_length(needed, display)
            );
        }
        FitReason::WallTooThin { wall } => {
            return format!(
                "No weld on a wall of {} bears this torque: a thicker wall or a larger tube.",
                show_plain_length(wall, display)
            );
        }
        FitReason::WallNotTwice { wall } => {
            return format!(
                "As thick as the wall, {}, it bears this torque, but no weld there bears the double that a shock can make: a thicker wall or a larger tube.",
                show_plain_length(wall, display)
            );
        }
        FitReason::LegNotGiven => {
            "Give the leg that you will lay: until then nobody looked at the weld."
        }
        FitReason::NotWelded => {
            "What is neither steel nor aluminium is not judged here: the ends of a wound tube are joined by its maker."
        }
        FitReason::DrawnSoftens => {
            "Good for the tube as it was drawn; beside the weld it loses some of that, and then may not bear the double of this torque."
        }
        FitReason::OverRating { rating } => {
            return format!(
                "Their maker rates them for {}: larger joints, or less torque.",
                show_torque(rating, display)
            );
        }
        FitReason::OverRatedAngle => {
            "They work at more than they are rated up to: past it they bear less. Ask their maker."
        }
        FitReason::AngleUnknown => "At which angle they work is not known yet: see Angles.",
        FitReason::SplineNotAsked => {
            "Not looked at: give its diameter at the root and what it yields at, from its maker."
        }
        FitReason::JointsNotAsked => "Not looked at: give the torque from their maker's sheet.",
    };
    fixed.to_owned()
}

/// Why a good verdict is good.
pub(super) fn fit_good(fit: Fit, limit: Amount, display: LengthDisplay) -> String {
    let limit = match limit {
        Amount::Percent(share) => format!("{} %", plain_figures(share * 100.0)),
        limit => amount(limit, display),
    };
    match fit {
        Fit::Half => format!("More than {limit} clear of it."),
        Fit::Elements | Fit::Soft => format!("Below {limit} of it."),
        _ => format!("It bears {limit}."),
    }
}
