import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { turn } from '../../../src/domain/units';
import { fitPlane, type HeadPoint } from '../../../src/domain/water/plane';
import {
  MOST_BASE_TO_HEIGHT,
  MOST_RELATIVE_HEAD_ERROR,
  triangleAt,
  trianglesOf,
} from '../../../src/domain/water/triangles';
import { noise, off, ORACLE, oracleWells, scattered, SIX_IN_FEET, valueOf, well } from './wells';

const all = (wells: readonly HeadPoint[]) => {
  const triangles = trianglesOf(wells);
  return Array.from({ length: triangles.count }, (_, k) => triangleAt(triangles, k)!);
};
const only = (...wells: HeadPoint[]) => all(wells)[0]!;

describe('six wells, computed independently (basis, case 3.1)', () => {
  const triangles = all(SIX_IN_FEET);
  const name = ({ ids }: { ids: readonly string[] }) => ids.join('');

  test('twenty triangles, in the order of the wells', () => {
    expect(triangles).toHaveLength(20);
    expect(triangles.slice(0, 5).map(name)).toEqual([
      'P1P2P3',
      'P1P2P4',
      'P1P2P5',
      'P1P2P6',
      'P1P3P4',
    ]);
    expect(name(triangles[19]!)).toBe('P4P5P6');
  });

  test('exactly four fail base²/(2·area) ≤ 5, and they are the four wild directions', () => {
    const failing = triangles.filter(({ wellShaped }) => !wellShaped);
    expect(
      failing.map((one) => [name(one), one.baseToHeight?.toFixed(2), one.azimuth?.toFixed(1)]),
    ).toEqual([
      ['P1P2P3', '8.58', '79.7'],
      ['P1P2P6', '20.30', '145.5'],
      ['P2P3P4', '6.08', '160.1'],
      ['P4P5P6', '12.01', '69.9'],
    ]);
  });

  test('the sixteen kept span 112.1° to 139.1°', () => {
    const kept = triangles.filter(({ wellShaped }) => wellShaped).map(({ azimuth }) => azimuth!);
    expect(kept).toHaveLength(16);
    expect(Math.min(...kept)).toBeCloseTo(112.1, 1);
    expect(Math.max(...kept)).toBeCloseTo(139.1, 1);
  });
});

describe('shape and head error', () => {
  test('the equilateral triangle has the least base to height there is, 1.155', () => {
    const found = only(well('1', 0, 0, 3), well('2', 10, 0, 2), well('3', 5, 5 * Math.sqrt(3), 1));
    expect(found.baseToHeight).toBeCloseTo(1.155, 3);
    expect(found.smallestAngle).toBeCloseTo(60, 9);
    expect(found.wellShaped).toBe(true);
  });

  test('base over height is read off the longest side: 100 by 20 is 5 and passes, 19 does not', () => {
    const flat = (height: number) =>
      only(well('1', 0, 0, 3), well('2', 100, 0, 2), well('3', 50, height, 1));
    expect(flat(20).baseToHeight).toBeCloseTo(5, 12);
    expect(flat(20.001).wellShaped).toBe(true);
    expect(flat(19).wellShaped).toBe(false);
    expect(flat(20).smallestAngle).toBeCloseTo((Math.atan(20 / 50) * 180) / Math.PI, 9);
    expect(MOST_BASE_TO_HEIGHT).toBe(5);
  });

  test('relative head error is the error over the drop across the three', () => {
    const found = only(well('1', 0, 0, 3), well('2', 10, 0, 2.9), well('3', 0, 10, 2.8));
    expect(found.drop).toBeCloseTo(0.2, 12);
    expect(found.relativeHeadError).toBeCloseTo(0.05, 12);
  });

  test('at 0.05 the direction of the best-shaped triangle is sure to 3.5° to 4.1°', () => {
    const errors = Array.from({ length: 60 }, (_, k) => {
      const [east, north] = [Math.sin((k * Math.PI) / 30), Math.cos((k * Math.PI) / 30)];
      const corners = [
        [0, 0],
        [100, 0],
        [50, 50 * Math.sqrt(3)],
      ] as const;
      const wells = corners.map(([x, y], i) => well(`${i}`, x, y, (x * east + y * north) / 1000));
      const { drop } = only(...wells);
      const sigma = MOST_RELATIVE_HEAD_ERROR * drop;
      const set = wells.map((w) => well(w.id, w.x, w.y, w.head, sigma));
      expect(only(...set).relativeHeadError).toBeCloseTo(MOST_RELATIVE_HEAD_ERROR, 12);
      return valueOf(fitPlane(set, { weighted: false })).stated.azimuth!;
    });
    expect(Math.min(...errors)).toBeCloseTo(3.5, 1);
    expect(Math.max(...errors)).toBeCloseTo(4.05, 2);
  });

  test('three in a line and three equal heads: no direction, and the reason', () => {
    expect(only(well('1', 0, 0, 3), well('2', 5, 5, 2), well('3', 15, 15, 1))).toMatchObject({
      none: 'in-a-line',
      gradient: null,
      azimuth: null,
      baseToHeight: null,
      wellShaped: false,
    });
    expect(
      only(well('1', 0, 0, 93 - 0.47), well('2', 9, 0, 93.07 - 0.54), well('3', 0, 9, 92.53)),
    ).toMatchObject({ none: 'level', gradient: 0, azimuth: null, relativeHeadError: null });
  });

  test('two screens in one place make no triangle with a third', () => {
    const nest = [well('s', 4, 4, 9), well('d', 4, 4, 8), well('3', 15, 1, 7)];
    expect(only(...nest).none).toBe('in-a-line');
  });

  test('fewer than three wells make none', () => {
    expect(trianglesOf([]).count).toBe(0);
    expect(trianglesOf([well('1', 0, 0, 1), well('2', 1, 0, 1)]).count).toBe(0);
    expect(triangleAt(trianglesOf([]), 0)).toBeNull();
  });
});

