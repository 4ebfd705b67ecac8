import { fail, ok, type Result } from '../result';
import { allAtOnce } from '../steps';
import { azimuth, degrees, metres, type Azimuth, type Degrees, type Metres } from '../units';
import { fitPlane, rootWeights, type HeadPoint, type Plane, type PlaneProblem } from './plane';
import { planeWorkspace, roundingOf, solvePlane, THINNEST_SPREAD } from './plane-solver';
import { normalDeviates, type Random } from './random';

/** One standard error of each thing that goes into a head and its place, at one well. */
export type StatedErrors = {
  /** Of the reading: tape, touch, recovery. */
  readonly level: Metres;
  /** Of the measuring point's elevation. */
  readonly survey: Metres;
  /** Of the position, in each of east and north. */
  readonly position: Metres;
};

export type SimulationChoice = {
  /** Whether the plane is weighted, by the points' own sigma as in `fitPlane`. */
  readonly weighted: boolean;
  readonly draws: number;
  /** Chances not to be exceeded at which to report, such as 0.025, 0.5, 0.975. */
  readonly chances: readonly number[];
};

/** What is not exceeded with a given chance. */
export type DirectionPercentile = {
  readonly chance: number;
  /** From `about`, −180 to 180, clockwise positive. */
  readonly deviation: Degrees;
  readonly azimuth: Azimuth;
};

export type Simulation = {
  /** The plane of the heads as they are. */
  readonly plane: Plane;
  readonly draws: number;
  /** Draws in which the wells fell in a line, or their heads were level, and no direction came. */
  readonly unsolved: number;
  /** What directions are counted from: the plane's own, or the mean of the draws if it is level. */
  readonly about: Azimuth;
  /** In the order of the chances asked for. */
  readonly direction: readonly DirectionPercentile[];
  readonly gradient: readonly { readonly chance: number; readonly gradient: number }[];
  /** Direction of the sum of unit vectors, and that sum's length over their number, 0 to 1. */
  readonly meanDirection: Azimuth;
  readonly meanResultantLength: number;
  /** √(−2 ln R̄), from R̄, the mean resultant length. */
  readonly circularStandardDeviation: Degrees;
};

export type SimulationProblem =
  | PlaneProblem
  | { readonly kind: 'errors-do-not-match'; readonly wells: number; readonly errors: number }
  | { readonly kind: 'too-few-draws'; readonly have: number; readonly need: number }
  /** Every draw was level or in a line: nothing in the errors stated tilts the surface. */
  | { readonly kind: 'no-direction-drawn'; readonly draws: number };

/** Fewer draws than this leave percentiles to chance. */
const FEWEST_DRAWS = 100;

/** Draws between one report of progress and the next. */
const DRAWS_AT_A_TIME = 2048;

/** The error of each head as one stated sum, positions exact. In the order of the points. */
export const statedErrors = (points: readonly HeadPoint[]): StatedErrors[] =>
  points.map(({ sigma }) => ({ level: sigma, survey: metres(0), position: metres(0) }));

/**
 * How the direction and the gradient spread when the heads and places are
 * drawn again and again with their stated errors, normal and independent from
 * well to well. For where first-order errors do not hold; it assumes that the
 * water surface is a plane. Within one event a reading's and a survey's error
 * add to one error of the head.
 *
 * Percentiles interpolate linearly between draws. Directions are summed as
 * unit vectors: K. V. Mardia, 1972, Statistics of directional data, ch. 2–3
 * (chapters from memory).
 *
 * @param errors in the order of the points
 */
export function simulateDirection(
  points: readonly HeadPoint[],
  errors: readonly StatedErrors[],
  choice: SimulationChoice,
  random: Random,
): Result<Simulation, SimulationProblem> {
  return allAtOnce(simulateInSteps(points, errors, choice, random));
}

/** The same, reporting the share done (0 to 1) as it goes, for a worker that may be stopped. */
export function* simulateInSteps(
  points: readonly HeadPoint[],
  errors: readonly StatedErrors[],
  choice: SimulationChoice,
  random: Random,
): Generator<number, Result<Simulation, SimulationProblem>> {
  const { weighted, draws } = choice;
  if (errors.length !== points.length)
    return fail({ kind: 'errors-do-not-match', wells: points.length, errors: errors.length });
  if (!(draws >= FEWEST_DRAWS))
    return fail({ kind: 'too-few-draws', have: draws, need: FEWEST_DRAWS });
  const fitted = fitPlane(points, { weighted });
  if (!fitted.ok) return fitted;
  const wrong = points.filter((_, i) => !(spreadOf(errors[i]) >= 0));
  const none = errors.every((error) => spreadOf(error) === 0);
  if (wrong.length > 0 || none)
    return fail({ kind: 'no-error-stated', ids: (none ? points : wrong).map(({ id }) => id) });

  const roots = weighted ? rootWeights(points) : new Float64Array(points.length).fill(1);
  const drawn = errors.some(({ position }) => position > 0)
    ? drawnWithPlaces(points, errors, roots, normalDeviates(random))
    : drawnHeads(points, errors, roots, normalDeviates(random));
  const slopes = { a: new Float64Array(draws), b: new Float64Array(draws) };
  let solved = 0;
  for (let draw = 0; draw < draws; draw++) {
    if (drawn(slopes, solved)) solved++;
    if (draw % DRAWS_AT_A_TIME === DRAWS_AT_A_TIME - 1) yield draw / draws;
  }
  if (solved === 0) return fail({ kind: 'no-direction-drawn', draws });
  return ok(summary(fitted.value, slopes, solved, choice));
}

