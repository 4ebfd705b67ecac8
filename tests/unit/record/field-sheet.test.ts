/** The field sheet, from the plan of the morning to the record of the evening. */
import { describe, expect, test } from 'vitest';
import { intervalEdit } from '../../../src/domain/record/as-pushed';
import { fieldLines, leftOf } from '../../../src/domain/record/field-lines';
import { fieldPoints } from '../../../src/domain/record/field-points';
import { USUAL_FIELD_RULES } from '../../../src/domain/record/field-rules';
import { fieldTable, leftWords } from '../../../src/domain/record/field-sheet';
import { closeEdit, fromBore, holeEdit, volumeCell } from '../../../src/domain/record/holes';
import { dropEdit } from '../../../src/domain/record/on-the-spot';
import { sampleEdit } from '../../../src/domain/record/sampling';
import { waterEdit } from '../../../src/domain/record/water-readings';
import type { DataPackage } from '../../../src/domain/site/data-package';
import { apply, type Edit } from '../../../src/domain/site/edits/apply';
import { readSite } from '../../../src/domain/site/site';
import { USUAL_STATIC_RULE } from '../../../src/domain/survey/static-level';
import { sheetCsv } from '../../../src/app/record/sheet-files';
import { flatGrid, packageFrom } from '../site-from';

/** A hole of 2.00 in holds 0.16320 gal a foot (printed in many field guides; π/4·d²·h by hand). */
const RULES = { ...USUAL_FIELD_RULES, holeDiameter: fromBore(2, 'ft') };

const morning = () =>
  packageFrom(
    {
      locations: [
        'id,kind,status,ground_elevation,ground_how',
        'P-1,direct push,planned,100.00,surveyed',
        'P-2,direct push,planned,101.00,surveyed',
        'P-3,direct push,planned,,',
      ],
      screens: [
        'id,location,planned_tip_depth,planned_exposed_length',
        'P-1-S1,P-1,14.00,4.00',
        'P-2-S1,P-2,20.00,4.00',
        'P-3-S1,P-3,10.00,2.00',
      ],
    },
    { verticalUnit: 'ft', volumeUnit: 'gal' },
  );

const siteOf = (site: DataPackage) => readSite(site, flatGrid());
const pointOf = (site: DataPackage, name: string) => {
  const found = fieldPoints(siteOf(site)).find(({ location }) => location.id === name);
  if (!found) throw new Error(`no ${name}`);
  return found;
};
const done = (site: DataPackage, edit: Edit) => {
  const made = apply(site, edit);
  if (!made.ok) throw new Error(made.problem);
  return made.value;
};
const linesOf = (site: DataPackage) => {
  const now = siteOf(site);
  return fieldLines(now, fieldPoints(now), RULES);
};
const sheetOf = (site: DataPackage, notCleared: readonly string[] = []) =>
  fieldTable(linesOf(site), siteOf(site).settings, new Set(notCleared));
const leftOn = (site: DataPackage) => leftWords(leftOf(linesOf(site)), siteOf(site).settings);
/** Cells of a line by the heading of their column. */
const cells = (site: DataPackage, name: string) => {
  const { columns, rows } = sheetOf(site);
  const row = rows.find(([first]) => first?.startsWith(name)) ?? [];
  return Object.fromEntries(columns.map((column, i) => [column.name, row[i]]));
};

const hole = (outcome: string, depth: string, suffix = '') => ({
  suffix,
  offset: suffix === '' ? '' : '3 ft north',
  depth,
  outcome,
  day: '2026-06-01',
});

