import { describe, expect, test } from 'vitest';
import { inUnits, metres } from '../../../src/domain/units';
import { culpritWords, driverWords } from '../../../src/domain/water/influence-words';
import {
  changesSince,
  dayOf,
  flowsOverTime,
  hydrographs,
} from '../../../src/domain/water/over-time';
import { directionRose } from '../../../src/domain/water/rose';
import {
  fittingExaggeration,
  headUnder,
  placeOnLine,
  sectionLines,
  sectionOf,
} from '../../../src/domain/water/section';
import { noFlowLines, surfaceProblemWords } from '../../../src/domain/water/surface-words';
import type { VariogramModel } from '../../../src/domain/water/surface/variogram-model';
import {
  lagPoints,
  modelOf,
  termsOf,
  variogramCurve,
} from '../../../src/domain/water/variogram-terms';
import { wayTo } from '../../../src/domain/water/way-to-receptor';
import { flowOf } from '../../../src/domain/water/flow';
import { headsOf } from '../../../src/domain/water/event-heads';
import { siteFrom } from '../site-from';

const FEET = { vertical: 'ft', grid: 'ft' } as const;
const MIXED = { vertical: 'ft', grid: 'm' } as const;

describe('a variogram as it is typed', () => {
  const spherical: VariogramModel = {
    shape: 'spherical',
    nugget: 0.01,
    sill: 0.5,
    range: metres(120),
    anisotropy: null,
  };
  const linear: VariogramModel = { shape: 'linear', nugget: 0.01, slope: 0.002, anisotropy: null };

  test('squares of the vertical unit, ranges in the grid’s', () => {
    // 1 ft² is 0.09290304 m², exactly.
    const typed = termsOf(spherical, MIXED);
    expect(typed).toMatchObject({ shape: 'spherical', range: 120 });
    expect(typed.nugget).toBeCloseTo(0.01 / 0.09290304, 12);
    expect(typed.rise).toBeCloseTo(0.5 / 0.09290304, 12);
    expect(termsOf(spherical, FEET).range).toBeCloseTo(120 / 0.3048, 9);
  });

  test('a linear one has a rise per distance and no range', () => {
    const typed = termsOf(linear, FEET);
    expect(typed).toMatchObject({ shape: 'linear', range: 0 });
    expect(typed.rise).toBeCloseTo((0.002 / 0.09290304) * 0.3048, 12);
  });

  test('typed numbers make the model again', () => {
    for (const model of [spherical, linear])
      for (const units of [FEET, MIXED]) {
        const again = modelOf(termsOf(model, units), units);
        expect(again.shape).toBe(model.shape);
        expect(again.nugget).toBeCloseTo(model.nugget, 12);
        if (again.shape === 'linear') expect(again.slope).toBeCloseTo(0.002, 12);
        else expect([again.sill, again.range].map((x) => Number(x.toFixed(9)))).toEqual([0.5, 120]);
      }
  });

  test('its curve: nugget near nothing, the spherical formula between, the sill from the range on', () => {
    const curve = variogramCurve(spherical, 240, MIXED);
    expect(curve).toHaveLength(41);
    expect(curve[0]![0]).toBeCloseTo(0, 6);
    expect(curve[0]![1] * 0.09290304).toBeCloseTo(0.01, 6);
    // At half the range 1.5·½ − 0.5·⅛ = 0.6875 of the sill.
    expect(curve[10]![0]).toBeCloseTo(60, 9);
    expect(curve[10]![1] * 0.09290304).toBeCloseTo(0.01 + 0.5 * 0.6875, 9);
    expect(curve[40]![0]).toBeCloseTo(240, 9);
    expect(curve[40]![1] * 0.09290304).toBeCloseTo(0.51, 9);
  });

  test('lags are in the units printed', () => {
    const [[distance, value]] = lagPoints(
      [{ distance: metres(30.48), semivariance: 0.09290304, pairs: 9 }],
      FEET,
    ) as [readonly [number, number]];
    expect([distance, value]).toEqual([expect.closeTo(100, 9), expect.closeTo(1, 9)]);
  });
});

