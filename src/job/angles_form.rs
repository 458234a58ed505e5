//! The part of a job on how gearbox, shaft and pinion lie.

use super::{LevelDivision, PlanBy, SLOPE_READINGS, ShaftBy, Typed};

/// How gearbox, shaft and pinion lie.
#[derive(Clone, Debug, PartialEq)]
pub struct AnglesForm {
    /// Lines of the protractor or level.
    pub division: LevelDivision,
    /// Slopes of the gearbox's output, + falling toward the rear.
    pub gearbox: Vec<Typed>,
    /// Slopes of the pinion's shaft.
    pub pinion: Vec<Typed>,
    /// How the shaft's slope is known.
    pub shaft_by: ShaftBy,
    /// Slopes of the shaft.
    pub shaft: Vec<Typed>,
    /// Height of the front joint's centre over a level floor.
    pub front_height: Typed,
    /// The same of the rear joint's.
    pub rear_height: Typed,
    /// One spot, read as everything else was.
    pub one_way: Typed,
    /// The same spot with the instrument turned end for end.
    pub turned: Typed,
    /// How they lie seen from above.
    pub plan_by: PlanBy,
    /// How far right of the front joint the rear one lies, looking forward.
    pub side_offset: Typed,
    /// Plan angle of the gearbox, + going right as it runs rearward.
    pub gearbox_plan: Typed,
    /// The same of the shaft.
    pub shaft_plan: Typed,
    /// The same of the pinion.
    pub pinion_plan: Typed,
    /// How far the pinion's nose rises under power.
    pub power_rise: Typed,
    /// From the axle's centre forward to the rear joint.
    pub pinion_arm: Typed,
    /// How far it has risen at full bump.
    pub bump_rise: Typed,
    /// How far it has risen at full droop.
    pub droop_rise: Typed,
    /// Most torsional acceleration of the pinion.
    pub torsional_limit: Typed,
    /// Most acceleration of the shaft between its joints.
    pub inertia_limit: Typed,
    /// Least angle of a joint on needle bearings.
    pub least_angle: Typed,
    /// Road speed at the shaft's top speed.
    pub road_speed: Typed,
    /// Most angle that the joints allow, by their maker.
    pub joint_most: Typed,
    /// Length of the spring pad along the vehicle.
    pub pad: Typed,
    /// From the gearbox's front mounts back to its rear one.
    pub mount_arm: Typed,
    /// From that rear mount back to the front joint.
    pub joint_overhang: Typed,
}

impl Default for AnglesForm {
    fn default() -> Self {
        let three = vec![Typed::default(); SLOPE_READINGS];
        AnglesForm {
            division: LevelDivision::default(),
            gearbox: three.clone(),
            pinion: three.clone(),
            shaft_by: ShaftBy::default(),
            shaft: three,
            front_height: Typed::default(),
            rear_height: Typed::default(),
            one_way: Typed::default(),
            turned: Typed::default(),
            plan_by: PlanBy::default(),
            side_offset: Typed::default(),
            gearbox_plan: Typed::default(),
            shaft_plan: Typed::default(),
            pinion_plan: Typed::default(),
            power_rise: Typed::default(),
            pinion_arm: Typed::default(),
            bump_rise: Typed::default(),
            droop_rise: Typed::default(),
            torsional_limit: Typed::default(),
            inertia_limit: Typed::default(),
            least_angle: Typed::default(),
            road_speed: Typed::default(),
            joint_most: Typed::default(),
            pad: Typed::default(),
            mount_arm: Typed::default(),
            joint_overhang: Typed::default(),
        }
    }
}
