import Delaunator from 'delaunator';
import { distanceBetween } from '../geometry/compass';
import { side } from '../geometry/side';
import type { XY } from '../geometry/shape';
import { fail, ok, type Result } from '../result';
import { metres, type Metres } from '../units';
import type { Term, Worked } from '../work';
import { termOf, type Given } from './given';

/** A point whose ground was surveyed; its place in the grid's unit. */
export type SurveyedGround = { readonly id: string; readonly at: XY; readonly elevation: Given };

/** Ground between surveyed points: estimated, and to be shown as such. */
export type EstimatedGround = {
  readonly elevation: Worked<Metres>;
  /** The surveyed point nearest to it, and how far that is in the grid's unit. */
  readonly nearest: { readonly id: string; readonly distance: number };
  /** The three points it is estimated between. */
  readonly between: readonly [string, string, string];
};

/** Why the ground is not estimated: it is never carried on beyond what was surveyed. */
export type NoGround =
  | { readonly kind: 'too-few'; readonly have: number }
  | { readonly kind: 'in-a-line' }
  | {
      readonly kind: 'outside-survey';
      readonly nearest: { readonly id: string; readonly distance: number };
    };

/**
 * The ground between surveyed points, level between each three neighbours:
 * linear over the triangles of Delaunay (B. Delaunay, 1934, Sur la sphère
 * vide). A place on the outermost line between points is inside.
 *
 * @returns a function from a place to its ground, for asking about many places
 */
export function groundBetween(
  surveyed: readonly SurveyedGround[],
): (at: XY) => Result<EstimatedGround, NoGround> {
  if (surveyed.length < 3) return () => fail({ kind: 'too-few', have: surveyed.length });
  // Reckoned from the first point: State Plane coordinates in the millions lose digits otherwise.
  const [ox, oy] = surveyed[0]?.at ?? [0, 0];
  const places = surveyed.map(({ at: [x, y] }): XY => [x - ox, y - oy]);
  const mesh = Delaunator.from(places);
  if (mesh.triangles.length === 0) return () => fail({ kind: 'in-a-line' });

  let start = 0;
  return (at) => {
    const from: XY = [at[0] - ox, at[1] - oy];
    const nearest = nearestTo(at, surveyed);
    const triangle = triangleAt(mesh, places, from, start);
    if (triangle === null) return fail({ kind: 'outside-survey', nearest });
    start = triangle;
    const corners = cornersOf(mesh, triangle);
    const [a, b, c] = corners.map((i) => surveyed[i]);
    const [pa, pb, pc] = corners.map((i) => places[i]);
    if (!a || !b || !c || !pa || !pb || !pc) return fail({ kind: 'outside-survey', nearest });
    const whole = side(pa, pb, pc);
    const shares = [
      side(from, pb, pc) / whole,
      side(pa, from, pc) / whole,
      side(pa, pb, from) / whole,
    ] as const;
    return ok({
      elevation: blended([a, b, c], shares),
      nearest,
      between: [a.id, b.id, c.id],
    });
  };
}

type Mesh = { readonly triangles: Uint32Array; readonly halfedges: Int32Array };

const cornersOf = ({ triangles }: Mesh, triangle: number): readonly number[] =>
  [0, 1, 2].map((k) => triangles[triangle * 3 + k] ?? 0);

/**
 * The triangle a place lies in or on, walked to from a triangle near it: out
 * through any side that has the place on its far side. Null beyond the hull.
 * (O. Devillers and others, 2002, Walking in a triangulation; on Delaunay
 * triangles the walk ends.)
 */
function triangleAt(mesh: Mesh, places: readonly XY[], at: XY, start: number): number | null {
  let triangle = start;
  for (let steps = 0; steps <= mesh.triangles.length; steps++) {
    const corners = cornersOf(mesh, triangle).map((i) => places[i] ?? at);
    const [a, b, c] = corners;
    if (!a || !b || !c) return null;
    const turn = Math.sign(side(a, b, c));
    const out = corners.findIndex((p, k) => side(p, corners[(k + 1) % 3] ?? p, at) * turn < 0);
    if (out === -1) return triangle;
    const beyond = mesh.halfedges[triangle * 3 + out] ?? -1;
    if (beyond === -1) return null;
    triangle = Math.floor(beyond / 3);
  }
  return null;
}

function nearestTo(at: XY, surveyed: readonly SurveyedGround[]) {
  let nearest = { id: '', distance: Infinity };
  for (const point of surveyed) {
    const distance = distanceBetween(at, point.at);
    if (distance < nearest.distance) nearest = { id: point.id, distance };
  }
  return nearest;
}

function blended(points: readonly SurveyedGround[], shares: readonly number[]): Worked<Metres> {
  const value = points.reduce(
    (sum, { elevation }, i) => sum + elevation.value * (shares[i] ?? 0),
    0,
  );
  const terms = points.flatMap(({ id, elevation }, i): Term[] => [
    {
      symbol: `w${i + 1}`,
      name: `weight of ${id}`,
      value: shares[i] ?? 0,
      dimension: 'number',
      from: { kind: 'citation', text: 'share of the triangle across from it' },
    },
    termOf(`g${i + 1}`, `ground at ${id}, surveyed`, elevation),
  ]);
  return {
    value: metres(value),
    work: {
      title: 'Ground, estimated between surveyed points',
      symbol: 'ground',
      formula: 'w1 * g1 + w2 * g2 + w3 * g3',
      terms,
      answer: { value, dimension: 'length' },
      decimals: 2,
      note: 'Level between each three neighbouring points (triangles of Delaunay).',
    },
  };
}
