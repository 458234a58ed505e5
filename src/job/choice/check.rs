//! Choices of Check.

use super::Choice;

choices! {
    /// What the tube is of.
    TubeMaterial {
        /// Steel.
        #[default]
        Steel,
        /// Aluminium.
        Aluminium,
        /// Something else, its figures by hand.
        ByHand,
    }

    /// How the tyre is known.
    TyreBy {
        /// By the marking of its size.
        #[default]
        Marking,
        /// By its maker's turns on a length of road.
        Turns,
        /// By the road that one turn rolls out.
        RolledOut,
    }

    /// What kind of gearbox it is.
    Gearbox {
        /// Shifted by hand.
        #[default]
        Manual,
        /// With a converter.
        Automatic,
    }

    /// What turns by the torque of this shaft.
    Drives {
        /// One axle, and nothing else.
        #[default]
        OneAxle,
        /// More than that: it runs to a transfer case, or to the first of two axles.
        More,
    }

    /// Grade of a steel tube.
    Grade {
        /// Welded of low-carbon steel, as welded.
        #[default]
        AsWelded,
        /// Drawn over mandrel, 1020.
        Drawn1020,
        /// Drawn over mandrel, 1026, stress relieved.
        Drawn1026,
        /// By its own yield.
        OwnYield,
    }
}
