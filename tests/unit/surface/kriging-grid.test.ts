import { describe, expect, test } from 'vitest';
import { decay } from '../../../src/domain/water/surface/covariance-block';
import { convexHull } from '../../../src/domain/water/surface/hull';
import { estimateAt, headAt, type KrigingChoice } from '../../../src/domain/water/surface/kriging';
import { krigedGrid } from '../../../src/domain/water/surface/kriging-grid';
import {
  frameOver,
  insideMask,
  nodeAt,
  type GridFrame,
} from '../../../src/domain/water/surface/surface-grid';
import type { SurfacePoint } from '../../../src/domain/water/surface/surface-point';
import type { VariogramModel } from '../../../src/domain/water/surface/variogram-model';
import { allAtOnce } from '../../../src/domain/steps';
import { azimuth, metres } from '../../../src/domain/units';
import { jobSurface, surfaceOf } from './gstat';
import { point, siteHeads } from './oracle';
import { seeded } from '../../../src/domain/layout/seeded';

const wells = (count: number, seed = 1): SurfacePoint[] => {
  const random = seeded(seed);
  return Array.from({ length: count }, (_, i) => {
    const [x, y] = [random() * 1000, random() * 800];
    return point(`W${i}`, x, y, 30 - 0.004 * x + 0.3 * Math.sin(x / 90) * Math.cos(y / 70), 0.02);
  });
};

const FRAME: GridFrame = {
  x: metres(-20),
  y: metres(-10),
  step: metres(13),
  columns: 83,
  rows: 65,
};

const model = (shape: VariogramModel['shape'], anisotropy: VariogramModel['anisotropy'] = null) =>
  shape === 'linear'
    ? { shape, slope: 0.0007, nugget: 0.0005, anisotropy }
    : {
        shape,
        sill: 0.2,
        range: metres(shape === 'gaussian' ? 90 : 260),
        nugget: 0.0005,
        anisotropy,
      };

describe('a grid of heads and variances is what is said of each node', () => {
  const long = { longAxis: azimuth(30), ratio: 0.4 };
  const cases: [string, number, KrigingChoice, number][] = [
    ['exponential', 40, { model: model('exponential'), drift: 'none', errors: 'ignored' }, 1e-12],
    ['spherical', 70, { model: model('spherical'), drift: 'linear', errors: 'stated' }, 1e-12],
    ['gaussian', 30, { model: model('gaussian'), drift: 'linear', errors: 'ignored' }, 1e-11],
    ['linear', 60, { model: model('linear'), drift: 'linear', errors: 'ignored' }, 1e-12],
    [
      'anisotropic',
      41,
      { model: model('spherical', long), drift: 'none', errors: 'ignored' },
      1e-12,
    ],
    // From 80 wells on, and over 64 × 64 nodes, by the skeleton: to a few millionths of the sill.
    ['exponential', 300, { model: model('exponential'), drift: 'linear', errors: 'ignored' }, 1e-6],
    [
      'anisotropic',
      150,
      { model: model('exponential', long), drift: 'none', errors: 'stated' },
      2e-7,
    ],
    ['gaussian', 200, { model: model('gaussian'), drift: 'linear', errors: 'ignored' }, 1e-6],
    ['linear', 250, { model: model('linear'), drift: 'linear', errors: 'ignored' }, 5e-6],
    ['spherical', 230, { model: model('spherical'), drift: 'linear', errors: 'ignored' }, 1e-12],
  ];

  test.each(cases)('%s, %d wells', (_, count, choice, tolerance) => {
    const surface = surfaceOf(wells(count), choice);
    const grid = allAtOnce(krigedGrid(surface, FRAME, { variance: true, mask: null }));
    let [head, variance] = [0, 0];
    for (let node = 0; node < FRAME.columns * FRAME.rows; node += 7) {
      const [x, y] = nodeAt(FRAME, node % FRAME.columns, Math.floor(node / FRAME.columns));
      const estimate = estimateAt(surface, x, y);
      head = Math.max(head, Math.abs(estimate.head - grid.heads[node]!));
      variance = Math.max(variance, Math.abs(estimate.variance - grid.variances![node]!));
    }
    expect(head).toBeLessThan(1e-9);
    expect(variance).toBeLessThan(tolerance);
    const alone = allAtOnce(krigedGrid(surface, FRAME, { variance: false, mask: null }));
    expect(alone.heads).toEqual(grid.heads);
    expect(alone.variances).toBeNull();
  });
});

test('on a grid such as is drawn, 300 wells lose nothing: variances to 1e-11', () => {
  const surface = surfaceOf(wells(300), {
    model: model('exponential'),
    drift: 'linear',
    errors: 'stated',
  });
  const frame = { ...FRAME, step: metres(17), columns: 64, rows: 64 };
  const grid = allAtOnce(krigedGrid(surface, frame, { variance: true, mask: null }));
  for (let node = 0; node < 64 * 64; node += 11) {
    const [x, y] = nodeAt(frame, node % 64, Math.floor(node / 64));
    const { variance } = estimateAt(surface, x, y);
    expect(Math.abs((grid.variances?.[node] ?? NaN) - variance)).toBeLessThan(1e-11);
  }
});

test('a node in a well has the well’s head and no variance, though there is a nugget', () => {
  const surface = jobSurface('siteA sph OK');
  const { x, y, head } = siteHeads('siteA')[3]!;
  const frame = { x: metres(x - 40), y: metres(y - 20), step: metres(10), columns: 9, rows: 5 };
  const grid = allAtOnce(krigedGrid(surface, frame, { variance: true, mask: null }));
  expect(grid.heads[2 * 9 + 4]).toBeCloseTo(head, 9);
  expect(grid.variances?.[2 * 9 + 4]).toBe(0);
  expect(grid.variances?.[2 * 9 + 5]).toBeGreaterThan(0.0005);
});

test('outside the outline of the wells there is nothing', () => {
  const points = siteHeads('siteE');
  const hull = convexHull(points.map(({ x, y }) => [x, y]))!;
  const frame = frameOver(hull, 60);
  const mask = insideMask(frame, hull);
  const surface = jobSurface('siteE exp UK1');
  const grid = allAtOnce(krigedGrid(surface, frame, { variance: true, mask }));
  for (const [node, inside] of mask.entries()) {
    const [x, y] = nodeAt(frame, node % frame.columns, Math.floor(node / frame.columns));
    if (inside === 0) {
      expect(grid.heads[node]).toBeNaN();
      expect(grid.variances?.[node]).toBeNaN();
    } else expect(grid.heads[node]).toBeCloseTo(headAt(surface, x, y), 9);
  }
});

test('says how far it is, from nothing towards all, and can be left at any time', () => {
  const surface = surfaceOf(wells(90), {
    model: model('exponential'),
    drift: 'none',
    errors: 'ignored',
  });
  const shares: number[] = [];
  const frame = { ...FRAME, columns: 160, rows: 140 };
  const steps = krigedGrid(surface, frame, { variance: true, mask: null });
  for (let step = steps.next(); !step.done; step = steps.next()) shares.push(step.value);
  expect(shares.length).toBeGreaterThan(19);
  expect([...shares].sort((a, b) => a - b)).toEqual(shares);
  expect(shares[0]).toBe(0);
  expect(shares.at(-1)).toBeLessThan(1);
});

test('the quick e^(−x) is e^(−x)', () => {
  for (let x = 0; x < 39; x += 0.00917) {
    expect(Math.abs(decay(x) / Math.exp(-x) - 1)).toBeLessThan(4e-15);
  }
  expect(decay(0)).toBe(1);
  expect(decay(1e6)).toBeCloseTo(0, 17);
});
