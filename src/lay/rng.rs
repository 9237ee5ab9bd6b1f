//! A small generator of pseudo-random numbers, the same on every machine.

/// Steele, Lea and Flood's SplitMix64 (OOPSLA 2014): one addition and a mixing step for each number.
#[derive(Debug, Clone)]
pub(crate) struct Rng(u64);

impl Rng {
    pub fn new(seed: u64) -> Self {
        Self(seed)
    }

    pub fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        mix(self.0)
    }

    /// Evenly in `[0, 1)`.
    pub fn unit(&mut self) -> f64 {
        (self.next() >> 11) as f64 * (1.0 / (1u64 << 53) as f64)
    }

    /// Evenly in `[from, to)`.
    pub fn within(&mut self, from: f64, to: f64) -> f64 {
        from + (to - from) * self.unit()
    }

    /// Evenly among `0..n`; `n` must not be 0.
    pub fn below(&mut self, n: usize) -> usize {
        ((u128::from(self.next()) * n as u128) >> 64) as usize
    }

    /// Fisher and Yates's shuffle.
    pub fn shuffle<T>(&mut self, items: &mut [T]) {
        for i in (1..items.len()).rev() {
            items.swap(i, self.below(i + 1));
        }
    }
}

fn mix(mut z: u64) -> u64 {
    z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    z ^ (z >> 31)
}

/// A running 64-bit digest of numbers, for seeds; not for security.
#[derive(Debug, Clone)]
pub(crate) struct Digest(u64);

impl Digest {
    pub fn new() -> Self {
        Self(0x6675_7262_656c_6f77)
    }

    pub fn add(&mut self, value: i64) {
        self.0 = mix(self.0 ^ value as u64).wrapping_add(0x9e37_79b9_7f4a_7c15);
    }

    pub fn value(&self) -> u64 {
        mix(self.0)
    }
}

#[cfg(test)]
mod tests {
    use super::Rng;

    /// First numbers for seed 1234567, as in the reference implementation of SplitMix64 by S. Vigna
    /// (public domain), quoted from memory.
    #[test]
    fn first_numbers() {
        let mut rng = Rng::new(1_234_567);
        assert_eq!(rng.next(), 6_457_827_717_110_365_317);
        assert_eq!(rng.next(), 3_203_168_211_198_807_973);
    }

    #[test]
    fn below_stays_below_and_reaches_all() {
        let mut rng = Rng::new(1);
        let mut seen = [0usize; 7];
        for _ in 0..700 {
            seen[rng.below(7)] += 1;
        }
        assert!(seen.iter().all(|n| *n > 50), "{seen:?}");
    }
}
