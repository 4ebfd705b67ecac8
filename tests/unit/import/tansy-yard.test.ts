import { expect, test } from 'vitest';
import { inUnits, metres } from '../../../src/domain/units';
import { headsOf } from '../../../src/domain/water/event-heads';
import { evidentAnswers, proposedAnswers, type Answers } from '../../../src/io/import/ask';
import { proposeMapping } from '../../../src/io/import/match-columns';
import { preview } from '../../../src/io/import/preview';
import { readDelimitedBytes } from '../../../src/io/import/read-delimited';
import { bytesOfFile, emptySite, importInto, sourceOf, targetOf } from './target';

const FOLDER = new URL('../../fixtures/tansy-yard/', import.meta.url);
const [SURVEY, PUSH_LOG, LEVELS, LAB] = [
  'survey 2025-10-14.csv',
  'push log.csv',
  'water levels.txt',
  'lab results L25-10418.csv',
] as const;

function raw(name: string) {
  const read = readDelimitedBytes(name, bytesOfFile(new URL(encodeURIComponent(name), FOLDER)));
  if (!read.ok) throw new Error(read.problem);
  return read.value;
}

/** The site with some of the files taken, in order, with the answers the files and the trade speak for. */
function after(...names: readonly string[]) {
  return names.reduce((site, name) => importInto(site, raw(name)).after, emptySite());
}

const idsOf = (rows: ReadonlyMap<string, unknown>) => [...rows.keys()];

test('a surveyor’s shots become locations, ground elevations and measuring points: every row once', () => {
  const { preview: made, after: site } = importInto(emptySite(), raw(SURVEY));
  expect(made.account).toMatchObject({ rows: 16, added: 16, refused: 0, blank: 0 });
  expect(made.adds).toEqual([
    { table: 'locations', rows: 12 },
    { table: 'screens', rows: 4 },
    { table: 'measuring_points', rows: 4 },
  ]);
  const { locations, measuringPoints } = targetOf(site).site;
  // Elevations as the file has them: TY-MW1 TOC 723.24, GS 720.6; GP-05 721.0.
  expect(measuringPoints.get('TY-MW1')?.elevation?.text).toBe('723.24');
  expect(locations.get('TY-MW1')).toMatchObject({
    kind: 'monitoring well',
    status: 'installed',
    ground_how: 'surveyed',
    ground_elevation: { text: '720.6' },
  });
  expect(locations.get('GP-05')).toMatchObject({
    kind: 'direct push',
    status: 'pushed',
    ground_elevation: { text: '721.0' },
  });
  expect(measuringPoints.size).toBe(4);
});

test('how shots are read is a question with its evidence; nothing is taken before it is answered', () => {
  const source = raw(SURVEY);
  const target = targetOf(emptySite());
  const open = preview(source, proposeMapping(source).mapping, {}, target);
  expect(open.account).toMatchObject({ taken: 0, refused: 16, waiting: 16 });
  // Each row waits once, by the name of its point.
  expect(open.refused[8]).toEqual({
    at: 8,
    row: 13,
    why: 'Description: waits for an answer to what its elevation is of (“GP-01”).',
    waits: true,
  });
  const ask = (id: string) => open.asks.find((each) => each.id === id);
  expect(ask('survey shots')?.why).toContain('TY-MW1, TY-MW2, TY-MW3, TY-MW4');
  expect(ask('survey bare')).toMatchObject({ proposed: 'ground', usual: true });
  expect(ask('kind of TY-MW')).toMatchObject({ proposed: 'monitoring well' });
  expect(ask('kind of GP')).toMatchObject({ proposed: 'direct push' });
});

test('the same survey without title and headings, as a data collector writes it, comes in the same', () => {
  const read = bytesOfFile(new URL(encodeURIComponent(SURVEY), FOLDER));
  const lines = new TextDecoder().decode(read).trim().split(/\r?\n/).slice(4);
  const bare = sourceOf('job 14.txt', ...lines);
  expect([bare.headerRow, bare.table.size]).toEqual([0, 16]);
  const { preview: made, after: site } = importInto(emptySite(), bare);
  expect(made.asks[0]).toMatchObject({ id: 'survey order', usual: true, needed: true });
  expect(made.account).toMatchObject({ rows: 16, added: 16, refused: 0 });
  expect(site.tables).toEqual(
    Object.fromEntries(
      Object.entries(after(SURVEY).tables).map(([name, table]) => [
        name,
        table && { ...table, columns: table.columns.map((column) => (column === 'pt' ? 'point' : column)) }, // prettier-ignore
      ]),
    ),
  );
  const { mapping } = proposeMapping(bare);
  expect(
    preview(bare, mapping, { 'survey order': 'no' }, targetOf(emptySite())).account.taken,
  ).toBe(0);
});

