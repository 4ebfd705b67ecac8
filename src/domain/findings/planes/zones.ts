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
  const doubts = [...zones].flatMap(([zone, screens]) =>
    screens.flatMap((one): Doubt[] => {
      const own = screens.filter((other) => other !== one);
      if (own.length < FEWEST - 1 || overlaps(one, own)) return [];
      const other = [...zones].find(
        ([name, theirs]) => name !== zone && theirs.length >= FEWEST && overlaps(one, theirs),
      );
      return other ? [{ ...one, zone, others: own.length, among: other[0] }] : [];
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

/** Whether an interval shares any height with the intervals of a zone taken together. */
const overlaps = (one: Placed, zone: readonly Placed[]) =>
  one.top > Math.min(...zone.map(({ base }) => base)) &&
  one.base < Math.max(...zone.map(({ top }) => top));

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
