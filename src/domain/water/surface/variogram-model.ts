import type { Azimuth, Metres } from '../../units';

/** The directions differ: heads stay alike further along the long axis than across it. */
export type Anisotropy = {
  /** Clockwise from grid north; the opposite direction is the same axis. */
  readonly longAxis: Azimuth;
  /** Range across the long axis over range along it, above 0 and at most 1. */
  readonly ratio: number;
};

/**
 * How unlike heads become with distance h: half the mean square difference, in
 * m². The shapes and their ranges are those of E. J. Pebesma, 2004,
 * Multivariable geostatistics in S: the gstat package, Computers & Geosciences
 * 30, 683-691:
 *
 * - spherical    sill·(1.5·h/a − 0.5·(h/a)³) up to a, the sill beyond
 * - exponential  sill·(1 − e^(−h/a)); 95 % of the sill at 3a
 * - gaussian     sill·(1 − e^(−(h/a)²)); 95 % of the sill at √3·a
 * - linear       slope·h, without end
 *
 * `range` is a itself, not the distance at which 95 % is reached. The nugget is
 * real variation over distances shorter than any between wells: it is added
 * everywhere but at h = 0, so that a surface goes through its heads. Errors of
 * measurement are another thing; the points carry them.
 */
export type VariogramModel = {
  readonly nugget: number;
  readonly anisotropy: Anisotropy | null;
} & (
  | {
      readonly shape: 'exponential' | 'gaussian' | 'spherical';
      /** m², not counting the nugget. */
      readonly sill: number;
      readonly range: Metres;
    }
  | {
      readonly shape: 'linear';
      /** m² per metre. */
      readonly slope: number;
    }
);

export type VariogramShape = VariogramModel['shape'];

export const VARIOGRAM_SHAPES: readonly VariogramShape[] = [
  'exponential',
  'spherical',
  'gaussian',
  'linear',
];

/** What is wrong with a model somebody typed; null when it can be used. */
export type ModelProblem =
  | { readonly kind: 'bad-variogram'; readonly part: 'nugget' | 'sill' | 'range' | 'slope' }
  | { readonly kind: 'bad-variogram'; readonly part: 'ratio' };

export function modelProblem(model: VariogramModel): ModelProblem | null {
  const problem = (part: ModelProblem['part']): ModelProblem => ({ kind: 'bad-variogram', part });
  const above = (value: number) => value > 0 && Number.isFinite(value);
  if (!(model.nugget >= 0) || !Number.isFinite(model.nugget)) return problem('nugget');
  if (model.anisotropy && !(above(model.anisotropy.ratio) && model.anisotropy.ratio <= 1))
    return problem('ratio');
  if (model.shape === 'linear') return above(model.slope) ? null : problem('slope');
  if (!above(model.range)) return problem('range');
  return above(model.sill) ? null : problem('sill');
}

/** A turn and a stretch, after which distance alone decides: u = xx·x + xy·y, v = yx·x + yy·y. */
export type Stretch = {
  readonly xx: number;
  readonly xy: number;
  readonly yx: number;
  readonly yy: number;
};

/**
 * Coordinates in which the model is the same in all directions and its range is
 * 1 (for the linear model: a metre along the long axis is 1).
 */
export function stretchOf(model: VariogramModel): Stretch {
  const unit = model.shape === 'linear' ? 1 : model.range;
  if (!model.anisotropy) return { xx: 1 / unit, xy: 0, yx: 0, yy: 1 / unit };
  const angle = (model.anisotropy.longAxis * Math.PI) / 180;
  const [sin, cos] = [Math.sin(angle), Math.cos(angle)];
  const across = unit * model.anisotropy.ratio;
  return { xx: sin / unit, xy: cos / unit, yx: cos / across, yy: -sin / across };
}

/** The part of the model that grows with distance, at a stretched distance; without the nugget. */
export function growth(model: VariogramModel, stretched: number): number {
  switch (model.shape) {
    case 'linear':
      return model.slope * stretched;
    case 'exponential':
      return -model.sill * Math.expm1(-stretched);
    case 'gaussian':
      return -model.sill * Math.expm1(-stretched * stretched);
    case 'spherical':
      return stretched >= 1 ? model.sill : model.sill * stretched * (1.5 - 0.5 * stretched ** 2);
  }
}

/**
 * Slope of `growth` per stretched distance, divided by that distance: what the
 * slope of a surface needs. Null where it has no bound, at distance zero of
 * every shape but the gaussian.
 */
export function growthRate(model: VariogramModel, stretched: number): number | null {
  if (model.shape === 'gaussian') return 2 * model.sill * Math.exp(-stretched * stretched);
  if (stretched === 0) return null;
  switch (model.shape) {
    case 'linear':
      return model.slope / stretched;
    case 'exponential':
      return (model.sill * Math.exp(-stretched)) / stretched;
    case 'spherical':
      return stretched >= 1 ? 0 : (model.sill * 1.5 * (1 - stretched ** 2)) / stretched;
  }
}

/** Semivariance in m² between places so far apart east and north. Zero for a place and itself. */
export function semivariance(model: VariogramModel, east: number, north: number): number {
  if (east === 0 && north === 0) return 0;
  const { xx, xy, yx, yy } = stretchOf(model);
  return model.nugget + growth(model, Math.hypot(xx * east + xy * north, yx * east + yy * north));
}

/** Distance along the long axis at which heads are as good as unrelated; null where there is none. */
export function reach(model: VariogramModel): Metres | null {
  const TIMES_RANGE = { exponential: 3, gaussian: Math.sqrt(3), spherical: 1 } as const;
  return model.shape === 'linear' ? null : ((model.range * TIMES_RANGE[model.shape]) as Metres);
}
