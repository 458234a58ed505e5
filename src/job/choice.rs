//! What is chosen rather than typed.

use crate::quantity::{Denominator, LengthDisplay};

/// A choice between a few named things.
pub trait Choice: Copy + PartialEq + 'static {
    /// Every one, in the order in which they are offered.
    const ALL: &'static [Self];

    /// Its name in a saved job.
    fn code(self) -> &'static str;

    /// The one with this name in a saved job.
    fn from_code(code: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|item| item.code() == code)
    }
}

macro_rules! choices {
    ($($(#[$about:meta])* $name:ident { $($(#[$item_about:meta])* $item:ident),+ $(,)? })+) => {$(
        $(#[$about])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
        pub enum $name { $($(#[$item_about])* $item),+ }

        impl Choice for $name {
            const ALL: &'static [Self] = &[$($name::$item),+];

            fn code(self) -> &'static str {
                match self { $($name::$item => stringify!($item)),+ }
            }
        }
    )+};
}

mod check;
mod weights;

pub use check::{Drives, Gearbox, Grade, TubeMaterial, TyreBy};
pub use weights::{BalanceBy, Joined, PickUp, PutBack, Ready, RunsMade, Spin, TrialLeft, Weighed};

choices! {
    /// How lengths are shown.
    Display {
        /// Inch fractions to 1/16, with the leftover.
        #[default]
        Sixteenth,
        /// Inch fractions to 1/32, with the leftover.
        ThirtySecond,
        /// Inch fractions to 1/64, with the leftover.
        SixtyFourth,
        /// Inches with decimals.
        DecimalInch,
        /// Millimetres.
        Millimetre,
    }

    /// Lines of a tape, rule or calliper.
    Division {
        /// 1/16 in.
        #[default]
        Sixteenth,
        /// 1/32 in.
        ThirtySecond,
        /// 1/64 in.
        SixtyFourth,
        /// 1 mm.
        Millimetre,
        /// 0.5 mm.
        HalfMillimetre,
        /// 0.001 in.
        Thousandth,
        /// 0.02 mm.
        Fiftieth,
    }

    /// What kind of shaft it is: where it takes up the axle's travel, and what its ends are.
    ShaftKind {
        /// A slip yoke runs on the gearbox's output shaft.
        #[default]
        SlipInGearbox,
        /// A joint fixed to the gearbox; the slip spline is part of the shaft.
        SlipOnShaft,
        /// A flange at both ends, the slip inside the shaft.
        Flanged,
    }

    /// Where the slip stood while a length was taken: the wanted distance for a slip yoke in the
    /// gearbox, the old shaft for a slip in the shaft.
    YokeAt {
        /// Drawn out to its set point: the reading is the length itself.
        #[default]
        SetPoint,
        /// Pushed in until it bottomed: the set point is reckoned in.
        Bottomed,
        /// Drawn out by a length that was read: what lies between that and the set point is reckoned in.
        Drawn,
    }

    /// How the wanted length was measured.
    Route {
        /// From joint centre to joint centre.
        #[default]
        Joints,
        /// From seal face or flange to the axle, and the yokes' own dimensions.
        Ends,
        /// Both, to compare.
        Both,
    }

    /// What the tape was laid on at a joint.
    Datum {
        /// The centre of the bearing cup.
        #[default]
        CupCentre,
        /// The cup's seat, on the side away from the other joint.
        OuterSeat,
        /// The cup's seat, on the side of the other joint.
        InnerSeat,
        /// The ear's edge, beyond the cup as seen from the other joint.
        OuterEar,
        /// The ear's edge, on this side of the cup as seen from the other joint.
        InnerEar,
    }

    /// How the travel was found.
    TravelBy {
        /// The distance measured at bump, ride and droop.
        #[default]
        Measured,
        /// Reckoned from the shaft's slope and the axle's travel.
        Reckoned,
    }

    /// What guides the axle fore and aft.
    Guide {
        /// It goes straight up and down.
        #[default]
        Straight,
        /// A link with its pivot on the frame ahead of the axle.
        Trailing,
        /// A link with its pivot on the frame behind the axle.
        Leading,
    }

    /// Whether the old seal wore a groove into the barrel.
    Groove {
        /// It did; where, is measured.
        #[default]
        Worn,
        /// None to be felt.
        None,
    }

    /// How the yoke comes off the tube.
    CutAt {
        /// The old weld is sawn open.
        #[default]
        OldWeld,
        /// The tube is cut clear of it first, and the stub cleaned off the yoke afterwards.
        ClearOfIt,
    }

    /// How the face of the tube was proved square.
    SquareBy {
        /// How far the face stands out past a strip wrapped square round the tube.
        Strip,
        /// The gap under a square laid along the tube.
        #[default]
        Feeler,
    }

    /// Marks to scribe round the tube.
    ClockMarks {
        /// Every 45°.
        #[default]
        Eight,
        /// Every 30°.
        Twelve,
        /// Every 22.5°.
        Sixteen,
        /// Every 15°.
        TwentyFour,
    }

    /// Paper in the printer.
    Paper {
        /// 297 by 210 mm.
        #[default]
        A4,
        /// 11 by 8.5 in.
        Letter,
    }

    /// What the tube is made of.
    Material {
        /// Carbon steel.
        #[default]
        Steel,
        /// Aluminium alloy.
        Aluminium,
    }

    /// Share of the whirl speed that may be used.
    WhirlShare {
        /// 0.70, light vehicles.
        #[default]
        Light,
        /// 0.65, industrial.
        Industrial,
        /// 0.75, a cardan-shaft maker.
        CardanMaker,
    }

    /// An end of the shaft.
    End {
        /// At the axle.
        #[default]
        Rear,
        /// At the gearbox.
        Front,
    }

    /// How phase was measured.
    PhaseMethod {
        /// A level or phone across each yoke.
        #[default]
        Levels,
        /// The gap under one ear on a flat bench.
        Bench,
        /// The gap under one ear of each yoke, the tube held level over the bench.
        BothLifts,
        /// Two lines on the tube, one along each yoke.
        Lines,
    }

    /// How the yokes shall stand to each other.
    PhaseTarget {
        /// In one plane.
        #[default]
        InLine,
        /// As they stood before the cut.
        AsItWas,
        /// Turned by an angle that is typed.
        Own,
    }

    /// How the slope of the new shaft is known.
    ShaftBy {
        /// From the heights of both joints' centres and the new length.
        #[default]
        Heights,
        /// Read on the fitted shaft.
        Read,
    }

    /// How gearbox, shaft and pinion lie seen from above.
    PlanBy {
        /// In one line, along the vehicle.
        #[default]
        Straight,
        /// Gearbox and pinion along the vehicle, one beside the other.
        Offset,
        /// Each read as an angle.
        Angles,
    }

    /// A side, seen from the rear looking forward.
    Side {
        /// Right.
        #[default]
        Right,
        /// Left.
        Left,
    }

    /// Lines of a level.
    LevelDivision {
        /// 0.1°.
        #[default]
        Tenth,
        /// 0.05°.
        Twentieth,
        /// 0.2°.
        Fifth,
        /// 1/4°.
        Quarter,
        /// 1°.
        Whole,
    }

    /// A dial indicator.
    Dial {
        /// Lines of 0.001 in.
        #[default]
        Thousandth,
        /// Lines of 0.0005 in.
        HalfThousandth,
        /// Lines of 0.01 mm.
        Hundredth,
    }

    /// A named limit of the total reading.
    RunOutLimit {
        /// 0.010 in, a careful hand's home truing.
        #[default]
        HomeTruing,
        /// 0.015 in, tube anywhere.
        ArmyTube,
        /// 0.020 in, 3 in from a weld.
        NearWeld,
        /// 0.8 mm.
        EightTenths,
        /// 0.025 in, the middle of the tube.
        MiddleOfTube,
        /// 0.005 in, the stub's neck by the slip.
        SlipNeck,
        /// 0.035 in, anywhere.
        Anywhere,
        /// The mechanic's own.
        Own,
    }

    /// What the shaft turns on while the dial is read.
    SetUp {
        /// Between its own joints, on the car.
        #[default]
        Joints,
        /// Its slip yoke in the gearbox, the tail held.
        Gearbox,
        /// On two vee blocks.
        Vees,
        /// Between centres.
        Centres,
    }

    /// Which way a dial counts.
    Plunger {
        /// Pushed in is plus: a high side reads more.
        #[default]
        InIsPlus,
        /// Pushed in is minus.
        InIsMinus,
    }

    /// What the marks round the tube are called.
    MarkNames {
        /// By the clock.
        #[default]
        Clock,
        /// In degrees.
        Degrees,
        /// By number, from 1 at the witness mark.
        Numbers,
    }

    /// How a reading's place on the tube is known.
    TurnedHow {
        /// By marks on the tube.
        #[default]
        ByMarks,
        /// By turning the shaft clockwise, seen from the rear, under the dial.
        Clockwise,
        /// By turning it counter-clockwise.
        Counterclockwise,
    }

    /// What is done about the tube's own seam.
    SeamBy {
        /// It is looked for in the readings.
        #[default]
        Found,
        /// What was read on it is left out; its place is known.
        Known,
        /// Every reading counts.
        Counted,
    }

    /// When a turn was taken.
    PassKind {
        /// Put together, not yet tacked.
        #[default]
        AsFitted,
        /// Tacked.
        Tacked,
        /// Welded.
        Welded,
    }

    /// Whether weights came off.
    WeightsCame {
        /// Some did; they are logged.
        #[default]
        Off,
        /// The shaft had none.
        None,
    }

    /// Where the stations of a turn are.
    Stations {
        /// Every 90°.
        Four,
        /// Every 45°.
        #[default]
        Eight,
        /// Every hour of the clock.
        Twelve,
        /// Every 22.5°.
        Sixteen,
        /// Every 15°.
        TwentyFour,
        /// Every 10°.
        ThirtySix,
        /// Wherever the mechanic says.
        Free,
        /// Only the highest place and the lowest.
        HighLow,
    }
}

impl Display {
    /// The same, as the quantities know it.
    pub const fn lengths(self) -> LengthDisplay {
        match self {
            Display::Sixteenth => LengthDisplay::Fraction(Denominator::Sixteenth),
            Display::ThirtySecond => LengthDisplay::Fraction(Denominator::ThirtySecond),
            Display::SixtyFourth => LengthDisplay::Fraction(Denominator::SixtyFourth),
            Display::DecimalInch => LengthDisplay::DecimalInch,
            Display::Millimetre => LengthDisplay::Millimetre,
        }
    }

    /// Lengths are shown in some form of inches.
    pub const fn is_inch(self) -> bool {
        !matches!(self, Display::Millimetre)
    }
}

impl ClockMarks {
    /// How many there are.
    pub const fn count(self) -> usize {
        match self {
            ClockMarks::Eight => 8,
            ClockMarks::Twelve => 12,
            ClockMarks::Sixteen => 16,
            ClockMarks::TwentyFour => 24,
        }
    }
}
