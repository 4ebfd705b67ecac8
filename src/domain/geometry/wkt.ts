import { fail, ok, type Result } from '../result';
import type { Area, Line, Ring, Shape, XY } from './shape';
import { side } from './side';

/**
 * Shapes as well-known text (OGC 06-103r4, Simple feature access, 2011, clause
 * 7): POINT, LINESTRING, POLYGON and their MULTI forms, flat, in the grid's unit
 * as written.
 */

/** What was wrong, where in the text, and what should have stood there. */
export type WktProblem = {
  readonly kind:
    | 'expected' // something else should stand here
    | 'not-flat' // heights or measures with the coordinates
    | 'too-far' // a number no grid reaches
    | 'too-few' // a line or ring with too few places
    | 'not-closed' // a ring whose last place is not its first
    | 'no-area' // a ring that goes out and back along one line
    | 'too-long'; // more text than any drawing of a site
  /** 1 for the first character. */
  readonly at: number;
  readonly expected: string;
  readonly found: string;
};

/** About 400,000 corners; no drawing of a site comes near. */
const LONGEST_TEXT = 10_000_000;

/** Farther from its origin than any grid goes, in any unit. */
const FARTHEST = 1e10;

/** A word, a number that ends where it seems to, or a sign. Linear in time on any text. */
const TOKEN = /\s*([A-Za-z]+|[-+]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][-+]?\d+)?(?![\w.+-])|[(),])/y;

const NAMES = 'POINT, LINESTRING, POLYGON, MULTIPOINT, MULTILINESTRING or MULTIPOLYGON';

/** The shape a text describes, or the first thing wrong with it. */
export function readShape(text: string): Result<Shape, WktProblem> {
  if (text.length > LONGEST_TEXT)
    return fail({
      kind: 'too-long',
      at: LONGEST_TEXT + 1,
      expected: `at most ${LONGEST_TEXT} characters`,
      found: `${text.length} characters`,
    });
  const reader = new Reader(text);
  const shape = readNamed(reader);
  if (shape && reader.place <= text.length) reader.refuse('the end of the text');
  return shape && !reader.problem ? ok(shape) : fail(reader.problem ?? reader.refuse(NAMES));
}

/** Reads tokens in order. After the first problem nothing more is read. */
class Reader {
  problem: WktProblem | null = null;
  private reached = 0;

  constructor(private readonly text: string) {}

  /** The next token, not yet taken; blank at the end and where no token stands. */
  peek(): string {
    TOKEN.lastIndex = this.reached;
    return this.problem ? '' : (TOKEN.exec(this.text)?.[1] ?? '');
  }

  next(): string {
    const token = this.peek();
    if (token) this.reached = TOKEN.lastIndex;
    return token;
  }

  /** Where the next token starts. */
  get place(): number {
    return this.reached + (/\S|$/.exec(this.text.slice(this.reached))?.index ?? 0) + 1;
  }

  refuse(expected: string, kind: WktProblem['kind'] = 'expected', at = this.place): WktProblem {
    const found = /^(?:[A-Za-z]+|[-+.\dEe]+|\S)/.exec(this.text.slice(at - 1, at + 29));
    this.problem ??= { kind, at, expected, found: found?.[0] ?? 'the end of the text' };
    return this.problem;
  }

  take(token: string): boolean {
    if (this.peek() === token) return this.next() !== '';
    this.refuse(`“${token}”`);
    return false;
  }

  /** Things between brackets, with commas between; null when something was wrong. */
  list<T>(read: () => T | null): T[] | null {
    if (!this.take('(')) return null;
    const things: T[] = [];
    do {
      const thing = read();
      if (thing === null) return null;
      things.push(thing);
    } while (this.peek() === ',' && this.next());
    if (this.peek() === ')') {
      this.next();
      return things;
    }
    this.refuse('“,” or “)”');
    return null;
  }
}

