//! What the page knows: the job in hand, where it is, and what it has to say.

use core::time::Duration;

use leptos::prelude::*;

use crate::book::{Card, Shelf, Trouble, browser};
use crate::job::{Choice, Display, Entry, Job, NotAJob, sample};
use crate::sheet::{report, stage_title, unopened};
use crate::stage::Stage;

/// How long a hand must rest for the rail to follow: short enough to seem at once.
const PAUSE: Duration = Duration::from_millis(80);
/// How long after the last keystroke the job is kept.
const SAVE_AFTER: Duration = Duration::from_millis(400);
const THEME: &str = "theme";
const DISPLAY: &str = "display";

/// Where the page is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    /// The list of jobs.
    Book,
    /// A stage of the job in hand.
    Stage(Stage),
}

/// Light, dark, or as the device says.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Theme {
    /// As the device says.
    Auto,
    /// For sunlight.
    Light,
    /// For a dark bay.
    Dark,
}

impl Theme {
    /// Its name, as kept and as the style sheet knows it.
    pub const fn name(self) -> &'static str {
        match self {
            Theme::Auto => "auto",
            Theme::Light => "light",
            Theme::Dark => "dark",
        }
    }

    /// The next one round.
    pub const fn next(self) -> Theme {
        match self {
            Theme::Auto => Theme::Light,
            Theme::Light => Theme::Dark,
            Theme::Dark => Theme::Auto,
        }
    }
}

/// Everything the page knows. A handful of handles: cheap to copy into every closure.
#[derive(Clone, Copy)]
pub struct State {
    /// The job in hand.
    pub job: RwSignal<Job>,
    /// Its id; none while no job is open.
    pub job_id: RwSignal<Option<String>>,
    /// Where the page is.
    pub place: RwSignal<Place>,
    /// The jobs on the shelf.
    pub cards: RwSignal<Vec<Card>>,
    /// What must be said, oldest first.
    pub troubles: RwSignal<Vec<Trouble>>,
    /// A job just put into the bin: id and name.
    pub deleted: RwSignal<Option<(String, String)>>,
    /// Changes that are not kept yet.
    pub unsaved: RwSignal<bool>,
    /// What is here would go with the page.
    pub fleeting: RwSignal<bool>,
    /// Counts the moments at which a hand has paused: what is seen from the corner of the eye follows
    /// then, and the keystroke itself stays quick.
    pub pauses: RwSignal<u32>,
    /// The second of the page's two files is here: stages can be drawn and judged. In the sources
    /// nothing tells the two apart; `split.mjs` parts them.
    pub whole_here: RwSignal<bool>,
    /// It was asked for and could not be had.
    pub rest_missing: RwSignal<bool>,
    /// A newer version lies ready.
    pub update_ready: RwSignal<bool>,
    /// The page opens without signal.
    pub offline_ready: RwSignal<bool>,
    /// Colours.
    pub theme: RwSignal<Theme>,
    /// The pass of the dial that is shown.
    pub pass: RwSignal<usize>,
    /// The place along the tube that is shown.
    pub along: RwSignal<usize>,
    /// The field typed into last: the one that follows the keystroke itself.
    pub typing: RwSignal<Option<Entry>>,
    /// The set-up of the dial is unfolded.
    pub set_up_open: RwSignal<bool>,
    /// Quarter turns of the device, counterclockwise, against the way it was made to be held.
    pub turn: RwSignal<usize>,
    shelf: StoredValue<Shelf, LocalStorage>,
    save_timer: StoredValue<Option<TimeoutHandle>, LocalStorage>,
    pause_timer: StoredValue<Option<TimeoutHandle>, LocalStorage>,
}

