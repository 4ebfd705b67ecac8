import type { Line, Shape, XY } from '../../domain/geometry/shape';
import { fail, ok, type Result } from '../../domain/result';
import type { Files } from '../package/files';
import { openBoundedZip } from './bounded-zip';
import type { Coordinates } from '../import/source-table';
import { readDbf } from './dbf';
import { nothing, ringOf, wrongWith, type Drawing, type Drawn } from './drawn';
import { readPrj } from './prj';
import { areasOf } from './rings';

/** A shapefile opens out to a few times its size; more is no drawing of a site. */
const LIMITS = { bytes: 256 * 2 ** 20, files: 2_000 };
const MOST_SHAPES = 1_000_000;

/**
 * The layers of a zipped shapefile (Shapefile Technical Description, ESRI white
 * paper, July 1998). Lengths and counts in it are believed only as far as the
 * bytes go: a record that says otherwise is refused, and so is what follows one
 * whose length can't be.
 */
export function readShapefiles(
  name: string,
  bytes: Uint8Array,
): Result<readonly Drawing[], string> {
  const opened = openBoundedZip(bytes, LIMITS);
  if (!opened.ok) return fail(`${name} is not opened: ${opened.problem}.`);
  const files = opened.value;
  const layers = [...files.keys()].filter(
    (path) => /\.shp$/i.test(path) && !path.startsWith('__MACOSX/'),
  );
  if (layers.length === 0) return fail(`${name} holds no shapefile: no .shp is in it.`);
  const drawings: Drawing[] = [];
  for (const path of layers) {
    const layer = readLayer(path, files);
    if (!layer.ok) return layer;
    drawings.push(layer.value);
  }
  return ok(drawings);
}

function beside(files: Files, path: string, ending: string): Uint8Array | null {
  const wanted = `${path.slice(0, -3)}${ending}`.toLowerCase();
  for (const [each, bytes] of files) if (each.toLowerCase() === wanted) return bytes;
  return null;
}

const textOf = (bytes: Uint8Array | null) =>
  bytes === null ? null : new TextDecoder().decode(bytes.subarray(0, 20_000));

function readLayer(path: string, files: Files): Result<Drawing, string> {
  const name = path.slice(path.lastIndexOf('/') + 1);
  const bytes = files.get(path) ?? new Uint8Array();
  const records = recordsOf(name, bytes);
  if (!records.ok) return records;
  const { shapes, cutShort } = records.value;
  const dbf = beside(files, path, 'dbf');
  const { names, rows } = dbf
    ? readDbf(dbf, textOf(beside(files, path, 'cpg')), shapes.length + 1)
    : { names: [], rows: [] };
  const prj = textOf(beside(files, path, 'prj'));
  const system = prj === null ? null : readPrj(prj);
  const said: string[] = [];
  if (!system) said.push('It has no .prj: its coordinates are taken for the site’s grid.');
  else if (!system.ok)
    said.push(`${system.problem} Until then they are taken for the site’s grid.`);
  if (cutShort) said.push('The file breaks off: what follows its last sound record is lost.');
  if (dbf && rows.length !== shapes.length)
    said.push(`It has ${shapes.length} shapes and ${rows.length} rows of attributes; those beyond either are left without the other.`); // prettier-ignore

  const nameAt = names.findIndex((each) =>
    /^(?:name|label|id|well|point|location|title)/i.test(each),
  );
  const things = shapes.map((shape, i): Drawn => {
    const cells = rows[i] ?? [];
    const properties = new Map(names.map((each, at) => [each, cells[at] ?? '']));
    const title = nameAt < 0 ? '' : (cells[nameAt] ?? '');
    const wrong = typeof shape === 'string' ? shape : wrongWith(shape);
    if (typeof shape === 'string' || wrong !== null)
      return { ...nothing(wrong ?? '', title), properties };
    return { name: title, shape, wrong: null, elevation: '', properties };
  });
  const coordinates: Coordinates | null = system?.ok ? system.value : null;
  return ok({ name, things, coordinates, said });
}

