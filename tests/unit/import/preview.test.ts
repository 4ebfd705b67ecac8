import fc from 'fast-check';
import { expect, test } from 'vitest';
import { apply } from '../../../src/domain/site/edits/apply';
import { cellText } from '../../../src/domain/site/table';
import { proposedAnswers, type Answers } from '../../../src/io/import/ask';
import { proposeMapping } from '../../../src/io/import/match-columns';
import { preview, summaryOf } from '../../../src/io/import/preview';
import { readDelimitedText } from '../../../src/io/import/read-delimited';
import { refusedCsv } from '../../../src/io/import/refused';
import { emptySite, importInto, sourceOf, targetOf } from './target';

const WELLS = sourceOf(
  'wells.csv',
  'Well,X,Y,Ground Elev (ft),TOC Elev (ft),Top of Screen (ft),Bottom of Screen (ft)',
  'MW-1,1000,2000,100.10,102.47,10,20.5',
  'MW-2,1100,2050,99.80,101.90,10,20',
);
const SURVEYED: Answers = { 'is locations.ground_how': 'surveyed' };
const wells = () => importInto(emptySite(), WELLS, SURVEYED).after;

const LEVELS = sourceOf(
  'levels.csv',
  'Well,Date,DTW (ft),Status',
  'MW-1,2025-03-31,8.31,',
  'MW-2,2025-03-31,DRY,',
);

test('wells bring their screens and casings; the interval becomes a base and a length', () => {
  const { site } = targetOf(wells());
  expect([...site.screens.values()].map((s) => [s.id, s.tip_depth?.text, s.exposed_length?.text])).toEqual([['MW-1', '20.5', '10.5'], ['MW-2', '20', '10']]); // prettier-ignore
  expect([...site.measuringPoints.values()].map((m) => [m.screen, m.elevation?.text])).toEqual([['MW-1', '102.47'], ['MW-2', '101.90']]); // prettier-ignore
  expect(site.problems).toEqual([]);
});

test('a cell that says dry is a dry reading', () => {
  const source = sourceOf('l.csv', 'Well,Date,DTW (ft)', 'MW-1,2025-03-31,8.31', 'MW-2,2025-03-31,Dry'); // prettier-ignore
  const { after, preview: last } = importInto(wells(), source);
  expect(last.account).toMatchObject({ rows: 2, added: 2 });
  expect(targetOf(after).site.waterLevels.map((l) => [l.screen, l.depth_to_water?.text ?? null, l.status])).toEqual([['MW-1', '8.31', 'static'], ['MW-2', null, 'dry']]); // prettier-ignore
});

test('the same file a second time adds nothing, and says so', () => {
  const after = wells();
  const again = importInto(after, WELLS, SURVEYED).preview;
  expect(again.edit).toBeNull();
  expect(again.account).toMatchObject({ rows: 2, same: 2, taken: 2, added: 0 });
  expect(summaryOf(again)).toBe(
    'The file adds nothing and changes nothing. Of 2 rows: 2 the same as the site has.',
  );
});

test('a depth written 8.3 where the site has 8.30 is no change', () => {
  const after = wells();
  const source = sourceOf('w.csv', 'Well,TOC Elev (ft),Ground Elev (ft)', 'MW-2,101.9,99.8');
  expect(importInto(after, source, SURVEYED).preview.account).toMatchObject({ same: 1 });
});

test('changed values are listed, old and new, and taken only when somebody says so', () => {
  const after = wells();
  const source = sourceOf('w.csv', 'Well,TOC Elev (ft),Ground Elev (ft)', 'MW-1,102.74,100.10');
  const open = importInto(after, source, SURVEYED);
  expect(open.preview.account).toMatchObject({ rows: 1, refused: 1, changed: 0 });
  expect(open.preview.refused[0]?.why).toBe(
    'elevation: expected “102.47”, as the site has, found “102.74”.',
  );
  expect(open.preview.edit).toBeNull();
  const asked = open.preview.asks.find(({ id }) => id === 'changes');
  expect(asked?.proposed).toBeNull();

  const taken = importInto(after, source, { ...SURVEYED, changes: 'take' });
  expect(taken.preview.account).toMatchObject({ changed: 1, refused: 0 });
  expect(taken.preview.changes).toMatchObject([
    { table: 'measuring_points', column: 'elevation', before: '102.47', after: '102.74' },
  ]);
  expect(targetOf(taken.after).site.measuringPoints.get('MW-1')?.elevation?.text).toBe('102.74');
});

test('a blank in the file leaves what the site has', () => {
  const source = sourceOf('w.csv', 'Well,TOC Elev (ft),Ground Elev (ft)', 'MW-1,,100.10');
  expect(importInto(wells(), source, SURVEYED).preview.account).toMatchObject({ same: 1 });
});

