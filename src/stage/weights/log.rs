//! The log: what each weight was and where it sat on the old shaft.

use crate::job::{End, Entry, Job, Material, Weighed, WeightsCame};
use crate::mechanics::material::{aluminium, steel};
use crate::mechanics::models::{Change, CutEnd};
use crate::mechanics::plate::{Plate, Stock};
use crate::mechanics::unbalance::Weight;
use crate::mechanics::uncertainty::{Spread, combined, rectangular};
use crate::quantity::{Angle, Base, Length, Mass, MassDensity, degrees, grams, inches, millimetres};
use crate::stage::field::Fields;
use crate::stage::finding::Need;
use crate::stage::measure::{LengthChange, length_change};

/// How well a weight is known, ±: mass by a kitchen scale, clock position by eye, place and radius by
/// tape. Our own choice.
pub(super) fn weight_doubt() -> (Mass, Angle, Length, Length) {
    (grams(0.5), degrees(5.0), inches(1.0 / 8.0), inches(1.0 / 16.0))
}

/// How well its size is known, ±: length and width by rule, thickness by calliper. Our own choice.
fn size_doubt() -> (Length, Length) {
    (inches(1.0 / 32.0), millimetres(0.1))
}

/// A weight that came off.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Logged {
    /// The row it was logged in.
    pub row: usize,
    /// The yoke it belongs to.
    pub own: End,
    /// On the old shaft.
    pub weight: Weight,
    /// The same with its place on the clock as its yoke was turned: what it cancels has turned with it.
    pub turned: Weight,
    /// Distance from the far datum on the old shaft.
    pub distance: Length,
    /// How well its mass is known, ±.
    pub doubt: Mass,
    /// How thick it was, where that is known.
    pub thick: Option<Length>,
    /// How far it reaches on the clock to either side of its middle, where its length is known.
    pub reach: Angle,
    /// What it was cut from and the length of that, where its size is what is known.
    pub(super) size: Option<(Stock, Length, Plate)>,
}

/// What weights are made of.
pub(super) fn density(job: &Job) -> MassDensity {
    match job.weights.material {
        Material::Steel => steel().density,
        Material::Aluminium => aluminium().density,
    }
}

/// What is done to the shaft, as the weights see it.
pub(super) fn change(job: &Job, lengths: &LengthChange, turned: Angle) -> Change {
    let cut = match job.cut.end {
        End::Front => CutEnd::Front,
        End::Rear => CutEnd::Rear,
    };
    Change { old: lengths.old.best, new: lengths.wanted.best, cut, turned }
}

/// The distance behind the front joint of a place that is so far from the far datum, and the other way
/// round, which is the same sum.
pub(super) fn behind_front(job: &Job, distance: Length, length: Length) -> Length {
    match job.cut.end {
        End::Rear => distance,
        End::Front => length - distance,
    }
}

/// The rows in which anything stands that counts; none where no weight came off.
pub(super) fn rows(job: &Job) -> Vec<usize> {
    if job.weights.came == WeightsCame::None {
        return Vec::new();
    }
    let asked: &[fn(usize) -> Entry] = match job.weights.weighed {
        Weighed::Scale => &[Entry::WeightMass, Entry::WeightThickness],
        Weighed::Size => &[Entry::WeightLength, Entry::WeightWidth, Entry::WeightThickness],
    };
    let always: [fn(usize) -> Entry; 3] =
        [Entry::WeightClock, Entry::WeightDistance, Entry::WeightRadius];
    let is_blank = |row: &usize| {
        let mut all = asked.iter().chain(&always);
        all.all(|entry| job.typed(entry(*row)).is_none_or(|typed| typed.is_blank()))
    };
    (0..job.weights.rows.len()).filter(|row| !is_blank(row)).collect()
}