test('a push log brings screens and levels below ground in one pass, and asks nothing of points the site has', () => {
  const { preview: made, after: site } = importInto(after(SURVEY), raw(PUSH_LOG));
  expect(made.account).toMatchObject({ rows: 8, added: 8, refused: 0 });
  expect(made.asks.map(({ id }) => id)).toEqual(['day of levels', 'rounds', 'round name', 'is @read_status']); // prettier-ignore
  const { site: read } = targetOf(site);
  expect(read.waterLevels).toHaveLength(8);
  // GP-07: screen 12 to 16 ft, water at 9.89 ft below ground at 720.5 ft.
  expect(read.screens.get('GP-07')).toMatchObject({ tip_depth: { text: '16' }, exposed_length: { text: '4' } }); // prettier-ignore
  expect(read.waterLevels.find(({ screen }) => screen === 'GP-07')).toMatchObject({ depth_to_water: { text: '9.89' }, measuring_point: 'GP-07', event: 'Event 2025-10' }); // prettier-ignore
  expect(read.measuringPoints.get('GP-07')).toMatchObject({ description: 'land surface', stick_up: { text: '0' } }); // prettier-ignore
});

test('gauging and sampling of adjoining days are one event; the month after is another', () => {
  const { events } = targetOf(after(SURVEY, PUSH_LOG, LEVELS, LAB)).site;
  expect([...events.values()].map(({ id, first_day, last_day }) => [id, first_day, last_day])).toEqual([
    ['Event 2025-10', '2025-10-14', '2025-10-15'],
    ['Event 2025-11', '2025-11-05', '2025-11-05'],
  ]); // prettier-ignore
  // Gauged first, on the 15th alone: the samples of the 14th widen it, as a change that is listed.
  const gauged = after(SURVEY, LEVELS);
  const { preview: lab, after: widened } = importInto(gauged, raw(LAB));
  expect(lab.changes).toEqual([
    { table: 'events', row: 0, column: 'first_day', before: '2025-10-15', after: '2025-10-14', from: 0 }, // prettier-ignore
  ]);
  expect(targetOf(widened).site.events.get('Event 2025-10')?.first_day).toBe('2025-10-14');
});

test('the laboratory’s names are the locations; the duplicate and the blank are kept under theirs', () => {
  const site = after(SURVEY, PUSH_LOG, LEVELS);
  const { preview: made, after: last } = importInto(site, raw(LAB), {
    'second number L25-10418-11': 'field duplicate',
  });
  expect(made.account).toMatchObject({ rows: 55, added: 55, refused: 0 });
  const { samples } = targetOf(last).site;
  expect(idsOf(samples)).toEqual([
    ...[1, 2, 3, 4].map((n) => `GP-0${n} 2025-10-14`),
    ...[5, 6, 7, 8].map((n) => `GP-0${n} 2025-10-15`),
    'DUP-1 2025-10-14',
    'Trip Blank 2025-10-15',
    'GP-05 2025-10-15 L25-10418-11',
  ]);
  expect(samples.get('DUP-1 2025-10-14')).toMatchObject({ kind: 'field duplicate', screen: null, parent: null, blind_alias: 'DUP-1', matrix: 'groundwater' }); // prettier-ignore
  expect(samples.get('Trip Blank 2025-10-15')).toMatchObject({ kind: 'trip blank', screen: null, matrix: 'water' }); // prettier-ignore
  expect(samples.get('GP-05 2025-10-15 L25-10418-11')).toMatchObject({ parent: 'GP-05 2025-10-15', screen: 'GP-05' }); // prettier-ignore
});

