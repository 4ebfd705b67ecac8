/** One site has one gradient and one direction, however it is written down. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { inUnits, metres, turn, type LengthUnit } from '../../../src/domain/units';
import { flowOf, type Flow } from '../../../src/domain/water/flow';
import { siteFrom } from '../site-from';

type Well = { readonly east: number; readonly north: number; readonly depth: number };

/** Eight wells in metres about a flat site, and the depth to water in each below a mark at 30 m. */
const WELLS: readonly Well[] = [
  { east: 0, north: 0, depth: 4.0 },
  { east: 120, north: 15, depth: 4.31 },
  { east: 60, north: 95, depth: 4.42 },
  { east: 140, north: 120, depth: 4.71 },
  { east: 10, north: 140, depth: 4.33 },
  { east: 200, north: 40, depth: 4.74 },
  { east: 90, north: 180, depth: 4.66 },
  { east: 210, north: 160, depth: 4.98 },
];

function write(
  wells: readonly Well[],
  grid: LengthUnit,
  vertical: LengthUnit,
  scale = 1,
  turned = 0,
): Flow {
  const t = (turned * Math.PI) / 180;
  const text = (length: number, unit: LengthUnit) => inUnits(metres(length), unit).toFixed(7);
  const place = ({ east, north }: Well) => [
    500_000 + scale * (east * Math.cos(t) + north * Math.sin(t)),
    4_218_800 + scale * (north * Math.cos(t) - east * Math.sin(t)),
  ];
  const site = siteFrom(
    {
      locations: [
        'id,easting,northing,ground_elevation,ground_how,kind,status',
        ...wells.map((well, i) => {
          const [e = 0, n = 0] = place(well);
          return `W${i},${text(e, grid)},${text(n, grid)},${text(29, vertical)},surveyed,monitoring well,installed`;
        }),
      ],
      screens: ['id,location,zone', ...wells.map((_, i) => `W${i},W${i},shallow`)],
      measuring_points: [
        'id,screen,elevation',
        ...wells.map((_, i) => `M${i},W${i},${text(30, vertical)}`),
      ],
      events: ['id,first_day,last_day', 'E1,2026-04-01,2026-04-01'],
      water_levels: [
        'screen,event,measuring_point,time,depth_to_water,status',
        ...wells.map(
          ({ depth }, i) => `W${i},E1,M${i},2026-04-01T09:0${i},${text(depth, vertical)},static`,
        ),
      ],
    },
    { grid: { name: '', code: null, projection: null, unit: grid }, verticalUnit: vertical },
    { combinedFactor: scale, pointScale: scale },
  );
  return flowOf(site, 'E1', 'shallow');
}

const metric = write(WELLS, 'm', 'm');

const same = (flow: Flow, turned = 0) => {
  expect((flow.gradient?.value ?? NaN) / (metric.gradient?.value ?? NaN)).toBeCloseTo(1, 6);
  expect(
    turn((metric.azimuthGrid?.value ?? NaN) + turned, flow.azimuthGrid?.value ?? NaN),
  ).toBeCloseTo(0, 4);
};

describe('the same site gives one gradient and one direction', () => {
  test.each([
    ['all in international feet', 'ft', 'ft'],
    ['all in US survey feet', 'us-ft', 'us-ft'],
    ['grid in metres, elevations in feet', 'm', 'ft'],
    ['grid in US survey feet, elevations in feet', 'us-ft', 'ft'],
    ['grid in feet, elevations in metres', 'ft', 'm'],
  ] as const)('%s', (_, grid, vertical) => same(write(WELLS, grid, vertical)));

  test.each([1.0004, 0.9996])('in a grid of scale %d', (scale) =>
    same(write(WELLS, 'm', 'm', scale)),
  );

  test('turned 37°, the direction turns 37°', () => same(write(WELLS, 'm', 'm', 1, 37), 37));

  test('turned by any angle, in any units and scale', () => {
    const unit = fc.constantFrom<LengthUnit>('m', 'ft', 'us-ft');
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 359 }),
        unit,
        unit,
        fc.double({ min: 0.9995, max: 1.0005, noNaN: true }),
        (angle, grid, vertical, scale) => same(write(WELLS, grid, vertical, scale, angle), angle),
      ),
      { numRuns: 40 },
    );
  });
});

describe('no arrow where the data cannot answer', () => {
  const level = (depths: readonly number[]) =>
    write(
      depths.map((depth, i) => ({ ...(WELLS[i] as Well), depth })),
      'us-ft',
      'ft',
    );
  test('three equal heads: level, no direction, and the reason', () => {
    const flow = level([4.1, 4.1, 4.1]);
    expect([flow.azimuthGrid, flow.azimuthTrue, flow.azimuthStandardError]).toEqual([
      null,
      null,
      null,
    ]);
    expect(flow.gradient?.value).toBe(0);
    expect(flow.reason).toBe('The heads do not differ: the surface is level and has no direction.');
  });
  test('two heads', () => {
    expect(level([4.1, 4.2])).toMatchObject({
      gradient: null,
      resolved: false,
      reason: 'Only 2 heads count in this zone at this event; three are needed.',
    });
  });
  test('wells in a line', () => {
    const line = [0, 1, 2, 3].map((i) => ({ east: 10 * i, north: 5 * i, depth: 4 + i / 10 }));
    expect(write(line, 'm', 'm').reason).toBe(
      'The wells are in a line: heads along a line say nothing of the fall across it.',
    );
  });
  test('a fall smaller than its error', () => {
    const flow = level([4.1, 4.101, 4.1]);
    expect(flow.azimuthGrid).toBeNull();
    expect(flow.reason).toMatch(/no more than the stated errors/);
  });
});
