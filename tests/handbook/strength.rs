//! The sums of `handbook.rs` about strength, torque, speeds and tyres. Inches, pounds and ksi, as their
//! sources have them.

use shaftwright::mechanics::drive::{engine_torque, from_engine, from_road, slip_torque, to_road};
use shaftwright::mechanics::grade::{Grade, shear_yield};
use shaftwright::mechanics::torsion::{TESTED_SHARE, buckling, shear, torque_at, twist};
use shaftwright::mechanics::tube::Tube;
use shaftwright::mechanics::tyre::{LOADED_HALF_WIDTH, loaded, parse_tyre, rolled_out};
use shaftwright::mechanics::weld::{allowable, fillet_shear, leg_needed};
use shaftwright::quantity::{
    Base, Force, as_degrees, as_ksi, as_miles_per_hour, as_millimetres, as_pound_feet, as_rpm,
    as_turns_per_mile, gigapascals, in_inches, inches, ksi, miles_per_hour, millimetres, pound_feet,
    rpm, turns_per_mile,
};

use super::{Given, Results};

fn tube(given: &Given) -> Tube {
    Tube::new(inches(given.number("diameter")), inches(given.number("wall"))).unwrap()
}

/// Stress, twist and what a stress carries; and the polar second moment that they tell.
pub fn torsion(given: &Given) -> Results {
    let (tube, torque) = (tube(given), pound_feet(given.number("torque")));
    let stress = as_ksi(shear(tube, torque).unwrap());
    let mut results = vec![
        ("psi", 1000.0 * stress),
        ("J", given.number("torque") * 12.0 * given.number("diameter") / 2.0 / (stress * 1000.0)),
        ("at 30 ksi", as_pound_feet(torque_at(tube, ksi(30.0)).unwrap())),
    ];
    if let Some(length) = given.0["length"].as_f64() {
        let turned = twist(tube, torque, inches(length), ksi(given.number("modulus"))).unwrap();
        results.push(("degrees", as_degrees(turned)));
    }
    results
}

/// The stress at which a tube buckles.
pub fn tube_buckling(given: &Given) -> Results {
    let (length, modulus) = (inches(given.number("length")), ksi(given.number("modulus")));
    let stress = buckling(tube(given), length, modulus, given.number("ratio")).unwrap();
    vec![("ksi", as_ksi(stress)), ("tested", as_ksi(stress * TESTED_SHARE))]
}

/// What a grade bears.
pub fn grade(given: &Given) -> Results {
    let grade = match given.text("name") {
        "1020" => Grade::Drawn1020,
        "1026" => Grade::Drawn1026,
        "as welded" => Grade::AsWelded,
        _ => Grade::Aluminium6061,
    };
    let strength = grade.strength();
    let mut results = vec![
        ("yield", as_ksi(strength.yields_at)),
        ("shear yield", as_ksi(shear_yield(strength.yields_at))),
    ];
    results.extend(strength.weld_zone.map(|stress| ("weld zone", as_ksi(stress))));
    results
}

/// A weld all round, and the second moment of its line that the stress tells.
pub fn fillet(given: &Given) -> Results {
    let [leg, radius] = ["leg", "radius"].map(|name| inches(given.number(name)));
    let torque = pound_feet(given.number("torque"));
    let stress = fillet_shear(torque, leg, radius).unwrap();
    let lever = in_inches(radius) / (0.707 * in_inches(leg));
    vec![
        ("psi", 1000.0 * as_ksi(stress)),
        ("unit moment", given.number("torque") * 12.0 * lever / (1000.0 * as_ksi(stress))),
        ("leg", in_inches(leg_needed(torque, radius, stress).unwrap())),
    ]
}

/// What the throat of a common electrode's weld may bear.
pub fn fillet_allowable() -> Results {
    vec![("ksi", as_ksi(allowable(ksi(70.0)).unwrap()))]
}

/// The engine's torque at the shaft.
pub fn from_the_engine(given: &Given) -> Results {
    let [gear, efficiency, stall] = ["gear", "efficiency", "stall"].map(|name| given.number(name));
    let torque = engine_torque(pound_feet(given.number("engine")), gear, efficiency, stall).unwrap();
    vec![("pound feet", as_pound_feet(torque))]
}

/// The torque at which the wheels slip.
pub fn at_the_slip(given: &Given) -> Results {
    let load = Force::from_base(given.number("pounds") * 4.448_221_615_260_5);
    let [axle, friction] = ["axle", "friction"].map(|name| given.number(name));
    let torque = slip_torque(load, inches(given.number("radius")), axle, friction).unwrap();
    vec![("pound feet", as_pound_feet(torque))]
}

/// The shaft's speed from the engine's.
pub fn shaft_from_engine(given: &Given) -> Results {
    let speed = as_rpm(from_engine(rpm(given.number("engine")), given.number("gear")).unwrap());
    vec![("rpm", speed), ("hertz", speed / 60.0)]
}

/// The shaft's speed from the road's, and back.
pub fn shaft_from_road(given: &Given) -> Results {
    let turns = match given.0["tyre"].as_str() {
        Some(text) => loaded(parse_tyre(text).unwrap()),
        None => turns_per_mile(given.number("turns")),
    };
    let axle = given.number("axle");
    let shaft = from_road(miles_per_hour(given.number("mph")), turns, axle).unwrap();
    vec![
        ("rpm", as_rpm(shaft)),
        ("hertz", as_rpm(shaft) / 60.0),
        ("mph", as_miles_per_hour(to_road(shaft, turns, axle).unwrap())),
    ]
}

/// A tyre by its marking; its turns a mile as a plain wheel, loaded, and rolled out over its own circumference.
pub fn tyre(given: &Given) -> Results {
    let tyre = parse_tyre(given.text("size")).unwrap();
    let round = millimetres(as_millimetres(tyre.diameter()) * std::f64::consts::PI);
    let plain = as_turns_per_mile(tyre.turns(1.0).unwrap());
    let on_load = as_turns_per_mile(loaded(tyre));
    vec![
        ("millimetres", as_millimetres(tyre.diameter())),
        ("turns a mile", plain),
        ("loaded", on_load),
        ("rolled out", as_turns_per_mile(rolled_out(1.0, round).unwrap())),
        ("most", on_load * (1.0 + LOADED_HALF_WIDTH) / plain),
        ("least", on_load * (1.0 - LOADED_HALF_WIDTH) / plain),
    ]
}

/// Every tube of the script's grid: the closed form stands within a tenth of the energy of a shell, which is
/// what its doc block says.
#[test]
fn buckling_within_a_tenth() {
    let (mut seen, e) = (0, gigapascals(1.0));
    for (key, expected) in super::derived("strength") {
        let Some(rest) = key.strip_prefix("shell ") else { continue };
        let (walls, along) = rest.split_once(' ').unwrap();
        let [walls, along]: [f64; 2] = [walls, along].map(|text| text.parse().unwrap());
        // The mean radius is 100 mm; a hair thinner, so that ten walls to it are ten.
        let wall = 100.0 / walls * (1.0 - 1e-12);
        let tube = Tube::new(millimetres(200.0 + wall), millimetres(wall)).unwrap();
        let got = buckling(tube, millimetres(100.0 * along), e, 0.3).unwrap() / e;
        let off = got.base() * 1e6 / expected - 1.0;
        assert!(off.abs() < 0.1, "{key}: {off}");
        seen += 1;
    }
    assert_eq!(seen, 77);
}
