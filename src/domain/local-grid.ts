import type { GridFacts } from './grid';
import { fail, ok, type Result } from './result';
import { degrees, type Degrees, type LengthUnit, type Metres } from './units';

/** A position in metres, on whichever grid it is said to be. */
export type Position = { readonly east: Metres; readonly north: Metres };

/**
 * How a plant grid lies on another grid. A point at `local` on the plant grid
 * is at `grid` on the other; from there the axes are turned and scaled.
 */
export type LocalTie = {
  readonly local: Position;
  readonly grid: Position;
  /** Azimuth of plant north on the other grid: positive where plant north lies clockwise of grid north. */
  readonly rotation: Degrees;
  /** Metres on the other grid in one metre of the plant grid. */
  readonly scale: number;
};

const RADIAN = Math.PI / 180;

/** Where a point of the plant grid is on the other grid. */
export function fromLocal({ east, north }: Position, tie: LocalTie): Position {
  const [x, y] = [east - tie.local.east, north - tie.local.north];
  const [sin, cos] = [Math.sin(tie.rotation * RADIAN), Math.cos(tie.rotation * RADIAN)];
  return {
    east: (tie.grid.east + tie.scale * (x * cos + y * sin)) as Metres,
    north: (tie.grid.north + tie.scale * (y * cos - x * sin)) as Metres,
  };
}

/** Where a point of the other grid is on the plant grid. */
export function toLocal({ east, north }: Position, tie: LocalTie): Position {
  const [x, y] = [(east - tie.grid.east) / tie.scale, (north - tie.grid.north) / tie.scale];
  const [sin, cos] = [Math.sin(tie.rotation * RADIAN), Math.cos(tie.rotation * RADIAN)];
  return {
    east: (tie.local.east + x * cos - y * sin) as Metres,
    north: (tie.local.north + y * cos + x * sin) as Metres,
  };
}

/** A mark known on both grids. */
export type ControlPoint = {
  readonly name: string;
  readonly local: Position;
  readonly grid: Position;
};

/** Known position on the other grid minus the fitted one. */
export type ControlResidual = {
  readonly name: string;
  readonly east: Metres;
  readonly north: Metres;
  readonly distance: Metres;
};

export type ControlFit = {
  readonly tie: LocalTie;
  /** In the order of the points given. All but zero with two points and a free scale: nothing is left to check. */
  readonly residuals: readonly ControlResidual[];
  /** Coordinates given beyond those the fit needs. */
  readonly spare: number;
  /** Of one coordinate, from the residuals; null when nothing is to spare. */
  readonly standardError: Metres | null;
  readonly rotationError: Degrees | null;
  /** Null too when the scale was held. */
  readonly scaleError: number | null;
  /** The marks fit far better with the plant grid's axes exchanged: x and y are probably swapped. */
  readonly mirrored: boolean;
};

export type ControlProblem =
  | { readonly kind: 'too-few-points'; readonly have: number }
  | { readonly kind: 'not-a-position'; readonly name: string }
  | { readonly kind: 'all-in-one-place'; readonly on: 'local' | 'grid' }
  | { readonly kind: 'no-one-rotation' };

/** Marks closer together than this are one mark. */
const LEAST_SPREAD = 1e-3; // metres

const centre = (positions: readonly Position[]) => {
  const n = positions.length;
  const [e0, n0] = [positions[0]?.east ?? 0, positions[0]?.north ?? 0];
  return {
    east: (e0 + positions.reduce((sum, p) => sum + (p.east - e0), 0) / n) as Metres,
    north: (n0 + positions.reduce((sum, p) => sum + (p.north - n0), 0) / n) as Metres,
  };
};

/**
 * The turn, scale and shift that bring the marks of a plant grid nearest to
 * their known positions, by least squares: the four-parameter conformal
 * (Helmert) transformation, or with `scale: 'held'` the three-parameter one at
 * scale 1, for a plant grid and another that are both in ground distances.
 * Sums are about the centres of the marks, so that large coordinates lose
 * nothing.
 *
 * C. D. Ghilani & P. R. Wolf, Adjustment Computations, ch. "Coordinate
 * transformations" (value from memory: the form of the equations).
 */
