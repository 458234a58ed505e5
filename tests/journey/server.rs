//! A static server in a process of its own, so that it can be killed under the page's feet.
//!
//! The process is this same test binary, asked for its one ignored test. It is told by lines on its
//! standard input which folder to serve, answers each with a line, and ends when that input ends, so
//! it never outlives the test that started it.

use std::env;
use std::fs;
use std::io::{self, BufRead, BufReader, Lines, Read, Write};
use std::net::{TcpListener, TcpStream};
use std::path::{Path, PathBuf};
use std::process::{Child, ChildStdin, ChildStdout, Command, Stdio};
use std::sync::{Arc, Mutex};
use std::thread;
use std::time::Duration;

/// The page lies in a folder of its host, as it may on any static host.
const FOLDER: &str = "/garage/";
/// How the name of the rest of the program ends.
pub const REST: &str = "_rest.wasm";
/// What the process says first, its port behind it, and then after each folder.
const READY: &str = "serving on port ";

/// How the rest of the program is sent; all other files go at once.
#[derive(Clone, Copy, PartialEq)]
pub enum Line {
    /// At once.
    Good,
    /// In pieces, each in time, all of them together as long as `TRICKLE`.
    Slow,
    /// Its head, and then nothing.
    Dead,
}

/// As the process is told them.
const LINES: [(&str, Line); 3] = [("good", Line::Good), ("slow", Line::Slow), ("dead", Line::Dead)];
/// How long a slow line takes.
pub const TRICKLE: Duration = Duration::from_millis(2500);
/// In how many pieces.
const PIECES: u32 = 15;

/// The server's process, as the test holds it.
pub struct Server {
    child: Child,
    asks: ChildStdin,
    answers: Lines<BufReader<ChildStdout>>,
    port: u16,
}

impl Server {
    /// A server of this folder.
    pub fn of(folder: &Path) -> Server {
        let mut child = Command::new(env::current_exe().unwrap())
            .args(["--ignored", "--exact", "serves_a_folder", "--nocapture"])
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .spawn()
            .expect("the test binary starts itself again");
        let asks = child.stdin.take().unwrap();
        let answers = BufReader::new(child.stdout.take().unwrap()).lines();
        let mut server = Server { child, asks, answers, port: 0 };
        server.serve(folder);
        server
    }

    /// Puts another folder in the place of the one served so far.
    pub fn serve(&mut self, folder: &Path) {
        self.serve_over(Line::Good, folder);
    }

    /// The same, with the rest of the program over such a line.
    pub fn serve_over(&mut self, line: Line, folder: &Path) {
        let (word, _) = LINES.iter().find(|(_, known)| *known == line).unwrap();
        writeln!(self.asks, "{word} {}", folder.display()).unwrap();
        let port = self.answers.find_map(|line| {
            // The test harness may begin the line itself.
            line.unwrap().split_once(READY).map(|(_, port)| port.trim().parse().unwrap())
        });
        self.port = port.expect("the server's process answers");
    }

    /// The page's address.
    pub fn address(&self) -> String {
        format!("{}{FOLDER}", self.origin())
    }

    /// Where every request of the page may go, and nowhere else.
    pub fn origin(&self) -> String {
        format!("http://127.0.0.1:{}", self.port)
    }

    /// Kills the process; from here on nobody answers.
    pub fn kill(&mut self) {
        self.child.kill().unwrap();
        self.child.wait().unwrap();
        let answer = TcpStream::connect(("127.0.0.1", self.port));
        assert!(answer.is_err(), "the server was killed and still answers");
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        // It may have been killed before.
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// The process itself: serves until its standard input ends.
pub fn serve_as_told() {
    let listener = TcpListener::bind(("127.0.0.1", 0)).unwrap();
    let port = listener.local_addr().unwrap().port();
    let folder = Arc::new(Mutex::new((Line::Good, PathBuf::new())));
    let served = Arc::clone(&folder);
    thread::spawn(move || {
        for stream in listener.incoming().flatten() {
            let served = Arc::clone(&served);
            // A browser that hangs up in the middle is no failure of ours.
            thread::spawn(move || answer(stream, &served).ok());
        }
    });
    for line in io::stdin().lines() {
        let told = line.unwrap();
        let (word, path) = told.split_once(' ').unwrap();
        let (_, line) = LINES.iter().find(|(known, _)| *known == word).unwrap();
        *folder.lock().unwrap() = (*line, PathBuf::from(path));
        println!("{READY}{port}");
    }
}

/// Answers one request: a file of the folder, or that there is none.
fn answer(mut stream: TcpStream, folder: &Mutex<(Line, PathBuf)>) -> io::Result<()> {
    let mut lines = BufReader::new(stream.try_clone()?).lines();
    let request = lines.next().transpose()?.unwrap_or_default();
    // The rest of the head must be read before the connection is closed, or the answer may be lost.
    while lines.next().transpose()?.is_some_and(|line| !line.is_empty()) {}
    let path = request.split(' ').nth(1).unwrap_or_default();
    let path = path.split('?').next().unwrap_or_default();
    // Locked only now: a browser opens lines ahead of need and says nothing on them, and whoever waited
    // for it with the lock in hand would keep all others waiting.
    let (line, folder) = folder.lock().unwrap().clone();
    let (status, kind, body) = match file(&folder, path) {
        Some((kind, body)) => ("200 OK", kind, body),
        None => ("404 Not Found", "text/plain", b"There is no such file.".to_vec()),
    };
    write!(
        stream,
        "HTTP/1.1 {status}\r\nContent-Type: {kind}\r\nContent-Length: {}\r\nCache-Control: no-store\r\nConnection: close\r\n\r\n",
        body.len()
    )?;
    match line {
        Line::Dead if path.ends_with(REST) => stream.read(&mut [0]).map(drop), // until the browser hangs up
        Line::Slow if path.ends_with(REST) => {
            for piece in body.chunks(body.len().div_ceil(PIECES as usize)) {
                thread::sleep(TRICKLE / PIECES);
                stream.write_all(piece)?;
            }
            Ok(())
        }
        _ => stream.write_all(&body),
    }
}

/// A file of the folder and its type.
fn file(folder: &Path, path: &str) -> Option<(&'static str, Vec<u8>)> {
    let name = path.strip_prefix(FOLDER)?;
    let name = if name.is_empty() { "index.html" } else { name };
    let kind = match name.rsplit_once('.')?.1 {
        "html" => "text/html; charset=utf-8",
        "js" => "text/javascript",
        "css" => "text/css",
        "wasm" => "application/wasm",
        "webmanifest" => "application/manifest+json",
        "svg" => "image/svg+xml",
        "png" => "image/png",
        _ => "text/plain",
    };
    if name.contains("..") {
        return None;
    }
    fs::read(folder.join(name)).ok().map(|body| (kind, body))
}
