//! The sample job, all of it invented: a small orchard's flat-bed utility truck has been given a
//! longer five-speed gearbox, and its owner shortens the shaft in the barn.

use super::{
    AFTER_WELDING, BEFORE_TACKING, Display, Division, Entry, Job, Pass, PassKind, SquareBy, Stations,
    WeightRow,
};

/// The sample job.
pub fn sample() -> Job {
    let mut job = Job::new(Display::Sixteenth);
    job.name = "Orchard flat-bed, five-speed".to_owned();
    job.measure.division = Division::ThirtySecond;
    job.cut.square_by = SquareBy::Feeler;
    job.weights.rows.push(WeightRow::default());
    job.truing.passes.push(Pass::new(PassKind::Tacked, Stations::Eight));
    job.truing.passes.push(Pass::new(PassKind::Welded, Stations::Eight));
    job.truing.add_place();
    job.truing.add_place();
    for (entry, text) in [
        (Entry::OldReading(0), "57-5/16"),
        (Entry::OldReading(1), "57 9/32\""),
        (Entry::OldReading(2), "4' 9-5/16\""),
        (Entry::WantedReading(0), "55-1/2"),
        (Entry::WantedReading(1), "55-17/32"),
        (Entry::WantedReading(2), "1409.7 mm"),
        (Entry::TakenAt, "7/8"),
        (Entry::SetPoint, "7/8"),
        (Entry::SplineLength, "4"),
        (Entry::BumpTravel, "3"),
        (Entry::DroopTravel, "4-1/2"),
        (Entry::AtBump, "59-13/16"),
        (Entry::AtRide, "60"),
        (Entry::AtDroop, "60-9/16"),
        (Entry::GearboxSlope(0), "3.5"),
        (Entry::GearboxSlope(1), "3.6"),
        (Entry::GearboxSlope(2), "3.5"),
        (Entry::PinionSlope(0), "2.8"),
        (Entry::PinionSlope(1), "2.8"),
        (Entry::PinionSlope(2), "2.7"),
        (Entry::FrontHeight, "25-1/4"),
        (Entry::RearHeight, "19-3/8"),
        (Entry::OneWay, "3.6"),
        (Entry::TurnedRound, "3.4"),
        (Entry::PinionArm, "9-1/2"),
        (Entry::DroopRise, "1"),
        (Entry::RoadSpeed, "75 mph"),
        (Entry::SpringPad, "4-1/2"),
        (Entry::MountArm, "31"),
        (Entry::JointOverhang, "7"),
        (Entry::BottomedGap, "1/2"),
        (Entry::LipDepth, "1/4"),
        (Entry::BarrelLength, "5-1/2"),
        (Entry::GroovePlace, "1-1/8"),
        (Entry::GrooveWidth, "1/8"),
        (Entry::TubeDiameter, "3"),
        (Entry::TubeWall, "0.083"),
        (Entry::TopSpeed, "3200"),
        (Entry::EngineLimit, "3400"),
        (Entry::GearRatio(0), "3.50"),
        (Entry::GearRatio(1), "2.05"),
        (Entry::GearRatio(2), "1.38"),
        (Entry::GearRatio(3), "1"),
        (Entry::GearRatio(4), "0.80"),
        (Entry::ReverseRatio, "3.30"),
        (Entry::AxleRatio, "3.55"),
        (Entry::TyreSize, "235/75R15"),
        (Entry::RoadTop, "75 mph"),
        (Entry::Cruise, "55 mph"),
        (Entry::EngineTorque, "215"),
        (Entry::AxleLoad, "3200"),
        (Entry::WeldLeg, "1/8"),
        (Entry::WeldLine, "53-7/8"),
        (Entry::FarWeldLine, "3-3/8"),
        (Entry::Kerf, "3/32"),
        (Entry::Spigot, "1-1/4"),
        (Entry::SpigotDiameter, "2.83"),
        (Entry::Shoulder, "3-7/16"),
        (Entry::SeamClock, "10:30"),
        (Entry::PlaceAlong(0), "49"),
        (Entry::PlaceAlong(1), "28"),
        (Entry::PlaceAlong(2), "8"),
        (Entry::FrontLevel(BEFORE_TACKING, 0), "0.4"),
        (Entry::RearLevel(BEFORE_TACKING, 0), "-0.2"),
        (Entry::FrontLevel(AFTER_WELDING, 0), "0.3"),
        (Entry::RearLevel(AFTER_WELDING, 0), "0"),
        (Entry::WeightMass(0), "9"),
        (Entry::WeightClock(0), "2:00"),
        (Entry::WeightDistance(0), "5-1/4"),
        (Entry::WeightRadius(0), "1-9/16"),
        (Entry::WeightMass(1), "14.5"),
        (Entry::WeightClock(1), "7:30"),
        (Entry::WeightDistance(1), "52"),
        (Entry::WeightRadius(1), "1-9/16"),
        (Entry::ShaftMass, "18.5"),
    ] {
        job.put(entry, text);
    }
    for (place, gap) in
        ["0", "0", "0.001", "0.002", "0.003", "0.003", "0.002", "0.001"].into_iter().enumerate()
    {
        job.put(Entry::FaceReading(place), gap);
    }
    // Beside the new weld in each pass; along the tube once it was welded.
    for (pass, place, readings) in [
        (0, 0, ["0", "5", "11", "15", "14", "9", "3", "-1"]),
        (1, 0, ["0", "1", "2", "3", "3", "2", "1", "0"]),
        (2, 0, ["0", "1.5", "3.5", "5", "5", "3.5", "1.5", "0"]),
        (2, 1, ["0", "-0.5", "-1.5", "-2", "-2", "-1.5", "-0.5", "0"]),
        (2, 2, ["0", "0", "0.5", "0.5", "1", "0.5", "0.5", "0"]),
    ] {
        for (station, reading) in readings.into_iter().enumerate() {
            job.put(Entry::StationReading(pass, place, station), reading);
        }
        job.put(Entry::Closing(pass, place), "0");
    }
    job
}
