import { ok, fail, type Result } from '../result';
import { azimuth, metres, turn, type Azimuth, type Degrees, type Metres } from '../units';
import { tAbove } from './distributions';
import { fitPlane, rootWeights, type HeadPoint, type Plane, type PlaneProblem } from './plane';
import { planeWorkspace, roundingOf, solvePlane, THINNEST_SPREAD } from './plane-solver';

/**
 * With four wells every one of them can be blamed for all of the misfit alike;
 * with five, two degrees of freedom are left to blame by. Common practice, no source.
 */
export const FEWEST_TO_NAME = 6;

/** What one well does to the plane, and what the others make of it. */
export type WellInfluence = {
  readonly id: string;
  readonly residual: Metres;
  /** Share of its own fitted head that it decides, 0 to 1. */
  readonly leverage: number;
  /** The plane of the others; null when they are in a line. */
  readonly without: { readonly gradient: number; readonly azimuth: Azimuth | null } | null;
  /** Why there is no direction without it; null when there is. */
  readonly none: 'in-a-line' | 'level' | null;
  /** Turn of the direction when it is left out, clockwise positive; null without either direction. */
  readonly shift: Degrees | null;
  /** Measured less the head the others put at its place: the size a mistake here would have. */
  readonly predictionResidual: Metres | null;
  /**
   * Externally studentised residual: t with n − 4 degrees of freedom if the well
   * is like the others. Null with four wells, or where the others are in a line.
   */
  readonly studentised: number | null;
  /** Cook's distance: how far all fitted heads move without it, in standard errors squared, over 3. */
  readonly cook: number | null;
};

/** The well whose head does not fit the others', if one can be told. */
export type Culprit =
  | {
      readonly kind: 'named' | 'none-stands-out';
      /** The well with the largest studentised residual. */
      readonly id: string;
      readonly studentised: number;
      /** Chance that the largest of n well-behaved residuals is at least this large (Bonferroni). */
      readonly probability: number;
      readonly predictionResidual: Metres;
    }
  | { readonly kind: 'cannot-be-named'; readonly have: number; readonly need: number };

export type LeaveOneOut = {
  /** In the order of the wells given. */
  readonly wells: readonly WellInfluence[];
  /** The well without which the direction turns furthest: it drives the answer. Null without directions. */
  readonly driver: string | null;
  readonly culprit: Culprit;
};

/**
 * The plane without each of its wells in turn, for four wells or more.
 *
 * Studentised residuals, leverage and influence: R. D. Cook and S. Weisberg,
 * 1982, Residuals and influence in regression, ch. 2–3; testing the largest of
 * n by dividing the chance among them, p. 22 (values from memory). A well is
 * named from six wells on, when that chance is under 1 − `confidence`. Two
 * mistakes can hide each other; this looks for one.
 */
export function leaveOneOut(
  points: readonly HeadPoint[],
  { weighted, confidence }: { readonly weighted: boolean; readonly confidence: number },
): Result<LeaveOneOut, PlaneProblem> {
  const n = points.length;
  if (n < 4) return fail({ kind: 'too-few-wells', have: n, need: 4 });
  const all = fitPlane(points, { weighted });
  if (!all.ok) return all;
  const wells = influences(points, all.value);

  const turned = wells.filter(({ shift }) => shift !== null);
  const driver = largest(turned, ({ shift }) => Math.abs(shift ?? 0));
  return ok({ wells, driver: driver?.id ?? null, culprit: culpritOf(wells, confidence) });
}

function influences(points: readonly HeadPoint[], all: Plane): WellInfluence[] {
  const n = points.length;
  const column = (pick: (point: HeadPoint) => number) => Float64Array.from(points, pick);
  const [x, y, head] = [column((p) => p.x), column((p) => p.y), column((p) => p.head)];
  const roots = all.weighted ? rootWeights(points) : new Float64Array(n).fill(1);
  const rounding = roundingOf(Math.max(...head.map(Math.abs)));
  const rest = planeWorkspace(n);
  const left = new Float64Array(n);

  return points.map(({ id }, i) => {
    left.set(roots);
    left[i] = 0;
    solvePlane(x, y, head, left, 0, n, rest);
    const residual = all.residuals[i] ?? metres(0);
    const leverage = all.leverage[i] ?? 0;
    const known = { id, residual, leverage };
    if (!(rest.ratio >= THINNEST_SPREAD))
      return {
        ...known,
        without: null,
        none: 'in-a-line',
        shift: null,
        predictionResidual: null,
        studentised: null,
        cook: null,
      };

    const level = rest.explained <= rest.weight * rounding ** 2;
    const direction = level ? null : azimuth((Math.atan2(-rest.a, -rest.b) * 180) / Math.PI);
    const free = 1 - leverage;
    const scatter = n > 4 ? Math.max(Math.sqrt(rest.left / (n - 4)), rounding) : null;
    const scaled = residual * (roots[i] ?? 1);
    const own = all.s !== null && all.s > rounding ? all.s : null;
    return {
      ...known,
      without: { gradient: level ? 0 : Math.hypot(rest.a, rest.b), azimuth: direction },
      none: level ? 'level' : null,
      shift: direction === null || all.azimuth === null ? null : turn(all.azimuth, direction),
      predictionResidual: metres(residual / free),
      studentised: scatter === null ? null : scaled / (scatter * Math.sqrt(free)),
      cook: own === null ? null : ((scaled / (own * free)) ** 2 * leverage) / 3,
    };
  });
}

function culpritOf(wells: readonly WellInfluence[], confidence: number): Culprit {
  const n = wells.length;
  const worst = largest(
    wells.filter(({ studentised }) => studentised !== null),
    ({ studentised }) => Math.abs(studentised ?? 0),
  );
  if (
    n < FEWEST_TO_NAME ||
    !worst ||
    worst.studentised === null ||
    worst.predictionResidual === null
  )
    return { kind: 'cannot-be-named', have: n, need: FEWEST_TO_NAME };
  const { id, studentised, predictionResidual } = worst;
  const probability = Math.min(1, 2 * n * tAbove(Math.abs(studentised), n - 4));
  const kind = probability < 1 - confidence ? 'named' : 'none-stands-out';
  return { kind, id, studentised, probability, predictionResidual };
}

const largest = <T>(of: readonly T[], by: (one: T) => number): T | undefined =>
  of.reduce<T | undefined>((top, one) => (top && by(top) >= by(one) ? top : one), undefined);
