import { length } from '../show';
import type { Location, MeasuringPoint, Screen, WaterLevel } from '../site/schema';
import type { Site } from '../site/site';
import { metres, type Metres } from '../units';
import { measuringPointElevation, measuringPointOf } from '../water/measuring-point';
import { openHoles, type FieldPoint } from './field-points';
import type { FieldRules } from './field-rules';
import { markNow } from './as-pushed';
import type { Remark } from './remark';

/** A well, piezometer or gauge that stands on the site, and what can be read there. */
export type GaugePoint = { readonly location: Location; readonly screens: readonly Screen[] };

/** Whether a screen stands open to be read: a push point's once it is set, until it is pulled. */
export const isStanding = ({ tip_depth, pulled_time }: Screen, { kind }: Location): boolean =>
  kind === 'direct push' ? tip_depth !== null : pulled_time === null;

/** What is gauged beside the push points, in the order of the table: not what is only planned or gone. */
export const gaugePoints = (site: Site): readonly GaugePoint[] =>
  [...site.locations.values()].flatMap((location) => {
    if (location.kind === 'direct push') return [];
    if (['planned', 'decommissioned', 'dropped', 'refused'].includes(location.status)) return [];
    const screens = [...site.screens.values()].filter(
      (screen) => screen.location === location.id && isStanding(screen, location),
    );
    return screens.length === 0 ? [] : [{ location, screens }];
  });

/** How many of the screens that stand have a reading in a round. */
export function gaugedIn(
  site: Site,
  points: readonly GaugePoint[],
  round: string,
): { readonly done: ReadonlySet<string>; readonly screens: number } {
  const read = new Set(
    site.waterLevels.flatMap(({ screen, event }) => (event === round ? [screen] : [])),
  );
  const all = points.flatMap(({ screens }) => screens.map(({ id }) => id));
  return { done: new Set(all.filter((id) => read.has(id))), screens: all.length };
}

/** Why water cannot be read here any more; null where it can. */
export const notGaugeable = (point: FieldPoint): string | null =>
  point.attempts.length > 0 &&
  openHoles(point).length === 0 &&
  point.screens.every((s) => s.pulled_time)
    ? `The holes of ${point.location.id} are filled: nothing is read or sampled there any more.`
    : null;

/** The mark water is read from, in words: what it is, since when, how high. */
export function markWords(site: Site, mark: MeasuringPoint | null): string {
  if (!mark) return 'No measuring point is on record: say in the remark what you read from.';
  const found = measuringPointElevation(site, mark);
  const { verticalUnit } = site.settings;
  const high = found.ok
    ? `at ${length(found.elevation.value, verticalUnit)}${found.estimated ? ', estimated' : ''}`
    : 'of no known elevation';
  const what = mark.description ? `, ${mark.description}` : '';
  return `Read from ${mark.id}${what}${mark.from_day ? `, in use since ${mark.from_day}` : ''}, ${high}.`;
}

/** The last depth read in a screen before a time; null where there is none. */
export const lastReading = (site: Site, screen: string, before: string): WaterLevel | null =>
  site.waterLevels.reduce<WaterLevel | null>(
    (last, reading) =>
      reading.screen === screen &&
      reading.depth_to_water !== null &&
      (reading.time ?? '') < before &&
      (last === null || dayOf(site, reading) >= dayOf(site, last))
        ? reading
        : last,
    null,
  );

/** When a reading was made; where no time is recorded, the last day of its round. */
const dayOf = (site: Site, { time, event }: WaterLevel) =>
  time ?? site.events.get(event)?.last_day ?? '';

export const lastWords = (site: Site, reading: WaterLevel | null): string =>
  reading?.depth_to_water
    ? `Last read ${length(reading.depth_to_water.value, site.settings.verticalUnit)} on ${dayOf(site, reading).replace('T', ' at ').slice(0, 19)}, ${reading.status}.`
    : 'Not read before.';

export const isPushPoint = (site: Site, screen: string): boolean =>
  site.locations.get(site.screens.get(screen)?.location ?? '')?.kind === 'direct push';

/**
 * What a depth typed now says against the last one: their water levels where
 * both marks are known in height, their depths where the mark is the same.
 * Null where nothing can be compared.
 */
export function againstLast(
  site: Site,
  screen: string,
  typed: Metres | null,
  last: WaterLevel | null,
  { levelChange }: FieldRules,
): Remark | null {
  if (typed === null || !last?.depth_to_water) return null;
  const [now, then] = [markNow(site, screen), measuringPointOf(site, last)];
  const height = (mark: MeasuringPoint | null) => {
    const found = mark && measuringPointElevation(site, mark);
    return found?.ok ? found.elevation.value : null;
  };
  const [high, low] = [height(now), height(then)];
  const isSame = now?.id === then?.id;
  if (!isSame && (high === null || low === null))
    return {
      against: true,
      says: 'The last reading was from another mark: the two depths are not to be compared.',
    };
  const shift = isSame ? 0 : (high ?? 0) - (low ?? 0);
  const rise = last.depth_to_water.value - (typed - shift); // up positive
  const { verticalUnit: unit } = site.settings;
  const size = length(metres(Math.abs(rise)), unit);
  if (Math.abs(rise) < 1e-9) return { against: false, says: 'The same as last time.' };
  const way = `${size} ${rise > 0 ? 'higher' : 'lower'} than last time${isSame ? '' : ', the change of mark taken off'}`;
  // An open hole fills: a rise is what is waited for there.
  const isFilling = isPushPoint(site, screen) && rise > 0;
  return Math.abs(rise) > levelChange + 1e-9 && !isFilling
    ? {
        against: true,
        says: `The water is ${way}: more than ${length(levelChange, unit)}. Read it again.`,
      }
    : { against: false, says: `The water is ${way}.` };
}
