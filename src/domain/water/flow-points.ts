import { toGround } from '../grid';
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
  readonly easting: Metres;
  readonly northing: Metres;
};

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
    return head && easting && northing
      ? [{ one, head: head.value, easting: easting.value, northing: northing.value }]
      : [];
  });
  const [first] = placed;
  if (!first) return { middle: null, points: [] };
  const mean = (pick: (p: Placed) => number) =>
    metres(
      pick(first) + placed.reduce((sum, p) => sum + (pick(p) - pick(first)), 0) / placed.length,
    );
  const middle = { easting: mean((p) => p.easting), northing: mean((p) => p.northing) };
  const ground = (from: Metres, to: Metres) => toGround(metres(to - from), site.grid);
  return {
    middle,
    points: placed.map(({ one, head, easting, northing }) => ({
      id: one.screen.id,
      gauged: one,
      easting,
      northing,
      x: ground(middle.easting, easting),
      y: ground(middle.northing, northing),
      head,
      sigma: one.sigma,
    })),
  };
}