/// A weight of the log.
///
/// # Errors
/// The fields that are needed.
pub(super) fn logged(job: &Job, row: usize) -> Result<Logged, Vec<Need>> {
    let mut fields = Fields::of(job);
    let made = match job.weights.weighed {
        Weighed::Scale => by_scale(&mut fields, row),
        Weighed::Size => by_size(job, &mut fields, row),
    };
    let at = fields.angle(Entry::WeightClock(row));
    let distance = fields.length(Entry::WeightDistance(row));
    let turned = fields.angle(Entry::YokeTurned);
    let lengths = fields.sum(length_change(job));
    let (Some(made), Some(at), Some(distance), Some(turned), Some(lengths)) =
        (made, at, distance, turned, lengths)
    else {
        return Err(fields.needs());
    };
    let z = behind_front(job, distance, lengths.old.best);
    let weight = Weight { mass: made.mass, radius: made.radius, at, z };
    let change = change(job, &lengths, turned);
    let own = match (change.moves(&weight), job.cut.end) {
        (true, end) => end,
        (false, End::Rear) => End::Front,
        (false, End::Front) => End::Rear,
    };
    let reach = made.size.map_or(Angle::from_base(0.0), |(.., plate)| plate.round * 0.5);
    let turned = change.turned(&weight);
    let Made { doubt, thick, size, .. } = made;
    Ok(Logged { row, own, weight, turned, distance, doubt, thick, reach, size })
}

/// Every weight that can be read; needs of those that cannot.
pub fn all_logged(job: &Job) -> (Vec<Logged>, Vec<Need>) {
    let mut found = Vec::new();
    let mut fields = Fields::of(job);
    for row in rows(job) {
        match logged(job, row) {
            Ok(weight) => found.push(weight),
            Err(needs) => fields.also(&needs),
        }
    }
    (found, fields.needs())
}

/// A weight by itself, wherever it sat.
struct Made {
    mass: Mass,
    radius: Length,
    doubt: Mass,
    thick: Option<Length>,
    size: Option<(Stock, Length, Plate)>,
}

/// By a scale. Its radius follows from its thickness where it was not measured.
fn by_scale(fields: &mut Fields, row: usize) -> Option<Made> {
    let mass = fields.mass(Entry::WeightMass(row));
    let thick = fields.optional_length(Entry::WeightThickness(row));
    let radius = match (thick, fields.is_empty(Entry::WeightRadius(row))) {
        (Some(thick), true) if !fields.is_empty(Entry::TubeDiameter) => {
            fields.length(Entry::TubeDiameter).map(|diameter| (diameter + thick) * 0.5)
        }
        _ => fields.length(Entry::WeightRadius(row)),
    };
    let (doubt, ..) = weight_doubt();
    Some(Made { mass: mass?, radius: radius?, doubt, thick, size: None })
}

/// By its size, as a strip bent round the tube.
fn by_size(job: &Job, fields: &mut Fields, row: usize) -> Option<Made> {
    let length = fields.length(Entry::WeightLength(row));
    let width = fields.length(Entry::WeightWidth(row));
    let thickness = fields.length(Entry::WeightThickness(row));
    let diameter = fields.length(Entry::TubeDiameter);
    let typed = fields.optional_length(Entry::WeightRadius(row));
    let typed_wrong = typed.is_none() && !fields.is_empty(Entry::WeightRadius(row));
    let (length, thickness, diameter) = (length?, thickness?, diameter?);
    let stock = Stock { width: width?, thickness, density: density(job) };
    let plate = stock.plate(diameter * 0.5, length).filter(|_| !typed_wrong)?;
    let (by_rule, by_calliper) = size_doubt();
    let part = |doubt: Length, size: Length| -> Spread<Mass> {
        rectangular(plate.mass * (doubt.base() / size.base()))
    };
    let parts = [part(by_rule, length), part(by_rule, stock.width), part(by_calliper, thickness)];
    Some(Made {
        mass: plate.mass,
        radius: typed.unwrap_or(plate.radius),
        doubt: combined(&parts).expanded(),
        thick: Some(thickness),
        size: Some((stock, length, plate)),
    })
}
