import type { KrigedSurface } from './kriging';
import type { VariogramModel } from './variogram-model';

/**
 * Covariances of four places at a time with every well: the inner loops of a
 * gridded surface. A block holds the four side by side: well i with place k at
 * 4i + k.
 */

/** Wells rounded up to whole panels of four; the rows beyond the wells stay zero. */
export const blockOf = (wells: number): Float64Array =>
  new Float64Array(4 * (4 * Math.ceil(wells / 4)));

/** A start and a step in stretched coordinates, for places in a row. */
export type Row = {
  readonly u: number;
  readonly v: number;
  readonly stepU: number;
  readonly stepV: number;
};

/** Row of places from (x, y) on, each so many metres further east. */
export function rowFrom(surface: KrigedSurface, x: number, y: number, step: number): Row {
  const { stretch, centre } = surface;
  const [dx, dy] = [x - centre[0], y - centre[1]];
  return {
    u: stretch.xx * dx + stretch.xy * dy,
    v: stretch.yx * dx + stretch.yy * dy,
    stepU: stretch.xx * step,
    stepV: stretch.yx * step,
  };
}

/** What covariances depend on; a surface has it, and so has a choice of its wells. */
export type Wells = Pick<KrigedSurface, 'u' | 'v' | 'base' | 'choice'>;

/** Fills a block for the places `first` to `first` + 3 of a row. */
export function covariances(
  { u, v, base, choice }: Wells,
  row: Row,
  first: number,
  block: Float64Array,
): void {
  squaredDistances(u, v, row, first, block);
  toCovariances(choice.model, base, 4 * u.length, block);
}

function squaredDistances(
  us: Float64Array,
  vs: Float64Array,
  { u, v, stepU, stepV }: Row,
  first: number,
  block: Float64Array,
): void {
  const [u0, v0] = [u + first * stepU, v + first * stepV];
  for (let i = 0, b = 0; i < us.length; i++, b += 4) {
    const a = (us[i] as number) - u0;
    const c = (vs[i] as number) - v0;
    const [a1, c1] = [a - stepU, c - stepV];
    const [a2, c2] = [a1 - stepU, c1 - stepV];
    const [a3, c3] = [a2 - stepU, c2 - stepV];
    block[b] = a * a + c * c;
    block[b + 1] = a1 * a1 + c1 * c1;
    block[b + 2] = a2 * a2 + c2 * c2;
    block[b + 3] = a3 * a3 + c3 * c3;
  }
}

/** Squared stretched distances made covariances, in place; the nugget is not in them. */
export function toCovariances(
  model: VariogramModel,
  base: number,
  count: number,
  block: Float64Array,
): void {
  switch (model.shape) {
    case 'exponential':
      // Four at a time: half again as fast as one by one.
      for (let b = 0; b < count; b += 4) {
        const h0 = Math.sqrt(block[b] as number);
        const h1 = Math.sqrt(block[b + 1] as number);
        const h2 = Math.sqrt(block[b + 2] as number);
        const h3 = Math.sqrt(block[b + 3] as number);
        block[b] = base * decay(h0);
        block[b + 1] = base * decay(h1);
        block[b + 2] = base * decay(h2);
        block[b + 3] = base * decay(h3);
      }
      return;
    case 'gaussian':
      for (let b = 0; b < count; b++) block[b] = base * decay(block[b] as number);
      return;
    case 'spherical':
      for (let b = 0; b < count; b++) {
        const h = Math.sqrt(block[b] as number);
        block[b] = h < 1 ? base * (1 - h * (1.5 - 0.5 * h * h)) : 0;
      }
      return;
    case 'linear': {
      const { slope } = model;
      for (let b = 0; b < count; b++) block[b] = base - slope * Math.sqrt(block[b] as number);
    }
  }
}

/** e^(−x) stands in a table at so many places per unit of x … */
const PER_UNIT = 1024;
/** … up to here, where it is below the rounding of 1. */
const LAST = 40 * PER_UNIT;
const TABLE = Float64Array.from({ length: LAST + 1 }, (_, i) =>
  i === LAST ? 0 : Math.exp(-i / PER_UNIT),
);
/** The series of e^r for r counted in places of the table. */
const FIRST = 1 / PER_UNIT;
const SECOND = FIRST ** 2 / 2;
const THIRD = FIRST ** 3 / 6;

/**
 * e^(−x) for x ≥ 0, to 3e-15 of itself: the nearest place in the table and three
 * terms of the series, in a quarter of the time of Math.exp, which would be
 * most of the cost of a kriged grid.
 */
export function decay(x: number): number {
  const y = x * PER_UNIT;
  const at = (y < LAST ? y + 0.5 : LAST) | 0;
  const r = at - y;
  return (TABLE[at] as number) * (1 + r * (FIRST + r * (SECOND + r * THIRD)));
}

/** Sums of a block with one weight per well, for its four places, added to `into` from `at` on. */
export function addWeighted(
  weights: Float64Array,
  block: Float64Array,
  into: Float64Array,
  at: number,
): void {
  // prettier-ignore
  let s0 = 0, s1 = 0, s2 = 0, s3 = 0;
  for (let i = 0, b = 0; i < weights.length; i++, b += 4) {
    const weight = weights[i] as number;
    s0 += weight * (block[b] as number);
    s1 += weight * (block[b + 1] as number);
    s2 += weight * (block[b + 2] as number);
    s3 += weight * (block[b + 3] as number);
  }
  into[at] = (into[at] as number) + s0;
  into[at + 1] = (into[at + 1] as number) + s1;
  into[at + 2] = (into[at + 2] as number) + s2;
  into[at + 3] = (into[at + 3] as number) + s3;
}
