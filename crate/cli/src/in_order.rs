//! Work on all threads there are, told in the order of the jobs.

use std::collections::BTreeMap;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::mpsc;
use std::thread;

/// Does `work` for each job on up to so many threads, and hands what came of it to `done` in the order of the jobs, as
/// soon as all before it are there. Each thread takes the next job that none has begun, so that a long one holds up
/// nobody.
pub fn in_order<J: Sync, R: Send>(
    jobs: &[J],
    threads: usize,
    work: impl Fn(&J) -> R + Sync,
    mut done: impl FnMut(R),
) {
    let next = AtomicUsize::new(0);
    let (sender, receiver) = mpsc::channel();
    let work = &work;
    let next = &next;
    thread::scope(|scope| {
        for _ in 0..threads.clamp(1, jobs.len().max(1)) {
            let sender = sender.clone();
            scope.spawn(move || {
                loop {
                    let n = next.fetch_add(1, Ordering::Relaxed);
                    let Some(job) = jobs.get(n) else { break };
                    if sender.send((n, work(job))).is_err() {
                        break;
                    }
                }
            });
        }
        // The threads hold the others; the last to end closes the channel.
        drop(sender);
        let mut early = BTreeMap::new();
        let mut due = 0;
        for (n, result) in receiver {
            early.insert(n, result);
            while let Some(result) = early.remove(&due) {
                done(result);
                due += 1;
            }
        }
    });
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn results_come_in_the_order_of_the_jobs_on_any_number_of_threads() {
        let jobs: Vec<u64> = (0..100).collect();
        // The first take longest.
        let slow = |&n: &u64| (0..(100 - n) * 1000).fold(n, |all, m| all ^ m ^ m);
        for threads in [0, 1, 3, 200] {
            let mut found = Vec::new();
            in_order(&jobs, threads, slow, |n| found.push(n));
            assert_eq!(found, jobs);
        }
        in_order(&jobs[..0], 4, slow, |_| panic!("there is nothing to do"));
    }
}
