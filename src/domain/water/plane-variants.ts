import type { Site } from '../site/site';
import type { GaugedScreen } from './event-heads';
import { flowOf, type Flow } from './flow';

/** One way of laying the plane, beside the others. */
export type PlaneVariant = {
  readonly name: string;
  readonly flow: Flow;
  /** Whether it is the one on the map. */
  readonly shown: boolean;
};

/** The heads with every push-point level that was left out only for being one. */
export const withPushLevels = (heads: readonly GaugedScreen[]): GaugedScreen[] =>
  heads.map((one) => (one.leftOut === 'push-point' ? { ...one, leftOut: null } : one));

/** The heads with no push-point level among those that count. */
export const withoutPushLevels = (heads: readonly GaugedScreen[]): GaugedScreen[] =>
  heads.map((one) =>
    one.class === 'push' && one.leftOut === null ? { ...one, leftOut: 'push-point' } : one,
  );

/**
 * The plane as it stands, with all heads weighed alike, and, where push points
 * were gauged, with and without their levels: what a reviewer would try first.
 */
export function planeVariants(
  site: Site,
  event: string,
  zone: string | null,
  heads: readonly GaugedScreen[],
): PlaneVariant[] {
  const push = heads.filter((one) => one.class === 'push' && one.screen.zone === zone);
  const counted = push.filter(({ leftOut }) => leftOut === null).length;
  const waiting = push.filter(({ leftOut }) => leftOut === 'push-point').length;
  const flow = (used: readonly GaugedScreen[], weighted = true) =>
    flowOf(site, event, zone, used, { weighted });
  return [
    { name: 'Weighed by the error of each head', flow: flow(heads), shown: true },
    { name: 'All heads weighed alike', flow: flow(heads, false), shown: false },
    ...(waiting > 0
      ? [
          {
            name: `With ${waiting} push-point level${waiting === 1 ? '' : 's'} more`,
            flow: flow(withPushLevels(heads)),
            shown: false,
          },
        ]
      : []),
    ...(counted > 0
      ? [{ name: 'Wells only', flow: flow(withoutPushLevels(heads)), shown: false }]
      : []),
  ];
}
