import { describe, expect, test } from 'vitest';
import { evaluate } from '../../../src/domain/arithmetic';
import { EARTH_RADIUS } from '../../../src/domain/grid';
import { plainNumber, printWork } from '../../../src/domain/print-work';
import { inPrintUnits, unitsTogether } from '../../../src/domain/show';
import { degrees, inUnits, metres } from '../../../src/domain/units';
import { flowOf } from '../../../src/domain/water/flow';
import type { Term, Work } from '../../../src/domain/work';
import { siteFrom } from '../site-from';

const LEVELS = [
  ['A', 0, 0, 8.0],
  ['B', 300, 40, 9.1],
  ['C', 60, 310, 8.4],
  ['D', 280, 290, 9.3],
  ['E', 150, 160, 8.75],
] as const;

const flowWith = (grid: object, more: readonly string[] = []) => {
  const site = siteFrom(
    {
      locations: [
        'id,easting,northing,ground_elevation,ground_how,kind,status',
        ...LEVELS.map(([id, e, n]) => `${id},${e},${n},100,surveyed,monitoring well,installed`),
      ],
      screens: ['id,location,zone', ...LEVELS.map(([id]) => `${id},${id},shallow`)],
      measuring_points: ['id,screen,elevation', ...LEVELS.map(([id]) => `${id}-mp,${id},102.00`)],
      events: ['id,first_day,last_day', 'E1,2026-04-01,2026-04-02'],
      water_levels: [
        'screen,event,measuring_point,time,depth_to_water,status',
        ...LEVELS.map(
          ([id, , , dtw], i) => `${id},E1,${id}-mp,2026-04-01T0${i}:00,${dtw.toFixed(2)},static`,
        ),
        ...more,
      ],
    },
    { elevation: metres(300, 'ft') },
    grid,
  );
  return flowOf(site, 'E1', 'shallow');
};
/** R/(R + h) at 300 ft, times the scale of the grid there. */
const SCALE = 0.9996;
const FACTOR = (SCALE * EARTH_RADIUS) / (EARTH_RADIUS + 300 * 0.3048);
const flow = flowWith({
  pointScale: SCALE,
  combinedFactor: FACTOR,
  convergence: degrees(-1.5),
  name: 'Zone 5',
});

const worksUnder = (work: Work): Work[] => [
  work,
  ...work.terms.flatMap(({ from }) => (from.kind === 'work' ? worksUnder(from.work) : [])),
  ...(work.table?.works ?? []).flat().flatMap(worksUnder),
];
const term = (work: Work, symbol: string): Term => {
  const found = work.terms.find((one) => one.symbol === symbol);
  if (!found) throw new Error(`no ${symbol} in ${work.title}`);
  return found;
};
const workOf = ({ from }: Term): Work => {
  if (from.kind !== 'work') throw new Error('it is no work');
  return from.work;
};

test('every formula under gradient and direction gives its answer from its terms', () => {
  const all = [flow.gradient!, flow.azimuthGrid!, flow.azimuthTrue!].flatMap(({ work }) =>
    worksUnder(work),
  );
  expect(all.length).toBeGreaterThan(20);
  for (const work of all) {
    const symbols = new Map(work.terms.map(({ symbol, value }) => [symbol, value]));
    const value = evaluate(work.formula, symbols);
    expect(value, `${work.title}: ${work.formula}`).not.toBeNull();
    const apart = Math.abs(value! - work.answer.value);
    expect(apart / Math.max(1e-9, Math.abs(work.answer.value)), work.title).toBeLessThan(1e-8);
    for (const { from } of work.terms)
      if (from.kind === 'citation') expect(from.text.length).toBeGreaterThan(3);
  }
});

