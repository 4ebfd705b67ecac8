import { groupBy } from '../../group';
import { cell } from '../../site/cite';
import type { MeasuringPoint } from '../../site/schema';
import type { Site } from '../../site/site';
import { marksOf, measuringPointElevation } from '../../water/measuring-point';
import type { GaugedScreen } from '../../water/event-heads';
import type { Examined, Finding, Rule } from '../finding';
import { gaugedEvents, headsAt } from '../history';
import { dayOf } from '../moments';
import { finding, said } from '../words';

/** The mark a screen was read from is not the one it was read from last time. */
export const markChanged: Rule = ({ site, event, heads }) =>
  heads.flatMap((one) => {
    const before = event === null ? null : readBefore(site, event, one.screen.id);
    const { measuringPoint: now, screen, location } = one;
    const then = before?.measuringPoint;
    if (!before || !now || !then || now.id === then.id) return [];
    const [was, is] = [elevationOf(site, then), elevationOf(site, now)];
    const moved =
      was === null || is === null ? '' : `, ${said(site, was)} then and ${said(site, is)} now`;
    const surveyed = now.elevation !== null && now.surveyor !== null;
    return [
      finding('measuring point changed', screen.id, event, {
        severity: surveyed ? 'note' : 'caution',
        who: [location.id],
        says: `${screen.id} was read from another mark than in ${before.reading.event}: ${now.id} in place of ${then.id}${moved}.${surveyed ? '' : ' Who surveyed the new mark is not recorded.'}`,
        todo: 'Compare heads, not depths, across the change, and make sure that the new mark was surveyed.',
        cells: [
          cell('measuring_points', then, 'elevation'),
          cell('measuring_points', now, 'elevation'),
        ],
      }),
    ];
  });

const gaugedIn = new WeakMap<Site['waterLevels'], ReadonlyMap<string, ReadonlySet<string>>>();

/** The events each screen was read in. */
function eventsOf({ waterLevels }: Site, screen: string): ReadonlySet<string> | null {
  let known = gaugedIn.get(waterLevels);
  if (!known) {
    const made = groupBy(waterLevels, (level) => level.screen);
    known = new Map([...made].map(([id, levels]) => [id, new Set(levels.map((one) => one.event))]));
    gaugedIn.set(waterLevels, known);
  }
  return known.get(screen) ?? null;
}

function readBefore(site: Site, event: string, screen: string): GaugedScreen | null {
  const events = gaugedEvents(site);
  const read = eventsOf(site, screen);
  for (let at = events.indexOf(event) - 1; at >= 0; at--) {
    const earlier = events[at] ?? '';
    if (!read?.has(earlier)) continue;
    const found = headsAt(site, earlier).find((one) => one.screen.id === screen);
    if (found) return found;
  }
  return null;
}

const elevationOf = (site: Site, mark: MeasuringPoint) => {
  const found = measuringPointElevation(site, mark);
  return found.ok ? found.elevation.value : null;
};

/** A reading that names no mark, another screen's, one not yet in use, or one given up. */
export const markNamed: Rule = (examined) => [
  ...examined.heads.flatMap((one) => misnamed(examined, one) ?? []),
  ...unnamed(examined),
];

function misnamed({ site, event }: Examined, one: GaugedScreen): Finding | null {
  const { screen, location, reading, measuringPoint: mark, leftOut } = one;
  const make = (
    severity: Finding['severity'],
    says: string,
    todo: string,
    cells: Finding['cells'],
  ) => finding('measuring point in doubt', screen.id, event, { severity, who: [location.id], says, todo, cells }); // prettier-ignore
  const named = cell('water_levels', reading, 'measuring_point');
  if (!mark)
    return leftOut === 'no-measuring-point'
      ? make(
          'caution',
          `No measuring point is recorded for ${screen.id}: its depth of ${reading.depth_to_water?.text ?? ''} ${reading.depth_to_water?.unit ?? ''} has no elevation to hang from.`,
          'Record the mark it was read from, with its elevation or stick-up.',
          [named],
        )
      : null;
  if (mark.screen !== screen.id)
    return make(
      leftOut === null ? 'serious' : 'caution',
      `${screen.id} is said to have been read from ${mark.id}, which is a mark of ${mark.screen}.`,
      'Name the mark of the screen itself, or correct the screen.',
      [named, cell('measuring_points', mark, 'screen')],
    );
  const day = reading.time === null ? null : dayOf(reading.time);
  if (day === null) return null;
  if (mark.from_day !== null && mark.from_day > day)
    return make(
      'caution',
      `${screen.id} was read on ${day} from ${mark.id}, a mark in use only since ${mark.from_day}.`,
      'Name the mark in use on that day, or correct its first day.',
      [named, cell('measuring_points', mark, 'from_day')],
    );
  const newer = marksOf(site, screen.id).find(
    (other) => (other.from_day ?? '') > (mark.from_day ?? '') && (other.from_day ?? '') <= day,
  );
  return newer
    ? make(
        'caution',
        `${screen.id} was read on ${day} from ${mark.id}, but ${newer.id} has been its mark since ${newer.from_day ?? ''}.`,
        'Ask which of the two the tape was held to.',
        [named, cell('measuring_points', newer, 'from_day')],
      )
    : null;
}

/** Marks taken from the day alone are right as long as nobody cut the casing. */
function unnamed({ event, heads }: Examined): readonly Finding[] {
  const without = heads.filter(
    ({ reading, measuringPoint }) => reading.measuring_point === null && measuringPoint !== null,
  );
  const [first] = without;
  return first
    ? [
        finding('measuring point not named', 'readings', event, {
          severity: 'note',
          who: [...new Set(without.map(({ location }) => location.id))],
          says: `${without.length === 1 ? 'One reading does' : `${without.length} readings do`} not name the mark they were read from; the mark in use on the day is taken.`,
          todo: 'Name the mark with each reading, so that a change can be seen.',
          cells: without.map(({ reading }) => cell('water_levels', reading, 'measuring_point')),
        }),
      ]
    : [];
}
