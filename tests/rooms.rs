//! The room table as a build fact: which room may name which other room and which crate, how long a
//! file may be, and that nothing outside tests can stop the page.
//!
//! The table is our own (DEVELOPERS.md); the checker is a function, and the last tests feed it bad
//! snippets to prove that it can fail. Comments, doc text and strings are not code and are not read.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use std::fs;
use std::path::{Path, PathBuf};

use tokens::{Token, tokens, without_tests};

#[path = "rooms/tokens.rs"]
mod tokens;

/// A room, the rooms it may call and the crates it may name.
struct Room {
    name: &'static str,
    rooms: &'static [&'static str],
    crates: &'static [&'static str],
}

/// What knows the web without drawing the page.
const BROWSER: &[&str] = &["web_sys", "wasm_bindgen", "js_sys", "gloo_storage", "serde", "serde_json"];
const WEB: &[&str] =
    &["leptos", "web_sys", "wasm_bindgen", "js_sys", "gloo_storage", "serde", "serde_json"];

const ROOMS: [Room; 10] = [
    Room { name: "quantity", rooms: &[], crates: &["uom"] },
    Room { name: "mechanics", rooms: &["quantity"], crates: &[] },
    Room { name: "job", rooms: &["quantity"], crates: &["serde", "serde_json"] },
    Room { name: "stage", rooms: &["job", "mechanics", "quantity"], crates: &[] },
    Room { name: "sheet", rooms: &["stage", "job", "quantity"], crates: &[] },
    Room { name: "drawing", rooms: &["stage", "job", "quantity", "sheet"], crates: &["plotters"] },
    Room { name: "book", rooms: &["job"], crates: BROWSER },
    Room {
        name: "screen",
        rooms: &["quantity", "job", "stage", "sheet", "drawing", "book"],
        crates: WEB,
    },
    Room { name: "main.rs", rooms: &["screen"], crates: &["console_error_panic_hook"] },
    Room { name: "lib.rs", rooms: &[], crates: &[] },
];

/// Longest file, in lines.
const LONGEST_FILE: usize = 500;

/// The names that stand right behind `crate::`, `shaftwright::` or as many `super::` as lead out of
/// the room, in a path or in the outermost braces of one.
fn rooms_named(all: &[Token], depth: usize) -> Vec<&Token> {
    let mut found = Vec::new();
    for i in 0..all.len() {
        let text = |k: usize| all.get(k).map_or("", |token| token.text.as_str());
        let begins = i == 0 || text(i - 1) != "::";
        let mut next = match text(i) {
            "crate" | "shaftwright" if begins && text(i + 1) == "::" => i + 2,
            "super" if begins => {
                let (mut k, mut ups) = (i, 0);
                while text(k) == "super" && text(k + 1) == "::" {
                    (k, ups) = (k + 2, ups + 1);
                }
                if ups < depth {
                    continue;
                }
                k
            }
            _ => continue,
        };
        if text(next) != "{" {
            found.extend(all.get(next));
            continue;
        }
        let (mut deep, mut heads) = (0, true);
        loop {
            match text(next) {
                "{" => deep += 1,
                "}" => deep -= 1,
                "," if deep == 1 => heads = true,
                _ if deep == 1 && heads => {
                    heads = false;
                    found.extend(all.get(next));
                }
                _ => {}
            }
            heads |= text(next) == "{" && deep == 1;
            next += 1;
            if deep == 0 || next >= all.len() {
                break;
            }
        }
    }
    found
}

