import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  addDecimals,
  compareDecimals,
  compareNearly,
  decimalOf,
  multiplyDecimals,
  numberOf,
  plainText,
  roundedToMultiple,
  type Decimal,
} from '../../../src/domain/lab/decimal';

const decimal = (text: string): Decimal => {
  const read = decimalOf(text);
  if (!read) throw new Error(`not a decimal: ${text}`);
  return read;
};

test.each([
  ['0.5', '0.5'],
  ['-12', '-12'],
  ['.5', '0.5'],
  ['5.', '5'],
  ['1.2E-3', '0.0012'],
  ['1.2e3', '1200'],
  ['0.0000040', '0.0000040'],
  ['−3.1', '-3.1'],
  ['007', '7'],
])('%s is read as %s', (text, plain) => {
  expect(plainText(decimal(text))).toBe(plain);
});

test.each([
  '',
  '.',
  '-',
  '1,200',
  '0x10',
  '1e',
  '1e1000',
  '5 U',
  'Infinity',
  'NaN',
  '9'.repeat(101),
])('“%s” is not a decimal', (text) => expect(decimalOf(text)).toBeNull());

test('0.1 and 0.2 are 0.3, which they are not in binary', () => {
  expect(0.1 + 0.2).not.toBe(0.3);
  expect(compareDecimals(addDecimals(decimal('0.1'), decimal('0.2')), decimal('0.3'))).toBe(0);
});

// The drinking-water example of the rule: 0.0054 counts as 0.005 (value from memory).
test.each([
  ['0.0054', '0.001', '0.005'],
  ['0.0055', '0.001', '0.006'],
  ['-0.0055', '0.001', '-0.006'],
  ['14.5', '1', '15'],
  ['0.4', '1', '0'],
  ['185', '37', '185'],
  ['204', '37', '222'],
])('%s in steps of %s is %s', (text, step, rounded) => {
  expect(compareDecimals(roundedToMultiple(decimal(text), decimal(step)), decimal(rounded))).toBe(
    0,
  );
});

describe('for any decimals', () => {
  const written = fc
    .tuple(fc.bigInt(-(10n ** 20n), 10n ** 20n), fc.integer({ min: -30, max: 30 }))
    .map(([digits, exponent]) => ({ digits, exponent }));

  test('the order is that of the fractions they are', () => {
    const fraction = ({ digits, exponent }: Decimal): [bigint, bigint] =>
      exponent >= 0 ? [digits * 10n ** BigInt(exponent), 1n] : [digits, 10n ** BigInt(-exponent)];
    fc.assert(
      fc.property(written, written, (a, b) => {
        const [[p, q], [r, s]] = [fraction(a), fraction(b)];
        const expected = p * s < r * q ? -1 : p * s > r * q ? 1 : 0;
        expect(compareDecimals(a, b)).toBe(expected);
      }),
    );
  });

  test('written out and read again they are the same number', () => {
    fc.assert(
      fc.property(written, (a) => {
        expect(compareDecimals(decimal(plainText(a)), a)).toBe(0);
      }),
    );
  });

  test('the double is the one the language reads from the same text', () => {
    fc.assert(
      fc.property(written, (a) => {
        expect(numberOf(a)).toBe(Number(plainText(a)));
      }),
    );
  });

  test('doubles decide only where they decide rightly', () => {
    const near = fc
      .tuple(written, fc.integer({ min: -3, max: 3 }), fc.integer({ min: 0, max: 25 }))
      .map(([a, step, places]): [Decimal, Decimal] => [
        a,
        addDecimals(a, multiplyDecimals(a, { digits: BigInt(step), exponent: -places })),
      ]);
    fc.assert(
      fc.property(near, ([a, b]) => {
        const exactly = compareDecimals(a, b);
        expect(compareNearly(numberOf(a), numberOf(b), () => exactly)).toBe(exactly);
      }),
    );
  });
});
