import Delaunator from 'delaunator';
import { fail, ok, type Result } from '../../result';
import { metres, type Metres } from '../../units';
import { fractionsInside, side, type XY } from './hull';
import { placesOf, type SurfacePlace, type SurfacePoint } from './surface-point';

/**
 * Heads joined by triangles: within each the water level is the plane through
 * its three wells. Plain arrays, so that it can be sent to a worker.
 */
export type Tin = {
  /** In the order of the points given, those in one place made one. */
  readonly places: readonly SurfacePlace[];
  /** Of the places, in their order. */
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly heads: Float64Array;
  /** Three places a triangle, counter-clockwise. Side k runs from corner k to the triangle's next. */
  readonly corners: Uint32Array;
  /** For each side, the same side in the triangle across it; −1 where there is none. */
  readonly across: Int32Array;
  /** False where triangles were taken out, so that the outline may have bays. */
  readonly whole: boolean;
};

export type TinProblem =
  | { readonly kind: 'too-few-wells'; readonly have: number; readonly need: number }
  | { readonly kind: 'wells-in-a-line' };

/**
 * The Delaunay triangulation of the wells: no well lies inside the circle
 * through the three of any triangle, so that triangles are as little drawn out
 * as can be. Where four wells lie on one circle either diagonal is right.
 * With three wells it is the three-point problem.
 */
export function triangulate(points: readonly SurfacePoint[]): Result<Tin, TinProblem> {
  const places = placesOf(points);
  const n = places.length;
  if (n < 3) return fail({ kind: 'too-few-wells', have: n, need: 3 });

  const x = Float64Array.from(places, (place) => place.x);
  const y = Float64Array.from(places, (place) => place.y);
  const heads = Float64Array.from(places, (place) => place.head);
  // Upside down, since the package counts clockwise where north is up.
  const coordinates = new Float64Array(2 * n);
  places.forEach((place, i) => {
    coordinates[2 * i] = place.x - (x[0] as number);
    coordinates[2 * i + 1] = (y[0] as number) - place.y;
  });
  const { triangles, halfedges } = new Delaunator(coordinates);
  if (triangles.length === 0) return fail({ kind: 'wells-in-a-line' });
  return ok({ places, x, y, heads, corners: triangles, across: halfedges, whole: true });
}

export const triangleCount = (tin: Tin): number => tin.corners.length / 3;

/** The next side round the same triangle, counter-clockwise. */
export const nextSide = (k: number): number => (k % 3 === 2 ? k - 2 : k + 1);

/** Where a place stands. */
export const standing = (tin: Tin, place: number): XY => [
  tin.x[place] as number,
  tin.y[place] as number,
];

/** The three places of a triangle, counter-clockwise. */
export const cornersOf = (tin: Tin, triangle: number): readonly [number, number, number] => [
  tin.corners[3 * triangle] as number,
  tin.corners[3 * triangle + 1] as number,
  tin.corners[3 * triangle + 2] as number,
];

/**
 * The triangle a point lies in, or on; null outside the outline. Found by
 * walking from triangle to triangle towards the point.
 *
 * @param from  a triangle to start at: the last answer, where points come in order
 */
export function triangleAt(tin: Tin, point: XY, from = 0): number | null {
  let triangle = Math.min(Math.max(0, from), triangleCount(tin) - 1);
  for (let steps = 0; steps <= triangleCount(tin); steps++) {
    const out = sideTowards(tin, triangle, point);
    if (out === null) return triangle;
    const across = tin.across[out] as number;
    if (across === -1) break;
    triangle = Math.floor(across / 3);
  }
  if (tin.whole) return null;
  for (let t = 0; t < triangleCount(tin); t++) if (sideTowards(tin, t, point) === null) return t;
  return null;
}

