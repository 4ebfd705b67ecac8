import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Shape, XY } from '../../../src/domain/geometry/shape';
import { readShape, writeShape } from '../../../src/domain/geometry/wkt';

describe('what can be drawn', () => {
  // OGC 06-103r4, 2011, table 6, gives these forms; the coordinates are ours.
  test.each<[string, Shape]>([
    ['POINT (10 20)', { kind: 'points', points: [[10, 20]] }],
    [
      'MULTIPOINT ((10 40), (40 30))',
      {
        kind: 'points',
        points: [
          [10, 40],
          [40, 30],
        ],
      },
    ],
    [
      'LINESTRING (30 10, 10 30, 40 40)',
      {
        kind: 'lines',
        lines: [
          [
            [30, 10],
            [10, 30],
            [40, 40],
          ],
        ],
      },
    ],
    [
      'POLYGON ((35 10, 45 45, 15 40, 35 10), (20 30, 35 35, 30 20, 20 30))',
      {
        kind: 'areas',
        areas: [
          [
            [
              [35, 10],
              [45, 45],
              [15, 40],
            ],
            [
              [20, 30],
              [35, 35],
              [30, 20],
            ],
          ],
        ],
      },
    ],
    [
      'MULTILINESTRING ((10 10, 20 20), (40 40, 30 30))',
      {
        kind: 'lines',
        lines: [
          [
            [10, 10],
            [20, 20],
          ],
          [
            [40, 40],
            [30, 30],
          ],
        ],
      },
    ],
    [
      'MULTIPOLYGON (((30 20, 45 40, 10 40, 30 20)), ((15 5, 40 10, 10 20, 15 5)))',
      {
        kind: 'areas',
        areas: [
          [
            [
              [30, 20],
              [45, 40],
              [10, 40],
            ],
          ],
          [
            [
              [15, 5],
              [40, 10],
              [10, 20],
            ],
          ],
        ],
      },
    ],
  ])('%s is read, and written back the same', (text, shape) => {
    expect(readShape(text)).toEqual({ ok: true, value: shape });
    expect(writeShape(shape)).toBe(text);
  });

  test('spacing, case, signs and powers of ten do not matter', () => {
    expect(readShape('  linestring( -1.5e2 +.5 ,2. 3E-1)\n')).toEqual({
      ok: true,
      value: {
        kind: 'lines',
        lines: [
          [
            [-150, 0.5],
            [2, 0.3],
          ],
        ],
      },
    });
  });

  test('the older way of writing several points is read too', () => {
    expect(readShape('MULTIPOINT (1 2, 3 4)')).toEqual(readShape('MULTIPOINT ((1 2), (3 4))'));
  });

  test('nothing drawn has no text', () => {
    expect(writeShape({ kind: 'areas', areas: [] })).toBeNull();
  });
});

describe('what cannot be read says where and why', () => {
  test.each([
    ['', 'expected', 1, 'the end of the text'],
    ['CIRCLE (0 0)', 'expected', 1, 'CIRCLE'],
    ['SRID=2278;POINT (1 2)', 'expected', 1, 'SRID'],
    ['POINT (1)', 'expected', 9, ')'],
    ['POINT (1 2', 'expected', 11, 'the end of the text'],
    ['POINT (1 2))', 'expected', 12, ')'],
    ['POINT (1 2) POINT (3 4)', 'expected', 13, 'POINT'],
    ['POINT (1, 2)', 'expected', 9, ','],
    ['POINT (1 north)', 'expected', 10, 'north'],
    ['POINT (1 0x10)', 'expected', 10, '0'],
    ['POINT (1.2.3 4)', 'expected', 8, '1.2.3'],
    ['POINT EMPTY', 'expected', 7, 'EMPTY'],
    ['POINT Z (1 2 3)', 'not-flat', 7, 'Z'],
    ['POINT (1 2 3)', 'not-flat', 12, '3'],
    ['POINT (1e400 0)', 'too-far', 8, '1e400'],
    ['POINT (1e11 0)', 'too-far', 8, '1e11'],
    ['LINESTRING (1 2)', 'too-few', 12, '('],
    ['LINESTRING ()', 'expected', 13, ')'],
    ['POLYGON ((0 0, 1 0, 0 0))', 'too-few', 10, '('],
    ['POLYGON ((0 0, 9 0, 9 9, 0 9))', 'not-closed', 10, '('],
    ['POLYGON ((0 0, 9 9, 3 3, 0 0))', 'no-area', 10, '('],
    ['POLYGON ((5 5, 5 5, 5 5, 5 5))', 'no-area', 10, '('],
    ['POLYGON ((0 0, 9 0, 9 9, 0 0), (1 1, 2 2))', 'too-few', 32, '('],
    ['POLYGON (0 0, 9 0, 9 9, 0 0)', 'expected', 10, '0'],
  ])('%s', (text, kind, at, found) => {
    const read = readShape(text);
    expect(read.ok ? null : read.problem).toMatchObject({ kind, at });
    expect(read.ok ? '' : read.problem.found).toContain(found.slice(0, 1));
    expect(read.ok ? '' : read.problem.expected).not.toBe('');
  });

  test('what stood there is quoted, at most thirty characters of it', () => {
    const read = readShape(`POINT (1 ${'x'.repeat(5000)})`);
    expect(read.ok ? '' : read.problem.found).toHaveLength(30);
  });
});

describe('a text made to harm', () => {
  test.each([
    ['brackets without end', `POLYGON ${'('.repeat(1_000_000)}`],
    ['a number of a million digits', `POINT (1 ${'1'.repeat(1_000_000)}a)`],
    ['a million digits with points', `POINT (1 ${'1.'.repeat(500_000)})`],
    ['a million blanks', `POINT (1 2)${' '.repeat(1_000_000)}x`],
    ['eleven million characters', `POINT (1 2)${' '.repeat(11_000_000)}`],
    ['a name of a prototype', 'constructor (1 2)'],
  ])('%s is refused at once', (_, text) => {
    expect(readShape(text).ok).toBe(false);
  });

  test('any text at all gives a shape or a problem within it, and nothing is thrown', () => {
    const scraps = fc.constantFrom(
      'POINT',
      'MULTI',
      'POLYGON',
      '(',
      ')',
      ',',
      ' ',
      '1',
      '-2.5',
      'é',
    );
    const text = fc.oneof(
      fc.string(),
      fc.array(scraps, { maxLength: 40 }).map((parts) => parts.join('')),
    );
    fc.assert(
      fc.property(text, (written) => {
        const read = readShape(written);
        if (!read.ok) {
          expect(read.problem.at).toBeGreaterThanOrEqual(1);
          expect(read.problem.at).toBeLessThanOrEqual(written.length + 1);
        }
      }),
    );
  });
});

test('any line or points, written and read, come back to the last digit', () => {
  const coordinate = fc.double({ min: -1e7, max: 1e7, noNaN: true }).map((n) => n + 0);
  const place: fc.Arbitrary<XY> = fc.tuple(coordinate, coordinate);
  const line = fc.array(place, { minLength: 2, maxLength: 9 });
  const shape: fc.Arbitrary<Shape> = fc.oneof(
    fc.record({
      kind: fc.constant('points' as const),
      points: fc.array(place, { minLength: 1, maxLength: 5 }),
    }),
    fc.record({
      kind: fc.constant('lines' as const),
      lines: fc.array(line, { minLength: 1, maxLength: 4 }),
    }),
  );
  fc.assert(
    fc.property(shape, (drawn) => {
      expect(readShape(writeShape(drawn) ?? '')).toEqual({ ok: true, value: drawn });
    }),
  );
});
