import { cell } from '../../site/cite';
import type { Location } from '../../site/schema';
import type { Site } from '../../site/site';
import { METRES_PER } from '../../units';
import type { Finding, Rule } from '../finding';
import { distanceSaid, feet, finding, middleOf, usualSpread } from '../words';

/** A point pushed further than this from its stake has moved. Common practice, no source. */
const MOVED = feet(5);
const FAR = feet(50);

type Offset = {
  readonly location: Location;
  readonly east: number;
  readonly north: number;
  /** Grid coordinates it was staked for, metres. */
  readonly planned: readonly [east: number, north: number];
};

/** As pushed against as staked: single points that moved, and a shift that all of them share. */
export const stakedOffset: Rule = ({ site }) => {
  const offsets = offsetsOf(site);
  const shared = sharedShift(site, offsets);
  if (shared) return [shared];
  return offsets.flatMap(({ location, east, north }): Finding[] => {
    const moved = Math.hypot(east, north);
    if (moved <= MOVED) return [];
    return [
      finding('moved from its stake', location.id, null, {
        severity: moved > FAR ? 'caution' : 'note',
        who: [location.id],
        says: `${location.id} was pushed ${distanceSaid(site, moved)} from where it was staked${location.note ? `: ${location.note.replace(/\.$/, '')}` : ''}.`,
        todo: location.note
          ? 'Use where it was pushed; clearance was for where it was staked.'
          : 'Say why it moved, and whether the new place was cleared.',
        cells: [
          cell('locations', location, 'easting'),
          cell('locations', location, 'planned_easting'),
        ],
      }),
    ];
  });
};

const offsetsOf = (site: Site): Offset[] =>
  [...site.locations.values()].flatMap((location) => {
    const { easting, northing, planned_easting: e, planned_northing: n } = location;
    if (!easting || !northing || !e || !n) return [];
    return [
      {
        location,
        east: easting.value - e.value,
        north: northing.value - n.value,
        planned: [e.value, n.value] as const,
      },
    ];
  });

/** International feet in a survey foot, less one: 2 parts per million. */
const FOOT_DIFFERENCE = METRES_PER['us-ft'] / METRES_PER.ft - 1;
const FEWEST = 4;

/**
 * A shift in which most points share. One of 2 parts per million of the
 * coordinates is what survey feet taken for international feet make.
 */
function sharedShift(site: Site, offsets: readonly Offset[]): Finding | null {
  if (offsets.length < FEWEST) return null;
  const easts = offsets.map(({ east }) => east);
  const norths = offsets.map(({ north }) => north);
  const [east, north] = [middleOf(easts) ?? 0, middleOf(norths) ?? 0];
  const scatter = Math.max(usualSpread(easts) ?? 0, usualSpread(norths) ?? 0);
  const shift = Math.hypot(east, north);
  if (shift < feet(2) || shift < 3 * scatter) return null;
  const e = middleOf(offsets.map(({ planned }) => planned[0])) ?? 0;
  const n = middleOf(offsets.map(({ planned }) => planned[1])) ?? 0;
  const foot = [1, -1].some(
    (sign) =>
      Math.hypot(east - sign * FOOT_DIFFERENCE * e, north - sign * FOOT_DIFFERENCE * n) <
      Math.max(0.25 * shift, scatter),
  );
  return finding('shift shared by all points', 'site', null, {
    severity: 'caution',
    who: offsets.map(({ location }) => location.id),
    says: `The ${offsets.length} points stand about ${distanceSaid(site, shift)} from their stakes, all the same way.${foot ? ' That is what survey feet taken for international feet, or the other way round, make of these coordinates.' : ''}`,
    todo: 'Compare with a control point: a shift of all points alike does not show in the distances between them.',
    cells: offsets.map(({ location }) => cell('locations', location, 'easting')),
  });
}
