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
import { counted, listed, said, type Material, type Sentence } from './stop';

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

/** Crosses told one by one before they are counted. */
const TOLD = 3;

function nearExceeding(site: Site, of: Material['of'], crosses: readonly Cross[]): Sentence[] {
  const { within, combinedFactor } = reachOf(site);
  const exceeded = [
    ...new Map(
      overInAnyEvent(site, of).flatMap(({ location }) =>
        location ? [[location.id, location]] : [],
      ),
    ).values(),
  ];
  const near = crosses.flatMap(({ at, from }) => {
    const [first] = exceeded
      .flatMap(({ id, easting, northing }) =>
        easting && northing && id !== from
          ? [{ id, far: distanceBetween(at, [easting.value, northing.value]) / combinedFactor }]
          : [],
      )
      .filter(({ far }) => far < within / 2)
      .toSorted((a, b) => a.far - b.far);
    return first ? [first] : [];
  });
  if (near.length === 0) return [];
  const told = near
    .slice(0, TOLD)
    .map(({ id, far }, i) => `${id} (${distanceWords(site, far)}${i === 0 ? ' from it' : ''})`);
  const more = near.length > TOLD ? [`${near.length - TOLD} more`] : [];
  return [said(`Near a cross something exceeded before: ${listed([...told, ...more])}.`)];
}
