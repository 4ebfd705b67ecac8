import proj4 from 'proj4';
import type { Definition } from './definition';

/** A projection on its own ellipsoid: degrees from Greenwich to metres of the grid, and back. */
export type Plane = {
  readonly a: number;
  readonly es: number;
  /** Easting and northing, metres; null where the projection does not reach. */
  readonly forward: (longitude: number, latitude: number) => readonly [number, number] | null;
  /** Longitude and latitude, degrees; null where the projection does not reach. */
  readonly inverse: (east: number, north: number) => readonly [number, number] | null;
};

/** A position that comes back farther than this from where it went in was beyond the projection's reach. */
const CLOSURE = 0.01; // metres

const both = (pair: readonly (number | undefined)[]): readonly [number, number] | null => {
  const [x, y] = pair;
  return x !== undefined && y !== undefined && Number.isFinite(x) && Number.isFinite(y)
    ? [x, y]
    : null;
};

const figureText = ({ figure }: Definition) =>
  figure.inverseFlattening === null
    ? `+a=${figure.a} +b=${figure.a}`
    : `+a=${figure.a} +rf=${figure.inverseFlattening}`;

const WGS84 = '+proj=longlat +a=6378137 +rf=298.257223563';

const textOf = (definition: Definition, extra: string) => {
  const parameters = [...definition.projection].map(([name, value]) =>
    value === '' ? `+${name}` : `+${name}=${value}`,
  );
  return `${parameters.join(' ')} ${figureText(definition)} ${extra}`;
};

/**
 * Opens a projection in metres.
 *
 * @param towgs84 null: longitudes and latitudes are on the grid's own datum;
 *   else they are in WGS 84 and moved by these numbers
 * @returns null when proj4 refuses the parameters
 */
export function openPlane(definition: Definition, towgs84: readonly number[] | null): Plane | null {
  const shift = towgs84 === null ? '' : ` +towgs84=${towgs84.join()}`;
  const geographic =
    towgs84 === null ? `+proj=longlat ${figureText(definition)}` : `${WGS84} +towgs84=0,0,0`;
  let converter: proj4.Converter;
  try {
    converter = proj4(geographic, textOf(definition, `+units=m${shift}`));
  } catch {
    return null; // proj4 throws on parameters that can't be
  }

  const forward = (longitude: number, latitude: number) => {
    if (!Number.isFinite(longitude) || !(Math.abs(latitude) <= 90)) return null;
    try {
      return both(converter.forward([longitude, latitude]));
    } catch {
      return null; // and on places it can't reach
    }
  };
  const inverse = (east: number, north: number) => {
    if (!Number.isFinite(east) || !Number.isFinite(north)) return null;
    try {
      const place = both(converter.inverse([east, north]));
      const again = place && forward(...place);
      return again && Math.hypot(again[0] - east, again[1] - north) < CLOSURE ? place : null;
    } catch {
      return null;
    }
  };
  return { a: definition.figure.a, es: definition.figure.es, forward, inverse };
}
