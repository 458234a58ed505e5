//! What is shown: read back, it is the value shown, to the last digit shown.
//!
//! Laws and definitions; nothing here needs an outside value.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use shaftwright::quantity::{
    Denominator, LengthDisplay, Unit, as_degrees, as_grams, as_kilometres_per_hour, as_millimetres,
    as_radians_per_second_squared, as_rpm, degrees, grams, in_inches, inches, kilometres_per_hour,
    millimetres, parse_acceleration, parse_angle, parse_clock, parse_length, parse_mass,
    parse_road_speed, parse_speed, radians_per_second_squared, rpm, show_acceleration, show_angle,
    show_clock, show_fine_length, show_length, show_mass, show_plain_length, show_road_speed,
    show_speed, three_figures,
};

/// A bit of a double's last place over the sizes shown here; reading back does no other arithmetic.
const LAST_BITS: f64 = 1e-9;

fn inch_of(text: &str, unit: Unit) -> f64 {
    in_inches(parse_length(text, unit).unwrap_or_else(|why| panic!("{text:?}: {why:?}")))
}

/// Kilometres in a mile, by definition.
const MILE: f64 = 1.609_344;

const DISPLAYS: [(LengthDisplay, f64); 5] = [
    // The second number is what rounding once may move a length by, in inches.
    (LengthDisplay::Fraction(Denominator::Sixteenth), 0.000_05),
    (LengthDisplay::Fraction(Denominator::ThirtySecond), 0.000_05),
    (LengthDisplay::Fraction(Denominator::SixtyFourth), 0.000_05),
    (LengthDisplay::DecimalInch, 0.000_05),
    (LengthDisplay::Millimetre, 0.005 / 25.4),
];

/// What is shown, read back: the length before the brackets, and the leftover in them.
/// A unit of mass is in force, so text that did not carry its own unit could not be read.
fn read_back(text: &str) -> (f64, f64) {
    let (shown, leftover) = match text.split_once(" (") {
        Some((shown, rest)) => (shown, rest.strip_suffix(')').unwrap()),
        None => (text, "0"),
    };
    (inch_of(shown, Unit::Gram), inch_of(leftover, Unit::Inch))
}

#[test]
fn what_is_shown_reads_back_as_the_value_shown() {
    // Round trip over 4000 lengths of both signs, some on a line, some between.
    for i in -2000..2000_i32 {
        let value = f64::from(i) * 0.031_1 + f64::from(i % 7) * 0.000_37;
        for (display, rounding) in DISPLAYS {
            let text = show_length(inches(value), display);
            let (shown, leftover) = read_back(&text);
            assert!(
                (shown + leftover - value).abs() <= rounding + LAST_BITS,
                "{value} in shown as {text}"
            );
            if let LengthDisplay::Fraction(finest) = display {
                // The part before the brackets is a line of the tape, and the nearest one.
                let lines = shown * f64::from(finest.lines());
                assert!((lines - lines.round()).abs() < 1e-6, "{text}");
                assert!(leftover.abs() <= 0.5 / f64::from(finest.lines()) + rounding, "{text}");
            }
            for plain in
                [show_plain_length(inches(value), display), show_fine_length(inches(value), display)]
            {
                assert!((read_back(&plain).0 - value).abs() <= rounding + LAST_BITS, "{plain}");
            }
        }
    }
}

#[test]
fn other_quantities_read_back_too() {
    for i in 0..720 {
        let at = f64::from(i) * 0.5;
        // To the five minutes a hand can point at: 2.5°, so never more than half of that away.
        let text = show_clock(degrees(at));
        let clock = text.split(' ').next().unwrap();
        let back = as_degrees(parse_clock(clock, Unit::Degree).unwrap());
        let apart = (back - at).rem_euclid(360.0);
        assert!(apart.min(360.0 - apart) <= 1.25 + LAST_BITS, "{at}° shown as {text}");
        let angle = show_angle(degrees(at - 180.0), 2);
        assert!((as_degrees(parse_angle(&angle, Unit::Hour).unwrap()) - at + 180.0).abs() < 0.005_01);
        let speed = show_speed(rpm(at * 20.0));
        assert!((as_rpm(parse_speed(&speed).unwrap()) - at * 20.0).abs() < 0.501);
        let mass = show_mass(grams(at));
        let mass = mass.split(" (").next().unwrap();
        assert!((as_grams(parse_mass(mass, Unit::Pound).unwrap()) - at).abs() < 0.050_1, "{mass}");
    }
    for i in 0..400 {
        // A road speed to the whole unit of the display, with that unit: half of it is cut off at the most.
        let here = f64::from(i) * 1.27;
        for (display, half) in
            [(LengthDisplay::Millimetre, 0.5), (LengthDisplay::DecimalInch, 0.5 * MILE)]
        {
            let text = show_road_speed(kilometres_per_hour(here), display);
            // The other unit in force, so that text without its own would be read wrong.
            let other = if display == LengthDisplay::Millimetre {
                Unit::MilePerHour
            } else {
                Unit::KilometrePerHour
            };
            let back = as_kilometres_per_hour(parse_road_speed(&text, other).unwrap());
            assert!((back - here).abs() <= half + LAST_BITS, "{here} km/h shown as {text}");
        }
        // An acceleration to three figures: half of a hundredth of it at the most.
        let here = f64::from(i) * f64::from(i) * 0.057;
        let text = show_acceleration(radians_per_second_squared(here));
        let back = as_radians_per_second_squared(parse_acceleration(&text).unwrap());
        assert!((back - here).abs() <= 0.005_01 * here, "{here} rad/s² shown as {text}");
    }
    // Less than a twentieth of a rad/s² is nothing: our own rule.
    assert_eq!(show_acceleration(radians_per_second_squared(0.049)), "0 rad/s²");
    // Definition of three figures, on both sides of a carry.
    for (value, shown) in [
        (7825.4, "7830"),
        (999.6, "1000"),
        (999.4, "999"),
        (99.96, "100"),
        (9.996, "10.0"),
        (9.994, "9.99"),
        (-0.012_345, "−0.0123"),
        (0.0, "0"),
    ] {
        assert_eq!(three_figures(value), shown, "{value}");
    }
    // With its unit, where there is no figure as well.
    for (value, shown) in [
        (270.705, "271 rad/s²"),
        (1024.35, "1020 rad/s²"),
        (0.0, "0 rad/s²"),
        (f64::NAN, "no figure rad/s²"),
    ] {
        assert_eq!(show_acceleration(radians_per_second_squared(value)), shown);
    }
}

#[test]
fn a_display_never_changes_a_length() {
    // Law: showing is a question, not a change; and no number that is none is ever shown as one.
    let length = millimetres(1455.7);
    for (display, _) in DISPLAYS {
        let _ = show_length(length, display);
        assert!((as_millimetres(length) - 1455.7).abs() < LAST_BITS);
        for bad in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
            let shown = show_length(inches(bad), display).to_lowercase();
            assert!(!shown.contains("nan") && !shown.contains("inf"), "{shown}");
        }
    }
}
