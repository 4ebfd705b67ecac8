import { boundsOf, cornersOf, type Shape } from '../geometry/shape';
import { prepare, type Prepared } from '../geometry/prepared';
import { readShape, type WktProblem } from '../geometry/wkt';
import { binsOf, type Bins } from './bins';
import type { Feature } from '../site/schema';
import { inUnits, type LengthUnit } from '../units';

/** Something drawn that a point must be inside of, or keep away from; lengths in the grid's unit. */
export type Drawn = {
  readonly id: string;
  readonly kind: Feature['kind'];
  /** Its name on the map, else what it carries, else its row's name. */
  readonly name: string;
  readonly shape: Shape;
  readonly prepared: Prepared;
  /** From its middle line to its outside edge; 0 where no width was given. */
  readonly halfWidth: number;
  /** To keep from its outside edge; null where nobody gave one. */
  readonly buffer: number | null;
};

/** What is known of the ground for placing points. Only what was drawn. */
export type GroundPlan = {
  /** None: points may be anywhere. Several: a point must be inside one of them. */
  readonly boundaries: readonly Drawn[];
  readonly obstacles: readonly Drawn[];
  /** Where each obstacle's reach, and a little more, may block a place. */
  readonly reaches: Bins;
  /** The upright rectangle around each obstacle: four numbers each, west, south, east, north. */
  readonly boxes: Float64Array;
};

export type FeatureProblem = {
  readonly id: string;
  readonly problem: WktProblem | { readonly kind: 'boundary-is-no-area' };
};

/** Kinds of drawn things a point keeps out of, and away from where they carry a buffer. */
const OBSTACLES: readonly Feature['kind'][] = ['building', 'utility', 'exclusion', 'surface water'];

/** Farthest from an obstacle's middle line that it still blocks a point. */
export const reachOf = ({ halfWidth, buffer }: Drawn) => halfWidth + (buffer ?? 0);

/** The most a place may be asked to be clear by, beyond what each obstacle asks; in the grid's unit. */
const MOST_MARGIN = 2.1;

export function groundPlan(boundaries: readonly Drawn[], obstacles: readonly Drawn[]): GroundPlan {
  const bounds = obstacles.map(({ shape }) => boundsOf(cornersOf(shape)));
  const reaches = binsOf(
    obstacles.map((obstacle, i) => {
      const box = bounds[i];
      const grown = reachOf(obstacle) + MOST_MARGIN;
      if (!box) return null;
      return {
        west: box.west - grown,
        south: box.south - grown,
        east: box.east + grown,
        north: box.north + grown,
      };
    }),
  );
  // Nothing drawn: a rectangle endlessly far from everywhere.
  const nowhere = { west: Infinity, south: Infinity, east: -Infinity, north: -Infinity };
  const boxes = Float64Array.from(
    bounds.flatMap((box) => {
      const { west, south, east, north } = box ?? nowhere;
      return [west, south, east, north];
    }),
  );
  return { boundaries, obstacles, reaches, boxes };
}

/**
 * The plan from the features of a site, in the grid's unit. Features whose
 * shape cannot be read are returned beside it: they protect nothing, and the
 * person laying out must be told.
 */
export function groundPlanOf(
  features: Iterable<Feature>,
  gridUnit: LengthUnit,
): { readonly plan: GroundPlan; readonly problems: readonly FeatureProblem[] } {
  const boundaries: Drawn[] = [];
  const obstacles: Drawn[] = [];
  const problems: FeatureProblem[] = [];
  for (const feature of features) {
    const isBoundary = feature.kind === 'boundary';
    if (!isBoundary && !OBSTACLES.includes(feature.kind)) continue;
    const read = readShape(feature.shape);
    if (!read.ok) {
      problems.push({ id: feature.id, problem: read.problem });
    } else if (isBoundary && read.value.kind !== 'areas') {
      problems.push({ id: feature.id, problem: { kind: 'boundary-is-no-area' } });
    } else {
      (isBoundary ? boundaries : obstacles).push(drawn(feature, read.value, gridUnit));
    }
  }
  return { plan: groundPlan(boundaries, obstacles), problems };
}

/** Distance from a place to the rectangle around an obstacle, which is never more than to the obstacle. */
export function boxDistance({ boxes }: GroundPlan, obstacle: number, x: number, y: number): number {
  const i = obstacle * 4;
  const east = Math.max((boxes[i] ?? 0) - x, 0, x - (boxes[i + 2] ?? 0));
  const north = Math.max((boxes[i + 1] ?? 0) - y, 0, y - (boxes[i + 3] ?? 0));
  return Math.sqrt(east * east + north * north);
}

const drawn = (feature: Feature, shape: Shape, gridUnit: LengthUnit): Drawn => ({
  id: feature.id,
  kind: feature.kind,
  name: feature.name ?? feature.carries ?? feature.id,
  shape,
  prepared: prepare(shape),
  // A boundary is a line, whatever width it was given.
  halfWidth:
    feature.width && feature.kind !== 'boundary' ? inUnits(feature.width.value, gridUnit) / 2 : 0,
  buffer: feature.buffer ? inUnits(feature.buffer.value, gridUnit) : null,
});
