import { groupBy } from '../group';
import { metres, type Metres } from '../units';
import { fail, ok, type Result } from '../result';
import type { Site } from '../site/site';
import { amountOf } from './concentration-units';
import { limitOf } from './limit';
import type { JudgedResult } from './site-results';
import type { Verdict } from './verdict';
import { worseResultFirst } from './worst';

/** What one point says of passing a level. */
export type ExtentPoint = {
  /** The location's id. */
  readonly id: string;
  readonly screen: string;
  /** East and north in ground metres about `centre`. */
  readonly x: Metres;
  readonly y: Metres;
  readonly exceeds: boolean;
  /** The value, or the limit of a non-detect, in the unit its dimension is worked in. */
  readonly amount: number;
  readonly notDetected: boolean;
};

/** A point that counts neither way, and its verdict. */
export type ExtentUnknown = {
  readonly id: string;
  readonly screen: string;
  readonly verdict: Verdict;
};

export type ExtentPoints = {
  readonly analyte: string;
  readonly zone: string | null;
  /** The middle of the points, metres in the grid. */
  readonly centre: { readonly easting: number; readonly northing: number };
  readonly points: readonly ExtentPoint[];
  readonly unknown: readonly ExtentUnknown[];
  /** The level in the unit its dimension is worked in. */
  readonly level: number;
};

const COUNTS: readonly Verdict[] = [
  'exceeds',
  'exceeds-estimated',
  'does-not-exceed',
  'not-detected',
];

/**
 * The points an extent is drawn through: of one analyte and fraction, in one
 * event and one zone, the worst result of each location. What cannot be told is
 * kept apart and counts neither as passing nor as not passing.
 *
 * @returns or why these results make no one question, as a sentence
 */
export function extentPointsOf(
  site: Site,
  results: readonly JudgedResult[],
): Result<ExtentPoints, string> {
  const placed = results.filter(({ sample }) => sample.kind === 'field sample');
  const [first] = placed;
  if (!first) return fail('There is no field sample among these results.');
  const one = (of: (result: JudgedResult) => unknown) => new Set(placed.map(of)).size === 1;
  if (!one(({ reading }) => reading.key))
    return fail('Choose one analyte: each has its own extent.');
  if (!one(({ row }) => row.fraction))
    return fail('Filtered and total results stand side by side: an extent is of one of them.');
  if (!one(({ sample }) => sample.event))
    return fail('Choose one event: an extent belongs to one day.');
  if (!one(({ screen }) => screen?.zone ?? null))
    return fail('Choose one zone: points of different zones are not beside one another.');
  const level = placed.find(({ judged }) => judged.match.level?.value)?.judged.match.level;
  if (!level) return fail('No level has been chosen for this analyte.');

  const counted: (Omit<ExtentPoint, 'x' | 'y'> & { easting: number; northing: number })[] = [];
  const unknown: ExtentUnknown[] = [];
  for (const [location, here] of groupBy(placed, ({ location: at }) => at)) {
    const [worst] = here.toSorted((a, b) => worseResultFirst(a.judged, b.judged));
    if (!location || !worst?.screen) continue;
    const { outcome } = worst.judged;
    const says = { id: location.id, screen: worst.screen.id };
    const [easting, northing] = [location.easting?.value, location.northing?.value];
    if (easting === undefined || northing === undefined) continue;
    const notDetected = worst.reading.state === 'not detected';
    const amount = notDetected
      ? (limitOf(worst.reading, level.decides)?.amount ?? null)
      : worst.reading.amount;
    if (COUNTS.includes(outcome.verdict) && amount !== null && amount > 0)
      counted.push({
        ...says,
        easting,
        northing,
        exceeds: outcome.verdict.startsWith('exceeds'),
        amount,
        notDetected,
      });
    else unknown.push({ ...says, verdict: outcome.verdict });
  }
  const middle = (of: (point: (typeof counted)[number]) => number) =>
    counted.reduce((sum, point) => sum + of(point) / counted.length, 0);
  const centre = { easting: middle((p) => p.easting), northing: middle((p) => p.northing) };
  const factor = site.grid.combinedFactor ?? 1;
  return ok({
    analyte: first.row.analyte,
    zone: first.screen?.zone ?? null,
    centre,
    points: counted.map(({ easting, northing, ...point }) => ({
      ...point,
      x: metres((easting - centre.easting) / factor),
      y: metres((northing - centre.northing) / factor),
    })),
    unknown,
    level: level.value ? amountOf(level.value) : 0,
  });
}