/// What is wrong with a file of a room. `depth` is how many `super` lead from it to the crate.
fn complaints(room: &Room, depth: usize, text: &str, outside: &[String]) -> Vec<String> {
    let (all, mut wrong) = (tokens(text), Vec::new());
    if text.lines().count() > LONGEST_FILE {
        wrong.push(format!("{} lines, {LONGEST_FILE} allowed", text.lines().count()));
    }
    for token in rooms_named(&all, depth) {
        let known = ROOMS.iter().any(|other| other.name == token.text);
        if known && token.text != room.name && !room.rooms.contains(&token.text.as_str()) {
            wrong.push(format!("line {}: {} may not call {}", token.line, room.name, token.text));
        }
    }
    let word = |list: &[Token], i: usize| list.get(i).map_or(String::new(), |t| t.text.clone());
    for (i, token) in all.iter().enumerate() {
        let before = if i == 0 { String::new() } else { word(&all, i - 1) };
        // `a::serde::b` goes on from `a`; `::serde::b` begins anew.
        let goes_on = before == "::"
            && i > 1
            && word(&all, i - 2) != "use"
            && word(&all, i - 2).ends_with(|c: char| c.is_alphanumeric() || "_>".contains(c));
        let as_path = word(&all, i + 1) == "::" && !goes_on && before != ".";
        let named = as_path || before == "use" || before == "crate";
        let foreign = outside.contains(&token.text) && !room.crates.contains(&token.text.as_str());
        if named && foreign {
            wrong.push(format!("line {}: {} may not name {}", token.line, room.name, token.text));
        }
    }
    // A file of tests says so in its first lines, and is then not built into the page at all.
    let shipped = if text.contains("#![cfg(test)]") { Vec::new() } else { without_tests(&all) };
    for (i, token) in shipped.iter().enumerate() {
        let before = if i == 0 { String::new() } else { word(&shipped, i - 1) };
        let stops = match token.text.as_str() {
            "unwrap" | "expect" => [".", "::"].contains(&before.as_str()),
            "panic" | "todo" | "unimplemented" | "unreachable" => word(&shipped, i + 1) == "!",
            _ => false,
        };
        if stops {
            wrong.push(format!("line {}: {} can stop the page", token.line, token.text));
        }
    }
    wrong
}

fn top() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// Every crate named in Cargo.toml, so that a new one is refused until the table allows it.
fn outside_crates() -> Vec<String> {
    let (mut inside, mut found) = (false, Vec::new());
    for line in fs::read_to_string(top().join("Cargo.toml")).unwrap().lines() {
        if let Some(section) = line.strip_prefix('[') {
            let section = section.trim_end_matches(']');
            inside = section.ends_with("dependencies");
            let alone = section.rsplit_once("dependencies.").map(|(_, name)| name.to_owned());
            found.extend(alone);
        } else if let (true, Some((name, _))) = (inside, line.split_once('=')) {
            found.push(name.trim().to_owned());
        }
    }
    found.into_iter().map(|name| name.replace('-', "_")).collect()
}

fn files(folder: &Path, found: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            files(&path, found);
        } else if path.extension().is_some_and(|ending| ending == "rs") {
            found.push(path);
        }
    }
}

