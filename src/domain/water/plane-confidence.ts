import { azimuth, degrees, type Azimuth, type Degrees } from '../units';
import {
  chiSquaredAbove,
  chiSquaredQuantile,
  fAbove,
  fQuantile,
  normalQuantile,
  tQuantile,
} from './distributions';
import type { LevelSurface, Plane } from './plane';
import type { Covariance, PlaneError } from './plane-error';

/**
 * Past this σ_θ, 0.3 radian or 17°, a direction's error is no longer in
 * proportion to the heads' and has to be simulated. A judgement (value from
 * memory, no source).
 */
export const FIRST_ORDER_LIMIT = degrees((0.3 * 180) / Math.PI);

/** From this many wells on, their scatter too must leave the direction standing. */
const FEWEST_FOR_SCATTER = 5;

/** A test as a reviewer would check it in a table. */
export type PlaneTest = {
  /** The slope against the stated errors, or against the scatter; the scatter against the stated errors. */
  readonly kind: 'slope-by-stated-error' | 'slope-by-scatter' | 'lack-of-fit';
  readonly distribution: 'chi-squared' | 'F';
  readonly degreesOfFreedom: readonly number[];
  /** Null where the wells leave nothing over but rounding: no scatter to test against. */
  readonly statistic: number | null;
  /** Exceeded by chance once in 1/(1 − confidence). */
  readonly critical: number;
  /** Chance of a statistic this large from error alone; null without one. */
  readonly probability: number | null;
  readonly exceeded: boolean;
};

/** Half-widths at the confidence asked for, from one idea of the error. */
export type HalfWidths = {
  /** Standard errors in a half-width: normal for stated errors, t with n − 3 for the scatter. */
  readonly factor: number;
  /** Null for a level surface. */
  readonly gradient: number | null;
  /** Null for a level surface, and where only simulation can tell. */
  readonly azimuth: Degrees | null;
  /** σ_θ is small enough, and the half-width under a right angle, for the above to hold. */
  readonly firstOrder: boolean;
  readonly ellipse: GradientEllipse;
};

/** Where the end of the flow vector (−a, −b) lies, jointly, at the confidence asked for. */
export type GradientEllipse = {
  /** Half-axes, as gradients. */
  readonly major: number;
  readonly minor: number;
  /** The way the major axis runs, 0 to 180. */
  readonly trend: Azimuth;
};

/** Why a direction cannot be told. */
export type Unresolved = LevelSurface | PlaneTest;

/** How far a plane's direction and gradient can be trusted, and whether the direction can be told. */
export type Confidence = {
  /** Of every ± and test here, such as 0.95. */
  readonly level: number;
  readonly stated: HalfWidths;
  /** Null with three wells. */
  readonly fromResiduals: HalfWidths | null;
  /** Which of the two to print and draw: the one that promises less. */
  readonly governing: 'stated' | 'fromResiduals';
  /** Whether the direction can be told from the errors at all. */
  readonly resolved: boolean;
  /** Every test the slope failed, in the order made; empty when resolved. */
  readonly unresolved: readonly Unresolved[];
  /** The tests of the slope, in the order made. */
  readonly slopeTests: readonly PlaneTest[];
  /** Null with three wells, which fit any heads. */
  readonly lackOfFit: PlaneTest | null;
  /** Whether the heads lie on one plane to within their stated errors; null where it can't be tested. */
  readonly isPlane: boolean | null;
  /** The governing direction's error is past first order: simulate it. */
  readonly simulate: boolean;
};

/**
 * How sure a plane's gradient and direction are, whether its direction is told
 * from error at all, and whether the heads make a plane.
 *
 * Resolved when gᵀC⁻¹g exceeds χ²(2) with the stated errors and, from five
 * wells on, F = gᵀC⁻¹g/2 exceeds F(2, n − 3) with the scatter. With four wells
 * one degree of freedom is left, and F(0.95; 2, 1) = 199.5 would refuse nearly
 * everything. Standard linear-model theory: N. R. Draper and H. Smith, 1998,
 * Applied regression analysis, 3rd ed. (value from memory).
 */
