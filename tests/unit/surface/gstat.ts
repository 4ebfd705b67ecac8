/** The kriging jobs of the oracle, in our terms. */
import {
  kriged,
  type KrigedSurface,
  type KrigingChoice,
} from '../../../src/domain/water/surface/kriging';
import type { SurfacePoint } from '../../../src/domain/water/surface/surface-point';
import type { VariogramModel } from '../../../src/domain/water/surface/variogram-model';
import { azimuth, metres } from '../../../src/domain/units';
import { oracleText, siteHeads } from './oracle';

export type GstatModel = {
  psill: number;
  model: 'Sph' | 'Exp' | 'Gau' | 'Lin';
  range: number;
  nugget: number;
  measurement_error: number;
  anis: [number, number] | null;
};

const SHAPES = { Sph: 'spherical', Exp: 'exponential', Gau: 'gaussian' } as const;

export const fromGstat = ({ psill, model, range, nugget, anis }: GstatModel): VariogramModel => {
  const anisotropy = anis ? { longAxis: azimuth(anis[0]), ratio: anis[1] } : null;
  return model === 'Lin'
    ? { shape: 'linear', slope: psill, nugget, anisotropy }
    : { shape: SHAPES[model], sill: psill, range: metres(range), nugget, anisotropy };
};

export const surfaceOf = (
  points: readonly SurfacePoint[],
  choice: KrigingChoice,
): KrigedSurface => {
  const surface = kriged(points, choice);
  if (!surface.ok) throw new Error(JSON.stringify(surface.problem));
  return surface.value;
};

const MODELS = JSON.parse(oracleText('c_kriging_models.json')).models as Record<
  string,
  Record<string, GstatModel>
>;

export const gstatModel = (site: string, name: string): GstatModel => {
  const model = MODELS[site]?.[name];
  if (!model) throw new Error(`no model ${site} ${name}`);
  return model;
};

/** The surface of a job such as "siteA sph OK". */
export const jobSurface = (job: string): KrigedSurface => {
  const [site = '', name = '', kriging] = job.split(' ');
  const model = gstatModel(site, name);
  const error = model.measurement_error;
  return surfaceOf(siteHeads(site, Math.sqrt(error)), {
    model: fromGstat(model),
    drift: kriging === 'OK' ? 'none' : 'linear',
    errors: error > 0 ? 'stated' : 'ignored',
  });
};
