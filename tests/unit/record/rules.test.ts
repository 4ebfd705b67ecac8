/** What a crew goes by: criteria of stabilisation, the static rule, what is said of a level. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import {
  badSetName,
  changeOwnEdit,
  criteriaOf,
  criteriaSets,
  criterionWords,
  isPublished,
  ownCopyEdit,
  removeOwnEdit,
  setWords,
  useSetEdit,
  withCriterion,
} from '../../../src/domain/record/criteria';
import {
  fieldRulesOf,
  staticRuleOf,
  USUAL_FIELD_RULES,
} from '../../../src/domain/record/field-rules';
import {
  againstLast,
  gaugedIn,
  gaugePoints,
  lastReading,
  lastWords,
  markWords,
} from '../../../src/domain/record/gauging';
import { markNow } from '../../../src/domain/record/as-pushed';
import { purgedOf, purgeEndEdit, purgeOf, turbidWords } from '../../../src/domain/record/purge';
import { waterEdit } from '../../../src/domain/record/water-readings';
import { apply, type Edit } from '../../../src/domain/site/edits/apply';
import type { DataPackage } from '../../../src/domain/site/data-package';
import { readSite } from '../../../src/domain/site/site';
import { CRITERIA_SETS, stabilisation } from '../../../src/domain/survey/stabilisation';
import { levelState, USUAL_STATIC_RULE } from '../../../src/domain/survey/static-level';
import { metres } from '../../../src/domain/units';
import { readSettings, writeSettings } from '../../../src/io/package/settings';
import { contrast } from '../../../src/map/look/contrast';
import { PALETTES } from '../../../src/map/look/look';
import { TOP } from '../folder';
import { flatGrid, packageFrom, settingsIn } from '../site-from';

const siteOf = (site: DataPackage) => readSite(site, flatGrid());
const done = (site: DataPackage, edit: Edit) => {
  const made = apply(site, edit);
  if (!made.ok) throw new Error(made.problem);
  return made.value;
};

/** What stands in the descriptor, and is read again. */
const writtenAndRead = (settings: DataPackage['settings']) =>
  readSettings({ title: 'T', downgradient: JSON.parse(JSON.stringify(writeSettings(settings))) });

describe('stabilisation criteria', () => {
  const [first, second] = CRITERIA_SETS;
  if (!first || !second) throw new Error('no sets');
  const blank = () => packageFrom({ locations: ['id,kind,status', 'P-1,direct push,planned'] });

  test('the published sets differ, and none is in use but one that is named', () => {
    expect(new Set(CRITERIA_SETS.map((set) => JSON.stringify(set.criteria))).size).toBe(3);
    expect(criteriaOf(settingsIn()).name).toBe('Puls and Barcelona, 1996');
    const site = done(blank(), useSetEdit(second));
    expect(criteriaOf(site.settings).source).toContain('Paul and R. W. Puls, 2001');
  });

  test('a set of the site’s own names what it was made from, is listed, changed, and kept in the descriptor', () => {
    let site = done(blank(), ownCopyEdit(settingsIn(), second));
    let own = criteriaOf(site.settings);
    expect([isPublished(own), own.name]).toEqual([
      false,
      `${second.name}, as changed for this site`,
    ]);
    expect(own.source).toBe(`Set on this site, from: ${second.source}`);
    site = done(
      site,
      changeOwnEdit(site.settings, own, {
        name: 'Work plan, table 4',
        readings: 4,
        criteria: withCriterion(own, 'turbidity', { percent: 5, steadyBelow: 5 }),
      }),
    );
    own = criteriaOf(site.settings);
    expect(setWords(own)).toBe(
      '4 successive readings, at least 3 min apart, each against their mean',
    );
    const turbidity = own.criteria.find(({ parameter }) => parameter === 'turbidity');
    expect(turbidity && criterionWords(turbidity)).toBe('±5 %, or any at or below 5 NTU');
    expect(turbidity?.known).toBe('set here');
    expect(criteriaSets(site.settings).map(({ name }) => name)).toEqual([
      ...CRITERIA_SETS.map(({ name }) => name),
      'Work plan, table 4',
    ]);
    // Chosen away and back again: it is still there.
    site = done(site, useSetEdit(first));
    const back = writtenAndRead(site.settings);
    expect(back.problems).toEqual([]);
    expect(back.settings.ownCriteria).toEqual([own]);
    expect(badSetName(site.settings, own, first.name)).toContain('already');
    site = done(site, removeOwnEdit(done(site, useSetEdit(own)).settings, own));
    expect([criteriaOf(site.settings).name, site.settings.ownCriteria]).toEqual([first.name, []]);
  });

  test('4 NTU then 6 NTU is within ±1 NTU by one published set and not by ±10 % of another', () => {
    // By hand: mean 5, each 1 from it; 10 % of 5 is 0.5. So the choice of a set decides.
    const readings = [4, 6, 5].map((turbidity, i) => ({
      minutes: 5 * i,
      ph: 7,
      conductance: 500,
      dissolved_oxygen: 2,
      orp: 100,
      turbidity,
    }));
    const third = CRITERIA_SETS[2];
    if (!third) throw new Error('no third set');
    expect(stabilisation(readings, second).verdict).toBe('changing');
    expect(stabilisation(readings, third).verdict).toBe('stable');
  });

  test('what is no set in a descriptor is named, not used', () => {
    const written = writeSettings(settingsIn());
    const broken = readSettings({
      title: 'T',
      downgradient: { ...written, ownCriteria: [{ name: 'x' }], fieldRules: { clearAt: -1 } },
    });
    expect(broken.problems.map(({ column }) => column)).toEqual([
      'downgradient.ownCriteria',
      'downgradient.fieldRules',
    ]);
    expect(broken.settings.ownCriteria).toBeUndefined();
  });
});

