//! Pieces that several screens share.

mod bar;
mod card;
mod choice;
mod element;
mod field;
mod level;
mod mark;
mod notices;
mod pad;
mod picture;

pub use bar::{bar, rail};
pub use card::{Part, answer_strip, cards, jump_to};
pub use choice::{choice, labelled, segments};
pub use element::{Element, all, either, el, fold, key, line, part, slot, text};
pub use field::{field, field_row, fields};
pub use level::{LevelTarget, Placing, level_panel};
pub use mark::standing_mark;
pub use notices::notices;
pub use pad::{Pad, boxes_of, pad_keys, reading};
pub use picture::{Follows, picture};
