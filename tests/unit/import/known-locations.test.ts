import { describe, expect, test } from 'vitest';
import { proposeMapping } from '../../../src/io/import/match-columns';
import { inTakingOrder, fileBefore, recognised } from '../../../src/io/import/taking-order';
import { emptySite, importInto, sourceOf, targetOf } from './target';

const surveyed = () =>
  importInto(
    emptySite(),
    sourceOf('xy.csv', 'Well,X,Y,TOC Elev (ft)', 'MW-1,100,200,102.47', 'GP-1,120,210,'),
    { 'kind of MW': 'monitoring well', 'kind of GP': 'direct push' },
  );

test('wells and push points of one file are told apart by the beginnings of their names; a blank casing makes no mark', () => {
  const { site } = targetOf(surveyed().after);
  expect([...site.locations.values()].map(({ id, kind, status }) => [id, kind, status])).toEqual([
    ['MW-1', 'monitoring well', 'installed'],
    ['GP-1', 'direct push', 'pushed'],
  ]);
  expect([...site.measuringPoints.keys()]).toEqual(['MW-1']);
});

describe('a later file of locations the site has', () => {
  const later = sourceOf('depths.csv', 'Well,Total depth (ft)', 'MW-1,25', 'GP-1,16');

  test('fills in blanks without a question, lists what it filled, and asks for no kind again', () => {
    const { preview, after } = importInto(surveyed().after, later);
    expect(preview.asks).toEqual([]);
    expect(preview.account).toMatchObject({ rows: 2, changed: 2, refused: 0 });
    expect(preview.changes.map(({ column, before, after: now }) => [column, before, now])).toEqual([
      ['tip_depth', '', '25'],
      ['tip_depth', '', '16'],
    ]);
    expect(targetOf(after).site.screens.get('GP-1')?.tip_depth?.text).toBe('16');
  });

  test('asks before it writes over a value, and fills nothing of a row it refuses', () => {
    const filled = importInto(surveyed().after, later).after;
    const other = sourceOf('d.csv', 'Well,Total depth (ft),Zone', 'MW-1,26,shallow', 'GP-1,16,shallow'); // prettier-ignore
    const { preview } = importInto(filled, other);
    expect(preview.account).toMatchObject({ changed: 1, refused: 1 });
    expect(preview.asks.map(({ id }) => id)).toEqual(['changes']);
    expect(preview.refused[0]?.why).toBe('tip_depth: expected “25”, as the site has, found “26”.');
    expect(preview.changes).toMatchObject([{ column: 'zone', before: '', after: 'shallow' }]);
  });
});

test('files are put in the order in which each finds what it names', () => {
  const file = (name: string, ...lines: readonly string[]) => ({
    name,
    is: recognised(proposeMapping(sourceOf(name, ...lines))),
  });
  const files = [
    file('a lab.csv', 'Sample,Date,Analyte,Result,Unit', 'S1,2025-01-01,Benzene,1,ug/L'),
    file('b levels.csv', 'Well,Date,DTW (ft)', 'MW-1,2025-01-01,8.1'),
    file('c levels of the agency.csv', 'Analyte,CAS,MCL,Unit', 'Benzene,71-43-2,5,ug/L'),
    file('d push log.csv', 'Boring,Screen top (ft),Screen bottom (ft)', 'GP-1,10,14'),
    file('e survey.csv', 'Point,Northing,Easting,Elevation,Description', '1,2,3,4,MW-1 TOC'),
    file('f what.csv', 'this,that', 'a,b'),
  ];
  expect(inTakingOrder(files).map(({ name }) => name[0])).toEqual(['e', 'd', 'b', 'c', 'a', 'f']);
  expect(fileBefore('results', files)?.name).toBe('e survey.csv');
  expect(fileBefore('locations', files.slice(0, 3))).toBeNull();
});

test('how files of another site were matched is followed only for a file of the same kind', () => {
  const source = sourceOf('a.csv', 'Boring,Screen top (ft),Screen bottom (ft)', 'GP-1,10,14');
  const proposed = proposeMapping(source).mapping;
  const remembered = (form: typeof proposed.form) =>
    new Map([[proposed.shape, { ...proposed, form, columns: proposed.columns.map(() => ({ use: 'keep' as const })) }]]); // prettier-ignore
  expect(proposeMapping(source, null, new Map(), remembered('water_levels')).mapping).toEqual(proposed); // prettier-ignore
  const followed = proposeMapping(source, null, new Map(), remembered('locations'));
  expect(followed.matches[0]?.why).toBe('as for a file with these headings on another site');
  expect(proposeMapping(source, null, remembered('water_levels')).mapping.form).toBe(
    'water_levels',
  );
});

test('water without an origin is asked about, since levels are for groundwater; codes are read', () => {
  const lab = (matrix: string) =>
    sourceOf('lab.csv', 'Location,Sample,Date,Matrix,Analyte,Result,Unit', `MW-1,S1,2025-01-01,${matrix},Benzene,1,ug/L`); // prettier-ignore
  const site = surveyed().after;
  const read = (matrix: string) => {
    const { preview, after } = importInto(site, lab(matrix));
    const ask = preview.asks.find(({ id }) => id.startsWith('samples.matrix'));
    return [targetOf(after).site.samples.get('S1')?.matrix ?? null, ask?.usual ?? null];
  };
  // Codes of agencies' deliverables (values from memory).
  for (const code of ['WG', 'GW', 'Ground Water', 'groundwater']) expect(read(code)).toEqual(['groundwater', null]); // prettier-ignore
  expect(read('WS')).toEqual(['surface water', null]);
  for (const code of ['AQ', 'W', 'Aqueous', 'water']) expect(read(code)).toEqual(['groundwater', true]); // prettier-ignore
  // Nothing is usual for a word not known: its rows wait for an answer.
  expect(read('leachate')).toEqual([null, true]);
});
