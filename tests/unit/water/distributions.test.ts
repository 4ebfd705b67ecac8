import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import {
  chiSquaredAbove,
  chiSquaredQuantile,
  fAbove,
  fQuantile,
  normalAbove,
  normalQuantile,
  tAbove,
  tQuantile,
} from '../../../src/domain/water/distributions';

type Row = [name: string, x: number, freedom: number[], value: number];
const values: { quantiles: Row[]; above: Row[] } = JSON.parse(
  readFileSync(new URL('../../fixtures/distributions/values.json', import.meta.url), 'utf8'),
);

const QUANTILE: Record<string, (p: number, a: number, b: number) => number> = {
  normal: normalQuantile,
  t: tQuantile,
  'chi-squared': chiSquaredQuantile,
  F: fQuantile,
};
const ABOVE: Record<string, (x: number, a: number, b: number) => number> = {
  normal: normalAbove,
  t: tAbove,
  'chi-squared': chiSquaredAbove,
  F: fAbove,
};

const worst = (rows: Row[], by: typeof QUANTILE) =>
  Math.max(
    ...rows.map(([name, x, [a = NaN, b = NaN], value]) => {
      const found = by[name]!(x, a, b);
      return value === 0 ? Math.abs(found) : Math.abs(found / value - 1);
    }),
  );

describe('against 40-digit arithmetic (mpmath), scipy agreeing', () => {
  test.each(Object.keys(QUANTILE))('%s: quantiles from 1e-6 to 0.9999 agree to 1e-11', (name) => {
    const rows = values.quantiles.filter((row) => row[0] === name);
    expect(rows.length).toBeGreaterThan(10);
    expect(worst(rows, QUANTILE)).toBeLessThan(1e-11);
  });

  test.each(Object.keys(ABOVE))('%s: the chance of more agrees to 1e-11, however small', (name) => {
    const rows = values.above.filter((row) => row[0] === name);
    expect(rows.length).toBeGreaterThan(10);
    expect(worst(rows, ABOVE)).toBeLessThan(1e-11);
  });
});

describe('values as tables print them', () => {
  test.each([
    // Values from memory, as in any statistics text; the first four stand in the project's basis.
    ['χ² 0.95, 2 degrees', chiSquaredQuantile(0.95, 2), 5.991, 3],
    ['χ² 0.95, 3 degrees', chiSquaredQuantile(0.95, 3), 7.815, 3],
    ['F 0.95, 2 over 3', fQuantile(0.95, 2, 3), 9.5521, 4],
    ['t 0.975, 3 degrees', tQuantile(0.975, 3), 3.182446, 6],
    ['t 0.975, 1 degree', tQuantile(0.975, 1), 12.706, 3],
    ['F 0.95, 2 over 1', fQuantile(0.95, 2, 1), 199.5, 1],
    ['normal 0.975', normalQuantile(0.975), 1.959964, 6],
  ])('%s', (_, found, printed, decimals) => {
    expect(found).toBeCloseTo(printed, decimals);
  });
});

test('two degrees of freedom have closed forms: −2 ln(1 − p), and (m/2)((1 − p)^(−2/m) − 1)', () => {
  for (const p of [0.01, 0.3, 0.5, 0.9, 0.99]) {
    expect(chiSquaredQuantile(p, 2)).toBeCloseTo(-2 * Math.log1p(-p), 12);
    for (const m of [1, 2, 3, 19])
      expect(fQuantile(p, 2, m) / ((m / 2) * ((1 - p) ** (-2 / m) - 1))).toBeCloseTo(1, 12);
  }
});

test('the middle of a symmetric distribution is zero, and its two halves mirror', () => {
  expect(normalQuantile(0.5)).toBe(0);
  expect(tQuantile(0.5, 4)).toBe(0);
  expect(tQuantile(0.25, 4)).toBe(-tQuantile(0.75, 4));
  expect(tAbove(-1.3, 4) + tAbove(1.3, 4)).toBeCloseTo(1, 15);
});

test('nothing is beyond the end of a distribution', () => {
  expect(fAbove(0, 2, 3)).toBe(1);
  expect(fAbove(Infinity, 2, 3)).toBe(0);
  expect(chiSquaredAbove(0, 3)).toBe(1);
  expect(chiSquaredAbove(Infinity, 3)).toBe(0);
});
