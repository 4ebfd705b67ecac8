import { describe, expect, test } from 'vitest';
import { combined, FLAG, legendsFrom, type LegendRow } from '../../../src/domain/lab/qualifiers';

const usual = legendsFrom([])(null).laboratory;

// EPA 540/R-99/008 (1999), National Functional Guidelines for organic data; J+, J− and
// the rest of the 2020 editions from memory.
test.each([
  ['U', FLAG.notDetected],
  ['J', FLAG.estimated],
  ['J+', FLAG.estimated | FLAG.high],
  ['J-', FLAG.estimated | FLAG.low],
  ['UJ', FLAG.notDetected | FLAG.estimated],
  ['R', FLAG.rejected],
  ['NJ', FLAG.tentative],
  ['E', FLAG.overRange],
  ['D', FLAG.dilution],
  ['B', FLAG.inBlank],
  ['B J', FLAG.inBlank | FLAG.estimated],
  ['JB', FLAG.inBlank | FLAG.estimated],
  ['J,D', FLAG.dilution | FLAG.estimated],
  ['u', FLAG.notDetected],
  ['', 0],
])('“%s” with the usual legend', (letters, flags) => {
  expect(usual(letters)).toEqual({ flags, unknown: [] });
});

test('a letter no legend explains is kept and said, not passed over', () => {
  expect(usual('J Q')).toEqual({ flags: FLAG.estimated | FLAG.unknown, unknown: ['Q'] });
  expect(usual('JQ')).toEqual({ flags: FLAG.unknown, unknown: ['JQ'] });
});

describe('the same letter at two laboratories', () => {
  const row = (laboratory: string | null, letter: string, meaning: string): LegendRow => ({
    laboratory,
    letter,
    meaning,
    source: 'invented',
  });
  const legends = legendsFrom([
    row('Laboratory A', 'E', 'over range'),
    row('Laboratory B', 'E', 'estimated'),
    row('Laboratory B', 'b', 'none'),
    row(null, 'J', 'estimated low'),
  ]);

  test('means what each says it means', () => {
    expect(legends('Laboratory A').laboratory('E').flags).toBe(FLAG.overRange);
    expect(legends('Laboratory B').laboratory('E').flags).toBe(FLAG.estimated);
  });
  test('a letter it does not list means what it means for all', () => {
    expect(legends('Laboratory A').laboratory('J').flags).toBe(FLAG.estimated | FLAG.low);
    expect(legends('Laboratory C').laboratory('U').flags).toBe(FLAG.notDetected);
  });
  test('the validator does not use a laboratory’s letters', () => {
    expect(legends('Laboratory B').validation('E').flags).toBe(FLAG.overRange);
  });
  test('a small letter listed on its own is not the capital', () => {
    expect(legends('Laboratory B').laboratory('b').flags).toBe(0);
    expect(legends('Laboratory B').laboratory('B').flags).toBe(FLAG.inBlank);
  });
});

describe('laboratory and validator together', () => {
  test('the validator’s judgement stands', () => {
    expect(combined(FLAG.rejected, FLAG.estimated)).toBe(FLAG.estimated);
    expect(combined(FLAG.tentative, FLAG.estimated)).toBe(FLAG.estimated);
    expect(combined(FLAG.estimated, FLAG.rejected)).toBe(FLAG.rejected);
    expect(combined(FLAG.estimated, FLAG.notDetected)).toBe(FLAG.notDetected);
  });
  test('a non-detect stays one', () => {
    expect(combined(FLAG.notDetected, FLAG.estimated)).toBe(FLAG.notDetected | FLAG.estimated);
  });
  test('what happened in the analysis holds whoever noted it', () => {
    expect(combined(FLAG.overRange | FLAG.inBlank, FLAG.estimated)).toBe(
      FLAG.overRange | FLAG.inBlank | FLAG.estimated,
    );
  });
  test('without the validator the laboratory’s letters stand', () => {
    expect(combined(FLAG.estimated | FLAG.low, 0)).toBe(FLAG.estimated | FLAG.low);
  });
});
