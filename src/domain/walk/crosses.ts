import { distanceBetween } from '../geometry/compass';
import { whereIn } from '../geometry/inside';
import { moved, type XY } from '../geometry/shape';
import { readShape } from '../geometry/wkt';
import type { NextPush } from '../lab/site-delineation';
import type { Feature } from '../site/schema';
import type { Site } from '../site/site';
import { metres } from '../units';
import { overInAnyEvent } from './any-event';
import { reachOf } from './delineation-stop';
import { distanceWords } from './distance-words';
import { counted, said, type Material, type Sentence } from './stop';

/** Ground on which nobody pushes without more ado. */
const IN_THE_WAY: readonly Feature['kind'][] = ['building', 'exclusion'];

type Cross = { readonly at: XY; readonly from: string };

/** What the crosses of a map mean, where they stand on something, and where something exceeded before. */
export function crossSentences(
  site: Site,
  of: Material['of'],
  pushes: readonly NextPush[],
): Sentence[] {
  const crosses = pushes.flatMap(({ answer: { side, next, location } }): Cross[] =>
    next && side !== 'below' ? [{ at: [next.easting, next.northing], from: location }] : [],
  );
  return [
    said(
      `${counted(crosses.length, 'cross', 'crosses')} on the map: a push there closes the side only if it does not exceed. Points are marked by all events.`,
    ),
    ...onSomething(site, crosses),
    ...nearExceeding(site, of, crosses),
  ];
}

function onSomething(site: Site, crosses: readonly Cross[]): Sentence[] {
  const { unit } = site.settings.grid;
  return site.features.flatMap(({ kind, shape, name, id }) => {
    const read = IN_THE_WAY.includes(kind) ? readShape(shape) : null;
    if (!read?.ok) return [];
    const area = moved(read.value, ([e, n]) => [metres(e, unit), metres(n, unit)]);
    const on = crosses.filter(({ at }) => whereIn(area, at) !== 'outside').length;
    if (on === 0) return [];
    const [stand, have] = on === 1 ? ['stands', 'it has'] : ['stand', 'they have'];
    return [said(`${on} of them ${stand} in ${name ?? id}: ${have} to be moved.`)];
  });
}

/** How many crosses lie near a point that exceeded in some event: the side may well go on there. */
function nearExceeding(site: Site, of: Material['of'], crosses: readonly Cross[]): Sentence[] {
  const { within, combinedFactor } = reachOf(site);
  const exceeded = overInAnyEvent(site, of).flatMap(({ location }) => (location ? [location] : []));
  const near = crosses.flatMap(({ at, from }) => {
    const far = exceeded.flatMap(({ id, easting, northing }) =>
      easting && northing && id !== from
        ? [distanceBetween(at, [easting.value, northing.value]) / combinedFactor]
        : [],
    );
    const nearest = Math.min(...far);
    return nearest < within / 2 ? [nearest] : [];
  });
  if (near.length === 0) return [];
  // Without names: so near each other, the points have no room for them on the map.
  return [
    said(
      `Something exceeded before within ${distanceWords(site, within / 2)} of ${near.length} of them, at the nearest ${distanceWords(site, Math.min(...near))} away.`,
    ),
  ];
}
