import { readFileSync } from 'node:fs';
import Papa from 'papaparse';
import { describe, expect, test } from 'vitest';
import { analyteProblem } from '../../../src/domain/lab/analytes';
import { levelFrom } from '../../../src/domain/lab/level';
import { PFAS_HAZARD_INDEX, SUM_RULES } from '../../../src/domain/lab/sum-rules';
import { fieldsOf } from '../../../src/domain/site/schema';
import type { LevelInput } from '../../../src/domain/lab/level';

type Raw = Readonly<Record<string, string>>;
const rowsOf = (path: string) =>
  Papa.parse<Raw>(readFileSync(new URL(path, import.meta.url), 'utf8'), {
    header: true,
    skipEmptyLines: true,
  }).data;

const levels = rowsOf('../../../src/io/levels/federal-drinking-water-2024.csv');
// 40 CFR part 141 in a text of October to November 2024, each value marked as read or recalled.
const reference = rowsOf('../../fixtures/levels/mcl-40cfr141.csv');

const STATUS: Raw = { VERIFIED: 'verified', MEMORY: 'from memory' };

describe('the federal drinking-water levels', () => {
  test('are the table of the reference row by row, but for PFBS, which has no level of its own', () => {
    const withLevel = reference.filter((row) => row.value_mg_per_L_unless_stated !== '');
    expect(reference).toHaveLength(81);
    expect(reference.filter((row) => !withLevel.includes(row)).map((row) => row.cas)).toEqual([
      '375-73-5',
    ]);
    expect(levels).toHaveLength(withLevel.length);
    levels.forEach((level, i) => {
      const row = withLevel[i]!;
      const [value, unit = 'mg/L'] = row.value_mg_per_L_unless_stated!.split(' ');
      expect(level).toMatchObject({
        analyte: row.analyte,
        cas: row.cas,
        value,
        section: row.section_40CFR,
        value_status: STATUS[row.value_status!],
      });
      expect(level.unit!.replace(' as N', '')).toBe(unit);
      if (row.note)
        expect(row.value_status === 'MEMORY' || level.note!.includes(row.note)).toBe(true);
      expect(level.note!.includes('CAS number from memory')).toBe(
        row.cas_status === 'MEMORY+check digit',
      );
    });
  });

  test('have the columns of the table of levels, and every one can be compared with', () => {
    expect(Object.keys(levels[0]!)).toEqual(fieldsOf('screening_levels').map(([name]) => name));
    for (const row of levels) {
      const input = { ...row, fraction: null, decides: null, cas: row.cas || null };
      const level = levelFrom(input as unknown as LevelInput);
      expect(level.value, row.analyte).not.toBeNull();
      expect(analyteProblem(row.cas || null, row.analyte!), row.analyte).toBeNull();
    }
  });

  test('say which were recalled: four values, all pesticides', () => {
    expect(
      levels.filter((row) => row.value_status === 'from memory').map((row) => row.analyte),
    ).toEqual(['Pentachlorophenol', 'Picloram', 'Simazine', 'Toxaphene']);
  });

  test('nitrate, nitrite and their sum are as nitrogen', () => {
    const asN = levels.filter((row) => row.unit === 'mg/L as N').map((row) => row.analyte);
    expect(asN).toEqual(['Nitrate (as N)', 'Nitrite (as N)', 'Nitrate + nitrite (as N)']);
  });

  test('carry their cautions: use differs, lead and copper are action levels, PFAS may go', () => {
    expect(levels.every((row) => row.note!.includes('states and uses differ'))).toBe(true);
    const action = levels.filter((row) => row.basis!.startsWith('Action level'));
    expect(action.map((row) => row.analyte)).toEqual([
      'Lead (action level)',
      'Copper (action level)',
    ]);
    const proposed = levels.filter((row) => row.note!.includes('rescission PROPOSED'));
    expect(proposed.map((row) => row.analyte)).toEqual(['PFHxS', 'PFNA', 'HFPO-DA']);
    expect(PFAS_HAZARD_INDEX.source).toContain('rescission proposed 18 May 2026');
  });

  test('total xylenes is 10 mg/L, with its exponent', () => {
    const xylenes = levels.find((row) => row.cas === '1330-20-7')!;
    expect(
      levelFrom({ ...xylenes, fraction: null, decides: null } as unknown as LevelInput).amount,
    ).toBe(10_000);
  });

  test('the sums we can make are found among them by their names', () => {
    const keys = levels.map(
      (row) =>
        levelFrom({
          ...row,
          fraction: null,
          decides: null,
          cas: row.cas || null,
        } as unknown as LevelInput).key,
    );
    for (const rule of SUM_RULES) if (rule.index === null) expect(keys).toContain(rule.key);
  });
});
