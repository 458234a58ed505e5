//! The rules for putting back held against each other.

use super::left::{PLANES, half_of, pull};
use super::log::{all_logged, change};
use super::sense::WeightSense;
use crate::job::{Entry, Job, PutBack};
use crate::mechanics::models::{Model, put_back};
use crate::mechanics::unbalance::{Grade, Shares, Weight};
use crate::quantity::{Base, Unbalance};
use crate::stage::amount::Amount;
use crate::stage::field::Fields;
use crate::stage::finding::{Finding, Name, Sense, Source, Value, Verdict};
use crate::stage::measure::length_change;

/// What the three rules differ by at the most, in a plane; nothing while a weight or a length is missing,
/// which the cards before it name. Which rule is right no one can know without a machine.
pub(super) fn finding(job: &Job) -> Option<Finding> {
    let lengths = length_change(job).ok()?;
    let (logged, needs) = all_logged(job);
    let mut fields = Fields::of(job);
    let turned = fields.angle(Entry::YokeTurned).filter(|_| needs.is_empty() && !logged.is_empty())?;
    let weights: Vec<Weight> = logged.iter().map(|one| one.weight).collect();
    let change = change(job, &lengths, turned);
    let leaves = |model| put_back(&weights, &change, model).map(|back| back.leaves);
    let all = [
        (PutBack::OwnYoke, leaves(Model::OwnYoke)?),
        // What keeps both shares leaves nothing, wherever its two weights stand.
        (PutBack::BothShares, Shares::zero()),
        (PutBack::OwnPlaces, leaves(Model::OwnPlaces)?),
    ];
    let mut most: Option<(Unbalance, WeightSense)> = None;
    for (place, (one, left)) in all.iter().enumerate() {
        for (other, left_there) in all.iter().skip(place + 1) {
            for (rear, plane) in [false, true].into_iter().zip(PLANES) {
                let by = plane(*left - *left_there).size();
                // A hair, so that of equals the first is named whatever the last bits say.
                if most.is_none_or(|(known, _)| by.base() > known.base() * (1.0 + 1e-9)) {
                    most = Some((by, WeightSense::Rules { one: *one, other: *other, rear }));
                }
            }
        }
    }
    let (by, sense) = most?;
    let (mass, top) = (fields.mass(Entry::ShaftMass), fields.top_speed());
    let half = mass.zip(top).and_then(|(mass, top)| half_of(Grade::G16, mass, top));
    // Where they differ by less than a plane's share of the grade, it matters little which is taken.
    let verdict = match half {
        Some(half) if by.base() <= half.base() => Verdict::Good,
        _ => Verdict::Figure,
    };
    let value =
        Value { amount: Amount::Unbalance(by), plus_minus: None, sense: Some(Sense::Weight(sense)) };
    let mut finding = Finding::known(Name::RulesDiffer, value, verdict).from(&[Source::TwoPlanes]);
    if let (Some(half), Some(top)) = (half, top) {
        finding = pull(finding, by, top).within(Amount::Unbalance(half), Source::BalanceGrade);
    }
    Some(finding)
}
