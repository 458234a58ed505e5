//! What is wrong with an entry, in one plain sentence: what was given, what is allowed, what to do.

use super::amount::amount;
use super::label::{label, stage_title};
use crate::job::{Entry, Job, NotAJob};
use crate::quantity::{
    Unit, Unreadable, as_degrees, as_kilograms, as_millimetres, as_pounds, as_thousandths, in_inches,
    parse_angle, show_mass, show_number, three_figures,
};
use crate::stage::check::{NoSuchTyre, TyrePart as Part};
use crate::stage::{Amount, Complaint, Stage, allowed};

/// The sentence that stands under a field. What was given is quoted as typed.
pub fn complaint(job: &Job, entry: Entry, what: &Complaint) -> String {
    let typed = as_typed(job, entry);
    match what {
        Complaint::Unreadable(why) => unreadable(entry, why, &typed),
        Complaint::OutOfRange { least, most, .. } => format!(
            "“{typed}” is outside what this can be: {} to {}. {}",
            bound(job, entry, *least),
            bound(job, entry, *most),
            match least {
                _ if is_off_plumb(job, entry) => {
                    "Read on a face across it? Take what it is off plumb, + when the top leans rearward."
                }
                Amount::Clock(_) => "For degrees, write them with ° or deg: 225°, 225 deg.",
                _ => "Check the number and its unit.",
            }
        ),
        Complaint::FinerThanDial => format!(
            "“{typed}” is finer than this dial shows. If you mean inches or millimetres, write the unit: 0.006 in, 0.15 mm."
        ),
        Complaint::FarFrom { other, apart } => format!(
            "“{typed}” is {}° from “{}”: one spot reads nearly the same either way round. Was a sign lost? Read both again.",
            figures(as_degrees(*apart)),
            label(job, *other)
        ),
        Complaint::SpeedsApart { other } => format!(
            "“{typed}” at the shaft speed in “{}”: no axle and tyre give that. Check both, and their units.",
            label(job, *other)
        ),
        Complaint::NoTyre(why) => format!(
            "“{typed}” is no tyre's size: {} Write it like 205/55R16 or 31x10.50R15.",
            no_tyre(*why)
        ),
        Complaint::TooLittle { other, least } => format!(
            "“{typed}” is too little: it must be at least {}, half of “{}” at {}. Check both.",
            bound(job, entry, *least),
            label(job, *other),
            stage_title(Stage::of(*other))
        ),
        Complaint::Above { other, most, .. } => format!(
            "“{typed}” is too much: it must not be above {}, which follows from “{}” at {}. Check both.",
            bound(job, entry, *most),
            label(job, *other),
            stage_title(Stage::of(*other))
        ),
        Complaint::NotBelow { other, most, .. } => format!(
            "“{typed}” is too much: it must be below {}, which follows from “{}” at {}. Check both.",
            bound(job, entry, *most),
            label(job, *other),
            stage_title(Stage::of(*other))
        ),
    }
}

/// A slope that was read from level on a face that stands upright.
fn is_off_plumb(job: &Job, entry: Entry) -> bool {
    let slope =
        matches!(entry, Entry::GearboxSlope(_) | Entry::PinionSlope(_) | Entry::ShaftSlopeRead(_));
    let text = job.typed(entry).map_or("", |typed| typed.text.as_str());
    let read = parse_angle(text, Unit::Degree).map_or(0.0, |angle| as_degrees(angle).abs());
    slope && (60.0..=120.0).contains(&read)
}

/// What stands in a field; a bare length with the unit it has here, since that may be what is wrong.
fn as_typed(job: &Job, entry: Entry) -> String {
    let text = job.typed(entry).map_or("", |typed| typed.text.trim());
    let bare = text.chars().all(|c| c.is_ascii_digit() || ".,-−/ ".contains(c));
    let unit = job.unit_of(entry);
    match unit {
        Unit::Inch | Unit::Millimetre | Unit::Thousandth if bare => format!("{text} {}", unit.symbol()),
        _ => text.to_owned(),
    }
}

