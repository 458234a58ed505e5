//! What is said of a slope that the tablet or phone reads itself.

use crate::quantity::{as_degrees, show_angle, show_number};
use crate::stage::tilt::{Coarse, Reading, Unread};

/// While it is read.
pub fn tilt_so_far(reading: &Reading) -> String {
    format!(
        "Hold still… {}, scatter {}, {} samples",
        show_angle(reading.slope, 1),
        show_angle(reading.scatter, 2),
        reading.count
    )
}

/// What is put into the field: degrees to two decimals.
pub fn tilt_text(reading: &Reading) -> String {
    show_number(as_degrees(reading.slope), 2)
}

/// A field by the name of its key, and its number where it has several.
fn place(name: &str, at: usize, count: usize) -> String {
    if count > 1 { format!("{name}, reading {}", at + 1) } else { name.to_owned() }
}

/// What was put where: into this one of so many readings.
pub fn tilt_put(
    reading: &Reading,
    name: &str,
    at: usize,
    count: usize,
    coarse: Option<Coarse>,
) -> String {
    let also = match coarse {
        None => "",
        Some(Coarse::Scatter) => " It scatters by more than the division chosen: choose a coarser one.",
        Some(Coarse::Step) => {
            " Many browsers tell only tenths of a degree: choose a division of 0.1° or coarser."
        }
    };
    format!(
        "Put {} into {}; scatter {}.{also}",
        show_angle(reading.slope, 2),
        place(name, at, count),
        show_angle(reading.scatter, 2)
    )
}

/// Why nothing was put anywhere.
pub fn tilt_unread(why: &Unread) -> String {
    match why {
        Unread::TooFew => "Too little was told of the tilt. Nothing was put in: tap again.".to_owned(),
        Unread::NotFaceUp => "Lay it screen up. Nothing was put in.".to_owned(),
        Unread::Moved(scatter) => format!(
            "It moved: scatter {}. Nothing was put in: let go of it and tap again.",
            show_angle(*scatter, 2)
        ),
    }
}

/// Every reading is there already.
pub fn tilt_full(name: &str, count: usize) -> String {
    if count > 1 {
        format!("All {count} readings of {name} are filled: empty one first.")
    } else {
        format!("{name} is filled: empty it first.")
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::degrees;

    #[test]
    fn as_it_is_said() {
        let reading = |slope: f64| Reading { slope: degrees(slope), scatter: degrees(0.041), count: 40 };
        assert_eq!(tilt_so_far(&reading(3.123)), "Hold still… 3.1°, scatter 0.04°, 40 samples");
        let put = |slope, count, coarse| tilt_put(&reading(slope), "Gearbox", 1, count, coarse);
        assert_eq!(put(3.123, 3, None), "Put 3.12° into Gearbox, reading 2; scatter 0.04°.");
        assert_eq!(put(-3.126, 1, None), "Put −3.13° into Gearbox; scatter 0.04°.");
        assert!(put(0.0, 1, Some(Coarse::Scatter)).ends_with("choose a coarser one."));
        assert!(put(0.0, 1, Some(Coarse::Step)).ends_with("0.1° or coarser."));
        // What is put reads back as the reading, and nothing is a negative zero.
        assert_eq!(
            [3.123, -3.126, -0.001].map(|slope| tilt_text(&reading(slope))),
            ["3.12", "−3.13", "0.00"]
        );
        assert!(tilt_unread(&Unread::Moved(degrees(0.5))).starts_with("It moved: scatter 0.50°."));
        assert_eq!(tilt_full("Pinion", 3), "All 3 readings of Pinion are filled: empty one first.");
        assert_eq!(tilt_full("One spot", 1), "One spot is filled: empty it first.");
    }
}