describe('the rules of the field', () => {
  test('are the usual until set, and a set rule says it is the site’s', () => {
    const usual = fieldRulesOf(settingsIn());
    expect(usual).toEqual(USUAL_FIELD_RULES);
    expect(staticRuleOf(usual)).toEqual(USUAL_STATIC_RULE);
    const own = { ...usual, staticChange: metres(0.01, 'ft'), staticMinutes: 10 };
    expect(staticRuleOf(own).source).toBe('Set on this site');
    const back = writtenAndRead(settingsIn({ fieldRules: own }));
    expect(back.problems).toEqual([]);
    expect(back.settings.fieldRules?.staticMinutes).toBe(10);
    expect(back.settings.fieldRules?.staticChange).toBeCloseTo(metres(0.01, 'ft'), 9);
    expect(back.settings.fieldRules?.purgeLitres).toBeNull();
  });

  test('0.01 ft in ten minutes is static at 0.02 ft in ten, not at 0.005 ft in ten', () => {
    const readings = [0, 5, 10].map((minutes) => ({
      minutes,
      depth: metres(9 - 0.001 * minutes, 'ft'),
    }));
    const rule = (change: number) => ({
      ...USUAL_FIELD_RULES,
      staticMinutes: 10,
      staticChange: metres(change, 'ft'),
    });
    expect(levelState(readings, staticRuleOf(rule(0.02))).kind).toBe('static');
    expect(levelState(readings, staticRuleOf(rule(0.005))).kind).toBe('rising');
  });
});

describe('wells gauged in the field', () => {
  const gauged = () =>
    packageFrom(
      {
        locations: [
          'id,kind,status,ground_elevation,ground_how',
          'MW-1,monitoring well,installed,100,surveyed',
          'MW-2,monitoring well,decommissioned,,',
          'P-1,direct push,planned,,',
        ],
        screens: ['id,location,pulled_time', 'MW-1-S1,MW-1,', 'MW-2-S1,MW-2,2026-01-01T10:00'],
        measuring_points: [
          'id,screen,from_day,description,elevation',
          'MW-1-A,MW-1-S1,2025-01-01,notch on casing,102.00',
          'MW-1-B,MW-1-S1,2026-05-01,casing cut down,101.50',
        ],
        events: [
          'id,first_day,last_day',
          'May,2026-04-02,2026-04-02',
          'June,2026-06-01,2026-06-01',
        ],
        water_levels: [
          'screen,event,time,depth_to_water,measuring_point,status',
          'MW-1-S1,May,2026-04-02T10:00,9.84,MW-1-A,static',
        ],
      },
      { verticalUnit: 'ft' },
    );
  const site = siteOf(gauged());
  const last = lastReading(site, 'MW-1-S1', '9999');
  const said = (feet: number) =>
    againstLast(site, 'MW-1-S1', metres(feet, 'ft'), last, USUAL_FIELD_RULES);

  test('only what stands is listed, and the mark is named with its height', () => {
    expect(gaugePoints(site).map(({ location }) => location.id)).toEqual(['MW-1']);
    expect(markWords(site, markNow(site, 'MW-1-S1'))).toBe(
      'Read from MW-1-B, casing cut down, in use since 2026-05-01, at 101.50 ft.',
    );
    expect(lastWords(site, last)).toBe('Last read 9.84 ft on 2026-04-02 at 10:00, static.');
  });

  test('a depth is compared as water level: the casing cut by 0.50 ft is taken off', () => {
    // Then 102.00 − 9.84 = 92.16; now 101.50 − 9.34 = 92.16. By hand.
    expect(said(9.34)).toEqual({ against: false, says: 'The same as last time.' });
    expect(said(9.54)?.says).toBe(
      'The water is 0.20 ft lower than last time, the change of mark taken off.',
    );
    expect(said(19.34)).toMatchObject({ against: true });
    expect(said(19.34)?.says).toContain('10.00 ft lower');
    expect(said(19.34)?.says).toContain('more than 1.00 ft. Read it again.');
  });

  test('water rising in an open hole is what is waited for; falling as far is said', () => {
    const open = siteOf(
      packageFrom(
        {
          locations: ['id,kind,status', 'P-1,direct push,pushed'],
          screens: ['id,location,tip_depth,exposed_length', 'P-1-S1,P-1,20,4'],
          events: ['id,first_day,last_day', 'R,2026-06-01,2026-06-01'],
          water_levels: [
            'screen,event,time,depth_to_water,status',
            'P-1-S1,R,2026-06-01T10:00,15.00,recovering',
          ],
        },
        { verticalUnit: 'ft' },
      ),
    );
    const before = lastReading(open, 'P-1-S1', '9999');
    const now = (feet: number) =>
      againstLast(open, 'P-1-S1', metres(feet, 'ft'), before, USUAL_FIELD_RULES);
    expect(now(11)).toMatchObject({ against: false });
    expect(now(11)?.says).toBe('The water is 4.00 ft higher than last time.');
    expect(now(19)).toMatchObject({ against: true });
  });

  test('one reading in a standing well is static, in a push point it is recovering', () => {
    const typed = { depth_to_water: '9.40', time: '2026-06-01T09:00' };
    const after = siteOf(
      done(gauged(), waterEdit(site, 'MW-1-S1', 'June', typed, 'water', USUAL_STATIC_RULE)),
    );
    expect(after.waterLevels.at(-1)).toMatchObject({ status: 'static', measuring_point: 'MW-1-B' });
    const { done: read, screens } = gaugedIn(after, gaugePoints(after), 'June');
    expect([read.size, screens]).toEqual([1, 1]);
    // A second reading 0.30 ft off over 20 minutes shows that it moves.
    const moved = done(
      done(gauged(), waterEdit(site, 'MW-1-S1', 'June', typed, 'water', USUAL_STATIC_RULE)),
      waterEdit(
        after,
        'MW-1-S1',
        'June',
        { depth_to_water: '9.10', time: '2026-06-01T09:20' },
        'water',
        USUAL_STATIC_RULE,
      ),
    );
    expect(siteOf(moved).waterLevels.at(-1)?.status).toBe('recovering');
  });
});

