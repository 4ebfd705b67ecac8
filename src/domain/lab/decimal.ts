/**
 * Exact decimals, for the one question binary numbers get wrong: whether a
 * result equals its level. 0.005 mg/L and 5.0 µg/L are one concentration, and
 * as doubles they need not be.
 */

/** The number digits × 10^exponent; the sign is the digits'. */
export type Decimal = { readonly digits: bigint; readonly exponent: number };

export type Order = -1 | 0 | 1;

const WRITTEN = /^([-+−]?)(\d*)\.?(\d*)(?:[eE]([-+−]?\d{1,3}))?$/;

/** No laboratory writes more, and a hostile file might. */
const MOST_DIGITS = 100;

/**
 * A decimal as written with a decimal point and no grouping: "0.5", "-12",
 * ".5", "1.2E-3". Null for anything else.
 */
export function decimalOf(text: string): Decimal | null {
  if (text.length > 2 * MOST_DIGITS) return null;
  const match = WRITTEN.exec(text);
  if (!match) return null;
  const [, sign = '', whole = '', fraction = '', power = '0'] = match;
  const digits = whole + fraction;
  if (digits === '' || digits.length > MOST_DIGITS) return null;
  const magnitude = BigInt(digits);
  return {
    digits: sign === '' || sign === '+' ? magnitude : -magnitude,
    exponent: Number(power.replace('−', '-')) - fraction.length,
  };
}

/** The two numbers' digits over one power of ten, the smaller. */
function aligned(a: Decimal, b: Decimal): readonly [bigint, bigint, number] {
  const exponent = Math.min(a.exponent, b.exponent);
  const scaled = (n: Decimal) => n.digits * 10n ** BigInt(n.exponent - exponent);
  return [scaled(a), scaled(b), exponent];
}

export function compareDecimals(a: Decimal, b: Decimal): Order {
  const [left, right] = aligned(a, b);
  return left < right ? -1 : left > right ? 1 : 0;
}

export function addDecimals(a: Decimal, b: Decimal): Decimal {
  const [left, right, exponent] = aligned(a, b);
  return { digits: left + right, exponent };
}

export const multiplyDecimals = (a: Decimal, b: Decimal): Decimal => ({
  digits: a.digits * b.digits,
  exponent: a.exponent + b.exponent,
});

export const timesPowerOfTen = (a: Decimal, power: number): Decimal => ({
  digits: a.digits,
  exponent: a.exponent + power,
});

/**
 * The multiple of `unit` (above zero) nearest to a number, halves away from
 * zero: 0.0054 in thousandths is 0.005, 0.0055 is 0.006.
 */
export function roundedToMultiple(a: Decimal, unit: Decimal): Decimal {
  const [number, step, exponent] = aligned(a, unit);
  const half = number < 0n ? -step : step;
  return { digits: ((2n * number + half) / (2n * step)) * step, exponent };
}

/** The nearest double. */
export const numberOf = (a: Decimal): number => Number(`${a.digits}e${a.exponent}`);

/** Written out with a decimal point, never in powers of ten: "0.005". */
export function plainText({ digits, exponent }: Decimal): string {
  const sign = digits < 0n ? '-' : '';
  const magnitude = `${digits < 0n ? -digits : digits}`;
  if (exponent >= 0) return sign + (magnitude === '0' ? '0' : magnitude + '0'.repeat(exponent));
  const padded = magnitude.padStart(1 - exponent, '0');
  return `${sign}${padded.slice(0, exponent)}.${padded.slice(exponent)}`;
}

/** Doubles closer than this, as a share of the larger, are compared as decimals instead. */
const NEAR = 1e-12;

/** Below this a double no longer carries its full digits. */
const FULL_DIGITS = 1e-290;

/** Whether two doubles are far enough apart that their order is the numbers' own. */
export function apartAsDoubles(a: number, b: number): boolean {
  const size = Math.max(Math.abs(a), Math.abs(b));
  return Math.abs(a - b) > NEAR * size && size > FULL_DIGITS;
}

/** The order of two numbers known as doubles and, where those are as good as equal, exactly. */
export const compareNearly = (a: number, b: number, exactly: () => Order): Order =>
  apartAsDoubles(a, b) ? (a < b ? -1 : 1) : exactly();
