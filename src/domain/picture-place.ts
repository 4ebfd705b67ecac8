import type { EastNorth } from './grid';
import { fitControl, fromLocal, type ControlFit, type ControlProblem } from './local-grid';
import { ok, type Result } from './result';
import type { ImageMark, ImageSize, Picture } from './site/pictures';
import { inUnits, metres, type LengthUnit } from './units';

/** Where an image lies: the fit with its residuals, and its corners in grid units. */
export type PlacedImage = {
  readonly fit: ControlFit;
  /** Top left, top right, bottom right, bottom left. */
  readonly corners: readonly [EastNorth, EastNorth, EastNorth, EastNorth];
};

/**
 * A site plan or air photo placed by two or more marks: turned, scaled and
 * moved, but not bent. The dots of a drawing are taken for metres of a plant
 * grid whose north is up.
 */
export function placeImage(
  { width, height }: ImageSize,
  marks: readonly ImageMark[],
  unit: LengthUnit,
): Result<PlacedImage, ControlProblem> {
  const local = ([right, down]: readonly [number, number]) => ({
    east: metres(right),
    north: metres(-down),
  });
  const fit = fitControl(
    marks.map(({ name, dots, grid }) => ({
      name,
      local: local(dots),
      grid: { east: metres(grid[0], unit), north: metres(grid[1], unit) },
    })),
  );
  if (!fit.ok) return fit;
  const corner = (right: number, down: number): EastNorth => {
    const { east, north } = fromLocal(local([right, down]), fit.value.tie);
    return [inUnits(east, unit), inUnits(north, unit)];
  };
  return ok({
    fit: fit.value,
    corners: [corner(0, 0), corner(width, 0), corner(width, height), corner(0, height)],
  });
}

/** A picture of the site with its bytes, and where it lies. */
export type LaidPicture = {
  readonly picture: Picture;
  readonly bytes: Uint8Array;
  readonly placed: PlacedImage;
};