test('every three-well oracle: exact gradient and direction', () => {
  const three = ORACLE.cases.filter(
    ({ expected, wells }) => wells.length === 3 && expected.status === 'ok',
  );
  expect(three).toHaveLength(24);
  for (const set of three) {
    const most = set.expected.collinearity_ratio < 1e-5 ? 1e-6 : 1e-9;
    const found = only(...oracleWells(set));
    expect(off(found.gradient, set.expected.gradient), set.id).toBeLessThan(most);
    expect(off(found.azimuth, set.expected.azimuth_deg!), set.id).toBeLessThan(most);
  }
});

test('every oracle of three wells in a line is known for one', () => {
  const lines = ORACLE.cases.filter(
    ({ expected, wells }) => wells.length === 3 && expected.status.startsWith('undefined'),
  );
  expect(lines.length).toBeGreaterThanOrEqual(3);
  for (const set of lines) expect(only(...oracleWells(set)).none, set.id).toBe('in-a-line');
});

test('for any wells, each triangle is the plane of its three', () => {
  fc.assert(
    fc.property(scattered(4, 8), fc.array(noise, { minLength: 8, maxLength: 8 }), (places, h) => {
      const wells = places.map(([x, y], i) => well(`${i}`, x + 6e5, y + 4e6, h[i]!));
      for (const found of all(wells)) {
        const three = wells.filter(({ id }) => found.ids.includes(id));
        const fitted = fitPlane(three, { weighted: false });
        expect(fitted.ok).toBe(found.none !== 'in-a-line');
        if (!fitted.ok || fitted.value.spread.ratio < 1e-3) continue;
        if (fitted.value.gradient < 1e-7) continue; // at the edge of rounding either may be level
        expect(off(found.gradient, fitted.value.gradient)).toBeLessThan(1e-9);
        expect(turn(found.azimuth!, fitted.value.azimuth!)).toBeCloseTo(0, 7);
      }
    }),
    { numRuns: 50 },
  );
});

test('sixty wells make 34,220 triangles, and on one plane they all say the same', () => {
  const wells = Array.from({ length: 60 }, (_, i) => {
    const [x, y] = [((i * 37) % 61) * 10, ((i * i) % 59) * 10];
    return well(`${i}`, x, y, 50 - 0.003 * x + 0.001 * y);
  });
  const triangles = trianglesOf(wells);
  expect(triangles.count).toBe(34_220);
  for (let k = 0; k < triangles.count; k++) {
    if (!(triangles.baseToHeight[k]! <= MOST_BASE_TO_HEIGHT)) continue;
    if (Math.abs(triangles.azimuth[k]! - 108.4349488) > 1e-6) throw new Error(`triangle ${k}`);
  }
});
