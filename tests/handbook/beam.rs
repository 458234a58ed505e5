//! The bending frequencies of whole shafts against a library of rotordynamics, at zero spin.

use std::fs;

use shaftwright::mechanics::beam::{Beam, Held, Lump, Section, Stretch, Support};
use shaftwright::mechanics::material::Stiffness;
use shaftwright::mechanics::tube::Tube;
use shaftwright::quantity::{Base, Inertia, Length, Mass, MassDensity, Pressure, SpringRate};

use super::folder;

/// How far off a frequency may be. The library's own elements lie up to 1e-5 too high.
const WITHIN: f64 = 3e-5;

fn numbers(words: &str) -> Vec<f64> {
    words.split_whitespace().map(|word| word.parse().unwrap()).collect()
}

fn stretch(words: &str) -> Stretch {
    let n = numbers(words);
    let stiffness = Stiffness {
        modulus: Pressure::from_base(n[3]),
        density: MassDensity::from_base(n[5]),
        shear: Pressure::from_base(n[4]),
        ratio: n[3] / (2.0 * n[4]) - 1.0,
    };
    let wall = Length::from_base((n[1] - n[2]) / 2.0);
    let tube = Tube::new(Length::from_base(n[1]), wall).unwrap();
    Stretch { length: Length::from_base(n[0]), section: Section::of_tube(tube, stiffness) }
}

fn held(words: &str) -> Held {
    let (place, by) = words.split_once(' ').unwrap();
    let by = match by {
        "rigid" => Support::Rigid,
        rate => Support::Spring(SpringRate::from_base(rate.parse().unwrap())),
    };
    Held { z: Length::from_base(place.parse().unwrap()), by }
}

#[test]
fn whole_shafts_by_another_library() {
    let text = fs::read_to_string(folder().join("beam.txt")).unwrap();
    let empty = Beam { stretches: Vec::new(), lumps: Vec::new(), held: Vec::new() };
    let (mut beam, mut name) = (empty.clone(), "");
    let (mut cases, mut worst, mut of) = (0, [0.0_f64; 4], [""; 4]);
    for row in text.lines() {
        let (kind, words) = row.split_once(' ').unwrap();
        match kind {
            "case" => (beam, name) = (empty.clone(), words),
            "stretch" => beam.stretches.push(stretch(words)),
            "lump" => {
                let n = numbers(words);
                let (mass, inertia) = (Mass::from_base(n[1]), Inertia::from_base(n[2]));
                beam.lumps.push(Lump { z: Length::from_base(n[0]), mass, inertia });
            }
            "held" => beam.held.push(held(words)),
            "speeds" => {
                let expected = numbers(words);
                let modes = beam.modes(60).unwrap();
                let first = beam.first(16).unwrap();
                let got = modes.speeds.iter().chain([&first]);
                for (i, got) in got.enumerate() {
                    let off = got.base() / expected[i % 3] - 1.0;
                    if off.abs() > worst[i] {
                        (worst[i], of[i]) = (off.abs(), name);
                    }
                    println!("{name} {i} {off:e}");
                }
                cases += 1;
            }
            _ => assert_eq!(kind, "ross"),
        }
    }
    println!("{cases} shafts, off by {worst:?} at most, of {of:?}");
    assert!(cases >= 50, "{cases}");
    assert!(worst.iter().all(|off| *off < WITHIN));
}
