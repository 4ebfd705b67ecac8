import { cell, recorded } from '../site/cite';
import type { MeasuringPoint, Row } from '../site/schema';
import type { Site } from '../site/site';
import { groupBy } from '../group';
import { decimalsIn } from '../show';
import { metres, type Metres } from '../units';
import type { Worked } from '../work';

/**
 * The mark a reading was taken from: the one it names, else the last of its
 * screen in use by that day. Null where there is none.
 */
export function measuringPointOf(site: Site, reading: Row<'water_levels'>): MeasuringPoint | null {
  if (reading.measuring_point !== null)
    return site.measuringPoints.get(reading.measuring_point) ?? null;
  const day = reading.time?.slice(0, 10) ?? site.events.get(reading.event)?.last_day ?? '';
  let latest: MeasuringPoint | null = null;
  for (const point of marksOf(site, reading.screen)) {
    if ((point.from_day ?? '') > day) continue;
    if (latest === null || (point.from_day ?? '') >= (latest.from_day ?? '')) latest = point;
  }
  return latest;
}

const marks = new WeakMap<object, ReadonlyMap<string, readonly MeasuringPoint[]>>();

/** All marks a screen has had, in the order of the table. */
export function marksOf(site: Site, screen: string): readonly MeasuringPoint[] {
  let byScreen = marks.get(site.measuringPoints);
  if (!byScreen) {
    byScreen = groupBy(site.measuringPoints.values(), (point) => point.screen);
    marks.set(site.measuringPoints, byScreen);
  }
  return byScreen.get(screen) ?? [];
}

/** Why a mark has no elevation to be used. */
export type NoElevation = 'not-surveyed' | 'no-stick-up';

/**
 * Elevation of a measuring point: as surveyed, else ground elevation plus the
 * stick-up read after retraction. `estimated` when it rests on an estimated
 * ground. (Depth to water is read from the same mark: EPA 530/R-93-001, 1992, ch. 4.)
 */
export function measuringPointElevation(
  site: Site,
  point: MeasuringPoint,
):
  | { readonly ok: true; readonly elevation: Worked<Metres>; readonly estimated: boolean }
  | { readonly ok: false; readonly reason: NoElevation } {
  if (point.elevation) {
    const { value, text } = point.elevation;
    return {
      ok: true,
      estimated: false,
      elevation: {
        value,
        work: {
          title: `Measuring point ${point.id}, as surveyed`,
          symbol: 'mp',
          formula: 'elevation',
          terms: [
            recorded(
              'elevation',
              point.description ?? 'measuring point',
              point.elevation,
              cell('measuring_points', point, 'elevation'),
            ),
          ],
          answer: { value, dimension: 'length' },
          decimals: decimalsIn(text),
        },
      },
    };
  }
  const location = site.locations.get(site.screens.get(point.screen)?.location ?? '');
  const ground = location?.ground_elevation;
  if (!location || !ground || location.ground_how === null || location.ground_how === 'none')
    return { ok: false, reason: 'not-surveyed' };
  if (!point.stick_up) return { ok: false, reason: 'no-stick-up' };
  const value = metres(ground.value + point.stick_up.value);
  return {
    ok: true,
    estimated: location.ground_how === 'estimated',
    elevation: {
      value,
      work: {
        title: `Measuring point ${point.id}, from ground and stick-up`,
        symbol: 'mp',
        formula: 'ground + stickup',
        terms: [
          recorded(
            'ground',
            `ground elevation at ${location.id}, ${location.ground_how}`,
            ground,
            cell('locations', location, 'ground_elevation'),
          ),
          recorded(
            'stickup',
            'height of the mark above ground, after retraction',
            point.stick_up,
            cell('measuring_points', point, 'stick_up'),
          ),
        ],
        answer: { value, dimension: 'length' },
        decimals: Math.max(decimalsIn(ground.text), decimalsIn(point.stick_up.text)),
      },
    },
  };
}