describe('the field sheet', () => {
  test('in the morning holds the plan, blank where the crew will write, and says what is not cleared', () => {
    const { rows } = sheetOf(morning(), ['P-2']);
    expect(rows.map(([name]) => name)).toEqual([
      'P-1, to push',
      'P-2, to push, NOT CLEARED',
      'P-3, to push',
    ]);
    // 14 + 20 + 10 = 44 ft of a 2 in hole: 44 × 0.16320 = 7.18 gal. By hand.
    expect(leftOn(morning())).toBe(
      '3 holes still to push, 44.0 ft in all; 3 intervals still to sample; 7.18 gal of fill for them and 0 standing open.',
    );
  });

  test('after a refusal at 6.20 ft is worked out anew: the short hole takes its own fill, the next try has a letter', () => {
    const site = done(morning(), holeEdit(pointOf(morning(), 'P-2'), hole('refusal', '6.20')));
    expect(sheetOf(site).rows.map(([name]) => name)).toEqual([
      'P-1, to push',
      'P-2, refusal',
      'P-2 A, next try',
      'P-3, to push',
    ]);
    expect(cells(site, 'P-2, refusal')).toMatchObject({
      Hole: '6.20',
      'Fill, calculated': '1.01', // 6.2 × 0.16320
      Filled: 'OPEN',
    });
    expect(cells(site, 'P-2 A')['Tip, planned']).toBe('20.00');
    expect(leftOn(site)).toContain('3 holes still to push, 44.0 ft in all');
    expect(leftOn(site)).toContain('8.19 gal of fill for them and 1 standing open'); // 7.18 + 1.01
  });

  test('in the evening is the record: planned and as pushed, time to fill, sample, calculated and placed', () => {
    let site = done(morning(), holeEdit(pointOf(morning(), 'P-1'), hole('reached', '14.05')));
    const { location, screens } = pointOf(site, 'P-1');
    const typed = {
      tip_depth: '14.05',
      tool_offset: '0.15',
      retraction: '4.00',
      screen_length: '4.00',
      exposed_length: '4.00',
      sounded_depth: '13.88',
      set_time: '2026-06-01T10:00:00',
    };
    site = done(
      site,
      intervalEdit(siteOf(site), location, screens[0] ?? null, typed, '1.42', '2026-06-01'),
    );
    for (const [time, depth] of [
      ['10:07', '9.90'],
      ['10:25', '9.90'],
    ] as const)
      site = done(
        site,
        waterEdit(
          siteOf(site),
          'P-1-S1',
          '2026-06-01',
          { depth_to_water: depth, time: `2026-06-01T${time}:00` },
          'water',
          USUAL_STATIC_RULE,
        ),
      );
    site = done(
      site,
      sampleEdit(siteOf(site), '2026-06-01', {
        id: 'P-1-S1-20260601',
        screen: 'P-1-S1',
        kind: 'field sample',
        time: '2026-06-01T11:00:00',
      }),
    );
    const point = pointOf(site, 'P-1');
    const [first] = point.attempts;
    const [line] = linesOf(site);
    if (!first || !line?.sealing) throw new Error('no hole');
    const calculated = volumeCell(line.sealing, siteOf(site).settings);
    expect(calculated).toBe('2.29'); // 14.05 × 0.16320
    site = done(
      site,
      closeEdit(
        point,
        first,
        {
          decommission_material: 'Bentonite grout',
          decommission_volume: '3.5',
          decommission_how: 'tremie',
          decommission_day: '2026-06-01',
          decommission_by: 'A.B.',
        },
        '2026-06-01T12:00:00',
        calculated,
      ),
    );
    expect(siteOf(site).problems).toEqual([]);
    // Base 14.05 − 0.15 = 13.90, top 9.90; ground 100.00. By hand.
    expect(cells(site, 'P-1')).toEqual({
      'Point and hole': 'P-1, reached',
      Hole: '14.05',
      'Tip, planned': '14.00',
      'Tip, as pushed': '14.05',
      'Exposed, planned': '4.00',
      'Exposed, as pushed': '4.00',
      'Interval, depth': '9.90 to 13.90',
      'Interval, elevation': '90.10 to 86.10',
      Sounded: '13.88',
      'Opened, then water and rest after': '06-01 10:00; water 7 min; rest 25 min',
      Water: '9.90 static',
      Purge: '',
      Samples: 'P-1-S1-20260601',
      'Fill, calculated': '2.29',
      'Fill, placed': '3.50',
      Filled: 'Bentonite grout, tremie, 2026-06-01, A.B.',
    });
    expect(leftOn(site)).toContain('2 holes still to push, 30.0 ft in all; 2 intervals');
  });

  test('a dropped point stays on the sheet with its reason and counts for nothing', () => {
    const site = done(
      morning(),
      dropEdit(pointOf(morning(), 'P-3'), 'under a parked lorry', '', '2026-06-01T09:00'),
    );
    expect(cells(site, 'P-3')).toMatchObject({
      'Point and hole': 'P-3, dropped',
      Filled: 'Dropped in the field: under a parked lorry',
      'Fill, calculated': '',
    });
    expect(leftOn(site)).toContain('2 holes still to push, 34.0 ft in all');
  });

  test('without a hole diameter no fill is made up', () => {
    const now = siteOf(morning());
    const lines = fieldLines(now, fieldPoints(now), USUAL_FIELD_RULES);
    expect(leftOf(lines).sealing).toBeNull();
    expect(leftWords(leftOf(lines), now.settings)).toContain('fill not known');
    expect(fieldTable(lines, now.settings, new Set()).rows[0]?.[13]).toBe('not known');
  });

  test('as a file every heading that has a unit says it', () => {
    const [heading] = sheetCsv(sheetOf(morning())).split('\n');
    expect(heading).toContain('"Opened, then water and rest after (time, min)"');
    expect(heading).toContain('"Fill, placed (gal)"');
  });
});
