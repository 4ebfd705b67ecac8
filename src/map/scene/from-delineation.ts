import type { NextPush } from '../../domain/lab/site-delineation';
import { LINES, SIZES } from '../look/look';
import type { Item, Place } from './scene';
import { sidesAhead } from './sides';
import type { Site } from '../../domain/site/site';
import { placeOf } from './from-locations';

/** Degrees clockwise from grid north. */
const azimuthTo = ([e0, n0]: Place, [e1, n1]: Place) =>
  ((Math.atan2(e1 - e0, n1 - n0) * 180) / Math.PI + 360) % 360;

/** A name as it is said where it has one: "TCE" of "Trichloroethylene (TCE)". */
const brief = (analyte: string) => /\(([A-Z]{2,6})\)$/.exec(analyte)?.[1] ?? analyte;

/** Open sides on the map: a cross where the next push would close each, tied to what exceeds. */
export function openSideItems(site: Site, pushes: readonly NextPush[]): Item[] {
  return pushes.flatMap(({ answer, analytes }): Item[] => {
    const location = site.locations.get(answer.location);
    const from = location && placeOf(location);
    if (!from) return [];
    const common = { who: answer.location, colour: 'signal' } as const;
    const line = (to: Place, means: string, dash: 'dashed' | 'dotted'): Item => ({
      ...common,
      kind: 'line',
      layer: 'construction',
      path: [from, to],
      weight: LINES.medium,
      casing: 1,
      dash,
      means,
    });
    if (answer.side !== 'below' && answer.by) {
      const { easting, northing } = answer.by;
      return [line([easting, northing], 'Open side: sample that point again', 'dotted')];
    }
    if (answer.side === 'below' || !answer.next) return [];
    const at: Place = [answer.next.easting, answer.next.northing];
    return [
      line(at, 'Open side: nothing there', 'dashed'),
      {
        ...common,
        kind: 'symbol',
        layer: 'construction',
        at,
        shape: 'cross',
        size: 15,
        means: 'Where a push could close an open side',
      },
      {
        ...common,
        kind: 'text',
        // Under the names of points, which take their room first.
        layer: 'feature-labels',
        at,
        text: analytes.length === 1 ? brief(analytes[0] ?? '') : `${analytes.length} analytes`,
        // Onward from the point, so that the words do not stand on the dashes.
        sides: sidesAhead(azimuthTo(from, at)),
        away: 10,
        size: SIZES.fine,
        face: 'regular',
        priority: 1,
      },
    ];
  });
}
