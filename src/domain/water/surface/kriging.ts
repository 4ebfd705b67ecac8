import { fail, ok, type Result } from '../../result';
import { allAtOnce } from '../../steps';
import { metres, type Metres } from '../../units';
import { factorise, rowStart, solveLower, solveUpper } from './cholesky';
import { placesOf, SAME_PLACE, type SurfacePlace, type SurfacePoint } from './surface-point';
import {
  growth,
  growthRate,
  modelProblem,
  stretchOf,
  type ModelProblem,
  type Stretch,
  type VariogramModel,
} from './variogram-model';

/** How a surface is to be kriged. */
export type KrigingChoice = {
  readonly model: VariogramModel;
  /** `none`: about one unknown mean (ordinary). `linear`: about one unknown plane (universal, 1 x y). */
  readonly drift: 'none' | 'linear';
  /**
   * `ignored`: the surface goes through every head. `stated`: each head may be
   * off by its own sigma, the surface passes near it, and the variance is that
   * of the water level, not of a reading.
   */
  readonly errors: 'ignored' | 'stated';
};

export type KrigingProblem =
  | ModelProblem
  | { readonly kind: 'too-few-wells'; readonly have: number; readonly need: number }
  | { readonly kind: 'wells-in-a-line' }
  /** Under this variogram the head at these wells follows from the others: add a nugget or a rougher shape. */
  | { readonly kind: 'wells-too-alike'; readonly ids: readonly string[] };

/** A kriged surface, ready to be asked. Plain arrays, so that it can be sent to a worker. */
export type KrigedSurface = {
  readonly choice: KrigingChoice;
  /** In the order of the points given, those in one place made one. */
  readonly places: readonly SurfacePlace[];
  /** The centre of the places, from which x and y are counted inside. */
  readonly centre: readonly [x: number, y: number];
  /** Metres that count as one in the drift: the spread of the places. */
  readonly spread: number;
  readonly stretch: Stretch;
  /** Stretched coordinates of the places. */
  readonly u: Float64Array;
  readonly v: Float64Array;
  /** Covariance at no distance, without the nugget. */
  readonly base: number;
  /** Lower triangle L of the covariances C = L·Lᵀ, by rows. */
  readonly lower: Float64Array;
  /** C⁻¹(z − Fβ): what each place adds to a head, per covariance with it. */
  readonly weights: Float64Array;
  /** β: the mean head, or the plane's constant and slopes per spread. */
  readonly drift: Float64Array;
  /** C⁻¹F, one drift function after the other. */
  readonly solvedDrift: Float64Array;
  /** Lower triangle of FᵀC⁻¹F, factorised. */
  readonly driftLower: Float64Array;
};

/** Wells whose spread across their line is under 1/1000 of the spread along it. */
const THINNEST_SPREAD = 1e-6;

/** Fewer wells than this make no surface. */
const FEWEST = 3;

/**
 * A surface through heads by kriging: at any place the weighted sum of the heads
 * that is right on average and, if the variogram is right, has the least error.
 * Everything that does not depend on the place asked about is done here, once.
 *
 * Solved in covariances, C = base − γ, with the unknown mean or plane eliminated:
 * G. Matheron, 1971, The theory of regionalized variables; the form used is that
 * of N. Cressie, 1993, Statistics for spatial data, §3.4.5 (dual kriging, after
 * A. G. Journel). A linear variogram has no sill; any base above the largest
 * γ between places gives the same answer (values from memory).
 */
export function kriged(
  points: readonly SurfacePoint[],
  choice: KrigingChoice,
): Result<KrigedSurface, KrigingProblem> {
  return allAtOnce(krigedInSteps(points, choice));
}

