//! The gearbox seal: where its lip runs on the slip yoke's barrel over the whole travel.
//!
//! One slip coordinate for all of it: the barrel's shoulder to the seal's lip, + outward. The yoke
//! bottomed, the set point, the groove and the band in which the lip runs are all places on it.

use super::amount::{Amount, plain};
use super::field::Fields;
use super::finding::{Blocked, Finding, Law, Name, Reason, Sense, Value, Verdict};
use super::length::LAST_BIT;
use super::slip::{Travel, doubt, larger, plunge_in, plunge_out, travel, travel_sources, with};
use crate::job::{Entry, Groove, Job};
use crate::quantity::{Base, Length, as_millimetres};

/// Set point, gap, depth of the lip, and the barrel or the groove: each is read once.
const DIMENSIONS: usize = 4;

/// Where the seal's lip runs on the barrel over the whole travel, on the slip coordinate.
#[derive(Clone, Copy, Debug)]
pub struct LipBand {
    /// Lip with the yoke bottomed.
    pub bottomed: Length,
    /// Lip at ride.
    pub ride: Length,
    /// Farthest in.
    pub from: Length,
    /// Farthest out.
    pub to: Length,
    /// End of the barrel.
    pub barrel: Length,
    /// The groove's two edges; none where there is no groove.
    pub groove: Option<(Length, Length)>,
    /// How far the lip shall stay off it.
    pub margin: Length,
    travel: Travel,
}

/// The lip's band on the barrel.
///
/// # Errors
/// The fields that are needed, or why the numbers do not go together.
pub fn lip_band(job: &Job) -> Result<LipBand, Blocked> {
    lip(job, &travel(job))
}

fn lip(job: &Job, travel: &Result<Travel, Blocked>) -> Result<LipBand, Blocked> {
    let fields = [Entry::SetPoint, Entry::BottomedGap, Entry::LipDepth, Entry::BarrelLength];
    let basic = with(job, travel, fields);
    let zero = Length::from_base(0.0);
    let (groove, margin) = match job.slip.groove {
        Groove::None => (None, zero),
        Groove::Worn => {
            let fields = [Entry::GroovePlace, Entry::GrooveWidth, Entry::GrooveMargin];
            match (&basic, with(job, travel, fields)) {
                (_, Ok((_, [place, width, margin]))) => {
                    (Some((place - width / 2.0, place + width / 2.0)), margin)
                }
                (Err(Blocked::Missing(first)), Err(Blocked::Missing(more))) => {
                    let mut needs = Fields::of(job);
                    needs.also(first);
                    needs.also(&more);
                    return Err(Blocked::Missing(needs.needs()));
                }
                (_, Err(blocked)) => return Err(blocked),
            }
        }
    };
    let (travel, [set_point, bottomed, lip_depth, barrel]) = basic?;
    let bottomed = bottomed + lip_depth;
    let ride = bottomed + set_point;
    Ok(LipBand {
        bottomed,
        ride,
        from: ride - travel.inward,
        to: ride + travel.outward,
        barrel,
        groove,
        margin,
        travel: *travel,
    })
}

pub(super) fn finding(job: &Job, travel: &Result<Travel, Blocked>) -> Finding {
    let band = match lip(job, travel) {
        Ok(band) => band,
        Err(blocked) => return Finding::blocked(Name::LipBand, blocked),
    };
    let doubt = doubt(job, &band.travel, DIMENSIONS);
    // From the nearer edge of the groove to the band; negative where they overlap.
    let off = band.groove.map(|(inner, outer)| larger(inner - band.to, band.from - outer));
    let spare = off.map(|off| (off - band.margin).base());
    let verdict = if band.to.base() + doubt.base() > band.barrel.base() {
        Verdict::Stop(Reason::LipOffBarrel)
    } else {
        match spare {
            Some(spare) if spare < -LAST_BIT => Verdict::Watch(beside_groove(job)),
            Some(spare) if spare < doubt.base() - LAST_BIT => Verdict::Watch(Reason::NearGroove),
            _ => Verdict::Good,
        }
    };
    let value = Value {
        amount: Amount::Length(band.from),
        plus_minus: Some(plain(doubt)),
        sense: Some(Sense::UpTo { to: band.to }),
    };
    Finding::known(Name::LipBand, value, verdict)
        .step(
            Law::LipBand,
            &[plain(band.ride), plain(band.travel.inward), plain(band.from)],
            plain(band.to),
        )
        .from(travel_sources(job))
}

/// How far the set point would have to move for the lip to miss the groove, either way, where that
/// leaves room at bump and spline at droop.
fn beside_groove(job: &Job) -> Reason {
    Reason::LipInGroove { out: way_out(job, 1.0), inward: way_out(job, -1.0) }
}

/// How far the slip has to be drawn out, or with −1 pushed in, for the lip to miss the groove by the
/// margin and its ±, or what is told would end in the ± again. Where the length follows the set point,
/// the travel follows the length, and what is laid off adds to the ±: it is moved until it stands clear.
fn way_out(job: &Job, way: f64) -> Option<Length> {
    let set_point = Fields::of(job).length(Entry::SetPoint)?;
    let mut by = Length::from_base(0.0);
    // Each step leaves about a hundredth of what the last one left.
    for _ in 0..6 {
        let (band, doubt) = moved_to(job, set_point + by * way)?.1;
        let (inner, outer) = band.groove?;
        let clear = band.margin + doubt;
        by += if way > 0.0 { outer + clear - band.from } else { band.to - inner + clear };
    }
    let (moved, (band, doubt)) = moved_to(job, set_point + by * way)?;
    let beside = if way > 0.0 { plunge_out } else { plunge_in }(&moved, &Ok(band.travel));
    let fits = beside.value().is_some() && !matches!(beside.verdict, Verdict::Stop(_));
    // A longer way out may also run off the barrel.
    let on_barrel = (band.to + doubt).base() < band.barrel.base();
    (by.base() >= 0.0 && fits && on_barrel).then_some(by)
}

/// The job with another set point, where the lip then runs, and how well that is known.
fn moved_to(job: &Job, set_point: Length) -> Option<(Job, (LipBand, Length))> {
    let mut moved = job.clone();
    moved.put(Entry::SetPoint, &format!("{:.9} mm", as_millimetres(set_point)));
    let band = lip_band(&moved).ok()?;
    let doubt = doubt(&moved, &band.travel, DIMENSIONS);
    Some((moved, (band, doubt)))
}