type Records = {
  /** In the order of the file; a text where one is none, what was expected. */
  readonly shapes: readonly (Shape | string)[];
  readonly cutShort: boolean;
};

const HEADER = 100;
const FILE_CODE = 9994;

function recordsOf(name: string, bytes: Uint8Array): Result<Records, string> {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (bytes.length < HEADER || view.getInt32(0) !== FILE_CODE)
    return fail(`${name} is no shapefile: its header is not one.`);
  const shapes: (Shape | string)[] = [];
  let at = HEADER;
  while (at + 12 <= bytes.length && shapes.length < MOST_SHAPES) {
    const length = view.getInt32(at + 4) * 2; // in 16-bit words
    const end = at + 8 + length;
    if (length < 4 || end > bytes.length) return ok({ shapes, cutShort: true });
    shapes.push(shapeIn(new DataView(bytes.buffer, bytes.byteOffset + at + 8, length)));
    at = end;
  }
  return ok({ shapes, cutShort: at < bytes.length });
}

const NO_PLACE = 'a shape: the record is empty';
const LIES = 'as many points as the record has room for';

/** Types with heights or measures have them after the plan, which is all that is read. */
const PLAN: Readonly<Record<number, 'point' | 'line' | 'polygon' | 'multipoint'>> = {
  1: 'point',
  11: 'point',
  21: 'point',
  3: 'line',
  13: 'line',
  23: 'line',
  5: 'polygon',
  15: 'polygon',
  25: 'polygon',
  8: 'multipoint',
  18: 'multipoint',
  28: 'multipoint',
};

function shapeIn(record: DataView): Shape | string {
  const type = record.getInt32(0, true);
  if (type === 0) return NO_PLACE;
  const kind = PLAN[type];
  if (kind === undefined) return `a shape of a known type, not ${type}`;
  if (kind === 'point') {
    const places = placesIn(record, 4, 1);
    return places ? { kind: 'points', points: places } : LIES;
  }
  if (kind === 'multipoint') {
    const count = record.byteLength < 40 ? -1 : record.getInt32(36, true);
    const places = placesIn(record, 40, count);
    return places ? { kind: 'points', points: places } : LIES;
  }
  const parts = partsIn(record);
  if (!parts) return LIES;
  return kind === 'line'
    ? { kind: 'lines', lines: parts }
    : { kind: 'areas', areas: areasOf(parts.map(ringOf)) };
}

/** Places from an offset on; null where there is no room for so many, or one is no number. */
function placesIn(record: DataView, from: number, count: number): XY[] | null {
  if (count < 0 || from + count * 16 > record.byteLength) return null;
  const places: XY[] = [];
  for (let i = 0; i < count; i++) {
    const x = record.getFloat64(from + i * 16, true);
    const y = record.getFloat64(from + i * 16 + 8, true);
    if (!Number.isFinite(x) || !Number.isFinite(y)) return null;
    places.push([x, y]);
  }
  return places;
}

/** The parts of a line or polygon, each from its first point to that of the next. */
function partsIn(record: DataView): Line[] | null {
  if (record.byteLength < 44) return null;
  const parts = record.getInt32(36, true);
  const points = record.getInt32(40, true);
  if (parts < 1 || points < 0 || 44 + parts * 4 > record.byteLength) return null;
  const places = placesIn(record, 44 + parts * 4, points);
  if (!places) return null;
  const starts = Array.from({ length: parts }, (_, i) => record.getInt32(44 + i * 4, true));
  const inOrder = starts.every((start, i) => start >= (starts[i - 1] ?? 0) && start <= points);
  return starts[0] === 0 && inOrder
    ? starts.map((start, i) => places.slice(start, starts[i + 1] ?? points))
    : null;
}
