//! Angles: how gearbox, shaft and pinion lie, and what both joints make of it.

use super::finding::Finding;
use crate::job::Job;

/// What follows for the angles.
pub fn findings(_job: &Job) -> Vec<Finding> {
    Vec::new()
}
