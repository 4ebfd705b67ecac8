import { metres, type Metres } from '../../units';
import { invertLower, rowStart, solveLower } from './cholesky';
import type { KrigedSurface } from './kriging';
import type { SurfacePlace, SurfacePoint } from './surface-point';
import { headOnTin, triangulate } from './tin';
import { placesOf } from './surface-point';

/** One place left out, and what the others say of it. */
export type LeftOut = {
  readonly place: SurfacePlace;
  /** From all the others; null where they cannot say. */
  readonly predicted: Metres | null;
  /** Read less predicted. */
  readonly residual: Metres | null;
  /** Kriging error of the prediction of a reading; null where there is none. */
  readonly sigma: Metres | null;
};

/** How well a surface predicts heads it has not seen. */
export type CrossValidation = {
  /** In the order of the places. */
  readonly places: readonly LeftOut[];
  /** How many could be predicted; the figures below are of these. Null where none could. */
  readonly predicted: number;
  readonly meanError: Metres | null;
  readonly rootMeanSquare: Metres | null;
  /**
   * Mean of (residual / sigma)². Near 1 where the variogram tells the error
   * rightly; well above 1 it promises too much, well below 1 too little.
   */
  readonly squareRatio: number | null;
};

/** Less left of a well, once the others are known, than this part: the drift hangs on it alone. */
const HANGS_ON_IT = 1e-10;

/**
 * Each well left out in turn and predicted by kriging from the others, with the
 * same variogram. Nothing is solved again: the residuals and their variances
 * stand in the inverse of the one system (O. Dubrule, 1983, Cross validation of
 * kriging in a unique neighborhood, Mathematical Geology 15, 687-699).
 */
export function krigingLeftOut(surface: KrigedSurface): CrossValidation {
  const { lower, weights, solvedDrift, driftLower, places } = surface;
  const [n, p] = [places.length, surface.drift.length];
  const steps = invertLower(lower, n);
  let step = steps.next();
  while (!step.done) step = steps.next();
  const inverse = step.value;

  return validationOf(
    places.map((place, i) => {
      let known = 0;
      for (let k = i; k < n; k++) known += (inverse[rowStart(k) + i] as number) ** 2;
      const trend = Float64Array.from({ length: p }, (_, k) => solvedDrift[k * n + i] as number);
      solveLower(driftLower, p, trend);
      const own = trend.reduce((left, part) => left - part * part, known);
      if (!(own > HANGS_ON_IT * known))
        return { place, predicted: null, residual: null, sigma: null };
      const residual = metres((weights[i] as number) / own);
      return {
        place,
        predicted: metres(place.head - residual),
        residual,
        sigma: metres(Math.sqrt(1 / own)),
      };
    }),
  );
}

/**
 * Each well left out in turn and read off the triangles of the others. A well on
 * the outline has no prediction: without it, it lies outside.
 */
export function tinLeftOut(points: readonly SurfacePoint[]): CrossValidation {
  const places = placesOf(points);
  const alone = places.map((place) => ({ ...place, id: place.ids.join(', ') }));
  return validationOf(
    places.map((place, i) => {
      const others = triangulate(alone.filter((_, k) => k !== i));
      const predicted = others.ok ? headOnTin(others.value, place.x, place.y) : null;
      const residual = predicted === null ? null : metres(place.head - predicted);
      return { place, predicted, residual, sigma: null };
    }),
  );
}

function validationOf(places: readonly LeftOut[]): CrossValidation {
  const residuals = places.flatMap(({ residual }) => (residual === null ? [] : [residual]));
  const ratios = places.flatMap(({ residual, sigma }) =>
    residual === null || sigma === null ? [] : [(residual / sigma) ** 2],
  );
  const mean = (numbers: readonly number[]) =>
    numbers.length === 0 ? null : numbers.reduce((sum, x) => sum + x, 0) / numbers.length;
  const [error, square] = [mean(residuals), mean(residuals.map((r) => r * r))];
  return {
    places,
    predicted: residuals.length,
    meanError: error === null ? null : metres(error),
    rootMeanSquare: square === null ? null : metres(Math.sqrt(square)),
    squareRatio: mean(ratios),
  };
}
