//! Any amount to text.

use crate::quantity::{
    Angle, Denominator, Length, LengthDisplay, as_rpm, degrees, show_acceleration, show_angle,
    show_clock, show_density, show_fine_length, show_force, show_length, show_mass, show_modulus,
    show_number, show_plain_length, show_rate, show_road_speed, show_speed, show_stress, show_torque,
    show_turns, show_unbalance, three_figures,
};
use crate::stage::Amount;

/// An amount in the display in force.
pub fn amount(value: Amount, display: LengthDisplay) -> String {
    match value {
        Amount::Length(length) => show_length(length, display),
        Amount::BothUnits(length) => both_units(length, display),
        Amount::PlainLength(length) => show_plain_length(length, display),
        Amount::FineLength(length) => show_fine_length(length, display),
        Amount::Angle(angle) => show_angle(angle, 2),
        Amount::Clock(angle) => show_clock(angle),
        Amount::Mass(mass) => show_mass(mass),
        Amount::Unbalance(unbalance) => show_unbalance(unbalance),
        Amount::Speed(speed) => show_speed(speed),
        Amount::EstimatedSpeed(speed) => format!("{} rpm", three_figures(as_rpm(speed))),
        Amount::Force(force) => show_force(force),
        Amount::Acceleration(acceleration) => show_acceleration(acceleration),
        Amount::RoadSpeed(speed) => show_road_speed(speed, display),
        Amount::Share(share) => show_number(share, 2),
        Amount::Grade(grade) => format!("G {}", tenths(grade)),
        Amount::Times(times) => format!("{} times", show_number(times, 2)),
        Amount::Percent(share) if share.abs() < 5e-7 => "0 %".to_owned(),
        Amount::Percent(share) => format!("{} %", three_figures(share * 100.0)),
        Amount::Modulus(modulus) => show_modulus(modulus),
        Amount::Density(density) => show_density(density),
        Amount::Torque(torque) => show_torque(torque, display),
        Amount::Stress(stress) => show_stress(stress, display),
        Amount::Rate(rate) => show_rate(rate, display),
        Amount::Turns(turns) => show_turns(turns, display),
        Amount::Count(count) => count.to_string(),
        Amount::Reading(value) => three_figures(value),
    }
}

/// A ± in the display in force: one of a grade has no name of its own.
pub(super) fn doubt(value: Amount, display: LengthDisplay) -> String {
    match value {
        Amount::Grade(grade) => tenths(grade),
        value => amount(value, display),
    }
}

/// Tenths where there are any: grades are whole numbers in the standard.
fn tenths(value: f64) -> String {
    let whole = (value - value.round()).abs() < 1e-9;
    show_number(value, usize::from(!whole))
}

/// A length in both systems, the one in force first; inches to the finest line of a rule.
fn both_units(length: Length, display: LengthDisplay) -> String {
    let inches = show_length(length, LengthDisplay::Fraction(Denominator::SixtyFourth));
    let millimetres = show_length(length, LengthDisplay::Millimetre);
    match display {
        LengthDisplay::Millimetre => format!("{millimetres} = {inches}"),
        _ => format!("{inches} = {millimetres}"),
    }
}

/// The place across the tube.
pub(super) fn opposite(at: Angle) -> Angle {
    at + degrees(180.0)
}
