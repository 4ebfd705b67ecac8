import { METRES_PER, metres, type LengthUnit, type Metres } from '../../units';
import type { SurfacePoint } from './surface-point';

/** Most lines drawn for one surface: more is a mistyped interval, not a figure. */
const MOST_LEVELS = 500;

/**
 * Levels to draw between the lowest and the highest head, both included: whole
 * multiples of the interval, so that they are round in the unit it was chosen
 * in. Empty where the interval is not above zero or would draw over 500 lines.
 */
export function contourLevels(lowest: Metres, highest: Metres, interval: Metres): Metres[] {
  if (!(interval > 0 && interval < Infinity) || !(highest >= lowest)) return [];
  // A level that is a head but for rounding is drawn.
  const first = Math.ceil(lowest / interval - 1e-9);
  const last = Math.floor(highest / interval + 1e-9);
  if (!(last - first < MOST_LEVELS)) return [];
  return Array.from({ length: last - first + 1 }, (_, i) => metres((first + i) * interval));
}

/** What the errors of the heads say about how fine contours may be. */
export type HonestInterval = {
  /** One standard deviation of a head: root mean square of those stated. */
  readonly headError: Metres;
  /** Three times it: finer than this, lines are drawn by the errors. */
  readonly least: Metres;
  /** Four times it: from here on neighbouring lines are told apart. */
  readonly comfortable: Metres;
};

/**
 * The finest contour interval the data support: three to four times the error
 * of a head. (Common practice; value from memory.) Null where no error is
 * stated: then nothing can be said, and the page must say that.
 */
export function honestInterval(points: readonly SurfacePoint[]): HonestInterval | null {
  const stated = points.filter(({ sigma }) => sigma > 0);
  if (stated.length === 0) return null;
  const square = stated.reduce((sum, { sigma }) => sum + sigma ** 2, 0) / stated.length;
  const headError = metres(Math.sqrt(square));
  return { headError, least: metres(3 * headError), comfortable: metres(4 * headError) };
}

/** How an interval stands to the errors of the heads. */
export type IntervalVerdict = 'finer than the heads’ error' | 'at the limit' | 'supported';

export const intervalVerdict = (interval: Metres, honest: HonestInterval): IntervalVerdict =>
  interval < honest.least
    ? 'finer than the heads’ error'
    : interval < honest.comfortable
      ? 'at the limit'
      : 'supported';

/** The next of …, 0.1, 0.2, 0.5, 1, 2, 5, … of the unit that is not below a length. */
export function roundInterval(atLeast: Metres, unit: LengthUnit): Metres {
  const wanted = (atLeast / METRES_PER[unit]) * (1 - 1e-9);
  const power = Math.floor(Math.log10(wanted));
  const multiple = [1, 2, 5, 10].find((m) => m * 10 ** power >= wanted) ?? 10;
  const inUnit = power < 0 ? multiple / 10 ** -power : multiple * 10 ** power;
  return metres(inUnit, unit);
}

/**
 * An interval to begin with: round in the site's unit, about so many lines over
 * the range of the heads, and never finer than four times the heads' error.
 * Null where the heads are all the same.
 */
export function usualInterval(
  points: readonly SurfacePoint[],
  unit: LengthUnit,
  lines = 8,
): Metres | null {
  const heads = points.map(({ head }) => head);
  const range = Math.max(...heads) - Math.min(...heads);
  if (!(range > 0)) return null;
  const wanted = Math.max(range / lines, honestInterval(points)?.comfortable ?? 0);
  return roundInterval(metres(wanted), unit);
}
