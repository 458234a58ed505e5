//! Journeys of a mechanic through the page in a real Chromium: by touch, by keys, and by what can be
//! read off the glass. They run against a built site: `./dev test` builds it and names its folder.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "journey/angles.rs"]
mod angles;
#[path = "journey/answer.rs"]
mod answer;
#[path = "journey/awake.rs"]
mod awake;
#[path = "journey/bad_input.rs"]
mod bad_input;
#[path = "journey/balance.rs"]
mod balance;
#[path = "journey/bench.rs"]
mod bench;
#[path = "journey/check.rs"]
mod check;
#[path = "journey/chromium.rs"]
mod chromium;
#[path = "journey/dial.rs"]
mod dial;
#[path = "journey/hand.rs"]
mod hand;
#[path = "journey/job_book.rs"]
mod job_book;
#[path = "journey/kinds.rs"]
mod kinds;
#[path = "journey/main_job.rs"]
mod main_job;
#[path = "journey/pad.rs"]
mod pad;
#[path = "journey/page.rs"]
mod page;
#[path = "journey/pdf.rs"]
mod pdf;
#[path = "journey/phase.rs"]
mod phase;
#[path = "journey/print.rs"]
mod print;
#[path = "journey/rest.rs"]
mod rest;
#[path = "journey/server.rs"]
mod server;
#[path = "journey/shaft.rs"]
mod shaft;
#[path = "journey/storage.rs"]
mod storage;
#[path = "journey/tilt.rs"]
mod tilt;
#[path = "journey/truing.rs"]
mod truing;
#[path = "journey/update.rs"]
mod update;
#[path = "journey/visit.rs"]
mod visit;
#[path = "journey/watch.rs"]
mod watch;
#[path = "journey/windows.rs"]
mod windows;

/// The server's process: this test binary run again, see `server`.
#[test]
#[ignore = "not a test: the process that serves the page to the others"]
fn serves_a_folder() {
    server::serve_as_told();
}