describe('the gradient', () => {
  const { work } = flow.gradient!;
  test('is of two slopes, each from sums over the wells about their middle', () => {
    expect([work.formula, work.symbol, work.answer.dimension]).toEqual([
      'sqrt(a^2 + b^2)',
      'i',
      'slope',
    ]);
    expect(work.terms.map(({ symbol, name, dimension }) => [symbol, name, dimension])).toEqual([
      ['a', 'rise of head toward east, per distance', 'slope'],
      ['b', 'rise of head toward north, per distance', 'slope'],
    ]);
    const [a, b] = work.terms.map(workOf);
    expect([a!.title, b!.title]).toEqual([
      'Slope of the plane toward east',
      'Slope of the plane toward north',
    ]);
    expect(a!.formula).toBe('(Sxh * Syy - Syh * Sxy) / (Sxx * Syy - Sxy^2)');
    expect(b!.formula).toBe('(Syh * Sxx - Sxh * Sxy) / (Sxx * Syy - Sxy^2)');
    // All heads alike in error: the sums are those of the coordinates, on the ground.
    const ground = (of: 1 | 2) => LEVELS.map((well) => metres(well[of], 'ft') / FACTOR);
    const mean = (of: readonly number[]) => of.reduce((sum, x) => sum + x, 0) / of.length;
    const [x, y] = [ground(1), ground(2)];
    const h = LEVELS.map(([, , , dtw]) => metres(102 - dtw, 'ft'));
    const sum = (p: readonly number[], q: readonly number[]) =>
      p.reduce((total, one, i) => total + (one - mean(p)) * (q[i]! - mean(q)), 0);
    expect(term(a!, 'Sxx').value).toBeCloseTo(sum(x, x), 6);
    expect(term(a!, 'Syy').value).toBeCloseTo(sum(y, y), 6);
    expect(term(a!, 'Sxy').value).toBeCloseTo(sum(x, y), 6);
    expect(term(a!, 'Sxh').value).toBeCloseTo(sum(x, h), 9);
    expect(term(b!, 'Syh').value).toBeCloseTo(sum(y, h), 9);
    expect(a!.note).toContain(`combined factor ${FACTOR.toFixed(7)}.`);
  });

  // A hand check with a calculator: the sums from the table as printed, in one unit with it.
  test('prints its sums in the unit of the table over which they are, whatever that of the grid', () => {
    const units = { vertical: 'ft', grid: 'm' } as const;
    const slope = workOf(work.terms[0]!);
    const dimensions = slope.table!.columns.map(({ dimension }) => dimension);
    const together = unitsTogether(dimensions, units);
    expect(together).toEqual({ vertical: 'ft', grid: 'ft' });
    const rows = slope.table!.rows.map(
      (row) =>
      [1, 2, 3].map((at) => inPrintUnits({ value: row[at] as number, dimension: dimensions[at] as 'length' }, together)), // prettier-ignore
    );
    const mean = [0, 1, 2].map((at) => rows.reduce((sum, row) => sum + row[at]!, 0) / rows.length);
    const sum = (p: number, q: number) =>
      rows.reduce((total, row) => total + (row[p]! - mean[p]!) * (row[q]! - mean[q]!), 0);
    const printed = new Map(
      printWork(slope, units).terms.map(({ symbol, number, unit }) => [symbol, { number, unit }]),
    );
    for (const [symbol, p, q] of [
      ['Sxx', 0, 0],
      ['Syy', 1, 1],
      ['Sxy', 0, 1],
      ['Sxh', 0, 2],
    ] as const) {
      // prettier-ignore
      const { number, unit } = printed.get(symbol)!;
      expect(unit).toBe('ft²');
      expect(plainNumber(number) / sum(p, q)).toBeCloseTo(1, 4);
    }
  });

  test('lists every well with its place, head, fit, residual and weight', () => {
    const { table } = workOf(work.terms[0]!);
    expect(table?.columns.map(({ name, dimension }) => [name, dimension])).toEqual([
      ['well', 'text'], ['x', 'distance'], ['y', 'distance'], ['head', 'length'],
      ['fitted', 'length'], ['residual', 'length'], ['weight', 'number'],
    ]); // prettier-ignore
    expect(table?.rows.map(([id]) => id)).toEqual(['A', 'B', 'C', 'D', 'E']);
    table?.rows.forEach(([, , , head, fitted, residual, weight]) => {
      expect((fitted as number) + (residual as number)).toBeCloseTo(head as number, 9);
      expect(weight).toBeCloseTo(1, 12);
    });
    const works = table!.works![1] as readonly Work[];
    expect(works.map(({ title }) => title.replace(/, .*/, ''))).toEqual([
      'Head in B',
      'Ground distance of B east of the middle',
      'Ground distance of B north of the middle',
    ]);
    expect(works[1]!.formula).toBe('(easting - middle) / factor');
    expect(term(works[1]!, 'easting').from).toMatchObject({
      kind: 'cell',
      table: 'locations',
      column: 'easting',
    });
    expect(inUnits(metres(term(works[2]!, 'middle').value), 'ft')).toBeCloseTo(
      (0 + 40 + 310 + 290 + 160) / 5,
      9,
    );
  });

  test('is printed to four figures', () => {
    // About 0.0039: six places.
    expect(work.decimals).toBe(3 - Math.floor(Math.log10(flow.gradient!.value)));
    expect(work.answer.value).toBe(flow.gradient!.value);
  });
});