/// A bound as this field is typed: hours where it takes hours, and no more figures than a bound needs.
fn bound(job: &Job, entry: Entry, value: Amount) -> String {
    match value {
        Amount::Clock(angle) if job.unit_of(entry) == Unit::Hour => {
            format!("{} o'clock", figures(as_degrees(angle) / 30.0))
        }
        Amount::Clock(angle) | Amount::Angle(angle) => format!("{}°", figures(as_degrees(angle))),
        Amount::PlainLength(length) if job.unit_of(entry) == Unit::Inch => {
            format!("{} in", figures(in_inches(length)))
        }
        Amount::PlainLength(length) => format!("{} mm", figures(as_millimetres(length))),
        Amount::Mass(mass) => match job.unit_of(entry) {
            Unit::Pound => format!("{} lb", figures(as_pounds(mass))),
            Unit::Kilogram => format!("{} kg", figures(as_kilograms(mass))),
            _ => show_mass(mass),
        },
        // A dial is read in its own lines.
        Amount::FineLength(length) => match job.unit_of(entry) {
            Unit::Thousandth => format!("{} thou", figures(as_thousandths(length))),
            Unit::Hundredth => format!("{} × 0.01 mm", figures(as_millimetres(length) * 100.0)),
            _ => amount(value, job.display.lengths()),
        },
        _ => amount(value, job.display.lengths()),
    }
}

/// Three figures without zeros that say nothing.
fn figures(value: f64) -> String {
    let text = three_figures(value);
    match text.contains('.') {
        true => text.trim_end_matches('0').trim_end_matches('.').to_owned(),
        false => text,
    }
}

/// An example of what may be typed.
fn example(entry: Entry) -> &'static str {
    match allowed(entry).0 {
        Amount::FineLength(_) => "7, -2 or 0.19 mm",
        Amount::Clock(_) => "7:30, 7.5 or 225°",
        Amount::Angle(_) => "1.5 or -0.25",
        Amount::Mass(_) => match entry {
            Entry::AxleLoad => "3200 lb or 1450 kg",
            Entry::ShaftMass
            | Entry::FrontYokeMass
            | Entry::RearYokeMass
            | Entry::SlipMass
            | Entry::HungBehind
            | Entry::LumpMass => "4-1/2 lb or 2.1 kg",
            _ => "14.5 g or 1/2 oz",
        },
        Amount::Speed(_) => "4200",
        Amount::RoadSpeed(_) => "70 mph or 110 km/h",
        Amount::Acceleration(_) => "400",
        Amount::Reading(_) => "4.2",
        _ if entry == Entry::TyreSize => "205/55R16 or 31x10.50R15",
        Amount::Torque(_) => "280 lbf·ft or 380 N·m",
        Amount::Stress(_) => "55 ksi or 380 MPa",
        Amount::Modulus(_) => "205 GPa or 29.7 Mpsi",
        Amount::Density(_) => "1550 or 0.056 lb/in³",
        Amount::Rate(_) => "5000 N/mm or 30000 lbf/in",
        Amount::Turns(_) => "780 /mi or 485 /km",
        _ => "57-5/16, 57.3125 or 1455.7 mm",
    }
}

/// The units that a field takes.
fn units(entry: Entry) -> &'static str {
    match allowed(entry).0 {
        Amount::Clock(_) => "h or °",
        Amount::Angle(_) => "°",
        Amount::Mass(_) => "g, kg, oz or lb",
        Amount::Speed(_) => "rpm",
        Amount::RoadSpeed(_) => "mph or km/h",
        Amount::Acceleration(_) => "rad/s²",
        Amount::Reading(_) if Stage::of(entry) == Stage::Check => "no unit",
        Amount::Reading(_) => "no unit: the instrument's own",
        Amount::Torque(_) => "N·m or lbf·ft",
        Amount::Stress(_) => "MPa or ksi",
        Amount::Modulus(_) => "GPa or Mpsi",
        Amount::Density(_) => "kg/m³ or lb/in³",
        Amount::Rate(_) => "N/mm or lbf/in",
        Amount::Turns(_) => "/km or /mi",
        _ => "in, ', ft, mm, cm, m or thou",
    }
}