describe('the end of a purge', () => {
  test('did not clear is an outcome in its table, with the set and the last turbidity', () => {
    const purged = packageFrom({
      locations: ['id,kind,status', 'P-1,direct push,pushed'],
      screens: ['id,location', 'P-1-S1,P-1'],
      events: ['id,first_day,last_day', 'R,2026-06-01,2026-06-01'],
      purge_readings: [
        'screen,event,time,turbidity,rate',
        'P-1-S1,R,2026-06-01T10:00,800,200',
        'P-1-S1,R,2026-06-01T11:05,410,200',
      ],
    });
    const [set] = CRITERIA_SETS;
    const row = purgeOf(siteOf(purged), 'P-1-S1', 'R').at(-1);
    if (!set || !row) throw new Error('no set');
    const after = siteOf(done(purged, purgeEndEdit(row, 'did not clear', set)));
    expect(after.problems).toEqual([]);
    expect(purgedOf(purgeOf(after, 'P-1-S1', 'R'))).toEqual({
      minutes: 65,
      litres: 13, // 200 mL/min for 65 min
      turbidity: '410',
      outcome: 'did not clear',
      criteria: 'Puls and Barcelona, 1996',
    });
  });
});

test('a sample about to be taken turbid, or with no turbidity read, is said; one that cleared is not', () => {
  const purged = { minutes: 20, litres: 4, outcome: null, criteria: null };
  expect(turbidWords(null, 10)).toContain('No turbidity was read');
  expect(turbidWords({ ...purged, turbidity: '45' }, 10)).toContain('45 NTU, over 10 NTU');
  expect(turbidWords({ ...purged, turbidity: '10' }, 10)).toBeNull();
});

test('in sunlight every word of Record reaches 7:1 on every ground (WCAG 2.2, 1.4.6)', () => {
  const css = readFileSync(join(TOP, 'src/ui/record/in-the-field.css'), 'utf8');
  const own = Object.fromEntries(
    [...css.matchAll(/--([a-z-]+): (#[0-9a-f]{6});/g)].map(([, role, colour]) => [role, colour]),
  );
  const colours: Readonly<Record<string, string>> = { ...PALETTES.bright, ...own };
  const grounds = ['paper', 'panel', 'raised', 'wash', 'water-wash', 'signal-wash'];
  const low = grounds.flatMap((ground) =>
    ['ink', 'ink-soft', 'water', 'signal'].filter(
      (words) => contrast(colours[words] ?? '', colours[ground] ?? '') < 7,
    ),
  );
  expect(Object.keys(own).length).toBeGreaterThan(3);
  expect(low).toEqual([]);
});
