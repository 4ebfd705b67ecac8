import fc from 'fast-check';
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { Grid } from '../../../src/domain/grid';
import { METRES_PER } from '../../../src/domain/units';
import { openGrid } from '../../../src/io/projection/open-grid';
import { madeUpAnchor, onGlobe } from '../../../src/map/anchor';
import {
  cameraFor,
  extentSeen,
  lieOf,
  mercator,
  metresPerPixel,
  toGrid,
  widened,
  type Camera,
  type Size,
  type ToLngLat,
} from '../../../src/map/camera';
import type { Place } from '../../../src/map/scene/scene';

const WORLD = 512;

/** Where MapLibre puts a place on the screen, px right and down of the window's middle. */
function onScreen({ center, zoom, bearing }: Camera, lngLat: readonly [number, number]) {
  const [x0, y0] = mercator(center);
  const [x, y] = mercator(lngLat);
  const turn = (-bearing * Math.PI) / 180; // the compass direction `bearing` points up
  const [dx, dy] = [(x - x0) * WORLD * 2 ** zoom, (y - y0) * WORLD * 2 ** zoom];
  return [
    dx * Math.cos(turn) - dy * Math.sin(turn),
    dx * Math.sin(turn) + dy * Math.cos(turn),
  ] as const;
}

const grid = (code: string, unit: 'm' | 'us-ft'): Grid => {
  const opened = openGrid({ code, projection: null, unit });
  if (!opened.ok) throw new Error(code);
  return opened.value;
};

const osierBend = JSON.parse(
  readFileSync(new URL('../../../demo-sites/osier-bend/expected.json', import.meta.url), 'utf8'),
) as { site: { centre: [number, number]; convergence: number } };

const [e0, n0] = osierBend.site.centre.map((feet) => feet * METRES_PER['us-ft']) as [
  number,
  number,
];
const indiana = onGlobe(grid('EPSG:2965', 'us-ft'), [e0, n0]);

describe('grid north is up', () => {
  // Convergence of the demo's centre by PROJ 9.1.1 (in its expected.json): grid
  // north lies 0.37248311° east of true north, so that is the bearing to turn to.
  // The web's Mercator bends it by 0.0015°.
  test('the map is turned to the convergence, east positive', () => {
    const { bearing } = lieOf(indiana, [e0, n0]);
    expect(Math.abs(bearing - osierBend.site.convergence)).toBeLessThan(0.002);
    expect(bearing).toBeGreaterThan(0);
  });

  // tan γ = tan(λ − λ0) sin φ, the convergence of a transverse Mercator on the
  // sphere (J. P. Snyder, 1987, Map projections, USGS PP 1395; value from memory);
  // ellipsoid and the web's Mercator make it differ by some thousandths of a degree.
  test.each([
    ['east of the central meridian, north of the equator', 700_000, 4_800_000, 'EPSG:32612'],
    ['west of the central meridian, north of the equator', 300_000, 4_800_000, 'EPSG:32612'],
    ['east of the central meridian, south of the equator', 700_000, 5_800_000, 'EPSG:32712'],
  ])('%s', (_, east, north, code) => {
    const toLngLat = onGlobe(grid(code, 'm'), [east, north]);
    const [lng, lat] = toLngLat(east, north);
    const radian = Math.PI / 180;
    const expected = Math.atan(Math.tan((lng + 111) * radian) * Math.sin(lat * radian)) / radian;
    expect(Math.abs(lieOf(toLngLat, [east, north]).bearing - expected)).toBeLessThan(0.01);
  });

  test('on the screen a place to the grid north stands straight above, one to the east straight beside', () => {
    const size: Size = [1000, 800];
    const extent = { west: e0 - 200, south: n0 - 160, east: e0 + 200, north: n0 + 160 };
    const camera = cameraFor(extent, size, indiana);
    const seen = extentSeen([e0, n0], camera.zoom, size, indiana);
    const [x, y] = onScreen(camera, indiana(e0, seen.north));
    expect(Math.abs(x)).toBeLessThan(0.05);
    expect(y).toBeCloseTo(-400, 1);
    const [right, down] = onScreen(camera, indiana(seen.east, n0));
    expect(right).toBeCloseTo(500, 1);
    expect(Math.abs(down)).toBeLessThan(0.05);
  });
});

describe('the window', () => {
  test('shows all of what is asked, in the window’s own proportions', () => {
    const asked = { west: 0, south: 0, east: 400, north: 100 };
    expect(metresPerPixel(asked, [800, 800])).toBe(0.5);
    expect(widened(asked, [800, 800])).toEqual({ west: 0, south: -150, east: 400, north: 250 });
  });

  test('shows the extent asked and no less, whatever the grid', () => {
    const asked = { west: e0 - 100, south: n0 - 300, east: e0 + 100, north: n0 + 300 };
    for (const size of [
      [900, 500],
      [400, 1200],
      [50, 1000],
    ] as const) {
      // prettier-ignore
      const { zoom } = cameraFor(asked, size, indiana);
      const seen = extentSeen([e0, n0], zoom, size, indiana);
      expect(seen.west).toBeLessThanOrEqual(asked.west + 1e-6);
      expect(seen.north).toBeGreaterThanOrEqual(asked.north - 1e-6);
    }
  });

  test('leads from the screen back to the grid within a millimetre, in feet and in metres', () => {
    const far = fc.integer({ min: -20_000, max: 20_000 });
    const grids: readonly (readonly [ToLngLat, Place])[] = [
      [indiana, [e0, n0]],
      [onGlobe(grid('EPSG:32612', 'm'), [340_000, 4_820_000]), [340_000, 4_820_000]],
    ];
    fc.assert(
      fc.property(fc.constantFrom(...grids), far, far, ([toLngLat, [e, n]], dx, dy) => {
        const back = toGrid(toLngLat, toLngLat(e + dx, n + dy), [e, n]);
        expect(back?.[0]).toBeCloseTo(e + dx, 2);
        expect(back?.[1]).toBeCloseTo(n + dy, 2);
      }),
    );
  });
});

describe('a grid tied to nothing', () => {
  const toLngLat = madeUpAnchor([5000, 5000]);

  test('lies on the map neither turned nor stretched, even far from its middle', () => {
    for (const at of [
      [5000, 5000],
      [5000, 45_000],
      [-30_000, 5000],
    ] as const) {
      const { bearing, eastward, northward } = lieOf(toLngLat, at);
      expect(bearing).toBeCloseTo(0, 9);
      expect(eastward * 2 * Math.PI * 6378137).toBeCloseTo(1, 9);
      expect(northward * 2 * Math.PI * 6378137).toBeCloseTo(1, 9);
    }
  });

  test('its middle stands where the equator meets Greenwich', () => {
    expect(toLngLat(5000, 5000)).toEqual([0, 0]);
  });
});

test('one absurd coordinate gets a place on the map, and stops nothing', () => {
  for (const [east, north] of [
    [4.9e7, 1.8e8],
    [-1e12, 1e12],
  ] as const) {
    const [lng, lat] = indiana(east, north);
    expect(Number.isFinite(lng)).toBe(true);
    expect(Math.abs(lat)).toBeLessThanOrEqual(85);
  }
});
