import { decimalsIn } from '../show';
import type { Written } from '../site/schema';
import { metres, type LengthUnit, type Metres } from '../units';
import type { Dimension, Source, Term, Work, Worked } from '../work';

/** A length that goes into a calculation, and where it came from. */
export type Given = {
  readonly value: Metres;
  readonly from: Source;
  /** How it was written, where somebody wrote it. */
  readonly text?: string;
  readonly recordedUnit?: LengthUnit;
};

/** A length somebody wrote in a table. */
export const written = (of: Written<Metres, LengthUnit>, from: Source): Given => ({
  value: of.value,
  from,
  text: of.text,
  recordedUnit: of.unit,
});

/** A length chosen for the plan rather than recorded: a number typed under Screens. */
export const chosen = (value: number, unit: LengthUnit, name: string): Given => ({
  value: metres(value, unit),
  from: { kind: 'citation', text: `typed under Screens: ${name}` },
  text: String(value),
  recordedUnit: unit,
});

/** A length that was itself worked out. */
export const workedOut = ({ value, work }: Worked<Metres>): Given => ({
  value,
  from: { kind: 'work', work },
});

export const termOf = (
  symbol: string,
  name: string,
  given: Given,
  dimension: Dimension = 'length',
): Term => ({ symbol, name, dimension, ...given });

/** Hundredths, as depths are kept in feet, where nothing says otherwise. */
const USUAL_DECIMALS = 2;

/** Finer than a depth is ever read; more are the tail of somebody's division. */
const MOST_DECIMALS = 4;

const decimalsOf = ({ from, text }: Given): number =>
  text !== undefined
    ? Math.min(decimalsIn(text), MOST_DECIMALS)
    : from.kind === 'work'
      ? from.work.decimals
      : USUAL_DECIMALS;

/**
 * A length worked out from others by a formula, to as many decimals as the
 * finest of them was written with.
 */
export function lengthWorked(
  title: string,
  symbol: string,
  formula: string,
  value: number,
  terms: readonly (readonly [symbol: string, name: string, given: Given])[],
  note?: string,
): Worked<Metres> {
  const work: Work = {
    title,
    symbol,
    formula,
    terms: terms.map(([of, name, given]) => termOf(of, name, given)),
    answer: { value, dimension: 'length' },
    decimals: Math.max(...terms.map(([, , given]) => decimalsOf(given))),
    ...(note === undefined ? {} : { note }),
  };
  return { value: metres(value), work };
}
