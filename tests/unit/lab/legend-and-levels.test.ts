import { describe, expect, test } from 'vitest';
import { addLevel, EMPTY_LEVEL } from '../../../src/domain/lab/level-draft';
import {
  giveMeaning,
  laboratoriesOf,
  legendLines,
  takeOut,
  unexplained,
} from '../../../src/domain/lab/legend-edits';
import { judgedAgainst } from '../../../src/domain/lab/site-results';
import { apply, type Edit } from '../../../src/domain/site/edits/apply';
import { readSite } from '../../../src/domain/site/site';
import { openFolder } from '../folder';

const opened = openFolder('demo-sites/osier-bend');
const SET = 'Federal drinking water (40 CFR 141.61(a))';

/** The site after an edit, read anew as the app does. */
function after(edit: Edit | null, from = opened.package) {
  if (!edit) throw new Error('there is nothing to do');
  const made = apply(from, edit);
  if (!made.ok) throw new Error(made.problem);
  return { package: made.value, site: readSite(made.value, opened.site.grid) };
}

const verdicts = (site: typeof opened.site) =>
  judgedAgainst(site, SET, { event: '2025-09' }).map(({ judged }) => judged.outcome.verdict);
const estimated = (site: typeof opened.site) =>
  verdicts(site).filter((verdict) => verdict === 'exceeds-estimated').length;

describe('a legend edited', () => {
  test('shows each letter once, the laboratory’s own meaning before the one for all', () => {
    expect(laboratoriesOf(opened.site)).toEqual(['Laboratory A', null]);
    const lines = legendLines(opened.site, 'Laboratory A');
    expect(lines.find(({ letter }) => letter === 'B')).toMatchObject({
      meaning: 'in blank',
      from: 'this laboratory',
    });
    expect(lines.find(({ letter }) => letter === 'R')?.from).toBe('every laboratory');
    expect(new Set(lines.map(({ letter }) => letter)).size).toBe(lines.length);
  });

  test('changes verdicts at once: J read as of no meaning leaves nothing merely estimated by it', () => {
    expect(estimated(opened.site)).toBeGreaterThan(0);
    const one = after(giveMeaning(opened.site, 'Laboratory A', 'J', 'none', 'Letter of May'));
    const two = after(giveMeaning(one.site, null, 'J', 'none', ''), one.package);
    expect(estimated(two.site)).toBeLessThan(estimated(opened.site));
    expect(one.site.qualifierLegends).toHaveLength(opened.site.qualifierLegends.length);
    expect(
      legendLines(one.site, 'Laboratory A').find(({ letter }) => letter === 'J'),
    ).toMatchObject({ meaning: 'none', source: 'Letter of May' });
  });

  test('a letter taken out falls back to the one for all, and then to the guidelines', () => {
    const one = after(takeOut(opened.site, 'Laboratory A', 'J'));
    const from = (site: typeof opened.site) =>
      legendLines(site, 'Laboratory A').find(({ letter }) => letter === 'J')?.from;
    expect(from(one.site)).toBe('every laboratory');
    const two = after(takeOut(one.site, null, 'J'), one.package);
    expect(from(two.site)).toBe('national guidelines');
    expect(takeOut(two.site, null, 'J')).toBeNull();
  });

  test('a letter in use that is explained nowhere is counted', () => {
    expect(unexplained(opened.site, 'Laboratory A').size).toBe(0);
    const row = opened.site.results[Symbol.iterator]().next().value;
    if (!row) throw new Error('the demo has results');
    const odd = after({
      kind: 'write-cells',
      table: 'results',
      cells: [{ row: row.row - 2, column: 'lab_qualifier', text: 'Q' }],
    });
    expect([...unexplained(odd.site, 'Laboratory A')]).toEqual([['Q', 1]]);
  });
});

describe('a level typed', () => {
  const draft = {
    ...EMPTY_LEVEL,
    set: 'Own levels',
    analyte: 'Benzene',
    value: '2',
    source: 'Work plan, table 4',
    date_read: '2026-05-31',
    chosen_by: 'R.O.',
  };

  test('makes a set of its own, with the CAS number of its analyte, and is compared with at once', () => {
    const made = addLevel(opened.site, draft);
    if (!made.ok) throw new Error(made.problem);
    const { site } = after(made.value);
    const own = judgedAgainst(site, 'Own levels', { event: '2025-09', analyte: 'Benzene' });
    expect(own.length).toBeGreaterThan(20);
    expect(own.some(({ judged }) => judged.outcome.verdict === 'exceeds')).toBe(true);
    expect(site.screeningLevels.at(-1)).toMatchObject({
      cas: '71-43-2',
      source: 'Work plan, table 4',
      chosen_by: 'R.O.',
    });
  });

  test.each([
    [{ source: '' }, 'needs its source'],
    [{ set: ' ' }, 'needs the name of its set'],
    [{ value: '1–5' }, 'is not one number above zero'],
    [{ unit: 'spoons' }, 'in a unit we know'],
    [{ cas: '79-01-6' }, '71-43-2'],
    [{ date_read: '31 May' }, '2026-05-31'],
    [{ set: SET, matrix: '', value: '5' }, 'already'],
  ])('is refused with the reason: %o', (change, words) => {
    const made = addLevel(opened.site, { ...draft, ...change });
    expect(made.ok ? '' : made.problem).toContain(words);
  });
});
