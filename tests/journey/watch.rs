//! What the browser says behind the page's back: requests, console, errors.

use std::sync::Mutex;

use serde_json::Value;

/// What was heard from all windows of one journey.
#[derive(Default)]
pub struct Watch {
    heard: Mutex<Heard>,
}

#[derive(Default)]
struct Heard {
    /// The address of every request.
    requests: Vec<String>,
    /// How many documents were asked for: loads and reloads.
    documents: usize,
    /// Warnings, errors and violations of the policy.
    complaints: Vec<String>,
}

/// What must be switched on in a target to hear it.
pub const DOMAINS: [&str; 4] = ["Page.enable", "Network.enable", "Log.enable", "Runtime.enable"];

impl Watch {
    /// Takes note of an event.
    pub fn hear(&self, event: &Value) {
        let (mut heard, params) = (self.heard.lock().unwrap(), &event["params"]);
        match event["method"].as_str().unwrap_or_default() {
            "Network.requestWillBeSent" => {
                heard.requests.push(params["request"]["url"].as_str().unwrap_or_default().to_owned());
                heard.documents += usize::from(params["type"] == "Document");
            }
            "Log.entryAdded" if loud(&params["entry"]["level"]) => {
                heard.complaints.push(format!("{} {}", params["entry"]["text"], params["entry"]["url"]));
            }
            "Runtime.consoleAPICalled" if loud(&params["type"]) => {
                heard.complaints.push(params["args"].to_string());
            }
            "Runtime.exceptionThrown" => {
                heard.complaints.push(params["exceptionDetails"].to_string());
            }
            _ => {}
        }
    }

    /// How often something of this name was asked for, by the page or by its worker.
    pub fn asked_for(&self, name: &str) -> usize {
        self.heard.lock().unwrap().requests.iter().filter(|address| address.ends_with(name)).count()
    }

    /// How many documents were asked for so far.
    pub fn documents(&self) -> usize {
        self.heard.lock().unwrap().documents
    }

    /// What was complained about so far, and requests to other places than this one.
    pub fn complaints(&self, origin: &str) -> Vec<String> {
        let heard = self.heard.lock().unwrap();
        let strange = heard.requests.iter().filter(|address| {
            let of_the_page = ["about:", "data:", "blob:"].iter().any(|own| address.starts_with(own));
            !of_the_page && !address.starts_with(&format!("{origin}/"))
        });
        strange.map(|address| format!("asked for {address}")).chain(heard.complaints.clone()).collect()
    }
}

fn loud(level: &Value) -> bool {
    ["warning", "error", "assert"].iter().any(|loud| level == loud)
}
