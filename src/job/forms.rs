//! The parts of a job, one a stage, and the rows of its lists.

use super::{
    ClockMarks, CutAt, Datum, Division, End, FACE_PLACES, Groove, Guide, Joined, Material, Paper,
    PutBack, Route, ShaftKind, SquareBy, TravelBy, TubeMaterial, Typed, Weighed, WeightsCame, YokeAt,
};

/// The tube, asked once and used by several stages.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct TubeForm {
    /// Outer diameter.
    pub diameter: Typed,
    /// Wall.
    pub wall: Typed,
    /// Material.
    pub material: TubeMaterial,
}

/// What the tape was laid on at both ends.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
pub struct DatumPair {
    /// At the front joint.
    pub front: Datum,
    /// At the rear joint.
    pub rear: Datum,
}

/// Old and wanted length between joint centres.
#[derive(Clone, Debug, PartialEq)]
pub struct MeasureForm {
    /// What kind of shaft it is.
    pub kind: ShaftKind,
    /// How the wanted length was measured.
    pub route: Route,
    /// Where the tape lay on the old shaft.
    pub old_datum: DatumPair,
    /// Where the tape lay for the wanted distance.
    pub wanted_datum: DatumPair,
    /// Diameter of the bearing cups, front and rear joint.
    pub front_cup: Typed,
    /// The same at the rear joint.
    pub rear_cup: Typed,
    /// Old shaft: cup centre to the ear's edge that the tape was laid on, front joint.
    pub front_ear: Typed,
    /// The same at the rear joint.
    pub rear_ear: Typed,
    /// Wanted distance: the same of the yoke under the car, which is another one, front joint.
    pub wanted_front_ear: Typed,
    /// The same at the rear joint.
    pub wanted_rear_ear: Typed,
    /// Readings from seal face or flange to the axle.
    pub ends: Vec<Typed>,
    /// Front yoke: shoulder or flange face to joint centre.
    pub front_depth: Typed,
    /// Rear yoke: flange face to joint centre.
    pub rear_depth: Typed,
    /// Readings of the old shaft, joint centre to joint centre.
    pub old: Vec<Typed>,
    /// Readings of the distance the new shaft must bridge.
    pub wanted: Vec<Typed>,
    /// Lines of the tape or rule.
    pub division: Division,
    /// Where the slip stood while a length was taken.
    pub yoke_at: YokeAt,
    /// How far the slip was drawn out while that length was taken.
    pub taken_at: Typed,
    /// How far the slip is drawn out from bottomed at ride height.
    pub set_point: Typed,
}

/// The slip, the axle's travel, and the seal.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct SlipForm {
    /// Spline engaged when bottomed.
    pub spline: Typed,
    /// Least engaged spline wanted at full extension.
    pub least_engaged: Typed,
    /// Least room wanted before the slip bottoms.
    pub bump_room: Typed,
    /// How the travel was found.
    pub by: TravelBy,
    /// How far the axle rises from ride to bump.
    pub bump_travel: Typed,
    /// How far the axle falls from ride to droop.
    pub droop_travel: Typed,
    /// Distance at bump.
    pub at_bump: Typed,
    /// Distance at ride.
    pub at_ride: Typed,
    /// Distance at droop.
    pub at_droop: Typed,
    /// Slope of the shaft at ride, + falling toward the rear.
    pub slope: Typed,
    /// What guides the axle fore and aft.
    pub guide: Guide,
    /// Length of the link.
    pub link_radius: Typed,
    /// Axle end of the link above its frame pivot at ride.
    pub link_rise: Typed,
    /// Barrel's shoulder to the seal's face with the yoke bottomed.
    pub bottomed: Typed,
    /// Seal's face to its lip.
    pub lip_depth: Typed,
    /// Length of the barrel from its shoulder.
    pub barrel: Typed,
    /// Whether the old seal wore a groove.
    pub groove: Groove,
    /// Shoulder to the middle of the groove.
    pub groove_place: Typed,
    /// Width of the groove.
    pub groove_width: Typed,
    /// How far the lip shall stay off it.
    pub groove_margin: Typed,
}

/// The cut.
#[derive(Clone, Debug, PartialEq)]
pub struct CutForm {
    /// How the yoke comes off.
    pub at: CutAt,
    /// How far inside the old weld the tube is cut first.
    pub clear_by: Typed,
    /// Diameter of the spigot.
    pub spigot_diameter: Typed,
    /// Shoulder of the yoke at the cut end to its joint centre.
    pub shoulder: Typed,
    /// What is left on the tube to be filed off.
    pub trim: Typed,
    /// How the face was proved square.
    pub square_by: SquareBy,
    /// How far the face stands out, or the gap, every 45° from the witness mark.
    pub face: Vec<Typed>,
    /// Marks to scribe.
    pub marks: ClockMarks,
    /// Where the tube's own seam is.
    pub seam: Typed,
    /// Paper for the strip.
    pub paper: Paper,
    /// The end that is cut; the joint at the other end is the far datum.
    pub end: End,
    /// Old weld line at the cut end, from the far datum.
    pub weld_line: Typed,
    /// Weld line at the far end, from the far datum.
    pub far_weld_line: Typed,
    /// Width of the slot the wheel or blade leaves.
    pub kerf: Typed,
    /// Gap left between tube and shoulder at the new weld.
    pub root_gap: Typed,
    /// How much the new weld will draw the shaft shorter.
    pub shrinkage: Typed,
    /// Length of the yoke's spigot inside the tube.
    pub spigot: Typed,
}