describe('the combined factor', () => {
  const factorOf = (of: typeof flow) => {
    const works = workOf(of.gradient!.work.terms[0]!).table!.works![0] as readonly Work[];
    return workOf(term(works[1]!, 'factor'));
  };
  test('is the scale of the grid and the height of the site', () => {
    const factor = factorOf(flow);
    expect(factor.formula).toBe('k * R / (R + h)');
    expect(term(factor, 'k')).toMatchObject({ value: SCALE, from: { text: 'Zone 5' } });
    expect(term(factor, 'R').value).toBe(EARTH_RADIUS);
    expect(term(factor, 'h')).toMatchObject({
      value: metres(300, 'ft'),
      from: { kind: 'setting', name: 'elevation' },
    });
    expect(factor.answer).toEqual({ value: FACTOR, dimension: 'number' });
  });
  test('is one where the grid has none, and that is said', () => {
    const none = flowWith({ pointScale: null, combinedFactor: null });
    const factor = factorOf(none);
    expect([factor.formula, factor.answer.value]).toEqual(['one', 1]);
    expect(factor.terms[0]?.name).toContain('no factor is known');
    expect(workOf(none.gradient!.work.terms[0]!).note).toContain('1, none being known');
  });
});

describe('the direction', () => {
  test('down the plane from grid north, and turned by the convergence from true north', () => {
    const grid = flow.azimuthGrid!;
    expect(grid.work).toMatchObject({
      formula: 'azimuth(-a, -b)',
      symbol: 'θ',
      decimals: 1,
      answer: { value: grid.value, dimension: 'angle' },
    });
    const known = flow.azimuthTrue!;
    expect(known.work.formula).toBe('turn(θ + γ)');
    expect(known.value).toBeCloseTo(grid.value - 1.5, 9);
    expect(workOf(term(known.work, 'θ'))).toBe(grid.work);
    expect(term(known.work, 'γ')).toMatchObject({
      value: -1.5,
      dimension: 'angle',
      from: { kind: 'citation', text: 'Zone 5, at the middle of the site' },
    });
  });

  test('a grid that is not turned toward true north gives no true direction', () => {
    const local = flowWith({ convergence: null });
    expect(local.azimuthGrid).not.toBeNull();
    expect([local.azimuthTrue, local.convergence]).toEqual([null, null]);
  });

  test('what the flow states beside it: errors, half-widths, what was fitted', () => {
    expect(flow.fitted.map(({ gauged, head, fitted, residual }) => [gauged.screen.id, Math.abs(head - fitted - residual) < 1e-9])).toEqual(
      LEVELS.map(([id]) => [id, true]),
    ); // prettier-ignore
    expect(inUnits(flow.centre!.easting, 'ft')).toBeCloseTo((300 + 60 + 280 + 150) / 5, 9);
    const { confidence, plane } = flow;
    const governed = confidence![confidence!.governing]!;
    expect(flow.azimuthHalfWidth).toBe(governed.azimuth);
    expect(flow.gradientHalfWidth).toBe(governed.gradient);
    expect(flow.rSquared).toBe(plane!.rSquared);
    expect(flow.isPlane).toBe(confidence!.isPlane);
    expect(flow.resolved).toBe(true);
    expect(flow.reason).toBeNull();
    expect(flow.findings.length).toBeGreaterThan(1);
    const error = plane![confidence!.governing]!;
    expect(flow.azimuthStandardError).toBe(error.azimuth);
    expect(flow.gradientStandardError).toBe(error.gradient);
  });
});