/** A side of the triangle with the point on its far side; null when the point lies in it. */
function sideTowards(tin: Tin, triangle: number, point: XY): number | null {
  for (let k = 3 * triangle; k < 3 * triangle + 3; k++) {
    const a = standing(tin, tin.corners[k] as number);
    const b = standing(tin, tin.corners[nextSide(k)] as number);
    if (side(a, b, point) < 0) return k;
  }
  return null;
}

/** Slope of a triangle's plane: head per metre east and north. */
export function triangleSlope(tin: Tin, triangle: number): readonly [number, number] {
  const [i, j, k] = cornersOf(tin, triangle);
  const [a, b, c] = [standing(tin, i), standing(tin, j), standing(tin, k)];
  const [h0, h1, h2] = [i, j, k].map((place) => tin.heads[place] as number) as [
    number,
    number,
    number,
  ];
  const [x1, y1, x2, y2] = [b[0] - a[0], b[1] - a[1], c[0] - a[0], c[1] - a[1]];
  const twiceArea = x1 * y2 - x2 * y1;
  return [
    ((h1 - h0) * y2 - (h2 - h0) * y1) / twiceArea,
    (x1 * (h2 - h0) - x2 * (h1 - h0)) / twiceArea,
  ];
}

/** The head in a triangle's plane at a point: the mean of its three, weighted by opposite areas. */
function headInTriangle(tin: Tin, triangle: number, [x, y]: XY): Metres {
  const [i, j, k] = cornersOf(tin, triangle);
  const [a, b, c] = [standing(tin, i), standing(tin, j), standing(tin, k)];
  const area = (p: XY, q: XY) => (p[0] - x) * (q[1] - y) - (q[0] - x) * (p[1] - y);
  const [wa, wb, wc] = [area(b, c), area(c, a), area(a, b)];
  const [ha, hb, hc] = [i, j, k].map((place) => tin.heads[place] as number) as [
    number,
    number,
    number,
  ];
  return metres(ha + (wb * (hb - ha) + wc * (hc - ha)) / (wa + wb + wc));
}

/** The triangulated head at a point; null outside the outline of the wells. */
export function headOnTin(tin: Tin, x: number, y: number): Metres | null {
  const triangle = triangleAt(tin, [x, y]);
  return triangle === null ? null : headInTriangle(tin, triangle, [x, y]);
}

/** Slope of the triangulated surface at a point; null outside the outline of the wells. */
export function slopeOnTin(tin: Tin, x: number, y: number): readonly [number, number] | null {
  const triangle = triangleAt(tin, [x, y]);
  return triangle === null ? null : triangleSlope(tin, triangle);
}

/**
 * The triangles that no line crosses: a no-flow line, such as a wall somebody
 * drew, ties no head on one side to a head on the other. Where a line runs
 * there is then no surface, which is what is known.
 */
export function withoutTrianglesAcross(tin: Tin, lines: readonly (readonly XY[])[]): Tin {
  const pieces = lines.flatMap((line) => line.slice(1).map((b, i) => [line[i] ?? b, b] as const));
  const kept: number[] = [];
  for (let t = 0; t < triangleCount(tin); t++) {
    const triangle = cornersOf(tin, t).map((place) => standing(tin, place));
    const crossed = pieces.some(([a, b]) => {
      const inside = fractionsInside(triangle, a, b);
      return inside !== null && inside[1] > inside[0];
    });
    if (!crossed) kept.push(t);
  }
  const moved = new Map(kept.map((t, i) => [t, i]));
  const sides = kept.flatMap((t) => [3 * t, 3 * t + 1, 3 * t + 2]);
  return {
    ...tin,
    corners: Uint32Array.from(sides, (k) => tin.corners[k] as number),
    across: Int32Array.from(sides, (k) => {
      const across = tin.across[k] as number;
      const triangle = across === -1 ? undefined : moved.get(Math.floor(across / 3));
      return triangle === undefined ? -1 : 3 * triangle + (across % 3);
    }),
    whole: tin.whole && kept.length === triangleCount(tin),
  };
}
