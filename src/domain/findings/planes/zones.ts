import { groupBy } from '../../group';
import { cell } from '../../site/cite';
import type { Screen } from '../../site/schema';
import type { Site } from '../../site/site';
import { intervalOf } from '../../water/screen-interval';
import type { Finding, Rule } from '../finding';
import { counted, finding, said } from '../words';

type Placed = { readonly screen: Screen; readonly top: number; readonly base: number };

/** Screens that make the depths of a zone known. */
const FEWEST = 3;

/**
 * A screen whose interval lies apart from those of its zone and among those of
 * another: the zone's name may be wrong, and its head is in the wrong plane.
 */
export const wrongZone: Rule = ({ site, heads }) => {
  const doubts = doubtsOf(site);
  if (doubts.length === 0) return [];
  const counts = new Set(heads.filter((one) => one.leftOut === null).map((one) => one.screen.id));
  return doubts.map((doubt) => zoneFinding(site, doubt, counts));
};

type Doubt = Placed & { readonly zone: string; readonly others: number; readonly among: string };

const kept = new WeakMap<Site['screens'], { locations: Site['locations']; doubts: Doubt[] }>();

function doubtsOf(site: Site): readonly Doubt[] {
  const before = kept.get(site.screens);
  if (before?.locations === site.locations) return before.doubts;
  const zones = groupBy(placedIn(site), ({ screen }) => screen.zone ?? '');
  const reaches = new Map([...zones].map(([zone, screens]) => [zone, reachOf(screens)]));
  const doubts = [...zones].flatMap(([zone, screens]) =>
    screens.flatMap((one): Doubt[] => {
      const others = screens.length - 1;
      const own = reaches.get(zone);
      if (!own || others < FEWEST - 1 || overlaps(one, without(one, own))) return [];
      const other = [...reaches].find(
        ([name, theirs]) =>
          name !== zone &&
          theirs.count >= FEWEST &&
          overlaps(one, { base: theirs.bases[0], top: theirs.tops[0] }),
      );
      return other ? [{ ...one, zone, others, among: other[0] }] : [];
    }),
  );
  kept.set(site.screens, { locations: site.locations, doubts });
  return doubts;
}

function placedIn(site: Site): Placed[] {
  return [...site.screens.values()].flatMap((screen) => {
    const location = site.locations.get(screen.location);
    const interval = location && screen.zone !== null ? intervalOf(screen, location) : null;
    if (!interval?.ok) return [];
    const { topElevation: top, baseElevation: base } = interval.value;
    return top && base ? [{ screen, top: top.value, base: base.value }] : [];
  });
}

/** How far the intervals of a zone reach taken together: the two lowest bases, the two highest tops. */
type Reach = {
  readonly count: number;
  readonly bases: readonly [number, number];
  readonly tops: readonly [number, number];
};

function reachOf(screens: readonly Placed[]): Reach {
  const bases: [number, number] = [Infinity, Infinity];
  const tops: [number, number] = [-Infinity, -Infinity];
  for (const { base, top } of screens) {
    if (base < bases[0]) bases.splice(0, 2, base, bases[0]);
    else if (base < bases[1]) bases[1] = base;
    if (top > tops[0]) tops.splice(0, 2, top, tops[0]);
    else if (top > tops[1]) tops[1] = top;
  }
  return { count: screens.length, bases, tops };
}

/** The reach of a zone but for one of its own. */
const without = ({ base, top }: Placed, { bases, tops }: Reach) => ({
  base: base === bases[0] ? bases[1] : bases[0],
  top: top === tops[0] ? tops[1] : tops[0],
});

/** Whether an interval shares any height with the reach of a zone. */
const overlaps = (one: Placed, zone: { readonly base: number; readonly top: number }) =>
  one.top > zone.base && one.base < zone.top;

const zoneFinding = (
  site: Site,
  { screen, top, base, zone, others, among }: Doubt,
  counts: ReadonlySet<string>,
): Finding =>
  finding('zone in doubt', screen.id, null, {
    severity: counts.has(screen.id) ? 'serious' : 'caution',
    who: [screen.location],
    says: `${screen.id} is named ${zone}, but its interval from ${said(site, top)} to ${said(site, base)} lies apart from the ${counted(others, 'other screen')} of that zone and among those of ${among}.`,
    todo: 'Look the interval up on the log; heads of different zones do not make one plane.',
    cells: [cell('screens', screen, 'zone')],
  });
