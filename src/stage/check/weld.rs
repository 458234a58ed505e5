//! The weld round the tube: the leg that it needs, and what the given one is worth.

use super::found::{Fit, FitReason, FitSense};
use super::strength::{Load, SHOCK};
use super::yields::tube_yield;
use super::{name, sense, why};
use crate::job::{Entry, Job};
use crate::mechanics::grade::shear_yield;
use crate::mechanics::weld::{THROAT_SHARE, allowable, fillet_shear, leg_needed};
use crate::quantity::Base;
use crate::stage::amount::Amount;
use crate::stage::field::Fields;
use crate::stage::finding::{Finding, Law, Reason, Source, Value, Verdict};

/// The leg of a fillet round the tube: what is needed, and what the given one is worth.
///
/// The throat bears 0.30 of the weld metal's strength, but is called no stronger than the tube beside it, which
/// yields in shear at 0.577 of its yield there; and a throat counts up to the wall. Both our own choice: the
/// formula knows nothing of what the weld is laid on.
pub(super) fn weld(job: &Job, load: &Load) -> Finding {
    let fit = name(Fit::Weld);
    if !load.is_metal {
        return Finding::if_wanted(fit, why(FitReason::NotWelded));
    }
    let mut fields = Fields::of(job);
    let electrode = fields.quantity(Entry::ElectrodeStrength);
    let given = fields.optional_length(Entry::WeldLeg);
    let yields = fields.sum(tube_yield(job));
    let needs = fields.needs();
    let (Some(electrode), Some(yields), true) = (electrode, yields, needs.is_empty()) else {
        return Finding::missing(fit, needs);
    };
    let (radius, wall) = (load.welded.outer() * 0.5, load.welded.wall());
    let beside = shear_yield(yields.at_weld);
    let most = wall / THROAT_SHARE;
    let bears = allowable(electrode).map(|throat| if throat < beside { throat } else { beside });
    let needed = bears.and_then(|bears| leg_needed(load.torque, radius, bears));
    let (Some(bears), Some(needed)) = (bears, needed) else {
        return Finding::impossible(fit, Reason::NotComputable);
    };
    let counts = given.map(|leg| if leg < most { leg } else { most });
    let stress = counts.and_then(|leg| fillet_shear(load.torque, leg, radius));
    let factor = stress.map(|stress| bears.base() / stress.base());
    let verdict = match factor {
        _ if needed > most => Verdict::Stop(why(FitReason::WallTooThin { wall })),
        None => Verdict::Watch(why(FitReason::LegNotGiven)),
        Some(factor) if factor < 1.0 => Verdict::Stop(why(FitReason::SmallWeld { needed })),
        Some(factor) if factor < SHOCK && needed * SHOCK > most => {
            Verdict::Watch(why(FitReason::WallNotTwice { wall }))
        }
        Some(factor) if factor < SHOCK => {
            Verdict::Watch(why(FitReason::WeldNotTwice { needed: needed * SHOCK }))
        }
        Some(_) => Verdict::Good,
    };
    let value = Value {
        amount: Amount::PlainLength(needed),
        plus_minus: None,
        sense: Some(sense(FitSense::Leg { given: counts, factor })),
    };
    let put_in = [Amount::Torque(load.torque), Amount::PlainLength(radius), Amount::Stress(bears)];
    let mut finding =
        Finding::known(fit, value, verdict).step(Law::LegNeeded, &put_in, Amount::PlainLength(needed));
    if let (Some(leg), Some(stress)) = (counts, stress) {
        let put_in =
            [Amount::Torque(load.torque), Amount::PlainLength(leg), Amount::PlainLength(radius)];
        finding = finding.step(Law::ShearInWeld, &put_in, Amount::Stress(stress));
    }
    finding.from(&[Source::FilletWeld])
}
