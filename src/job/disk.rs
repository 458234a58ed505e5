//! The form on disk: JSON text with a version in front, then choices and fields by name.
//!
//! Every length is kept as typed text with its unit beside it, so the file needs no unit of its own.
//! Empty fields are not written and what is absent is empty; how long the lists are is written, so
//! that rows without text stay. The text is read into JSON values of one type and from there by name:
//! reading code of its own for every part of a job would be a good share of the page's first load.
//!
//! A name that is not known is never passed over: what cannot be read would be lost at the next
//! saving. So whatever is added or changes its meaning raises the version, and an earlier page says
//! that the file is newer; an earlier version's form then stays here and in tests/fixtures.

use serde::Serialize;
use serde_json::{Map, Value};

use super::name::{AnyChoice, choices};
use super::{
    BEFORE_TACKING, Choice, DialTurn, Display, Entry, Job, LONGEST_NAME, MOST_GEARS, MOST_PASSES,
    MOST_PLACES, MOST_READINGS, MOST_RUNS, MOST_STATIONS, MOST_WEIGHTS, Pass, PassKind, Stations, Typed,
};
use crate::quantity::Unit;

/// The version written now.
const VERSION: u32 = 6;

/// Why text is not a job that can be opened.
#[derive(Clone, Debug, PartialEq)]
pub enum NotAJob {
    /// It is not the form of a job at all.
    OtherText,
    /// It was written by a later version.
    Newer {
        /// Its version.
        version: u32,
        /// The latest version known here.
        known: u32,
    },
    /// It has the form of a job, but something in it is damaged.
    Damaged {
        /// What the reader met, and where.
        detail: String,
    },
    /// It holds more than a job can: more readings, passes or weights than there are places.
    TooMuch,
}

/// What an object of the file holds.
type Members = Map<String, Value>;

/// All that is written, in this order.
#[derive(Serialize)]
struct Saved<'a> {
    #[serde(rename = "shaftwright-job")]
    version: u32,
    name: &'a str,
    choices: Members,
    turns: Vec<Value>,
    counts: Members,
    fields: Members,
}

// Names that are written and read.
const HEAD: &str = "shaftwright-job";
const OLD: &str = "old";
const WANTED: &str = "wanted";
const ENDS: &str = "ends";
const WEIGHTS: &str = "weights";
const KIND: &str = "kind";
const STATIONS: &str = "stations";
const MARKS: &str = "marks";
const BEGUN: &str = "begun";
const ASIDE: &str = "aside";
const PLACES: &str = "places";
const RUNS: &str = "runs";
const GEARS: &str = "gears";
const TEXT: &str = "text";
const UNIT: &str = "unit";

/// The text of a job; `None` where it cannot be written, which no job of text and choices can cause.
pub fn to_text(job: &Job) -> Option<String> {
    let mut saved = Saved {
        version: VERSION,
        name: &job.name,
        choices: Members::new(),
        turns: Vec::new(),
        counts: Members::new(),
        fields: Members::new(),
    };
    // A copy, since the one list of the choices is a list of places to change.
    for (name, choice) in choices(&mut job.clone()) {
        put(&mut saved.choices, name, choice.code().into());
    }
    for pass in &job.truing.passes {
        let mut turn = Members::new();
        put(&mut turn, KIND, Choice::code(pass.kind).into());
        put(&mut turn, STATIONS, Choice::code(pass.stations).into());
        put(&mut turn, MARKS, pass.turns.first().map_or(0, |turn| turn.readings.len()).into());
        if let Some(begun) = pass.begun {
            put(&mut turn, BEGUN, begun.into());
        }
        let aside = pass.turns.iter().enumerate().flat_map(|(place, turn)| {
            let marks = turn.aside.iter().enumerate().filter(|(_, aside)| **aside);
            marks.map(move |(mark, _)| Value::from(vec![place, mark]))
        });
        put(&mut turn, ASIDE, aside.collect::<Vec<Value>>().into());
        saved.turns.push(turn.into());
    }
    put(&mut saved.counts, OLD, job.measure.old.len().into());
    put(&mut saved.counts, WANTED, job.measure.wanted.len().into());
    put(&mut saved.counts, ENDS, job.measure.ends.len().into());
    put(&mut saved.counts, WEIGHTS, job.weights.rows.len().into());
    put(&mut saved.counts, PLACES, job.truing.places.len().into());
    put(&mut saved.counts, GEARS, job.check.speeds.gears.len().into());
    put(&mut saved.counts, RUNS, job.balance.runs.len().into());
    for entry in job.entries() {
        if let Some(typed) = job.typed(entry).filter(|typed| !typed.text.is_empty()) {
            let mut field = Members::new();
            put(&mut field, TEXT, typed.text.as_str().into());
            put(&mut field, UNIT, typed.unit.symbol().into());
            put(&mut saved.fields, &entry.name(), field.into());
        }
    }
    serde_json::to_string(&saved).ok()
}