describe('why no surface can be drawn', () => {
  test('each reason with its numbers', () => {
    expect(surfaceProblemWords({ kind: 'too-few-wells', have: 1, need: 3 } as never)).toBe(
      '1 place has a head; a surface needs 3.',
    );
    expect(surfaceProblemWords({ kind: 'too-few-wells', have: 2, need: 3 } as never)).toBe(
      '2 places have a head; a surface needs 3.',
    );
    expect(surfaceProblemWords({ kind: 'wells-in-a-line' } as never)).toBe(
      'The wells are in a line: no surface lies between them.',
    );
    expect(surfaceProblemWords({ kind: 'bad-variogram', part: 'sill' } as never)).toContain(
      'The sill of the variogram',
    );
    expect(surfaceProblemWords({ kind: 'wells-too-alike', ids: ['A', 'B'] } as never)).toContain(
      'the head at A, B follows from the others',
    );
  });
});

describe('which well drives the direction, and which does not fit', () => {
  const driven = (shift: number | null, driver: string | null = 'P5') =>
    driverWords({ driver, wells: [{ id: 'P5', shift }] } as never);
  test('by how much and which way', () => {
    expect(driven(2.79)).toBe(
      'Of single wells P5 drives the answer: without it the direction turns 2.8° clockwise.',
    );
    expect(driven(-2.79)).toBe(
      'Of single wells P5 drives the answer: without it the direction turns 2.8° anticlockwise.',
    );
    expect(driven(0.1)).toBe(
      'No one well drives the answer: without P5, which turns it most, the direction turns 0.1° clockwise.',
    );
    for (const none of [driven(null), driven(2.79, null), driven(2.79, 'P9')])
      expect(none).toBe('No direction comes of it, so none can turn.');
  });

  test('named, or none that stands out; the chance of it', () => {
    const words = (kind: 'named' | 'not-told', probability: number) =>
      culpritWords(
        { kind, id: 'P5', probability, predictionResidual: metres(0.5, 'ft') } as never,
        'ft',
      );
    expect(words('named', 0.0004)).toBe(
      'P5 does not fit the others: it is 0.500 ft off them, which chance does less than once in 1000.',
    );
    expect(words('named', 0.001)).toContain('with a probability of 0.0010');
    expect(words('not-told', 0.24)).toBe(
      'No well stands out: the furthest off is P5 by 0.500 ft, as chance does with a probability of 0.24.',
    );
  });
});

describe('a rose of directions', () => {
  test('four sectors: each reaches 45° either side of its middle, north over the turn', () => {
    expect(directionRose([315, 0, 44.9, 45, 134.9, 135, 225, 314.9], 4)).toEqual([3, 2, 1, 2]);
    expect(directionRose([-10, 370, 359.9], 4)).toEqual([3, 0, 0, 0]);
    expect(directionRose([NaN, Infinity], 4)).toEqual([0, 0, 0, 0]);
    expect(directionRose([], 36)).toHaveLength(36);
  });
});

describe('how a flow line meets or passes something', () => {
  const points = (...at: [number, number][]) => ({ kind: 'points', points: at }) as const;
  const lines = (...of: [number, number][][]) => ({ kind: 'lines', lines: of }) as const;

  test('meets a stream aslant where the two cross, in any direction', () => {
    // From (10, 20) to the north-east: the line x + y = 230 is 100·√2 off.
    const met = wayTo(lines([[230, 0], [0, 230]]), [10, 20], 45)!; // prettier-ignore
    expect([met.distance, met.miss]).toEqual([expect.closeTo(100 * Math.SQRT2, 9), 0]);
    const south = wayTo(lines([[-50, -80], [150, -80]]), [10, 20], 180)!; // prettier-ignore
    expect(south.distance).toBeCloseTo(100, 9);
    expect(wayTo(lines([[-50, -80], [150, -80]]), [10, 20], 0)).toBeNull(); // prettier-ignore
  });

  test('passes the nearer of two wells, or the one ahead of one behind', () => {
    expect(wayTo(points([100, 30], [200, -20]), [0, 0], 90)).toEqual({
      distance: expect.closeTo(200, 9),
      miss: expect.closeTo(20, 9),
    });
    expect(wayTo(points([-100, 1], [200, -20]), [0, 0], 90)?.miss).toBeCloseTo(20, 9);
  });

  test('of two met the nearer; of two passed alike the nearer', () => {
    const two = lines([[200, -50], [200, 50]], [[100, -50], [100, 50]]); // prettier-ignore
    expect(wayTo(two, [0, 0], 90)?.distance).toBeCloseTo(100, 9);
    expect(wayTo(points([20, 200], [-20, 100]), [0, 0], 0)?.distance).toBeCloseTo(100, 9);
  });

  test('a stream that ends short of the line is passed by its end', () => {
    expect(wayTo(lines([[100, 80], [100, 15]]), [0, 0], 90)).toEqual({ distance: expect.closeTo(100, 9), miss: expect.closeTo(15, 9) }); // prettier-ignore
  });
});