test('refused rows come back as a file that says why; mended, it can be dropped in again', () => {
  const source = sourceOf(
    'levels.csv',
    'Well,Date,DTW (ft),Note',
    'MW-1,2025-03-31,8.31,fine',
    'MW-2,2025-03-31,8.3l,"a letter l, typed for a 1"',
    'MW-7,2025-03-31,9.00,=HYPERLINK("x")',
  );
  const first = importInto(wells(), source);
  expect(first.preview.account).toMatchObject({ rows: 3, taken: 1, refused: 2 });
  const csv = refusedCsv(source, first.preview);
  expect(csv).toBe(
    [
      'Well,Date,DTW (ft),Note,why_refused',
      'MW-2,2025-03-31,8.3l,"a letter l, typed for a 1","Row 3: DTW (ft): expected a number in ft, found “8.3l”."', // prettier-ignore
      'MW-7,2025-03-31,9.00,"\'=HYPERLINK(""x"")",Row 4: Well: waits for an answer to what this is: the site does not have it (“MW-7”).', // prettier-ignore
      '',
    ].join('\n'),
  );
  const mended = readDelimitedText('refused.csv', csv.replace('8.3l', '8.31').replace('MW-7', 'MW-2').replaceAll('2025-03-31,9', '2025-04-30,9')); // prettier-ignore
  if (!mended.ok) throw new Error(mended.problem);
  const second = importInto(first.after, mended.value);
  expect(second.preview.account).toMatchObject({ rows: 2, added: 2, refused: 0 });
  const notes = targetOf(second.after).site.waterLevels.map(({ note }) => note);
  expect(notes).toEqual(['fine', 'a letter l, typed for a 1', '=HYPERLINK("x")']);
});

test('the whole import is one step, and undone by one', () => {
  const before = wells();
  const { preview: last, after } = importInto(before, LEVELS);
  expect(last.edit?.kind).toBe('together');
  expect(after).not.toBe(before);
  expect(before.tables.water_levels).toBeUndefined();
});

test('names that differ in capitals alone are taken, and said', () => {
  const source = sourceOf('l.csv', 'Well,Date,DTW (ft)', 'mw-1,2025-03-31,8.31');
  const { preview: last } = importInto(wells(), source);
  expect(last.account.taken).toBe(1);
  expect(last.said).toContain('“mw-1” is taken for MW-1: they differ in capitals or blanks alone.');
});

test('a location with two screens does not say which was read', () => {
  const site = importInto(
    emptySite(),
    sourceOf('w.csv', 'Location,Screen,Ground Elev (ft),Type,Status', 'N-1,N-1S,100,mw,installed', 'N-1,N-1D,100,mw,installed'), // prettier-ignore
    SURVEYED,
  ).after;
  const levels = sourceOf('l.csv', 'Well,Date,DTW (ft)', 'N-1,2025-03-31,8', 'N-1D,2025-03-31,9');
  const { preview: last } = importInto(site, levels);
  expect(last.account).toMatchObject({ taken: 1, refused: 1 });
  expect(last.refused[0]?.why).toBe('Well: expected one of its screens, N-1S, N-1D, found “N-1”.');
});

test('depths in metres go into a site in feet with what was written kept beside them', () => {
  const source = sourceOf('l.csv', 'Well,Date,DTW (m)', 'MW-1,2025-03-31,2.51');
  const { after, preview: last } = importInto(wells(), source);
  const table = after.tables.water_levels;
  if (!table) throw new Error('no levels');
  // 2.51 m / 0.3048 = 8.23491 ft
  expect(cellText(table, 0, 'depth_to_water')).toBe('8.2349');
  expect(cellText(table, 0, 'depth_to_water_as_given')).toBe('2.51 m');
  expect(last.said.join(' ')).toContain('it is converted');
  expect(importInto(after, source).preview.account).toMatchObject({ same: 1 });
});

test('a unit in a column of its own, row by row', () => {
  const source = sourceOf('l.csv', 'Well,Date,DTW,Unit', 'MW-1,2025-03-31,2.51,m', 'MW-2,2025-03-31,8.3,ft'); // prettier-ignore
  const { after } = importInto(wells(), source);
  const levels = targetOf(after).site.waterLevels;
  expect(levels.map((level) => level.depth_to_water?.text)).toEqual(['8.2349', '8.3']);
});

test('a unit nobody named is asked for, and the site’s own proposed', () => {
  const source = sourceOf('l.csv', 'Well,Date,DTW', 'MW-1,2025-03-31,2.51');
  const { mapping } = proposeMapping(source);
  const { asks, account } = preview(source, mapping, {}, targetOf(wells()));
  expect(asks.find(({ id }) => id === 'length unit')).toMatchObject({ proposed: 'ft', needed: true }); // prettier-ignore
  expect(account.refused).toBe(1);
});