fn put(members: &mut Members, name: &str, value: Value) {
    members.insert(name.to_owned(), value);
}

/// The job in a text. A choice or count that is missing is the usual one; a whole group that is
/// missing is damage, since its name may be what is damaged.
///
/// # Errors
/// [`NotAJob`]; the text is left to the caller, who keeps it.
pub fn from_text(text: &str) -> Result<Job, NotAJob> {
    let whole: Value = serde_json::from_str(text).map_err(|_| NotAJob::OtherText)?;
    let version = whole.get(HEAD).and_then(Value::as_u64).and_then(|version| version.try_into().ok());
    let version: u32 = version.ok_or(NotAJob::OtherText)?;
    if version > VERSION {
        return Err(NotAJob::Newer { version, known: VERSION });
    }
    let group = |name: &str| whole.get(name).ok_or_else(|| damaged("missing", name));
    let mut job = Job::blank(Display::default());
    job.name = group("name")?.as_str().ok_or_else(|| damaged("not a text", "name"))?.to_owned();
    if job.name.chars().count() > LONGEST_NAME {
        return Err(NotAJob::TooMuch);
    }
    let mut places = choices(&mut job);
    for (name, code) in members(group("choices")?, "choices")? {
        choose(&mut places, name, code)?;
    }
    read_turns(&mut job, group("turns")?)?;
    for (name, count) in members(group("counts")?, "counts")? {
        let count = number(count).ok_or_else(|| damaged("not a count", name))?;
        match name.as_str() {
            OLD => resize(&mut job.measure.old, count, MOST_READINGS),
            WANTED => resize(&mut job.measure.wanted, count, MOST_READINGS),
            ENDS => resize(&mut job.measure.ends, count, MOST_READINGS),
            WEIGHTS => resize(&mut job.weights.rows, count, MOST_WEIGHTS),
            GEARS => resize(&mut job.check.speeds.gears, count, MOST_GEARS),
            RUNS => resize(&mut job.balance.runs, count, MOST_RUNS),
            PLACES => resize(&mut job.truing.places, count, MOST_PLACES),
            _ => Err(damaged("unknown count", name)),
        }?;
    }
    job.truing.match_places();
    set_aside(&mut job, group("turns")?)?;
    for (name, field) in members(group("fields")?, "fields")? {
        read_field(&mut job, version, name, field)?;
    }
    // Version 1 did not ask for these, so nobody has emptied them.
    if version < 2 {
        job.usual_since_2();
    }
    if version < 3 {
        job.usual_since_3();
    }
    if version < 6 {
        job.usual_since_6();
        // Until version 5 one end's readings stood in the first end's place, whichever end it was. What stands in
        // the other's then was read when both ends were, and is kept.
        if job.balance.ends() == [1] && job.balance.is_read(0) {
            job.balance.swap_ends();
        }
    }
    Ok(job)
}

