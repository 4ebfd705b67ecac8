/**
 * The arithmetic of one plane, on columns of numbers, with nothing allocated:
 * used once by `plane.ts` and ten thousand times by simulation.
 *
 * Least squares by the modified Gram–Schmidt process, the heads carried along
 * as one more column: an orthogonal method, backward stable (Å. Björck, 1967,
 * BIT 7, 1–21; pages from memory). The column of ones goes first, which is
 * centring; coordinates are first counted from the first well, which is exact,
 * so that a grid in the millions loses nothing.
 */

/** Wells whose spread across their line is less than this part of the spread along it are in a line. */
export const THINNEST_SPREAD = 1e-9;

/** Heads are differences of elevations and depths of this order, so carry at least their rounding. */
const LEAST_MAGNITUDE = 100; // m

/** Roundings that may have gone into a head: means of some hundreds of readings, unit conversions. */
const ROUNDINGS = 64;

/** A difference of heads below this is rounding and says nothing about slope. `largest`: of |head|. */
export const roundingOf = (largest: number): number =>
  ROUNDINGS * Number.EPSILON * Math.max(largest, LEAST_MAGNITUDE);

/**
 * A plane h = h̄ + a(x − x̄) + b(y − ȳ) as solved. Each column is scaled by the
 * root of the weight; "mean" is the weighted mean.
 */
export type SolvedPlane = {
  /** Means. */
  x: number;
  y: number;
  head: number;
  /** Sum of the weights. */
  weight: number;
  /** Slopes toward east and north. */
  a: number;
  b: number;
  /** Slope toward east were y not fitted: a = alone − skew·b. */
  alone: number;
  /** What a step east takes along in y: y = skew·x + v. */
  skew: number;
  /** Σu² and Σv², the spread of x, and of y less what goes with x. */
  uu: number;
  vv: number;
  /** Spread, the larger singular value of the centred coordinates, and the smaller over it. */
  major: number;
  ratio: number;
  /** Σ of squares of the plane's own fall, and of the heads less the plane. */
  explained: number;
  left: number;
};

/** Columns in the order of the rows solved: u, v as above, e the residuals, all times root weight. */
export type PlaneColumns = {
  readonly u: Float64Array;
  readonly v: Float64Array;
  readonly e: Float64Array;
};

export type PlaneWorkspace = SolvedPlane & PlaneColumns;

export const planeWorkspace = (rows: number): PlaneWorkspace => ({
  x: 0,
  y: 0,
  head: 0,
  weight: 0,
  a: 0,
  b: 0,
  alone: 0,
  skew: 0,
  uu: 0,
  vv: 0,
  major: 0,
  ratio: 0,
  explained: 0,
  left: 0,
  u: new Float64Array(rows),
  v: new Float64Array(rows),
  e: new Float64Array(rows),
});

/**
 * Solves rows `from` to `to` − 1 into the workspace. `roots` are the square
 * roots of the weights; a root of 0 leaves a row out. Where `ratio` comes back
 * under `THINNEST_SPREAD` there is no plane, and the slopes mean nothing.
 */
export function solvePlane(
  xs: Float64Array,
  ys: Float64Array,
  heads: Float64Array,
  roots: Float64Array,
  from: number,
  to: number,
  into: PlaneWorkspace,
): void {
  const { u, v, e } = into;
  const n = to - from;
  const x0 = xs[from] as number;
  const y0 = ys[from] as number;
  const h0 = heads[from] as number;

  let [weight, x, y, h] = [0, 0, 0, 0];
  for (let i = 0; i < n; i++) {
    const root = roots[from + i] as number;
    const w = root * root;
    weight += w;
    x += w * ((xs[from + i] as number) - x0);
    y += w * ((ys[from + i] as number) - y0);
    h += w * ((heads[from + i] as number) - h0);
  }
  x /= weight;
  y /= weight;
  h /= weight;

  let [uu, uv, uh, yy] = [0, 0, 0, 0];
  for (let i = 0; i < n; i++) {
    const root = roots[from + i] as number;
    const ui = root * ((xs[from + i] as number) - x0 - x);
    const vi = root * ((ys[from + i] as number) - y0 - y);
    const ei = root * ((heads[from + i] as number) - h0 - h);
    u[i] = ui;
    v[i] = vi;
    e[i] = ei;
    uu += ui * ui;
    uv += ui * vi;
    yy += vi * vi;
    uh += ui * ei;
  }
  const skew = uu > 0 ? uv / uu : 0;
  const alone = uu > 0 ? uh / uu : 0;

  let [vv, vh] = [0, 0];
  for (let i = 0; i < n; i++) {
    const ui = u[i] as number;
    const vi = (v[i] as number) - skew * ui;
    const ei = (e[i] as number) - alone * ui;
    v[i] = vi;
    e[i] = ei;
    vv += vi * vi;
    vh += vi * ei;
  }
  const b = vv > 0 ? vh / vv : 0;

  let left = 0;
  for (let i = 0; i < n; i++) {
    const ei = (e[i] as number) - b * (v[i] as number);
    e[i] = ei;
    left += ei * ei;
  }

  // Singular values of the centred coordinates: the larger from their sum of squares, the
  // smaller from their product.
  const apart = uu - yy;
  const major = Math.sqrt((uu + yy + Math.sqrt(apart * apart + 4 * uv * uv)) / 2);
  into.x = x0 + x;
  into.y = y0 + y;
  into.head = h0 + h;
  into.weight = weight;
  into.a = alone - skew * b;
  into.b = b;
  into.alone = alone;
  into.skew = skew;
  into.uu = uu;
  into.vv = vv;
  into.major = major;
  into.ratio = major > 0 ? Math.sqrt(uu * vv) / (major * major) : 0;
  into.explained = alone * alone * uu + b * b * vv;
  into.left = left;
}
