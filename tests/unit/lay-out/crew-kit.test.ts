import { describe, expect, test } from 'vitest';
import { cleanToDirty, expectedAt, sourcesAt } from '../../../src/domain/layout/clean-to-dirty';
import { containerLines, usualKit } from '../../../src/domain/layout/crew-kit';
import { waterError } from '../../../src/domain/layout/expected-water';
import { conditionsAt, plannedPoints } from '../../../src/domain/layout/field-plan';
import { chosen } from '../../../src/domain/layout/given';
import { layersNear } from '../../../src/domain/layout/layers-near';
import { depthsBy, type TypedRule } from '../../../src/domain/layout/set-screens';
import { qualitySamples } from '../../../src/domain/layout/quality-samples';
import type { PushRow } from '../../../src/domain/layout/push-sheet';
import { NO_SURVEY_BASIS, surveyWords } from '../../../src/domain/survey/survey-basis';
import { inUnits, metres } from '../../../src/domain/units';
import { flowOf } from '../../../src/domain/water/flow';
import { readSettings, writeSettings } from '../../../src/io/package/settings';
import { settingsIn, siteFrom } from '../site-from';

const row = (sample: string, duplicate = false) =>
  ({ sample, duplicate, spike: duplicate }) as PushRow;

describe('samples that check the others, each with its identifier', () => {
  const plan = {
    ...usualKit('ft'),
    coolers: 1,
    days: 2,
    day: '2026-05-31',
  };

  test('a duplicate is named blind, a spike after its sample, blanks by their own patterns and counts', () => {
    const rows = [row('A', true), row('B'), row('C'), row('D', true)];
    expect(qualitySamples(rows, plan).map(({ kind, id, of }) => [kind, id, of])).toEqual([
      ['field duplicate', 'DUP-01-20260531', 'A'],
      ['field duplicate', 'DUP-02-20260531', 'D'],
      ['matrix spike', 'A MS/MSD', 'A'],
      ['matrix spike', 'D MS/MSD', 'D'],
      ['trip blank', 'TB-01-20260531', null],
      ['equipment blank', 'EB-01-20260531', null],
      ['equipment blank', 'EB-02-20260531', null],
    ]);
  });

  test('no rate, no sample', () => {
    const none = { ...plan, coolers: 0, days: 0 };
    expect(qualitySamples([row('A')], none)).toEqual([]);
  });

  test('containers are counted by group of analytes: 3 vials and 1 bottle for each sample', () => {
    expect(containerLines('VOCs: 3 × 40 mL vial, HCl\n\nMetals: 1 x 250 mL, HNO3\njar')).toEqual([
      { analytes: 'VOCs', container: '3 × 40 mL vial, HCl', count: 3 },
      { analytes: 'Metals', container: '1 x 250 mL, HNO3', count: 1 },
      { analytes: '', container: 'jar', count: 1 },
    ]);
  });
});

describe('what the crew brings and what the survey stands on are kept with the site', () => {
  test('they come back from the descriptor as they went; a spoilt part is named and the usual stands', () => {
    const kit = { ...usualKit('ft'), rodLength: 5, samples: '[location]', way: 'bottom up' };
    const survey = { ...NO_SURVEY_BASIS, benchmark: 'BM 7', geoid: 'GEOID18' };
    const written = writeSettings(settingsIn({ kit, survey }));
    const back = readSettings({ downgradient: written });
    expect(back.problems).toEqual([]);
    expect(back.settings.kit).toEqual(kit);
    expect(back.settings.survey).toEqual(survey);
    const spoilt = { ...written, kit: { ...kit, rodLength: -1 }, survey: 'by eye' };
    const broken = readSettings({ downgradient: spoilt });
    expect(broken.problems.map(({ column }) => column)).toEqual([
      'downgradient.kit',
      'downgradient.survey',
    ]);
    expect(broken.settings.kit).toBeUndefined();
    expect(surveyWords(survey)).toMatch(/^benchmark BM 7; .*realisation not stated; geoid model/);
  });
});

/** Four wells at the corners of a square and one in its middle; points inside and outside a source area. */
const SITE = siteFrom({
  locations: [
    'id,easting,northing,ground_elevation,ground_how,kind,status,planned_easting,planned_northing',
    ...[
      ['MW-1', 0, 0],
      ['MW-2', 200, 0],
      ['MW-3', 0, 200],
      ['MW-4', 200, 200],
      ['MW-5', 100, 100],
    ].map(([id, e, n]) => `${id},${e},${n},100.00,surveyed,monitoring well,installed,,`),
    'DP-1,,,,,direct push,planned,100,110',
    'DP-2,,,,,direct push,planned,20,20',
    'DP-3,,,,,direct push,planned,150,110',
  ],
  screens: [
    'id,location,tip_depth,exposed_length,zone',
    ...[1, 2, 3, 4, 5].map((n) => `MW-${n},MW-${n},20,10,A`),
  ],
  measuring_points: [
    'id,screen,elevation,accuracy',
    ...[1, 2, 3, 4, 5].map((n) => `M${n},MW-${n},102.00,0.01`),
  ],
  events: ['id,first_day,last_day', 'E,2026-04-01,2026-04-01'],
  water_levels: [
    'screen,event,measuring_point,time,depth_to_water,status',
    ...[10, 12, 10, 12, 11.3].map(
      (d, i) => `MW-${i + 1},E,M${i + 1},2026-04-01T10:0${i},${d},static`,
    ),
  ],
  features: [
    'id,kind,name,shape',
    'S,source area,Old tank,"POLYGON ((90 90, 120 90, 120 120, 90 120, 90 90))"',
  ],
});

