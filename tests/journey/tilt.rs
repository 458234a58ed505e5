//! The tablet itself as the level, laid on the part: what its tilt becomes, and what it refuses.
//!
//! The browser's own tools stand in for the sensor. By the specification of the event the device's top
//! edge stands at beta over the horizon, so a part that falls toward that edge reads −beta.

use std::thread;
use std::time::{Duration, Instant};

use serde_json::json;

use crate::page::Page;
use crate::visit::visit;

const FOLD: &str = "Read it with this tablet or phone";
const SAID: &str = "p[role=status]";
/// From a tap to the end of a reading at its longest.
const LONGEST: Duration = Duration::from_secs(6);

impl Page {
    /// The device leans so, in degrees.
    fn leans(&self, beta: f64) {
        self.call(
            "DeviceOrientation.setDeviceOrientationOverride",
            json!({"alpha": 40.0, "beta": beta, "gamma": 1.5}),
        );
    }

    /// Taps a target's key and keeps the device about this tilt, up and down by turns, until it has said
    /// something.
    fn reads_tilt(&self, target: &str, beta: f64, swing: f64) -> String {
        let before = self.text(SAID);
        self.leans(beta);
        self.tap_word(".segments button", target);
        let end = Instant::now() + LONGEST;
        let mut way = 1.0;
        loop {
            self.leans(beta + way * swing);
            way = -way;
            let said = self.text(SAID);
            if !said.is_empty() && said != before {
                return said;
            }
            assert!(Instant::now() < end, "nothing new was said: {said}");
            thread::sleep(Duration::from_millis(30));
        }
    }
}

#[test]
fn a_tilt_goes_into_the_first_empty_reading() {
    visit(|visit| {
        let page = visit.new_job();
        page.stage("angles");
        page.choose("Protractor or level reads to", "0.1°");
        page.write("gearbox-slope-0", "2.5");
        page.tap_word("button", FOLD);
        let keys = page.texts(".segments button");
        assert_eq!(keys, ["Gearbox", "Pinion", "One spot", "The same spot, turned"]);
        let small: Vec<String> = page.ask(
            "[...document.querySelectorAll('.segments button')].filter((key) => {
                const box = key.getBoundingClientRect(); return box.height < 48 || box.width < 48;
            }).map((key) => key.innerText)",
        );
        assert!(small.is_empty(), "under 48 px: {small:?}");
        // The top edge 3.1° up, toward the rear: the part rises toward the rear.
        let said = page.reads_tilt("Gearbox", 3.1, 0.0);
        assert_eq!(said, "Put −3.10° into Gearbox, reading 2; scatter 0.00°.");
        assert_eq!(page.value("gearbox-slope-0"), "2.5");
        assert_eq!(page.value("gearbox-slope-1"), "−3.10");
        // A little noise goes with the mean.
        let said = page.reads_tilt("Gearbox", -2.0, 0.1);
        assert!(said.contains(" into Gearbox, reading 3; scatter 0."), "{said}");
        let put: f64 = page.value("gearbox-slope-2").parse().unwrap();
        assert!((put - 2.0).abs() <= 0.11, "{put}");
        let said = page.reads_tilt("Gearbox", -2.0, 0.0);
        assert_eq!(said, "All 3 readings of Gearbox are filled: empty one first.");
        // The same spot both ways: the other way round the sign is the other one.
        page.reads_tilt("One spot", -2.6, 0.0);
        let said = page.reads_tilt("The same spot, turned", 3.4, 0.0);
        assert_eq!(said, "Put 3.40° into The same spot, turned; scatter 0.00°.");
        assert_eq!([page.value("one-way"), page.value("turned-round")], ["2.60", "3.40"]);
        // The shaft is there to be read once its slope is to be read.
        page.choose("Slope of the new shaft", "read on the fitted shaft");
        page.reads_tilt("Shaft", -4.2, 0.0);
        assert_eq!(page.value("shaft-slope-read-0"), "4.20");
        page.no_bad_number();
    });
}

#[test]
fn levels_across_the_yokes() {
    visit(|visit| {
        let page = visit.new_job();
        page.stage("phase");
        page.tap_word("button", FOLD);
        page.reads(".questions", "↑ this way to the right, seen from the rear");
        // Turned in its holder, the page is not, the arrow is: W3C Screen Orientation.
        page.call(
            "Emulation.setDeviceMetricsOverride",
            json!({"width": 1024, "height": 768, "deviceScaleFactor": 1, "mobile": true,
                "screenOrientation": {"type": "landscapePrimary", "angle": 90}}),
        );
        page.reads(".questions", "→ this way to the right, seen from the rear");
        // Held so, the top edge as made is at the left: raised there, the right-hand ear is low.
        page.reads_tilt("Front yoke", 0.4, 0.0);
        page.reads_tilt("Rear yoke", -0.2, 0.0);
        let levels: [String; 2] = page.ask(
            "['front-level', 'rear-level'].map((name) =>
                document.querySelector(`[id^=\"${name}\"]`).value)",
        );
        assert_eq!(levels, ["0.40", "−0.20"]);
    });
}

#[test]
fn what_is_no_reading_puts_nothing_and_says_so() {
    visit(|visit| {
        let page = visit.new_job();
        page.stage("angles");
        page.tap_word("button", FOLD);
        let said = page.reads_tilt("Gearbox", 3.0, 2.0);
        assert!(said.starts_with("It moved: scatter "), "{said}");
        let said = page.reads_tilt("Gearbox", 120.0, 0.0);
        assert!(said.starts_with("Lay it screen up."), "{said}");
        assert_eq!(page.value("gearbox-slope-0"), "");
        // Shut while it listens: nothing comes after.
        page.leans(3.0);
        page.tap_word(".segments button", "Gearbox");
        page.tap_word("button", FOLD);
        thread::sleep(LONGEST);
        assert_eq!(page.value("gearbox-slope-0"), "");
    });
}

#[test]
fn a_device_without_a_tilt_says_so() {
    visit(|visit| {
        let page = visit.new_job();
        page.stage("angles");
        page.tap_word("button", FOLD);
        page.tap_word(".segments button", "Pinion");
        page.reads(SAID, "This device tells no tilt here: it has no such sensor");
        assert_eq!(page.value("pinion-slope-0"), "");
    });
}

#[test]
fn a_browser_that_asks_first() {
    visit(|visit| {
        let page = visit.window();
        page.prepare(
            "window.answer = 'denied';
             window.DeviceOrientationEvent.requestPermission = async () => {
                if (!navigator.userActivation.isActive) throw new DOMException('no tap', 'NotAllowedError');
                return window.answer;
             };",
        );
        page.open(&visit.server.address());
        page.tap(".new-job");
        page.at_stage("measure");
        page.stage("angles");
        page.tap_word("button", FOLD);
        page.tap_word(".segments button", "Pinion");
        page.reads(SAID, "it was not allowed. Allow motion and orientation for this page");
        page.ask::<()>("void (window.answer = 'granted')");
        page.leans(-1.5);
        page.tap_word(".segments button", "Pinion");
        page.reads(SAID, "Put 1.50° into Pinion, reading 1");
        assert_eq!(page.value("pinion-slope-0"), "1.50");
        // Another browser does not know of it at all.
        page.ask::<()>("void delete window.DeviceOrientationEvent");
        page.tap_word(".segments button", "Pinion");
        page.reads(SAID, "This device tells no tilt here: the browser does not know how");
    });
}
