//! Quantity to text, rounded once.

use super::fraction::{Denominator, inch_fraction};
use super::kind::{
    Angle, AngularAcceleration, AngularVelocity, Force, Length, Mass, RoadSpeed, Unbalance, as_degrees,
    as_gram_millimetres, as_grams, as_kilometres_per_hour, as_miles_per_hour, as_millimetres,
    as_newtons, as_ounce_inches, as_pounds_force, as_radians_per_second_squared, as_rpm,
    clockwise_angle, degrees, in_inches,
};

/// How lengths are shown. It never changes what was typed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LengthDisplay {
    /// Inch fractions of a tape, with the thousandths left over.
    Fraction(Denominator),
    /// Inches with decimals.
    DecimalInch,
    /// Millimetres.
    Millimetre,
}

/// What stands where a sum gave no number. It must never be seen; it is here so that "NaN" cannot.
const NO_NUMBER: &str = "no figure";

/// A number with a fixed count of decimals, a true minus sign and no negative zero.
pub fn show_number(value: f64, decimals: usize) -> String {
    if !value.is_finite() {
        return NO_NUMBER.to_owned();
    }
    let text = format!("{value:.decimals$}");
    match text.strip_prefix('-') {
        Some(digits) if digits.bytes().all(|b| b == b'0' || b == b'.') => digits.to_owned(),
        Some(digits) => format!("−{digits}"),
        None => text,
    }
}

/// A number rounded to three figures.
pub fn three_figures(value: f64) -> String {
    if !value.is_finite() || value == 0.0 {
        return show_number(value, 0);
    }
    // Rounded first: 9.996 is 10.0, not 10.00.
    let power = value.abs().log10().floor() as i32 - 2;
    let step = 10f64.powi(power);
    let rounded = (value / step).round() * step;
    let size = if rounded.abs() >= 10f64.powi(power + 3) { power + 3 } else { power + 2 };
    show_number(rounded, usize::try_from(2 - size).unwrap_or(0).min(6))
}

/// A length to be laid off with a tape, in the display in force.
pub fn show_length(value: Length, display: LengthDisplay) -> String {
    match display {
        LengthDisplay::Fraction(finest) => show_fraction(value, finest),
        _ => show_plain_length(value, display),
    }
}

/// A length with decimals even where fractions are on: for a ± or a working line.
pub fn show_plain_length(value: Length, display: LengthDisplay) -> String {
    match display {
        LengthDisplay::Millimetre => format!("{} mm", show_number(as_millimetres(value), 2)),
        _ => format!("{} in", show_number(in_inches(value), 4)),
    }
}

/// A length of the size that a dial reads.
pub fn show_fine_length(value: Length, display: LengthDisplay) -> String {
    match display {
        LengthDisplay::Millimetre => format!("{} mm", show_number(as_millimetres(value), 3)),
        _ => format!("{} in", show_number(in_inches(value), 4)),
    }
}

fn show_fraction(value: Length, finest: Denominator) -> String {
    let Some(f) = inch_fraction(value, finest) else {
        return NO_NUMBER.to_owned();
    };
    // Less than half a line of the tape: only decimals can say it.
    if f.whole == 0 && f.upper == 0 && f.leftover.abs() >= 0.000_05 {
        return format!("{} in", show_number(f.leftover, 4));
    }
    let mut text = String::new();
    if f.negative {
        text.push('−');
    }
    match (f.whole, f.upper) {
        (whole, 0) => text.push_str(&whole.to_string()),
        (0, upper) => text.push_str(&format!("{upper}/{}", f.lower)),
        (whole, upper) => text.push_str(&format!("{whole}-{upper}/{}", f.lower)),
    }
    text.push_str(" in");
    // Ten-thousandths are as fine as the leftover is worth; under half of one it is nothing.
    if f.leftover.abs() >= 0.000_05 {
        let sign = if f.leftover < 0.0 { '−' } else { '+' };
        text.push_str(&format!(" ({sign}{:.4})", f.leftover.abs()));
    }
    text
}

/// An angle in degrees with so many decimals.
pub fn show_angle(value: Angle, decimals: usize) -> String {
    format!("{}°", show_number(as_degrees(value), decimals))
}

/// A direction as a place on the clock face, to the minute a hand can point at, with its degrees:
/// `4:50 (145°)`.
pub fn show_clock(value: Angle) -> String {
    let turned = as_degrees(clockwise_angle(value));
    if !turned.is_finite() {
        return NO_NUMBER.to_owned();
    }
    // Half a degree to the minute; five minutes are as fine as anyone can point.
    let five_minutes = (turned / 2.5).round() as u32 % 144;
    let (hour, minute) = (five_minutes / 12, five_minutes % 12 * 5);
    let hour = if hour == 0 { 12 } else { hour };
    let whole = show_number(as_degrees(clockwise_angle(degrees(turned.round()))), 0);
    format!("{hour}:{minute:02} ({whole}°)")
}

/// A mass in grams and ounces.
pub fn show_mass(value: Mass) -> String {
    let grams = as_grams(value);
    if grams.abs() >= 1000.0 {
        return format!("{} kg", show_number(grams / 1000.0, 3));
    }
    format!("{} g ({} oz)", show_number(grams, 1), show_number(grams / 28.349_523_125, 2))
}

/// An unbalance in both of the units that shops use.
pub fn show_unbalance(value: Unbalance) -> String {
    format!(
        "{} g·mm ({} oz·in)",
        show_number(as_gram_millimetres(value), 1),
        show_number(as_ounce_inches(value), 3)
    )
}

/// A speed of rotation, to three figures where it is an estimate.
pub fn show_speed(value: AngularVelocity) -> String {
    format!("{} rpm", show_number(as_rpm(value), 0))
}

/// An angular acceleration in rad/s², to three figures, since no angle in a garage gives more.
pub fn show_acceleration(value: AngularAcceleration) -> String {
    let value = as_radians_per_second_squared(value);
    // Under a twentieth nothing is shaken that anyone could find.
    let text = if value.abs() < 0.05 { show_number(0.0, 0) } else { three_figures(value) };
    format!("{text} rad/s²")
}

/// A road speed in whole units of the display in force.
pub fn show_road_speed(value: RoadSpeed, display: LengthDisplay) -> String {
    match display {
        LengthDisplay::Millimetre => format!("{} km/h", show_number(as_kilometres_per_hour(value), 0)),
        _ => format!("{} mph", show_number(as_miles_per_hour(value), 0)),
    }
}

/// A force in both of the units that shops use.
pub fn show_force(value: Force) -> String {
    // What an axle bears is known to no tenth of a newton.
    let (tenths, hundredths) = if as_newtons(value).abs() < 1000.0 { (1, 2) } else { (0, 0) };
    let newtons = show_number(as_newtons(value), tenths);
    format!("{newtons} N ({} lbf)", show_number(as_pounds_force(value), hundredths))
}
