import { describe, expect, test } from 'vitest';
import { VERDICTS } from '../../../src/domain/lab/verdict';
import {
  KINDS,
  LEVEL_MARKS,
  STATUSES,
  SYMBOL_NAMES,
  SYMBOLS,
  verdictColour,
} from '../../../src/map/scene/symbols';

const drawing = (name: (typeof SYMBOL_NAMES)[number]) => JSON.stringify(SYMBOLS[name]);

test('every kind of point in every status, every verdict and every level has a shape', () => {
  const wanted = [
    ...KINDS.flatMap((kind) => STATUSES.map((status) => `${kind}, ${status}` as const)),
    ...VERDICTS.map((code) => `verdict ${code}` as const),
    ...LEVEL_MARKS.map((mark) => `level, ${mark}` as const),
  ];
  for (const name of wanted) expect(SYMBOLS[name].length, name).toBeGreaterThan(0);
});

test('no two shapes are drawn alike', () => {
  expect(new Set(SYMBOL_NAMES.map(drawing)).size).toBe(SYMBOL_NAMES.length);
});

describe('verdicts', () => {
  test('only what exceeds has the signal’s colour', () => {
    expect(VERDICTS.filter((code) => verdictColour(code) === 'signal')).toEqual([
      'exceeds',
      'exceeds-estimated',
    ]);
  });

  test('cannot tell shares no part with a non-detect or with what does not exceed', () => {
    const parts = (name: (typeof SYMBOL_NAMES)[number]) => SYMBOLS[name].map(({ d }) => d);
    const asks = parts('verdict cannot-tell');
    for (const other of ['verdict not-detected', 'verdict does-not-exceed'] as const)
      expect(parts(other).some((d) => asks.includes(d))).toBe(false);
  });
});

test('shapes stay inside their box of 24', () => {
  // Absolute coordinates only: an arc's radii and a relative step may be anything.
  for (const name of SYMBOL_NAMES)
    for (const { d } of SYMBOLS[name])
      for (const [, letter, rest] of d.matchAll(/([MLHVCQT])([^A-Za-z]*)/g))
        for (const number of rest?.match(/-?\d+(\.\d+)?/g) ?? []) {
          expect(Number(number), `${name} ${letter}`).toBeGreaterThanOrEqual(0);
          expect(Number(number), `${name} ${letter}`).toBeLessThanOrEqual(24);
        }
});
