import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { ringArea } from '../../../src/domain/geometry/measure';
import {
  clipToHull,
  convexHull,
  distanceToHull,
  isInside,
  type XY,
} from '../../../src/domain/water/surface/hull';
import { placesOf } from '../../../src/domain/water/surface/surface-point';
import { metres } from '../../../src/domain/units';
import { number, oracleRows, oracleText, point } from './oracle';

describe('points in one place', () => {
  test('three readings in one place: the weighted mean, and a smaller error than any of them', () => {
    const [place, ...others] = placesOf([
      point('A', 5, 5, 30.0, 0.01),
      point('B', 5.001, 5, 30.02, 0.02),
      point('C', 5, 5, 30.01, 0.02),
    ]);
    expect(others).toHaveLength(0);
    expect(place?.ids).toEqual(['A', 'B', 'C']);
    // Weights 4 : 1 : 1; σ = 1/√(10000 + 2500 + 2500).
    expect(place?.head).toBeCloseTo((4 * 30 + 30.02 + 30.01) / 6, 12);
    expect(place?.sigma).toBeCloseTo(0.00816496581, 10);
    expect(place?.agree).toBe(true);
  });

  test('heads half a metre apart in one place, known to a centimetre: merged, and marked', () => {
    const [place] = placesOf([point('A', 0, 0, 30, 0.01), point('B', 0, 0, 30.5, 0.01)]);
    expect(place).toMatchObject({ agree: false });
    expect(place?.apart).toBeCloseTo(0.5, 12);
  });

  test('a reading without a stated error is taken alone', () => {
    const [place] = placesOf([point('A', 0, 0, 30, 0), point('B', 0, 0, 30.5, 0.01)]);
    expect(place).toMatchObject({ head: 30, sigma: 0 });
  });

  test('ten centimetres apart are two places, unless somebody says otherwise', () => {
    const points = [point('A', 0, 0, 30, 0.01), point('B', 0.1, 0, 30.1, 0.01)];
    expect(placesOf(points)).toHaveLength(2);
    expect(placesOf(points, metres(0.2))).toHaveLength(1);
  });

  test('wells apart are left as they are, in the order given', () => {
    const wells = [point('B', 10, 0, 1, 0.1), point('A', 0, 0, 2, 0.2), point('C', 0, 9, 3)];
    expect(placesOf(wells)).toEqual(
      wells.map(({ id, ...rest }) => ({ ids: [id], ...rest, apart: 0, agree: true })),
    );
  });
});

describe('the outline of the wells', () => {
  const square: XY[] = [
    [0, 0],
    [10, 0],
    [10, 10],
    [0, 10],
    [5, 5],
    [5, 0],
  ];
  const hull = convexHull(square) ?? [];

  test('a square with a well in it and one on its side has four corners, counter-clockwise', () => {
    expect(hull).toEqual([
      [0, 0],
      [10, 0],
      [10, 10],
      [0, 10],
    ]);
    expect(ringArea(hull)).toBe(100);
  });

  test.each([
    [[5, 5], true, 5],
    [[10, 5], true, 0],
    [[10.001, 5], false, 0.001],
    [[13, 14], false, 5],
  ] as const)('%j is inside: %s, and %d from the outline', (place, inside, distance) => {
    expect(isInside(hull, place)).toBe(inside);
    expect(distanceToHull(hull, place)).toBeCloseTo(distance, 12);
  });

  test('wells in a line, or two of them, have none', () => {
    const line: XY[] = [
      [0, 0],
      [1, 1],
      [2, 2],
    ];
    expect(convexHull(line)).toBeNull();
    expect(convexHull(line.slice(1))).toBeNull();
  });

  test('a line that leaves and comes back is cut into its inside parts', () => {
    const line: XY[] = [
      [5, 5],
      [15, 5],
      [15, 8],
      [2, 8],
    ];
    expect(clipToHull(line, hull)).toEqual([
      [
        [5, 5],
        [10, 5],
      ],
      [
        [10, 8],
        [2, 8],
      ],
    ]);
    expect(
      clipToHull(
        [
          [-5, 5],
          [15, 5],
        ],
        hull,
      ),
    ).toEqual([
      [
        [0, 5],
        [10, 5],
      ],
    ]);
    expect(
      clipToHull(
        [
          [-5, 11],
          [15, 11],
        ],
        hull,
      ),
    ).toEqual([]);
  });

  // scipy 1.10 and exact rationals.
  test('has the area and the corners of the reference for five sets', () => {
    const { sets } = JSON.parse(oracleText('d_tin.json'));
    expect(sets).toHaveLength(5);
    for (const { vertices, area, hull_edges } of sets) {
      const outline = convexHull(vertices.map((p: { x: number; y: number }) => [p.x, p.y])) ?? [];
      expect(ringArea(outline) / area).toBeCloseTo(1, 12);
      const onIt = new Set(hull_edges.flat());
      for (const [i, { x, y }] of vertices.entries())
        expect(distanceToHull(outline, [x, y]) < 1e-9).toBe(onIt.has(i));
    }
  });

  test('holds every well, wherever they stand', () => {
    const coordinate = fc.integer({ min: 0, max: 2_000_000 });
    const somewhere = fc.tuple(coordinate, coordinate);
    fc.assert(
      fc.property(fc.array(somewhere, { minLength: 3, maxLength: 40 }), (points) => {
        const outline = convexHull(points);
        fc.pre(outline !== null);
        for (const p of points) expect(isInside(outline, p)).toBe(true);
      }),
    );
  });

  test('of the wells of a site in State Plane feet is found without loss', () => {
    const wells = oracleRows('c_siteA_heads.csv').map(
      (row) => [number(row, 'x'), number(row, 'y')] as const,
    );
    expect(convexHull(wells)).toHaveLength(8);
  });
});