describe('no-flow lines, from the grid to the ground about the middle of the wells', () => {
  test('only those drawn as such, in metres, over the combined factor', () => {
    const site = siteFrom(
      {
        features: [
          'id,kind,name,shape',
          'N,no-flow line,wall,"LINESTRING (100 200, 300 200)"',
          'S,section line,A–A′,"LINESTRING (0 0, 10 0)"',
          'P,no-flow line,spot,"POINT (1 1)"',
        ],
      },
      {},
      { combinedFactor: 0.5 },
    );
    const centre = { easting: metres(100, 'ft'), northing: metres(150, 'ft') };
    const found = noFlowLines(site, { centre } as never);
    expect(found.map((line) => line.map(([x, y]) => [inUnits(metres(x), 'ft'), inUnits(metres(y), 'ft')].map((c) => Math.round(c * 1e6) / 1e6)))).toEqual([[[0, 100], [400, 100]]]); // prettier-ignore
    expect(noFlowLines(site, { centre: null } as never)).toEqual([]);
  });
});

/** Four wells on a plane and one beside them, read in events given out of order. */
const site = siteFrom({
  locations: [
    'id,easting,northing,ground_elevation,ground_how,kind,status',
    'MW-10,0,0,100,surveyed,monitoring well,installed',
    'MW-2,300,0,100,surveyed,monitoring well,installed',
    'MW-1,0,300,100,surveyed,monitoring well,installed',
    'N,150,50,,none,monitoring well,installed',
    'M,150,20,90,surveyed,monitoring well,installed',
  ],
  screens: [
    'id,location,tip_depth,exposed_length,zone',
    ...['MW-10', 'MW-2', 'MW-1'].map((id) => `${id},${id},30,10,shallow`),
    'M,M,,10,shallow',
  ],
  measuring_points: [
    'id,screen,elevation,from_day',
    ...['MW-10', 'MW-2', 'MW-1'].map((id) => `${id}-a,${id},102,2020-01-01`),
    'MW-1-b,MW-1,103,2026-05-01',
  ],
  events: [
    'id,first_day,last_day',
    'late,2026-06-01,2026-06-02',
    'early,2026-01-10,2026-01-11',
    'unread,2026-03-01,2026-03-01',
  ],
  water_levels: [
    'screen,event,measuring_point,time,depth_to_water,status',
    'MW-10,late,,2026-06-02T09:00,8.50,static',
    'MW-2,late,,2026-06-01T09:00,9.50,static',
    'MW-1,late,,2026-06-01T10:00,9.00,recovering',
    'MW-10,early,,2026-01-10T08:00,7.90,static',
    'MW-10,early,,2026-01-10T09:00,8.00,static',
    'MW-2,early,,,9.00,static',
    'MW-1,early,,2026-01-11T10:00,8.00,static',
  ],
  strata: ['location,top,bottom,class', 'MW-10,0,6,clay', 'MW-2,0,45,sand'],
  features: [
    'id,kind,name,shape',
    'S,section line,A–A′,"LINESTRING (-50 0, 350 0)"',
    'T,section line,spot,"POINT (1 1)"',
    'U,stream,brook,"LINESTRING (0 0, 10 0)"',
  ],
});

