//! What can be typed, and what is said about text that cannot be read.
//!
//! Expected lengths are arithmetic of the exact definitions (1 in = 25.4 mm, 1 oz = 28.349523125 g,
//! 1 lb = 16 oz, an hour of the dial = 30°): nothing here needs an outside value.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use shaftwright::quantity::{
    Unit, Unreadable, as_degrees, as_grams, as_kilometres_per_hour, as_millimetres,
    as_radians_per_second_squared, as_rpm, in_inches, parse_acceleration, parse_angle, parse_clock,
    parse_length, parse_mass, parse_road_speed, parse_speed,
};

/// A bit of a double's last place over the sizes typed here; parsing does no other arithmetic.
const LAST_BITS: f64 = 1e-9;

fn inch_of(text: &str, unit: Unit) -> f64 {
    in_inches(parse_length(text, unit).unwrap_or_else(|why| panic!("{text:?}: {why:?}")))
}

#[test]
fn lengths_as_a_garage_writes_them() {
    for (text, unit, expected) in [
        ("57-5/16", Unit::Inch, 57.3125),
        ("57 5/16\"", Unit::Inch, 57.3125),
        ("57 5/16 in", Unit::Millimetre, 57.3125),
        ("57-5/16″", Unit::Millimetre, 57.3125),
        ("57‑5⁄16”", Unit::Inch, 57.3125),
        ("57–1/2", Unit::Inch, 57.5),
        ("57½", Unit::Inch, 57.5),
        ("57 ½\"", Unit::Inch, 57.5),
        ("57-⅜", Unit::Inch, 57.375),
        ("½", Unit::Inch, 0.5),
        ("5/64", Unit::Inch, 5.0 / 64.0),
        ("0/16", Unit::Inch, 0.0),
        ("4' 9-5/16\"", Unit::Inch, 57.3125),
        ("4'9 5/16", Unit::Inch, 57.3125),
        ("4′ 9-5/16″", Unit::Millimetre, 57.3125),
        ("4 ft 9.3125 in", Unit::Millimetre, 57.3125),
        ("4'-9\"", Unit::Inch, 57.0),
        ("4' 9''", Unit::Inch, 57.0),
        ("4'", Unit::Inch, 48.0),
        ("4.5 feet", Unit::Inch, 54.0),
        ("57.3125", Unit::Inch, 57.3125),
        ("57,31", Unit::Inch, 57.31),
        ("  57.3125   ", Unit::Inch, 57.3125),
        (".5", Unit::Inch, 0.5),
        (",5", Unit::Inch, 0.5),
        ("5.", Unit::Inch, 5.0),
        ("0,455", Unit::Inch, 0.455),
        ("+3", Unit::Inch, 3.0),
        ("-3", Unit::Inch, -3.0),
        ("−3-1/2", Unit::Inch, -3.5),
        ("1455.7 mm", Unit::Inch, 1455.7 / 25.4),
        ("1455.7mm", Unit::Inch, 1455.7 / 25.4),
        ("1455.7 MM", Unit::Inch, 1455.7 / 25.4),
        ("1455.7", Unit::Millimetre, 1455.7 / 25.4),
        ("145.57 cm", Unit::Inch, 1455.7 / 25.4),
        ("145,57 cm", Unit::Inch, 1455.7 / 25.4),
        ("1.4557 m", Unit::Inch, 1455.7 / 25.4),
        ("1,455.7 mm", Unit::Inch, 1455.7 / 25.4),
        ("1.455,7 mm", Unit::Inch, 1455.7 / 25.4),
        ("12,345.5 mm", Unit::Inch, 12_345.5 / 25.4),
        ("1.455 in", Unit::Inch, 1.455),
        ("5 thou", Unit::Inch, 0.005),
        ("5", Unit::Thousandth, 0.005),
        ("−2.5", Unit::Thousandth, -0.0025),
        ("3", Unit::Hundredth, 0.03 / 25.4),
        ("80 µm", Unit::Inch, 0.08 / 25.4),
    ] {
        let got = inch_of(text, unit);
        assert!((got - expected).abs() < LAST_BITS, "{text:?} gave {got}, expected {expected}");
    }
}

