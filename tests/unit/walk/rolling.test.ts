import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { rolled } from '../../../src/domain/walk/rolling';

describe('a number that changes before people’s eyes', () => {
  test('has the digits and the unit of what it comes to, at every moment', () => {
    expect(rolled('126°', '106°', 0.5)).toBe('116°');
    expect(rolled('0.00399', '0.00428', 0.5)).toMatch(/^0\.004\d\d$/);
    expect(rolled('958.21 ft', '957.76 ft', 1)).toBe('957.76 ft');
    expect(rolled('1,240 µg/L', '95 µg/L', 0)).toBe('1240 µg/L');
  });

  test('turns a direction the shorter way round, through north', () => {
    expect(rolled('350°', '10°', 0.5)).toBe('0°');
    expect(rolled('10°', '350°', 0.25)).toBe('5°');
  });

  test('does not roll between units, or from words', () => {
    expect(rolled('95 µg/L', '0.3 mg/L', 0.5)).toBe('0.3 mg/L');
    expect(rolled('not resolved', '106°', 0.5)).toBe('106°');
    expect(rolled('106°', 'not resolved', 0.5)).toBe('not resolved');
  });

  test('ends as it is written, whatever it was', () => {
    fc.assert(fc.property(fc.string(), fc.string(), (from, to) => rolled(from, to, 1) === to));
  });
});
