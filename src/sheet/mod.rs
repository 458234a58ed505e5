//! Findings to words: the one place where anything is worded for people. The screen shows these
//! words, the report prints them, and tests read them natively.

mod amount;
mod balance;
mod caution;
mod check;
mod check_field;
mod check_tables;
mod complaint;
mod finding;
mod hint;
mod kept;
mod label;
mod mark;
mod reason;
mod report;
mod reset;
mod set_up;
mod source;
mod tilt;
mod truing;
mod weights;
mod working;

pub use amount::amount;
pub use balance::{
    balance_limits, balance_not_for, balance_same_runs, clip_table, made_for_others, trial_place,
};
pub use caution::caution;
pub use check_tables::{GearRow, TubeRow, gear_table, tube_table};
pub use complaint::{complaint, unopened};
pub use finding::{
    Shown, causes, need, remark, shaft_line, shown, standing_word, title, verdict_reason,
    verdict_standing, verdict_word,
};
pub use hint::{hint, which_way};
pub use label::{Worded, cut_yoke, far_datum, far_joint, label, stage_lead, stage_title};
pub use mark::{mark_nearest, mark_note, mark_title, order_of_work};
pub use report::report;
pub use set_up::{set_up_line, set_up_shows, turned_shows};
pub use source::source;
pub use tilt::{tilt_full, tilt_put, tilt_so_far, tilt_text, tilt_unread};
pub use weights::taken_away;
pub use working::{WorkingLine, working};