#[test]
fn every_file_keeps_to_its_room() {
    let (outside, src) = (outside_crates(), top().join("src"));
    for known in ["uom", "plotters", "serde", "leptos", "web_sys", "gloo_storage"] {
        assert!(outside.iter().any(|name| name == known), "Cargo.toml was not read: no {known}");
    }
    let (mut paths, mut wrong) = (Vec::new(), Vec::new());
    files(&src, &mut paths);
    assert!(paths.len() > 30, "only {} files were found", paths.len());
    for path in paths {
        let inside: Vec<_> = path.strip_prefix(&src).unwrap().iter().collect();
        let name = inside[0].to_str().unwrap();
        let Some(room) = ROOMS.iter().find(|room| room.name == name) else {
            wrong.push(format!("{}: no such room in the table", path.display()));
            continue;
        };
        // src/room/mod.rs is one step from the crate, src/room/file.rs two.
        let is_head = path.file_name().is_some_and(|file| file == "mod.rs");
        let depth = inside.len() - usize::from(is_head);
        let text = fs::read_to_string(&path).unwrap();
        let found = complaints(room, depth, &text, &outside);
        wrong.extend(found.iter().map(|complaint| format!("{}: {complaint}", path.display())));
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

fn in_room(name: &str, depth: usize, text: &str) -> Vec<String> {
    let room = ROOMS.iter().find(|room| room.name == name).unwrap();
    complaints(room, depth, text, &outside_crates())
}

#[test]
fn the_checker_can_fail() {
    let long = "//\n".repeat(LONGEST_FILE + 1);
    for (room, depth, text) in [
        ("mechanics", 2, "use crate::job::Job;"),
        ("mechanics", 2, "use crate::{quantity::Length, job::{Entry, Job}};"),
        ("mechanics", 2, "use crate::{\n    quantity::{Length, inches},\n    stage,\n};"),
        ("mechanics", 2, "fn f() -> crate::stage::Stage { g() }"),
        ("mechanics", 2, "use super::super::sheet;"),
        ("mechanics", 1, "use super::sheet;"),
        ("mechanics", 2, "use uom::si::length;"),
        ("mechanics", 2, "fn f() { let x = serde_json::from_str(t); }"),
        ("quantity", 2, "use crate::mechanics::tube::Tube;"),
        ("job", 2, "use leptos::prelude::*;"),
        ("stage", 2, "use ::plotters::prelude::*;"),
        ("screen", 2, "use crate::mechanics::whirl;"),
        ("book", 2, "use crate::{job, screen};"),
        ("main.rs", 1, "fn main() { shaftwright::job::sample(); }"),
        ("quantity", 2, "fn f() { x.unwrap(); }"),
        ("quantity", 2, "fn f() { x.map(Option::unwrap); }"),
        ("screen", 2, "fn f() { x\n    .expect(\"never\"); }"),
        ("sheet", 2, "fn f() { panic!(\"no\") }"),
        ("sheet", 2, "fn f() { todo!() }"),
        ("sheet", 2, "#[cfg(test)]\nmod tests { fn f() {} }\nfn g() { x.unwrap(); }"),
        ("sheet", 2, long.as_str()),
    ] {
        assert_eq!(in_room(room, depth, text).len(), 1, "{room}: {}", text.get(..60).unwrap_or(text));
    }
}

#[test]
fn what_is_allowed_gives_no_alarm() {
    for (room, depth, text) in [
        ("quantity", 2, "use uom::si::length;\nuse super::unit::Unit;"),
        ("quantity", 2, "//! Unlike crate::job, never panics!\n/// x.unwrap() /* crate::stage */"),
        ("quantity", 2, "/* crate::job /* x.unwrap() */ todo!() */ fn f() {}"),
        ("quantity", 2, "fn f() { x.unwrap_or(0); y.expect_none; let panic = 1; }"),
        ("sheet", 2, "fn f() -> &'static str { \"crate::mechanics \\\" x.unwrap()\" }"),
        ("sheet", 2, "fn f() { let t = r#\"a \" leptos::x todo!()\"#; let c = '\"'; let d = '\\''; }"),
        (
            "sheet",
            2,
            "fn f<'a>(x: &'a str) {}\n#[cfg(test)]\nmod tests { fn f() { x.unwrap(); panic!() } }",
        ),
        ("sheet", 2, "#[cfg(test)]\nuse x::y;\nfn g() {}"),
        ("stage", 2, "use crate::{job::{self, Job}, quantity::Length};\nuse super::check::findings;"),
        ("stage", 2, "fn f(screen: u8, mechanics: u8) { let job = screen; self.serde.x(); }"),
        ("screen", 2, "use leptos::prelude::*;\nuse crate::{book, sheet::page};"),
        ("main.rs", 1, "fn main() { shaftwright::screen::mount(); }"),
    ] {
        assert_eq!(in_room(room, depth, text), Vec::<String>::new(), "{room}: {text}");
    }
}
