//! All that is said of the weights of a job and of balancing on the car, many times over, for
//! `tests/line_time.mjs` to time: a chain is the whole stage Weights of the sample job, with its run-out, and
//! the whole stage Balance by each of the three methods. Each answer is a part of it.

use std::hint::black_box;

use shaftwright::job::{BalanceBy, Entry, Job, Ready, sample};
use shaftwright::stage::Stage;

/// Chains a batch, as in `line_time.mjs`.
const CHAINS: usize = 20;

/// The sample job with a first run and three trials, read at both ends.
fn run(by: BalanceBy) -> Job {
    let mut job = sample();
    job.balance.ready = Ready::Ready;
    job.balance.by = by;
    for (entry, text) in [
        (Entry::RunSpeed, "2400"),
        (Entry::ClipRadius, "1.75"),
        (Entry::ClipMass, "12"),
        (Entry::RunScatter, "0.2"),
    ] {
        job.put(entry, text);
    }
    // Round 8 at 20° with an effect of 6, as the handbook of the trade's sums has it; at both ends somewhat apart.
    let runs = [
        ("", "", "8", "160"),
        ("10", "12", "3.1", "150"),
        ("10", "4", "10.8", "130"),
        ("10", "8", "13.2", "185"),
    ];
    for (run, (mass, at, amplitude, phase)) in runs.into_iter().enumerate() {
        job.put(Entry::TrialMass(run), mass);
        job.put(Entry::TrialClock(run), at);
        for end in 0..2 {
            job.put(Entry::RunAmplitude(run, end), amplitude);
            job.put(Entry::RunPhase(run, end), if end == 0 { phase } else { "100" });
        }
    }
    job
}

fn main() {
    let jobs = [BalanceBy::Amplitudes, BalanceBy::Phase, BalanceBy::TwoPlanes].map(run);
    let mut said = 0;
    for _ in 0..CHAINS {
        said += black_box(Stage::Weights.findings(black_box(&jobs[0]))).len();
        for job in &jobs {
            said += black_box(Stage::Balance.findings(black_box(job))).len();
        }
    }
    black_box(said);
}
