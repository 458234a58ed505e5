//! A Chromium of our own, spoken to in the DevTools protocol over its pipe: a message is a line of
//! JSON that ends with a zero byte.
//!
//! No crate is between: the one there is waits a tenth of a second at every word, and a journey has
//! thousands. Chromium ends when the pipe does, so it never outlives the test.

use std::collections::HashMap;
use std::env;
use std::fs;
use std::io::{BufRead, BufReader, Write};
use std::path::PathBuf;
use std::process::{Child, ChildStdin, Command, Stdio};
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::mpsc::{Sender, channel};
use std::sync::{Arc, Mutex};
use std::thread;
use std::time::{Duration, Instant};

use serde_json::{Value, json};

/// Far longer than any answer takes.
const PATIENCE: Duration = Duration::from_secs(30);

/// Nothing but the page, and nobody else on the network. No sandbox: a container's root cannot have it,
/// and nothing foreign is ever opened.
const FLAGS: [&str; 13] = [
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-dev-shm-usage",
    "--disable-quic",
    "--no-proxy-server",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--disable-default-apps",
    // A preview never comes without a screen, and the page that asked for it could not be printed again.
    "--disable-print-preview",
    "--remote-debugging-pipe",
];

/// Tells the profiles of one run apart.
static PROFILES: AtomicU64 = AtomicU64::new(0);

type Waiting = Arc<Mutex<HashMap<u64, Sender<Value>>>>;

/// The browser's process.
pub struct Chromium {
    child: Child,
    asks: Mutex<ChildStdin>,
    last_id: AtomicU64,
    waiting: Waiting,
    profile: PathBuf,
}

impl Chromium {
    /// A browser that nobody has used before. It hands on every event it sends.
    pub fn start(hear: impl Fn(&Value) + Send + 'static) -> Chromium {
        let program = env::var("CHROME").unwrap_or_else(|_| "chromium".to_owned());
        let number = PROFILES.fetch_add(1, Ordering::Relaxed);
        let profile =
            env::temp_dir().join(format!("shaftwright-journey-{}-{number}", std::process::id()));
        let mut child = Command::new("sh")
            // Chromium reads its pipe at 3 and writes it at 4.
            .args(["-c", r#"exec "$0" "$@" 3<&0 4>&1 </dev/null >/dev/null 2>&1"#, &program])
            .args(FLAGS)
            .arg(format!("--user-data-dir={}", profile.display()))
            .arg("about:blank")
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .spawn()
            .unwrap();
        let asks = Mutex::new(child.stdin.take().unwrap());
        let mut answers = BufReader::new(child.stdout.take().unwrap());
        let waiting = Waiting::default();
        let waits = Arc::clone(&waiting);
        thread::spawn(move || {
            let mut message = Vec::new();
            while answers.read_until(0, &mut message).is_ok_and(|length| length > 0) {
                let said: Value = serde_json::from_slice(&message[..message.len() - 1]).unwrap();
                message.clear();
                match said["id"].as_u64() {
                    // Nobody waits for the answer to what was only told.
                    Some(id) => drop(waits.lock().unwrap().remove(&id).map(|wait| wait.send(said))),
                    None => hear(&said),
                }
            }
            // Whoever still waits must not wait for ever.
            waits.lock().unwrap().clear();
        });
        Chromium { child, asks, last_id: AtomicU64::new(0), waiting, profile }
    }

    /// Asks something of the browser, or of one of its targets, and waits for the answer.
    ///
    /// # Errors
    /// What the browser says against it.
    pub fn call(&self, session: &str, method: &str, params: Value) -> Result<Value, String> {
        let id = self.last_id.fetch_add(1, Ordering::Relaxed) + 1;
        let (answer, answered) = channel();
        self.waiting.lock().unwrap().insert(id, answer);
        let mut message = json!({"id": id, "method": method, "params": params});
        if !session.is_empty() {
            message["sessionId"] = Value::from(session);
        }
        let sent = self.asks.lock().unwrap().write_all(format!("{message}\0").as_bytes());
        sent.map_err(|error| {
            format!("{method}: no Chromium to ask ({error}); set CHROME to its full path")
        })?;
        let mut said = answered
            .recv_timeout(PATIENCE)
            .map_err(|error| format!("{method}: {error}; is CHROME the full path of a Chromium?"))?;
        match said["error"].take() {
            Value::Null => Ok(said["result"].take()),
            error => Err(format!("{method}: {error}")),
        }
    }
}

impl Drop for Chromium {
    fn drop(&mut self) {
        // Its own way out writes nothing half; if it has fallen there is nothing to close.
        let _ = self.call("", "Browser.close", json!({}));
        let end = Instant::now() + Duration::from_secs(5);
        while self.child.try_wait().is_ok_and(|ended| ended.is_none()) {
            if Instant::now() > end {
                let _ = self.child.kill();
            }
            thread::sleep(Duration::from_millis(5));
        }
        let _ = fs::remove_dir_all(&self.profile);
    }
}