/** NaN unless all three are 0 or more. */
const spreadOf = (error: StatedErrors | undefined): number =>
  error ? Math.sqrt(error.level) + Math.sqrt(error.survey) + Math.sqrt(error.position) : NaN;

type Slopes = { readonly a: Float64Array; readonly b: Float64Array };

/** Draws one plane's slopes into place k; false if the wells drawn have no direction. */
type Draw = (slopes: Slopes, k: number) => boolean;

const headError = ({ level, survey }: StatedErrors) => Math.hypot(level, survey);

/** Places being exact, each slope is a fixed sum of the heads and is drawn without solving again. */
function drawnHeads(
  points: readonly HeadPoint[],
  errors: readonly StatedErrors[],
  roots: Float64Array,
  normal: () => number,
): Draw {
  const solved = solvedOnce(points, roots);
  const { a, b, u, v, uu, vv, skew } = solved;
  const toB = errors.map((error, i) => (headError(error) * (roots[i] ?? 0) * (v[i] ?? 0)) / vv);
  const toA = errors.map(
    (error, i) => (headError(error) * (roots[i] ?? 0) * (u[i] ?? 0)) / uu - skew * (toB[i] ?? 0),
  );
  const n = points.length;
  return (slopes, k) => {
    let [east, north] = [a, b];
    for (let i = 0; i < n; i++) {
      const z = normal();
      east += z * (toA[i] as number);
      north += z * (toB[i] as number);
    }
    slopes.a[k] = east;
    slopes.b[k] = north;
    return east !== 0 || north !== 0;
  };
}

function drawnWithPlaces(
  points: readonly HeadPoint[],
  errors: readonly StatedErrors[],
  roots: Float64Array,
  normal: () => number,
): Draw {
  const n = points.length;
  const centre = solvedOnce(points, roots);
  const rounding = roundingOf(Math.max(...points.map((point) => Math.abs(point.head))));
  const [x, y, head] = [new Float64Array(n), new Float64Array(n), new Float64Array(n)];
  const solved = planeWorkspace(n);
  const column = (pick: (i: number) => number) => Float64Array.from(points, (_, i) => pick(i));
  const x0 = column((i) => (points[i]?.x ?? 0) - centre.x);
  const y0 = column((i) => (points[i]?.y ?? 0) - centre.y);
  const head0 = column((i) => (points[i]?.head ?? 0) - centre.head);
  const place = Float64Array.from(errors, ({ position }) => position);
  const level = Float64Array.from(errors, headError);
  return (slopes, k) => {
    for (let i = 0; i < n; i++) {
      x[i] = (x0[i] as number) + (place[i] as number) * normal();
      y[i] = (y0[i] as number) + (place[i] as number) * normal();
      head[i] = (head0[i] as number) + (level[i] as number) * normal();
    }
    solvePlane(x, y, head, roots, 0, n, solved);
    slopes.a[k] = solved.a;
    slopes.b[k] = solved.b;
    return solved.ratio >= THINNEST_SPREAD && solved.explained > solved.weight * rounding ** 2;
  };
}

function solvedOnce(points: readonly HeadPoint[], roots: Float64Array) {
  const column = (pick: (point: HeadPoint) => number) => Float64Array.from(points, pick);
  const [x, y, head] = [column((p) => p.x), column((p) => p.y), column((p) => p.head)];
  const solved = planeWorkspace(points.length);
  solvePlane(x, y, head, roots, 0, points.length, solved);
  return solved;
}

function summary(
  plane: Plane,
  { a, b }: Slopes,
  solved: number,
  { draws, chances }: SimulationChoice,
): Simulation {
  let [east, north] = [0, 0];
  for (let k = 0; k < solved; k++) {
    const steepness = Math.sqrt((a[k] as number) ** 2 + (b[k] as number) ** 2);
    east -= (a[k] as number) / steepness;
    north -= (b[k] as number) / steepness;
  }
  const meanResultantLength = Math.min(1, Math.hypot(east, north) / solved);
  const meanDirection = bearing(east, north);
  const about = plane.azimuth ?? meanDirection;

  const [aboutEast, aboutNorth] = [
    Math.sin((about * Math.PI) / 180),
    Math.cos((about * Math.PI) / 180),
  ];
  const deviations = new Float64Array(solved);
  const gradients = new Float64Array(solved);
  for (let k = 0; k < solved; k++) {
    const [toEast, toNorth] = [-(a[k] as number), -(b[k] as number)];
    const across = toEast * aboutNorth - toNorth * aboutEast;
    const along = toEast * aboutEast + toNorth * aboutNorth;
    deviations[k] = (Math.atan2(across, along) * 180) / Math.PI;
    gradients[k] = Math.sqrt(toEast ** 2 + toNorth ** 2);
  }
  deviations.sort();
  gradients.sort();
  return {
    plane,
    draws,
    unsolved: draws - solved,
    about,
    direction: chances.map((chance) => {
      const deviation = degrees(percentile(deviations, chance));
      return { chance, deviation, azimuth: azimuth(about + deviation) };
    }),
    gradient: chances.map((chance) => ({ chance, gradient: percentile(gradients, chance) })),
    meanDirection,
    meanResultantLength,
    circularStandardDeviation: degrees(
      (Math.sqrt(-2 * Math.log(meanResultantLength)) * 180) / Math.PI,
    ),
  };
}

const bearing = (east: number, north: number): Azimuth =>
  azimuth((Math.atan2(east, north) * 180) / Math.PI);

function percentile(sorted: Float64Array, chance: number): number {
  const at = chance * (sorted.length - 1);
  const below = sorted[Math.floor(at)] ?? 0;
  const above = sorted[Math.ceil(at)] ?? below;
  return below + (at - Math.floor(at)) * (above - below);
}
