import { describe, expect, test } from 'vitest';
import { triangleReview } from '../../../src/domain/water/triangle-review';
import { triangleAt, trianglesOf } from '../../../src/domain/water/triangles';
import { SIX_IN_FEET, well } from './wells';

const reviewed = (...wells: Parameters<typeof trianglesOf>[0]) =>
  triangleReview(trianglesOf(wells));

describe('relative head error, against the published bound of 0.05', () => {
  // Equal errors σ: root mean square σ over the drop.
  const dropping = (drop: number, sigma = 0.01) =>
    reviewed(
      well('1', 0, 0, 10, sigma),
      well('2', 100, 0, 10 - drop / 2, sigma),
      well('3', 50, 90, 10 - drop, sigma),
    );

  test('an error of 0.01 on a drop of 0.21 is under it, on 0.19 over it', () => {
    expect(dropping(0.21).overHeadError).toBe(0);
    expect(dropping(0.19).overHeadError).toBe(1);
  });

  test('of unequal errors the root mean square counts: 0.01, 0.02 and 0.03 are as 0.0216', () => {
    const at = (drop: number) =>
      reviewed(
        well('1', 0, 0, 10, 0.01),
        well('2', 100, 0, 10 - drop, 0.02),
        well('3', 50, 90, 10 - drop / 2, 0.03),
      ).overHeadError;
    // √((1 + 4 + 9)/3) / 100 = 0.021602; over 0.05 it is 0.43205.
    expect(at(0.433)).toBe(0);
    expect(at(0.431)).toBe(1);
  });

  test('three in a line and three at one level have no direction and are counted apart', () => {
    const line = reviewed(well('1', 0, 0, 9), well('2', 10, 10, 8), well('3', 30, 30, 7));
    expect(line).toMatchObject({ count: 1, none: 1, overHeadError: 0, kept: [], failing: [] });
    expect(line.listed[0]).toMatchObject({ none: 'in-a-line', baseToHeight: null, gradient: null });
    const level = reviewed(well('1', 0, 0, 9), well('2', 100, 0, 9), well('3', 50, 90, 9));
    expect(level).toMatchObject({ count: 1, none: 1, overHeadError: 0, spread: null });
    expect(level.listed[0]).toMatchObject({
      none: 'level',
      azimuth: null,
      gradient: 0,
      relativeHeadError: null,
    });
  });

  test('six wells of 0.01 ft (basis, case 3.1): the drops under 0.2 ft are over the bound', () => {
    const triangles = trianglesOf(SIX_IN_FEET);
    const byHand = Array.from({ length: triangles.count }, (_, k) => triangleAt(triangles, k)!);
    const over = byHand.filter(({ drop }) => drop / 0.3048 <= 0.01 / 0.05);
    expect(triangleReview(triangles).overHeadError).toBe(over.length);
  });
});

describe('which triangles are listed', () => {
  const triangles = trianglesOf([...SIX_IN_FEET, well('P7', 366, 1537, 28.1, 0.003)]);
  const all = Array.from({ length: triangles.count }, (_, k) => triangleAt(triangles, k)!);
  const worst = all.toSorted((a, b) => (b.baseToHeight ?? Infinity) - (a.baseToHeight ?? Infinity));

  test.each([0, 1, 7, 35, 40])('the %d worst shaped, the worst first', (most) => {
    expect(triangleReview(triangles, most).listed.map(({ ids }) => ids.join(' '))).toEqual(
      worst.slice(0, most).map(({ ids }) => ids.join(' ')),
    );
  });

  test('those in a line come first, in the order of the wells', () => {
    const row = trianglesOf([
      well('1', 0, 0, 9),
      well('2', 10, 0, 8),
      well('3', 20, 0, 7),
      well('4', 30, 0, 6),
      well('5', 15, 40, 6),
    ]);
    const { listed, none } = triangleReview(row, 5);
    expect(none).toBe(4);
    expect(listed.slice(0, 4).map(({ ids }) => ids.join(''))).toEqual(['123', '124', '134', '234']);
  });
});

describe('the narrowest sector that holds the directions', () => {
  const toward = (...azimuths: number[]) => {
    // One well-shaped triangle for each direction, each too far from the rest to matter.
    const azimuth = Float64Array.from(azimuths);
    const alike = (value: number) => new Float64Array(azimuths.length).fill(value);
    const corner = (at: number) => new Uint16Array(azimuths.length).fill(at);
    return triangleReview({
      wells: [well('1', 0, 0, 9), well('2', 100, 0, 8), well('3', 50, 90, 7)],
      count: azimuths.length,
      first: corner(0),
      second: corner(1),
      third: corner(2),
      gradient: alike(0.01),
      azimuth,
      baseToHeight: alike(1.2),
      drop: alike(2),
    }).spread;
  };

  test('two directions 20° apart across north span 20°, not 340°', () => {
    expect(toward(350, 10)).toBeCloseTo(20, 12);
    expect(toward(10, 350)).toBeCloseTo(20, 12);
  });

  test('three a third of a turn apart span 240°; one alone spans nothing that can be said', () => {
    expect(toward(0, 120, 240)).toBeCloseTo(240, 12);
    expect(toward(75)).toBeNull();
    expect(toward()).toBeNull();
  });
});

test('a base exactly five times the height is kept', () => {
  const exact = reviewed(well('1', 0, 0, 3), well('2', 128, 0, 2), well('3', 64, 25.6, 1));
  expect(exact.listed[0]?.baseToHeight).toBe(5);
  expect(exact.kept).toHaveLength(1);
});

test('two wells make no triangle, none makes none', () => {
  expect(reviewed(well('1', 0, 0, 3), well('2', 1, 0, 2))).toMatchObject({ count: 0, listed: [] });
  expect(reviewed()).toMatchObject({ count: 0, listed: [], spread: null });
  expect(triangleAt(trianglesOf(SIX_IN_FEET), 20)).toBeNull();
});

describe('a right triangle of 30, 40 and 50 m', () => {
  const corners = [well('1', 0, 0, 9), well('2', 40, 0, 9), well('3', 0, 30, 8)];

  test('has its smallest angle of 36.87° whichever corner is named first', () => {
    for (const [i, j, k] of [
      [0, 1, 2],
      [1, 2, 0],
      [2, 0, 1],
      [2, 1, 0],
    ] as const) {
      // prettier-ignore
      const triangle = triangleAt(trianglesOf([corners[i], corners[j], corners[k]].map((one) => one!)), 0)!;
      expect(triangle.smallestAngle).toBeCloseTo((Math.atan(30 / 40) * 180) / Math.PI, 9);
      expect(triangle.baseToHeight).toBeCloseTo(50 / 24, 9); // 1200 m² over 50 m
    }
  });

  test('and falling due north has the direction 0, in the column as in the triangle', () => {
    const triangles = trianglesOf(corners);
    expect(triangles.azimuth[0]).toBeCloseTo(0, 12);
    expect(triangleAt(triangles, 0)?.azimuth).toBe(0);
    const west = trianglesOf([well('1', 0, 0, 9), well('2', 40, 0, 10), well('3', 0, 30, 9)]);
    expect(west.azimuth[0]).toBeCloseTo(270, 9);
  });
});
