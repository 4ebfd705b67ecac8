import { azimuthBetween } from '../geometry/compass';
import type { SideAnswer } from '../lab/delineation';
import { nextPushes, type AnalyteDelineation } from '../lab/site-delineation';
import type { Location } from '../site/schema';
import type { Site } from '../site/site';
import { turn } from '../units';
import { reachOf, sidesTold } from './delineation-stop';
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
export function notPlanned(
  site: Site,
  planned: readonly Location[],
  found: readonly AnalyteDelineation[],
): SideAnswer[] {
  return nextPushes(found).flatMap(({ answer }) =>
    planned.some((point) => wouldAnswer(site, point, answer)) ? [] : [answer],
  );
}

/** "8 sides at MW-3 and PZ-7, and below both". */
function openWords(open: readonly SideAnswer[]): string {
  const around = open.filter(({ side }) => side !== 'below');
  const below = [
    ...new Set(open.flatMap(({ side, location }) => (side === 'below' ? [location] : []))),
  ];
  const points = [...new Set(around.map(({ location }) => location))];
  const at = (names: readonly string[]) =>
    names.length > TOLD ? counted(names.length, 'point') : listed(names);
  return [
    ...(points.length > 0 ? [`${counted(around.length, 'side')} at ${at(points)}`] : []),
    ...(below.length > 0 ? [`the depth below ${at(below)}`] : []),
  ].join(', and ');
}

/** What comes next: the points that are planned, the open sides that none of them would close, and what is not settled. */
export function whatNext({ site, of, flow }: Material): Telling {
  const planned = [...site.locations.values()].filter(({ status }) => status === 'planned');
  const open = notPlanned(site, planned, sidesTold(site, of));
  const event = pushEvent(site, of);
  const before = event
    ? notPlanned(site, planned, sidesTold(site, { ...of, event: event.id }))
    : [];
  const doubts = [
    ...(flow?.resolved === false ? ['the direction of flow is not resolved'] : []),
    ...(flow?.isPlane === false ? ['one even slope does not tell the water surface'] : []),
    ...(site.settings.validated ? [] : ['the results are not validated']),
  ];
  const sides = open.filter(({ side }) => side !== 'below').length;
  const isCrossed = open.some(({ side, next }) => side !== 'below' && next !== null);
  const unplanned: Sentence[] = [
    ...(open.length > 0
      ? [
          said(
            `Open, with no point planned there: ${openWords(open)}.${isCrossed ? ' Each cross on the map is where a push would close a side.' : ''}`,
          ),
        ]
      : []),
    ...(event && before.length > 0
      ? [
          said(
            `Open since the pushes (${event.first_day.slice(0, 7)}), with none planned there: ${openWords(before)}.`,
          ),
        ]
      : []),
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
    alsoOf: event ? [event.id] : [],
    notes: 'A drawn line only knows what was drawn: clearance comes before any push.',
    view: {
      // The arrow would lie over the crosses.
      shown: { ...bare(of), arrow: !isCrossed, verdicts: true },
      points: 'all',
      contours: false,
      ...(isCrossed ? { sides: true } : {}),
      window: null,
    },
  };
}
