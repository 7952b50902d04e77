//! Eight numbers worked on at once, with the widest arithmetic the processor has.
//!
//! The compiler, left to find by itself what can go together, takes faces across the list instead
//! of along it and spends its time gathering. So the passes say it: they take eight numbers in hand
//! ([`Eight`]), work, and put them back. Every lane does what it would do alone, and a product is
//! added to a sum with one rounding wherever the code says so and nowhere else, so the bits are the
//! same on every processor; one that has no such instruction works it out, slower.

use core::ops::{Add, Mul, Sub};
use pulp::{NullaryFnOnce, Scalar512b, Simd};

use super::eight::Oct;

/// Arithmetic on eight numbers at once.
pub(super) trait Arithmetic: Simd {
    /// A third of the numbers behind the bits, near enough to begin a root with:
    /// 1/3 = 5/16 (1 + 1/16) (1 + 1/256) (1 + 1/65536) ...
    fn third_of_bits(self, bits: Self::u64s) -> Self::u64s;

    /// Takes eight numbers in hand.
    #[inline(always)]
    fn take(self, from: &Oct) -> Eight<Self> {
        Eight {
            by: self,
            x: pulp::cast(*from),
        }
    }

    /// Eight times the same.
    #[inline(always)]
    fn all(self, x: f64) -> Eight<Self> {
        Eight {
            by: self,
            x: self.splat_f64s(x),
        }
    }
}

impl Arithmetic for Scalar512b {
    #[inline(always)]
    fn third_of_bits(self, bits: Self::u64s) -> Self::u64s {
        let mut bits: [u64; 8] = pulp::cast(bits);
        for bits in &mut bits {
            let mut third = (*bits >> 2) + (*bits >> 4);
            third += third >> 4;
            third += third >> 8;
            third += third >> 16;
            *bits = third;
        }
        pulp::cast(bits)
    }
}

/// The arithmetic of the processors this is usually run on.
#[cfg(any(target_arch = "x86", target_arch = "x86_64"))]
mod wide {
    use super::{Arithmetic, Simd};
    use pulp::x86::{V3_512b, V4};

    impl Arithmetic for V3_512b {
        #[inline(always)]
        fn third_of_bits(self, bits: Self::u64s) -> Self::u64s {
            let v3 = self.0;
            let mut halves: [pulp::u64x4; 2] = pulp::cast(bits);
            for bits in &mut halves {
                let b = *bits;
                let sum = |a, b| v3.add_u64s(a, b);
                let mut third = sum(v3.shr_const_u64x4::<2>(b), v3.shr_const_u64x4::<4>(b));
                third = sum(third, v3.shr_const_u64x4::<4>(third));
                third = sum(third, v3.shr_const_u64x4::<8>(third));
                third = sum(third, v3.shr_const_u64x4::<16>(third));
                *bits = third;
            }
            pulp::cast(halves)
        }
    }

    impl Arithmetic for V4 {
        #[inline(always)]
        fn third_of_bits(self, bits: Self::u64s) -> Self::u64s {
            let b = bits;
            let mut third =
                self.add_u64s(self.shr_const_u64x8::<2>(b), self.shr_const_u64x8::<4>(b));
            third = self.add_u64s(third, self.shr_const_u64x8::<4>(third));
            third = self.add_u64s(third, self.shr_const_u64x8::<8>(third));
            self.add_u64s(third, self.shr_const_u64x8::<16>(third))
        }
    }
}

/// Something to be done with whatever arithmetic there is. All it calls must be inlined, for only
/// then is it compiled for it.
pub(super) trait Task {
    /// Does it.
    fn run<S: Arithmetic>(self, by: S);
}

struct On<S, T>(S, T);

impl<S: Arithmetic, T: Task> NullaryFnOnce for On<S, T> {
    type Output = ();

    #[inline(always)]
    fn call(self) {
        self.1.run(self.0);
    }
}

/// Does a task with the widest arithmetic of this processor.
#[inline(always)]
pub(super) fn run(processor: pulp::Arch, task: impl Task) {
    match processor {
        #[cfg(any(target_arch = "x86", target_arch = "x86_64"))]
        pulp::Arch::V4(v4) => v4.vectorize(On(v4, task)),
        #[cfg(any(target_arch = "x86", target_arch = "x86_64"))]
        pulp::Arch::V3(v3) => v3.vectorize(On(pulp::x86::V3_512b(v3), task)),
        _ => task.run(Scalar512b),
    }
}

