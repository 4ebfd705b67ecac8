/**
 * Quantities. Inside `domain/` every length is in metres, every angle in
 * degrees, every concentration in µg/L. Other units exist only at the edges:
 * the tables keep what was written, and `show.ts` prints in the site's units.
 */
declare const unit: unique symbol;
type Quantity<Unit extends string> = number & { readonly [unit]: Unit };

/** A length or an elevation, in metres whatever it was written in. */
export type Metres = Quantity<'m'>;
/** Clockwise from grid north: 0 N, 90 E, 180 S, 270 W. */
export type Azimuth = Quantity<'azimuth'>;
/** An angle that is no direction: a half-width, a latitude, a turn. */
export type Degrees = Quantity<'°'>;
/** A volume, in litres. */
export type Litres = Quantity<'L'>;

/**
 * Metres in one of each. All three are exact by definition. The survey foot is
 * deprecated in the United States after 31 December 2022 (85 FR 62698) but is
 * what older State Plane coordinates are in.
 */
export const METRES_PER = {
  m: 1,
  ft: 0.3048, // international foot: depths, elevations
  'us-ft': 1200 / 3937, // US survey foot
} as const;

export type LengthUnit = keyof typeof METRES_PER;

export const isLengthUnit = (text: string): text is LengthUnit => Object.hasOwn(METRES_PER, text);

/** So many of a unit, in metres. */
export const metres = (n: number, from: LengthUnit = 'm') => (n * METRES_PER[from]) as Metres;

/** The other way round: a length as a number of the unit. */
export const inUnits = (length: Metres, to: LengthUnit): number => length / METRES_PER[to];

/** Litres in one of each; the US gallon is 231 cubic inches of 2.54 cm, exactly. */
const LITRES_PER = { L: 1, gal: 3.785411784, mL: 0.001 } as const;

export type VolumeUnit = keyof typeof LITRES_PER;

export const isVolumeUnit = (text: string): text is VolumeUnit => Object.hasOwn(LITRES_PER, text);

/** So many of a unit, in litres. */
export const litres = (n: number, from: VolumeUnit = 'L') => (n * LITRES_PER[from]) as Litres;

/** The other way round: a volume as a number of the unit. */
export const inVolumeUnits = (volume: Litres, to: VolumeUnit): number => volume / LITRES_PER[to];

export const degrees = (n: number) => n as Degrees;

/** Any angle in degrees, turned to lie in [0, 360). */
export const azimuth = (angle: number) => ((((angle % 360) + 360) % 360) + 0) as Azimuth;

/** The smaller turn from one direction to another, in (−180, 180], positive clockwise. */
export const turn = (from: number, to: number): Degrees => {
  const apart = azimuth(to - from);
  return (apart > 180 ? apart - 360 : apart) as Degrees;
};
