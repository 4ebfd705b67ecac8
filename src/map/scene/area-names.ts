import { groupBy } from '../../domain/group';
import { stretches } from './along';
import { sizeOf } from './place-labels';
import { magnified } from './plain';
import type { AreaItem, Item, Place, TextItem } from './scene';

/** px between ground that is drawn and its name beside it. */
const GAP = 5;

/** Places across the width of a name at which the ground under it is asked how far it reaches. */
const ACROSS = 5;

/**
 * Names of areas that are hatched, or too small for their name, stood beside
 * them: over or under, clear of the ground they name. Others stand in them, and
 * beside them where something else stands there.
 *
 * @param scale  metres in a px
 */
export function areaNamesBeside(
  scene: readonly Item[],
  scale: number,
  magnify: number,
): readonly Item[] {
  const areas = groupBy(
    scene.filter((item): item is AreaItem => item.kind === 'area' && item.who !== undefined),
    ({ who }) => who,
  );
  return scene.map((item) => {
    const [area] = item.kind === 'text' && item.sides.includes('centre') ? areas.get(item.who) ?? [] : []; // prettier-ignore
    return area && item.kind === 'text' ? beside(item, area, scale, magnify) : item;
  });
}

function beside(item: TextItem, area: AreaItem, scale: number, magnify: number): TextItem {
  const [width, height] = sizeOf(magnified(item, magnify) as TextItem);
  const [east] = item.at;
  const reaches = Array.from({ length: ACROSS }, (_, i) =>
    reachAt(area, item.at, east + (i / (ACROSS - 1) - 0.5) * width * scale),
  );
  const isRoomy = reaches.every((reach) => reach !== null && reach.least > (height * scale) / 2);
  if (item.turned) return item;
  const most = Math.max(...reaches.map((reach) => reach?.most ?? 0));
  const away = most / scale / magnify + GAP;
  if (isRoomy && !area.hatch) return { ...item, further: [away] };
  return { ...item, sides: ['s', 'n', 'e', 'w'], away };
}

/** How far an area reaches from a place to the north and south, at some easting: the nearer edge and the farther; null where it does not. */
function reachAt({ polygons }: AreaItem, [, north]: Place, east: number) {
  const edges = polygons.flat().flatMap((ring) =>
    stretches(ring).flatMap(([[e0, n0], [e1, n1]]) => {
      if (e0 === e1 || e0 > east === e1 > east) return [];
      return [n0 + ((n1 - n0) * (east - e0)) / (e1 - e0) - north];
    }),
  );
  if (edges.length === 0) return null;
  const distances = edges.map(Math.abs);
  const isWithin = Math.min(...edges) < 0 && Math.max(...edges) > 0;
  return { least: isWithin ? Math.min(...distances) : 0, most: Math.max(...distances) };
}
