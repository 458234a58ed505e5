//! What cannot be: an error each, never a stop, never a number that is none.
#![cfg(test)]

use super::*;

fn good() -> Beam {
    let mut beam = pinned(millimetres(1270.0), section(millimetres(76.2), millimetres(2.1)));
    beam.lumps = vec![lump(millimetres(400.0), 1.0, 0.001)];
    beam
}

/// Asks a beam that was spoilt, both ways.
fn ask(spoil: impl Fn(&mut Beam)) -> NoModes {
    let mut beam = good();
    spoil(&mut beam);
    let why = beam.modes(30).unwrap_err();
    assert_eq!(beam.first(16), Err(why));
    why
}

#[test]
fn numbers_that_cannot_be() {
    assert!(good().modes(30).is_ok());
    for bad in [0.0, -1.0, f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
        assert_eq!(ask(|b| b.stretches[0].length = millimetres(bad)), NoModes::NoLength, "{bad}");
        assert_eq!(
            ask(|b| b.stretches.push(stretch(millimetres(bad), b.stretches[0].section))),
            NoModes::NoLength
        );
        assert_eq!(ask(|b| b.stretches[0].section.bending = bad), NoModes::NoSuchSection, "{bad}");
        assert_eq!(ask(|b| b.stretches[0].section.shear = bad), NoModes::NoSuchSection, "{bad}");
        let yoke = |b: &mut Beam| {
            b.stretches[0].section =
                Section::heavy(b.stretches[0].section, kilograms(1.0), millimetres(bad));
        };
        if !bad.is_infinite() {
            assert_eq!(ask(yoke), NoModes::NoSuchSection, "{bad}");
        }
    }
    for bad in [-1e-9, f64::NAN, f64::INFINITY] {
        assert_eq!(ask(|b| b.stretches[0].section.mass = bad), NoModes::NoSuchSection, "{bad}");
        assert_eq!(ask(|b| b.stretches[0].section.rotary = bad), NoModes::NoSuchSection, "{bad}");
        assert_eq!(ask(|b| b.lumps[0].mass = kilograms(bad)), NoModes::NoSuchLump, "{bad}");
        assert_eq!(ask(|b| b.lumps[0].inertia = Inertia::from_base(bad)), NoModes::NoSuchLump, "{bad}");
        assert_eq!(ask(|b| b.held[0] = spring(millimetres(0.0), bad)), NoModes::NoSuchSupport, "{bad}");
    }
    for bad in [-0.1, 1270.1, f64::NAN, f64::INFINITY] {
        assert_eq!(ask(|b| b.lumps[0].z = millimetres(bad)), NoModes::Outside, "{bad}");
        assert_eq!(ask(|b| b.held[1].z = millimetres(bad)), NoModes::Outside, "{bad}");
    }
    assert_eq!(ask(|b| b.stretches.clear()), NoModes::NoLength);
    assert_eq!(good().modes(401), Err(NoModes::TooFine));
    assert_eq!(good().first(usize::MAX), Err(NoModes::TooFine));
    // A material that cannot be makes a section that cannot.
    let tube = Tube::new(inches(3.0), inches(0.083)).unwrap();
    for ratio in [f64::NAN, -1.0, f64::INFINITY] {
        let metal = super::super::super::material::Stiffness { ratio, ..steel() };
        let made = Section::of_tube(tube, metal);
        assert_eq!(ask(|b| b.stretches[0].section = made), NoModes::NoSuchSection, "{ratio}");
    }
}

#[test]
fn not_held() {
    assert_eq!(ask(|b| b.held.clear()), NoModes::NotHeld);
    assert_eq!(ask(|b| b.held.truncate(1)), NoModes::NotHeld);
    // Two at one place are one; a spring of nothing holds nothing.
    assert_eq!(ask(|b| b.held[1].z = millimetres(0.0)), NoModes::NotHeld);
    assert_eq!(ask(|b| b.held = vec![rigid(inches(1.0)), spring(inches(1.0), 1e6)]), NoModes::NotHeld);
    assert_eq!(ask(|b| b.held[1] = spring(millimetres(1270.0), 0.0)), NoModes::NotHeld);
}

