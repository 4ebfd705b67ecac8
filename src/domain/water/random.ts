/**
 * Chance for simulation. Nothing in the domain draws a number of its own
 * accord: a generator is made from a seed and handed in, so that a figure on a
 * sheet can be made again from the seed printed beside it.
 */

/** The next number, evenly spread over [0, 1). */
export type Random = () => number;

/** Four 32-bit words, not all zero. */
export type RandomState = readonly [number, number, number, number];

const rotateLeft = (word: number, by: number) => (word << by) | (word >>> (32 - by));

/**
 * The next whole number of 32 bits, 0 to 2³² − 1, at each call: xoshiro128**
 * 1.1, D. Blackman and S. Vigna, 2018, https://prng.di.unimi.it/xoshiro128starstar.c
 * (public domain).
 */
export function xoshiro128(state: RandomState): () => number {
  let [s0, s1, s2, s3] = state;
  return () => {
    const word = Math.imul(rotateLeft(Math.imul(s1, 5), 7), 9) >>> 0;
    const shifted = s1 << 9;
    s2 ^= s0;
    s3 ^= s1;
    s1 ^= s2;
    s0 ^= s3;
    s2 ^= shifted;
    s3 = rotateLeft(s3, 11);
    return word;
  };
}

const GOLDEN = 0x9e3779b97f4a7c15n;
const word64 = (n: bigint) => BigInt.asUintN(64, n);

/**
 * The state a seed stands for: two outputs of SplitMix64, low word first, as
 * the authors of xoshiro advise (S. Vigna, 2015,
 * https://prng.di.unimi.it/splitmix64.c, public domain). Any whole number is a seed.
 */
export function stateOf(seed: number): RandomState {
  let at = word64(BigInt(Math.trunc(seed)));
  const next = () => {
    at = word64(at + GOLDEN);
    let z = at;
    z = word64((z ^ (z >> 30n)) * 0xbf58476d1ce4e5b9n);
    z = word64((z ^ (z >> 27n)) * 0x94d049bb133111ebn);
    return z ^ (z >> 31n);
  };
  const words = (n: bigint) =>
    [Number(BigInt.asUintN(32, n)), Number(BigInt.asUintN(32, n >> 32n))] as const;
  return [...words(next()), ...words(next())];
}

/** A generator that gives the same numbers for the same seed, on every machine. */
export function randomFrom(seed: number): Random {
  const word = xoshiro128(stateOf(seed));
  return () => word() / 2 ** 32;
}

/**
 * Normal deviates of mean 0 and standard deviation 1 by the polar method:
 * G. Marsaglia and T. A. Bray, 1964, SIAM Review 6(3), 260–264 (page numbers
 * from memory).
 */
export function normalDeviates(random: Random): () => number {
  let kept = 0;
  let full = false;
  return () => {
    if (full) {
      full = false;
      return kept;
    }
    for (;;) {
      const x = 2 * random() - 1;
      const y = 2 * random() - 1;
      const square = x * x + y * y;
      if (square >= 1 || square === 0) continue;
      const stretch = Math.sqrt((-2 * Math.log(square)) / square);
      kept = y * stretch;
      full = true;
      return x * stretch;
    }
  };
}
