import { describe, expect, test } from 'vitest';
import { headsOf } from '../../../src/domain/water/event-heads';
import { flowOf } from '../../../src/domain/water/flow';
import {
  nestsOf,
  verticalProblemWords,
  verticalText,
  verticalWords,
} from '../../../src/domain/water/nests';
import {
  changesSince,
  dayOf,
  flowsOverTime,
  hydrographs,
} from '../../../src/domain/water/over-time';
import {
  fittingExaggeration,
  headUnder,
  placeOnLine,
  sectionLines,
  sectionOf,
} from '../../../src/domain/water/section';
import { exclusions, inclusions, sheetFacts } from '../../../src/domain/water/calculation-sheet';
import { wayTo } from '../../../src/domain/water/way-to-receptor';
import { inUnits, metres, type Metres } from '../../../src/domain/units';
import { siteFrom } from '../site-from';

const feet = (value: Metres | number) => inUnits(value as Metres, 'ft');

/** Three wells on flat ground at 101.20 ft, one with a deep neighbour, read twice. */
const site = siteFrom({
  locations: [
    'id,easting,northing,ground_elevation,ground_how,kind,status',
    'A,0,0,101.20,surveyed,monitoring well,installed',
    'AD,5,0,101.20,surveyed,monitoring well,installed',
    'B,300,40,101.20,surveyed,monitoring well,installed',
    'C,100,300,101.20,surveyed,monitoring well,installed',
    'X,150,10,,none,monitoring well,installed',
  ],
  screens: [
    'id,location,tip_depth,exposed_length,zone',
    'A,A,25,10,shallow',
    'AD,AD,42.5,5,deep',
    'B,B,25,10,shallow',
    'C,C,25,10,shallow',
  ],
  measuring_points: [
    'id,screen,elevation,from_day',
    'A1,A,103.00,2025-01-01',
    'A2,A,103.50,2026-02-01',
    'AD1,AD,103.00,2025-01-01',
    'B1,B,103.00,2025-01-01',
    'C1,C,103.00,2025-01-01',
  ],
  events: ['id,first_day,last_day', 'one,2026-01-10,2026-01-10', 'two,2026-03-10,2026-03-10'],
  water_levels: [
    'screen,event,measuring_point,time,depth_to_water,status',
    'A,one,A1,2026-01-10T10:00,11.15,static',
    'AD,one,AD1,2026-01-10T10:05,11.53,static',
    'B,one,B1,2026-01-10T10:10,12.15,static',
    'C,one,C1,2026-01-10T10:20,11.15,static',
    'A,two,A2,2026-03-10T10:00,12.15,static',
    'B,two,B1,2026-03-10T10:10,12.65,static',
    'C,two,C1,2026-03-10T10:20,11.65,recovering',
  ],
  strata: ['location,top,bottom,class', 'A,0,6,clay', 'A,6,30,sand'],
  features: ['id,kind,name,shape', 'S,section line,A–A′,"LINESTRING (-50 20, 350 20)"'],
});
const line = sectionLines(site)[0]?.line ?? [];
const heads = headsOf(site, 'one');
const flow = flowOf(site, 'one', 'shallow');

describe('a section of 400 ft', () => {
  const section = sectionOf(site, line, metres(50, 'ft'), heads, headUnder(site, flow), new Map());
  if (!section) throw new Error('three points lie along it');

  test('holds what stands within 50 ft, in order along it, and not the well 300 ft off', () => {
    expect(section.columns.map(({ location }) => location.id)).toEqual(['A', 'AD', 'B']);
    expect(feet(section.length)).toBeCloseTo(400, 9);
    expect(section.columns.map(({ at }) => Math.round(feet(at)))).toEqual([50, 55, 350]);
  });

  test('says which side a point lies: looking east, A 20 ft to the right and B 20 ft to the left', () => {
    expect(feet(section.columns[0]?.offset ?? NaN)).toBeCloseTo(20, 9);
    expect(feet(section.columns[2]?.offset ?? NaN)).toBeCloseTo(-20, 9);
  });

  test('names the point whose ground is not known instead of drawing it somewhere', () => {
    expect(section.withoutGround).toEqual(['X']);
  });

  test('stands layers and screens at their elevations', () => {
    const a = section.columns[0];
    expect(a?.layers.map(({ base }) => Number(feet(base).toFixed(2)))).toEqual([95.2, 71.2]);
    expect(feet(a?.screens[0]?.top ?? NaN)).toBeCloseTo(86.2, 9);
    expect(feet(a?.screens[0]?.base ?? NaN)).toBeCloseTo(76.2, 9);
  });

  test('draws the water line only inside the triangle of wells, 57 to 200 ft along', () => {
    // The line is 20 ft north of A: it enters by A–C at 6.7 ft east and leaves by A–B at 150 ft.
    expect(section.water).toHaveLength(1);
    const [run = []] = section.water;
    expect(feet(run[0]?.at ?? NaN)).toBeCloseTo(56.7, -1);
    expect(feet(run.at(-1)?.at ?? NaN)).toBeCloseTo(200, -1);
    // Along A–C the head is 91.85 ft; halfway from A to B it is 91.35 ft.
    expect(feet(run[0]?.head ?? NaN)).toBeCloseTo(91.85, 1);
    expect(feet(run.at(-1)?.head ?? NaN)).toBeCloseTo(91.35, 1);
  });

  test('is exaggerated no further than its room allows', () => {
    // The deep base at 58.7 to ground at 101.2 ft is 42.5 ft in 400: ten times is 425 of 400.
    expect(fittingExaggeration(section, 1.07)).toBe(10);
    expect(fittingExaggeration(section, 1.06)).toBe(5);
    expect(fittingExaggeration(section, 0.01)).toBe(1);
  });

  test('a corridor with nothing in it is no section', () => {
    const far = line.map(([x, y]) => [x, y - 1000] as const);
    expect(sectionOf(site, far, metres(10), heads, () => null, new Map())).toBeNull();
  });
});

