//! Choices of the balance weights, and of balancing on the car.

use super::Choice;

choices! {
    /// How removed weights are known.
    Weighed {
        /// By a scale.
        #[default]
        Scale,
        /// By their size.
        Size,
    }

    /// Which rule puts weights back.
    PutBack {
        /// Each stays with its own yoke.
        #[default]
        OwnYoke,
        /// Both planes carry what they carried.
        BothShares,
        /// Each goes back as far from the far datum as it was.
        OwnPlaces,
    }

    /// Whether several weights become one.
    Joined {
        /// Each goes back by itself.
        #[default]
        Apart,
        /// Those of one end become one.
        OneAnEnd,
    }

    /// Whether what must be so before the wheels turn is so.
    Ready {
        /// Not said yet.
        #[default]
        NotYet,
        /// Read, and so.
        Ready,
    }

    /// What is read at a run on the car.
    BalanceBy {
        /// Amplitude alone.
        #[default]
        Amplitudes,
        /// Amplitude and phase at one end.
        Phase,
        /// Amplitude and phase at both ends.
        TwoPlanes,
    }

    /// For which ends the runs were made: their trial weights and readings say nothing of others.
    RunsMade {
        /// Not said: none were made, or by a page that did not keep it.
        #[default]
        NotSaid,
        /// For the gearbox end.
        Front,
        /// For the axle end.
        Rear,
        /// For both ends.
        BothEnds,
    }

    /// What tells the phase.
    PickUp {
        /// A flash shows where the witness mark stands.
        #[default]
        Strobe,
        /// The high spot is marked on the shaft itself.
        Mark,
        /// How far the shaft turns on after its mark has passed an eye.
        Lag,
    }

    /// Which way a shaft turns, seen from the rear.
    Spin {
        /// Clockwise.
        Clockwise,
        /// Counter-clockwise.
        #[default]
        Counterclockwise,
    }

    /// What becomes of a trial weight.
    TrialLeft {
        /// It comes off again.
        #[default]
        TakenOff,
        /// It stays.
        LeftOn,
    }
}