/// A unit with its capitals, as it stands in what was typed.
fn as_written<'a>(typed: &'a str, unit: &'a str) -> &'a str {
    let mut all = typed.char_indices().filter_map(|(at, _)| typed.get(at..at + unit.len()));
    all.find(|part| part.eq_ignore_ascii_case(unit)).unwrap_or(unit)
}

fn unreadable(entry: Entry, why: &Unreadable, typed: &str) -> String {
    let example = example(entry);
    match why {
        Unreadable::Empty => "Nothing stands here yet.".to_owned(),
        Unreadable::TooLong { most } => {
            format!(
                "That is longer than any measurement (at most {most} characters). Write it like {example}."
            )
        }
        Unreadable::NotUnderstood { given } => {
            format!("“{given}” cannot be read as a number here. Write it like {example}.")
        }
        Unreadable::Ambiguous { given, .. } => {
            format!("“{given}” can be read in two ways. Tap the one you mean.")
        }
        Unreadable::UnknownUnit { unit } => {
            let unit = as_written(typed, unit);
            format!("“{unit}” is not a unit this takes. It takes {}.", units(entry))
        }
        Unreadable::OddFraction { upper, lower } => format!(
            "{}/{} is no line of a tape: the lower number is 2, 4, 8, 16, 32, 64 or 128 and the upper one is below it. Look at the tape again.",
            show_number(*upper, 0),
            show_number(*lower, 0)
        ),
        Unreadable::InchesPassFoot { inches } => format!(
            "{} inches behind the feet make another foot: they go from 0 to under 12. Write it again.",
            show_number(*inches, 3).trim_end_matches('0').trim_end_matches('.')
        ),
        Unreadable::MinutesPassHour { minutes } => format!(
            "{} minutes are past the hour: they go from 0 to 59. Write it like 7:30.",
            show_number(*minutes, 0)
        ),
    }
}

/// What of a tyre's marking was not understood.
const fn no_tyre(why: NoSuchTyre) -> &'static str {
    match why {
        NoSuchTyre::Empty => "nothing stands there.",
        NoSuchTyre::TooLong => "it is longer than any.",
        NoSuchTyre::Missing(part) => match part {
            Part::Diameter | Part::Width => "it begins with no width.",
            Part::Aspect => "the height of its side is missing.",
            Part::Construction => "the letter before the rim is missing.",
            Part::Rim => "the rim is missing.",
        },
        NoSuchTyre::OutOfRange(part) => match part {
            Part::Diameter => "no road tyre is so large or small.",
            Part::Width => "no road tyre is so wide or narrow.",
            Part::Aspect => "no tyre's side is so high or low.",
            Part::Construction => "no tyre is built so.",
            Part::Rim => "no rim is so large or small.",
        },
        NoSuchTyre::Behind => "what stands behind the size is none of a tyre.",
    }
}

/// Why a text could not be opened as a job.
pub fn unopened(why: &NotAJob) -> String {
    match why {
        NotAJob::OtherText => "This is not a Shaftwright job. Choose a file that Shaftwright saved.".to_owned(),
        NotAJob::Newer { version, known } => format!(
            "This job was saved by a newer Shaftwright (form {version}; this one knows form {known}). Take the new version of the page, then open it again."
        ),
        NotAJob::Damaged { detail } => {
            format!("This job is damaged and cannot be opened whole ({detail}). The text is kept: save it as a file.")
        }
        NotAJob::TooMuch => {
            "This job holds more readings, turns or weights than a job can. The text is kept: save it as a file.".to_owned()
        }
    }
}
