//! Which tube would do: common sizes with what each comes to in this job.

use super::build::{Built, built};
use super::elements::{first, judged, with_doubt};
use super::speeds::top_speed;
use super::strength::by_factor;
use super::torque::torque;
use super::whirl::{allowed_share, stiffness};
use super::yields::tube_yield;
use crate::job::{Entry, Job};
use crate::mechanics::drive_shaft::DriveShaft;
use crate::mechanics::grade::shear_yield;
use crate::mechanics::torsion::{TESTED_SHARE, buckling, shear};
use crate::mechanics::tube::Tube;
use crate::mechanics::whirl::first_pinned;
use crate::quantity::{AngularVelocity, Base, Length, Mass, inches, millimetres};
use crate::stage::field::Fields;
use crate::stage::finding::{Need, Verdict};
use crate::stage::joint::worse;
use crate::stage::measure::length_change;

/// Outside diameters and walls that steel merchants and driveline shops keep, in inches and in millimetres.
/// Common practice, no source.
const INCH_SIZES: [(f64, f64); 16] = [
    (2.0, 0.083),
    (2.0, 0.12),
    (2.5, 0.083),
    (2.5, 0.12),
    (3.0, 0.065),
    (3.0, 0.083),
    (3.0, 0.12),
    (3.5, 0.065),
    (3.5, 0.083),
    (3.5, 0.095),
    (3.5, 0.134),
    (4.0, 0.083),
    (4.0, 0.095),
    (4.0, 0.134),
    (5.0, 0.083),
    (5.0, 0.125),
];
const METRIC_SIZES: [(f64, f64); 12] = [
    (50.0, 2.0),
    (50.0, 3.0),
    (60.0, 2.0),
    (63.5, 2.0),
    (70.0, 2.0),
    (76.0, 2.0),
    (80.0, 2.0),
    (88.9, 2.0),
    (88.9, 3.0),
    (100.0, 2.0),
    (100.0, 3.0),
    (120.0, 3.0),
];
/// Sizes nearer than this are one: a calliper's own error and a mill's.
const SAME_SIZE_MILLIMETRES: f64 = 0.15;

/// A tube that could be taken.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Choice {
    /// Outside diameter.
    pub diameter: Length,
    /// Wall.
    pub wall: Length,
    /// First bending speed with it, by elements where the yokes are known.
    pub whirl: AngularVelocity,
    /// Top speed as a share of that, where it is known.
    pub share: Option<f64>,
    /// How many times stronger than the torque, where that is known.
    pub factor: Option<f64>,
    /// Mass of the tube between its welds, or of the whole length where these are not known.
    pub mass: Mass,
    /// What to make of it.
    pub verdict: Verdict,
    /// It is the tube of this job.
    pub own: bool,
}

/// Common tubes of this job's material and grade, at its new length: the good ones first, the lighter before
/// the heavier.
///
/// # Errors
/// The fields that are needed.
pub fn choices(job: &Job) -> Result<Vec<Choice>, Vec<Need>> {
    let mut fields = Fields::of(job);
    let lengths = fields.sum(length_change(job));
    let of = fields.sum(stiffness(job));
    let own = [Entry::TubeDiameter, Entry::TubeWall].map(|entry| {
        let size: Option<Length> = fields.optional(entry);
        size
    });
    let needs = fields.needs();
    let (Some(lengths), Some(of)) = (lengths, of) else { return Err(needs) };
    let length = lengths.wanted.best;
    let built: Option<Built> = built(job).ok();
    let top = top_speed(job).ok();
    let torque = torque(job).ok();
    let bears = tube_yield(job).ok().map(|yields| shear_yield(yields.at_weld));
    let (allowed, _) = allowed_share(job);
    let sizes: Vec<(Length, Length)> = if job.display.is_inch() {
        INCH_SIZES.map(|(diameter, wall)| (inches(diameter), inches(wall))).into()
    } else {
        METRIC_SIZES.map(|(diameter, wall)| (millimetres(diameter), millimetres(wall))).into()
    };
    // The doubt of this job's own tube stands for each, as a share.
    let doubt = built.as_ref().and_then(|built| {
        let own = with_doubt(job, built, &built.softly(built.wanted()))?;
        Some(own.doubt.base() / own.speed.base())
    });
    let one = |(diameter, wall): (Length, Length)| {
        let tube = Tube::new(diameter, wall).ok()?;
        let (whirl, bare) = match &built {
            Some(built) => {
                let shaft = DriveShaft { tube, step: None, ..built.softly(built.wanted()) };
                let [front, rear] = shaft.yokes;
                (first(&shaft)?, length - front.length - rear.length)
            }
            None => (first_pinned(tube, of, length)?, length),
        };
        let share = top.map(|top| top.share_of(whirl, whirl * doubt.unwrap_or(0.0)));
        let stress = torque.and_then(|torque| shear(tube, torque));
        let folds = buckling(tube, length, of.modulus, of.ratio).map(|folds| folds * TESTED_SHARE);
        let bears = bears.map(|bears| folds.filter(|folds| *folds < bears).unwrap_or(bears));
        let factor = bears.zip(stress).map(|(bears, stress)| bears.base() / stress.base());
        let (share, doubt) = share.unzip();
        let verdict = judged(share, doubt.unwrap_or(0.0), allowed);
        let verdict = factor.map_or(verdict, |factor| worse(verdict, by_factor(factor)));
        let near = |size: Option<Length>, other: Length| {
            let most = millimetres(SAME_SIZE_MILLIMETRES).base();
            size.is_some_and(|size| (size.base() - other.base()).abs() <= most)
        };
        let [own_diameter, own_wall] = own;
        let own = near(own_diameter, diameter) && near(own_wall, wall);
        Some(Choice {
            diameter,
            wall,
            whirl,
            share,
            factor,
            mass: tube.mass(of.density, bare),
            verdict,
            own,
        })
    };
    let mut found: Vec<Choice> = Vec::with_capacity(sizes.len());
    for choice in sizes.into_iter().filter_map(one) {
        let key = |choice: &Choice| (rank(&choice.verdict), choice.mass);
        let before = found.iter().take_while(|known| key(known) <= key(&choice)).count();
        found.insert(before, choice);
    }
    Ok(found)
}

/// The order of verdicts, the best first.
fn rank(verdict: &Verdict) -> u8 {
    match verdict {
        Verdict::Good => 0,
        Verdict::Watch(_) => 1,
        Verdict::Stop(_) => 3,
        _ => 2,
    }
}
