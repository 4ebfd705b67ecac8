import type { Site } from '../site/site';
import type { GaugedScreen } from './event-heads';
import { metres } from '../units';
import { flowOf, type Flow } from './flow';
import { placesTogether } from './nests';

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

/** Screens this near each other are at one place. */
const ONE_PLACE = metres(1);

/** The heads with one screen of each nest that counts in a zone, the shallowest. */
export function oneOfEachNest(
  site: Site,
  zone: string | null,
  heads: readonly GaugedScreen[],
): GaugedScreen[] {
  const counted = heads.filter((one) => one.leftOut === null && one.screen.zone === zone);
  const depth = ({ screen }: GaugedScreen) => screen.tip_depth?.value ?? Infinity;
  const dropped = new Set(
    placesTogether(site, counted, ONE_PLACE).flatMap((nest) =>
      nest.toSorted((a, b) => depth(a) - depth(b)).slice(1),
    ),
  );
  return heads.map((one) => (dropped.has(one) ? { ...one, leftOut: 'excluded' } : one));
}

/**
 * The plane as it stands, with all heads weighed alike, and, where push points
 * were gauged, with and without their levels, where nests count, with one screen of each: what a reviewer would try first.
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
  const single = oneOfEachNest(site, zone, heads);
  const nested = single.filter(({ leftOut }, i) => leftOut !== heads[i]?.leftOut).length;
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
    ...(nested > 0
      ? [
          {
            name: `One screen of each nest, the shallowest: ${nested} fewer`,
            flow: flow(single),
            shown: false,
          },
        ]
      : []),
    ...(counted > 0
      ? [{ name: 'Wells only', flow: flow(withoutPushLevels(heads)), shown: false }]
      : []),
  ];
}
