import type { EastNorth } from './grid';
import { fitControl, type ControlFit, type ControlProblem, type LocalTie } from './local-grid';
import { fail, ok, type Result } from './result';
import { degrees, metres, type LengthUnit } from './units';

/** A grid with a place on earth, by its code or by a projection string. */
export type GridOnEarth = {
  readonly name: string;
  readonly code: string | null;
  readonly projection: string | null;
  readonly unit: LengthUnit;
};

/** A mark on both grids, each pair in the unit of its own grid. */
export type PlacedMark = {
  readonly name: string;
  readonly local: EastNorth;
  readonly grid: EastNorth;
};

/**
 * How a plant grid lies on another, as somebody gave it: by the place of one of
 * its points with a turn and a scale, or by marks known on both, to which it is
 * fitted anew whenever it is opened.
 */
export type LocalPlacing =
  | {
      readonly by: 'origin';
      readonly local: EastNorth;
      readonly grid: EastNorth;
      /** Azimuth of plant north on the other grid, degrees: positive where it lies clockwise of grid north. */
      readonly rotation: number;
      /** Length on the other grid of one length of the plant grid, in the same unit. */
      readonly scale: number;
    }
  | {
      readonly by: 'control';
      readonly marks: readonly PlacedMark[];
      /** Held at 1, or fitted. */
      readonly scale: 'free' | 'held';
    };

/** A plant grid laid on a grid on earth. */
export type LocalGrid = { readonly on: GridOnEarth; readonly placing: LocalPlacing };

export type PlacingProblem = ControlProblem | { readonly kind: 'not-a-scale' };

/** The tie, and what the fit says of itself; null where nothing was fitted. */
export type Placed = { readonly tie: LocalTie; readonly fit: ControlFit | null };

const position = ([east, north]: EastNorth, unit: LengthUnit) => ({
  east: metres(east, unit),
  north: metres(north, unit),
});

/** How a plant grid in `unit` lies on the other, in metres. */
export function placedOn(
  { on, placing }: LocalGrid,
  unit: LengthUnit,
): Result<Placed, PlacingProblem> {
  if (placing.by === 'control') {
    const fit = fitControl(
      placing.marks.map(({ name, local, grid }) => ({
        name,
        local: position(local, unit),
        grid: position(grid, on.unit),
      })),
      placing.scale,
    );
    return fit.ok ? ok({ tie: fit.value.tie, fit: fit.value }) : fit;
  }
  const { local, grid, rotation, scale } = placing;
  if (![...local, ...grid, rotation].every(Number.isFinite))
    return fail({ kind: 'not-a-position', name: 'the origin' });
  if (!(scale > 0) || !Number.isFinite(scale)) return fail({ kind: 'not-a-scale' });
  const tie: LocalTie = {
    local: position(local, unit),
    grid: position(grid, on.unit),
    rotation: degrees(rotation),
    scale,
  };
  return ok({ tie, fit: null });
}

/** Why a plant grid can't be laid, and what to do, in a sentence. */
export function placingSentence(problem: PlacingProblem): string {
  switch (problem.kind) {
    case 'too-few-points':
      return `Two control points or more are needed; there ${problem.have === 1 ? 'is one' : `are ${problem.have}`}.`;
    case 'not-a-position':
      return `The coordinates of ${problem.name} are not numbers.`;
    case 'all-in-one-place':
      return `The control points all lie in one place ${problem.on === 'local' ? 'on the local grid' : 'on the other grid'}: choose some that are far apart.`;
    case 'no-one-rotation':
      return 'No turn brings the control points together: check which coordinates belong to which point.';
    case 'not-a-scale':
      return 'The scale is a number above 0; 1 where both are in the same distances.';
  }
}
