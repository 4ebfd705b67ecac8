import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { worst } from '../../accuracy/case';
import { agrees, allCases, differenceWords, tableOf, withTable } from '../../accuracy/table';
import { TOP } from '../folder';

const cases = allCases();

test.each(cases.map((one) => [one.quantity, one.source, one] as const))(
  '%s: %s',
  (_, __, { difference, tolerance }) => expect(difference).toBeLessThanOrEqual(tolerance),
);

test('the README shows the table as it is today: if not, `npm run accuracy`', () => {
  const page = readFileSync(join(TOP, 'README.md'), 'utf8');
  expect(withTable(page, tableOf(cases))).toBe(page);
});

describe('the comparison can fail', () => {
  const named = { quantity: 'head', source: 'nobody', known: 'worked by hand' } as const;
  const as = { unit: 'ft', tolerance: 0.01 };

  test('a difference past the tolerance, no answer, and no values at all', () => {
    expect(agrees(worst(named, 'heads', [[1, 1.005]], as))).toBe(true);
    expect(agrees(worst(named, 'heads', [[1, 1.02]], as))).toBe(false);
    expect(agrees(worst(named, 'heads', [[1, null]], as))).toBe(false);
    expect(agrees(worst(named, 'heads', [[1, NaN]], as))).toBe(false);
    expect(agrees(worst(named, 'heads', [], as))).toBe(false);
  });

  test('a difference is printed to two figures, a rounding as the power of ten above it', () => {
    expect([0.01772, 3.1e-13, 2e-11, 0].map(differenceWords)).toEqual([
      '0.018',
      '≤ 1e-12',
      '≤ 1e-10',
      '0',
    ]);
  });
});
