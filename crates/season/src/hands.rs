//! The same work for many things, by several hands at once.

use std::sync::atomic::{AtomicUsize, Ordering};

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
    let mut all: Vec<(usize, T)> = Vec::with_capacity(n);
    std::thread::scope(|scope| {
        let others: Vec<_> = (1..threads).map(|_| scope.spawn(take)).collect();
        all.extend(take());
        for other in others {
            match other.join() {
                Ok(done) => all.extend(done),
                Err(panic) => std::panic::resume_unwind(panic),
            }
        }
    });
    all.sort_by_key(|(i, _)| *i);
    all.into_iter().map(|(_, t)| t).collect()
}

#[cfg(test)]
mod tests {
    use std::sync::atomic::{AtomicUsize, Ordering};
    use std::time::{Duration, Instant};

    use super::each;

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
