import { fail, ok, type Result } from '../../domain/result';
import { Decoder, guessEncoding } from '../import/encoding';
import type { SourceTable } from '../import/source-table';
import { openBoundedZip } from './bounded-zip';
import { tablesOf, type Drawing } from './drawn';
import { readGeoJson } from './geojson-in';
import { readGpx } from './gpx-in';
import { readKml } from './kml-in';
import { readShapefiles } from './shapefile-in';

export type DrawingKind = 'geojson' | 'kml' | 'kmz' | 'gpx' | 'shapefile';

const KMZ = {
  bytes: 128 * 2 ** 20,
  files: 500,
  wanted: (path: string) => /\.kml$/i.test(path),
};

function textOf(bytes: Uint8Array): string {
  const encoding = guessEncoding(bytes, true);
  return new Decoder(encoding).text(bytes, true) ?? '';
}

function drawingsIn(
  name: string,
  bytes: Uint8Array,
  kind: DrawingKind,
): Result<readonly Drawing[], string> {
  const one = (drawing: Result<Drawing, string>): Result<readonly Drawing[], string> =>
    drawing.ok ? ok([drawing.value]) : drawing;
  switch (kind) {
    case 'geojson':
      return one(readGeoJson(name, textOf(bytes)));
    case 'kml':
      return one(readKml(name, textOf(bytes)));
    case 'gpx':
      return one(readGpx(name, textOf(bytes)));
    case 'shapefile':
      return readShapefiles(name, bytes);
    case 'kmz': {
      const files = openBoundedZip(bytes, KMZ);
      if (!files.ok) return fail(`${name} is not opened: ${files.problem}.`);
      const [document] = files.value.values();
      return document
        ? one(readKml(name, textOf(document)))
        : fail(`${name} holds no KML document.`);
    }
  }
}

/**
 * A drawing as tables, its points apart from its lines and areas, to be matched
 * and taken in like any other table.
 */
export function openDrawing(
  name: string,
  bytes: Uint8Array,
  kind: DrawingKind,
): Result<readonly SourceTable[], string> {
  const drawings = drawingsIn(name, bytes, kind);
  if (!drawings.ok) return drawings;
  const tables = drawings.value.flatMap(tablesOf);
  return tables.length > 0 ? ok(tables) : fail(`${name} has nothing drawn in it.`);
}
