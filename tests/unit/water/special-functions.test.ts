import { describe, expect, test } from 'vitest';
import { chiSquaredAbove, fAbove, tAbove } from '../../../src/domain/water/distributions';
import { betaParts, gammaParts, logGamma } from '../../../src/domain/water/special-functions';
import { off } from './wells';

describe('the gamma function', () => {
  // Γ(¼) and Γ(⅓) from any handbook (Abramowitz and Stegun, 1964, table 1.1); the rest are factorials and √π.
  test.each([
    [0.25, 3.6256099082],
    [1 / 3, 2.6789385347],
    [0.5, Math.sqrt(Math.PI)],
    [1, 1],
    [2, 1],
    [5, 24],
    [11, 3_628_800],
    [2.5, 0.75 * Math.sqrt(Math.PI)],
  ])('of %d', (x, gamma) => {
    expect(off(Math.exp(logGamma(x)), gamma)).toBeLessThan(1e-10);
  });

  test('goes up a step by its own number, under a half too', () => {
    for (const x of [0.01, 0.1, 0.3, 0.49, 0.5, 0.51, 3.7])
      expect(logGamma(x + 1) - logGamma(x)).toBeCloseTo(Math.log(x), 11);
  });
});

describe('the two parts of a distribution', () => {
  test('at nothing and at the end there is only one', () => {
    expect(gammaParts(2, 0)).toEqual([0, 1]);
    expect(gammaParts(2, -1)).toEqual([0, 1]);
    expect(gammaParts(2, Infinity)).toEqual([1, 0]);
    expect(betaParts(2, 3, 0, 1)).toEqual([0, 1]);
    expect(betaParts(2, 3, 1, 0)).toEqual([1, 0]);
  });

  test('gamma of shape 1 and 2 in closed form, either side of the middle', () => {
    for (const x of [0.01, 0.5, 1.9, 2.1, 3, 10, 40]) {
      expect(off(gammaParts(1, x)[1], Math.exp(-x))).toBeLessThan(1e-12);
      expect(off(gammaParts(2, x)[1], Math.exp(-x) * (1 + x))).toBeLessThan(1e-12);
      expect(gammaParts(2, x)[0] + gammaParts(2, x)[1]).toBeCloseTo(1, 12);
    }
  });

  test('beta of shapes 2 and 3 in closed form: 6x² − 8x³ + 3x⁴', () => {
    for (const x of [0.01, 0.2, 0.4, 0.43, 0.7, 0.99]) {
      const below = 6 * x ** 2 - 8 * x ** 3 + 3 * x ** 4;
      expect(off(betaParts(2, 3, x, 1 - x)[0], below)).toBeLessThan(1e-11);
      expect(off(betaParts(3, 2, 1 - x, x)[1], below)).toBeLessThan(1e-11);
    }
  });
});

describe('degrees of freedom that are few, or not whole', () => {
  test('t with one: ½ − arctan(t)/π; with two: ½ − t/(2√(2 + t²))', () => {
    for (const t of [-3, -0.5, 0, 0.5, 3, 12.706]) {
      expect(tAbove(t, 1)).toBeCloseTo(0.5 - Math.atan(t) / Math.PI, 12);
      expect(tAbove(t, 2)).toBeCloseTo(0.5 - t / (2 * Math.sqrt(2 + t * t)), 12);
    }
  });

  test('χ² with half a degree goes from all to none, with two as an exponential', () => {
    expect(chiSquaredAbove(0, 0.5)).toBe(1);
    expect(chiSquaredAbove(3, 2)).toBeCloseTo(Math.exp(-1.5), 12);
    // Chance over x falls with x and grows with the degrees of freedom.
    const at = (x: number, freedom: number) => chiSquaredAbove(x, freedom);
    expect(at(1, 0.5)).toBeLessThan(at(0.5, 0.5));
    expect(at(1, 0.5)).toBeLessThan(at(1, 1));
    // P(¼, ½) by its series: x^a e^−x Σ x^k/(a(a+1)…(a+k)) over Γ(a).
    let [term, sum] = [1 / 0.25, 1 / 0.25];
    for (let k = 1; k < 60; k++) sum += term *= 0.5 / (0.25 + k);
    const below = (0.5 ** 0.25 * Math.exp(-0.5) * sum) / 3.6256099082;
    expect(at(1, 0.5)).toBeCloseTo(1 - below, 9);
  });

  test('F at nothing, below it and without bound', () => {
    expect([fAbove(0, 2, 3), fAbove(-1, 2, 3), fAbove(Infinity, 2, 3)]).toEqual([1, 1, 0]);
    // With two over n it is (1 + 2f/n)^(−n/2).
    for (const f of [0.1, 1, 9.552])
      expect(off(fAbove(f, 2, 3), (1 + (2 * f) / 3) ** -1.5)).toBeLessThan(1e-11);
  });
});
