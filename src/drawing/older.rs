//! The turns before the one in hand: their curves kept as text, since they do not change while it is
//! typed.

use core::fmt::Write;

use super::dial::{LEAST_SCALE, STEPS, in_lines, round};
use crate::job::Job;
use crate::stage::truing::turn;

/// The curves of earlier turns at one place along the tube, in the dial's own count and not in that of
/// any drawing: where the scale changes, they are stretched and not drawn again.
#[derive(Clone, Debug, PartialEq)]
pub struct Older {
    /// The steps of one path, which lifts the pen between two of them: from step to step across, and in the
    /// dial's count up.
    pub(super) path: String,
    /// The greatest height of any, either way.
    pub(super) most: f64,
}

/// The fitted curves of the passes before this one at this place; those that cannot be read are left
/// out. To be kept while the hand types: it fits every one of them.
pub fn older_turns(job: &Job, pass: usize, place: usize) -> Older {
    let mut older = Older { path: String::new(), most: LEAST_SCALE };
    for before in (0..pass).filter_map(|before| turn(job, before, place).ok()) {
        let heights = (0..=STEPS).map(|step| in_lines(job, before.run_out.fitted(round(step))));
        let heights: Vec<f64> = heights.collect();
        if heights.iter().all(|height| height.is_finite()) {
            for (step, height) in heights.into_iter().enumerate() {
                let pen = if step == 0 { 'M' } else { 'L' };
                // Writing to a String cannot fail.
                let _ = write!(older.path, "{pen}{step} {height:.3}");
                older.most = older.most.max(height.abs());
            }
        }
    }
    older
}

impl Older {
    /// The curves as a piece of a drawing: the box they are seen in, from corner to corner, and how high
    /// one of the dial's count is there. What lies farther out is cut off.
    pub(super) fn placed(&self, from: (f64, f64), to: (f64, f64), height: f64) -> String {
        let (wide, high) = (to.0 - from.0, to.1 - from.1);
        let (x, y, step, height) = (from.0, from.1 + 0.5 * high, wide / STEPS as f64, -height);
        // A name of its own on the page: no page shows two of these.
        format!(
            concat!(
                r#"<clipPath id="older-turns"><rect x="{x:.0}" y="{:.0}" width="{wide:.0}" height="{high:.0}"/>"#,
                r#"</clipPath><g clip-path="url(#older-turns)"><g fill="none" stroke="currentColor""#,
                r#" stroke-opacity="0.35" transform="translate({x:.2} {y:.2}) scale({step:.4} {height:.4})">"#,
                r#"<path vector-effect="non-scaling-stroke" d="{}"/></g></g>"#
            ),
            from.1,
            self.path,
            x = x,
            wide = wide,
            high = high,
            y = y,
            step = step,
            height = height
        )
    }
}
