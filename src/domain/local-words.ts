import type { GridOnEarth, Placed } from './local-placing';
import { fixed, length, lengthNumber, significant } from './show';
import type { Degrees, LengthUnit, Metres } from './units';

/** Decimals of a residual: a millimetre, a hundredth of a foot. */
const RESIDUAL: Readonly<Record<LengthUnit, number>> = { m: 3, ft: 2, 'us-ft': 2 };

/** A residual in a unit: "0.12 ft". */
export const residualText = (residual: Metres, unit: LengthUnit) =>
  length(residual, unit, RESIDUAL[unit]);

/** The same without its unit, for a column whose heading carries it. */
export const residualNumber = (residual: Metres, unit: LengthUnit) =>
  lengthNumber(residual, unit, RESIDUAL[unit]);

const clockwise = (angle: number, north: string) =>
  Math.abs(angle) < 0.00005
    ? `is ${north}`
    : `lies ${fixed(Math.abs(angle), 4)}° ${angle < 0 ? 'counter-clockwise' : 'clockwise'} of ${north}`;

/** How a plant grid lies, for a person: its north, its scale, and how well the marks agree. */
export function placedWords(
  { tie, fit }: Placed,
  on: GridOnEarth,
  convergence: Degrees | null,
): readonly string[] {
  const turned = fit === null || fit.rotationError === null ? '' : ` (± ${significant(fit.rotationError, 2)}°, one sigma)`; // prettier-ignore
  const scaled =
    fit === null || fit.scaleError === null ? '' : ` (± ${significant(fit.scaleError, 2)})`;
  return [
    `Its north ${clockwise(tie.rotation, `grid north of ${on.name}`)}${turned}${convergence === null ? '' : `, and ${clockwise(convergence, 'true north')}`}.`,
    `One length of it is ${fixed(tie.scale, 7)} lengths on ${on.name}${scaled}.`,
    ...(fit === null ? [] : fitWords(fit, on.unit)),
  ];
}

function fitWords(
  { spare, standardError, residuals, mirrored }: NonNullable<Placed['fit']>,
  unit: LengthUnit,
): readonly string[] {
  const greatest = residuals.toSorted((a, b) => b.distance - a.distance)[0];
  return [
    standardError === null
      ? 'Nothing is left to check the fit by: the residuals are nought whatever was typed. Give one more point.'
      : `Standard error of a coordinate ${residualText(standardError, unit)}, with ${spare} to spare; the largest residual is ${residualText(greatest?.distance ?? standardError, unit)}, at ${greatest?.name ?? ''}.`,
    ...(mirrored
      ? ['The points fit far better with the axes of the local grid exchanged: its easting and northing are probably swapped.'] // prettier-ignore
      : []),
  ];
}
