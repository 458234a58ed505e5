use super::super::luck::luck;
use super::super::material::steel;
use super::super::tube::Tube;
use super::*;
use crate::quantity::*;

#[test]
fn smoke() {
    let tube = Tube::new(inches(3.0), inches(0.083)).unwrap();
    let s = Section::of_tube(tube, steel());
    let beam = Beam { stretches: vec![Stretch { length: inches(50.0), section: s }], lumps: vec![], held: vec![Held{z: inches(0.0), by: Support::Rigid}, Held{z: inches(50.0), by: Support::Rigid}] };
    for n in [1] {
        let m = beam.modes(n);
        println!("{n} {:?} {:?}", m.map(|m| m.speeds.map(as_rpm)), beam.first(n).map(as_rpm));
    }
    for gap in [1e-1,1e-2, 1e-3, 1e-4, 3e-5, 1e-5, 2e-6] {
        let mut b = beam.clone();
        b.lumps.push(Lump{z: inches(20.0), mass: kilograms(0.0), inertia: Inertia::from_base(0.0)});
        b.lumps.push(Lump{z: inches(20.0+gap), mass: kilograms(0.0), inertia: Inertia::from_base(0.0)});
        println!("{gap} {:?}", b.modes(40).map(|m| m.speeds.map(as_rpm)));
    }
    let tube = Tube::new(inches(4.0), inches(0.095)).unwrap();
    let s = Section::of_tube(tube, steel());
    let stub = Beam { stretches: vec![Stretch { length: inches(30.0), section: s }], lumps: vec![], held: vec![Held{z: inches(0.0), by: Support::Rigid}, Held{z: inches(30.0), by: Support::Rigid}] };
    for n in [1] {
        let m = stub.modes(n);
        println!("{n} {:?} {:?}", m.map(|m| m.speeds.map(as_rpm)), stub.first(n).map(as_rpm));
    }
    for (name, n, all) in [("modes", 40, true), ("first", 16, false)] {
        let begun = std::time::Instant::now();
        for _ in 0..2000 { if all { std::hint::black_box(beam.modes(n)).ok(); } else {std::hint::black_box(beam.first(n)).ok();} }
        println!("{name} {:?}", begun.elapsed() / 2000);
    }
    let _ = luck(1);
}