export function fitControl(
  points: readonly ControlPoint[],
  scale: 'free' | 'held' = 'free',
): Result<ControlFit, ControlProblem> {
  if (points.length < 2) return fail({ kind: 'too-few-points', have: points.length });
  const wrong = points.find((p) =>
    [p.local.east, p.local.north, p.grid.east, p.grid.north].some((c) => !Number.isFinite(c)),
  );
  if (wrong) return fail({ kind: 'not-a-position', name: wrong.name });

  const [local, grid] = [centre(points.map((p) => p.local)), centre(points.map((p) => p.grid))];
  // prettier-ignore
  let along = 0, across = 0, mirrorAlong = 0, mirrorAcross = 0, localSpread = 0, gridSpread = 0;
  for (const p of points) {
    const [x, y] = [p.local.east - local.east, p.local.north - local.north];
    const [e, n] = [p.grid.east - grid.east, p.grid.north - grid.north];
    along += x * e + y * n;
    across += x * n - y * e;
    mirrorAlong += x * e - y * n;
    mirrorAcross += x * n + y * e;
    localSpread += x * x + y * y;
    gridSpread += e * e + n * n;
  }
  if (localSpread < LEAST_SPREAD ** 2) return fail({ kind: 'all-in-one-place', on: 'local' });
  if (gridSpread < LEAST_SPREAD ** 2) return fail({ kind: 'all-in-one-place', on: 'grid' });

  const agreement = Math.hypot(along, across);
  const mirrorAgreement = Math.hypot(mirrorAlong, mirrorAcross);
  const whole = Math.sqrt(localSpread * gridSpread);
  if (agreement < 1e-9 * whole && mirrorAgreement < 1e-9 * whole)
    return fail({ kind: 'no-one-rotation' });

  const tie: LocalTie = {
    local,
    grid,
    rotation: degrees(Math.atan2(-across, along) / RADIAN),
    // A mirrored plan agrees in no direction; scale it by its size, so that the residuals show it.
    scale: scale === 'held' ? 1 : Math.max(agreement, 1e-9 * whole) / localSpread,
  };
  const residuals = points.map(({ name, local, grid }): ControlResidual => {
    const fitted = fromLocal(local, tie);
    const [east, north] = [grid.east - fitted.east, grid.north - fitted.north];
    return {
      name,
      east: east as Metres,
      north: north as Metres,
      distance: Math.hypot(east, north) as Metres,
    };
  });

  const spare = 2 * points.length - (scale === 'held' ? 3 : 4);
  const squares = residuals.reduce((sum, r) => sum + r.distance ** 2, 0);
  const error = spare > 0 ? Math.sqrt(squares / spare) : null;
  const turnError = error === null ? null : error / (tie.scale * Math.sqrt(localSpread));
  // Squares left over by the best fit of each hand, as shares of the whole.
  const left = 1 - (agreement / whole) ** 2;
  const mirrorLeft = 1 - (mirrorAgreement / whole) ** 2;
  return ok({
    tie,
    residuals,
    spare,
    standardError: error as Metres | null,
    rotationError: turnError === null ? null : degrees(turnError / RADIAN),
    scaleError: error === null || scale === 'held' ? null : error / Math.sqrt(localSpread),
    mirrored: points.length > 2 && left > 1e-4 && mirrorLeft < left / 25,
  });
}

/**
 * Facts of a plant grid at the site's centre. Tied to another grid it takes
 * that grid's convergence, turned, and its scale; tied to nothing it has
 * neither, and its distances count as ground distances.
 *
 * @param on facts of the other grid at the same place
 */
export function localFacts(
  name: string,
  unit: LengthUnit,
  elevation: Metres,
  tied: { readonly tie: LocalTie; readonly on: GridFacts } | null,
): GridFacts {
  if (tied === null)
    return {
      name,
      unit,
      conformal: true,
      convergence: null,
      pointScale: null,
      combinedFactor: null,
      elevation,
      caution:
        'The grid is tied to nothing: its distances are taken as ground distances, and true north is not known.',
    };

  const { tie, on } = tied;
  const scaled = (factor: number | null) => (factor === null ? null : factor / tie.scale);
  return {
    name,
    unit,
    conformal: on.conformal,
    convergence: on.convergence === null ? null : degrees(on.convergence + tie.rotation),
    pointScale: scaled(on.pointScale),
    combinedFactor: scaled(on.combinedFactor),
    elevation,
    caution: on.caution,
  };
}