describe('levels over time', () => {
  const flows = flowsOverTime(site, 'shallow');

  test('events that were read, the earliest first, by their first day', () => {
    expect(flows.map(({ event, day }) => [event.id, day])).toEqual([
      ['early', dayOf('2026-01-10')],
      ['late', dayOf('2026-06-01')],
    ]);
    expect(dayOf('2026-01-10T23:00')).toBe(dayOf('2026-01-10'));
    expect(dayOf('2026-01-11')! - dayOf('2026-01-10')!).toBe(1);
  });

  test('hydrographs by the numbers in their names, each on the day it was read, the counting reading alone', () => {
    const graphs = hydrographs(flows);
    expect(graphs.map(({ screen }) => screen)).toEqual(['MW-1', 'MW-2', 'MW-10']);
    const days = (screen: string) => graphs.find((one) => one.screen === screen)?.heads.map(({ day, head, counted }) => [day - dayOf('2026-01-01')!, Number(inUnits(head, 'ft').toFixed(2)), counted]); // prettier-ignore
    expect(days('MW-10')).toEqual([[9, 94, true], [152, 93.5, true]]); // prettier-ignore
    expect(days('MW-2')).toEqual([[9, 93, true], [151, 92.5, true]]); // prettier-ignore
    expect(days('MW-1')).toEqual([[10, 94, true], [151, 94, false]]); // prettier-ignore
    expect(hydrographs(flows.slice(0, 1))).toEqual([]);
  });

  test('changes since: now less then, and whether the mark is another', () => {
    const changes = changesSince(flows[1]!.heads, flows[0]!.heads);
    expect(
      changes.map(({ gauged, change, markChanged }) => [
        gauged.screen.id,
        Number(inUnits(change, 'ft').toFixed(2)),
        markChanged,
      ]),
    ).toEqual([
      ['MW-10', -0.5, false],
      ['MW-2', -0.5, false],
      ['MW-1', 0, true],
    ]);
    // Of the two readings in January only the later is set against June.
    expect(changesSince(flows[0]!.heads, flows[1]!.heads)).toHaveLength(3);
    expect(changesSince(flows[1]!.heads, [])).toEqual([]);
  });
});

