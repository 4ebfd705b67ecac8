import type { FeatureCollection, Geometry } from 'geojson';
import type { PartProperties } from './features';

/** So many words are always drawn: they find their room, or are left out, at once. */
const FEW = 400;

/** Room on the screen for one of very many, px². */
const ROOM = 2_500;

/** Width of the world at zoom 0, px. */
const WORLD = 512;

/** Web Mercator, 0 to 1, south growing (EPSG method 1024). */
const across = (lng: number) => (lng + 180) / 360;
const down = (lat: number) => {
  const sine = Math.sin((lat * Math.PI) / 180);
  return 0.5 - Math.log((1 + sine) / (1 - sine)) / (4 * Math.PI);
};

/** From the twentieth of values to the last but a twentieth: a few far off do not count. */
function spread(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  const at = (share: number) => sorted[Math.floor(share * (sorted.length - 1))] ?? 0;
  return at(0.95) - at(0.05);
}

/**
 * The zoom from which the words of a layer have room, where there are very many:
 * below it each would be tried on every side at every move of the map, and nearly
 * all left out. 0 for a few.
 */
export function roomFrom({ features }: FeatureCollection<Geometry, PartProperties>): number {
  const places = features.flatMap(({ geometry, properties }) =>
    properties.part === 'words' && geometry.type === 'Point' ? [geometry.coordinates] : [],
  );
  if (places.length <= FEW) return 0;
  const width = spread(places.map(([lng = 0]) => across(lng)));
  const height = spread(places.map(([, lat = 0]) => down(lat)));
  const needed = 0.81 * places.length * ROOM;
  const zoom = Math.log2(needed / (Math.max(width * height, 1e-12) * WORLD ** 2)) / 2;
  return Math.min(22, Math.max(0, zoom));
}
