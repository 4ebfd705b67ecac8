import { describe, expect, test } from 'vitest';
import { inUnits, metres, type Metres } from '../../../src/domain/units';
import { drawnSurface, type SurfaceQuestion } from '../../../src/domain/water/drawn-surface';
import { isInside } from '../../../src/domain/water/surface/hull';
import type { SurfacePoint } from '../../../src/domain/water/surface/surface-point';
import { modelOf, termsOf, variogramSeen } from '../../../src/domain/water/variogram-terms';
import {
  contourDecimals,
  contourItems,
  errorItems,
  flowLineItems,
} from '../../../src/map/scene/from-contours';
import { axisOver } from '../../../src/ui/charts/chart-scale';

/** Six wells worked out independently with another library, in feet. */
const SIX: readonly SurfacePoint[] = (
  [
    ['P1', 1000, 5000, 92.53],
    ['P2', 1150, 5040, 92.16],
    ['P3', 1300, 5010, 91.82],
    ['P4', 1050, 5150, 92.75],
    ['P5', 1200, 5170, 92.32],
    ['P6', 1350, 5140, 91.94],
  ] as const
).map(([id, x, y, head]) => ({
  id,
  x: metres(x - 1175, 'ft'),
  y: metres(y - 5085, 'ft'),
  head: metres(head, 'ft'),
  sigma: metres(0.01, 'ft'),
}));
const UNITS = { vertical: 'ft', grid: 'ft' } as const;
const seen = variogramSeen(SIX, 'kriged about a plane', null);

const question = (over: Partial<SurfaceQuestion> = {}): SurfaceQuestion => ({
  points: SIX,
  method: 'triangulated',
  model: seen?.model ?? null,
  interval: metres(0.2, 'ft'),
  reach: metres(60, 'ft'),
  byError: false,
  noFlow: [],
  ...over,
});

function drawn(over: Partial<SurfaceQuestion> = {}) {
  const answer = drawnSurface(question(over));
  if (!answer.ok) throw new Error(answer.problem);
  return answer.value;
}

describe.each(['triangulated', 'kriged', 'kriged about a plane'] as const)('%s', (method) => {
  const surface = drawn({ method });

  test('at 0.2 ft draws the four round levels from 92.0 to 92.6', () => {
    const levels = new Set(surface.pieces.map(({ level }) => inUnits(level, 'ft').toFixed(2)));
    expect([...levels].sort()).toEqual(['92.00', '92.20', '92.40', '92.60']);
    expect(surface.levels).toBe(4);
  });

  test('draws nothing outside the wells', () => {
    const about = surface.hull.map(([x, y]) => [x * (1 + 1e-6), y * (1 + 1e-6)] as const);
    for (const { points } of surface.pieces)
      for (const place of points) expect(isInside(about, place)).toBe(true);
  });

  test('dashes what is over 60 ft from every well', () => {
    expect(surface.pieces.some(({ inferred }) => inferred)).toBe(true);
    const near = drawn({ method, reach: metres(500, 'ft') });
    expect(near.pieces.every(({ inferred }) => !inferred)).toBe(true);
  });

  test('has flow lines that fall all the way, toward the south-east', () => {
    expect(surface.flowLines.length).toBeGreaterThan(0);
    for (const { points } of surface.flowLines) {
      const [[x0, y0] = [0, 0], [x1, y1] = [0, 0]] = [points[0], points.at(-1)];
      expect(x1 - x0).toBeGreaterThan(0);
      expect(y1 - y0).toBeLessThan(0);
    }
  });
});

test('an interval of 0.02 ft is called finer than heads good to 0.01 ft; 0.2 ft is supported', () => {
  // Three to four times the error of a head: common practice.
  expect(drawn({ interval: metres(0.02, 'ft') }).verdict).toBe('finer than the heads’ error');
  expect(drawn().verdict).toBe('supported');
});

test('the kriging error is a picture in bands; a triangulated surface has none', () => {
  const place = (x: number, y: number) => [x, y] as const;
  const says = (sigma: number) => `${sigma.toFixed(3)} m`;
  expect(errorItems(drawn(), place, says)).toEqual([]);
  const bands = errorItems(drawn({ method: 'kriged' }), place, says);
  expect(bands.length).toBeGreaterThanOrEqual(2);
  expect(bands.every(({ means }) => /Kriging error .* m to .* m/.test(means ?? ''))).toBe(true);
});

test('on the map contours carry their level and flow lines their point', () => {
  const surface = drawn();
  const items = contourItems(surface, (x, y) => [x, y], 'ft', contourDecimals(0.2));
  const words = items.flatMap((item) => (item.kind === 'text' ? [item.text] : []));
  expect(words).toContain('92.4');
  const flows = flowLineItems(surface, (x, y) => [x, y]);
  expect(flows.filter(({ kind }) => kind === 'arrow')).toHaveLength(surface.flowLines.length);
});

test('wells in a line and two wells are said, not drawn', () => {
  const inLine = SIX.map((p, i) => ({ ...p, x: metres(i * 10), y: metres(i * 20) }));
  expect(drawnSurface(question({ points: inLine }))).toEqual({
    ok: false,
    problem: 'The wells are in a line: no surface lies between them.',
  });
  expect(drawnSurface(question({ points: SIX.slice(0, 2) })).ok).toBe(false);
  expect(drawnSurface(question({ method: 'kriged', model: null })).ok).toBe(false);
});

test('a variogram typed in square feet and feet comes back as it was typed', () => {
  const terms = { shape: 'spherical', nugget: 0.001, rise: 0.25, range: 300 } as const;
  const back = termsOf(modelOf(terms, UNITS), UNITS);
  expect(back.shape).toBe('spherical');
  expect(back.nugget).toBeCloseTo(0.001, 12);
  expect(back.rise).toBeCloseTo(0.25, 12);
  expect(back.range).toBeCloseTo(300, 9);
  const line = { shape: 'linear', nugget: 0, rise: 0.0005, range: 0 } as const;
  expect(termsOf(modelOf(line, UNITS), UNITS).rise).toBeCloseTo(0.0005, 12);
});

test('the kriged head at (1100, 5080) under 0.0005·h ft² is 92.412 ft, as computed elsewhere without errors', () => {
  // Independent computation with the heads taken as exact: 92.4124278688 ft. With 0.01 ft
  // of error in each the surface passes within a hundredth of it.
  const model = modelOf({ shape: 'linear', nugget: 0, rise: 0.0005, range: 0 }, UNITS);
  const { grid } = drawn({ method: 'kriged about a plane', model });
  if (!grid) throw new Error('a kriged surface has a grid');
  const { x, y, step, columns } = grid.frame;
  const column = Math.round((metres(1100 - 1175, 'ft') - x) / step);
  const row = Math.round((metres(5080 - 5085, 'ft') - y) / step);
  const head = inUnits(grid.heads[row * columns + column] as Metres, 'ft');
  // The nearest node is at most half a step, 2.9 ft, off either way: 0.01 ft of head.
  expect(Math.abs(head - 92.4124)).toBeLessThan(0.03);
});

test('an axis holds its values between round ends, and says how many decimals tell its ticks apart', () => {
  expect(axisOver([0.0031, 0.0043, 0])).toMatchObject({ low: 0, high: 0.005, decimals: 3 });
  expect(axisOver([956.2, 960.4]).decimals).toBe(0);
  expect(axisOver([5]).low).toBeLessThan(5);
  expect(axisOver([]).ticks.length).toBeGreaterThan(1);
});
