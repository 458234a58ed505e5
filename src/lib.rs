//! Shaftwright: shorten or lengthen a vehicle's drive shaft by hand and have it come out right.
//!
//! Data goes one way: what the mechanic typed ([`job`]) → what follows from it ([`stage`], which asks
//! [`mechanics`]) → what they see (`screen`, which asks [`drawing`] and [`sheet`]). Nothing flows
//! back but the next keystroke.
//!
//! | room | holds | may call |
//! |---|---|---|
//! | [`quantity`] | text to quantity and back; the only room that names `uom` | nothing of ours |
//! | [`mechanics`] | the physics, one noun a file | `quantity` |
//! | [`job`] | the record as typed, its form on disk, the sample job | `quantity` |
//! | [`stage`] | findings of each stage as plain data | `job`, `mechanics`, `quantity` |
//! | [`sheet`] | every word for people | `stage`, `job`, `quantity` |
//! | [`drawing`] | findings to SVG text | `stage`, `job`, `quantity`, `sheet`'s words |
//! | [`book`] | what is kept in the browser, files, addresses | `job` |
//! | `screen` | the page | all but `mechanics` |
//!
//! `screen` and the web half of [`book`] exist only for wasm32: natively leptos is not even built,
//! so a stray import in another room does not compile.

pub mod book;
pub mod drawing;
pub mod job;
pub mod mechanics;
pub mod quantity;
#[cfg(target_arch = "wasm32")]
pub mod screen;
pub mod sheet;
pub mod stage;
