//! Sources in words. Each says what it is: published, from memory, or common practice.

use crate::stage::Source;

/// The words of a source.
pub const fn source(which: Source) -> &'static str {
    match which {
        Source::Gum => "Published: JCGM 100:2008, Guide to the expression of uncertainty in measurement",
        Source::TyreTurns => {
            "Published: loaded tyres turn 1/0.96 to 1/0.98 as often as their size says, tables in vehicle manuals; its ± our own choice"
        }
        Source::BeamElements => {
            "Beam of finite elements with shear and rotary inertia (S. P. Timoshenko, 1921; elements by J. S. Przemieniecki, Theory of Matrix Structural Analysis, from memory), not spinning: the safe side"
        }
        Source::DoubtOfElements => {
            "Our own choice: E ± 2.4 %, a yoke's mass ± 2 % weighed or ± 30 % as half of what is left, yokes at least half as stiff as a solid bar"
        }
        Source::CardanMakerHalf => {
            "Published: 8 % clear of half the whirl speed, a cardan-shaft maker's catalogue; taken as 8 % of the half"
        }
        Source::InstallationManual => "Published: driveshaft installation manual J3311-1",
        Source::YieldAsWelded => "From memory: 32 ksi, 1008 to 1010 as welded, ASTM A513; a lower bound",
        Source::YieldDrawn => {
            "Published: 1020 55 ksi, 1026 65 ksi, drawn and stress relieved, ASTM A513 type 5 as a merchant reproduces it; lower bounds"
        }
        Source::YieldAluminium => "From memory: 6061-T6 35 ksi; beside a weld 15 ksi, which counts here",
        Source::Torsion => {
            "Torsion of a round bar, any text on strength (Shigley, Mechanical Engineering Design)"
        }
        Source::ShearYield => "0.577 of the yield, von Mises, any text on strength",
        Source::FoldingTube => {
            "NASA SP-8007 and EN 1993-1-6 Annex D, thin tubes in torsion (from memory), two thirds of it, which tests of real tubes reached"
        }
        Source::FilletWeld => {
            "Published: Shigley, Mechanical Engineering Design, Table 9-1; 0.30 of the weld metal's strength, Table 9-6 (from memory), for a load that stands still; no more than the tube beside it bears and no throat past its wall, our own choice"
        }
        Source::JointMaker => "Its maker's sheet",
        Source::Geometry => "Geometry",
        Source::CommonPractice => "Common practice of the trade, no source",
        Source::TotalReadingStandard => "Published: ASME Y14.5 and ISO 1101, total reading",
        Source::LeastSquaresCircle => "Published: ISO 12181, least-squares circle",
        Source::WeldShrinkage => "Published: TWI job-knowledge FAQ on shrinkage allowance",
        Source::ArmyDriveline => "Published: US Army TM 5-4210-230-14&P-1, yokes parallel within 1°",
        Source::ArmyTube => "Published: US Army TM 5-4210-230-14&P-1, tube 0.015 in",
        Source::PassengerCarManual => {
            "Published: Jeep Cherokee service manual, 0.020 in, 3 in from the welds"
        }
        Source::PassengerCarMiddle => {
            "Published: Jeep Cherokee service manual, 0.025 in at the middle of the tube"
        }
        Source::ArmyNeck => "Published: US Army TM 5-4210-230-14&P-1, slip stub neck 0.005 in",
        Source::WorkshopManual => "Published: Mustang 2003 workshop manual, 0.035 in at most anywhere",
        Source::SeveralCarManuals => "Published: several passenger-car service manuals, 0.8 mm",
        Source::OwnLimit => "Your own limit",
        Source::UniversalJoints => "Published: Machinery's Handbook, universal joints",
        Source::JointsInSeries => {
            "Published: SAE AE-7, Universal Joint and Driveshaft Design Manual, 3.1, in one plane; in space derived from it"
        }
        Source::TwoJointTable => "Published: two-joint table of the AE-7 kind, decoded: 400 rad/s²",
        Source::ShakeFromMemory => {
            "From memory: pinion 300 rad/s² for heavy duty; shaft 1000 rad/s², 500 for quiet running"
        }
        Source::NeedleBearings => {
            "Published: at least 1° (driveshaft installation manual J3311-1) or 1/2° (vehicle service manual)"
        }
        Source::DoubtOfAngles => {
            "Taken for the ±, our own choice: an instrument not turned end for end is right to one of its lines; a joint's height and the side offset 1/8 in, the axle's travel and centre 1/4 in, a rise of the nose 0.5°, plan angles 0.5°; all in one line is taken as exact"
        }
        Source::LeastShake => "The least over a bracketed search of the exact figure, under power",
        Source::ParallelBound => {
            "Published: US Army TM 5-3820-256-24-4, parallel only while the equal angles stay below 12°"
        }
        Source::WhirlBeam => {
            "Closed form of a pinned tube (Euler–Bernoulli), any text on vibration; agrees with shaft makers' published constants"
        }
        Source::MaterialFromMemory => "E and ρ: common handbook figures, from memory",
        Source::ShaftMakerLight => {
            "Published: propeller-shaft maker's technical data, 0.70 for light vehicles"
        }
        Source::ShaftMakerIndustrial => {
            "Published: propeller-shaft maker's technical data, 0.65 industrial"
        }
        Source::CardanMaker => "Published: cardan-shaft maker's handbook, 0.75",
        Source::BalanceGrade => {
            "Published: ISO 21940-11 table 1 as reproduced, G 16; half of it for each joint's plane"
        }
        Source::TwoPlanes => {
            "Statics of a rigid shaft: force and couple kept; ISO 21940-2 for the terms"
        }
        Source::DoubtOfWeights => {
            "Taken for the ±, our own choice: 0.5 g, 5°, 1/8 in along, 1/16 in of radius, where it sat and where it goes; the cut ring at half the run-out limit; a plane's share of the grade on the part moved"
        }
        Source::PlateOnTube => {
            "Geometry of a strip bent round the tube. Its ±, our own choice: length and width 1/32 in, thickness 0.1 mm; steel 7850 kg/m³, from memory"
        }
        Source::KeepOff => {
            "Law of sines. Kept clear, our own choice: the seam 10° either side, the line through the ears 15°"
        }
        Source::RunOutAdds => {
            "Statics of a rigid shaft: mass times offset along the tube, straight from place to place and on the axis at the joints; with one place read, a half sine through it"
        }
        Source::DoubtOfRunOut => {
            "Taken for the ±, our own choice: half of what the shaft weighs beyond its tube sits at each end, anywhere from joint to weld; wall 0.1 mm; between the places what a smooth curve through them adds to the straight lines; with one place, whatever a kink at the weld or a yoke off its place would add"
        }
        Source::RigidShaft => {
            "ISO 21940-12: rigid below about 0.70 of the first whirl speed, from memory"
        }
        Source::BalanceGrades => {
            "Published: ISO 21940-11 table 1 as reproduced: G 16 cardan and propeller shafts, G 40 drive shafts of cars"
        }
        Source::FirstMode => "A beam bent in the shape of its first mode, any text on vibration",
        Source::DoubtOfTube => "Taken for the ±, our own choice: diameter 0.15 mm, wall 0.1 mm",
        Source::DoubtOfWhirl => {
            "Taken for the ±, our own choice: 1.3 % for the spread of makers' constants"
        }
        Source::DoubtOfBench => "Taken for the ±, our own choice: gap 0.05 mm, span 0.8 mm",
        Source::DoubtOfLines => "Taken for the ±, our own choice: each line 0.25 mm along its yoke",
        Source::DoubtOfTravel => {
            "Taken for the ±, our own choice: slope 0.5°, travel of the axle 1/4 in, output shaft as read at Angles, or within 5° of the shaft's own slope; the axle does not turn about itself"
        }
        Source::BalanceForce => "Published: ISO 21940-2, force of an unbalance U·ω²",
        Source::TrialWithPhase => {
            "Influence coefficients from trial runs, as in ISO 21940-11 and texts on balancing (from memory); the region of the answer by Fieller, 1954 (from memory), two planes derived from it"
        }
        Source::TrialWithoutPhase => {
            "The four-run method of balancing without phase (from memory), by least squares for any trials; the region is the likelihood's"
        }
        Source::TrialChange => {
            "Published: vibration-analysis training note, a trial changes amplitude by 30 % or phase by 30°"
        }
        Source::TrialShows => {
            "Five times what a reading changes by itself if that were known, 7.8 times as five runs tell it, our own choice: from there on the ± keeps its promise"
        }
        Source::LuckOfRuns => {
            "What readings that change by themselves leave but once in a hundred times, by Fisher's law with five runs to tell it by"
        }
        Source::DoubtOfRuns => {
            "Taken for the ±: how much a reading changes by itself, as typed, for one standard deviation, from the range of five runs (3.8 degrees of freedom: A. J. Duncan, Quality Control and Industrial Statistics, from memory); the trials' masses and places as exact, set by the same marks as the correction"
        }
        Source::OfficePaper => "Paper 0.10 mm thick, 80 g/m² office paper, from memory",
        Source::SeamAside => {
            "Published: readings leave out welds and surface irregularities (vehicle service manual). What stands out is found by Fisher's law, over at most 20° of the tube, our own choice"
        }
        Source::Influence => {
            "The answer of the tube found from its own last move, as an influence is in trial-weight balancing; nothing is learned from a move under a third or over three times what was asked, or more than 60° aside, our own choice"
        }
        Source::BentShapes => {
            "Geometry of a line broken or bowed once; what luck leaves by Fisher's law at 1 in 20, our own choice"
        }
        Source::TubeOvality => {
            "Published: ASTM A513: new tube may be oval by 0.015 to 0.020 in at 2 to 4 in diameter"
        }
    }
}
