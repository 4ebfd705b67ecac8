import { toGround } from '../grid';
import type { Location } from '../site/schema';
import type { Site } from '../site/site';
import { metres, type Metres } from '../units';
import type { GaugedScreen } from './event-heads';
import type { HeadPoint } from './plane';

/** A gauged screen that counts, at its place in ground metres about the middle of them all. */
export type FlowPoint = HeadPoint & {
  readonly gauged: GaugedScreen;
  /** Metres in the grid. */
  readonly easting: Metres;
  readonly northing: Metres;
};

type Placed = {
  readonly one: GaugedScreen;
  readonly head: Metres;
  readonly easting: Coordinate;
  readonly northing: Coordinate;
};

type Coordinate = NonNullable<Location['easting']>;

/**
 * Metres from one coordinate to another, subtracted in the unit they were
 * written in: turned into metres first, feet in the millions would lose the
 * last digits that wells nearly in a line hang on.
 */
const apart = (from: Coordinate, to: Coordinate): number =>
  from.unit === to.unit
    ? metres(Number(to.text) - Number(from.text), to.unit)
    : to.value - from.value;

export type FlowPoints = {
  /** Middle of the points, metres in the grid; null without any. */
  readonly middle: { readonly easting: Metres; readonly northing: Metres } | null;
  readonly points: readonly FlowPoint[];
};

/**
 * The screens that count, in ground metres east and north of their middle:
 * distances in the grid over the combined factor at the site's centre.
 */
export function flowPoints(site: Site, gauged: readonly GaugedScreen[]): FlowPoints {
  const placed = gauged.flatMap((one): Placed[] => {
    const { easting, northing } = one.location;
    const head = one.leftOut === null ? one.head : null;
    return head && easting && northing ? [{ one, head: head.value, easting, northing }] : [];
  });
  const [first] = placed;
  if (!first) return { middle: null, points: [] };
  const east = placed.map(({ easting }) => apart(first.easting, easting));
  const north = placed.map(({ northing }) => apart(first.northing, northing));
  const mean = (offsets: readonly number[]) =>
    offsets.reduce((sum, offset) => sum + offset, 0) / offsets.length;
  const [meanEast, meanNorth] = [mean(east), mean(north)];
  const ground = (offset = 0, middle = 0) => toGround(metres(offset - middle), site.grid);
  return {
    middle: {
      easting: metres(first.easting.value + meanEast),
      northing: metres(first.northing.value + meanNorth),
    },
    points: placed.map(({ one, head, easting, northing }, i) => ({
      id: one.screen.id,
      gauged: one,
      easting: easting.value,
      northing: northing.value,
      x: ground(east[i], meanEast),
      y: ground(north[i], meanNorth),
      head,
      sigma: one.sigma,
    })),
  };
}