test('a second sample of one name and another number of the laboratory is never joined without an answer', () => {
  const { preview: made } = importInto(after(SURVEY, PUSH_LOG), raw(LAB));
  const ask = made.asks.find(({ id }) => id === 'second number L25-10418-11');
  expect(ask).toMatchObject({ proposed: null, needed: true });
  expect(made.account).toMatchObject({ taken: 50, refused: 5 });
});

test('a laboratory file before the survey says that its names are no locations yet', () => {
  const { preview: made } = importInto(emptySite(), raw(LAB));
  // Duplicate and blank are of no location, and come in.
  expect(made.account).toMatchObject({ taken: 10, refused: 45 });
  expect(made.asks.find(({ id }) => id === 'samples are locations')).toMatchObject({ proposed: null, why: expect.stringContaining('take the file of locations first') }); // prettier-ignore
});

test('what no file says, no single press of Agree answers: the water’s state, the unit, the unmarked shots', () => {
  const site = after(SURVEY);
  const asked = (name: string) => {
    const source = raw(name);
    return preview(source, proposeMapping(source).mapping, {}, targetOf(site)).asks;
  };
  const asks = asked(LEVELS);
  const state = 'is water_levels.status';
  expect(proposedAnswers(asks)).toHaveProperty([state], 'static');
  expect(evidentAnswers(asks)).not.toHaveProperty([state]);
});

test('a word where a depth should be is asked about, and its remark comes in with the reading', () => {
  const { preview: made, after: site } = importInto(after(SURVEY), raw(LEVELS), {
    'depth n/a': 'obstructed',
  });
  expect(made.account).toMatchObject({ rows: 9, added: 9, refused: 0 });
  expect(targetOf(site).site.waterLevels.at(-1)).toMatchObject({ screen: 'TY-MW2', status: 'obstructed', depth_to_water: null, note: 'tape stuck, remeasured' }); // prettier-ignore
});

test('the four files a second time add nothing', () => {
  const all = [SURVEY, PUSH_LOG, LEVELS, LAB];
  const site = after(...all);
  const second: Answers = {};
  for (const name of all) {
    const { preview: again } = importInto(site, raw(name), second);
    expect(again.edit, name).toBeNull();
    expect(again.account.added, name).toBe(0);
  }
});

test('every row of the four files is in the site or refused with its reason', () => {
  let site = emptySite();
  const refused: string[] = [];
  let [rows, taken] = [0, 0];
  for (const name of [SURVEY, PUSH_LOG, LEVELS, LAB]) {
    const made = importInto(site, raw(name), { 'second number L25-10418-11': 'field sample' });
    rows += made.preview.account.rows;
    taken += made.preview.account.taken;
    refused.push(...made.preview.refused.map(({ row, why }) => `${name}, row ${row}: ${why}`));
    site = made.after;
  }
  // 16 shots, 8 push points, 9 readings, 55 results.
  expect(rows).toBe(88);
  expect(taken).toBe(87);
  expect(refused).toEqual([
    'water levels.txt, row 10: DTW (ft below TOC): expected a number in ft, found “n/a”.',
  ]);
  const { site: read } = targetOf(site);
  expect(read.problems).toEqual([]);
  expect([read.locations.size, read.waterLevels.length, [...read.results].length]).toEqual([12, 16, 55]); // prettier-ignore
  // Heads by hand: 723.24 − 11.04, 722.06 − 11.19, 723.45 − 12.74, 723.53 − 12.19; GP-07 720.5 − 9.89 ft.
  const byHand = { 'TY-MW1': 712.2, 'TY-MW2': 710.87, 'TY-MW3': 710.71, 'TY-MW4': 711.34, 'GP-07': 710.61 }; // prettier-ignore
  const heads = headsOf(read, 'Event 2025-10');
  expect(heads).toHaveLength(12);
  for (const [screen, feet] of Object.entries(byHand)) {
    const head = heads.find(({ reading }) => reading.screen === screen)?.head;
    expect(inUnits(head?.value ?? metres(0), 'ft'), screen).toBeCloseTo(feet, 6);
  }
});

