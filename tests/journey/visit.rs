//! A mechanic's visit: the page served, a browser of its own, and a clean record at the end.

use std::env;
use std::path::PathBuf;
use std::sync::Arc;
use std::sync::mpsc::channel;
use std::thread;

use serde_json::json;

use crate::chromium::Chromium;
use crate::page::Page;
use crate::server::Server;
use crate::watch::{DOMAINS, Watch};

/// A tablet held across.
const TABLET: (u32, u32) = (1024, 768);

/// One visit.
pub struct Visit {
    /// The host of the page.
    pub server: Server,
    /// What the browser says behind the page's back.
    pub watch: Arc<Watch>,
    browser: Arc<Chromium>,
}

/// The folder of a built site, as `./dev test` names it.
pub fn site(name: &str) -> PathBuf {
    let folder =
        env::var_os(name).unwrap_or_else(|| panic!("{name} must name a built site: use ./dev test"));
    let folder = PathBuf::from(folder);
    assert!(folder.join("index.html").is_file(), "{name}: no site in {}", folder.display());
    folder
}

/// A visit from the first tap to the last; at its end the record must be clean.
pub fn visit(act: impl FnOnce(&mut Visit)) {
    let mut visit = Visit::begin();
    act(&mut visit);
    let complaints = visit.watch.complaints(&visit.server.origin());
    assert!(complaints.is_empty(), "the browser says: {complaints:#?}");
}

impl Visit {
    /// A browser that nobody has used before, and the first site.
    pub fn begin() -> Visit {
        let watch = Arc::<Watch>::default();
        let hears = Arc::clone(&watch);
        let (worker, workers) = channel();
        let browser = Arc::new(Chromium::start(move |event| {
            hears.hear(event);
            if event["method"] == "Target.attachedToTarget"
                && event["params"]["waitingForDebugger"] == true
            {
                // Asking from here would wait for the thread that is to hear the answer.
                let _ =
                    worker.send(event["params"]["sessionId"].as_str().unwrap_or_default().to_owned());
            }
        }));
        let speaks = Arc::downgrade(&browser);
        thread::spawn(move || {
            for session in workers {
                let Some(browser) = speaks.upgrade() else { return };
                for command in
                    ["Network.enable", "Log.enable", "Runtime.enable", "Runtime.runIfWaitingForDebugger"]
                {
                    // A worker may end at any moment.
                    let _ = browser.call(&session, command, json!({}));
                }
            }
        });
        // The page's own worker is held at its start until it is heard too.
        let workers = json!({"autoAttach": true, "waitForDebuggerOnStart": true, "flatten": true,
            "filter": [{"type": "service_worker"}]});
        browser.call("", "Target.setAutoAttach", workers).unwrap();
        Visit { server: Server::of(&site("SHAFTWRIGHT_DIST")), watch, browser }
    }

    /// A new window, still empty.
    pub fn window(&self) -> Page {
        let call = |session: &str, method, params| self.browser.call(session, method, params).unwrap();
        let apart = json!({"url": "about:blank", "newWindow": true});
        let target = call("", "Target.createTarget", apart)["targetId"].take();
        let attach = json!({"targetId": target, "flatten": true});
        let session =
            call("", "Target.attachToTarget", attach)["sessionId"].as_str().unwrap().to_owned();
        for domain in DOMAINS {
            call(&session, domain, json!({}));
        }
        Page::of(Arc::clone(&self.browser), session, TABLET)
    }

    /// A new window at the job book.
    pub fn job_book(&self) -> Page {
        let page = self.window();
        page.open(&self.server.address());
        page
    }

    /// A new window with an empty job begun in it.
    pub fn new_job(&self) -> Page {
        let page = self.job_book();
        page.tap(".new-job");
        page.at_stage("measure");
        page
    }
}