impl State {
    /// Opens the shelf and goes where the address says.
    pub fn open() -> State {
        let (store, refused) = browser::open_store();
        let shelf = Shelf::new(store);
        let theme = match shelf.setting(THEME).as_deref() {
            Some("light") => Theme::Light,
            Some("dark") => Theme::Dark,
            _ => Theme::Auto,
        };
        let state = State {
            job: RwSignal::new(Job::default()),
            job_id: RwSignal::new(None),
            place: RwSignal::new(Place::Book),
            cards: RwSignal::new(shelf.cards()),
            troubles: RwSignal::new(Vec::new()),
            deleted: RwSignal::new(None),
            unsaved: RwSignal::new(false),
            fleeting: RwSignal::new(shelf.only_in_memory()),
            pauses: RwSignal::new(0),
            whole_here: RwSignal::new(browser::flag("data-whole")),
            rest_missing: RwSignal::new(false),
            update_ready: RwSignal::new(browser::flag("data-update")),
            offline_ready: RwSignal::new(browser::flag("data-offline")),
            theme: RwSignal::new(theme),
            pass: RwSignal::new(0),
            along: RwSignal::new(0),
            typing: RwSignal::new(None),
            set_up_open: RwSignal::new(false),
            turn: RwSignal::new(0),
            shelf: StoredValue::new_local(shelf),
            save_timer: StoredValue::new_local(None),
            pause_timer: StoredValue::new_local(None),
        };
        browser::set_root_attribute("data-theme", theme.name());
        if let Some(refused) = refused {
            state.say(Trouble::Storage(refused));
        }
        if !browser::is_secure() {
            state.say(Trouble::InsecureAddress);
        }
        state.follow_address();
        state
    }

    /// Says something, once.
    pub fn say(&self, trouble: Trouble) {
        self.troubles.update(|troubles| {
            if !troubles.contains(&trouble) {
                troubles.push(trouble);
            }
        });
    }

    /// Does something with the shelf.
    pub fn with_shelf<T>(&self, act: impl FnOnce(&Shelf) -> T) -> T {
        self.shelf.with_value(act)
    }

    fn list_again(&self) {
        self.cards.set(self.with_shelf(Shelf::cards));
    }

    // ---- the address -------------------------------------------------------------------------------

    /// Goes where the address says: `#/` the job book, `#/ID/STAGE` a stage of a job.
    pub fn follow_address(&self) {
        self.save_now();
        self.go_where_it_says();
        let name = self.job.with_untracked(|job| job.name.clone());
        match self.place.get_untracked() {
            Place::Book => browser::begin_screen("Job book"),
            Place::Stage(stage) => browser::begin_screen(&format!("{} · {name}", stage_title(stage))),
        }
    }

    fn go_where_it_says(&self) {
        let hash = browser::hash();
        let mut parts = hash.trim_matches('/').split('/');
        let (id, slug) = (parts.next().unwrap_or(""), parts.next().unwrap_or(""));
        if id.is_empty() {
            self.job_id.set(None);
            self.list_again();
            self.place.set(Place::Book);
            return;
        }
        if self.job_id.with_untracked(|open| open.as_deref() != Some(id)) && !self.load(id) {
            self.job_id.set(None);
            self.place.set(Place::Book);
            self.list_again();
            return;
        }
        self.place.set(Place::Stage(Stage::from_slug(slug).unwrap_or(Stage::Measure)));
    }

    fn load(&self, id: &str) -> bool {
        match self.with_shelf(|shelf| shelf.open(id)) {
            Ok(job) => {
                self.pass.set(crate::stage::truing::latest(&job));
                self.along.set(0);
                self.job.set(job);
                self.job_id.set(Some(id.to_owned()));
                self.unsaved.set(false);
                true
            }
            Err(None) => {
                self.say(Trouble::NoSuchJob);
                false
            }
            Err(Some(why)) => {
                let what = self.cards.with_untracked(|cards| {
                    cards.iter().find(|card| card.id == id).map(|card| card.name.clone())
                });
                self.say(Trouble::Unreadable { what: what.unwrap_or_else(|| id.to_owned()) });
                self.say(Trouble::File(unopened(&why)));
                // A newer page can read a newer job: it stays in the list for it.
                if !matches!(why, NotAJob::Newer { .. }) {
                    self.settle(self.with_shelf(|shelf| shelf.set_aside(id)));
                }
                false
            }
        }
    }

    /// The address of a stage of the job in hand.
    pub fn address(&self, stage: Stage) -> String {
        self.job_id.with(|id| format!("#/{}/{}", id.as_deref().unwrap_or(""), stage.slug()))
    }

