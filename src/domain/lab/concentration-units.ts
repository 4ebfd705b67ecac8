import {
  compareDecimals,
  compareNearly,
  decimalOf,
  multiplyDecimals,
  timesPowerOfTen,
  type Decimal,
  type Order,
} from './decimal';

/**
 * Units of concentration, related by exact powers of ten. Activity and mass,
 * water and soil, fibres and grams are never turned into one another.
 */
export type ConcentrationDimension =
  'mass per volume' | 'activity per volume' | 'fibres per volume' | 'mass per mass';

export type ConcentrationUnit = {
  readonly dimension: ConcentrationDimension;
  /** One of this unit is `times` × 10^`power` of the dimension's own unit, named below. */
  readonly power: number;
  readonly times: number;
  /** "N" in "mg/L as N"; null where the unit says nothing. */
  readonly basis: string | null;
  /** Parts per million and the like: a mass per volume only in dilute water. */
  readonly parts: boolean;
};

/** The unit each dimension is worked in. */
export const WORKED_IN: Readonly<Record<ConcentrationDimension, string>> = {
  'mass per volume': 'µg/L',
  'activity per volume': 'mBq/L',
  'fibres per volume': 'MFL',
  'mass per mass': 'µg/kg',
};

/** 1 pCi is 37 mBq: the curie is 3.7 × 10^10 Bq exactly (11th CGPM, 1964, resolution 7). */
const PICOCURIE_IN_MILLIBECQUEREL = 37;

type Row = readonly [ConcentrationDimension, power: number, times?: number];

const SPELLINGS: Readonly<Record<string, Row>> = {
  'g/l': ['mass per volume', 6],
  'mg/l': ['mass per volume', 3],
  'ug/l': ['mass per volume', 0],
  'ng/l': ['mass per volume', -3],
  'pg/l': ['mass per volume', -6],
  'mg/ml': ['mass per volume', 6],
  'ug/ml': ['mass per volume', 3],
  'ng/ml': ['mass per volume', 0],
  'pg/ml': ['mass per volume', -3],
  'pci/l': ['activity per volume', 0, PICOCURIE_IN_MILLIBECQUEREL],
  'pci/ml': ['activity per volume', 3, PICOCURIE_IN_MILLIBECQUEREL],
  'bq/l': ['activity per volume', 3],
  'mbq/l': ['activity per volume', 0],
  'bq/ml': ['activity per volume', 6],
  mfl: ['fibres per volume', 0],
  'fibres/l': ['fibres per volume', -6],
  'fibers/l': ['fibres per volume', -6],
  'g/kg': ['mass per mass', 6],
  'mg/kg': ['mass per mass', 3],
  'ug/kg': ['mass per mass', 0],
  'ng/kg': ['mass per mass', -3],
  'mg/g': ['mass per mass', 6],
  'ug/g': ['mass per mass', 3],
  'ng/g': ['mass per mass', 0],
  'pg/g': ['mass per mass', -3],
};

/** Parts per …: as mass per volume in water (1 L taken as 1 kg), as mass per mass in soil. */
const PARTS: Readonly<Record<string, number>> = { ppm: 3, ppb: 0, ppt: -3, ppq: -6 };

const BASIS = /^(.*?)\s*(?:,\s*)?\(?\s*\bas\s+([A-Za-z][A-Za-z0-9]{0,5})\s*\)?$/i;
const BASIS_SHORT = /^([munp]?g)[- ]?([NP])\/(m?l)$|^([munp]?g\/m?l)\s*[- ]\s*([NP])$/i;

/** No unit is written longer, and a hostile file might. */
const LONGEST = 40;

/**
 * The unit a text names; null for one we do not know. Spellings: µ, μ, u or mc;
 * L or l; "mg/L as N", "mg/L-N", "mg N/L".
 *
 * @param solid  whether the sample is soil: decides what a ppb is
 */
export function unitOf(text: string | null, solid = false): ConcentrationUnit | null {
  if (text === null || text.length > LONGEST) return null;
  const trimmed = text.trim().replace(/[µμ]/g, 'u').replace(/^mcg/i, 'ug');
  const short = BASIS_SHORT.exec(trimmed);
  if (short) {
    const [, mass, before, volume, whole, after] = short;
    return named(whole ?? `${mass}/${volume}`, before ?? after ?? null, solid);
  }
  const [, bare = trimmed, basis = null] = BASIS.exec(trimmed) ?? [];
  return named(bare, basis, solid);
}

function named(bare: string, basis: string | null, solid: boolean): ConcentrationUnit | null {
  const key = bare
    .trim()
    .toLowerCase()
    .replace(/\s*\/\s*/, '/');
  const upper = basis?.toUpperCase() ?? null;
  if (Object.hasOwn(PARTS, key))
    return {
      dimension: solid ? 'mass per mass' : 'mass per volume',
      power: PARTS[key] ?? 0,
      times: 1,
      basis: upper,
      parts: !solid,
    };
  const row = Object.hasOwn(SPELLINGS, key) ? SPELLINGS[key] : undefined;
  if (!row) return null;
  const [dimension, power, times = 1] = row;
  return { dimension, power, times, basis: upper, parts: false };
}

const TENS = [1, 10, 100, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9];

const scaled = (value: number, power: number) =>
  power === 0
    ? value
    : power < 0
      ? value / (TENS[-power] ?? 10 ** -power)
      : value * (TENS[power] ?? 10 ** power);

/** A number in the unit its dimension is worked in: 0.005 mg/L is 5 (µg/L). */
export const amountIn = (value: number, { times, power }: ConcentrationUnit): number =>
  scaled(value * times, power);

/** The same, exactly. */
export const exactAmountIn = (value: Decimal, { times, power }: ConcentrationUnit): Decimal =>
  timesPowerOfTen(multiplyDecimals(value, { digits: BigInt(times), exponent: 0 }), power);

/** A number as written, with a decimal point, and its unit. */
export type Amount = { readonly text: string; readonly unit: ConcentrationUnit };

export const amountOf = ({ text, unit }: Amount): number => amountIn(Number(text), unit);

/** Exactly, in the unit its dimension is worked in. The text must be a decimal. */
export function exactAmountOf({ text, unit }: Amount): Decimal {
  const written = decimalOf(text);
  if (!written) throw new Error(`not a decimal: ${text}`);
  return exactAmountIn(written, unit);
}

/** The order of two amounts of one dimension: exact where they are as good as equal. */
export const compareAmounts = (a: Amount, b: Amount): Order =>
  compareNearly(amountOf(a), amountOf(b), () =>
    compareDecimals(exactAmountOf(a), exactAmountOf(b)),
  );