export function confidenceOf(plane: Plane, level: number): Confidence {
  const freedom = plane.degreesOfFreedom;
  const { stated, fromResiduals } = plane;
  const lackOfFit = plane.lackOfFit === null ? null : chiSquared(plane.lackOfFit, freedom, level);
  const isPlane = lackOfFit && !lackOfFit.exceeded;

  const byStated: PlaneTest = {
    ...chiSquared(stated.signal ?? 0, 2, level),
    kind: 'slope-by-stated-error',
  };
  const enough = plane.ids.length >= FEWEST_FOR_SCATTER;
  const byScatter = enough && fromResiduals ? slopeByScatter(fromResiduals, freedom, level) : null;
  const slopeTests = byScatter ? [byStated, byScatter] : [byStated];
  const failed = slopeTests.filter(({ exceeded }) => !exceeded);
  const unresolved = plane.level ? [plane.level] : failed;

  const halfWidths = {
    stated: halfWidthsOf(stated, normalQuantile((1 + level) / 2), chiSquaredQuantile(level, 2)),
    fromResiduals:
      fromResiduals &&
      halfWidthsOf(
        fromResiduals,
        tQuantile((1 + level) / 2, freedom),
        2 * fQuantile(level, 2, freedom),
      ),
  };
  const governing = governingOf(plane, halfWidths, enough, isPlane);
  const governed = halfWidths[governing];
  return {
    level,
    ...halfWidths,
    governing,
    resolved: unresolved.length === 0,
    unresolved,
    slopeTests,
    lackOfFit,
    isPlane,
    simulate: !plane.level && !governed?.firstOrder,
  };
}

/**
 * The scatter where it shows the stated errors to be too small, or from five
 * wells on where it makes the wider ±; else the stated errors.
 */
function governingOf(
  plane: Plane,
  { stated, fromResiduals }: Pick<Confidence, 'stated' | 'fromResiduals'>,
  enough: boolean,
  isPlane: boolean | null,
): Confidence['governing'] {
  if (!fromResiduals || !plane.fromResiduals) return 'stated';
  if (isPlane === false) return 'fromResiduals';
  const byStated = stated.factor * (plane.stated.azimuth ?? 0);
  const byScatter = fromResiduals.factor * (plane.fromResiduals.azimuth ?? 0);
  return enough && byScatter > byStated ? 'fromResiduals' : 'stated';
}

function chiSquared(statistic: number, freedom: number, level: number): PlaneTest {
  const critical = chiSquaredQuantile(level, freedom);
  return {
    kind: 'lack-of-fit',
    distribution: 'chi-squared',
    degreesOfFreedom: [freedom],
    statistic,
    critical,
    probability: chiSquaredAbove(statistic, freedom),
    exceeded: statistic > critical,
  };
}

function slopeByScatter({ signal }: PlaneError, freedom: number, level: number): PlaneTest {
  const critical = fQuantile(level, 2, freedom);
  const statistic = signal === null ? null : signal / 2;
  return {
    kind: 'slope-by-scatter',
    distribution: 'F',
    degreesOfFreedom: [2, freedom],
    statistic,
    critical,
    probability: statistic === null ? null : fAbove(statistic, 2, freedom),
    exceeded: statistic === null || statistic > critical,
  };
}

const RIGHT_ANGLE = 90;

/** `square`: gᵀC⁻¹g on the edge of the ellipse. */
function halfWidthsOf(error: PlaneError, factor: number, square: number): HalfWidths {
  const { gradient, azimuth: direction, covariance } = error;
  const width = direction === null ? null : factor * direction;
  const firstOrder =
    direction !== null && width !== null && direction <= FIRST_ORDER_LIMIT && width < RIGHT_ANGLE;
  return {
    factor,
    gradient: gradient === null ? null : factor * gradient,
    azimuth: firstOrder && width !== null ? degrees(width) : null,
    firstOrder,
    ellipse: ellipseOf(covariance, square),
  };
}

function ellipseOf({ aa, ab, bb }: Covariance, square: number): GradientEllipse {
  const larger = (aa + bb + Math.hypot(aa - bb, 2 * ab)) / 2;
  const determinant = Math.max(0, aa * bb - ab * ab);
  // Half the angle, counter-clockwise from east, of the axis along which the slopes are least sure.
  const axis = (Math.atan2(2 * ab, aa - bb) * 90) / Math.PI;
  return {
    major: Math.sqrt(larger * square),
    minor: larger > 0 ? Math.sqrt((determinant / larger) * square) : 0,
    trend: azimuth((90 - axis + 180) % 180),
  };
}