#[test]
fn bad_lengths_say_why() {
    let not = |given: &str| Unreadable::NotUnderstood { given: given.to_owned() };
    let unit = |unit: &str| Unreadable::UnknownUnit { unit: unit.to_owned() };
    let odd = |upper, lower| Unreadable::OddFraction { upper, lower };
    let sixty = "1".repeat(60);
    for (text, why) in [
        ("", Unreadable::Empty),
        ("   ", Unreadable::Empty),
        ("about so long", not("about so long")),
        ("57 about", unit("about")),
        ("5/61", odd(5.0, 61.0)),
        ("57-17/16", odd(17.0, 16.0)),
        ("16/16", odd(16.0, 16.0)),
        ("1/0", odd(1.0, 0.0)),
        ("57-5/", not("57-5/")),
        ("57-5", not("57-5")),
        ("57 5", not("57 5")),
        ("1/2/4", not("1/2/4")),
        ("57.5-5/16", not("57.5-5/16")),
        ("½ 3", not("½ 3")),
        ("4' 13\"", Unreadable::InchesPassFoot { inches: 13.0 }),
        ("4' 12", Unreadable::InchesPassFoot { inches: 12.0 }),
        ("4' 9 mm", unit("mm")),
        ("4' 9' 2", not("4' 9' 2")),
        ("NaN", not("NaN")),
        ("inf", not("inf")),
        ("-infinity", not("-infinity")),
        ("1e9", unit("e")),
        ("0x10", unit("x")),
        ("--3", not("--3")),
        ("3-", not("3-")),
        ("+-3", not("+-3")),
        (sixty.as_str(), Unreadable::TooLong { most: 40 }),
        ("🔧", not("🔧")),
        ("57 🔧", not("57 🔧")),
        ("٣", not("٣")),
        ("5７", not("5７")),
        ("1.2.3", not("1.2.3")),
        ("1,2,3", not("1,2,3")),
        ("1.455,700,2", not("1.455,700,2")),
        (".", not(".")),
        (",", not(",")),
        ("57 mm mm", not("57 mm mm")),
        ("57 lb", unit("lb")),
        ("7:30", not("7:30")),
        ("57;5", not("57;5")),
        ("1 455 200", not("1 455 200")),
        ("1 4.5", not("1 4.5")),
        ("1234 455", not("1234 455")),
    ] {
        assert_eq!(parse_length(text, Unit::Inch), Err(why), "{text:?}");
    }
    // A unit of something else in force is no length either.
    assert!(parse_length("5", Unit::Gram).is_err());
}

#[test]
fn thousands_or_decimals_is_asked_and_both_answers_can_be_read() {
    // What the two answers mean in millimetres, with the unit in force the millimetre.
    for (text, grouped, decimal) in [
        ("1,455", 1455.0, 1.455),
        ("1 455", 1455.0, 1.455),
        ("1\u{202f}455", 1455.0, 1.455),
        ("1,455 mm", 1455.0, 1.455),
        ("1 455 mm", 1455.0, 1.455),
        ("−1,455", -1455.0, -1.455),
        ("-1 455", -1455.0, -1.455),
        ("57,313 in", 57_313.0 * 25.4, 57.313 * 25.4),
        ("455 455", 455_455.0, 455.455),
    ] {
        let Err(Unreadable::Ambiguous { given, grouped: one, decimal: other }) =
            parse_length(text, Unit::Millimetre)
        else {
            panic!("{text:?} was not asked about");
        };
        assert_eq!(given, text);
        for (answer, expected) in [(one, grouped), (other, decimal)] {
            let got = as_millimetres(parse_length(&answer, Unit::Millimetre).unwrap());
            assert!((got - expected).abs() <= 1e-12 * expected.abs(), "{text:?} → {answer:?} = {got}");
        }
    }
}

