/**
 * Planes, kriging, layout and import against their peers, each at one, four and
 * sixteen times the size.
 *
 *     npx tsx tests/bench/growing-work.ts
 */
import peerKriging from '@sakitam-gis/kriging';
import { booleanPointInPolygon, lineString, point as turfPoint, pointToLineDistance, polygon } from '@turf/turf'; // prettier-ignore
import { Matrix, solve } from 'ml-matrix';
import Papa from 'papaparse';
import { layGrid } from '../../src/domain/layout/grids';
import { repeatFor } from '../../src/domain/layout/lattice';
import { allAtOnce } from '../../src/domain/steps';
import { azimuth, metres } from '../../src/domain/units';
import { fitMany, type WellSets } from '../../src/domain/water/fit-many';
import { kriged } from '../../src/domain/water/surface/kriging';
import { krigedGrid } from '../../src/domain/water/surface/kriging-grid';
import { proposeMapping } from '../../src/io/import/match-columns';
import { preview } from '../../src/io/import/preview';
import { readDelimited } from '../../src/io/import/read-delimited';
import { verdictCounts } from '../../src/io/import/verdicts';
import { emptySite, importInto, sourceOf, targetOf } from '../unit/import/target';
import { drawn, planOf } from '../unit/layout/ground';
import { point } from '../unit/surface/oracle';
import { seeded } from '../../src/domain/layout/seeded';
import { valueOf } from '../unit/water/wells';
import { labFile, LEVELS } from './lab-file';
import { inRounds } from './rounds';

const GROWTH = [1, 4, 16] as const;
const counted = (n: number) => n.toLocaleString('en-US');
const random = seeded(20261125);

const WELLS = 8;
for (const times of GROWTH) {
  const fits = 2_500 * times;
  const count = fits * WELLS;
  const [x, y] = [0, 0].map(() => Float64Array.from({ length: count }, () => 500 * random()));
  if (!x || !y) break;
  const head = x.map((at, i) => 30 - 0.003 * at + 0.002 * (y[i] ?? 0) + 0.02 * random());
  const starts = Uint32Array.from({ length: fits + 1 }, (_, k) => WELLS * k);
  const sets: WellSets = { starts, x, y, head, weight: null };
  const tall = Array.from({ length: fits }, (_, k) => {
    const own = Array.from({ length: WELLS }, (__, i) => WELLS * k + i);
    return {
      x: new Matrix(own.map((i) => [1, (x[i] ?? 0) - 250, (y[i] ?? 0) - 250])),
      h: Matrix.columnVector(own.map((i) => head[i] ?? 0)),
    };
  });
  await inRounds(
    `${counted(fits)} planes through ${WELLS} wells`,
    [
      {
        name: 'ml-matrix, least squares by QR',
        run: () => tall.map((each) => solve(each.x, each.h)),
      },
      { name: 'ours', run: () => fitMany(sets) },
    ],
    5,
  );
}

const SIDE = 50;
const FRAME = { x: metres(0), y: metres(0), step: metres(20), columns: SIDE, rows: SIDE };
for (const times of GROWTH) {
  const wells = Array.from({ length: 40 * times }, (_, i) => {
    const [x, y] = [1000 * random(), 1000 * random()];
    return point(`W${i}`, x, y, 30 - 0.004 * x + 0.2 * random());
  });
  const model = { shape: 'exponential', sill: 0.02, range: metres(300), nugget: 0.0005, anisotropy: null } as const; // prettier-ignore
  const surface = () => valueOf(kriged(wells, { model, drift: 'linear', errors: 'ignored' }));
  const trained = peerKriging.train(
    wells.map(({ head }) => head),
    wells.map(({ x }) => x),
    wells.map(({ y }) => y),
    'exponential',
    0,
    100,
  );
  const solved = surface();
  await inRounds(
    `Kriged heads of ${counted(wells.length)} wells at ${SIDE} × ${SIDE} nodes`,
    [
      {
        name: 'the npm kriging package, its system solved before',
        run: () => {
          for (let k = 0; k < SIDE * SIDE; k++)
            peerKriging.predict((k % SIDE) * 20, Math.floor(k / SIDE) * 20, trained);
        },
      },
      {
        name: 'ours, its system solved before',
        run: () => allAtOnce(krigedGrid(solved, FRAME, { variance: false, mask: null })),
      },
      {
        name: 'ours, the system solved with it',
        run: () => allAtOnce(krigedGrid(surface(), FRAME, { variance: false, mask: null })),
      },
    ],
    5,
  );
}

