//! What the torque goes through besides the tube: a splined part and the joints, by their makers' figures.

use super::found::{Fit, FitReason, FitSense};
use super::strength::{by_factor, stressed};
use super::{name, sense, why};
use crate::job::{Entry, Job};
use crate::mechanics::grade::shear_yield;
use crate::mechanics::torsion::shear;
use crate::mechanics::tube::Tube;
use crate::quantity::{Angle, Base, Length, Pressure, Torque};
use crate::stage::amount::Amount;
use crate::stage::angles::{At, line};
use crate::stage::field::Fields;
use crate::stage::finding::{Finding, Law, Reason, Source, Value, Verdict};

/// The splined part, where its figures are known.
pub(super) fn spline(job: &Job, torque: Torque) -> Finding {
    let fit = name(Fit::Spline);
    let mut fields = Fields::of(job);
    let all = [Entry::SplineRoot, Entry::SplineBore, Entry::SplineYield];
    if all.iter().all(|entry| fields.is_empty(*entry)) {
        return Finding::if_wanted(fit, why(FitReason::SplineNotAsked));
    }
    let root = fields.length(Entry::SplineRoot);
    let bore = fields.optional_length(Entry::SplineBore);
    let yields: Option<Pressure> = fields.quantity(Entry::SplineYield);
    let needs = fields.needs();
    let (Some(root), Some(yields), true) = (root, yields, needs.is_empty()) else {
        return Finding::missing(fit, needs);
    };
    let bore = bore.unwrap_or(Length::from_base(0.0));
    let stress = Tube::new(root, (root - bore) * 0.5).ok().and_then(|part| shear(part, torque));
    let Some(stress) = stress else {
        return Finding::impossible(fit, Reason::NotComputable);
    };
    let bears = shear_yield(yields);
    let put_in = [Amount::Torque(torque), Amount::PlainLength(root), Amount::PlainLength(bore)];
    stressed(Fit::Spline, stress, bears, Source::OwnLimit)
        .step(Law::ShearInTube, &put_in, Amount::Stress(stress))
        .step(Law::ShearYield, &[Amount::Stress(yields)], Amount::Stress(bears))
        .from(&[Source::Torsion, Source::ShearYield])
}

/// The joints, by their maker's rating.
pub(super) fn joints(job: &Job, torque: Torque) -> Finding {
    let fit = name(Fit::Joints);
    let mut fields = Fields::of(job);
    if fields.is_empty(Entry::JointRating) {
        return Finding::if_wanted(fit, why(FitReason::JointsNotAsked));
    }
    let rating: Option<Torque> = fields.quantity(Entry::JointRating);
    let rated_to: Option<Angle> = fields.optional(Entry::JointRatedTo);
    let needs = fields.needs();
    let (Some(rating), true) = (rating, needs.is_empty()) else {
        return Finding::missing(fit, needs);
    };
    let works_at = line(job, At::Power).map(|line| {
        let (front, rear) = (line.front_joint(), line.rear_joint());
        if front > rear { front } else { rear }
    });
    let factor = rating.base() / torque.base();
    let verdict = match (by_factor(factor), rated_to, works_at) {
        (Verdict::Stop(_), ..) => Verdict::Stop(why(FitReason::OverRating { rating })),
        (_, Some(to), Some(at)) if at > to => Verdict::Watch(why(FitReason::OverRatedAngle)),
        (_, Some(_), None) => Verdict::Watch(why(FitReason::AngleUnknown)),
        (verdict, ..) => verdict,
    };
    let value = Value {
        amount: Amount::Torque(rating),
        plus_minus: None,
        sense: Some(sense(FitSense::Rated { factor, works_at, rated_to })),
    };
    Finding::known(fit, value, verdict).from(&[Source::JointMaker])
}