#[test]
fn places_on_the_clock() {
    for (text, unit, expected) in [
        ("7:30", Unit::Hour, 225.0),
        ("7:30", Unit::Degree, 225.0),
        ("7.5", Unit::Hour, 225.0),
        ("7,5", Unit::Hour, 225.0),
        ("7½", Unit::Hour, 225.0),
        ("7 1/2", Unit::Hour, 225.0),
        ("225°", Unit::Hour, 225.0),
        ("225", Unit::Degree, 225.0),
        ("225 deg", Unit::Hour, 225.0),
        ("4 o'clock", Unit::Degree, 120.0),
        ("4 o’clock", Unit::Degree, 120.0),
        ("4 O'Clock", Unit::Hour, 120.0),
        ("4 oclock", Unit::Hour, 120.0),
        ("4 h", Unit::Degree, 120.0),
        ("0:20", Unit::Hour, 10.0),
        ("12:20", Unit::Hour, 10.0),
        ("12:30", Unit::Hour, 15.0),
        ("12.5", Unit::Hour, 15.0),
        ("12", Unit::Hour, 0.0),
        ("12 o'clock", Unit::Hour, 0.0),
        ("12", Unit::Degree, 12.0),
        ("360°", Unit::Hour, 360.0),
        ("11:59", Unit::Hour, 359.5),
        // The range of a field is not the reader's business: 19 o'clock is refused later, as 570°.
        ("19 o'clock", Unit::Hour, 570.0),
        ("-1", Unit::Hour, -30.0),
    ] {
        let got = as_degrees(parse_clock(text, unit).unwrap_or_else(|why| panic!("{text:?}: {why:?}")));
        assert!((got - expected).abs() < LAST_BITS, "{text:?} gave {got}, expected {expected}");
    }
    for text in ["7:75", "7:60", "7:99.5"] {
        assert!(matches!(
            parse_clock(text, Unit::Hour),
            Err(Unreadable::MinutesPassHour { minutes }) if minutes >= 60.0
        ));
    }
    for text in ["", ":30", "7:", "7:-5", "noon", "7:30 pm", "7'30", "o'clock", "7:30:10", "3 mm"] {
        assert!(parse_clock(text, Unit::Hour).is_err(), "{text:?}");
    }
}

