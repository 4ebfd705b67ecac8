import { chiSquaredAbove, normalAbove, tAbove } from '../../water/distributions';
import { flowPoints, type FlowPoint } from '../../water/flow-points';
import { FEWEST_TO_NAME, leaveOneOut } from '../../water/leave-one-out';
import { against } from '../../water/off-plane';
import { fitPlane } from '../../water/plane';
import type { Flow } from '../../water/flow';
import type { Site } from '../../site/site';
import { exchanged, mendingExchange, type Exchange } from './exchange';

/** A head that does not fit those of the other wells. */
export type Outlier = {
  readonly point: FlowPoint;
  /** Wells that put the head elsewhere, the other outliers not among them. */
  readonly others: number;
  /** Measured less the head the others put at its place, metres. */
  readonly off: number;
  /** One standard error of that. */
  readonly error: number;
  /** Externally studentised residual; null where the stated errors decided and there is no scatter. */
  readonly studentised: number | null;
  /** Chance that the largest of so many well-behaved residuals is as large (Bonferroni). */
  readonly probability: number;
  /** Without it the others lie on one plane to within their stated errors. */
  readonly mends: boolean;
};

/** What is wrong with the heads of a plane, if they can tell. */
export type Misfit =
  | { readonly kind: 'fits' }
  /** Two readings written in each other's rows: exchanging them mends the plane. */
  | ({ readonly kind: 'exchanged' } & Exchange)
  /** The largest first. */
  | { readonly kind: 'named'; readonly outliers: readonly Outlier[] }
  /** Too few wells to name one: those without which the others would lie on one plane. */
  | {
      readonly kind: 'cannot-be-named';
      readonly have: number;
      readonly suspects: readonly FlowPoint[];
    }
  /** Six wells or more, not one plane, and no one of them to blame. */
  | { readonly kind: 'not-a-plane' };

/** A chance under which a mistake is more than suspected. A judgement, no source. */
export const HARDLY_BY_CHANCE = 0.001;

/** Outliers looked for one after the other; more of them are a surface, not mistakes. */
const MOST_OUTLIERS = 3;

const kept = new WeakMap<Flow, Misfit>();

/**
 * Which well, if one, makes the heads of a flow lie on no plane. From six wells
 * on one can be named: by its externally studentised residual, or, where the
 * others lie on one plane to within their stated errors, by those errors; each
 * against the largest of so many by chance, at the site's confidence.
 */
export function misfitOf(site: Site, flow: Flow): Misfit {
  const before = kept.get(flow);
  if (before) return before;
  const made = diagnose(flowPoints(site, flow.gauged).points, flow, 1 - site.settings.confidence);
  kept.set(flow, made);
  return made;
}

function diagnose(points: readonly FlowPoint[], { plane }: Flow, risk: number): Misfit {
  if (!plane || points.length < 4 || plane.lackOfFit === null) return { kind: 'fits' };
  const misfit = chiSquaredAbove(plane.lackOfFit, plane.degreesOfFreedom);
  if (misfit < HARDLY_BY_CHANCE) {
    const swap = exchanged(points) ?? mendedByExchange(points, risk);
    if (swap) return { kind: 'exchanged', ...swap };
  }
  if (points.length < FEWEST_TO_NAME)
    return misfit >= risk
      ? { kind: 'fits' }
      : {
          kind: 'cannot-be-named',
          have: points.length,
          suspects: points.filter((point) => isPlane(without(points, point), risk)),
        };
  const single = outliersOf(points, risk);
  const outliers = single.length > 0 || misfit >= HARDLY_BY_CHANCE ? single : twoOf(points, risk);
  if (outliers.length > 0) return { kind: 'named', outliers };
  return { kind: misfit < risk ? 'not-a-plane' : 'fits' };
}

/** An exchange that mends the plane, where leaving out no one well does. */
function mendedByExchange(points: readonly FlowPoint[], risk: number) {
  const one = points.some((point) => isPlane(without(points, point), risk));
  return one ? null : mendingExchange(points, (changed) => isPlane(changed, risk));
}

const without = (points: readonly FlowPoint[], one: FlowPoint) =>
  points.filter((point) => point !== one);

