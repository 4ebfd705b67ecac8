import { describe, expect, test } from 'vitest';
import { normalAbove } from '../../../src/domain/water/distributions';
import { normalDeviates, randomFrom, stateOf, xoshiro128 } from '../../../src/domain/water/random';

test('xoshiro128** 1.1: the authors’ own first ten numbers from the state 1, 2, 3, 4', () => {
  // As quoted, made with the reference C code, in the tests of rust-random/rngs,
  // rand_xoshiro/src/xoshiro128starstar.rs.
  const next = xoshiro128([1, 2, 3, 4]);
  expect(Array.from({ length: 10 }, next)).toEqual([
    11520, 0, 5927040, 70819200, 2031721883, 1637235492, 1287239034, 3734860849, 3729100597,
    4258142804,
  ]);
});

test('the state of a seed is two numbers of SplitMix64, low word first', () => {
  // 6457827717110365317 and 3203168211198807973 are the first two from the seed
  // 1234567, as often quoted (values from memory).
  const words = (n: bigint) => [Number(n & 0xffffffffn), Number(n >> 32n)];
  expect(stateOf(1234567)).toEqual([
    ...words(6457827717110365317n),
    ...words(3203168211198807973n),
  ]);
});

test('one seed, one sequence; another seed, another', () => {
  const ten = (seed: number) => Array.from({ length: 10 }, randomFrom(seed));
  expect(ten(42)).toEqual(ten(42));
  expect(ten(42)).not.toEqual(ten(43));
  expect(ten(-1)).not.toEqual(ten(0));
});

describe('a million numbers', () => {
  const draws = 1_000_000;

  test('spread evenly over 0 to 1: a hundred boxes, χ² between its 0.0001 and 0.9999', () => {
    const random = randomFrom(1);
    const boxes = new Float64Array(100);
    for (let k = 0; k < draws; k++) {
      const u = random();
      if (!(u >= 0 && u < 1)) throw new Error(`${u} is out of range`);
      boxes[Math.floor(u * 100)]! += 1;
    }
    const expected = draws / 100;
    const chi = boxes.reduce((sum, found) => sum + (found - expected) ** 2 / expected, 0);
    // scipy.stats.chi2.ppf([0.0001, 0.9999], 99)
    expect(chi).toBeGreaterThan(54.98);
    expect(chi).toBeLessThan(160.06);
  });

  test('normal: mean, variance, kurtosis and tails within four standard errors', () => {
    const normal = normalDeviates(randomFrom(2));
    const sums = [0, 0, 0];
    const beyond = [1, 2, 3, 4];
    const found = beyond.map(() => 0);
    let product = 0;
    let last = normal();
    for (let k = 0; k < draws; k++) {
      const z = normal();
      [1, 2, 4].forEach((power, i) => (sums[i]! += z ** power));
      beyond.forEach((limit, i) => (found[i]! += z > limit ? 1 : 0));
      product += z * last;
      last = z;
    }
    const root = Math.sqrt(draws);
    expect(Math.abs(sums[0]! / draws)).toBeLessThan(4 / root);
    expect(Math.abs(sums[1]! / draws - 1)).toBeLessThan((4 * Math.SQRT2) / root);
    expect(Math.abs(sums[2]! / draws - 3)).toBeLessThan((4 * Math.sqrt(96)) / root);
    expect(Math.abs(product / draws)).toBeLessThan(4 / root);
    beyond.forEach((limit, i) => {
      const chance = normalAbove(limit);
      const error = Math.sqrt((chance * (1 - chance)) / draws);
      expect(Math.abs(found[i]! / draws - chance), `beyond ${limit}`).toBeLessThan(4 * error);
    });
  });
});

test('normal deviates come in pairs, both from one place in the circle; what lies outside is passed over', () => {
  const given = [0.95, 0.9, 0.75, 0.6, 0.5, 0.5, 0.25, 0.5];
  const normal = normalDeviates(() => given.shift()!);
  // (0.9, 0.8) lies outside; (0.5, 0.2) has the square 0.29; (0, 0) says nothing; then (−0.5, 0).
  const stretch = (square: number) => Math.sqrt((-2 * Math.log(square)) / square);
  expect(normal()).toBeCloseTo(0.5 * stretch(0.29), 12);
  expect(given).toHaveLength(4);
  expect(normal()).toBeCloseTo(0.2 * stretch(0.29), 12);
  expect(given).toHaveLength(4);
  expect(normal()).toBeCloseTo(-0.5 * stretch(0.25), 12);
  expect(given).toHaveLength(0);
  expect(normal()).toBeCloseTo(0, 12);
});
