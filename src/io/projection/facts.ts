import { combinedFactor, type GridFacts, type LngLat } from '../../domain/grid';
import { degrees, type LengthUnit, type Metres } from '../../domain/units';
import { distortionAt } from './distortion';
import type { Plane } from './plane';
import { isInside, type Box } from './systems';

/** What a grid is called, its unit, and the box of the area it is meant for, where one is stated. */
export type Named = { readonly name: string; readonly unit: LengthUnit; readonly area: Box | null };

/** Scale that differs by direction by more than this is not conformal, whatever the method's name. */
const SAME_SCALE = 1e-6;

/**
 * Facts of a grid at one place of it.
 *
 * @param place longitude and latitude on the grid's own datum; null: beyond the projection's reach
 */
export function factsAt(
  own: Plane,
  conformalMethod: boolean,
  { name, unit, area }: Named,
  place: LngLat | null,
  elevation: Metres,
): GridFacts {
  const bent = place && distortionAt(own, ...place);
  if (!place || !bent)
    return {
      name,
      unit,
      conformal: conformalMethod,
      convergence: null,
      pointScale: null,
      combinedFactor: null,
      elevation,
      caution: `The site’s centre lies where ${name} gives no position. Check the coordinates, their unit and the grid.`,
    };

  const { greatest, least } = bent;
  const conformal = conformalMethod && greatest - least < SAME_SCALE * greatest;
  const pointScale = conformal ? (greatest + least) / 2 : null;
  const cautions = [
    conformal ? null : bentCaution(name, greatest, least),
    own.es === 0
      ? `${name} is on a sphere, not an ellipsoid: distances may be wrong by 0.3 %.`
      : null,
    area && !isInside(area, ...place)
      ? `The site’s centre lies ${outside(area, place)} outside the area ${name} is meant for. Check the coordinates, their unit and the grid.`
      : null,
    pointScale !== null && Math.abs(pointScale - 1) > 0.01
      ? `At the site ${name} stretches distances by ${percent(pointScale - 1)} %: it is not meant for this place.`
      : null,
  ].filter((caution) => caution !== null);
  return {
    name,
    unit,
    conformal,
    convergence: degrees(bent.convergence),
    pointScale,
    combinedFactor: pointScale === null ? null : combinedFactor(pointScale, elevation),
    elevation,
    caution: cautions.length > 0 ? cautions.join(' ') : null,
  };
}

const percent = (share: number) =>
  `${share < 0 ? '−' : '+'}${Math.abs(100 * share).toFixed(Math.abs(share) < 0.001 ? 3 : 2)}`;

/** The greatest angle bent is twice the arcsine of (a − b)/(a + b) (Snyder 1987, eq. 4-1). */
const bentCaution = (name: string, greatest: number, least: number) => {
  const angle = (2 * Math.asin((greatest - least) / (greatest + least)) * 180) / Math.PI;
  return `${name} is not conformal: at the site its distances are off by ${percent(least - 1)} to ${percent(greatest - 1)} % depending on direction, and angles by up to ${angle.toFixed(2)}°. Gradients and directions carry that error.`;
};

function outside({ west, south, east, north }: Box, [longitude, latitude]: LngLat): string {
  const off = (a: number, b: number) => Math.abs(((a - b + 540) % 360) - 180);
  const inLongitude = isInside({ west, east, south: -90, north: 90 }, longitude, 0);
  const dx = inLongitude ? 0 : Math.min(off(longitude, west), off(longitude, east));
  const dy = latitude < south ? south - latitude : latitude > north ? latitude - north : 0;
  const km = 111.2 * Math.hypot(dx * Math.cos((latitude * Math.PI) / 180), dy);
  return km < 10 ? `${km.toFixed(1)} km` : `${Math.round(km).toLocaleString('en-US')} km`;
}
