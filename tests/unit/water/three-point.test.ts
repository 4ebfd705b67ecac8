import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { inUnits, metres, turn } from '../../../src/domain/units';
import { threePoint } from '../../../src/domain/water/three-point';
import { noise, off, oracleWells, ORACLE, scattered, valueOf, well } from './wells';

const solved = (...wells: Parameters<typeof threePoint>[0]) => valueOf(threePoint(wells));
const drawn = (...wells: Parameters<typeof threePoint>[0]) => {
  const { construction } = solved(...wells);
  if (!construction) throw new Error('no construction');
  return construction;
};

describe('Heath (1983), USGS Water-Supply Paper 2220, p. 11: values from memory, re-derived', () => {
  // Sides 1–2 165 m, 2–3 150 m, 1–3 215 m; heads 26.26, 26.20, 26.07 m.
  const east = (165 ** 2 - 150 ** 2 + 215 ** 2) / (2 * 215);
  const heath = [
    well('1', 0, 0, 26.26),
    well('2', east, Math.sqrt(165 ** 2 - east ** 2), 26.2),
    well('3', 215, 0, 26.07),
  ];
  const construction = drawn(...heath);

  test('step by step: wells 1, 2, 3 by head; the contour of 26.20 m crosses 68 m from well 1', () => {
    const { high, intermediate, low, tie, interpolated, contour } = construction;
    expect([high.id, intermediate.id, low.id, tie]).toEqual(['1', '2', '3', null]);
    expect(interpolated.line).toBeCloseTo(215, 9);
    expect(interpolated.fromHigh).toBeCloseTo(68, 0); // as the paper scales it
    expect(interpolated.fromHigh).toBeCloseTo(67.895, 3); // computed independently
    expect(interpolated.head).toBe(26.2);
    expect(contour.head).toBe(26.2);
    expect(contour.from).toEqual({ x: intermediate.x, y: intermediate.y });
    expect(contour.to).toEqual({ x: interpolated.x, y: interpolated.y });
  });

  test('the perpendicular to the low well is 134.6 m; the paper scales 133 m off its drawing', () => {
    const { perpendicular, drop, gradient } = construction;
    expect(perpendicular.well).toBe('low');
    expect(perpendicular.distance).toBeCloseTo(134.6, 1);
    expect(drop).toBeCloseTo(0.13, 12);
    expect(gradient).toBeCloseTo(0.000966, 6);
    expect(Math.abs(gradient / (0.13 / 133) - 1)).toBeLessThan(0.0125);
  });

  test('drawn or solved, the gradient is the same', () => {
    expect(off(construction.gradient, solved(...heath).plane.gradient)).toBeLessThan(1e-12);
  });
});

test('Heath (1983) p. 10, value from memory, re-derived: 85 m and 80 m, 780 m apart, 0.0064', () => {
  // Two wells and a third level with the first, square to the line between them.
  const construction = drawn(
    well('A', 0, 0, 100 - 15),
    well('B', 780, 0, 98 - 18),
    well('C', 0, 300, 85),
  );
  expect(construction.gradient).toBeCloseTo(5 / 780, 12);
  expect(construction.gradient).toBeCloseTo(0.0064, 4);
});

test('Masters, Intro. to Environmental Engineering and Science, ch. 5: 26.6° south of east', () => {
  // Depths 10.0, 10.2, 10.1 m under level ground, here at 0. Attribution from memory.
  const { plane, azimuth } = solved(
    well('1', 0, 0, -10),
    well('2', 100, 0, -10.2),
    well('3', 100, 100, -10.1),
  );
  expect(plane.a).toBeCloseTo(-0.002, 12);
  expect(plane.b).toBeCloseTo(0.001, 12);
  expect(plane.gradient).toBeCloseTo(0.002236, 6);
  expect(azimuth! - 90).toBeCloseTo(26.6, 1);
  expect(azimuth).toBeCloseTo(116.565, 3);
});

test('Freeze and Cherry (1979) ch. 2, attribution from memory: 0.020 toward N 60° W', () => {
  // 1000 m apart, A due south of B, C east; ground 95, 110, 135 m; depths 5, 30, 35 m.
  const { plane, azimuth } = solved(
    well('A', 0, 0, 95 - 5),
    well('B', 0, 1000, 110 - 30),
    well('C', 500 * Math.sqrt(3), 500, 135 - 35),
  );
  expect(plane.fitted.map((head) => Math.round(head * 1e9) / 1e9)).toEqual([90, 80, 100]);
  expect(plane.gradient).toBeCloseTo(0.02, 12);
  expect(azimuth).toBeCloseTo(300, 9);
});

test.each([
  // Public monitoring reports: a drop between two contours over the distance between them.
  ['63.30 to 62.70 ft over 110 ft', 63.3, 62.7, 110, 0.0055],
  ['52.28 to 52.12 ft over 65 ft', 52.28, 52.12, 65, 0.0025],
])('%s', (_, upper, lower, distance, printed) => {
  const { gradient, perpendicular } = drawn(
    well('1', 0, 0, upper, 0.01, 'ft'),
    well('2', 0, 80, upper, 0.01, 'ft'),
    well('3', distance, 30, lower, 0.01, 'ft'),
  );
  expect(inUnits(perpendicular.distance, 'ft')).toBeCloseTo(distance, 9);
  expect(gradient).toBeCloseTo(printed, 4);
});