describe('from clean to dirty, and how good the water expected is', () => {
  const flow = flowOf(SITE, 'E', 'A');
  const points = plannedPoints(SITE, flow);

  test('with nothing sampled, the farthest from the source is pushed first and the one through it last', () => {
    const order = cleanToDirty(points, expectedAt(SITE, []));
    expect(order.map(({ location }) => location.id)).toEqual(['DP-2', 'DP-3', 'DP-1']);
    expect(sourcesAt(SITE.features, [100, 110]).map(({ name }) => name)).toEqual(['Old tank']);
    expect(sourcesAt(SITE.features, [20, 20])).toEqual([]);
  });

  test('the middle well reads 0.30 ft below the four around it: that is the error of water expected between wells', () => {
    // Left out, the corners give 91.00 in the middle by symmetry; it reads 102.00 − 11.30 = 90.70.
    const found = waterError(flow);
    expect(found && inUnits(found.error, 'ft')).toBeCloseTo(0.3, 6);
    expect(found && [found.wells, found.of]).toEqual([1, 5]);
  });

  test('no well among others, no error is claimed', () => {
    expect(waterError(null)).toBeNull();
  });
});

describe('a layer nobody logged at the point', () => {
  // Three borings on level ground at 100; the top of the clay dips 1 ft in 50 ft to the east.
  const site = siteFrom({
    locations: [
      'id,easting,northing,ground_elevation,ground_how,kind,status,planned_easting,planned_northing',
      'B-1,0,0,100.00,surveyed,direct push,pushed,,',
      'B-2,200,0,100.00,surveyed,direct push,pushed,,',
      'B-3,0,200,100.00,surveyed,direct push,pushed,,',
      'DP-1,,,,,direct push,planned,50,50',
    ],
    strata: [
      'location,top,bottom,description,class',
      'B-1,0,10.00,sand,sand',
      'B-1,10.00,20.00,clay,clay',
      'B-2,0,14.00,sand,sand',
      'B-2,14.00,24.00,clay,clay',
      'B-3,0,10.00,sand,sand',
      'B-3,10.00,20.00,clay,clay',
    ],
  });

  test('is estimated between three borings, by the plane through them, and says so', () => {
    const [point] = plannedPoints(site, null);
    const clay = point?.layers.find(({ name }) => name === 'clay');
    // A quarter of the way to B-2: 10 + 4/4 = 11 ft, worked by hand.
    expect(clay && inUnits(clay.top.value, 'ft')).toBeCloseTo(11, 9);
    expect(clay && inUnits(clay.bottom.value, 'ft')).toBeCloseTo(21, 9);
    expect(clay?.estimated).toMatch(/^estimated between B-\d, B-\d, B-\d$/);
    expect(point?.layers.map(({ name }) => name)).toEqual(['sand', 'clay']);
  });

  test('outside the borings it is as at the nearest, with the distance; without a ground it is nowhere', () => {
    const layers = layersNear(site);
    const ground = chosen(98, 'ft', 'ground');
    const [, clay] = layers([230, 40], ground);
    // 86 ft elevation at B-2, 12 ft below ground at 98; B-2 is 50 ft off (30 east, 40 north).
    expect(clay && inUnits(clay.top.value, 'ft')).toBeCloseTo(12, 9);
    expect(clay?.estimated).toBe('estimated as at B-2, 50.0 ft off');
    expect(layers([230, 40], null)).toEqual([]);
  });

  test('feet pushed are known before anything is laid: a 4 ft screen on top of the clay needs 15 ft at DP-1', () => {
    const place = conditionsAt(site, null)([50, 50]);
    const rule = { kind: 'layer', exposed: 4, amount: 0, part: 'mid', at: 'top', layer: 'clay' };
    const common = {
      toolOffset: null,
      boringDepth: null,
      leastGap: metres(0),
      unit: 'ft',
    } as const;
    const [depth, none] = depthsBy([place, { ...place, layers: [] }], [rule as TypedRule], common);
    expect(depth && inUnits(depth, 'ft')).toBeCloseTo(15, 9);
    expect(none).toBeNull();
  });
});
