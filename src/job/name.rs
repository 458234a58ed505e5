//! The names of fields and of choices: what a saved job calls them, and the page its fields.

use super::{Choice, Entry, Job};

impl Entry {
    /// Its name: `tube-wall`, `old-0`, or `station-0-2-3` for the fourth mark at the third place in the first pass.
    pub fn name(self) -> String {
        let mut first = self;
        let numbers = first.numbers().map(|number| number.map(core::mem::take));
        let kind = Entry::KINDS.iter().find(|(_, entry)| *entry == first);
        let mut name = kind.map_or(String::new(), |(name, _)| (*name).to_owned());
        for number in numbers.into_iter().flatten() {
            name.push('-');
            name.push_str(&number.to_string());
        }
        name
    }

    /// The field with this name, whether or not a job has it.
    pub fn from_name(name: &str) -> Option<Entry> {
        let read = |(word, first): &(&str, Entry)| {
            let (mut entry, mut rest) = (*first, name.strip_prefix(word)?);
            for place in entry.numbers().into_iter().flatten() {
                let number = rest.strip_prefix('-')?;
                let end = number.find('-').unwrap_or(number.len());
                *place = number.get(..end)?.parse().ok()?;
                rest = number.get(end..)?;
            }
            rest.is_empty().then_some(entry)
        };
        // One name a field: `old-01` must not stand beside `old-1` and take its place.
        Entry::KINDS.iter().find_map(read).filter(|entry| entry.name() == name)
    }

    /// The same kind of field with other numbers.
    fn at(mut self, numbers: [usize; 3]) -> Entry {
        for (place, number) in self.numbers().into_iter().flatten().zip(numbers) {
            *place = number;
        }
        self
    }
}

impl Job {
    /// Every field there is in this job.
    pub fn entries(&self) -> Vec<Entry> {
        let mut all = Vec::new();
        for (_, mut first) in Entry::KINDS.iter().copied() {
            let there = |entry: Entry| self.typed(entry).is_some();
            match first.numbers() {
                [None, ..] => all.push(first),
                [_, None, _] => self.go_on(&mut all, |row| first.at([row, 0, 0])),
                [.., None] => {
                    for turn in (0..).take_while(|turn| there(first.at([*turn, 0, 0]))) {
                        self.go_on(&mut all, |row| first.at([turn, row, 0]));
                    }
                }
                _ => {
                    for pass in (0..).take_while(|pass| there(first.at([*pass, 0, 0]))) {
                        for place in (0..).take_while(|place| there(first.at([pass, *place, 0]))) {
                            self.go_on(&mut all, |mark| first.at([pass, place, mark]));
                        }
                    }
                }
            }
        }
        all
    }

    /// The fields of a list, as far as it goes.
    fn go_on(&self, all: &mut Vec<Entry>, entry: impl Fn(usize) -> Entry) {
        all.extend((0..).map(entry).take_while(|entry| self.typed(*entry).is_some()));
    }
}

/// A choice of any kind, by name.
pub(super) trait AnyChoice {
    /// Its name.
    fn code(&self) -> &'static str;
    /// Takes the one with this name; false where there is none.
    fn take(&mut self, code: &str) -> bool;
}

impl<C: Choice> AnyChoice for C {
    fn code(&self) -> &'static str {
        Choice::code(*self)
    }

    fn take(&mut self, code: &str) -> bool {
        C::from_code(code).map(|choice| *self = choice).is_some()
    }
}

