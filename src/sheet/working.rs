//! The working, line by line, with the numbers put in.

use super::amount::amount;
use crate::quantity::LengthDisplay;
use crate::stage::{Law, Step};

/// One line of working.
#[derive(Clone, Debug, PartialEq)]
pub struct WorkingLine {
    /// The law, in words and symbols.
    pub law: &'static str,
    /// The same with the numbers put in.
    pub numbers: String,
}

/// A step in words. Lengths stand with decimals, since fractions do not add up by eye.
pub fn working(step: &Step, display: LengthDisplay) -> WorkingLine {
    let (law, template) = law(step.law);
    let mut numbers = template.to_owned();
    for (place, value) in step.put_in.iter().enumerate() {
        numbers = numbers.replace(&format!("{{{place}}}"), &amount(*value, display));
    }
    WorkingLine { law, numbers: numbers.replace("{=}", &amount(step.gives, display)) }
}

/// A law's formula, and its template for numbers: `{0}`, `{1}` … in the order in which they are put
/// in, `{=}` for the result.
const fn law(law: Law) -> (&'static str, &'static str) {
    match law {
        Law::OldLength => ("Old length: mean of its readings, between cup centres", "old = {=}"),
        Law::NewLength => ("Wanted length, between cup centres at the set point", "wanted = {=}"),
        Law::MeanRead => ("Mean of the readings", "{=}"),
        Law::ToJointCentres => ("Brought to the cup centres at the set point", "{0} − {1} = {=}"),
        Law::LessTheEnds => ("Less what the ends take up", "{0} − {1} = {=}"),
        Law::OutToJointCentres => ("Brought out to the cup centres at the set point", "{0} + {1} = {=}"),
        Law::Routes => ("Joint to joint − from the ends", "{0} − {1} = {=}"),
        Law::LeastDistance => {
            ("Axle at this height above ride brings the joints nearest, by this much", "{0}: {=}")
        }
        Law::RoomIn => ("Room left = set point − way in", "{0} − {1} = {=}"),
        Law::PlungeOut => ("There is = spline − least engaged − set point", "{0} − {1} − {2} = {=}"),
        Law::EngagedSpline => ("Engaged = spline − set point − way out", "{0} − {1} − {2} = {=}"),
        Law::LipBand => (
            "Lip at ride = bottomed + lip depth + set point; less the way in; and out to",
            "{0} − {1} = {2}; to {=}",
        ),
        Law::ShoulderSum => {
            ("Old length − shoulder to joint − weld line should be nothing", "{0} − {1} − {2} = {=}")
        }
        Law::SpigotLean => ("Lean = atan(play / depth of the spigot)", "atan({0} / {1}) = {=}"),
        Law::FaceFit => {
            ("Plane through the readings by least squares; it tilts the yoke by f/D", "{0} / {1} = {=}")
        }
        Law::ClockStep => ("Step = π·D / marks", "π × {0} / {1} = {=}"),
        Law::Difference => ("Old − wanted", "{0} − {1} = {=}"),
        Law::CombinedDoubt => (
            "± of the difference at 95 %: root of the squares, by degrees of freedom",
            "± {0} with ± {1} gives ± {=}",
        ),
        Law::Coverage => (
            "Factor at 95 % by the effective degrees of freedom (Welch–Satterthwaite), Student's t",
            "{0} degrees: t = {=}",
        ),
        Law::ClosingEquation => (
            "Tube out = (old − wanted) + root gap − weld shrinkage, for all new welds",
            "({0} − {1}) + {2} − {3} = {=}",
        ),
        Law::TubeEnd => ("New face = old weld line − tube out", "{0} − {1} = {=}"),
        Law::FinishedBack => (
            "Finished = new face + root gap + (old − old weld line) − shrinkage",
            "{0} + {1} + ({2} − {3}) − {4} = {=}",
        ),
        Law::RingLength => ("Ring = between the two lines − the slots between them", "{0} − {1} = {=}"),
        Law::NewTubeLength => {
            ("New tube = old weld line − far weld line + tube to add", "{0} − {1} + {2} = {=}")
        }
        Law::FaceError => (
            "f = D·T·L / (2·z·(L − z)): diameter, total reading allowed, length, weld line",
            "{0} × {1} × {2} / (2 × {3} × ({2} − {3})) = {=}",
        ),
        Law::LiftAngle => (
            "Lean = asin(gap / span), + clockwise seen from the rear: − where the right-hand ear stands off",
            "asin({0} / {1}): {=}",
        ),
        Law::MeanLevel => ("Mean of the readings; half turns do not count", "{=}"),
        Law::LevelDifference => (
            "Turn = rear level − front level, + clockwise seen from the rear; half turns do not count",
            "{0} − ({1}): {=}",
        ),
        Law::LeanDifference => {
            ("Turn = rear yoke's lean − front yoke's; half turns do not count", "{0} − ({1}): {=}")
        }
        Law::LineAngle => (
            "Turn = 2·arc/D, + clockwise seen from the rear; half turns do not count",
            "2 × {0} / {1}: {=}",
        ),
        Law::OffTarget => ("Out by = turn − turn wanted; half turns do not count", "{0} − ({1}): {=}"),
        Law::ArcOnTube => ("Arc = π·D·angle / 360°", "π × {0} × {1} / 360° = {=}"),
        Law::TotalReading => ("Total reading = greatest − least", "{0} − {1} = {=}"),
        Law::Circle => (
            "Least-squares circle through the stations: part toward 12, part toward 3, offset",
            "{0} stations: √(({1})² + ({2})²) = {=}",
        ),
        Law::OffsetTwice => ("An offset shows twice on the dial", "2 × {0} = {=}"),
        Law::PullVector => {
            ("Pull = offset welded − offset tacked, as vectors", "{0} at {1} − {2} at {3} = {=}")
        }
        Law::LastMove => (
            "Moved = offset now − offset of the pass before, as vectors",
            "{0} at {1} − {2} at {3} = {=}",
        ),
        Law::JointOpens => (
            "Opens = D·e·L/(z·(L − w)) up to the weld, D·e·L/(w·(L − z)) behind it: diameter, offset, length, dial, weld",
            "D {0}, e {1}, L {2}, z {3}, w {4}: {=}",
        ),
        Law::TrueAngles => (
            "Slopes of gearbox, shaft, pinion; the angles of both joints in space",
            "{0}, {1}, {2}: front {3}, rear {=}",
        ),
        Law::EquivalentAngle => (
            "Summary: θ = √|β₁² − β₂²·e^(2i(ψ − τ))|; ψ the yokes' turn, τ the planes' twist",
            "β₁ {0}, β₂ {1}, ψ {2}, τ {3}: θ = {=}",
        ),
        Law::JointShake => (
            "Greatest of ω²·cos β·sin² β·sin 2γ/(1 − sin² β·cos² γ)² over a turn, exact",
            "{0}, {1}: {=}",
        ),
        Law::MostAngle => ("Angle of a joint that shakes the shaft by the limit", "{0} at {1}: {=}"),
        Law::SlopeOfHeights => {
            ("Slope = asin((front height − rear height) / length)", "asin(({0} − {1}) / {2}) = {=}")
        }
        Law::Whirl => ("N = 7.5π·√(E/ρ)·√(D² + d²)/L²", "E {0}, ρ {1}, D {2}, d {3}, L {4}: N = {=}"),
        Law::WhirlShare => ("Share = speed / whirl speed", "{0} / {1} = {=}"),
        Law::AllowedSpeed => ("Allowed at this length = share × whirl speed", "{0} × {1} = {=}"),
        Law::Unbalance => ("Work of the weight = mass × radius", "{0} × {1} = {=}"),
        Law::NewDistance => {
            ("Goes with its own yoke: distance − (old − wanted)", "{0} − ({1} − {2}) = {=}")
        }
        Law::PlateMass => ("Mass = ρ × length × width × thickness", "{0} × {1} × {2} × {3} = {=}"),
        Law::PlateRadius => (
            "Radius = middle of its thickness × what its ends leave of it, sin(α/2)/(α/2)",
            "share {0}: {=}",
        ),
        Law::OneOfThem => ("One of those that it stands for", "weight {0} at {1}: {=}"),
        Law::VectorSum => ("All of them as one vector", "at {0}: {=}"),
        Law::PartOfAll => ("Its part of them all, pull and couple kept", "at {0}: {=}"),
        Law::StripLength => ("Strip for it: 2R·arcsin(U / (2ρwtR·R_c))", "for {0}: {=}"),
        Law::PartOfIt => ("Beside it, by the law of sines", "{0} at {1} gives at {2}: {=}"),
        Law::MassOfParts => ("Whole shaft = tube + yokes, half of these at each end", "{0} + {1} = {=}"),
        Law::GradeReached => {
            ("Grade of the worse plane, with half of the mass: G = U·ω/(m/2)", "{0} at {1}, {2}: {=}")
        }
        Law::Growth => ("Grows by 1/(1 − (n/N)²)", "{0} of {1}: {=}"),
        Law::PermittedShare => ("Half of what G 16 permits: ½·16 mm/s·m/ω", "{0} at {1}: {=} a plane"),
        Law::MostTrial => {
            ("Heaviest trial = 0.1 × half the shaft's weight / (ω² × radius)", "{0}, {1}, {2}: {=}")
        }
        Law::HeadsApart => {
            ("Two heads W, each γ from the middle, make R = 2·W·cos γ", "acos({0} / (2 × {1})) = {=}")
        }
        Law::Influence => (
            "Effect H = (R − O)/W as vectors on the shaft; put on −O/H",
            "O {0} at {1}, R {2} at {3}, W {4} at {5}: {=}",
        ),
        Law::InfluenceLeftOn => (
            "Effect H = (R − O)/W as vectors on the shaft; the trial left on, put on −R/H",
            "O {0} at {1}, R {2} at {3}, W {4} at {5}: {=}",
        ),
        Law::TwoPlaneRuns => (
            "Effects H from both trials, one column each; put on −H⁻¹·V₀. Both ends' readings: first run, trial 1, trial 2",
            "{0} at {1}, {2} at {3}; {4} at {5}, {6} at {7}; {8} at {9}, {10} at {11}: {=}",
        ),
        Law::TrialFits => (
            "A run reads g·|W − c|, c the correction, g and c by least squares over all runs: trial, as read, as it fits",
            "{0} at {1}: read {2}, fits {=}",
        ),
        Law::NextTrialFits => ("The next trial", "{0} at {1}: read {2}, fits {=}"),
        Law::EngineToShaft => ("Shaft = engine's top speed / ratio", "{0} / {1} = {=}"),
        Law::Elements => (
            "Elements from joint to joint: front yoke and its mass, tube, rear yoke and its mass",
            "{0} with {1}; {2} of tube; {3} with {4}: {=}",
        ),
        Law::RoadToShaft => ("Shaft = road speed × tyre's turns × axle ratio", "{0} × {1} × {2} = {=}"),
        Law::TorqueByEngine => (
            "Engine's torque × lowest gear × low range × what reaches the shaft × converter",
            "{0} × {1} × {2} × {3} × {4} = {=}",
        ),
        Law::TorqueBySlip => (
            "Friction × load × tyre's radius / (0.95 × axle ratio)",
            "{0} × {1} × {2} / (0.95 × {3}) = {=}",
        ),
        Law::ShearInTube => ("τ = T·D/(2·J), J = π(D⁴ − d⁴)/32", "T {0}, D {1}, d {2}: {=}"),
        Law::ShearYield => ("Yields in shear at 0.577 of its yield", "0.577 × {0} = {=}"),
        Law::TwistOfTube => ("Turn = T·L/(J·G)", "T {0}, L {1}, G {2}: {=}"),
        Law::LegNeeded => (
            "Leg h = T/(1.414·π·r²·τ), τ the lesser of 0.30 of the weld metal's strength and what the tube beside it bears",
            "T {0}, r {1}, τ {2}: {=}",
        ),
        Law::ShearInWeld => ("τ = T/(1.414·π·h·r²)", "T {0}, h {1}, r {2}: {=}"),
        Law::LeftOver => (
            "Squares left over, in squares of what a reading changes by itself, against what luck leaves but once in a hundred times",
            "{0} × √({1} / {2}) = {=}",
        ),
        Law::LeastSure => (
            "Its ± the least sure way against the surest, and up to what that is sure enough every way",
            "{=} to 1, up to {0} to 1",
        ),
        Law::PullForce => ("Pull at top speed F = U·ω²", "{0} at {1}: {=}"),
    }
}
