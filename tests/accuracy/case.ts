/** One line of the accuracy table: what somebody else has for a quantity, and what we have. */

/** How the other answer is known. */
export type Known =
  /** Read in the publication, or quoted from it. */
  | 'published'
  /** The publication recalled, not seen; re-derived where that could be done. */
  | 'from memory'
  /** Another program or another language, from the same input. */
  | 'computed independently'
  /** A person with a pencil. */
  | 'worked by hand';

export type AccuracyCase = {
  /** What is worked out, in the trade's words. */
  readonly quantity: string;
  readonly source: string;
  readonly known: Known;
  /** As the source has it, its unit with it. */
  readonly theirs: string;
  readonly ours: string;
  /** The largest there is between theirs and ours, of all values compared. */
  readonly difference: number;
  readonly tolerance: number;
  /** What difference and tolerance are in: a unit, or 'relative'. */
  readonly unit: string;
};

type Named = Pick<AccuracyCase, 'quantity' | 'source' | 'known'>;

/** Values compared one by one, printed with so many decimals. */
export function values(
  named: Named,
  theirs: readonly number[],
  ours: readonly (number | null | undefined)[],
  as: { readonly decimals: number; readonly unit: string; readonly tolerance: number },
): AccuracyCase {
  const print = (n: number | null | undefined) =>
    n === null || n === undefined ? 'no answer' : n.toFixed(as.decimals).replace('-', '−');
  const unit = as.unit === '–' ? '' : as.unit === '°' ? '°' : ` ${as.unit}`;
  return {
    ...named,
    theirs: theirs.map(print).join(', ') + unit,
    ours: ours.map(print).join(', ') + unit,
    difference:
      theirs.length === ours.length
        ? Math.max(...theirs.map((one, i) => apart(one, ours[i])))
        : Infinity,
    tolerance: as.tolerance,
    unit: as.unit,
  };
}

/** One value of a source that has several, each with its own unit and tolerance. */
export const value = (
  named: Named,
  theirs: number,
  ours: number | null | undefined,
  decimals: number,
  unit: string,
  tolerance: number,
): AccuracyCase => values(named, [theirs], [ours], { decimals, unit, tolerance });

/** Many values against a reference set, of which only the largest difference is printed. */
export function worst(
  named: Named,
  what: string,
  pairs: readonly (readonly [theirs: number, ours: number | null | undefined])[],
  as: { readonly unit: string; readonly tolerance: number },
): AccuracyCase {
  const measure = as.unit === 'relative' ? relative : apart;
  return {
    ...named,
    theirs: `${pairs.length.toLocaleString('en-US')} ${what}`,
    ours: 'all compared',
    difference: pairs.length === 0 ? Infinity : Math.max(...pairs.map(([a, b]) => measure(a, b))),
    tolerance: as.tolerance,
    unit: as.unit,
  };
}

/** Counts or words that are either the same or not. */
export const same = (named: Named, theirs: string, ours: string): AccuracyCase => ({
  ...named,
  theirs,
  ours,
  difference: theirs === ours ? 0 : Infinity,
  tolerance: 0,
  unit: 'exact',
});

const apart = (theirs: number, ours: number | null | undefined): number =>
  ours === null || ours === undefined || Number.isNaN(ours) ? Infinity : Math.abs(theirs - ours);

/** As a part of theirs; as it stands where theirs is 0. */
const relative = (theirs: number, ours: number | null | undefined): number =>
  apart(theirs, ours) / (Math.abs(theirs) || 1);

/** Degrees between two azimuths, the short way round. */
export const turned = (a: number, b: number | null | undefined): number =>
  b === null || b === undefined ? Infinity : Math.abs(((((a - b) % 360) + 540) % 360) - 180);
