//! Where each field lies in the record.

use super::{Entry, Job, Typed};

/// One table for reading and for writing, so that the two can never point to different places.
macro_rules! places {
    ($job:ident, $entry:ident, $get:ident, $($borrow:tt)+) => {
        match $entry {
            Entry::OldReading(i) => $job.measure.old.$get(i),
            Entry::WantedReading(i) => $job.measure.wanted.$get(i),
            Entry::EndsReading(i) => $job.measure.ends.$get(i),
            Entry::FaceReading(i) => $job.cut.face.$get(i),
            Entry::SetPoint => Some($($borrow)+ $job.measure.set_point),
            Entry::TakenAt => Some($($borrow)+ $job.measure.taken_at),
            Entry::SplineLength => Some($($borrow)+ $job.slip.spline),
            Entry::LeastEngaged => Some($($borrow)+ $job.slip.least_engaged),
            Entry::BumpRoom => Some($($borrow)+ $job.slip.bump_room),
            Entry::BumpTravel => Some($($borrow)+ $job.slip.bump_travel),
            Entry::DroopTravel => Some($($borrow)+ $job.slip.droop_travel),
            Entry::AtBump => Some($($borrow)+ $job.slip.at_bump),
            Entry::AtRide => Some($($borrow)+ $job.slip.at_ride),
            Entry::AtDroop => Some($($borrow)+ $job.slip.at_droop),
            Entry::ShaftSlope => Some($($borrow)+ $job.slip.slope),
            Entry::LinkRadius => Some($($borrow)+ $job.slip.link_radius),
            Entry::LinkRise => Some($($borrow)+ $job.slip.link_rise),
            Entry::BottomedGap => Some($($borrow)+ $job.slip.bottomed),
            Entry::LipDepth => Some($($borrow)+ $job.slip.lip_depth),
            Entry::BarrelLength => Some($($borrow)+ $job.slip.barrel),
            Entry::GroovePlace => Some($($borrow)+ $job.slip.groove_place),
            Entry::GrooveWidth => Some($($borrow)+ $job.slip.groove_width),
            Entry::GrooveMargin => Some($($borrow)+ $job.slip.groove_margin),
            Entry::FrontCup => Some($($borrow)+ $job.measure.front_cup),
            Entry::RearCup => Some($($borrow)+ $job.measure.rear_cup),
            Entry::FrontEar => Some($($borrow)+ $job.measure.front_ear),
            Entry::RearEar => Some($($borrow)+ $job.measure.rear_ear),
            Entry::WantedFrontEar => Some($($borrow)+ $job.measure.wanted_front_ear),
            Entry::WantedRearEar => Some($($borrow)+ $job.measure.wanted_rear_ear),
            Entry::FrontDepth => Some($($borrow)+ $job.measure.front_depth),
            Entry::RearDepth => Some($($borrow)+ $job.measure.rear_depth),
            Entry::ClearBy => Some($($borrow)+ $job.cut.clear_by),
            Entry::SpigotDiameter => Some($($borrow)+ $job.cut.spigot_diameter),
            Entry::Shoulder => Some($($borrow)+ $job.cut.shoulder),
            Entry::Trim => Some($($borrow)+ $job.cut.trim),
            Entry::SeamClock => Some($($borrow)+ $job.cut.seam),
            Entry::TubeDiameter => Some($($borrow)+ $job.tube.diameter),
            Entry::TubeWall => Some($($borrow)+ $job.tube.wall),
            Entry::TopSpeed => Some($($borrow)+ $job.check.top_speed),
            Entry::WeldLine => Some($($borrow)+ $job.cut.weld_line),
            Entry::FarWeldLine => Some($($borrow)+ $job.cut.far_weld_line),
            Entry::Kerf => Some($($borrow)+ $job.cut.kerf),
            Entry::RootGap => Some($($borrow)+ $job.cut.root_gap),
            Entry::Shrinkage => Some($($borrow)+ $job.cut.shrinkage),
            Entry::Spigot => Some($($borrow)+ $job.cut.spigot),
            Entry::Span => Some($($borrow)+ $job.phase.span),
            Entry::FrontSpan => Some($($borrow)+ $job.phase.front_span),
            Entry::OwnTarget => Some($($borrow)+ $job.phase.own_target),
            Entry::Lift(s, i) => $job.phase.sittings.$get(s).and_then(|sitting| sitting.lift.$get(i)),
            Entry::FrontLift(s, i) => {
                $job.phase.sittings.$get(s).and_then(|sitting| sitting.front_lift.$get(i))
            }
            Entry::FrontLevel(s, i) => {
                $job.phase.sittings.$get(s).and_then(|sitting| sitting.front_level.$get(i))
            }
            Entry::RearLevel(s, i) => {
                $job.phase.sittings.$get(s).and_then(|sitting| sitting.rear_level.$get(i))
            }
            Entry::LineArc(s, i) => $job.phase.sittings.$get(s).and_then(|sitting| sitting.arc.$get(i)),
            Entry::GearboxSlope(i) => $job.angles.gearbox.$get(i),
            Entry::ShaftSlopeRead(i) => $job.angles.shaft.$get(i),
            Entry::PinionSlope(i) => $job.angles.pinion.$get(i),
            Entry::FrontHeight => Some($($borrow)+ $job.angles.front_height),
            Entry::RearHeight => Some($($borrow)+ $job.angles.rear_height),
            Entry::OneWay => Some($($borrow)+ $job.angles.one_way),
            Entry::TurnedRound => Some($($borrow)+ $job.angles.turned),
            Entry::SideOffset => Some($($borrow)+ $job.angles.side_offset),
            Entry::GearboxPlan => Some($($borrow)+ $job.angles.gearbox_plan),
            Entry::ShaftPlan => Some($($borrow)+ $job.angles.shaft_plan),
            Entry::PinionPlan => Some($($borrow)+ $job.angles.pinion_plan),
            Entry::PowerRise => Some($($borrow)+ $job.angles.power_rise),
            Entry::PinionArm => Some($($borrow)+ $job.angles.pinion_arm),
            Entry::JointMost => Some($($borrow)+ $job.angles.joint_most),
            Entry::JointOverhang => Some($($borrow)+ $job.angles.joint_overhang),
            Entry::BumpRise => Some($($borrow)+ $job.angles.bump_rise),
            Entry::DroopRise => Some($($borrow)+ $job.angles.droop_rise),
            Entry::TorsionalLimit => Some($($borrow)+ $job.angles.torsional_limit),
            Entry::InertiaLimit => Some($($borrow)+ $job.angles.inertia_limit),
            Entry::LeastAngle => Some($($borrow)+ $job.angles.least_angle),
            Entry::RoadSpeed => Some($($borrow)+ $job.angles.road_speed),
            Entry::SpringPad => Some($($borrow)+ $job.angles.pad),
            Entry::MountArm => Some($($borrow)+ $job.angles.mount_arm),
            Entry::PhaseLimit => Some($($borrow)+ $job.phase.limit),
            Entry::OwnLimit => Some($($borrow)+ $job.truing.own_limit),
            Entry::Backlash => Some($($borrow)+ $job.truing.backlash),
            Entry::FrontVee => Some($($borrow)+ $job.truing.front_vee),
            Entry::RearVee => Some($($borrow)+ $job.truing.rear_vee),
            Entry::PlaceAlong(i) => $job.truing.places.$get(i),
            Entry::StationAt(p, i, m) => {
                let pass = $job.truing.passes.$get(p);
                pass.and_then(|pass| pass.turns.$get(i)).and_then(|turn| turn.at.$get(m))
            }
            Entry::StationReading(p, i, m) => {
                let pass = $job.truing.passes.$get(p);
                pass.and_then(|pass| pass.turns.$get(i)).and_then(|turn| turn.readings.$get(m))
            }
            Entry::Closing(p, i) => {
                let pass = $job.truing.passes.$get(p);
                pass.and_then(|pass| pass.turns.$get(i)).map(|turn| $($borrow)+ turn.closing)
            }
            Entry::WeightMass(i) => $job.weights.rows.$get(i).map(|row| $($borrow)+ row.mass),
            Entry::WeightClock(i) => $job.weights.rows.$get(i).map(|row| $($borrow)+ row.clock),
            Entry::WeightDistance(i) => $job.weights.rows.$get(i).map(|row| $($borrow)+ row.distance),
            Entry::WeightRadius(i) => $job.weights.rows.$get(i).map(|row| $($borrow)+ row.radius),
            Entry::WeightLength(i) => $job.weights.rows.$get(i).map(|row| $($borrow)+ row.length),
            Entry::WeightWidth(i) => $job.weights.rows.$get(i).map(|row| $($borrow)+ row.width),
            Entry::WeightThickness(i) => {
                $job.weights.rows.$get(i).map(|row| $($borrow)+ row.thickness)
            }
            Entry::WeightNote(i) => $job.weights.rows.$get(i).map(|row| $($borrow)+ row.note),
            Entry::EarClock => Some($($borrow)+ $job.weights.ear),
            Entry::FrontPlane => Some($($borrow)+ $job.weights.front_plane),
            Entry::RearPlane => Some($($borrow)+ $job.weights.rear_plane),
            Entry::StripThickness => Some($($borrow)+ $job.weights.strip_thickness),
            Entry::StripWidth => Some($($borrow)+ $job.weights.strip_width),
            Entry::RunSpeed => Some($($borrow)+ $job.balance.speed),
            Entry::ClipRadius => Some($($borrow)+ $job.balance.clip_radius),
            Entry::ClipMass => Some($($borrow)+ $job.balance.clip_mass),
            Entry::RunScatter => Some($($borrow)+ $job.balance.scatter),
            Entry::TrialMass(r) => $job.balance.runs.$get(r).map(|run| $($borrow)+ run.mass),
            Entry::TrialClock(r) => $job.balance.runs.$get(r).map(|run| $($borrow)+ run.at),
            Entry::RunAmplitude(r, e) => {
                let read = $job.balance.runs.$get(r).and_then(|run| run.read.$get(e));
                read.map(|read| $($borrow)+ read.amplitude)
            }
            Entry::RunPhase(r, e) => {
                let read = $job.balance.runs.$get(r).and_then(|run| run.read.$get(e));
                read.map(|read| $($borrow)+ read.phase)
            }
            Entry::CheckAmplitude(e) => $job.balance.check.$get(e),
            Entry::EngineLimit => Some($($borrow)+ $job.check.speeds.engine),
            Entry::ReverseRatio => Some($($borrow)+ $job.check.speeds.reverse),
            Entry::LowRange => Some($($borrow)+ $job.check.speeds.low_range),
            Entry::AxleRatio => Some($($borrow)+ $job.check.speeds.axle),
            Entry::TyreSize => Some($($borrow)+ $job.check.speeds.tyre_size),
            Entry::TyreTurns => Some($($borrow)+ $job.check.speeds.tyre_turns),
            Entry::RolledOut => Some($($borrow)+ $job.check.speeds.rolled_out),
            Entry::RoadTop => Some($($borrow)+ $job.check.speeds.road_top),
            Entry::Cruise => Some($($borrow)+ $job.check.speeds.cruise),
            Entry::Modulus => Some($($borrow)+ $job.check.build.modulus),
            Entry::ShearModulus => Some($($borrow)+ $job.check.build.shear_modulus),
            Entry::Density => Some($($borrow)+ $job.check.build.density),
            Entry::FrontYokeMass => Some($($borrow)+ $job.check.build.front_yoke),
            Entry::RearYokeMass => Some($($borrow)+ $job.check.build.rear_yoke),
            Entry::SlipMass => Some($($borrow)+ $job.check.build.slip_mass),
            Entry::FrontSupport => Some($($borrow)+ $job.check.build.front_support),
            Entry::RearSupport => Some($($borrow)+ $job.check.build.rear_support),
            Entry::StepAt => Some($($borrow)+ $job.check.build.step_at),
            Entry::StepDiameter => Some($($borrow)+ $job.check.build.step_diameter),
            Entry::StepWall => Some($($borrow)+ $job.check.build.step_wall),
            Entry::LumpMass => Some($($borrow)+ $job.check.build.lump_mass),
            Entry::LumpAt => Some($($borrow)+ $job.check.build.lump_at),
            Entry::BearingAt => Some($($borrow)+ $job.check.build.bearing_at),
            Entry::HungBehind => Some($($borrow)+ $job.check.build.hung_behind),
            Entry::EngineTorque => Some($($borrow)+ $job.check.load.engine),
            Entry::StallRatio => Some($($borrow)+ $job.check.load.stall),
            Entry::AxleLoad => Some($($borrow)+ $job.check.load.axle_load),
            Entry::Friction => Some($($borrow)+ $job.check.load.friction),
            Entry::OwnYield => Some($($borrow)+ $job.check.load.own_yield),
            Entry::WeldLeg => Some($($borrow)+ $job.check.load.leg),
            Entry::ElectrodeStrength => Some($($borrow)+ $job.check.load.electrode),
            Entry::SplineRoot => Some($($borrow)+ $job.check.load.spline_root),
            Entry::SplineBore => Some($($borrow)+ $job.check.load.spline_bore),
            Entry::SplineYield => Some($($borrow)+ $job.check.load.spline_yield),
            Entry::JointRating => Some($($borrow)+ $job.check.load.joint_rating),
            Entry::JointRatedTo => Some($($borrow)+ $job.check.load.joint_rated_to),
            Entry::GearRatio(i) => $job.check.speeds.gears.$get(i),
            Entry::YokeTurned => Some($($borrow)+ $job.weights.yoke_turned),
            Entry::ShaftMass => Some($($borrow)+ $job.weights.shaft_mass),
        }
    };
}

impl Job {
    /// What stands in a field; `None` where the job has no such field.
    pub fn typed(&self, entry: Entry) -> Option<&Typed> {
        places!(self, entry, get, &)
    }

    /// The field itself; `None` where the job has no such field.
    pub(super) fn slot(&mut self, entry: Entry) -> Option<&mut Typed> {
        places!(self, entry, get_mut, &mut)
    }
}