    // ---- the job in hand ---------------------------------------------------------------------------

    /// Puts typed text into a field.
    pub fn put(&self, entry: Entry, text: &str) {
        if self.typing.get_untracked() != Some(entry) {
            self.typing.set(Some(entry));
        }
        self.change(|job| job.put_at(entry, text, browser::now_ms()));
    }

    /// Changes the job in hand and keeps it a moment later.
    pub fn change(&self, change: impl FnOnce(&mut Job)) {
        let mut change = Some(change);
        self.change_by(&mut |job| {
            if let Some(change) = change.take() {
                change(job);
            }
        });
    }

    /// One piece of code for every change: there are dozens.
    #[inline(never)]
    fn change_by(&self, change: &mut dyn FnMut(&mut Job)) {
        self.job.update(change);
        if !self.unsaved.get_untracked() {
            self.unsaved.set(true);
        }
        let state = *self;
        again(self.save_timer, SAVE_AFTER, move || state.save_now());
        again(self.pause_timer, PAUSE, move || state.paused());
    }

    /// Something of the job that decides what else is asked: changes when it does, not at every keystroke.
    pub fn follows<T>(self, get: fn(&Job) -> T) -> Memo<T>
    where
        T: PartialEq + Send + Sync + 'static,
    {
        Memo::new(move |_| self.job.with(get))
    }

    /// Looks at the job now and again whenever the hand has paused: for what is not watched while typing.
    pub fn at_rest<T>(&self, look: impl FnOnce(&Job) -> T) -> T {
        self.pauses.track();
        self.job_id.track();
        self.job.with_untracked(look)
    }

    fn paused(&self) {
        self.pauses.update(|count| *count = count.wrapping_add(1));
    }

    /// Keeps the job in hand now, if it has changed.
    pub fn save_now(&self) {
        let Some(id) = self.job_id.get_untracked().filter(|_| self.unsaved.get_untracked()) else {
            return;
        };
        let (now, fresh) = (browser::now_ms(), browser::fresh_id());
        let outcome =
            self.job.with_untracked(|job| self.with_shelf(|shelf| shelf.save(&id, job, now, &fresh)));
        self.fleeting.set(self.with_shelf(Shelf::only_in_memory));
        // What the store would not take is tried again when the page goes away.
        self.unsaved.set(matches!(outcome, Err((_, Trouble::Storage(_)))));
        if let Err((moved, trouble)) = outcome {
            self.say(trouble);
            if let Some(new_id) = moved {
                let stage = match self.place.get_untracked() {
                    Place::Stage(stage) => stage,
                    Place::Book => Stage::Measure,
                };
                self.load(&new_id);
                browser::go(&format!("/{new_id}/{}", stage.slug()));
            }
        }
    }

    /// Offers the job in hand as a file, as it stands this moment.
    pub fn save_file(&self) {
        self.job.with_untracked(|job| {
            if let Some(text) = crate::job::to_text(job) {
                browser::save_file(&file_name(&job.name), &text);
            }
        });
    }

    /// Offers the whole job in plain words, for a driveline shop or a printer.
    pub fn save_report(&self) {
        self.job.with_untracked(|job| {
            browser::save_file(&file_name(&job.name).replace(".json", ".txt"), &report(job));
        });
    }

    /// Another window wrote: show its state, unless something here is not kept yet; that case is
    /// settled when it is.
    pub fn take_news(&self) {
        if !self.unsaved.get_untracked() {
            let news =
                self.job_id.get_untracked().and_then(|id| self.with_shelf(|shelf| shelf.news(&id)));
            if let Some(job) = news {
                self.job.set(job);
                self.paused();
            }
        }
        self.list_again();
    }

    // ---- the shelf ---------------------------------------------------------------------------------

    /// Puts a job on the shelf and opens it.
    pub fn add(&self, job: &Job) {
        let id = browser::fresh_id();
        let outcome = self.with_shelf(|shelf| shelf.create(&id, job, browser::now_ms()));
        if let Err(trouble) = outcome {
            self.say(trouble);
        }
        browser::ask_for_lasting_storage();
        self.list_again();
        browser::go(&format!("/{id}/{}", Stage::Measure.slug()));
    }

