import { evaluate, isFunctionName } from './arithmetic';
import {
  fixed,
  inPrintUnits,
  unitOfDimension,
  unitsTogether,
  usualDecimals,
  type PrintUnits,
} from './show';
import { METRES_PER, type LengthUnit } from './units';
import type { Quantified, Source, Term, Work } from './work';

/** A term as printed: its symbol, its number in the printed unit, where it came from. */
export type PrintedTerm = {
  readonly symbol: string;
  readonly name: string;
  readonly number: string;
  readonly unit: string;
  readonly from: Source;
  /** How the recorded number became this one, where it was recorded in another unit. */
  readonly conversion: string | null;
};

export type PrintedWork = {
  readonly title: string;
  /** "head = mp - dtw" */
  readonly formula: string;
  /** "= 102.47 - 8.31": the formula with its numbers in place. */
  readonly substituted: string;
  /** "94.16", and its unit. */
  readonly answer: string;
  readonly unit: string;
  readonly terms: readonly PrintedTerm[];
};

/** More digits than this never help: a double has about seventeen. */
const MOST_EXTRA_DIGITS = 12;

/**
 * A line of work in the site's units. Recorded numbers are printed as they were
 * written. Calculated ones get as many digits as it takes for the printed line,
 * worked on a calculator, to give the printed answer within half its last digit.
 *
 * A line that holds both vertical and horizontal lengths is printed with all of
 * them in the vertical unit, so that it needs no factor; the conversion of each
 * recorded horizontal length is shown beside it.
 */
export function printWork(work: Work, siteUnits: PrintUnits): PrintedWork {
  const units = unitsTogether(
    [...work.terms, work.answer].map(({ dimension }) => dimension),
    siteUnits,
  );
  const answer = inPrintUnits(work.answer, units);
  const printedAnswer = fixed(answer, work.decimals);
  const half = 0.5 * 10 ** -work.decimals;

  let numbers = numbersOf(work, units, 0);
  for (let extra = 1; extra <= MOST_EXTRA_DIGITS; extra++) {
    const worked = evaluate(work.formula, valuesOf(work, numbers));
    const apart = worked === null ? Infinity : Math.abs(worked - plainNumber(printedAnswer));
    const around = work.answer.dimension === 'angle' ? Math.min(apart, 360 - apart) : apart;
    if (around <= half * (1 + 1e-9)) break;
    numbers = numbersOf(work, units, extra);
  }

  return {
    title: work.title,
    formula: `${work.symbol} = ${work.formula}`,
    substituted: substitute(work, numbers),
    answer: printedAnswer,
    unit: unitOfDimension(work.answer.dimension, units),
    terms: work.terms.map((term, i) => ({
      symbol: term.symbol,
      name: term.name,
      number: numbers[i] ?? '',
      unit: unitOfDimension(term.dimension, units),
      from: term.from,
      conversion: conversionOf(term, numbers[i] ?? '', units),
    })),
  };
}

/** The printed number as arithmetic takes it: with a plain minus. */
export const plainNumber = (text: string) => Number(text.replace('−', '-'));

/** A term's own decimals: as many as tell it to five figures, or to the usual place for a length. */
function naturalDecimals({ value, dimension }: Quantified, units: PrintUnits): number {
  const printed = Math.abs(inPrintUnits({ value, dimension }, units));
  if (Number.isInteger(printed) && dimension === 'number') return 0;
  if (dimension === 'length') return usualDecimals(units.vertical);
  if (dimension === 'distance') return usualDecimals(units.grid);
  if (dimension === 'angle') return 1;
  return printed === 0 ? 0 : Math.max(0, 4 - Math.floor(Math.log10(printed)));
}

function numbersOf(work: Work, units: PrintUnits, extra: number): string[] {
  return work.terms.map((term) => {
    const printed = inPrintUnits(term, units);
    if (term.text !== undefined && plainNumber(term.text) === Number(printed.toPrecision(12)))
      return term.text.replace('-', '−');
    const decimals = Math.min(100, naturalDecimals(term, units) + extra);
    return fixed(printed, decimals);
  });
}

const valuesOf = (work: Work, numbers: readonly string[]) =>
  new Map(work.terms.map(({ symbol }, i) => [symbol, plainNumber(numbers[i] ?? '')]));

const SYMBOL = /[a-zA-Zα-ωΑ-Ω][\wα-ωΑ-Ω₀-₉′]*/g;

function substitute(work: Work, numbers: readonly string[]): string {
  const shown = new Map(work.terms.map(({ symbol }, i) => [symbol, numbers[i] ?? '']));
  return work.formula.replace(SYMBOL, (name) => {
    const number = isFunctionName(name) ? undefined : shown.get(name);
    if (number === undefined) return name;
    return number.startsWith('−') ? `(${number})` : number;
  });
}

function conversionOf(term: Term, number: string, units: PrintUnits): string | null {
  if (term.text === undefined || term.recordedUnit === undefined) return null;
  const printed: LengthUnit | null =
    term.dimension === 'length'
      ? units.vertical
      : term.dimension === 'distance'
        ? units.grid
        : null;
  if (printed === null || printed === term.recordedUnit) return null;
  const factor = METRES_PER[term.recordedUnit] / METRES_PER[printed];
  return `${number} = ${term.text} × ${factor.toPrecision(10)}`;
}
