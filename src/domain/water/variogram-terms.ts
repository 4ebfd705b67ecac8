import { inUnits, metres, METRES_PER, type LengthUnit } from '../units';
import type { PrintUnits } from '../show';
import type { SurfacePoint } from './surface/surface-point';
import { detrended, experimentalVariogram, usualLags, type Lag } from './surface/variogram';
import { fittedVariogram, startingVariogram } from './surface/variogram-fit';
import {
  growth,
  stretchOf,
  type VariogramModel,
  type VariogramShape,
} from './surface/variogram-model';
import type { SurfaceMethod } from './drawn-surface';

/** A variogram as a person types it: squares of the vertical unit, ranges in the grid's. */
export type VariogramTerms = {
  readonly shape: VariogramShape;
  readonly nugget: number;
  /** The sill, or the rise per distance of a linear one. */
  readonly rise: number;
  /** Not used by a linear one. */
  readonly range: number;
};

const square = (unit: LengthUnit) => METRES_PER[unit] ** 2;

/** The numbers of a model in the units they are typed in. */
export function termsOf(model: VariogramModel, { vertical, grid }: PrintUnits): VariogramTerms {
  const nugget = model.nugget / square(vertical);
  return model.shape === 'linear'
    ? {
        shape: model.shape,
        nugget,
        rise: (model.slope / square(vertical)) * METRES_PER[grid],
        range: 0,
      }
    : {
        shape: model.shape,
        nugget,
        rise: model.sill / square(vertical),
        range: inUnits(model.range, grid),
      };
}

/** The model of typed numbers. What it cannot be, the kriging says. */
export function modelOf(
  { shape, nugget, rise, range }: VariogramTerms,
  { vertical, grid }: PrintUnits,
): VariogramModel {
  const common = { nugget: nugget * square(vertical), anisotropy: null };
  return shape === 'linear'
    ? { ...common, shape, slope: (rise * square(vertical)) / METRES_PER[grid] }
    : { ...common, shape, sill: rise * square(vertical), range: metres(range, grid) };
}

export type SeenVariogram = {
  readonly lags: readonly Lag[];
  readonly model: VariogramModel;
  readonly how: 'fitted' | 'assumed';
};

/**
 * The lags of a set of heads and a model for them: of the shape asked for where
 * it can be fitted, else the one to begin with. Null where the heads are alike.
 */
export function variogramSeen(
  points: readonly SurfacePoint[],
  method: SurfaceMethod,
  shape: VariogramShape | null,
): SeenVariogram | null {
  const drift = method === 'kriged about a plane' ? 'linear' : 'none';
  const start = startingVariogram(points, drift);
  if (!start || shape === null || shape === start.model.shape) return start;
  const heads = drift === 'linear' ? detrended(points) : points;
  const lags = heads ? experimentalVariogram(heads, usualLags(points)) : [];
  const fitted = fittedVariogram(lags, shape);
  return fitted.ok ? { lags, model: fitted.value.model, how: 'fitted' } : start;
}

/** A model's curve for a chart: distance and semivariance in print units, to the furthest lag. */
export function variogramCurve(
  model: VariogramModel,
  furthest: number,
  { vertical, grid }: PrintUnits,
): (readonly [number, number])[] {
  const { xx } = stretchOf({ ...model, anisotropy: null });
  return Array.from({ length: 41 }, (_, i) => {
    const distance = Math.max(1e-9, (furthest * i) / 40);
    return [
      distance / METRES_PER[grid],
      (model.nugget + growth(model, distance * xx)) / square(vertical),
    ] as const;
  });
}

/** Lags as points of a chart, in print units. */
export const lagPoints = (lags: readonly Lag[], { vertical, grid }: PrintUnits) =>
  lags.map(
    ({ distance, semivariance }) =>
      [inUnits(distance, grid), semivariance / square(vertical)] as const,
  );
