import { shapeArea, shapeLength } from '../geometry/measure';
import { readShape } from '../geometry/wkt';
import type { Feature } from '../site/schema';
import type { LengthUnit } from '../units';
import { areaWords, inGrid } from './layout-words';

/** How long or how large a drawn thing is, in the grid's unit: "1,045.1 ft long". */
export function drawnSize({ shape }: Pick<Feature, 'shape'>, unit: LengthUnit): string {
  const read = readShape(shape);
  if (!read.ok) return 'cannot be read';
  switch (read.value.kind) {
    case 'points':
      return read.value.points.length === 1 ? 'a point' : `${read.value.points.length} points`;
    case 'lines':
      return `${inGrid(shapeLength(read.value), unit)} long`;
    case 'areas':
      return areaWords(shapeArea(read.value), unit);
  }
}
