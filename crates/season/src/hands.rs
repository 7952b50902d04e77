//! The same work for many things, by several hands at once.

use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::{Mutex, PoisonError};

/// Does `work` for 0, 1, … `n - 1` with so many threads; the results stand in that order and do
/// not depend on the number of threads. A panic in `work` is a defect and goes on in the caller.
pub fn each<T: Send>(threads: usize, n: usize, work: impl Fn(usize) -> T + Sync) -> Vec<T> {
    let threads = threads.clamp(1, n.max(1));
    if threads == 1 {
        return (0..n).map(work).collect();
    }
    let next = AtomicUsize::new(0);
    let take = || {
        let mut mine = Vec::new();
        loop {
            let i = next.fetch_add(1, Ordering::Relaxed);
            if i >= n {
                return mine;
            }
            mine.push((i, work(i)));
        }
    };
    let ((), all) = together(threads, || (), take);
    let mut all: Vec<(usize, T)> = all.into_iter().flatten().collect();
    all.sort_by_key(|(i, _)| *i);
    all.into_iter().map(|(_, t)| t).collect()
}

/// Long work of which a part is done at each call; false when nothing is left to do.
pub type Parts<'a> = Box<dyn FnMut() -> bool + Send + 'a>;

/// Does all of these works, part by part, with so many threads at once; `first` is done by the
/// caller's thread before it joins in. The work that has had the fewest turns comes next, so that
/// all end at nearly the same time, and no thread is idle while another has two works before it. A
/// panic in a work is a defect and goes on in the caller.
pub fn by_turns<T>(threads: usize, works: Vec<Parts<'_>>, first: impl FnOnce() -> T) -> T {
    let threads = threads.min(works.len() + 1);
    let waiting: Mutex<Vec<(usize, Parts<'_>)>> =
        Mutex::new(works.into_iter().map(|work| (0, work)).collect());
    // Nothing panics while it holds the list.
    let list = || waiting.lock().unwrap_or_else(PoisonError::into_inner);
    let next = || {
        let mut list = list();
        let fewest = (0..list.len()).min_by_key(|k| list[*k].0)?;
        Some(list.remove(fewest))
    };
    let take_part = || {
        while let Some((turns, mut work)) = next() {
            if work() {
                list().push((turns + 1, work));
            }
        }
    };
    together(threads, first, take_part).0
}

/// Threads that are worth having on this machine: as many as there are cores. What comes out does
/// not depend on them.
pub fn cores() -> usize {
    std::thread::available_parallelism().map_or(1, usize::from)
}

/// Has so many threads do `take`, the caller's own among them, which does `first` before it. A panic
/// goes on in the caller.
fn together<A, T: Send>(
    threads: usize,
    first: impl FnOnce() -> A,
    take: impl Fn() -> T + Sync,
) -> (A, Vec<T>) {
    std::thread::scope(|scope| {
        let others: Vec<_> = (1..threads).map(|_| scope.spawn(&take)).collect();
        let made = first();
        let mut all = vec![take()];
        for other in others {
            match other.join() {
                Ok(done) => all.push(done),
                Err(panic) => std::panic::resume_unwind(panic),
            }
        }
        (made, all)
    })
}

#[cfg(test)]
mod tests {
    use std::sync::Mutex;
    use std::sync::atomic::{AtomicUsize, Ordering};
    use std::time::{Duration, Instant};

    use super::{Parts, by_turns, each};

    /// Every work is done to its end, in turn, by however many threads, and by the caller alone.
    #[test]
    fn works_are_done_by_turns() {
        for threads in [0, 1, 2, 3, 9] {
            let mut made = [const { Vec::new() }; 4];
            let done = Mutex::new(Vec::new());
            let works: Vec<Parts<'_>> = made
                .iter_mut()
                .enumerate()
                .map(|(k, made): (usize, &mut Vec<usize>)| -> Parts<'_> {
                    let done = &done;
                    Box::new(move || {
                        made.push(made.len());
                        done.lock().expect("no panic").push(k);
                        made.len() < 3 + k
                    })
                })
                .collect();
            assert_eq!(by_turns(threads, works, || 7), 7);
            let done = done.into_inner().expect("no panic");
            for (k, made) in made.iter().enumerate() {
                assert_eq!(*made, (0..3 + k).collect::<Vec<_>>(), "{threads}");
            }
            if threads <= 1 {
                assert_eq!(done[..8], [0, 1, 2, 3, 0, 1, 2, 3]);
            }
        }
        assert_eq!(by_turns(2, Vec::new(), || "nothing"), "nothing");
    }

    #[test]
    #[should_panic(expected = "a defect")]
    fn a_panic_in_a_work_goes_on() {
        let works: Vec<Parts<'_>> = vec![Box::new(|| panic!("a defect")), Box::new(|| false)];
        by_turns(2, works, || ());
    }

    #[test]
    fn order_does_not_depend_on_threads() {
        let want: Vec<usize> = (0..100).map(|i| i * i).collect();
        for threads in [0, 1, 2, 3, 200] {
            assert_eq!(each(threads, 100, |i| i * i), want, "{threads}");
        }
        assert!(each(4, 0, |i| i).is_empty());
    }

    #[test]
    fn several_hands_work_at_once_and_one_alone_in_its_place() {
        let here = std::thread::current().id();
        let places = each(1, 3, |_| std::thread::current().id());
        assert_eq!(places, [here; 3]);
        // Each waits for the other; one after the other they would not meet.
        let inside = AtomicUsize::new(0);
        let met = each(2, 2, |_| {
            inside.fetch_add(1, Ordering::Relaxed);
            let since = Instant::now();
            while inside.load(Ordering::Relaxed) < 2 {
                if since.elapsed() > Duration::from_secs(20) {
                    return false;
                }
                std::thread::yield_now();
            }
            true
        });
        assert_eq!(met, [true; 2]);
    }
}
