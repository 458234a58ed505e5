//! The numbers in what is said of weights and of what the run-out adds.

use shaftwright::stage::Amount;
use shaftwright::stage::balance::Kept;
use shaftwright::stage::weights::{Cut, Piece, There, WeightReason, WeightSense};

/// Every number that a sense carries. No wildcard: a new one must say here what it holds.
pub fn amounts_of(sense: WeightSense) -> Vec<Amount> {
    match sense {
        WeightSense::There(there) => {
            let There { clock, distance, thick, cut, split, inside_weld, around, by_eye } = there;
            let mut all = vec![Amount::Clock(clock), Amount::Length(distance)];
            all.extend(thick.into_iter().chain(inside_weld).map(Amount::Length));
            all.extend(around.into_iter().chain(by_eye).map(Amount::Angle));
            all.extend(of_cut(cut));
            all.extend(split.into_iter().flatten().flat_map(of_piece));
            all
        }
        WeightSense::Grows { still, grown } => vec![Amount::Grade(still), Amount::Grade(grown)],
        WeightSense::Cancelled
        | WeightSense::TooLight
        | WeightSense::Rules { .. }
        | WeightSense::RunOut { .. } => Vec::new(),
    }
}

/// Every number that the weight that is kept carries.
pub fn amounts_of_kept(kept: Kept) -> Vec<Amount> {
    let Kept { clock, around, radius, distance, inside_weld, cut, split, alone, by_eye, .. } = kept;
    let mut all = vec![Amount::Clock(clock), Amount::Length(radius)];
    all.extend(alone.map(Amount::Clock));
    all.extend(distance.into_iter().chain(inside_weld).map(Amount::Length));
    all.extend(around.into_iter().chain(by_eye).map(Amount::Angle));
    all.extend(of_cut(cut));
    all.extend(split.into_iter().flatten().flat_map(of_piece));
    all
}

fn of_piece(piece: Piece) -> Vec<Amount> {
    let Piece { clock, mass, cut } = piece;
    let mut all = vec![Amount::Clock(clock), Amount::Mass(mass)];
    all.extend(of_cut(cut));
    all
}

fn of_cut(cut: Cut) -> Option<Amount> {
    match cut {
        Cut::Long(length) => Some(Amount::Length(length)),
        Cut::NotAsked | Cut::TooThin => None,
    }
}

/// Every number that a reason carries.
pub fn amounts_in(reason: WeightReason) -> Vec<Amount> {
    match reason {
        WeightReason::OnTheSeam { keep, split: _ } | WeightReason::OnTheEars { keep, split: _ } => {
            vec![Amount::Angle(keep)]
        }
        WeightReason::TouchesAnother { both } => both.into_iter().flat_map(of_piece).collect(),
        WeightReason::OnAWeight { split: _ } => Vec::new(),
        WeightReason::TubeHeavier { tube } => vec![Amount::Mass(tube)],
        WeightReason::NotRigid { share } => vec![Amount::Share(share)],
        WeightReason::NoTubeLeft
        | WeightReason::TrueItFirst
        | WeightReason::OffTheTube
        | WeightReason::OtherAxis
        | WeightReason::OverSixteen
        | WeightReason::NearSixteen
        | WeightReason::OverForty
        | WeightReason::NearForty
        | WeightReason::AfterWelding
        | WeightReason::GrowsPastSixteen => Vec::new(),
    }
}
