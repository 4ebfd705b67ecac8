import { sidesOf, side, type Hull, type XY } from '../water/surface/hull';
import { nodeAt, type SurfaceGrid } from '../water/surface/surface-grid';

/** Corners in order, the first not repeated. */
export type Polygon = readonly XY[];

type Corner = { readonly at: XY; readonly value: number };

/**
 * The ground of each band of a gridded surface: below the first edge, between
 * neighbours, above the last. Each mesh is cut where a straight line along its
 * sides passes an edge, as contours are, and at the outline; whole meshes of one
 * band are joined along a row.
 */
export function bandPolygons(
  grid: SurfaceGrid,
  hull: Hull,
  edges: readonly number[],
): readonly (readonly Polygon[])[] {
  const { frame, heads } = grid;
  const bands: Polygon[][] = Array.from({ length: edges.length + 1 }, () => []);
  const bandOf = (value: number) => edges.filter((edge) => value >= edge).length;
  const corner = (column: number, row: number): Corner => ({
    at: nodeAt(frame, column, row),
    value: heads[row * frame.columns + column] ?? 0,
  });
  for (let row = 0; row + 1 < frame.rows; row++) {
    let [from, runs] = [0, -1]; // a run of whole meshes, and its band
    const close = (to: number) => {
      bands[runs]?.push([
        nodeAt(frame, from, row),
        nodeAt(frame, to, row),
        nodeAt(frame, to, row + 1),
        nodeAt(frame, from, row + 1),
      ]);
      runs = -1;
    };
    for (let column = 0; column + 1 < frame.columns; column++) {
      const mesh = [
        corner(column, row),
        corner(column + 1, row),
        corner(column + 1, row + 1),
        corner(column, row + 1),
      ];
      const of = mesh.map(({ value }) => bandOf(value));
      const [low, high] = [Math.min(...of), Math.max(...of)];
      const whole = low === high && mesh.every(({ at }) => isInBand(hull, at));
      if (whole && runs === low) continue;
      close(column);
      if (whole) {
        [from, runs] = [column, low];
        continue;
      }
      for (let band = low; band <= high; band++) {
        const part = clippedToHull(
          between(mesh, edges[band - 1] ?? -Infinity, edges[band] ?? Infinity),
          hull,
        );
        if (part.length > 2) bands[band]?.push(part);
      }
    }
    close(frame.columns - 1);
  }
  return bands;
}

/** The part of a mesh whose value lies from one edge up to another. */
function between(mesh: readonly Corner[], low: number, high: number): readonly XY[] {
  const above = cut(mesh, low, (value) => value >= low);
  return cut(above, high, (value) => value < high).map(({ at }) => at);
}

function cut(
  corners: readonly Corner[],
  edge: number,
  keeps: (value: number) => boolean,
): readonly Corner[] {
  return corners.flatMap((a, i) => {
    const b = corners[(i + 1) % corners.length] ?? a;
    const here = keeps(a.value) ? [a] : [];
    if (keeps(a.value) === keeps(b.value)) return here;
    const t = (edge - a.value) / (b.value - a.value);
    const at: XY = [a.at[0] + t * (b.at[0] - a.at[0]), a.at[1] + t * (b.at[1] - a.at[1])];
    return [...here, { at, value: edge }];
  });
}

/**
 * The part of a polygon inside a convex outline (I. E. Sutherland and G. W.
 * Hodgman, 1974, Reentrant polygon clipping; value from memory).
 */
function clippedToHull(polygon: readonly XY[], hull: Hull): readonly XY[] {
  return sidesOf(hull).reduce<readonly XY[]>((left, [from, to]) => {
    const depths = left.map((at) => side(from, to, at));
    return left.flatMap((a, i) => {
      const next = (i + 1) % left.length;
      const b = left[next] ?? a;
      const [here, there] = [depths[i] ?? 0, depths[next] ?? 0];
      const kept = here >= 0 ? [a] : [];
      if (here >= 0 === there >= 0) return kept;
      const t = here / (here - there);
      const at: XY = [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])];
      return [...kept, at];
    });
  }, polygon);
}

/** Whether a place lies inside a convex polygon whose corners run counter-clockwise, or on its edge. */
export const isInBand = (polygon: Polygon, place: XY): boolean =>
  sidesOf(polygon).every(([a, b]) => side(a, b, place) >= 0);