test('events: those the site has, by date, else new ones where two weeks pass', () => {
  const site = wells();
  const source = sourceOf(
    'l.csv',
    'Well,Date,DTW (ft)',
    'MW-1,2025-03-31,8.31',
    'MW-2,2025-04-02,8.00',
    'MW-1,2025-06-30,8.40',
  );
  const first = importInto(site, source);
  expect([...targetOf(first.after).site.events.values()].map((e) => [e.id, e.first_day, e.last_day])).toEqual([['Event 2025-03', '2025-03-31', '2025-04-02'], ['Event 2025-06', '2025-06-30', '2025-06-30']]); // prettier-ignore
  const later = sourceOf('m.csv', 'Well,Date,DTW (ft)', 'MW-2,2025-03-31,8.01');
  const second = importInto(first.after, later);
  expect(second.preview.asks.find(({ id }) => id === 'rounds')?.proposed).toBe('existing');
  expect(targetOf(second.after).site.waterLevels.at(-1)?.event).toBe('Event 2025-03');
});

test('markup, formulas and names of the language itself stay text', () => {
  const source = sourceOf(
    'w.csv',
    'Well,X,Y,Ground Elev (ft),__proto__,constructor,toString',
    '<img src=x onerror=alert(1)>,1,2,3,{},a,b',
    '__proto__,4,5,6,c,d,e',
  );
  const { after, preview: last } = importInto(emptySite(), source, SURVEYED);
  expect(last.account.taken).toBe(2);
  const { site } = targetOf(after);
  expect([...site.locations.keys()]).toEqual(['<img src=x onerror=alert(1)>', '__proto__']);
  expect(after.tables.locations?.columns.slice(-3)).toEqual(['column 5', 'column 6', 'tostring']); // prettier-ignore
  expect(({} as Record<string, unknown>).c).toBeUndefined();
});

const cell = fc.oneof(
  fc.constantFrom('MW-1', 'MW-2', 'MW-9', '', ' ', '8.31', '8,31', 'dry', '2025-03-31', '3/4/2025', '31/3/2025', 'static', 'yes', '"', '<1', 'ND', 'ug/L', '71-43-2', '-5', '1e9'), // prettier-ignore
  fc.string({ maxLength: 8 }),
);

test.each([
  'Well,Date,DTW (ft),Status,Note',
  'Sample,Well,Date,Analyte,Result,Unit,Qual',
  'Well,Date,Benzene (ug/L),Q,Toluene (ug/L)',
  'Location,Easting,Northing,Ground Elev (ft),Type',
  'Location,Latitude,Longitude,Elevation',
  'Boring,Top,Bottom,Description',
  'Analyte,Level,Unit',
  'Well,Date,Time,pH,DO,Turbidity',
])('rows in = taken + refused + blank, and what is taken is read: %s', (header) => {
  const site = wells();
  fc.assert(
    fc.property(
      fc.array(fc.array(cell, { maxLength: 8 }), { maxLength: 12 }),
      fc.record({
        'day order': fc.constantFrom('day first', 'month first', ''),
        decimals: fc.constantFrom('point', 'comma', ''),
        'new locations': fc.constantFrom('direct push', 'refuse'),
        rounds: fc.constantFrom('gap', 'day', 'one', ''),
        changes: fc.constantFrom('take', 'leave', ''),
      }),
      (lines, answers) => {
        const quoted = (text: string) => `"${text.replaceAll('"', '""')}"`;
        const source = sourceOf('any.csv', header, ...lines.map((l) => l.map(quoted).join(',')));
        const { mapping } = proposeMapping(source);
        const target = targetOf(site);
        const asked = preview(source, mapping, answers, target).asks;
        const made = preview(source, mapping, { ...proposedAnswers(asked), ...answers }, target);
        const { rows, taken, refused, blank, added, same, changed } = made.account;
        expect(rows).toBe(source.table.size - made.mapping.headRows.length);
        expect(taken + refused + blank).toBe(rows);
        expect(added + same + changed).toBe(taken);
        expect(made.refused).toHaveLength(refused);
        expect(made.refused.every(({ why }) => why !== '')).toBe(true);
        if (!made.edit) return;
        const after = apply(site, made.edit);
        if (!after.ok) throw new Error(after.problem);
        const problems = targetOf(after.value).site.problems;
        expect(problems).toEqual([]);
        // What was taken is there: the same file again has nothing to add.
        const again = preview(source, mapping, { ...proposedAnswers(asked), ...answers }, targetOf(after.value)); // prettier-ignore
        expect(again.account.added).toBe(0);
      },
    ),
    { numRuns: 25 },
  );
});