/** The same, reporting the share done (0 to 1) as it goes, for a worker that may be stopped. */
export function* krigedInSteps(
  points: readonly SurfacePoint[],
  choice: KrigingChoice,
): Generator<number, Result<KrigedSurface, KrigingProblem>> {
  const { model } = choice;
  const wrong = modelProblem(model);
  if (wrong) return fail(wrong);
  const places = placesOf(points);
  const n = places.length;
  if (n < FEWEST) return fail({ kind: 'too-few-wells', have: n, need: FEWEST });

  const mean = (pick: (place: SurfacePlace) => number) => {
    const from = places[0] ? pick(places[0]) : 0;
    return from + places.reduce((sum, place) => sum + (pick(place) - from), 0) / n;
  };
  const [x0, y0, h0] = [mean((p) => p.x), mean((p) => p.y), mean((p) => p.head)];
  const xs = Float64Array.from(places, (p) => p.x - x0);
  const ys = Float64Array.from(places, (p) => p.y - y0);
  const spread = Math.sqrt((dot(xs, xs) + dot(ys, ys)) / n);
  if (choice.drift === 'linear') {
    const across = dot(xs, xs) * dot(ys, ys) - dot(xs, ys) ** 2;
    if (across <= THINNEST_SPREAD * (dot(xs, xs) + dot(ys, ys)) ** 2)
      return fail({ kind: 'wells-in-a-line' });
  }

  const stretch = stretchOf(model);
  const u = xs.map((x, i) => stretch.xx * x + stretch.xy * (ys[i] as number));
  const v = xs.map((x, i) => stretch.yx * x + stretch.yy * (ys[i] as number));
  const base = model.shape === 'linear' ? model.slope * extent(u, v) : model.sill;

  const lower = new Float64Array(rowStart(n));
  places.forEach((place, i) => {
    const row = rowStart(i);
    for (let j = 0; j < i; j++) {
      const apart = Math.hypot(
        (u[i] as number) - (u[j] as number),
        (v[i] as number) - (v[j] as number),
      );
      lower[row + j] = base - growth(model, apart);
    }
    const error = choice.errors === 'stated' ? place.sigma ** 2 : 0;
    lower[row + i] = base + model.nugget + error;
  });
  const follows = yield* factorise(lower, n);
  if (follows !== null) return fail({ kind: 'wells-too-alike', ids: places[follows]?.ids ?? [] });

  const functions =
    choice.drift === 'none'
      ? [xs.map(() => 1)]
      : [xs.map(() => 1), xs.map((x) => x / spread), ys.map((y) => y / spread)];
  const heads = Float64Array.from(places, (p) => p.head - h0);
  const { weights, drift, solvedDrift, driftLower } = dualOf(lower, n, functions, heads);
  drift[0] = (drift[0] as number) + h0;
  return ok({
    choice,
    places,
    centre: [x0, y0],
    spread,
    stretch,
    u,
    v,
    base,
    lower,
    weights,
    drift,
    solvedDrift,
    driftLower,
  });
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += (a[i] as number) * (b[i] as number);
  return sum;
}

/** Diagonal of the box around the places, in stretched coordinates. */
const extent = (u: Float64Array, v: Float64Array): number => {
  const length = (c: Float64Array) =>
    c.reduce((a, b) => Math.max(a, b)) - c.reduce((a, b) => Math.min(a, b));
  return Math.hypot(length(u), length(v));
};

/** Generalised least squares for the drift, and what is left over in terms of covariances. */
function dualOf(
  lower: Float64Array,
  n: number,
  functions: readonly Float64Array[],
  heads: Float64Array,
) {
  const p = functions.length;
  const halfDone = functions.map((f) => {
    const half = f.slice();
    solveLower(lower, n, half);
    return half;
  });
  const left = heads.slice();
  solveLower(lower, n, left);

  const driftLower = new Float64Array(rowStart(p));
  halfDone.forEach((a, i) =>
    halfDone.slice(0, i + 1).forEach((b, j) => (driftLower[rowStart(i) + j] = dot(a, b))),
  );
  for (let steps = factorise(driftLower, p); !steps.next().done;);
  const drift = Float64Array.from(halfDone, (half) => dot(half, left));
  solveLower(driftLower, p, drift);
  solveUpper(driftLower, p, drift);

  halfDone.forEach((half, k) => {
    for (let i = 0; i < n; i++)
      left[i] = (left[i] as number) - (half[i] as number) * (drift[k] as number);
  });
  solveUpper(lower, n, left);
  const solvedDrift = new Float64Array(n * p);
  halfDone.forEach((half, k) => {
    solveUpper(lower, n, half);
    solvedDrift.set(half, n * k);
  });
  return { weights: left, drift, solvedDrift, driftLower };
}

