/**
 * Projection, triangulation and contours against their peers, each at
 * one, four and sixteen times the size.
 *
 *     npx tsx tests/bench/growing.ts
 */
import { featureCollection, isolines, point as turfPoint, tin as turfTin } from '@turf/turf';
import { contours as d3Contours } from 'd3-contour';
import proj4 from 'proj4';
import { metres } from '../../src/domain/units';
import { gridContours } from '../../src/domain/water/surface/contour';
import { triangulate } from '../../src/domain/water/surface/tin';
import type { SurfaceGrid } from '../../src/domain/water/surface/surface-grid';
import { openGrid } from '../../src/io/projection/open-grid';
import { seeded } from '../../src/domain/layout/seeded';
import { point } from '../unit/surface/oracle';
import { valueOf } from '../unit/water/wells';
import { inRounds } from './rounds';

const GROWTH = [1, 4, 16] as const;
const random = seeded(20261125);

const UTM = '+proj=utm +zone=14 +datum=NAD83 +units=m +no_defs';
for (const times of GROWTH) {
  const places = Array.from(
    { length: 5_000 * times },
    () => [-101 + 4 * random(), 29 + 3 * random()] as const,
  );
  const grid = valueOf(openGrid({ code: null, projection: UTM, unit: 'm' }));
  const alone = proj4(UTM);
  await inRounds(`Projection of ${places.length.toLocaleString('en-US')} places`, [
    { name: 'proj4 alone', run: () => places.map(([lng, lat]) => alone.forward([lng, lat])) },
    { name: 'ours', run: () => places.map(([lng, lat]) => grid.fromOwnLngLat(lng, lat)) },
  ]);
}

const head = (x: number, y: number) => 30 - 0.004 * x + 0.5 * Math.sin(x / 90) * Math.cos(y / 70);

for (const times of GROWTH) {
  const wells = Array.from({ length: 250 * times }, (_, i) => {
    const [x, y] = [1000 * random(), 1000 * random()];
    return point(`W${i}`, x, y, head(x, y));
  });
  const turf = featureCollection(
    wells.map(({ x, y, head: z }) => turfPoint([x / 111_195, y / 111_195], { z })),
  );
  await inRounds(`Triangulation of ${wells.length.toLocaleString('en-US')} wells`, [
    { name: 'Turf tin', run: () => turfTin(turf, 'z') },
    { name: 'ours, same places merged and the outline kept', run: () => triangulate(wells) },
  ]);
}

const LEVELS = Array.from({ length: 16 }, (_, i) => 26 + 0.25 * i);

for (const times of GROWTH) {
  const side = 50 * Math.sqrt(times);
  const step = 1000 / (side - 1);
  const heads = Float64Array.from({ length: side * side }, (_, k) =>
    head((k % side) * step, Math.floor(k / side) * step),
  );
  const grid: SurfaceGrid = {
    frame: { x: metres(0), y: metres(0), step: metres(step), columns: side, rows: side },
    heads,
    variances: null,
  };
  const turf = featureCollection(
    Array.from(heads, (z, k) =>
      turfPoint([((k % side) * step) / 111_195, (Math.floor(k / side) * step) / 111_195], { z }),
    ),
  );
  const d3 = d3Contours().size([side, side]).thresholds(LEVELS);
  const list = [...heads];
  await inRounds(`16 contours of a grid of ${side} × ${side}`, [
    { name: 'd3-contour', run: () => d3(list) },
    { name: 'Turf isolines', run: () => isolines(turf, LEVELS, { zProperty: 'z' }) },
    {
      name: 'ours, open lines in grid units',
      run: () => LEVELS.map((level) => gridContours(grid, metres(level))),
    },
  ]);
}