test('for a blind duplicate the samples of its day are offered first, and the parent named is one the file has', () => {
  const site = after(SURVEY, PUSH_LOG, LEVELS);
  const source = raw(LAB);
  const target = targetOf(site);
  const { mapping } = proposeMapping(source);
  const dup = { 'kind of sample DUP-1': 'field duplicate' };
  const ask = preview(source, mapping, dup, target).asks.find(({ id }) => id === 'parent of DUP-1');
  expect(ask?.choices.map(({ says }) => says)).toEqual([
    'not known yet',
    ...[1, 2, 3, 4].map((n) => `GP-0${n}, sampled the same day`),
    // “GP-05 ” of the second number differs from “GP-05” by a blank alone.
    ...[5, 6, 7, 8].map((n) => `GP-0${n}, sampled 2025-10-15`),
  ]);
  const named = (parent: string) =>
    targetOf(importInto(site, source, { ...dup, 'parent of DUP-1': parent }).after).site.samples.get('DUP-1 2025-10-14'); // prettier-ignore
  expect(named('GP-02')).toMatchObject({ parent: 'GP-02 2025-10-14', screen: 'GP-02' });
  expect(named('GP-05')).toMatchObject({ parent: 'GP-05 2025-10-15', screen: 'GP-05' });
});

test('the survey’s title line speaks for the unit of elevations, and is held against the site’s grid', () => {
  const source = raw(SURVEY);
  const { mapping } = proposeMapping(source);
  const seen = (name: string) => {
    const site = emptySite();
    const settings = { ...site.settings, grid: { ...site.settings.grid, name } };
    return preview(source, mapping, {}, targetOf({ ...site, settings }));
  };
  const same = seen('NAD83 / Indiana East (ftUS)');
  const unit = same.asks.find(({ id }) => id === 'length unit');
  expect(unit).toMatchObject({ proposed: 'ft', usual: false });
  expect(unit?.why).toContain('Above the headings stands “NAVD88 feet”.');
  expect(same.said.join(' ')).toContain(
    'agrees with the site’s grid, NAD83 / Indiana East (ftUS).',
  );
  expect(seen('NAD83 / Indiana West (ftUS)').said.join(' ')).toContain('is not how the site’s grid is called, NAD83 / Indiana West (ftUS): see that they are the same.'); // prettier-ignore
});

test('depths headed “below TOC” name the casing mark the survey shot', () => {
  const { after: site, preview: made } = importInto(after(SURVEY, PUSH_LOG), raw(LEVELS));
  expect(made.said.join(' ')).toContain('“DTW (ft below TOC)”: each reading names the mark');
  const levels = targetOf(site).site.waterLevels.filter(({ screen }) => screen.startsWith('TY-MW'));
  expect(levels).not.toHaveLength(0);
  for (const { screen, measuring_point: mark } of levels) expect(mark).toBe(screen);
});

test('levels of a push log are of a state not known, unless somebody says that they were static', () => {
  const open = (name: string, site = after(SURVEY)) =>
    preview(raw(name), proposeMapping(raw(name)).mapping, {}, targetOf(site)).asks;
  const state = open(PUSH_LOG).find(({ id }) => id === 'is @read_status');
  expect(state).toMatchObject({ proposed: 'not known', usual: true });
  const wells = open(LEVELS).find(({ id }) => id === 'is water_levels.status');
  expect(wells).toMatchObject({ proposed: 'static', usual: true });
  expect(wells?.choices.map(({ value }) => value)).toContain('not known');
});

test('that a pause of 14 days parts two events is usual, and not what the file says', () => {
  const read = { 'day order': 'month first' };
  const asks = preview(raw(LEVELS), proposeMapping(raw(LEVELS)).mapping, read, targetOf(after(SURVEY))).asks; // prettier-ignore
  const rounds = asks.find(({ id }) => id === 'rounds');
  expect(rounds).toMatchObject({ proposed: 'gap', usual: true });
  expect(rounds?.choices.map(({ says }) => says)).toContain(
    'Parted by pauses of 14 days: 2 events',
  );
});

test('a blank’s matrix is put down as water in so many words', () => {
  const { preview: made } = importInto(after(SURVEY, PUSH_LOG, LEVELS), raw(LAB));
  expect(made.said).toContain(
    '“Trip Blank” is a trip blank: its matrix is put down as water, though the file says “WG”, since it is no groundwater of the site.',
  );
});
