//! The form of Check: speeds of the vehicle, what the shaft is made of and hangs in, and its load.

use super::{Drives, Gearbox, Grade, Typed, TyreBy, WhirlShare};

/// Most forward gears.
pub const MOST_GEARS: usize = 10;
/// Forward gears of a new job.
const USUAL_GEARS: usize = 5;

/// Whether the shaft is fit for its speed and torque.
#[derive(Clone, Debug, PartialEq)]
pub struct CheckForm {
    /// Top speed of the shaft, by the mechanic's own figure.
    pub top_speed: Typed,
    /// Share of the whirl speed that may be used.
    pub whirl_share: WhirlShare,
    /// Speeds of the vehicle.
    pub speeds: SpeedsForm,
    /// What the shaft is made of, and hangs in.
    pub build: BuildForm,
    /// What it must carry.
    pub load: LoadForm,
}

/// Speeds of the vehicle.
#[derive(Clone, Debug, PartialEq)]
pub struct SpeedsForm {
    /// Most speed of the engine.
    pub engine: Typed,
    /// Ratios of the forward gears, from first.
    pub gears: Vec<Typed>,
    /// Ratio of reverse.
    pub reverse: Typed,
    /// Ratio of the transfer case in low.
    pub low_range: Typed,
    /// Ratio of the axle.
    pub axle: Typed,
    /// How the tyre is known.
    pub tyre_by: TyreBy,
    /// The marking of its size.
    pub tyre_size: Typed,
    /// Turns on a length of road, by its maker.
    pub tyre_turns: Typed,
    /// Road rolled out in one turn.
    pub rolled_out: Typed,
    /// Fastest on the road.
    pub road_top: Typed,
    /// Speed of most of the way.
    pub cruise: Typed,
}

/// What the shaft is made of, and hangs in.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct BuildForm {
    /// Young's modulus by hand.
    pub modulus: Typed,
    /// Shear modulus by hand.
    pub shear_modulus: Typed,
    /// Density by hand.
    pub density: Typed,
    /// Mass of what sits at the front of the tube, joint and all.
    pub front_yoke: Typed,
    /// The same at the rear.
    pub rear_yoke: Typed,
    /// Mass of a slip yoke in the gearbox.
    pub slip_mass: Typed,
    /// Least stiffness of what holds the front joint.
    pub front_support: Typed,
    /// Least stiffness of what holds the rear joint or the centre bearing.
    pub rear_support: Typed,
    /// Front joint to the place where the tube changes.
    pub step_at: Typed,
    /// Diameter of the tube behind it.
    pub step_diameter: Typed,
    /// Wall of the tube behind it.
    pub step_wall: Typed,
    /// Mass of a lump on the tube.
    pub lump_mass: Typed,
    /// Front joint to that lump.
    pub lump_at: Typed,
    /// Front joint to a centre bearing.
    pub bearing_at: Typed,
    /// Mass of what hangs on the rear joint behind it.
    pub hung_behind: Typed,
}

/// What the shaft must carry.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct LoadForm {
    /// Most torque of the engine.
    pub engine: Typed,
    /// What kind of gearbox it is.
    pub gearbox: Gearbox,
    /// Torque ratio of its converter at stall.
    pub stall: Typed,
    /// What turns by its torque.
    pub drives: Drives,
    /// Highest real load on the axle.
    pub axle_load: Typed,
    /// Friction of tyre and road.
    pub friction: Typed,
    /// The tube's grade.
    pub grade: Grade,
    /// Its yield by hand.
    pub own_yield: Typed,
    /// Leg of the weld round the tube.
    pub leg: Typed,
    /// Tensile strength of what it is welded with.
    pub electrode: Typed,
    /// Diameter of the splined part at the spline's root.
    pub spline_root: Typed,
    /// Bore through it.
    pub spline_bore: Typed,
    /// Yield of what it is made of.
    pub spline_yield: Typed,
    /// Torque that the joints are rated for.
    pub joint_rating: Typed,
    /// Angle up to which they are.
    pub joint_rated_to: Typed,
}

impl Default for CheckForm {
    fn default() -> Self {
        let gears = vec![Typed::default(); USUAL_GEARS];
        CheckForm {
            top_speed: Typed::default(),
            whirl_share: WhirlShare::default(),
            speeds: SpeedsForm {
                engine: Typed::default(),
                gears,
                reverse: Typed::default(),
                low_range: Typed::default(),
                axle: Typed::default(),
                tyre_by: TyreBy::default(),
                tyre_size: Typed::default(),
                tyre_turns: Typed::default(),
                rolled_out: Typed::default(),
                road_top: Typed::default(),
                cruise: Typed::default(),
            },
            build: BuildForm::default(),
            load: LoadForm::default(),
        }
    }
}