function readNamed(reader: Reader): Shape | null {
  const at = reader.place;
  const name = reader.next().toUpperCase();
  const many = name.startsWith('MULTI');
  const base = many ? name.slice(5) : name;
  if (base !== 'POINT' && base !== 'LINESTRING' && base !== 'POLYGON') {
    reader.refuse(NAMES, 'expected', at);
    return null;
  }
  if (/^(?:Z|M|ZM)$/i.test(reader.peek())) {
    reader.refuse('east and north alone', 'not-flat');
    return null;
  }
  const one = <T>(read: () => T | null): T[] | null => {
    const thing = read();
    return thing === null ? null : [thing];
  };
  const oneOrMany = <T>(read: () => T | null) => (many ? reader.list(read) : one(read));
  switch (base) {
    case 'POINT': {
      const points = oneOrMany(() => readPoint(reader, many));
      return points && { kind: 'points', points };
    }
    case 'LINESTRING': {
      const lines = oneOrMany(() => readLine(reader));
      return lines && { kind: 'lines', lines };
    }
    case 'POLYGON': {
      const areas = oneOrMany((): Area | null => reader.list(() => readRing(reader)));
      return areas && { kind: 'areas', areas };
    }
  }
}

/** Both MULTIPOINT ((1 2), (3 4)) and the older MULTIPOINT (1 2, 3 4) are written. */
function readPoint(reader: Reader, bracketsOptional: boolean): XY | null {
  if (bracketsOptional && reader.peek() !== '(') return readPlace(reader);
  if (!reader.take('(')) return null;
  const place = readPlace(reader);
  return place && reader.take(')') ? place : null;
}

function readPlace(reader: Reader): XY | null {
  const x = readNumber(reader);
  const y = x === null ? null : readNumber(reader);
  if (x === null || y === null) return null;
  if (/^[-+.\d]/.test(reader.peek())) {
    reader.refuse('two numbers to a place: east and north alone', 'not-flat');
    return null;
  }
  return [x, y];
}

function readNumber(reader: Reader): number | null {
  if (!/^[-+.\d]/.test(reader.peek())) {
    reader.refuse('a number');
    return null;
  }
  const at = reader.place;
  const value = Number(reader.next());
  if (Math.abs(value) <= FARTHEST) return value;
  reader.refuse('a coordinate of a grid', 'too-far', at);
  return null;
}

function readLine(reader: Reader): Line | null {
  const at = reader.place;
  const line = reader.list(() => readPlace(reader));
  if (line && line.length < 2) reader.refuse('two places or more in a line', 'too-few', at);
  return reader.problem ? null : line;
}

function readRing(reader: Reader): Ring | null {
  const at = reader.place;
  const places = reader.list(() => readPlace(reader));
  const [first, last] = [places?.[0], places?.at(-1)];
  if (!places || !first || !last) return null;
  if (places.length < 4) reader.refuse('three corners or more, and the first again', 'too-few', at);
  else if (first[0] !== last[0] || first[1] !== last[1])
    reader.refuse(`the first corner, ${first.join(' ')}, again at the end`, 'not-closed', at);
  else if (isFlat(places)) reader.refuse('a ring around some ground', 'no-area', at);
  return reader.problem ? null : places.slice(0, -1);
}

/** Whether all places lie in one line, exactly. */
function isFlat(places: readonly XY[]): boolean {
  const [first] = places;
  const other = places.find(([x, y]) => x !== first?.[0] || y !== first?.[1]);
  return !first || !other || places.every((place) => side(first, other, place) === 0);
}

/**
 * A shape as well-known text, every coordinate with as many digits as it takes
 * to read the same number back. Rings are closed. Null when nothing is drawn.
 */
export function writeShape(shape: Shape): string | null {
  const list = (texts: readonly string[]) => `(${texts.join(', ')})`;
  const places = (line: readonly XY[]) => list(line.map(([x, y]) => `${x} ${y}`));
  const ring = (corners: Ring) => places([...corners, ...corners.slice(0, 1)]);
  const named = (name: string, bodies: readonly string[]): string | null => {
    const [only] = bodies;
    if (only === undefined) return null;
    return bodies.length === 1 ? `${name} ${only}` : `MULTI${name} ${list(bodies)}`;
  };
  switch (shape.kind) {
    case 'points':
      return named(
        'POINT',
        shape.points.map((point) => places([point])),
      );
    case 'lines':
      return named('LINESTRING', shape.lines.map(places));
    case 'areas':
      return named(
        'POLYGON',
        shape.areas.map((area) => list(area.map(ring))),
      );
  }
}
