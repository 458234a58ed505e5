//! Every number that the senses and reasons of Check carry. No wildcard.

use shaftwright::stage::Amount;
use shaftwright::stage::check::{Fastest, FitReason, FitSense};

pub fn amounts_of(sense: FitSense) -> Vec<Amount> {
    match sense {
        FitSense::Fastest { by, engine } => {
            let road = match by {
                Fastest::Road(road) => Some(Amount::RoadSpeed(road)),
                Fastest::Gear(row) => Some(Amount::Count(row)),
                Fastest::Typed => None,
            };
            road.into_iter().chain(engine.map(Amount::Speed)).collect()
        }
        FitSense::Modes { next, share } => {
            next.map(Amount::Speed).into_iter().chain(share.map(Amount::Share)).collect()
        }
        FitSense::OldLength(length) => vec![Amount::Length(length)],
        FitSense::Held { by, share } => {
            by.into_iter().flatten().map(Amount::Rate).chain(share.map(Amount::Share)).collect()
        }
        FitSense::UsedUp { allowed: share } | FitSense::Factor(share) => vec![Amount::Share(share)],
        FitSense::FromHalf { half, road, if_rigid: _ } => {
            vec![Amount::Speed(half), Amount::RoadSpeed(road)]
        }
        FitSense::Governs(_) => Vec::new(),
        FitSense::Rated { factor, works_at, rated_to } => {
            let angles = [works_at, rated_to].into_iter().flatten().map(Amount::Angle);
            core::iter::once(Amount::Share(factor)).chain(angles).collect()
        }
        FitSense::Leg { given, factor } => {
            given.map(Amount::Length).into_iter().chain(factor.map(Amount::Share)).collect()
        }
    }
}

pub fn amounts_in(reason: FitReason) -> Vec<Amount> {
    match reason {
        FitReason::FasterThanTyped { reckoned: speed }
        | FitReason::NothingMakesIt { reckoned: speed }
        | FitReason::NearHalf { half: speed } => {
            vec![Amount::Speed(speed)]
        }
        FitReason::BetweenHalves { low, high } => [low, high].map(Amount::Speed).into(),
        FitReason::SpinsPastWhirl { engine, allowed } => {
            vec![Amount::Speed(engine), Amount::Share(allowed)]
        }
        FitReason::YokesHeavier { yokes, whole } => [yokes, whole].map(Amount::Mass).into(),
        FitReason::SoftHold { least } => vec![Amount::Rate(least)],
        FitReason::SmallWeld { needed: leg }
        | FitReason::WallTooThin { wall: leg }
        | FitReason::WallNotTwice { wall: leg }
        | FitReason::WeldNotTwice { needed: leg } => {
            vec![Amount::Length(leg)]
        }
        FitReason::OverRating { rating } => vec![Amount::Torque(rating)],
        FitReason::RoadOnly
        | FitReason::IsItTheHighest
        | FitReason::LegNotGiven
        | FitReason::NotWelded
        | FitReason::DrawnSoftens
        | FitReason::NoSuchShaft
        | FitReason::NotReckoned
        | FitReason::Fails
        | FitReason::NotTwice
        | FitReason::OverRatedAngle
        | FitReason::AngleUnknown
        | FitReason::SplineNotAsked
        | FitReason::JointsNotAsked => Vec::new(),
    }
}
