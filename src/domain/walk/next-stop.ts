import { azimuthBetween } from '../geometry/compass';
import type { SideAnswer } from '../lab/delineation';
import { nextPushes, type AnalyteDelineation, type NextPush } from '../lab/site-delineation';
import type { Location } from '../site/schema';
import type { Site } from '../site/site';
import { turn } from '../units';
import { crossSentences } from './crosses';
import { openWords, reachOf, sidesTold } from './delineation-stop';
import { inAnyEvent, sampledEvents } from './any-event';
import { bare } from './ground-stops';
import { pushEvent } from './push-event';
import { counted, listed, said, type Material, type Sentence, type Telling } from './stop';

/** Planned points told by their purpose before they are counted. */
const TOLD = 3;

const placeOf = ({ easting, northing, planned_easting, planned_northing }: Location) => {
  const [east, north] = [planned_easting ?? easting, planned_northing ?? northing];
  return east && north ? ([east.value, north.value] as const) : null;
};

/** Half of the quarter of the compass that a side is. */
const HALF_SIDE = 45;

/** Whether a planned point would answer for a side: near enough, and that way from what exceeds. */
function wouldAnswer(site: Site, planned: Location, { location, side, next }: SideAnswer): boolean {
  const from = site.locations.get(location);
  const [at, to] = [from && placeOf(from), placeOf(planned)];
  if (!at || !to || !next) return false;
  const { within, combinedFactor } = reachOf(site);
  const distance = Math.hypot(to[0] - at[0], to[1] - at[1]) / combinedFactor;
  if (distance > within) return false;
  if (side === 'below') return false;
  const [way, planedWay] = [
    azimuthBetween(at, [next.easting, next.northing]),
    azimuthBetween(at, to),
  ];
  return way !== null && planedWay !== null && Math.abs(turn(way, planedWay)) <= HALF_SIDE;
}

/** Open sides that no planned point would answer for, each place and side once. */
export function notPlanned(site: Site, found: readonly AnalyteDelineation[]): NextPush[] {
  const planned = [...site.locations.values()].filter(({ status }) => status === 'planned');
  return nextPushes(found).filter(
    ({ answer }) => !planned.some((point) => wouldAnswer(site, point, answer)),
  );
}

const isAround = ({ answer: { side } }: NextPush) => side !== 'below';

/** How much of what was open with the pushes has a point planned, where the walk tells of another event. */
function sincePushes(site: Site, of: Material['of']): Sentence[] {
  const event = pushEvent(site, of);
  if (!event) return [];
  const found = sidesTold(site, { ...of, event: event.id });
  const all = nextPushes(found).filter(isAround).length;
  const left = notPlanned(site, found);
  const planned = all - left.filter(isAround).length;
  const below = new Set(left.flatMap((one) => (isAround(one) ? [] : [one.answer.location]))).size;
  if (left.length === 0) return [];
  const have = planned === 0 ? 'none has' : planned === 1 ? '1 has' : `${planned} have`;
  return [
    said(
      `Of the ${counted(all, 'side')} open with the pushes (${event.first_day.slice(0, 7)}) ${have} a point planned${below > 0 ? `; the depth below ${counted(below, 'point')} has none` : ''}.`,
    ),
  ];
}

/** What comes next: the points that are planned, the open sides that none of them would close, and what is not settled. */
export function whatNext({ site, of, flow }: Material): Telling {
  const planned = [...site.locations.values()].filter(({ status }) => status === 'planned');
  const pushes = notPlanned(site, sidesTold(site, of));
  const open = pushes.map(({ answer }) => answer);
  const doubts = [
    ...(flow?.resolved === false ? ['the direction of flow is not resolved'] : []),
    ...(flow?.isPlane === false ? ['one even slope does not tell the water surface'] : []),
    ...(site.settings.validated ? [] : ['the results are not validated']),
  ];
  const sides = open.filter(({ side }) => side !== 'below').length;
  const isCrossed = open.some(({ side, next }) => side !== 'below' && next !== null);
  const unplanned: Sentence[] = [
    ...(open.length > 0 ? [said(`Open, with no point planned there: ${openWords(open)}.`)] : []),
    ...(isCrossed ? crossSentences(site, of, pushes) : []),
    ...sincePushes(site, of),
  ];
  const some = planned.length > 0 ? `Next: ${counted(planned.length, 'point')} planned` : '';
  const left = sides > 0 ? counted(sides, 'side') : '';
  return {
    title: some
      ? left
        ? `${some}, ${left} open without one`
        : some
      : left
        ? `No further point is planned, and ${left} ${sides === 1 ? 'is' : 'are'} open`
        : 'No further point is planned',
    sentences: [
      ...planned
        .slice(0, TOLD)
        .map(({ id, purpose }) => said(`${id}: ${purpose ?? 'no purpose is written for it'}.`)),
      ...(planned.length > TOLD ? [said(`And ${planned.length - TOLD} more.`)] : []),
      ...unplanned,
      ...(doubts.length > 0 ? [said(`Not settled: ${listed(doubts)}.`)] : []),
      said('Before any push: utilities cleared on the ground, by those whose task it is.'),
    ],
    alsoOf: sampledEvents(site),
    notes: 'A drawn line only knows what was drawn: clearance comes before any push.',
    view: {
      // The arrow would lie over the crosses.
      shown: { ...bare(of), arrow: !isCrossed, verdicts: true },
      asked: inAnyEvent(of),
      points: 'all',
      contours: false,
      ...(isCrossed ? { sides: true } : {}),
      window: null,
    },
  };
}