#[test]
fn masses_speeds_and_angles() {
    for (text, unit, expected) in [
        ("14", Unit::Gram, 14.0),
        ("14.2 g", Unit::Ounce, 14.2),
        ("1/2 oz", Unit::Gram, 14.174_761_562_5),
        ("½ oz", Unit::Gram, 14.174_761_562_5),
        ("9.5 kg", Unit::Gram, 9500.0),
        ("21 lb", Unit::Gram, 21.0 * 453.592_37),
        ("21", Unit::Pound, 21.0 * 453.592_37),
        ("0,5 lbs", Unit::Gram, 226.796_185),
        ("8", Unit::Kilogram, 8000.0),
    ] {
        let got = as_grams(parse_mass(text, unit).unwrap());
        assert!((got - expected).abs() < 1e-9 * expected, "{text:?} gave {got}");
    }
    for (text, expected) in [("4200", 4200.0), ("4200 rpm", 4200.0), ("4200.5 RPM", 4200.5)] {
        assert!((as_rpm(parse_speed(text).unwrap()) - expected).abs() < 1e-9 * expected);
    }
    for (text, expected) in [("1.5", 1.5), ("−2,25°", -2.25), ("3 deg", 3.0), ("-1/4", -0.25)] {
        let got = as_degrees(parse_angle(text, Unit::Degree).unwrap());
        assert!((got - expected).abs() < LAST_BITS, "{text:?} gave {got}");
    }
    for text in ["", "heavy", "14 mm", "14 g g", "1e3", "5/61 oz", "NaN", "14:20"] {
        assert!(parse_mass(text, Unit::Gram).is_err(), "{text:?}");
    }
    for text in ["", "fast", "60 mph", "4200 rpm rpm", "NaN", "inf", "4,200"] {
        assert!(parse_speed(text).is_err(), "{text:?}");
    }
    assert!(matches!(parse_speed("4,200"), Err(Unreadable::Ambiguous { .. })));
    // By definition: a mile is 1609.344 m, so 1 mph is 1.609344 km/h.
    for (text, unit, expected) in [
        ("75", Unit::MilePerHour, 75.0 * 1.609_344),
        ("75 mph", Unit::KilometrePerHour, 75.0 * 1.609_344),
        ("75MPH", Unit::KilometrePerHour, 75.0 * 1.609_344),
        ("120", Unit::KilometrePerHour, 120.0),
        ("120 km/h", Unit::MilePerHour, 120.0),
        ("120 kmh", Unit::MilePerHour, 120.0),
        ("120,5 kph", Unit::MilePerHour, 120.5),
        ("62-1/2", Unit::MilePerHour, 62.5 * 1.609_344),
        ("-5", Unit::KilometrePerHour, -5.0),
    ] {
        let got = as_kilometres_per_hour(parse_road_speed(text, unit).unwrap());
        assert!((got - expected).abs() < LAST_BITS, "{text:?} gave {got}, expected {expected}");
    }
    for text in ["", "fast", "75 rpm", "75 mm", "75 mph mph", "km/h", "75 km", "75/h", "NaN", "1e3"] {
        assert!(parse_road_speed(text, Unit::MilePerHour).is_err(), "{text:?}");
    }
    for (text, expected) in [
        ("400", 400.0),
        ("400 rad/s²", 400.0),
        ("400 rad/s2", 400.0),
        ("400 RAD/S^2", 400.0),
        ("312,5", 312.5),
        ("-1", -1.0),
    ] {
        let got = as_radians_per_second_squared(parse_acceleration(text).unwrap());
        assert!((got - expected).abs() < LAST_BITS, "{text:?} gave {got}");
    }
    for text in ["", "a lot", "400 rpm", "400 rad/s", "400 m/s²", "rad/s²", "400 rad/s² rad/s²", "inf"]
    {
        assert!(parse_acceleration(text).is_err(), "{text:?}");
    }
    // As typed, with the unit in neither answer lost.
    for answer in
        [parse_acceleration("1,000").map(|_| ()), parse_acceleration("1,000 rad/s²").map(|_| ())]
    {
        let Err(Unreadable::Ambiguous { grouped, decimal, .. }) = answer else { panic!("{answer:?}") };
        for (text, expected) in [(grouped, 1000.0), (decimal, 1.0)] {
            let got = as_radians_per_second_squared(parse_acceleration(&text).unwrap());
            assert!((got - expected).abs() < LAST_BITS, "{text}");
        }
    }
    let asked = parse_road_speed("1,200 km/h", Unit::MilePerHour);
    let Err(Unreadable::Ambiguous { given, grouped, decimal }) = asked else { panic!("{asked:?}") };
    assert_eq!(given, "1,200 km/h");
    for (text, expected) in [(grouped, 1200.0), (decimal, 1.2)] {
        let got = as_kilometres_per_hour(parse_road_speed(&text, Unit::MilePerHour).unwrap());
        assert!((got - expected).abs() < LAST_BITS, "{text:?}");
    }
    // What cannot be read is quoted as it was typed.
    for text in ["Fast", "7:30 mph", "-- MPH"] {
        let said = parse_road_speed(text, Unit::MilePerHour);
        assert_eq!(said, Err(Unreadable::NotUnderstood { given: text.to_owned() }));
    }
    for text in ["", "steep", "3 mm", "3°°", "°"] {
        assert!(parse_angle(text, Unit::Degree).is_err(), "{text:?}");
    }
}
