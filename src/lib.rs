//! Shaftwright.
pub mod drawing;
pub mod job;
pub mod mechanics;
pub mod quantity;
#[cfg(target_arch = "wasm32")]
pub mod screen;
pub mod sheet;
pub mod stage;
