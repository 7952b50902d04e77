//! Points that fill a cube evenly, the same on every machine.

/// Bases of the directions, one prime each.
const PRIMES: [u64; 40] = [
    2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31, 37, 41, 43, 47, 53, 59, 61, 67, 71, 73, 79, 83, 89, 97,
    101, 103, 107, 109, 113, 127, 131, 137, 139, 149, 151, 157, 163, 167, 173,
];
/// Directions there are.
pub(crate) const MOST_DIRECTIONS: usize = PRIMES.len();

/// A stream of numbers from a seed.
///
/// **Equation** s = s + G; z = (s ^ s >> 30) A; z = (z ^ z >> 27) B; z ^ z >> 31, modulo 2^64
///
/// **Symbols** s: state; G, A, B: fixed odd numbers
///
/// **Range** any seed
///
/// **Source** `from-memory`: splitmix64, a well-known generator
///
/// **Example** from state 0 the first number is 0xe220a8397b1dcdaf
fn mixed(state: &mut u64) -> u64 {
    *state = state.wrapping_add(0x9e37_79b9_7f4a_7c15);
    let mut z = *state;
    z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    z ^ (z >> 31)
}

/// Digit permutations of every direction.
#[derive(Debug, Clone)]
pub(crate) struct Sequence {
    swaps: Vec<Vec<u64>>,
}

impl Sequence {
    /// For so many directions (at most [`MOST_DIRECTIONS`]); the seed picks the permutations.
    pub fn new(directions: usize, seed: u64) -> Self {
        let swaps = PRIMES
            .iter()
            .take(directions)
            .enumerate()
            .map(|(d, &base)| {
                let mut state = seed ^ (d as u64 + 1).wrapping_mul(0xd1b5_4a32_d192_ed03);
                let mut digits: Vec<u64> = (0..base).collect();
                // Zero moves too: the endless tail of zeros becomes a shift of its own.
                for i in (1..digits.len()).rev() {
                    let j = (mixed(&mut state) % (i as u64 + 1)) as usize;
                    digits.swap(i, j);
                }
                digits
            })
            .collect();
        Self { swaps }
    }

    /// Coordinate `direction` of point `index`, inside 0 to 1.
    ///
    /// **Equation** x = sum of p(d_k) / b^(k+1) over the digits d_k of the index in base b
    ///
    /// **Symbols** b: the prime of the direction; p: its permutation of digits
    ///
    /// **Range** index from 0
    ///
    /// **Source** `from-memory`: Halton's sequence with permuted digits
    ///
    /// **Example** base 2 without permutation: 0, 1/2, 1/4, 3/4
    pub fn at(&self, index: usize, direction: usize) -> f64 {
        let (Some(&base), Some(swap)) = (PRIMES.get(direction), self.swaps.get(direction)) else {
            return 0.5;
        };
        let (mut left, mut weight, mut x) = (index as u64, 1.0, 0.0);
        // As many digits as a double can hold, so that the tail of zeros is permuted too.
        while weight > 1e-15 {
            weight /= base as f64;
            let digit = (left % base) as usize;
            x += swap.get(digit).copied().unwrap_or(0) as f64 * weight;
            left /= base;
        }
        x.clamp(1e-9, 1.0 - 1e-9)
    }
}

/// Value below which a normal variable of mean 0 and spread 1 lies with a probability.
///
/// **Equation** P(z) = erfc(-z / 2^0.5) / 2, solved for z by halving
///
/// **Symbols** P: probability
///
/// **Range** 0 to 1, ends left out
///
/// **Source** `common-practice`: the normal distribution
///
/// **Example** 0.9 gives 1.2816
pub(crate) fn normal_score(probability: f64) -> f64 {
    let (mut low, mut high) = (-8.0, 8.0);
    for _ in 0..60 {
        let middle = 0.5 * (low + high);
        if 0.5 * libm::erfc(-middle * std::f64::consts::FRAC_1_SQRT_2) < probability {
            low = middle;
        } else {
            high = middle;
        }
    }
    0.5 * (low + high)
}

#[cfg(test)]
mod tests {
    use super::{MOST_DIRECTIONS, Sequence, mixed, normal_score};

    #[test]
    fn first_numbers_of_the_stream() {
        // Value: the generator's well-known first output from 0 (from memory).
        assert_eq!(mixed(&mut 0), 0xe220_a839_7b1d_cdaf);
    }

    #[test]
    fn unpermuted_is_the_plain_sequence() {
        let plain = Sequence {
            swaps: vec![vec![0, 1], vec![0, 1, 2]],
        };
        let first: Vec<f64> = (1..4).map(|i| plain.at(i, 0)).collect();
        // Exact in base 2.
        assert_eq!(first, vec![0.5, 0.25, 0.75]);
        // 1/3, 2/3, 1/9 in base 3, to rounding of 32 digits.
        for (i, want) in [(1, 1.0 / 3.0), (2, 2.0 / 3.0), (3, 1.0 / 9.0)] {
            assert!((plain.at(i, 1) - want).abs() < 1e-14);
        }
    }

    #[test]
    fn every_direction_is_even_and_the_seed_is_all() {
        let n = 128;
        let all = Sequence::new(MOST_DIRECTIONS, 7);
        for d in 0..MOST_DIRECTIONS {
            let x: Vec<f64> = (0..n).map(|i| all.at(i, d)).collect();
            assert!(x.iter().all(|x| *x > 0.0 && *x < 1.0));
            let mean = x.iter().sum::<f64>() / n as f64;
            // A random mean of 128 lies within 0.0255 two times in three; these lie closer than
            // 0.06 in every one of 40 directions.
            assert!((mean - 0.5).abs() < 0.06, "{d}: {mean}");
        }
        // In base 2 the first 128 points stand one in each of 128 cells.
        let mut cells = vec![0; n];
        for i in 0..n {
            cells[(all.at(i, 0) * n as f64) as usize] += 1;
        }
        assert!(cells.iter().all(|c| *c == 1));
        let again = Sequence::new(MOST_DIRECTIONS, 7);
        let other = Sequence::new(MOST_DIRECTIONS, 8);
        assert_eq!(all.at(5, 3).to_bits(), again.at(5, 3).to_bits());
        assert!((0..9).any(|d| all.at(5, d) != other.at(5, d)));
    }

    #[test]
    fn scores_are_those_of_the_table() {
        // Table of the normal distribution: 0.9, 0.975, 0.5; four decimals are printed there.
        for (p, z) in [(0.9, 1.2816), (0.975, 1.9600), (0.5, 0.0), (0.1, -1.2816)] {
            assert!((normal_score(p) - z).abs() < 5e-5);
        }
    }
}
