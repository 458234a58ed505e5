//! The form on disk: JSON text with a version in front.
//!
//! Every length is kept as typed text with its unit beside it, so the file needs no unit of its own.
//! A field added later has a default and needs no new version; a field whose meaning changes does,
//! and its old form then stays here and in tests/fixtures.

use serde::{Deserialize, Serialize};

use super::{Job, LONGEST_NAME, MOST_PASSES, MOST_READINGS, MOST_STATIONS, MOST_WEIGHTS};

/// The version written now.
const VERSION: u32 = 1;

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

#[derive(Deserialize)]
struct Head {
    #[serde(rename = "shaftwright-job")]
    version: u32,
}

#[derive(Deserialize)]
struct Whole {
    job: Job,
}

#[derive(Serialize)]
struct Written<'a> {
    #[serde(rename = "shaftwright-job")]
    version: u32,
    job: &'a Job,
}

/// The text of a job; `None` where it cannot be written, which no job of text and choices can cause.
pub fn to_text(job: &Job) -> Option<String> {
    serde_json::to_string(&Written { version: VERSION, job }).ok()
}

/// The job in a text.
///
/// # Errors
/// [`NotAJob`]; the text is left to the caller, who keeps it.
pub fn from_text(text: &str) -> Result<Job, NotAJob> {
    let head: Head = serde_json::from_str(text).map_err(|_| NotAJob::OtherText)?;
    if head.version > VERSION {
        return Err(NotAJob::Newer { version: head.version, known: VERSION });
    }
    let whole: Whole =
        serde_json::from_str(text).map_err(|error| NotAJob::Damaged { detail: error.to_string() })?;
    if fits(&whole.job) { Ok(whole.job) } else { Err(NotAJob::TooMuch) }
}

/// A file from elsewhere may hold anything; more than the places there are would make a page no one
/// can use.
fn fits(job: &Job) -> bool {
    let pass_fits = |pass: &super::Pass| {
        pass.readings.len() <= MOST_STATIONS
            && pass.at.len() == pass.readings.len()
            && pass.stations.fixed_count().is_none_or(|count| count <= pass.readings.len())
    };
    job.name.chars().count() <= LONGEST_NAME
        && job.measure.old.len() <= MOST_READINGS
        && job.measure.wanted.len() <= MOST_READINGS
        && job.truing.passes.len() <= MOST_PASSES
        && job.truing.passes.iter().all(pass_fits)
        && job.weights.rows.len() <= MOST_WEIGHTS
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::sample;

    #[test]
    fn a_job_comes_back() {
        // Round trip, no outside value.
        for job in [Job::default(), sample()] {
            let text = to_text(&job).unwrap();
            assert_eq!(from_text(&text).unwrap(), job);
        }
    }

    #[test]
    fn what_is_not_a_job() {
        assert_eq!(from_text("gearbox"), Err(NotAJob::OtherText));
        assert_eq!(from_text("{}"), Err(NotAJob::OtherText));
        assert_eq!(
            from_text(r#"{"shaftwright-job":2,"job":{}}"#),
            Err(NotAJob::Newer { version: 2, known: 1 })
        );
        let bad_unit = r#"{"shaftwright-job":1,"job":{"tube":{"wall":{"text":"3","unit":"cubit"}}}}"#;
        assert!(matches!(from_text(bad_unit), Err(NotAJob::Damaged { .. })));
    }

    #[test]
    fn too_much_is_refused() {
        let mut job = Job::default();
        job.measure.old.resize_with(500, Default::default);
        assert_eq!(from_text(&to_text(&job).unwrap()), Err(NotAJob::TooMuch));
    }
}