/// Every choice of a job outside its turns: one list for reading and for writing.
pub(super) fn choices(job: &mut Job) -> [(&'static str, &mut dyn AnyChoice); 53] {
    let [before, tacking, welded] = &mut job.phase.sittings;
    [
        ("display", &mut job.display),
        ("material", &mut job.tube.material),
        ("division", &mut job.measure.division),
        ("yoke-at", &mut job.measure.yoke_at),
        ("shaft-kind", &mut job.measure.kind),
        ("route", &mut job.measure.route),
        ("old-front-datum", &mut job.measure.old_datum.front),
        ("old-rear-datum", &mut job.measure.old_datum.rear),
        ("wanted-front-datum", &mut job.measure.wanted_datum.front),
        ("wanted-rear-datum", &mut job.measure.wanted_datum.rear),
        ("travel-by", &mut job.slip.by),
        ("guide", &mut job.slip.guide),
        ("groove", &mut job.slip.groove),
        ("cut-at", &mut job.cut.at),
        ("square-by", &mut job.cut.square_by),
        ("clock-marks", &mut job.cut.marks),
        ("paper", &mut job.cut.paper),
        ("whirl-share", &mut job.check.whirl_share),
        ("tyre-by", &mut job.check.speeds.tyre_by),
        ("gearbox", &mut job.check.load.gearbox),
        ("drives", &mut job.check.load.drives),
        ("grade", &mut job.check.load.grade),
        ("cut-end", &mut job.cut.end),
        ("phase-method", &mut job.phase.method),
        ("phase-target", &mut job.phase.target),
        ("lifted-ear-before", &mut before.lifted),
        ("lifted-ear", &mut tacking.lifted),
        ("lifted-ear-welded", &mut welded.lifted),
        ("front-lifted-ear-before", &mut before.front_lifted),
        ("front-lifted-ear", &mut tacking.front_lifted),
        ("front-lifted-ear-welded", &mut welded.front_lifted),
        ("level-division", &mut job.phase.level_division),
        ("slope-division", &mut job.angles.division),
        ("shaft-by", &mut job.angles.shaft_by),
        ("plan-by", &mut job.angles.plan_by),
        ("dial", &mut job.truing.dial),
        ("run-out-limit", &mut job.truing.limit),
        ("set-up", &mut job.truing.set_up),
        ("plunger", &mut job.truing.plunger),
        ("mark-names", &mut job.truing.marks),
        ("turned-how", &mut job.truing.turned),
        ("seam-by", &mut job.truing.seam),
        ("weights-came", &mut job.weights.came),
        ("weighed", &mut job.weights.weighed),
        ("weight-material", &mut job.weights.material),
        ("put-back", &mut job.weights.put_back),
        ("joined", &mut job.weights.joined),
        ("balance-by", &mut job.balance.by),
        ("pick-up", &mut job.balance.pick_up),
        ("spin", &mut job.balance.spin),
        ("trial-left", &mut job.balance.left),
        ("balance-end", &mut job.balance.end),
        ("runs-made", &mut job.balance.made),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::{Pass, PassKind, Stations, from_text, sample, to_text};

    #[test]
    fn every_field_has_its_own_name_and_comes_back_by_it() {
        // Round trip, no outside value.
        let mut job = sample();
        while job.truing.places.len() > 1 {
            job.truing.drop_place();
        }
        job.truing.passes.push(Pass::new(PassKind::Welded, Stations::Twelve));
        let all = job.entries();
        for (at, entry) in all.iter().enumerate() {
            assert!(job.typed(*entry).is_some());
            assert_eq!(Entry::from_name(&entry.name()), Some(*entry), "{}", entry.name());
            assert!(!all[..at].contains(entry));
        }
        for (name, first) in Entry::KINDS {
            assert!(all.contains(first), "{name}");
            let far = first.at([10, 2345, 7]);
            assert_eq!(Entry::from_name(&far.name()), Some(far));
        }
        // Of version 6 36 single ones and 5 gears. 15 single ones of version 1; of version 2 the slip's 18, 8 of the yokes, 5 of the cut; of version 3
        // 2 of phase, 20 of the angles; of version 4 2 vee blocks and the backlash, 1 place along the
        // tube; of version 5 9, 4 more for each weight, 2 for each of 4 runs and 2 for each of its 2 ends, 1 an
        // end of the last one. 3 + 3 + 3 readings of lengths and 3 + 3 + 3 of slopes, 8 places of the face, 4 for each of
        // 2 weights, 4 turns' closings, 2 a station; 5 lists of 3 at each of 3 sittings.
        assert_eq!(
            all.len(),
            15 + 18
                + 8
                + 5
                + 2
                + 20
                + 3
                + 1
                + 9
                + 9
                + 8
                + 8
                + 4
                + 2 * (3 * 8 + 12)
                + 5 * 3 * 3
                + 9
                + 2 * 4
                + 4 * (2 + 2 * 2)
                + 2
                + 36
                + 5
        );
        // Another place is a field, and in each of the 4 passes a closing and 2 a station.
        job.truing.add_place();
        assert_eq!(job.entries().len(), all.len() + 1 + 4 + 2 * (3 * 8 + 12));
        for entry in job.entries() {
            assert!(job.typed(entry).is_some());
            assert_eq!(Entry::from_name(&entry.name()), Some(entry));
        }
        assert!(job.entries().contains(&Entry::StationReading(3, 1, 11)));
    }

    #[test]
    fn names_stay_as_they_are() {
        // By definition: saved jobs and the page's own addresses of fields hold them.
        for (entry, name) in [
            (Entry::OldReading(0), "old-0"),
            (Entry::WantedReading(11), "wanted-11"),
            (Entry::SetPoint, "set-point"),
            (Entry::TubeDiameter, "tube-diameter"),
            (Entry::TubeWall, "tube-wall"),
            (Entry::TopSpeed, "top-speed"),
            (Entry::WeldLine, "weld-line"),
            (Entry::FarWeldLine, "far-weld-line"),
            (Entry::Kerf, "kerf"),
            (Entry::RootGap, "root-gap"),
            (Entry::Shrinkage, "shrinkage"),
            (Entry::Spigot, "spigot"),
            (Entry::Span, "span"),
            (Entry::FrontSpan, "front-span"),
            (Entry::Lift(1, 0), "lift-1-0"),
            (Entry::FrontLift(0, 2), "front-lift-0-2"),
            (Entry::FrontLevel(1, 0), "front-level-1-0"),
            (Entry::RearLevel(2, 1), "rear-level-2-1"),
            (Entry::LineArc(1, 2), "line-arc-1-2"),
            (Entry::OwnTarget, "own-target"),
            (Entry::GearboxSlope(0), "gearbox-slope-0"),
            (Entry::ShaftSlopeRead(1), "shaft-slope-read-1"),
            (Entry::PinionSlope(2), "pinion-slope-2"),
            (Entry::FrontHeight, "front-height"),
            (Entry::RearHeight, "rear-height"),
            (Entry::OneWay, "one-way"),
            (Entry::TurnedRound, "turned-round"),
            (Entry::SideOffset, "side-offset"),
            (Entry::GearboxPlan, "gearbox-plan"),
            (Entry::ShaftPlan, "shaft-plan"),
            (Entry::PinionPlan, "pinion-plan"),
            (Entry::PowerRise, "power-rise"),
            (Entry::PinionArm, "pinion-arm"),
            (Entry::JointMost, "joint-most"),
            (Entry::JointOverhang, "joint-overhang"),
            (Entry::BumpRise, "bump-rise"),
            (Entry::DroopRise, "droop-rise"),
            (Entry::TorsionalLimit, "torsional-limit"),
            (Entry::InertiaLimit, "inertia-limit"),
            (Entry::LeastAngle, "least-angle"),
            (Entry::RoadSpeed, "road-speed"),
            (Entry::SpringPad, "spring-pad"),
            (Entry::MountArm, "mount-arm"),
            (Entry::PhaseLimit, "phase-limit"),
            (Entry::OwnLimit, "own-limit"),
            (Entry::StationAt(1, 0, 35), "station-at-1-0-35"),
            (Entry::StationReading(0, 0, 3), "station-0-0-3"),
            (Entry::StationReading(19, 11, 35), "station-19-11-35"),
            (Entry::Closing(2, 0), "closing-2-0"),
            (Entry::Closing(0, 11), "closing-0-11"),
            (Entry::PlaceAlong(0), "place-0"),
            (Entry::PlaceAlong(11), "place-11"),
            (Entry::Backlash, "backlash"),
            (Entry::FrontVee, "front-vee"),
            (Entry::RearVee, "rear-vee"),
            (Entry::WeightMass(0), "weight-mass-0"),
            (Entry::WeightClock(1), "weight-clock-1"),
            (Entry::WeightDistance(2), "weight-distance-2"),
            (Entry::WeightRadius(23), "weight-radius-23"),
            (Entry::YokeTurned, "yoke-turned"),
            (Entry::ShaftMass, "shaft-mass"),
            (Entry::EarClock, "ear-clock"),
            (Entry::FrontPlane, "front-plane"),
            (Entry::RearPlane, "rear-plane"),
            (Entry::StripThickness, "strip-thickness"),
            (Entry::StripWidth, "strip-width"),
            (Entry::RunSpeed, "run-speed"),
            (Entry::ClipRadius, "clip-radius"),
            (Entry::ClipMass, "clip-mass"),
            (Entry::RunScatter, "run-scatter"),
            (Entry::WeightLength(3), "weight-length-3"),
            (Entry::WeightWidth(0), "weight-width-0"),
            (Entry::WeightThickness(1), "weight-thickness-1"),
            (Entry::WeightNote(23), "weight-note-23"),
            (Entry::TrialMass(1), "trial-mass-1"),
            (Entry::TrialClock(7), "trial-clock-7"),
            (Entry::CheckAmplitude(0), "check-amplitude-0"),
            (Entry::RunAmplitude(0, 1), "run-amplitude-0-1"),
            (Entry::RunPhase(7, 0), "run-phase-7-0"),
            (Entry::SplineLength, "spline"),
            (Entry::LeastEngaged, "least-engaged"),
            (Entry::BumpRoom, "bump-room"),
            (Entry::BumpTravel, "bump-travel"),
            (Entry::DroopTravel, "droop-travel"),
            (Entry::AtBump, "at-bump"),
            (Entry::AtRide, "at-ride"),
            (Entry::AtDroop, "at-droop"),
            (Entry::ShaftSlope, "shaft-slope"),
            (Entry::LinkRadius, "link-radius"),
            (Entry::LinkRise, "link-rise"),
            (Entry::BottomedGap, "bottomed"),
            (Entry::LipDepth, "lip-depth"),
            (Entry::BarrelLength, "barrel"),
            (Entry::GroovePlace, "groove-place"),
            (Entry::GrooveWidth, "groove-width"),
            (Entry::GrooveMargin, "groove-margin"),
            (Entry::FrontCup, "front-cup"),
            (Entry::RearCup, "rear-cup"),
            (Entry::FrontEar, "front-ear"),
            (Entry::RearEar, "rear-ear"),
            (Entry::WantedFrontEar, "wanted-front-ear"),
            (Entry::WantedRearEar, "wanted-rear-ear"),
            (Entry::FrontDepth, "front-depth"),
            (Entry::RearDepth, "rear-depth"),
            (Entry::ClearBy, "clear-by"),
            (Entry::SpigotDiameter, "spigot-diameter"),
            (Entry::Shoulder, "shoulder"),
            (Entry::Trim, "trim"),
            (Entry::SeamClock, "seam"),
            (Entry::EndsReading(2), "ends-2"),
            (Entry::FaceReading(7), "face-7"),
            (Entry::EngineLimit, "engine-limit"),
            (Entry::ReverseRatio, "reverse-ratio"),
            (Entry::LowRange, "low-range"),
            (Entry::AxleRatio, "axle-ratio"),
            (Entry::TyreSize, "tyre-size"),
            (Entry::TyreTurns, "tyre-turns"),
            (Entry::RolledOut, "rolled-out"),
            (Entry::RoadTop, "road-top"),
            (Entry::Cruise, "cruise"),
            (Entry::Modulus, "modulus"),
            (Entry::ShearModulus, "shear-modulus"),
            (Entry::Density, "density"),
            (Entry::FrontYokeMass, "front-yoke-mass"),
            (Entry::RearYokeMass, "rear-yoke-mass"),
            (Entry::SlipMass, "slip-mass"),
            (Entry::FrontSupport, "front-support"),
            (Entry::RearSupport, "rear-support"),
            (Entry::StepAt, "step-at"),
            (Entry::StepDiameter, "step-diameter"),
            (Entry::StepWall, "step-wall"),
            (Entry::LumpMass, "lump-mass"),
            (Entry::LumpAt, "lump-at"),
            (Entry::BearingAt, "bearing-at"),
            (Entry::HungBehind, "hung-behind"),
            (Entry::EngineTorque, "engine-torque"),
            (Entry::StallRatio, "stall-ratio"),
            (Entry::AxleLoad, "axle-load"),
            (Entry::Friction, "friction"),
            (Entry::OwnYield, "own-yield"),
            (Entry::WeldLeg, "weld-leg"),
            (Entry::ElectrodeStrength, "electrode-strength"),
            (Entry::SplineRoot, "spline-root"),
            (Entry::SplineBore, "spline-bore"),
            (Entry::SplineYield, "spline-yield"),
            (Entry::JointRating, "joint-rating"),
            (Entry::JointRatedTo, "joint-rated-to"),
            (Entry::GearRatio(9), "gear-ratio-9"),
        ] {
            assert_eq!(entry.name(), name);
            assert_eq!(Entry::from_name(name), Some(entry));
        }
    }

    #[test]
    fn what_is_no_name() {
        for name in [
            "",
            "-",
            "old",
            "old-",
            "old-x",
            "old--1",
            "old-+1",
            "old-01",
            "old-1-",
            "old-1-2",
            "old 1",
            "kerf-0",
            "Kerf",
            "station-1",
            "station-at-1",
            "station-0-",
            "station--0",
            // The names of the dial's readings until version 3, when it stood at one place.
            "station-1-2",
            "station-at-1-2",
            "closing-1",
            "station-1-2-",
            "station-1--2",
            "station-1-2-03",
            "station-1-2-3-4",
            "closing-1-2-3",
            "place",
            "place-1-2",
            "backlash-0",
            "front-vee-0",
            "old-99999999999999999999999",
            "horn",
        ] {
            assert_eq!(Entry::from_name(name), None, "{name:?}");
        }
    }

    #[test]
    fn every_choice_comes_back() {
        // Round trip: each choice at each place that has it, and each place has more than the usual one.
        for place in 0..choices(&mut Job::default()).len() {
            let mut taken = 0;
            for code in [
                "Millimetre",
                "Aluminium",
                "Fiftieth",
                "Bottomed",
                "Flanged",
                "Both",
                "OuterSeat",
                "Reckoned",
                "Leading",
                "None",
                "ClearOfIt",
                "Strip",
                "TwentyFour",
                "Letter",
                "CardanMaker",
                "Front",
                "Bench",
                "Lines",
                "AsItWas",
                "Read",
                "Angles",
                "Left",
                "Quarter",
                "Hundredth",
                "Own",
                "Vees",
                "InIsMinus",
                "Numbers",
                "Clockwise",
                "Known",
                "Size",
                "OwnPlaces",
                "OneAnEnd",
                "TwoPlanes",
                "BothEnds",
                "Mark",
                "LeftOn",
                "RolledOut",
                "Automatic",
                "Drawn1026",
                "More",
            ] {
                let mut job = Job::default();
                if choices(&mut job)[place].1.take(code) {
                    assert_eq!(choices(&mut job)[place].1.code(), code);
                    assert_ne!(job, Job::default(), "{code} is the usual one");
                    assert_eq!(from_text(&to_text(&job).unwrap()).unwrap(), job);
                    taken += 1;
                }
            }
            assert!(taken > 0, "{}", choices(&mut Job::default())[place].0);
        }
    }
}
