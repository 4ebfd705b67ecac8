import type { Source, Term, Work } from '../work';
import { amountIn, type Amount, type ConcentrationUnit } from './concentration-units';
import { decimalOf, plainText } from './decimal';
import type { Limit } from './limit';
import type { Reading } from './reading';

const MOST_DECIMALS = 20;

const clamped = (decimals: number) => Math.min(MOST_DECIMALS, Math.max(0, decimals));

/** Decimals that show a number to so many figures. */
export const decimalsFor = (value: number, figures: number) =>
  value === 0 ? 0 : clamped(figures - 1 - Math.floor(Math.log10(Math.abs(value))));

/** Decimals a number is written to. */
const decimalsOf = (text: string) => clamped(-(decimalOf(text)?.exponent ?? 0));

/** Written out with a decimal point, so that a calculator takes it. */
export const writtenOut = (text: string) => {
  const exact = decimalOf(text);
  return exact === null ? text : plainText(exact);
};

/** A unit and how it is written. */
export type NamedUnit = { readonly unit: ConcentrationUnit; readonly text: string };

/**
 * A reported number as a term in a unit: as it stands, or with the work that
 * puts it there by powers of ten.
 */
export function amountTerm(
  symbol: string,
  reading: Reading,
  amount: Amount | Limit,
  into: NamedUnit,
  name = '',
): Term {
  const { result } = reading;
  const what = `${reading.state === 'not detected' ? 'limit' : 'result'}${name && ` of ${name}`}`;
  const column = 'column' in amount ? amount.column : 'value';
  const from: Source =
    result.row === undefined
      ? { kind: 'citation', text: 'as reported' }
      : { kind: 'cell', table: 'results', row: result.row, column };
  const reported: Term = {
    symbol: 'reported',
    name: `${what} as reported, ${result.unit?.trim() ?? ''}`,
    value: Number(amount.text),
    dimension: 'number',
    text: writtenOut(amount.text),
    from,
  };
  const conversion = conversionBetween(amount.unit, into.unit);
  if (conversion === null) return { ...reported, symbol, name: `${what}, ${into.text}` };

  const value = amountIn(Number(amount.text), amount.unit) / amountIn(1, into.unit);
  const work: Work = {
    title: `${what.charAt(0).toUpperCase()}${what.slice(1)} in ${into.text}`,
    symbol,
    formula: conversion.formula,
    terms: [reported, ...conversion.terms],
    answer: { value, dimension: 'number' },
    decimals: conversion.exact
      ? clamped(decimalsOf(amount.text) - conversion.power)
      : decimalsFor(value, 4),
  };
  return {
    symbol,
    name: `${what} in ${into.text}`,
    value,
    dimension: 'number',
    from: { kind: 'work', work },
  };
}

type Conversion = {
  readonly formula: string;
  readonly terms: readonly Term[];
  /** Power of ten the number is multiplied by. */
  readonly power: number;
  /** Whether a power of ten is all. */
  readonly exact: boolean;
};

/** From one unit to another of its dimension; null where they are the same size. */
function conversionBetween(from: ConcentrationUnit, to: ConcentrationUnit): Conversion | null {
  const power = from.power - to.power;
  const exact = from.times === to.times;
  const up = (exact ? 1 : from.times) * 10 ** Math.max(0, power);
  const down = (exact ? 1 : to.times) * 10 ** Math.max(0, -power);
  const [factor, divisor] = [between('factor', up), between('divisor', down)];
  if (up === 1 && down === 1) return null;
  if (down === 1) return { formula: 'reported * factor', terms: [factor], power, exact };
  if (up === 1) return { formula: 'reported / divisor', terms: [divisor], power, exact };
  return { formula: 'reported * factor / divisor', terms: [factor, divisor], power, exact };
}

const between = (symbol: string, value: number): Term => ({
  symbol,
  name: 'between the two units, exactly',
  value,
  dimension: 'number',
  text: String(value),
  from: {
    kind: 'citation',
    text: 'International System of Units, powers of ten; 1 pCi is 37 mBq exactly',
  },
});
