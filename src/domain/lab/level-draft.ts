import { fail, ok, type Result } from '../result';
import type { Edit } from '../site/edits/apply';
import type { Site } from '../site/site';
import { isDay } from '../site/read-cell';
import { analyteNamed, analyteProblem } from './analytes';
import { levelFrom } from './level';

/** A level as somebody types it, every part a text. */
export type LevelDraft = {
  readonly set: string;
  readonly analyte: string;
  readonly value: string;
  readonly unit: string;
  readonly cas: string;
  readonly matrix: string;
  /** Blank: any. */
  readonly fraction: '' | 'total' | 'dissolved';
  readonly basis: string;
  readonly source: string;
  readonly section: string;
  readonly date_read: string;
  readonly chosen_by: string;
};

export const EMPTY_LEVEL: LevelDraft = {
  set: '',
  analyte: '',
  value: '',
  unit: 'µg/L',
  cas: '',
  matrix: 'groundwater',
  fraction: '',
  basis: '',
  source: '',
  section: '',
  date_read: '',
  chosen_by: '',
};

/**
 * The edit that adds a typed level to its set, or what is wrong with it as a
 * sentence. A known analyte brings its CAS number. A level needs its source: one
 * that cannot be looked up again is worth little.
 */
export function addLevel(site: Site, draft: LevelDraft): Result<Edit, string> {
  const row = Object.fromEntries(
    Object.entries(draft).map(([column, text]) => [column, text.trim()]),
  ) as Record<keyof LevelDraft, string>;
  for (const [column, words] of REQUIRED)
    if (row[column] === '') return fail(`A level needs ${words}.`);
  const cas = row.cas || (analyteNamed(row.analyte)?.cas ?? '');
  const doubt = analyteProblem(cas || null, row.analyte);
  if (doubt) return fail(`Expected ${doubt.expected}, found “${doubt.found}”.`);
  if (row.date_read !== '' && !isDay(row.date_read))
    return fail('Write the day it was read as 2026-05-31.');
  const input = {
    set: row.set,
    cas: cas || null,
    analyte: row.analyte,
    matrix: row.matrix || null,
    fraction: draft.fraction || null,
    value: row.value,
    unit: row.unit,
    decides: null,
  };
  const level = levelFrom(input);
  if (level.value === null)
    return fail(`“${row.value} ${row.unit}” is not one number above zero in a unit we know.`);
  const before = site.screeningLevels.find(
    (other) =>
      other.set === row.set &&
      levelFrom(other).key === level.key &&
      (other.matrix ?? '') === row.matrix &&
      (other.fraction ?? '') === row.fraction,
  );
  if (before)
    return fail(`${row.set} has a level for it already, ${before.value} ${before.unit}: change it in the table.`); // prettier-ignore
  return ok({ kind: 'add-rows', table: 'screening_levels', rows: [{ ...row, cas }] });
}

const REQUIRED = [
  ['set', 'the name of its set'],
  ['analyte', 'an analyte'],
  ['value', 'a value'],
  ['unit', 'a unit'],
  ['source', 'its source'],
] as const;
