import { lengthNumber, unitText } from '../../domain/show';
import type { LengthUnit } from '../../domain/units';
import type { ContourPiece } from '../../domain/water/surface/contour-pieces';
import type { DrawnSurface } from '../../domain/water/drawn-surface';
import { nodeAt } from '../../domain/water/surface/surface-grid';
import { isInside } from '../../domain/water/surface/hull';
import { LINES, SIZES } from '../look/look';
import { stretches } from './along';
import { distanceTo } from './contour-labels';
import { toward } from './plain';
import type { AreaItem, Item, LineItem, Place, TextItem } from './scene';

/** Where ground metres from the middle of the wells lie in the grid. */
export type PlaceOf = (x: number, y: number) => Place;

/** Decimals that tell neighbouring contours apart. */
export function contourDecimals(interval: number): number {
  for (let decimals = 0; decimals < 4; decimals++)
    if (Math.abs(interval * 10 ** decimals - Math.round(interval * 10 ** decimals)) < 1e-6)
      return decimals;
  return 4;
}

/** The piece of a level's contour that passes nearest to a place, both in ground metres. */
function lineThrough(
  at: Place,
  { pieces }: DrawnSurface,
  level: ContourPiece['level'],
): readonly Place[] {
  const farOff = ({ points }: ContourPiece) =>
    Math.min(...stretches(points).map((piece) => distanceTo(at, piece)));
  const [nearest] = pieces
    .filter((piece) => piece.level === level)
    .toSorted((a, b) => farOff(a) - farOff(b));
  return nearest?.points ?? [];
}

/** Contours with their levels: solid where known, dashed where inferred. */
export function contourItems(
  surface: DrawnSurface,
  placeOf: PlaceOf,
  unit: LengthUnit,
  decimals: number,
): Item[] {
  const lines = surface.pieces.map(({ points, inferred }): LineItem => ({
    kind: 'line',
    layer: 'contours',
    path: points.map(([x, y]) => placeOf(x, y)),
    weight: LINES.medium,
    colour: 'water',
    ...(inferred ? { dash: 'dashed' as const } : {}),
    means: `Water-level contour, ${unitText(unit)}${inferred ? ', inferred' : ''}`,
  }));
  const labels = surface.labels.map(({ at: [x, y], turned, level }): TextItem => ({
    kind: 'text',
    layer: 'captions',
    at: placeOf(x, y),
    along: lineThrough([x, y], surface, level).map((at) => placeOf(...at)),
    text: lengthNumber(level, unit, decimals),
    sides: ['centre'],
    away: 0,
    size: SIZES.note,
    face: 'semibold',
    colour: 'water',
    priority: 2,
    turned: 0 - turned,
  }));
  return [...lines, ...labels];
}

/** Lines square to the contours, with a point at their lower end. */
export const flowLineItems = (surface: DrawnSurface, placeOf: PlaceOf): Item[] =>
  surface.flowLines.flatMap(({ points }): Item[] => {
    const path = points.map(([x, y]) => placeOf(x, y));
    const [before, last] = [path.at(-2), path.at(-1)];
    if (!before || !last) return [];
    return [
      {
        kind: 'line',
        layer: 'flow-lines',
        path,
        weight: LINES.thin,
        colour: 'ink',
        means: 'Flow line: direction only, not speed',
      },
      { kind: 'arrow', layer: 'flow-lines', tail: before, head: last, width: 1.5, colour: 'ink' },
    ];
  });

/** The fall of the surface at places inside the outline: for where one plane is wrong. */
export function localArrowItems({ arrows, hull }: DrawnSurface, placeOf: PlaceOf): Item[] {
  const length = 0.05 * Math.max(...hull.map(([x, y]) => Math.hypot(x, y)), 0);
  return arrows.flatMap(({ at: [x, y], direction }): Item[] => {
    if (direction === null) return [];
    const middle = placeOf(x, y);
    return [
      {
        kind: 'arrow',
        layer: 'local-arrows',
        tail: toward(middle, direction + 180, length),
        head: toward(middle, direction, length),
        width: 2,
        colour: 'water',
        means: 'Direction of flow at a place',
      },
    ];
  });
}

/** Bands of the kriging error, each with its own pattern. */
const BANDS = [
  { pattern: null, fill: null },
  { pattern: 'dots', fill: null },
  { pattern: 'diagonal', fill: null },
  { pattern: 'diagonal', fill: 'hairline' },
] as const;

/** The kriging error over the outline in four even bands; nothing where it is triangulated. */
export function errorItems(
  { grid, hull }: DrawnSurface,
  placeOf: PlaceOf,
  says: (sigma: number) => string,
): AreaItem[] {
  const variances = grid?.variances;
  if (!grid || !variances) return [];
  const { frame } = grid;
  const inside = (node: number) =>
    isInside(hull, nodeAt(frame, node % frame.columns, Math.floor(node / frame.columns)));
  const sigmas = Array.from(variances, (v, node) =>
    inside(node) ? Math.sqrt(Math.max(0, v)) : -1,
  );
  const most = Math.max(...sigmas);
  if (!(most > 0)) return [];
  const bandOf = (node: number) => {
    const sigma = sigmas[node] ?? -1;
    return sigma < 0 ? -1 : Math.min(3, Math.floor((4 * sigma) / most));
  };
  const half = frame.step / 2;
  const polygons: Place[][][][] = [[], [], [], []];
  for (let row = 0; row < frame.rows; row++)
    for (let from = 0, to = 0; from < frame.columns; from = to) {
      const band = bandOf(row * frame.columns + from);
      for (to = from + 1; to < frame.columns && bandOf(row * frame.columns + to) === band;) to++;
      if (band < 0) continue;
      const [[west, middle], [east]] = [nodeAt(frame, from, row), nodeAt(frame, to - 1, row)];
      const [w, e, s, n] = [west - half, east + half, middle - half, middle + half];
      const ring = [placeOf(w, s), placeOf(e, s), placeOf(e, n), placeOf(w, n), placeOf(w, s)];
      polygons[band]?.push([ring]);
    }
  return BANDS.flatMap(({ pattern, fill }, band): AreaItem[] => {
    const here = polygons[band] ?? [];
    if (here.length === 0 || (pattern === null && fill === null)) return [];
    return [
      {
        kind: 'area',
        layer: 'surface-error',
        polygons: here,
        ...(fill ? { fill } : {}),
        ...(pattern ? { hatch: { pattern, colour: 'line' as const } } : {}),
        means: `Kriging error ${says((band / 4) * most)} to ${says(((band + 1) / 4) * most)}`,
      },
    ];
  });
}