/// Eight numbers in hand.
#[derive(Debug, Clone, Copy)]
pub(super) struct Eight<S: Simd> {
    by: S,
    x: S::f64s,
}

impl<S: Arithmetic> Eight<S> {
    /// The eight, to be put away.
    #[inline(always)]
    pub fn put(self) -> Oct {
        pulp::cast(self.x)
    }

    /// This and the product of two others, rounded once.
    #[inline(always)]
    pub fn plus(self, a: Self, b: Self) -> Self {
        let x = self.by.mul_add_f64s(a.x, b.x, self.x);
        Self { x, ..self }
    }

    /// This less the product of two others, rounded once.
    #[inline(always)]
    pub fn less(self, a: Self, b: Self) -> Self {
        let x = self.by.negate_mul_add_f64s(a.x, b.x, self.x);
        Self { x, ..self }
    }

    /// Their sizes.
    #[inline(always)]
    pub fn abs(self) -> Self {
        let x = self.by.abs_f64s(self.x);
        Self { x, ..self }
    }

    /// Quotients.
    #[inline(always)]
    pub fn over(self, of: Self) -> Self {
        let x = self.by.div_f64s(self.x, of.x);
        Self { x, ..self }
    }

    /// Roots.
    #[inline(always)]
    pub fn root(self) -> Self {
        let x = self.by.sqrt_f64s(self.x);
        Self { x, ..self }
    }

    /// `then` where this is below `than`, `other` where not.
    #[inline(always)]
    pub fn below(self, than: Self, then: Self, other: Self) -> Self {
        let mask = self.by.less_than_f64s(self.x, than.x);
        let x = self.by.select_f64s(mask, then.x, other.x);
        Self { x, ..self }
    }

    /// 0 where this lies between the two or on one of them, 1 where not; what is not a number lies
    /// nowhere.
    #[inline(always)]
    pub fn outside(self, least: Self, most: Self) -> Self {
        let by = self.by;
        let over = by.less_than_or_equal_f64s(least.x, self.x);
        let under = by.less_than_or_equal_f64s(self.x, most.x);
        let (none, one) = (by.splat_f64s(0.0), by.splat_f64s(1.0));
        let x = by.select_f64s(by.and_m64s(over, under), none, one);
        Self { x, ..self }
    }

    /// The eight added up, halves first: the order is the same on every processor.
    #[inline(always)]
    pub fn sum(self) -> f64 {
        let x: Oct = pulp::cast(self.x);
        super::eight::sum(x)
    }

    /// Bits that begin the search for one over the cube root.
    #[inline(always)]
    pub fn less_a_third(self, start: u64) -> Self {
        let by = self.by;
        let third = by.third_of_bits(by.transmute_u64s_f64s(self.x));
        let x = by.transmute_f64s_u64s(by.sub_u64s(by.splat_u64s(start), third));
        Self { x, ..self }
    }
}

impl<S: Simd> Add for Eight<S> {
    type Output = Self;

    #[inline(always)]
    fn add(self, other: Self) -> Self {
        let x = self.by.add_f64s(self.x, other.x);
        Self { x, ..self }
    }
}

impl<S: Simd> Sub for Eight<S> {
    type Output = Self;

    #[inline(always)]
    fn sub(self, other: Self) -> Self {
        let x = self.by.sub_f64s(self.x, other.x);
        Self { x, ..self }
    }
}

impl<S: Simd> Mul for Eight<S> {
    type Output = Self;

    #[inline(always)]
    fn mul(self, other: Self) -> Self {
        let x = self.by.mul_f64s(self.x, other.x);
        Self { x, ..self }
    }
}

impl<S: Simd> Mul<f64> for Eight<S> {
    type Output = Self;

    #[inline(always)]
    fn mul(self, other: f64) -> Self {
        let x = self.by.mul_f64s(self.x, self.by.splat_f64s(other));
        Self { x, ..self }
    }
}
