/** Numbers to text: the one place, so that page, sheet and terminal say the same. */
import type { Dimension, Quantified } from './work';
import { inUnits, isLengthUnit, METRES_PER, type LengthUnit, type Metres } from './units';

/** The units a site is printed in. */
export type PrintUnits = { readonly vertical: LengthUnit; readonly grid: LengthUnit };

/** How a unit is written beside a number; ftUS is the EPSG data set's short name of the US survey foot. */
const UNIT_TEXT: Readonly<Record<LengthUnit, string>> = {
  m: 'm',
  ft: 'ft',
  'us-ft': 'ftUS',
};

/** A length's unit as it stands beside a number: "ft", "ftUS", "m". */
export const unitText = (unit: LengthUnit) => UNIT_TEXT[unit];

/** The same of any unit: those of other kinds as they are. */
export const unitWord = (unit: string) => (isLengthUnit(unit) ? UNIT_TEXT[unit] : unit);

/** Decimals a head or elevation is shown with where none was recorded: a hundredth of a foot, a millimetre. */
const USUAL_DECIMALS: Readonly<Record<LengthUnit, number>> = { m: 3, ft: 2, 'us-ft': 2 };

/** Decimals of a length in a unit, where nobody recorded any: 2 in feet, 3 in metres. */
export const usualDecimals = (unit: LengthUnit) => USUAL_DECIMALS[unit];

/** Decimals in a number as written: 2 in "8.30", none in "8". */
export const decimalsIn = (text: string) => /\.(\d+)/.exec(text)?.[1]?.length ?? 0;

/** A minus sign that is one, and no "−0". */
export function fixed(value: number, decimals: number): string {
  const text = value.toFixed(decimals);
  return (/^-0\.?0*$/.test(text) ? text.slice(1) : text).replace('-', '−');
}

/** A length in a unit, with the unit: "94.16 ft". */
export const length = (value: Metres, unit: LengthUnit, decimals = usualDecimals(unit)) =>
  `${fixed(inUnits(value, unit), decimals)} ${UNIT_TEXT[unit]}`;

/** A length without its unit, for columns whose heading carries it. */
export const lengthNumber = (value: Metres, unit: LengthUnit, decimals = usualDecimals(unit)) =>
  fixed(inUnits(value, unit), decimals);

/** A difference of lengths with its sign and without its unit: "+0.98", "−0.50". */
export const signedLength = (value: Metres, unit: LengthUnit, decimals = usualDecimals(unit)) =>
  `${value > 0 ? '+' : ''}${lengthNumber(value, unit, decimals)}`;

/** Decimals of a residual, on sheets and on the map. */
export const RESIDUAL_DECIMALS = 3;

/** To so many significant figures, never in powers of ten: 0.0032. */
export function significant(value: number, figures: number): string {
  if (value === 0) return '0';
  const decimals = Math.max(0, figures - 1 - Math.floor(Math.log10(Math.abs(value))));
  return fixed(value, Math.min(decimals, 20));
}

/** A gradient to three figures: "0.00324". */
export const gradient = (value: number) => significant(value, 3);

/** A direction to a degree, three digits as a bearing is read out: "024°". */
export const direction = (azimuth: number) =>
  `${String(Math.round(azimuth) % 360).padStart(3, '0')}°`;

/** Half the fan of a direction to a tenth of a degree: "± 0.5°". */
export const directionDoubt = (halfWidth: number) => `± ${fixed(halfWidth, 1)}°`;

/** A direction with its doubt where it is known, which no line parts: "112° ± 0.5°". */
export const directionWithin = (azimuth: number, halfWidth: number | null) =>
  halfWidth === null
    ? direction(azimuth)
    : `${direction(azimuth)} ${directionDoubt(halfWidth)}`.replaceAll(' ', '\u00a0');

const WINDS = [
  'north',
  'north-east',
  'east',
  'south-east',
  'south',
  'south-west',
  'west',
  'north-west',
];

/** The nearest of the eight winds, in words. */
export const wind = (azimuth: number) => WINDS[Math.round(azimuth / 45) % 8] ?? 'north';

/** The unit a dimension is printed in; blank where there is none. */
export function unitOfDimension(dimension: Dimension, units: PrintUnits): string {
  switch (dimension) {
    case 'length':
      return UNIT_TEXT[units.vertical];
    case 'distance':
      return UNIT_TEXT[units.grid];
    case 'area':
      return `${UNIT_TEXT[units.vertical]}²`;
    case 'angle':
      return '°';
    case 'concentration':
      return 'µg/L';
    case 'slope':
    case 'number':
      return '';
  }
}

/**
 * The units of a line or a table: where vertical and horizontal lengths stand
 * together all are in the vertical unit, so that nothing needs a factor.
 */
export function unitsTogether(
  dimensions: readonly (Dimension | 'text')[],
  units: PrintUnits,
): PrintUnits {
  const isMixed = dimensions.includes('length') && dimensions.includes('distance');
  return isMixed ? { vertical: units.vertical, grid: units.vertical } : units;
}

/** A quantity as a number in the unit it is printed in. */
export function inPrintUnits({ value, dimension }: Quantified, units: PrintUnits): number {
  if (dimension === 'length') return inUnits(value as Metres, units.vertical);
  if (dimension === 'distance') return inUnits(value as Metres, units.grid);
  if (dimension === 'area') return value / METRES_PER[units.vertical] ** 2;
  return value;
}
