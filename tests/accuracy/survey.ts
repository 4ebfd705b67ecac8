/** Level loops and the allowable misclosure. */
import { chosen } from '../../src/domain/layout/given';
import { adjusted } from '../../src/domain/survey/adjustment';
import { closureOf, levelLoop, type LevelLoop } from '../../src/domain/survey/level-loop';
import { allowable, LEVEL_ORDERS } from '../../src/domain/survey/misclosure';
import { inUnits, metres, type LengthUnit } from '../../src/domain/units';
import { valueOf } from '../unit/water/wells';
import { values, type AccuracyCase } from './case';

/** From a benchmark over turning points, closing on the last point's known elevation or on the first. */
function run(
  known: number,
  points: readonly string[],
  backs: readonly number[],
  fores: readonly number[],
  close: number | null,
  unit: LengthUnit,
): LevelLoop {
  const given = (n: number | null | undefined) =>
    n === null || n === undefined ? null : chosen(n, unit, 'level book');
  return valueOf(
    levelLoop(
      points.map((point, i) => ({
        order: i + 1,
        point,
        backsight: given(backs[i]),
        foresight: given(fores[i - 1]),
        known: given(i === 0 ? known : i === points.length - 1 ? close : null),
        distance: null,
      })),
    ),
  );
}

const misclosure = (loop: LevelLoop, unit: LengthUnit) => {
  const closure = closureOf(loop);
  return closure && inUnits(closure.misclosure.value, unit);
};

const limit = (name: string, kilometres: number) => {
  const order = LEVEL_ORDERS.find((one) => one.name === name);
  return order && allowable(order, metres(1000 * kilometres)).value;
};

export const survey = (): AccuracyCase[] => {
  const worked = run(
    100,
    ['A', 'TP1', 'TP2', 'TP3', 'B'],
    [3.1, 6.44, 8.76, 7.12],
    [9.82, 6.96, 3.27, 10.42],
    94.91,
    'ft',
  );
  const tree = run(
    814.08,
    ['BM Tree', 'TP1', 'BM X', 'TP2', 'BM Tree'],
    [6.78, 5.04, 5.63, 7.35],
    [7.76, 5.05, 2.64, 9.27],
    null,
    'ft',
  );
  const bm7 = run(
    852.045,
    ['BM7', 'TP1', 'TP2', 'TP3', 'TP4', 'BM7'],
    [4.388, 6.907, 4.68, 3.73, 8.464],
    [4.538, 8.8, 5.978, 5.245, 3.598],
    null,
    'm',
  );
  const elevations = (loop: LevelLoop, unit: LengthUnit) =>
    valueOf(adjusted(loop, 'set-ups', null))
      .slice(1)
      .map(({ elevation }) => inUnits(elevation.value, unit));
  const mile = (1.609344 * 5280) / 5280;
  return [
    values(
      {
        quantity: 'level run: elevations',
        source: 'a worked problem, BM A 100.00 to BM B 94.91',
        known: 'published',
      },
      [93.28, 92.76, 98.25, 94.95],
      worked.stations.slice(1).map(({ elevation }) => inUnits(elevation.value, 'ft')),
      { decimals: 2, unit: 'ft', tolerance: 1e-9 },
    ),
    values(
      { quantity: 'level run: misclosure', source: 'the same', known: 'published' },
      [0.04],
      [misclosure(worked, 'ft')],
      { decimals: 2, unit: 'ft', tolerance: 1e-9 },
    ),
    values(
      {
        quantity: 'level loop: misclosure',
        source: 'C. D. Ghilani and P. R. Wolf, Elementary Surveying, prob. 5.12 (its readings)',
        known: 'computed independently',
      },
      [0.01],
      [misclosure(bm7, 'm')],
      { decimals: 3, unit: 'm', tolerance: 1e-9 },
    ),
    values(
      {
        quantity: 'level loop: adjusted elevations',
        source: 'Ghilani and Wolf, prob. 5.12 (its readings)',
        known: 'computed independently',
      },
      [851.893, 849.998, 848.698, 847.181, 852.045],
      elevations(bm7, 'm'),
      { decimals: 3, unit: 'm', tolerance: 5.1e-4 },
    ),
    values(
      {
        quantity: 'level loop: adjusted elevations',
        source: 'Ghilani and Wolf, BM Tree (its readings), +0.08 shared by hand over four set-ups',
        known: 'worked by hand',
      },
      [813.08, 813.05, 816.02, 814.08],
      elevations(tree, 'ft'),
      { decimals: 2, unit: 'ft', tolerance: 1e-9 },
    ),
    values(
      {
        quantity: 'allowable misclosure, third order',
        source: '12 mm √km, FGCC, 1984 (as quoted), 1.5 km',
        known: 'published',
      },
      [0.0147],
      [limit('Third order', 1.5)],
      { decimals: 4, unit: 'm', tolerance: 5.1e-5 },
    ),
    values(
      {
        quantity: 'allowable misclosure, third order',
        source: '0.04994 ft for a mile, by a program in another language',
        known: 'computed independently',
      },
      [0.04994],
      [inUnits(metres(limit('Third order', mile) ?? NaN), 'ft')],
      { decimals: 5, unit: 'ft', tolerance: 5.1e-6 },
    ),
  ];
};
