//! What can go wrong with keeping a job, in plain sentences.

use super::store::StoreError;

/// Something the mechanic must know about the keeping of jobs.
#[derive(Clone, Debug, PartialEq)]
pub enum Trouble {
    /// The browser keeps nothing for this page.
    Storage(StoreError),
    /// A kept text could not be read; it is still there and can be saved as a file.
    Unreadable {
        /// Name or key of what it was.
        what: String,
    },
    /// The job was changed in another window; this window's state was kept as a job of its own.
    ChangedElsewhere {
        /// Name of the copy.
        copy: String,
    },
    /// The address is not safe for offline use.
    InsecureAddress,
    /// A newer version was to be taken while something is not kept anywhere lasting.
    UpdateWouldLose,
    /// A file could not be opened; the sentence says why.
    File(String),
    /// The address named a job that is not here.
    NoSuchJob,
}

impl Trouble {
    /// The sentence that is shown.
    pub fn sentence(&self) -> String {
        match self {
            Trouble::Storage(StoreError::Blocked) => {
                "This browser keeps nothing for this page, so the job lives only while the page is open. Save it as a file before you leave.".to_owned()
            }
            Trouble::Storage(StoreError::Full) => {
                "The browser's storage is full, so the last changes live only while the page is open. Save the job as a file, then delete old jobs and empty the bin.".to_owned()
            }
            Trouble::Unreadable { what } => {
                format!("“{what}” is kept but cannot be read. Its text is untouched: save it as a file.")
            }
            Trouble::ChangedElsewhere { copy } => {
                format!("This job was also changed in another window. What stands here was kept as “{copy}”, so nothing is lost.")
            }
            Trouble::InsecureAddress => {
                "This address (plain http) is not safe in the browser's eyes: the page will not open without signal, and what is stored may be lost. Save the job as a file, or open the page over https.".to_owned()
            }
            Trouble::UpdateWouldLose => {
                "The newer version was not taken: it reloads the page, and the last changes are kept nowhere else. Save the job as a file first, then reload the page yourself.".to_owned()
            }
            Trouble::File(why) => why.clone(),
            Trouble::NoSuchJob => {
                "The job in this address is not in this job book. It may be on another device: open its file here.".to_owned()
            }
        }
    }
}