test('a place on a bent line is measured along it, and square to it', () => {
  const bent = [
    [0, 0],
    [10, 0],
    [10, 10],
  ] as const;
  expect(placeOnLine(bent, [4, -3])).toEqual({ at: 4, offset: 3 });
  expect(placeOnLine(bent, [8, 6])).toEqual({ at: 16, offset: -2 });
});

test('a nest with mids 20 and 40 ft below ground and heads 91.85 and 91.47: 0.019 downward, σ 0.0007 at 0.01 ft', () => {
  // Worked by hand: (91.85 − 91.47) / 20 = 0.019; √2 · 0.01 / 20 = 0.00071, here at 0.015 ft.
  const [nest] = nestsOf(site, heads);
  const pair = nest?.pairs[0];
  if (!pair?.ok) throw new Error('the nest has a gradient');
  expect(nest?.locations).toEqual(['A', 'AD']);
  expect(pair.value.gradient.value).toBeCloseTo(0.019, 9);
  expect(pair.value.sigma.value).toBeCloseTo((Math.SQRT2 * 0.015) / 20, 9);
  expect(verticalText(pair.value)).toBe('0.0190 ± 0.0021');
  expect(verticalWords(pair.value)).toBe('Downward, from A to AD.');
  expect(verticalProblemWords({ kind: 'same-depth', ids: ['A', 'AD'] })).toBe(
    'A and AD: the middles of the screens are at one depth.',
  );
});

describe('event against event', () => {
  const flows = flowsOverTime(site, 'shallow');

  test('comes in the order of the days, with the flow of each', () => {
    expect(flows.map(({ event, flow: f }) => [event.id, f.fitted.length])).toEqual([
      ['one', 3],
      ['two', 0],
    ]);
    expect(flows[1]?.flow.reason).toContain('Only 2 heads count');
    expect(dayOf('1970-01-02T09:00')).toBe(1);
    expect(dayOf('soon')).toBeNull();
  });

  test('a head that fell half a foot is −0.50, and a mark raised since is said', () => {
    const changes = changesSince(flows[1]?.flow.gauged ?? [], flows[0]?.flow.gauged ?? []);
    const said = changes.map(({ gauged, change, markChanged }) => [
      gauged.screen.id,
      feet(change).toFixed(2),
      markChanged,
    ]);
    expect(said).toEqual([
      ['A', '-0.50', true],
      ['B', '-0.50', false],
      ['C', '-0.50', false],
    ]);
  });

  test('hydrographs mark a level that does not count', () => {
    const c = hydrographs(flows).find(({ screen }) => screen === 'C');
    expect(c?.heads.map(({ counted }) => counted)).toEqual([true, false]);
  });
});

test('a flow line due east meets a stream 300 m off, passes a well by 40 m, and never meets what lies behind', () => {
  const stream = { kind: 'lines', lines: [[[300, -100], [300, 100]]] } as const; // prettier-ignore
  expect(wayTo(stream, [0, 0], 90)).toEqual({ distance: 300, miss: 0 });
  const well = { kind: 'points', points: [[200, 40]] } as const;
  const way = wayTo(well, [0, 0], 90);
  expect(way?.distance).toBeCloseTo(200, 9);
  expect(way?.miss).toBeCloseTo(40, 9);
  expect(wayTo(stream, [0, 0], 270)).toBeNull();
});

test('the sheet says what it rests on, and why each level is left out', () => {
  const facts = new Map(sheetFacts(site, flow));
  expect(facts.get('Zone')).toBe('shallow');
  expect(facts.get('Gauged')).toBe('2026-01-10');
  expect(facts.get('Vertical datum')).toBe('NAVD 88, never converted');
  expect(facts.get('Error of a head')).toContain('0.015 ft');
  const second = flowOf(site, 'two', 'shallow');
  expect(exclusions(site, second).map(({ one, why }) => `${one.screen.id}: ${why}`)).toEqual([
    'C: the level was still recovering',
  ]);
  expect(inclusions(site, second)).toEqual([]);
});
