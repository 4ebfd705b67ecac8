import type { Source, Term, Work } from '../work';
import { amountIn, type Amount, type ConcentrationUnit } from './concentration-units';
import { decimalOf, plainText } from './decimal';
import type { Level } from './level';
import { limitOf } from './limit';
import { valueOf, type Reading } from './reading';
import { ratioToLevel, type Judged } from './screening';
import { becauseOf, levelText, resultText } from './verdict-words';

/** Figures a ratio is shown to. */
const RATIO_FIGURES = 3;
const MOST_DECIMALS = 20;

/**
 * The comparison worked out: the reported number, put into the level's unit
 * where the two differ, over the level. Null where nothing was compared.
 * Numbers are in the units named beside them.
 */
export function verdictWork(judged: Judged): Work | null {
  const { reading, match } = judged;
  const ratio = ratioToLevel(judged);
  const { level } = match;
  const compared =
    reading.state === 'not detected' ? level && limitOf(reading, level.decides) : valueOf(reading);
  if (ratio === null || level === null || level.value === null || !compared) return null;

  const symbol = reading.state === 'not detected' ? 'limit' : 'result';
  const value = ratio.value;
  return {
    title: `${reading.result.analyte} in ${reading.result.sample}: ${resultText(reading, compared)} against ${levelText(level)}`,
    symbol: 'ratio',
    formula: `${symbol} / level`,
    terms: [resultTerm(symbol, reading, compared, level), levelTerm(level, level.value)],
    answer: { value, dimension: 'number' },
    decimals: decimalsFor(value),
    note: becauseOf(judged),
  };
}

const decimalsFor = (value: number) =>
  value === 0 ? 0 : clamped(RATIO_FIGURES - 1 - Math.floor(Math.log10(Math.abs(value))));

const clamped = (decimals: number) => Math.min(MOST_DECIMALS, Math.max(0, decimals));

/** Written out with a decimal point, so that a calculator takes it. */
const writtenOut = (text: string) => {
  const exact = decimalOf(text);
  return exact === null ? text : plainText(exact);
};

const decimalsOf = (text: string) => clamped(-(decimalOf(text)?.exponent ?? 0));

function levelTerm(level: Level, { text }: Amount): Term {
  const { row, section, source } = level.input;
  const cited = [source, section].filter(Boolean).join(', ') || 'as given';
  return {
    symbol: 'level',
    name: `${level.input.analyte}, ${level.input.set}, ${level.input.unit.trim()}`,
    value: Number(text),
    dimension: 'number',
    text: writtenOut(text),
    from:
      row === undefined
        ? { kind: 'citation', text: cited }
        : { kind: 'cell', table: 'screening_levels', row, column: 'value' },
  };
}

/** The reported number as it stands, or the work that puts it into the level's unit. */
function resultTerm(symbol: string, reading: Reading, compared: Amount, level: Level): Term {
  const { result } = reading;
  const column = 'column' in compared ? String(compared.column) : 'value';
  const from: Source =
    result.row === undefined
      ? { kind: 'citation', text: 'as reported' }
      : { kind: 'cell', table: 'results', row: result.row, column };
  const what = symbol === 'limit' ? 'limit' : 'result';
  const reported: Term = {
    symbol: 'reported',
    name: `${what} as reported, ${result.unit?.trim() ?? ''}`,
    value: Number(compared.text),
    dimension: 'number',
    text: writtenOut(compared.text),
    from,
  };
  const levelUnit = level.value?.unit ?? compared.unit;
  const conversion = conversionBetween(compared.unit, levelUnit);
  const inUnit = level.input.unit.trim();
  if (conversion === null) return { ...reported, symbol, name: `${what}, ${inUnit}` };

  const value = amountIn(Number(compared.text), compared.unit) / amountIn(1, levelUnit);
  const work: Work = {
    title: `${what === 'limit' ? 'Limit' : 'Result'} in ${inUnit}`,
    symbol,
    formula: conversion.formula,
    terms: [reported, ...conversion.terms],
    answer: { value, dimension: 'number' },
    decimals: conversion.exact
      ? clamped(decimalsOf(compared.text) - conversion.power)
      : decimalsFor(value) + 1,
  };
  return {
    symbol,
    name: `${what} in ${inUnit}`,
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
  const same = from.times === to.times;
  const up = (same ? 1 : from.times) * 10 ** Math.max(0, power);
  const down = (same ? 1 : to.times) * 10 ** Math.max(0, -power);
  const terms = [factor('factor', up), factor('divisor', down)];
  if (up === 1 && down === 1) return null;
  if (down === 1)
    return { formula: 'reported * factor', terms: terms.slice(0, 1), power, exact: same };
  if (up === 1) return { formula: 'reported / divisor', terms: terms.slice(1), power, exact: same };
  return { formula: 'reported * factor / divisor', terms, power, exact: same };
}

const factor = (symbol: string, value: number): Term => ({
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
