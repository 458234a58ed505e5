//! The job book: what is kept in the browser, and the only room that touches the outside world.
//!
//! What is to be done with the store is plain code over a small trait and is tested natively; only
//! `awake`, `browser` and `tilt` know the web.

#[cfg(target_arch = "wasm32")]
pub mod awake;
#[cfg(target_arch = "wasm32")]
pub mod browser;
mod pairs;
mod shelf;
mod store;
#[cfg(target_arch = "wasm32")]
pub mod tilt;
mod trouble;

pub use shelf::{Card, Kept, Shelf};
pub use store::{MemoryStore, Store, StoreError};
pub use trouble::Trouble;
