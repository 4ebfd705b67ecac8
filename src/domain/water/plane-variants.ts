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

/** The heads without the readings of some screens, by id. */
export const withoutScreens = (
  heads: readonly GaugedScreen[],
  screens: readonly string[],
): GaugedScreen[] =>
  heads.map((one) =>
    one.leftOut === null && screens.includes(one.screen.id) ? { ...one, leftOut: 'excluded' } : one,
  );

/** The heads with the wells somebody left out by hand put back, and which these are. */
export function withExcluded(heads: readonly GaugedScreen[]): {
  readonly heads: readonly GaugedScreen[];
  readonly screens: readonly string[];
} {
  const back = heads.filter(isLeftOutByHand);
  return {
    heads: heads.map((one) => (back.includes(one) ? { ...one, leftOut: null } : one)),
    screens: back.map(({ screen }) => screen.id),
  };
}

/** Whether a well at rest with a head is left out because somebody decided so. */
export const isLeftOutByHand = ({ leftOut, head, class: kind, reading }: GaugedScreen): boolean =>
  (leftOut === 'excluded' || leftOut === 'marked-not-used') &&
  head !== null &&
  kind === 'well' &&
  reading.status === 'static';

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
 * The plane as it stands and with all heads weighed alike: what a reviewer would
 * try first. Beside them without the wells that do not fit, with those somebody
 * left out, with and without the levels of push points, and with one screen of
 * each nest, where there are any.
 *
 * @param misfits  screens whose heads do not fit the others, by id
 */
export function planeVariants(
  site: Site,
  event: string,
  zone: string | null,
  heads: readonly GaugedScreen[],
  misfits: readonly string[] = [],
): PlaneVariant[] {
  const push = heads.filter((one) => one.class === 'push' && one.screen.zone === zone);
  const counted = push.filter(({ leftOut }) => leftOut === null).length;
  const waiting = push.filter(({ leftOut }) => leftOut === 'push-point').length;
  const flow = (used: readonly GaugedScreen[], weighted = true) =>
    flowOf(site, event, zone, used, { weighted });
  const excluded = withExcluded(heads.filter(({ screen }) => screen.zone === zone));
  const single = oneOfEachNest(site, zone, heads);
  const nested = single.filter(({ leftOut }, i) => leftOut !== heads[i]?.leftOut).length;
  return [
    { name: 'Weighed by the error of each head', flow: flow(heads), shown: true },
    { name: 'All heads weighed alike', flow: flow(heads, false), shown: false },
    ...(misfits.length > 0
      ? [
          {
            name: `Without ${misfits.join(' and ')}, which ${misfits.length === 1 ? 'does' : 'do'} not fit the others`,
            flow: flow(withoutScreens(heads, misfits)),
            shown: false,
          },
        ]
      : []),
    ...(excluded.screens.length > 0
      ? [
          {
            name: `With ${excluded.screens.join(' and ')}, left out by decision`,
            flow: flow(excluded.heads),
            shown: false,
          },
        ]
      : []),
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