#[test]
fn nothing_that_moves() {
    let light = |b: &mut Beam| {
        b.stretches[0].section = Section::heavy(b.stretches[0].section, kilograms(0.0), inches(1.0))
    };
    let still = |b: &mut Beam| {
        light(b);
        b.lumps.clear();
    };
    assert_eq!(ask(still), NoModes::TooLight);
    // A mass that stands on a rigid support moves nothing.
    let held = |b: &mut Beam| {
        light(b);
        b.lumps = vec![lump(millimetres(1270.0), 5.0, 0.0)];
    };
    assert_eq!(ask(held), NoModes::TooLight);
    // One mass that moves and tilts has two modes: the first is there, three are not.
    let mut beam = good();
    light(&mut beam);
    assert!(beam.first(16).is_ok());
    assert_eq!(beam.modes(16), Err(NoModes::TooLight));
}

#[test]
fn far_apart() {
    // Whatever the sizes: an answer that is a number, or an error.
    let mut between = luck(17);
    let mut answered = 0;
    for round in 0..3000 {
        let mut size = || 10.0_f64.powf(between(-12.0, 12.0));
        let mut beam = good();
        let section = Section { bending: size(), shear: size(), mass: size(), rotary: size() };
        beam.stretches[0].section = section;
        beam.stretches.push(stretch(Length::from_base(size()), Section { bending: size(), ..section }));
        beam.lumps = vec![lump(millimetres(400.0), size(), size())];
        beam.held[0] = spring(millimetres(0.0), size());
        beam.held[1] = spring(millimetres(1000.0), size());
        for elements in [1, 12] {
            let Ok(modes) = beam.modes(elements) else { continue };
            answered += 1;
            let [one, two, three] = modes.speeds.map(Base::base);
            assert!(one > 0.0 && one <= two && two <= three && three.is_finite(), "{round}");
            assert!(modes.shape.iter().all(|(place, at)| place.is_finite() && at.abs() <= 1.0 + 1e-9));
        }
    }
    println!("{answered} of 6000 answered");
    for huge in [1e300, 1e-300, f64::MAX, f64::MIN_POSITIVE] {
        for spoil in [
            |b: &mut Beam, huge: f64| b.stretches[0].section.bending = huge,
            |b: &mut Beam, huge: f64| b.stretches[0].section.shear = huge,
            |b: &mut Beam, huge: f64| b.stretches[0].section.mass = huge,
            |b: &mut Beam, huge: f64| b.stretches[0].section.rotary = huge,
            |b: &mut Beam, huge: f64| b.stretches[0].length = Length::from_base(huge),
            |b: &mut Beam, huge: f64| b.lumps[0] = lump(millimetres(400.0), huge, huge),
            |b: &mut Beam, huge: f64| b.held[0] = spring(millimetres(0.0), huge),
        ] {
            let mut beam = good();
            spoil(&mut beam, huge);
            if let Ok(modes) = beam.modes(12) {
                assert!(modes.speeds.iter().all(|speed| speed.base() > 0.0 && speed.base().is_finite()));
            }
        }
    }
}

#[test]
fn places_close_together() {
    // A lump of nothing a thousandth of a millimetre and more beside another: the same to a millionth.
    let plain = good().modes(40).unwrap().speeds;
    for gap in [1e-4, 1e-3, 2e-3, 1e-2, 0.1, 1.0] {
        let mut beam = good();
        beam.lumps.push(lump(millimetres(400.0 + gap), 0.0, 0.0));
        beam.lumps.push(lump(millimetres(400.0 - gap), 0.0, 0.0));
        for (got, plain) in beam.modes(40).unwrap().speeds.iter().zip(plain) {
            assert!(off(*got, plain.base()).abs() < 2e-6, "{gap}");
        }
    }
    // Lengths that add up to the last bit's doubt hold their end's support.
    let mut beam = good();
    beam.stretches = vec![stretch(millimetres(1270.0 / 7.0), beam.stretches[0].section); 7];
    assert!(beam.modes(28).is_ok());
}