describe('a section', () => {
  const [only, ...others] = sectionLines(site);
  const line = only!.line;
  const heads = headsOf(site, 'early');
  const flow = flowOf(site, 'early', 'shallow');
  const section = sectionOf(
    site,
    line,
    metres(60, 'ft'),
    heads,
    headUnder(site, flow),
    new Map([['MW-10', 'exceeds' as const]]),
  )!;

  test('only lines drawn as one, in metres', () => {
    expect(others).toEqual([]);
    expect(only?.feature.id).toBe('S');
    expect(line.map(([e]) => Math.round(inUnits(metres(e), 'ft')))).toEqual([-50, 350]);
  });

  test('from the lowest layer, screen or head to the highest ground or water', () => {
    // MW-2: sand to 45 ft under ground at 100 ft. Ground is the highest.
    expect(
      [section.lowest, section.highest].map((at) => Number(inUnits(at, 'ft').toFixed(3))),
    ).toEqual([55, 100]);
    expect(section.columns.map(({ location }) => location.id)).toEqual(['MW-10', 'M', 'MW-2']);
    expect(section.withoutGround).toEqual(['N']);
    expect(inUnits(section.length, 'ft')).toBeCloseTo(400, 9);
  });

  test('each screen with its reading that counts and its verdict; one of unknown depth has no place', () => {
    const [first, middle, last] = section.columns;
    expect(first?.screens.map(({ verdict, gauged }) => [verdict, gauged?.reading.time])).toEqual([
      ['exceeds', '2026-01-10T09:00'],
    ]);
    expect(middle?.screens).toEqual([]);
    expect(last?.screens.map(({ verdict, gauged }) => [verdict, gauged?.screen.id])).toEqual([
      [null, 'MW-2'],
    ]);
    expect(last?.layers.map(({ layer, top, base }) => [layer.class, inUnits(top, 'ft'), inUnits(base, 'ft')].map((x) => (typeof x === 'number' ? Math.round(x) : x)))).toEqual([['sand', 100, 55]]); // prettier-ignore
    expect(middle?.layers).toEqual([]);
  });

  test('water above the ground is the highest, and twice the scale is half the distance', () => {
    const flooded = heads.map((one) =>
      one.head ? { ...one, head: { ...one.head, value: metres(120, 'ft') } } : one,
    );
    const high = sectionOf(site, line, metres(60, 'ft'), flooded, () => null, new Map())!;
    expect(inUnits(high.highest, 'ft')).toBeCloseTo(120, 9);
    expect(high.water).toEqual([]);
    const scaled = { ...site, grid: { ...site.grid, combinedFactor: 2 } };
    const wide = sectionOf(scaled, line, metres(60, 'ft'), heads, () => null, new Map())!;
    expect(inUnits(wide.length, 'ft')).toBeCloseTo(200, 9);
    expect(wide.columns.map(({ at }) => Math.round(inUnits(at, 'ft')))).toEqual([25, 100, 175]);
    // 50 ft off in the grid are 25 ft on the ground: within 26 ft, beyond 24.
    const within = (feet: number) =>
      sectionOf(scaled, line, metres(feet, 'ft'), heads, () => null, new Map())?.withoutGround;
    expect([within(26), within(24)]).toEqual([['N'], []]);
  });

  test('the water line runs where it is known, from end to end, and breaks where it is not', () => {
    const level = (place: readonly [number, number]) =>
      place[0] > metres(100, 'ft') && place[0] < metres(200, 'ft') ? null : metres(5);
    const broken = sectionOf(site, line, metres(60, 'ft'), heads, level, new Map())!;
    const ends = broken.water.map((run) =>
      [run[0]!.at, run.at(-1)!.at].map((at) => Math.round(inUnits(at, 'ft'))),
    );
    expect(ends[0]?.[0]).toBe(0);
    expect(ends.at(-1)?.[1]).toBe(400);
    expect(ends).toHaveLength(2);
    expect(ends[0]![1]).toBeLessThanOrEqual(150);
    expect(ends[1]![0]).toBeGreaterThanOrEqual(250);
    const places = sectionOf(site, [[0, 0], [metres(300), 0], [metres(300), metres(300)]], metres(900), heads, () => metres(5), new Map())!.water[0]!; // prettier-ignore
    const steps = places.slice(1).map(({ at }, i) => at - places[i]!.at);
    for (const step of steps) expect(step).toBeCloseTo(5, 6); // 600 m in 120 steps
    expect(places).toHaveLength(121);
  });

  test('outside its wells, or without a plane, there is no water level', () => {
    const at = headUnder(site, flow);
    const feet = (e: number, n: number) => at([metres(e, 'ft'), metres(n, 'ft')]);
    // A plane through 94, 93 and 94 ft: halfway along the south side 93.5 ft.
    expect(inUnits(feet(150, 0.001)!, 'ft')).toBeCloseTo(93.5, 3);
    expect(inUnits(feet(60, 60)!, 'ft')).toBeCloseTo(93.8, 6);
    expect(feet(290, 290)).toBeNull();
    expect(headUnder(site, null)([0, 0])).toBeNull();
  });

  test('a place beyond either end is measured to the end; to the right of the way it is positive', () => {
    const straight = [[0, 0], [10, 0]] as const; // prettier-ignore
    expect(placeOnLine(straight, [-3, -4])).toEqual({ at: 0, offset: 5 });
    expect(placeOnLine(straight, [13, 4])).toEqual({ at: 10, offset: -5 });
    expect(placeOnLine([[0, 0], [0, 10]], [2, 5])).toEqual({ at: 5, offset: 2 }); // prettier-ignore
    expect(placeOnLine([], [2, 5])).toBeNull();
  });

  test('exaggerated by the most that its room allows', () => {
    const of = (height: number, share: number) =>
      fittingExaggeration(
        { length: metres(100), lowest: metres(0), highest: metres(height) } as never,
        share,
      );
    expect([of(10, 1), of(10, 0.5), of(10, 0.09), of(1, 1), of(1, 0.999), of(200, 1)]).toEqual([
      10, 5, 1, 100, 50, 1,
    ]);
  });
});
