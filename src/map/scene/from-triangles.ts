import { triangleAt, type Triangles } from '../../domain/water/triangles';
import { LINES } from '../look/look';
import { toward } from './plain';
import type { Item, Place } from './scene';

/** More triangles than this cover each other; the rose still counts them all. */
export const MOST_TRIANGLES_DRAWN = 600;

/**
 * Each triangle's own direction, as a small arrow over its middle; those whose
 * shape fails are grey strokes without a point. None where there are too many to read.
 *
 * @param placeOf  where ground metres from the middle of the wells lie in the grid
 */
export function triangleItems(
  triangles: Triangles,
  placeOf: (x: number, y: number) => Place,
): Item[] {
  if (triangles.count > MOST_TRIANGLES_DRAWN) return [];
  const { wells } = triangles;
  const reach = Math.max(...wells.map(({ x, y }) => Math.hypot(x, y)), 0);
  const length = 0.13 * reach;
  return Array.from({ length: triangles.count }, (_, k): Item[] => {
    const triangle = triangleAt(triangles, k);
    const corners = [triangles.first[k], triangles.second[k], triangles.third[k]].flatMap(
      (i) => wells[i ?? -1] ?? [],
    );
    if (!triangle || triangle.azimuth === null || corners.length !== 3) return [];
    const middle = placeOf(
      corners.reduce((sum, { x }) => sum + x / 3, 0),
      corners.reduce((sum, { y }) => sum + y / 3, 0),
    );
    const tail = toward(middle, triangle.azimuth + 180, length / 2);
    const head = toward(middle, triangle.azimuth, length / 2);
    return triangle.wellShaped
      ? [
          {
            kind: 'arrow',
            layer: 'local-arrows',
            tail,
            head,
            width: 2,
            colour: 'water',
            means: 'Direction of three wells',
          },
        ]
      : [
          {
            kind: 'line',
            layer: 'local-arrows',
            path: [tail, head],
            weight: LINES.thin,
            colour: 'ink-soft',
            dash: 'dashed',
            means: 'Direction of three wells, shape rule failed',
          },
        ];
  }).flat();
}

/** The outline of one triangle that was asked for. */
export const triangleOutline = (corners: readonly Place[]): Item[] =>
  corners.length < 3
    ? []
    : [
        {
          kind: 'line',
          layer: 'local-arrows',
          path: [...corners, ...corners.slice(0, 1)],
          weight: LINES.medium,
          colour: 'ink',
          casing: 1.5,
          means: 'Triangle picked',
        },
      ];