    /// Begins an empty job in the display used last.
    pub fn begin(&self) {
        let kept = self.with_shelf(|shelf| shelf.setting(DISPLAY));
        let at = kept.and_then(|text| text.parse::<usize>().ok()).unwrap_or(0);
        let display = Display::ALL.get(at).copied().unwrap_or_default();
        let mut job = Job::new(display);
        job.name = format!("Shaft {}", self.cards.with_untracked(Vec::len) + 1);
        self.add(&job);
    }

    /// Opens a fresh copy of the sample job.
    pub fn begin_sample(&self) {
        self.add(&sample());
    }

    /// Shows lengths another way, in this job and in those begun later.
    pub fn set_display(&self, display: Display) {
        self.change(|job| job.take_display(display));
        let at = Display::ALL.iter().position(|known| *known == display).unwrap_or(0);
        self.with_shelf(|shelf| shelf.set_setting(DISPLAY, &at.to_string()));
    }

    /// Takes the next colours.
    pub fn next_theme(&self) {
        let theme = self.theme.get_untracked().next();
        self.theme.set(theme);
        browser::set_root_attribute("data-theme", theme.name());
        self.with_shelf(|shelf| shelf.set_setting(THEME, theme.name()));
    }

    /// Copies a job.
    pub fn duplicate(&self, id: &str) {
        let fresh = browser::fresh_id();
        self.settle(self.with_shelf(|shelf| shelf.duplicate(id, &fresh, browser::now_ms())));
    }

    /// Renames a job.
    pub fn rename(&self, id: &str, name: &str) {
        self.settle(self.with_shelf(|shelf| shelf.rename(id, name, browser::now_ms())));
    }

    /// Puts a job into the bin.
    pub fn delete(&self, card: &Card) {
        let outcome = self.with_shelf(|shelf| shelf.delete(&card.id));
        if outcome.is_ok() {
            self.deleted.set(Some((card.id.clone(), card.name.clone())));
        }
        self.settle(outcome);
    }

    /// Takes a job out of the bin.
    pub fn put_back(&self, id: &str) {
        self.deleted.set(None);
        self.settle(self.with_shelf(|shelf| shelf.put_back(id)));
    }

    /// Opens a job from a file's text.
    pub fn open_text(&self, text: Option<String>) {
        let unreadable = "This file cannot be read. Choose a job that Shaftwright saved.";
        match text.map(|text| crate::job::from_text(&text)) {
            None => self.say(Trouble::File(unreadable.to_owned())),
            Some(Err(why)) => self.say(Trouble::File(unopened(&why))),
            Some(Ok(job)) => self.add(&job),
        }
    }

    /// Tries a text that could not be read once more.
    pub fn try_again(&self, key: &str) {
        self.settle(self.with_shelf(|shelf| shelf.try_again(key)));
    }

    fn settle(&self, outcome: Result<(), Trouble>) {
        if let Err(trouble) = outcome {
            self.say(trouble);
        }
        self.list_again();
    }

    /// Takes the newer version: keeps the job first, then leaves the rest to the start script.
    pub fn take_update(&self) {
        self.save_now();
        if self.with_shelf(Shelf::only_in_memory) {
            self.say(Trouble::UpdateWouldLose);
        } else {
            browser::send("shaftwright:take-update");
        }
    }
}

/// Sets a timer anew.
fn again(
    timer: StoredValue<Option<TimeoutHandle>, LocalStorage>,
    after: Duration,
    act: impl Fn() + 'static,
) {
    timer.update_value(|timer| {
        if let Some(timer) = timer.take() {
            timer.clear();
        }
        *timer = set_timeout_with_handle(act, after).ok();
    });
}

/// A file name made of what every system takes.
pub fn file_name(job: &str) -> String {
    let plain: String = job.chars().map(|c| if c.is_ascii_alphanumeric() { c } else { '-' }).collect();
    let name = plain.trim_matches('-');
    format!("{}.json", if name.is_empty() { "shaft" } else { name })
}
