/**
 * A site of 3,000 nodes and 500 drawn utilities: laid, clipped and cleared. The
 * peer is Turf alone, in the same run: a point in the polygon, then the
 * distance to every line. Turf measures on a sphere, so the site stands where
 * the equator meets Greenwich and a metre is 1/111,195 of a degree.
 */
import {
  booleanPointInPolygon,
  featureCollection,
  lineString,
  point,
  pointToLineDistance,
  polygon,
} from '@turf/turf';
import { bench, describe } from 'vitest';
import type { Feature } from '../../src/domain/site/schema';
import { layGrid } from '../../src/domain/layout/grids';
import { groundPlanOf } from '../../src/domain/layout/ground-plan';
import { repeatFor, type Lattice } from '../../src/domain/layout/lattice';
import { seeded } from '../../src/domain/layout/seeded';
import { metres, azimuth } from '../../src/domain/units';

const SIDE = 1000;
const NODES = 3000;
const UTILITIES = 500;
const BUFFER = 2;

const random = seeded(20260531);
const lines = Array.from({ length: UTILITIES }, () => {
  const [x, y] = [random() * SIDE, random() * SIDE];
  return [
    [x, y],
    [x + 120 * (random() - 0.5), y + 120 * (random() - 0.5)],
  ] as const;
});
const ring = [
  [0, 0],
  [SIDE, 0],
  [SIDE, SIDE],
  [0, SIDE],
  [0, 0],
] as const;

const words = (places: readonly (readonly number[])[]) => places.map((p) => p.join(' ')).join(', ');
const feature = (
  id: string,
  kind: Feature['kind'],
  shape: string,
  buffer: number | null,
): Feature => ({
  row: 2,
  id,
  kind,
  name: null,
  shape,
  carries: null,
  width: null,
  buffer: buffer === null ? null : { value: metres(buffer), text: String(buffer), unit: 'm' },
  note: null,
});
const features = [
  feature('B', 'boundary', `POLYGON ((${words(ring)}))`, null),
  ...lines.map((line, i) => feature(`U${i}`, 'utility', `LINESTRING (${words(line)})`, BUFFER)),
];

const repeat = repeatFor('triangular', SIDE * SIDE, NODES);
const lattice = (rows: number): Lattice => {
  if (!repeat) throw new Error('no spacing');
  return { ...repeat, rows: azimuth(rows), start: [3, 5] };
};

const DEGREE = 111_195;
const onGlobe = ([x = 0, y = 0]: readonly number[]) => [x / DEGREE, y / DEGREE];
const turfGround = polygon([ring.map(onGlobe)]);
const turfLines = featureCollection(lines.map((line) => lineString(line.map(onGlobe))));

const plan = groundPlanOf(features, 'm').plan;
const laid = layGrid(lattice(90), plan);
const places = laid.ok ? laid.value.map(({ at }) => at) : [];

describe('3,000 nodes among 500 utilities', () => {
  const few = { iterations: 5, warmupIterations: 1, time: 0, warmupTime: 0 };

  bench(
    'features read, grid laid, clipped and cleared',
    () => {
      layGrid(lattice(90), groundPlanOf(features, 'm').plan);
    },
    few,
  );

  let turn = 0;
  bench(
    'the angle dragged by a degree',
    () => {
      layGrid(lattice(90 + turn++), plan);
    },
    few,
  );

  bench(
    'Turf alone: in the polygon, and off every line',
    () => {
      for (const place of places) {
        const at = point(onGlobe(place));
        if (!booleanPointInPolygon(at, turfGround)) continue;
        turfLines.features.some(
          (line) => pointToLineDistance(at, line, { units: 'meters', method: 'planar' }) < BUFFER,
        );
      }
    },
    { iterations: 1, warmupIterations: 0, time: 0, warmupTime: 0 },
  );
});
