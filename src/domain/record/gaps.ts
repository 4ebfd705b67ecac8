import { length } from '../show';
import type { Settings } from '../site/settings';
import { metres, type Metres } from '../units';
import type { FieldPoint } from './field-points';
import { standsAt, type At } from './on-the-spot';

/** A place the layout was to cover and does not. */
export type Gap = {
  readonly id: string;
  readonly at: At;
  readonly why: 'dropped' | 'not reached' | 'moved';
  /** The push point that now stands nearest, and how far off; null when there is none. */
  readonly nearest: { readonly id: string; readonly apart: Metres } | null;
};

/** Nothing can be sampled there: given up, or every hole ended short. */
const isGivenUp = ({ isDropped, attempts }: FieldPoint) =>
  isDropped || (attempts.length > 0 && attempts.every(({ outcome }) => outcome !== 'reached'));

/** Moved by less than this is the same place: 5 ft, common practice, no source. */
const SAME_PLACE = 1.524; // metres

const stakeOf = ({ location }: FieldPoint): At | null => {
  const { planned_easting: east, planned_northing: north } = location;
  return east && north ? [east.value, north.value] : null;
};

const apartOf = (a: At, b: At) => metres(Math.hypot(a[0] - b[0], a[1] - b[1]));

/**
 * What the layout misses when nothing stands at a place any more.
 *
 * @param left  the place given up
 * @param to    where the point goes instead; null where it is dropped
 */
export function gapAt(
  points: readonly FieldPoint[],
  id: string,
  left: At,
  to: At | null,
  why: Gap['why'],
): Gap {
  const standing = points
    .filter((point) => point.location.id !== id && !isGivenUp(point))
    .flatMap(({ location }) => {
      const at = standsAt(location);
      return at ? [{ id: location.id, at }] : [];
    });
  const [nearest = null] = (to ? [...standing, { id, at: to }] : standing)
    .map((other) => ({ id: other.id, apart: apartOf(other.at, left) }))
    .toSorted((a, b) => a.apart - b.apart);
  return { id, at: left, why, nearest };
}

/** Every place of the layout that is given up, not reached or left, in the order of the points. */
export const gapsOf = (points: readonly FieldPoint[]): readonly Gap[] =>
  points.flatMap((point): Gap[] => {
    const { location } = point;
    const stake = stakeOf(point) ?? standsAt(location);
    if (!stake) return [];
    if (isGivenUp(point))
      return [gapAt(points, location.id, stake, null, point.isDropped ? 'dropped' : 'not reached')];
    const now = standsAt(location);
    return now && apartOf(now, stake) > SAME_PLACE
      ? [gapAt(points, location.id, stake, now, 'moved')]
      : [];
  });

/** "P-4 dropped: nothing is sampled within 40.0 ft of it; the nearest is P-3." */
export function gapWords({ id, why, nearest }: Gap, { grid }: Settings): string {
  const place = why === 'moved' ? 'of where it was staked' : 'of it';
  if (!nearest) return `${id} ${why}: no other push point is left to stand for it.`;
  const apart = length(nearest.apart, grid.unit, 1);
  return nearest.id === id
    ? `${id} stands ${apart} from its stake: nothing is sampled nearer to that place.`
    : `${id} ${why}: nothing is sampled within ${apart} ${place}; the nearest is ${nearest.id}. A round patch there could be ${length(metres(2 * nearest.apart), grid.unit, 0)} across and not be met.`;
}