/** The drift functions at a place: 1, or 1 x y. */
export const driftAt = (surface: KrigedSurface, x: number, y: number): Float64Array => {
  const { centre, spread, choice } = surface;
  return choice.drift === 'none'
    ? Float64Array.of(1)
    : Float64Array.of(1, (x - centre[0]) / spread, (y - centre[1]) / spread);
};

/** Covariance of a place asked about with each well; the nugget counts only in the well itself. */
function covariancesAt(surface: KrigedSurface, x: number, y: number): Float64Array {
  const { stretch, centre, base, places } = surface;
  const { model } = surface.choice;
  const [dx, dy] = [x - centre[0], y - centre[1]];
  const [u, v] = [stretch.xx * dx + stretch.xy * dy, stretch.yx * dx + stretch.yy * dy];
  return surface.u.map((ui, i) => {
    const place = places[i];
    if (place && Math.hypot(place.x - x, place.y - y) <= SAME_PLACE) return base + model.nugget;
    return base - growth(model, Math.hypot(ui - u, (surface.v[i] as number) - v));
  });
}

/** The kriged head at a place, inside the outline of the wells or not: that is for the caller to ask. */
export const headAt = (surface: KrigedSurface, x: number, y: number): Metres =>
  metres(
    dot(surface.weights, covariancesAt(surface, x, y)) + dot(surface.drift, driftAt(surface, x, y)),
  );

/** A kriged head with its kriging variance in m², and the square root of it. */
export type KrigedHead = {
  readonly head: Metres;
  readonly variance: number;
  readonly sigma: Metres;
};

/** Variance below this part of the base is rounding: the place is a well. */
const ROUNDING = 1e-13;

/** The kriged head at a place and how far off it may be, if the variogram is right. */
export function estimateAt(surface: KrigedSurface, x: number, y: number): KrigedHead {
  const n = surface.places.length;
  const covariances = covariancesAt(surface, x, y);
  const functions = driftAt(surface, x, y);
  const head = dot(surface.weights, covariances) + dot(surface.drift, functions);

  const unexplained = functions.map(
    (f, k) => f - dot(surface.solvedDrift.subarray(n * k, n * (k + 1)), covariances),
  );
  solveLower(surface.driftLower, functions.length, unexplained);
  solveLower(surface.lower, n, covariances);
  const total = surface.base + surface.choice.model.nugget;
  const variance = total - dot(covariances, covariances) + dot(unexplained, unexplained);
  return { head: metres(head), ...varianceWithRoot(variance, total) };
}

/** A variance without its rounding, and its root. */
const varianceWithRoot = (variance: number, total: number) => {
  const kept = variance > ROUNDING * total ? variance : 0;
  return { variance: kept, sigma: metres(Math.sqrt(kept)) };
};

/**
 * Slope of the kriged surface, head per metre east and north. In a well of any
 * variogram but a gaussian the surface has a point; there the slope is that of
 * all the other wells.
 */
export function slopeAt(surface: KrigedSurface, x: number, y: number): readonly [number, number] {
  const { stretch, centre, spread, weights, drift } = surface;
  const { model } = surface.choice;
  const [dx, dy] = [x - centre[0], y - centre[1]];
  const [u, v] = [stretch.xx * dx + stretch.xy * dy, stretch.yx * dx + stretch.yy * dy];
  let [east, north] = [(drift[1] ?? 0) / spread, (drift[2] ?? 0) / spread];
  for (let i = 0; i < weights.length; i++) {
    const [du, dv] = [u - (surface.u[i] as number), v - (surface.v[i] as number)];
    const rate = growthRate(model, Math.hypot(du, dv));
    if (rate === null) continue;
    const pull = (weights[i] as number) * rate;
    east -= pull * (stretch.xx * du + stretch.yx * dv);
    north -= pull * (stretch.xy * du + stretch.yy * dv);
  }
  return [east, north];
}