/// Balance weights.
#[derive(Clone, Debug, PartialEq)]
pub struct WeightsForm {
    /// Whether weights came off at all.
    pub came: WeightsCame,
    /// Weights that came off.
    pub rows: Vec<WeightRow>,
    /// How far the yoke at the cut end was turned against its own witness mark, clockwise from the rear.
    pub yoke_turned: Typed,
    /// Mass of the whole shaft.
    pub shaft_mass: Typed,
    /// How the weights are known.
    pub weighed: Weighed,
    /// What they are made of, where they are known by their size.
    pub material: Material,
    /// Which rule puts them back.
    pub put_back: PutBack,
    /// Whether those of one end become one.
    pub joined: Joined,
    /// Line through the ears of the cut end's yoke, on the clock.
    pub ear: Typed,
    /// Far datum to the place where weights go at the gearbox end.
    pub front_plane: Typed,
    /// Far datum to the place where weights go at the axle end.
    pub rear_plane: Typed,
    /// Thickness of the strip that new weights are cut from.
    pub strip_thickness: Typed,
    /// Width of that strip.
    pub strip_width: Typed,
}

/// One weight that came off.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct WeightRow {
    /// Mass.
    pub mass: Typed,
    /// Place on the clock.
    pub clock: Typed,
    /// Distance from the far datum.
    pub distance: Typed,
    /// Distance of its middle from the shaft's axis.
    pub radius: Typed,
    /// Its length round the tube.
    pub length: Typed,
    /// Its width along the tube.
    pub width: Typed,
    /// Its thickness.
    pub thickness: Typed,
    /// What the mechanic wants to remember of it.
    pub note: Typed,
}

impl Default for MeasureForm {
    fn default() -> Self {
        // Three empty places ask for three readings without a word.
        MeasureForm {
            kind: ShaftKind::default(),
            route: Route::default(),
            old_datum: DatumPair::default(),
            wanted_datum: DatumPair::default(),
            front_cup: Typed::default(),
            rear_cup: Typed::default(),
            front_ear: Typed::default(),
            rear_ear: Typed::default(),
            wanted_front_ear: Typed::default(),
            wanted_rear_ear: Typed::default(),
            ends: vec![Typed::default(); 3],
            front_depth: Typed::default(),
            rear_depth: Typed::default(),
            old: vec![Typed::default(); 3],
            wanted: vec![Typed::default(); 3],
            division: Division::default(),
            yoke_at: YokeAt::default(),
            taken_at: Typed::default(),
            set_point: Typed::default(),
        }
    }
}

impl Default for CutForm {
    fn default() -> Self {
        CutForm {
            at: CutAt::default(),
            clear_by: Typed::default(),
            spigot_diameter: Typed::default(),
            shoulder: Typed::default(),
            trim: Typed::default(),
            square_by: SquareBy::default(),
            face: vec![Typed::default(); FACE_PLACES],
            marks: ClockMarks::default(),
            seam: Typed::default(),
            paper: Paper::default(),
            end: End::default(),
            weld_line: Typed::default(),
            far_weld_line: Typed::default(),
            kerf: Typed::default(),
            root_gap: Typed::default(),
            shrinkage: Typed::default(),
            spigot: Typed::default(),
        }
    }
}

impl WeightsForm {
    /// Takes a weight out of the log; nothing else moves. One row always stays, empty where it was the last.
    pub fn take_away(&mut self, row: usize) {
        if row < self.rows.len() {
            self.rows.remove(row);
        }
        if self.rows.is_empty() {
            self.rows.push(WeightRow::default());
        }
    }

    /// Puts a weight that was taken away back where it was logged.
    pub fn log_again(&mut self, row: usize, weight: WeightRow) {
        self.rows.insert(row.min(self.rows.len()), weight);
    }
}

impl Default for WeightsForm {
    fn default() -> Self {
        WeightsForm {
            came: WeightsCame::default(),
            rows: vec![WeightRow::default()],
            yoke_turned: Typed::default(),
            shaft_mass: Typed::default(),
            weighed: Weighed::default(),
            material: Material::default(),
            put_back: PutBack::default(),
            joined: Joined::default(),
            ear: Typed::default(),
            front_plane: Typed::default(),
            rear_plane: Typed::default(),
            strip_thickness: Typed::default(),
            strip_width: Typed::default(),
        }
    }
}