/// The name that a field of an earlier version has now. Until version 2 each yoke was measured once,
/// before tacking, with one reading; until version 3 the dial stood at one place.
fn name_since(version: u32, name: &str) -> String {
    if version < 3 && matches!(name, "lift" | "front-level" | "rear-level") {
        return format!("{name}-{BEFORE_TACKING}-0");
    }
    if version < 4 {
        for mark in ["station-at-", "station-"] {
            if let Some((pass, station)) = name.strip_prefix(mark).and_then(|at| at.split_once('-')) {
                return format!("{mark}{pass}-0-{station}");
            }
        }
        if name.starts_with("closing-") {
            return format!("{name}-0");
        }
    }
    name.to_owned()
}

fn choose(
    places: &mut [(&'static str, &mut dyn AnyChoice)],
    name: &str,
    code: &Value,
) -> Result<(), NotAJob> {
    let place = places.iter_mut().find(|(known, _)| *known == name);
    let (_, place) = place.ok_or_else(|| damaged("unknown choice", name))?;
    let code = code.as_str().ok_or_else(|| damaged("not a text", name))?;
    if place.take(code) { Ok(()) } else { Err(damaged(&format!("unknown {name}"), code)) }
}

fn read_turns(job: &mut Job, turns: &Value) -> Result<(), NotAJob> {
    let turns = turns.as_array().ok_or_else(|| damaged("not a list", "turns"))?;
    if turns.len() > MOST_PASSES {
        return Err(NotAJob::TooMuch);
    }
    // Without any, the one empty turn of an empty job stays: there is always one to fill in.
    if !turns.is_empty() {
        job.truing.passes.clear();
    }
    for turn in turns {
        job.truing.passes.push(read_turn(turn)?);
    }
    Ok(())
}

fn read_turn(turn: &Value) -> Result<Pass, NotAJob> {
    let (mut kind, mut stations, mut marks) = (PassKind::default(), Stations::default(), None);
    let mut begun = None;
    let mut places: [(_, &mut dyn AnyChoice); 2] = [(KIND, &mut kind), (STATIONS, &mut stations)];
    for (name, value) in members(turn, "turn")? {
        if name == MARKS {
            marks = Some(number(value).ok_or_else(|| damaged("not a count", name))?);
        } else if name == BEGUN {
            begun = Some(value.as_u64().ok_or_else(|| damaged("not a time", name))?);
        } else if name != ASIDE {
            choose(&mut places, name, value)?;
        }
    }
    let mut pass = Pass::new(kind, stations);
    // Readings of a finer division wait behind a coarser one; there are never fewer than are shown.
    let marks = marks.unwrap_or(pass.count()).max(stations.fixed_count().unwrap_or(1));
    if marks > MOST_STATIONS {
        return Err(NotAJob::TooMuch);
    }
    pass.turns.iter_mut().for_each(|turn| turn.resize(marks));
    pass.begun = begun;
    Ok(pass)
}

/// The marks that were set aside, by place and mark: read when the places are there.
fn set_aside(job: &mut Job, turns: &Value) -> Result<(), NotAJob> {
    let lists = turns.as_array().into_iter().flatten().map(|turn| turn.get(ASIDE));
    for (pass, list) in job.truing.passes.iter_mut().zip(lists) {
        let no_mark = || damaged("no such mark", ASIDE);
        for pair in list.map_or(Some(&Vec::new()), Value::as_array).ok_or_else(no_mark)? {
            let [place, mark] = pair.as_array().map_or(&[][..], Vec::as_slice) else {
                return Err(no_mark());
            };
            let turn = number(place).and_then(|place| pass.turns.get_mut(place));
            let slot = turn.and_then(|turn| turn.aside.get_mut(number(mark)?));
            *slot.ok_or_else(no_mark)? = true;
        }
    }
    Ok(())
}

fn read_field(job: &mut Job, version: u32, name: &str, field: &Value) -> Result<(), NotAJob> {
    let entry = Entry::from_name(&name_since(version, name));
    let entry = entry.ok_or_else(|| damaged("unknown field", name))?;
    let part = |part: &str| field.get(part).and_then(Value::as_str);
    let (Some(text), Some(symbol)) = (part(TEXT), part(UNIT)) else {
        return Err(damaged("no text or no unit", name));
    };
    let unit = Unit::from_symbol(symbol);
    let unit = unit.ok_or_else(|| damaged(&format!("unknown unit of {name}"), symbol))?;
    make_room(job, entry)?;
    let slot = job.slot(entry).ok_or_else(|| damaged("no such place", name))?;
    if !text.is_empty() {
        *slot = Typed { text: text.to_owned(), unit };
    }
    Ok(())
}

/// A count; one past every limit stays past it where numbers are shorter.
fn number(value: &Value) -> Option<usize> {
    value.as_u64().map(|count| count.try_into().unwrap_or(usize::MAX))
}

fn members<'a>(value: &'a Value, name: &str) -> Result<&'a Members, NotAJob> {
    value.as_object().ok_or_else(|| damaged("not a group", name))
}

