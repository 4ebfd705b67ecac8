import type { EastNorth } from '../../domain/grid';
import type { GridOnEarth, LocalGrid, LocalPlacing, PlacedMark } from '../../domain/local-placing';
import { isLengthUnit } from '../../domain/units';

type Json = Readonly<Record<string, unknown>>;

const isRecord = (value: unknown): value is Json =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const isNumber = (value: unknown): value is number =>
  typeof value === 'number' && Number.isFinite(value);

const isPair = (value: unknown): value is EastNorth =>
  Array.isArray(value) && value.length === 2 && value.every(isNumber);

const isTextOrNull = (value: unknown): value is string | null =>
  value === null || typeof value === 'string';

function readOn(given: unknown): GridOnEarth | null {
  if (!isRecord(given) || typeof given.name !== 'string' || typeof given.unit !== 'string')
    return null;
  const [code, projection] = [given.code ?? null, given.projection ?? null];
  if (!isTextOrNull(code) || !isTextOrNull(projection) || !isLengthUnit(given.unit)) return null;
  return code === null && projection === null
    ? null
    : { name: given.name, code, projection, unit: given.unit };
}

function readMark(given: unknown): PlacedMark | null {
  if (!isRecord(given) || typeof given.name !== 'string') return null;
  return isPair(given.local) && isPair(given.grid)
    ? { name: given.name, local: given.local, grid: given.grid }
    : null;
}

function readPlacing(given: unknown): LocalPlacing | null {
  if (!isRecord(given)) return null;
  const { by, local, grid, rotation, scale, marks } = given;
  if (by === 'origin')
    return isPair(local) && isPair(grid) && isNumber(rotation) && isNumber(scale) && scale > 0
      ? { by, local, grid, rotation, scale }
      : null;
  if (by !== 'control' || !Array.isArray(marks)) return null;
  const read = marks.map(readMark);
  return read.every((mark) => mark !== null)
    ? { by, marks: read, scale: scale === 'held' ? 'held' : 'free' }
    : null;
}

/** How a local grid lies, out of a descriptor; null where it does not say so in full. */
export function readLocalGrid(given: unknown): LocalGrid | null {
  if (!isRecord(given)) return null;
  const [on, placing] = [readOn(given.on), readPlacing(given.placing)];
  return on && placing ? { on, placing } : null;
}
