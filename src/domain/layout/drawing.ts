import { selfCrossing } from '../geometry/crossing';
import { nearestOnPiece } from '../geometry/nearest';
import { cornersOf, piecesOf, type Shape, type XY } from '../geometry/shape';
import { readShape, writeShape } from '../geometry/wkt';
import { fail, ok, type Result } from '../result';
import type { Feature } from '../site/schema';

/** What a thing is drawn as. */
export type Form = 'point' | 'line' | 'area';

/** Forms each kind can have, the usual one first. */
export const FORMS: Readonly<Record<Feature['kind'], readonly Form[]>> = {
  boundary: ['area'],
  building: ['area'],
  utility: ['line', 'area'],
  exclusion: ['area'],
  'source area': ['area'],
  receptor: ['point', 'line', 'area'],
  'section line': ['line'],
  'surface water': ['area', 'line'],
  'no-flow line': ['line'],
};

/** Fewest corners a form needs. */
const FEWEST: Readonly<Record<Form, number>> = { point: 1, line: 2, area: 3 };

export type DraftProblem =
  | { readonly kind: 'too-few'; readonly have: number; readonly need: number }
  | { readonly kind: 'crosses-itself'; readonly at: XY }
  | { readonly kind: 'no-ground' }; // all corners in one line

/** Corners as a shape, each with the digits it has; a reason while they are none yet. */
export function shapeOf(form: Form, places: readonly XY[]): Result<Shape, DraftProblem> {
  if (places.length < FEWEST[form])
    return fail({ kind: 'too-few', have: places.length, need: FEWEST[form] });
  if (form === 'point') return ok({ kind: 'points', points: places.slice(0, 1) });
  if (form === 'line') return ok({ kind: 'lines', lines: [places] });
  const shape: Shape = { kind: 'areas', areas: [[places]] };
  const at = selfCrossing(shape);
  if (at) return fail({ kind: 'crosses-itself', at });
  const text = writeShape(shape);
  return text !== null && readShape(text).ok ? ok(shape) : fail({ kind: 'no-ground' });
}

/** To a hundredth of the grid's unit: finer than anything is staked. */
export const rounded = ([x, y]: XY): XY => [Math.round(x * 100) / 100, Math.round(y * 100) / 100];

/** Corners of a shape that can be changed corner by corner: one part without holes; else null. */
export function cornersToChange(
  shape: Shape,
): { readonly form: Form; readonly corners: readonly XY[] } | null {
  switch (shape.kind) {
    case 'points':
      return shape.points.length === 1 ? { form: 'point', corners: shape.points } : null;
    case 'lines': {
      const [line, ...more] = shape.lines;
      return line && more.length === 0 ? { form: 'line', corners: line } : null;
    }
    case 'areas': {
      const [area, ...more] = shape.areas;
      const [ring, ...holes] = area ?? [];
      return ring && more.length + holes.length === 0 ? { form: 'area', corners: ring } : null;
    }
  }
}

/** Where a place being drawn was drawn to. */
export type Snap = { readonly at: XY; readonly to: 'corner' | 'edge' };

/**
 * The corner within reach of a place that is nearest, else the nearest place on
 * an edge within reach; null where nothing drawn is within reach.
 *
 * @param reach  in the grid's unit
 */
export function snapOf(place: XY, shapes: readonly Shape[], reach: number): Snap | null {
  const nearest = (all: Iterable<{ readonly at: XY; readonly distance: number }>) => {
    let best: XY | null = null;
    let least = reach;
    for (const { at, distance } of all) if (distance <= least) [best, least] = [at, distance];
    return best;
  };
  const [x, y] = place;
  const corner = nearest(
    shapes.flatMap(cornersOf).map((at) => ({ at, distance: Math.hypot(at[0] - x, at[1] - y) })),
  );
  if (corner) return { at: corner, to: 'corner' };
  const edge = nearest(shapes.flatMap(piecesOf).map((piece) => nearestOnPiece(place, piece)));
  return edge && { at: edge, to: 'edge' };
}

export type TypedProblem = {
  /** 1 for the first line. */
  readonly line: number;
  readonly found: string;
};

/**
 * Places typed or pasted: an easting and a northing a line, parted by a comma,
 * a semicolon, a tab or blanks. Thousands are not grouped. Blank lines are passed over.
 */
export function readPlaces(text: string): Result<readonly XY[], TypedProblem> {
  const places: XY[] = [];
  for (const [i, line] of text.split('\n').entries()) {
    if (line.trim() === '') continue;
    const parts = line.trim().split(/\s*[,;\t]\s*|\s+/);
    const [east, north] = parts.map((part) => (NUMBER.test(part) ? Number(part) : NaN));
    if (parts.length !== 2 || !Number.isFinite(east) || !Number.isFinite(north))
      return fail({ line: i + 1, found: line.trim() });
    places.push([east ?? 0, north ?? 0]);
  }
  return ok(places);
}

const NUMBER = /^[-+−]?\d+(?:\.\d*)?$/;

/** Distances typed one after the other: "25, 50, 100". Null where one is none or not above 0. */
export function readDistances(text: string): readonly number[] | null {
  const parts = text.split(/[\s,;]+/).filter((part) => part !== '');
  const numbers = parts.map((part) => (NUMBER.test(part) ? Number(part) : NaN));
  return numbers.every((n) => n > 0) ? numbers : null;
}

/** A name for a new row that no other has: F-1, F-2 … */
export function freeId(prefix: string, used: Iterable<string>): string {
  const taken = new Set(used);
  let n = 1;
  while (taken.has(`${prefix}-${n}`)) n++;
  return `${prefix}-${n}`;
}