describe('ties', () => {
  test('two high wells: the contour runs through both, the perpendicular to the low one', () => {
    const construction = drawn(well('A', 0, 0, 10), well('B', 0, 60, 10), well('C', 50, 20, 9));
    expect(construction).toMatchObject({
      tie: 'intermediate-is-high',
      interpolated: { part: 0, x: 0, y: 0 },
      perpendicular: { well: 'low', distance: 50, foot: { x: 0, y: 20 } },
      drop: 1,
      gradient: 1 / 50,
    });
  });

  test('two low wells: the contour runs through both, the perpendicular to the high one', () => {
    const construction = drawn(well('A', 0, 0, 9), well('B', 0, 60, 9), well('C', 50, 20, 10));
    expect(construction).toMatchObject({
      tie: 'intermediate-is-low',
      interpolated: { part: 1, x: 0, y: 60 },
      perpendicular: { well: 'high', distance: 50, foot: { x: 0, y: 20 } },
      drop: 1,
      gradient: 1 / 50,
    });
  });

  test('equal by subtraction, though not to the last bit, is a tie', () => {
    expect(93 - 0.47).not.toBe(93.07 - 0.54);
    const [a, b] = [well('A', 0, 0, 93 - 0.47), well('B', 0, 60, 93.07 - 0.54)];
    const high = drawn(a, b, well('C', 50, 20, 92));
    expect(high).toMatchObject({ tie: 'intermediate-is-high', interpolated: { part: 0 } });
    const low = drawn(a, b, well('C', 50, 20, 93));
    expect(low).toMatchObject({ tie: 'intermediate-is-low', interpolated: { part: 1 } });
    // A rounding apart at 92 m is rounding still where the third head is small.
    const small = drawn(a, b, well('C', 50, 20, 0.01));
    expect(small.tie).toBe('intermediate-is-high');
  });

  test('three equal heads: nothing to draw, and the reason', () => {
    const flow = solved(well('A', 0, 0, 9), well('B', 0, 60, 9), well('C', 50, 20, 9));
    expect(flow).toMatchObject({ construction: null, azimuth: null, level: { kind: 'level' } });
  });
});

describe('sets that are no three-point problem', () => {
  test('four wells', () => {
    const four = [0, 1, 2, 3].map((i) => well(`${i}`, i, i * i, i));
    expect(threePoint(four)).toEqual({ ok: false, problem: { kind: 'not-three-wells', have: 4 } });
  });

  test('three in a line', () => {
    expect(
      threePoint([well('A', 0, 0, 9), well('B', 10, 10, 8), well('C', 30, 30, 7)]),
    ).toMatchObject({ problem: { kind: 'wells-in-a-line' } });
  });
});

test('every three-well oracle: the construction gives the exact gradient and direction', () => {
  const three = ORACLE.cases.filter(
    ({ expected, wells }) => wells.length === 3 && expected.status === 'ok',
  );
  expect(three.length).toBe(24);
  for (const set of three) {
    const { gradient, perpendicular } = drawn(...oracleWells(set));
    const most = set.expected.collinearity_ratio < 1e-5 ? 1e-6 : 1e-9;
    expect(off(gradient, set.expected.gradient), set.id).toBeLessThan(most);
    // In thin triangles a foot in a grid of millions is rounded more than the line is long.
    if (set.expected.collinearity_ratio < 1e-2) continue;
    const { foot, to, well: toward } = perpendicular;
    const [east, north] = [to.x - foot.x, to.y - foot.y];
    const down = toward === 'low' ? 1 : -1;
    const along = (Math.atan2(down * east, down * north) * 180) / Math.PI;
    expect(turn(set.expected.azimuth_deg!, along), set.id).toBeCloseTo(0, 5);
  }
});

test('for any three wells: interpolated point, foot and low well agree with the exact plane', () => {
  fc.assert(
    fc.property(scattered(3, 3), noise, noise, noise, (places, h1, h2, h3) => {
      const heads = [h1, h2, h3].map((h) => Math.round(h * 1e4) / 1e4);
      const found = threePoint(places.map(([x, y], i) => well(`${i}`, x, y, heads[i]!)));
      fc.pre(
        found.ok && found.value.construction !== null && found.value.plane.spread.ratio > 0.01,
      );
      const { plane, construction } = valueOf(found);
      const { interpolated, perpendicular, gradient } = construction!;
      const onPlane = (place: { x: number; y: number }) =>
        plane.c + plane.a * (place.x - plane.centre.x) + plane.b * (place.y - plane.centre.y);
      expect(onPlane(interpolated)).toBeCloseTo(interpolated.head, 9);
      expect(onPlane(perpendicular.foot)).toBeCloseTo(interpolated.head, 9);
      expect(off(gradient, plane.gradient)).toBeLessThan(1e-9);
      const { foot, to } = perpendicular;
      const reach = metres(Math.hypot(to.x - foot.x, to.y - foot.y));
      expect(reach).toBeCloseTo(perpendicular.distance, 9);
    }),
  );
});