/** Whether heads lie on one plane to within their stated errors; three always do. */
function isPlane(points: readonly FlowPoint[], risk: number): boolean {
  const plane = fitPlane(points, { weighted: true });
  if (!plane.ok) return false;
  const { lackOfFit, degreesOfFreedom } = plane.value;
  return lackOfFit === null || chiSquaredAbove(lackOfFit, degreesOfFreedom) >= risk;
}

function outliersOf(points: readonly FlowPoint[], risk: number): Outlier[] {
  const outliers: Outlier[] = [];
  let left = points;
  while (left.length >= FEWEST_TO_NAME && outliers.length < MOST_OUTLIERS) {
    const worst = worstOf(left, risk);
    if (!worst || worst.probability >= risk) break;
    outliers.push(worst);
    left = without(left, worst.point);
    if (worst.mends) break;
  }
  return outliers;
}

/** Fewest wells of which two can be named at once: five are left to be one plane. */
const FEWEST_FOR_TWO = 7;

/** Two wells are looked for among so many with the largest residuals. */
const MOST_LOOKED_AT = 9;

/**
 * Two mistakes that hide each other: the one pair without which the others lie
 * on one plane to within their stated errors. The larger first.
 */
function twoOf(points: readonly FlowPoint[], risk: number): Outlier[] {
  const all = fitPlane(points, { weighted: true });
  if (!all.ok || points.length < FEWEST_FOR_TWO) return [];
  const residual = new Map(points.map((p, i) => [p, Math.abs(all.value.residuals[i] ?? 0)]));
  const looked = points
    .toSorted((a, b) => (residual.get(b) ?? 0) - (residual.get(a) ?? 0))
    .slice(0, MOST_LOOKED_AT);
  const mending = looked.flatMap((one, i) =>
    looked.slice(i + 1).flatMap((other) => {
      const rest = points.filter((point) => point !== one && point !== other);
      return isPlane(rest, risk) ? [{ pair: [one, other], rest }] : [];
    }),
  );
  const [only] = mending;
  const plane = only && mending.length === 1 ? fitPlane(only.rest, { weighted: true }) : null;
  if (!only || !plane?.ok) return [];
  const pairs = (looked.length * (looked.length - 1)) / 2;
  return only.pair
    .map((point): Outlier => {
      const { off, error } = against(plane.value, point);
      const probability = Math.min(1, 2 * pairs * normalAbove(Math.abs(off) / error));
      const others = only.rest.length;
      return { point, others, off, error, studentised: null, probability, mends: true };
    })
    .toSorted((a, b) => Math.abs(b.off) - Math.abs(a.off));
}

function worstOf(points: readonly FlowPoint[], risk: number): Outlier | null {
  const influences = leaveOneOut(points, { weighted: true, confidence: 1 - risk });
  if (!influences.ok) return null;
  const n = points.length;
  const candidates = influences.value.wells.flatMap((well, i): Candidate[] => {
    const point = points[i];
    const { predictionResidual: off, leverage, studentised } = well;
    if (!point || off === null) return [];
    const stated = point.sigma / Math.sqrt(1 - leverage);
    const t = studentised === null ? 0 : Math.abs(studentised);
    return [{ point, off, stated, z: Math.abs(off) / stated, t, studentised }];
  });
  const byErrors = top(candidates, ({ z }) => z);
  const byScatter = top(candidates, ({ t }) => t);
  if (!byErrors || !byScatter) return null;

  const made = (by: Candidate, probability: number, mends: boolean): Outlier => ({
    point: by.point,
    others: n - 1,
    off: by.off,
    error: Math.max(by.stated, by.t > 0 ? Math.abs(by.off) / by.t : 0),
    studentised: by.studentised,
    probability,
    mends,
  });
  const stated = Math.min(1, 2 * n * normalAbove(byErrors.z));
  if (stated < risk && isPlane(without(points, byErrors.point), risk))
    return { ...made(byErrors, stated, true), error: byErrors.stated };
  const scatter = Math.min(1, 2 * n * tAbove(byScatter.t, n - 4));
  return scatter < risk
    ? made(byScatter, scatter, isPlane(without(points, byScatter.point), risk))
    : null;
}

type Candidate = {
  readonly point: FlowPoint;
  readonly off: number;
  readonly stated: number;
  readonly z: number;
  readonly t: number;
  readonly studentised: number | null;
};

const top = <T>(of: readonly T[], by: (one: T) => number): T | undefined =>
  of.reduce<T | undefined>((best, one) => (best && by(best) >= by(one) ? best : one), undefined);