const GROUND = 1000;
const DEGREE = 111_195; // metres, where the equator meets Greenwich
for (const times of GROWTH) {
  const lines = Array.from({ length: 60 }, () => {
    const [x, y] = [GROUND * random(), GROUND * random()];
    return [x, y, x + 120 * (random() - 0.5), y + 120 * (random() - 0.5)] as const;
  });
  const corners = [
    [0, 0],
    [GROUND, 0],
    [GROUND, GROUND],
    [0, GROUND],
    [0, 0],
  ] as const;
  const words = corners.map((corner) => corner.join(' ')).join(', ');
  const plan = planOf(
    drawn('boundary', 'site', `POLYGON ((${words}))`),
    ...lines.map(([x, y, toX, toY], i) =>
      drawn('utility', `U${i}`, `LINESTRING (${x} ${y}, ${toX} ${toY})`, 0, 2),
    ),
  );
  const nodes = 250 * times;
  const repeat = repeatFor('triangular', GROUND * GROUND, nodes);
  if (!repeat) throw new Error('no spacing');
  const grid = { ...repeat, rows: azimuth(80), start: [3, 5] as [number, number] };
  const places = valueOf(layGrid(grid, plan)).map(({ at: [x, y] }) => turfPoint([x / DEGREE, y / DEGREE])); // prettier-ignore
  const ground = polygon([corners.map(([x, y]) => [x / DEGREE, y / DEGREE])]);
  const drawnLines = lines.map(([x, y, toX, toY]) =>
    lineString([
      [x / DEGREE, y / DEGREE],
      [toX / DEGREE, toY / DEGREE],
    ]),
  );
  await inRounds(
    `A grid of about ${counted(nodes)} nodes among 60 utilities`,
    [
      {
        name: 'Turf alone: in the polygon, and off every line',
        run: () =>
          places.filter(
            (at) =>
              booleanPointInPolygon(at, ground) &&
              !drawnLines.some(
                (line) => pointToLineDistance(at, line, { units: 'meters', method: 'planar' }) < 2,
              ),
          ),
      },
      { name: 'ours: laid, clipped and cleared', run: () => layGrid(grid, plan) },
    ],
    3,
  );
}

const levels = sourceOf('levels.csv', ...LEVELS.trimEnd().split('\n'));
const site = importInto(emptySite(), levels, { 'is screening_levels.set': 'Levels' }).after;
const ANSWERS = {
  'new locations': 'monitoring well',
  'is samples.kind': 'field sample',
  rounds: 'year',
};
for (const times of GROWTH) {
  const bytes = labFile(62_500 * times);
  const file = new Blob([bytes]);
  const target = targetOf(site);
  await inRounds(
    `A laboratory file of ${counted(62_500 * times)} rows, one reader in Node`,
    [
      {
        name: 'PapaParse alone, the whole text',
        run: () => Papa.parse(new TextDecoder().decode(bytes)).data.length,
      },
      {
        name: 'ours: read, checked, converted and given verdicts',
        run: async () => {
          const steps = readDelimited('lab.csv', file);
          let step = await steps.next();
          while (!step.done) step = await steps.next();
          const source = valueOf(step.value);
          const made = preview(source, proposeMapping(source).mapping, ANSWERS, target);
          return verdictCounts(made.edit, target);
        },
      },
    ],
    3,
  );
}
