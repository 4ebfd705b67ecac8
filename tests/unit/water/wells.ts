/** Wells of the published and worked cases, and the reference planes computed elsewhere. */
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import type { Result } from '../../../src/domain/result';
import { metres, type LengthUnit } from '../../../src/domain/units';
import type { HeadPoint } from '../../../src/domain/water/plane';

const SIGMA = 0.01;

export const well = (
  id: string,
  x: number,
  y: number,
  head: number,
  sigma = SIGMA,
  unit: LengthUnit = 'm',
): HeadPoint => ({
  id,
  x: metres(x, unit),
  y: metres(y, unit),
  head: metres(head, unit),
  sigma: metres(sigma, unit),
});

/** Regression case 3.1 of the project's basis, in feet: invented wells, computed independently. */
export const SIX_IN_FEET = (
  [
    ['P1', 1000, 5000, 102.35, 9.82],
    ['P2', 1150, 5040, 101.87, 9.71],
    ['P3', 1300, 5010, 101.12, 9.3],
    ['P4', 1050, 5150, 102.9, 10.15],
    ['P5', 1200, 5170, 101.66, 9.34],
    ['P6', 1350, 5140, 100.95, 9.01],
  ] as const
).map(([id, east, north, mp, dtw]) => well(id, east, north, mp - dtw, SIGMA, 'ft'));

export const valueOf = <T, P>(result: Result<T, P>): T => {
  if (!result.ok) throw new Error(`expected an answer: ${JSON.stringify(result.problem)}`);
  return result.value;
};

/** How far an answer is off, as a part of the reference; absolute where that is 0. */
export const off = (found: number | null | undefined, reference: number): number =>
  found === null || found === undefined
    ? Infinity
    : Math.abs(found - reference) / (Math.abs(reference) || 1);

type ErrorsOfOracle = {
  readonly sigma: number;
  readonly se_b: number;
  readonly se_c: number;
  readonly cov_bc: number;
  readonly se_azimuth_deg_delta?: number;
  readonly se_gradient_delta?: number;
};

export type OraclePlane = {
  readonly id: string;
  readonly kind: string;
  readonly unit: string;
  readonly sigma: number | null;
  readonly weights: readonly number[] | null;
  readonly wells: readonly { id: string; x: number; y: number; head: number }[];
  /** b and c are the slopes east and north; a_at_centroid the head at the centre. */
  readonly expected: {
    readonly n: number;
    readonly status: string;
    readonly x_c: number;
    readonly y_c: number;
    readonly distinct_xy: number;
    readonly spread_major: number;
    readonly spread_minor: number;
    readonly collinearity_ratio: number;
    readonly a_at_centroid: number;
    readonly b: number;
    readonly c: number;
    readonly gradient: number;
    readonly azimuth_deg: number | null;
    readonly residuals: readonly number[];
    readonly rss: number;
    readonly r2: number | null;
    readonly dof: number;
    readonly unit_cov: { readonly bb: number; readonly cc: number; readonly bc: number };
    readonly from_residuals?: ErrorsOfOracle;
    readonly from_stated_sigma?: ErrorsOfOracle;
  };
};

export type OracleSimulation = {
  readonly case: string;
  readonly measuring_sigma: number;
  readonly percentiles: readonly number[];
  readonly azimuth_best: number;
  readonly azimuth_deviation_mc: readonly number[];
  readonly azimuth_deviation_exact: readonly number[];
  readonly mc_standard_error: readonly number[];
  readonly gradient_mc: readonly number[];
  readonly mean_resultant_length: number;
  readonly circular_sd_deg: number;
};

export const fixture = <T>(path: string): T =>
  JSON.parse(readFileSync(new URL(`../../fixtures/${path}`, import.meta.url), 'utf8'));

/** 68 planes by exact rationals, and 12 simulations; numpy and R agree. See the file's own note. */
export const ORACLE = fixture<{ cases: OraclePlane[]; monte_carlo: OracleSimulation[] }>(
  'oracles/b_planes.json',
);

export const oracleCase = (id: string): OraclePlane => {
  const found = ORACLE.cases.find((one) => one.id === id);
  if (!found) throw new Error(`no oracle ${id}`);
  return found;
};

/** The oracles' feet are passed as they stand: a plane has no unit of its own. */
export const oracleWells = (set: OraclePlane, sigma = set.sigma ?? SIGMA): HeadPoint[] =>
  set.wells.map(({ id, x, y, head }, i) =>
    well(id, x, y, head, set.weights ? 1 / Math.sqrt(set.weights[i]!) : sigma),
  );

/** A jittered grid of wells 50 m apart, none of them in a line with all the others. */
export const scattered = (least: number, most: number) =>
  fc
    .integer({ min: least, max: most })
    .chain((n) =>
      fc.array(fc.tuple(fc.integer({ min: -20, max: 20 }), fc.integer({ min: -20, max: 20 })), {
        minLength: n,
        maxLength: n,
      }),
    )
    .map((jitter) => {
      const side = Math.ceil(Math.sqrt(jitter.length));
      return jitter.map(
        ([dx, dy], i) => [50 * (i % side) + dx, 50 * Math.floor(i / side) + dy] as const,
      );
    });

export const slope = fc.double({ min: -0.05, max: 0.05, noNaN: true });

/** A normal deviate, near enough, from a number of fast-check's. */
export const noise = fc.double({ min: -1, max: 1, noNaN: true });