/// Gives a list its length. A list without a row could not be filled in, nor named as empty.
fn resize<T: Default>(list: &mut Vec<T>, count: usize, most: usize) -> Result<(), NotAJob> {
    // A file from elsewhere may hold anything; more than the places there are would make a page no
    // one can use.
    if count > most {
        return Err(NotAJob::TooMuch);
    }
    list.resize_with(count.max(1), T::default);
    Ok(())
}

/// Lengthens the list that a field is in until it has the field's row.
fn make_room(job: &mut Job, entry: Entry) -> Result<(), NotAJob> {
    fn reach<T: Default>(list: &mut Vec<T>, row: usize, most: usize) -> Result<(), NotAJob> {
        resize(list, list.len().max(row.saturating_add(1)), most)
    }
    match entry {
        Entry::OldReading(row) => reach(&mut job.measure.old, row, MOST_READINGS),
        Entry::WantedReading(row) => reach(&mut job.measure.wanted, row, MOST_READINGS),
        Entry::EndsReading(row) => reach(&mut job.measure.ends, row, MOST_READINGS),
        Entry::WeightMass(row)
        | Entry::WeightClock(row)
        | Entry::WeightDistance(row)
        | Entry::WeightRadius(row)
        | Entry::WeightLength(row)
        | Entry::WeightWidth(row)
        | Entry::WeightThickness(row)
        | Entry::WeightNote(row) => reach(&mut job.weights.rows, row, MOST_WEIGHTS),
        Entry::GearRatio(row) => reach(&mut job.check.speeds.gears, row, MOST_GEARS),
        Entry::TrialMass(run)
        | Entry::TrialClock(run)
        | Entry::RunAmplitude(run, _)
        | Entry::RunPhase(run, _) => reach(&mut job.balance.runs, run, MOST_RUNS),
        Entry::StationAt(pass, _, mark) | Entry::StationReading(pass, _, mark) => {
            let Some(pass) = job.truing.passes.get_mut(pass) else { return Ok(()) };
            if mark >= MOST_STATIONS {
                return Err(NotAJob::TooMuch);
            }
            let marks = |turn: &DialTurn| turn.readings.len().max(mark + 1);
            pass.turns.iter_mut().for_each(|turn| turn.resize(marks(turn)));
            Ok(())
        }
        _ => Ok(()),
    }
}

/// Damage, and where. A file from elsewhere may hold names of any length.
fn damaged(what: &str, name: &str) -> NotAJob {
    let short = |text: &str| text.chars().take(40).collect::<String>();
    NotAJob::Damaged { detail: format!("{}: {}", short(what), short(name)) }
}
