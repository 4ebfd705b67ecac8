import { expect, test } from 'vitest';
import { readHeading } from '../../../src/io/import/heading';
import type { ColumnUse } from '../../../src/io/import/mapping';
import { proposeMapping } from '../../../src/io/import/match-columns';
import { sourceOf } from './target';

test.each([
  ['DTW (ft)', 'dtw', 'ft', null],
  ['Depth to Water [m btoc]', 'depthtowater', 'm', 'casing'],
  ['depth_to_water_ft_bgs', 'depthtowater', 'ft', 'ground'],
  ['Depth to Water, feet', 'depthtowater', 'feet', null],
  ['GroundElevation (US Survey Feet)', 'groundelevation', 'US Survey Feet', null],
  ['Result [µg/L]', 'result', 'µg/L', null],
  ['result_ug_L', 'result', 'ug/l', null],
  ['TOC Elev. (ft NAVD 88)', 'tocelevftnavd88', null, null],
  ['Remarks (field)', 'remarksfield', null, null],
])('%s: the words %s, the unit %s, from the %s', (text, plain, unit, from) => {
  expect(readHeading(text)).toMatchObject({ plain, unit, from });
});

const slots = (...lines: readonly string[]) => {
  const { mapping } = proposeMapping(sourceOf('file.csv', ...lines));
  return { form: mapping.form, layout: mapping.layout, uses: mapping.columns.map(named) };
};

const named = (use: ColumnUse) =>
  use.use === 'slot' ? use.slot : use.use === 'analyte' ? `=${use.analyte}` : use.use;

test('a gauging sheet', () => {
  expect(
    slots('Well ID,Date,Time,DTW (ft btoc),DTP (ft),Gauged By,Remarks', 'MW-1,2025-03-31,14:05,8.31,,J,'), // prettier-ignore
  ).toEqual({
    form: 'water_levels',
    layout: 'rows',
    uses: [
      'water_levels.screen',
      'water_levels.time',
      '@clock',
      'water_levels.depth_to_water',
      'water_levels.depth_to_product',
      'water_levels.read_by',
      'water_levels.note',
    ],
  });
});

test('a depth below ground is another thing than one below the casing', () => {
  const { uses } = slots('Well,Date,Depth to Water (ft bgs)', 'MW-1,2025-03-31,8.31');
  expect(uses).toEqual(['water_levels.screen', 'water_levels.time', '@depth_below_ground']);
});

test('a surveyor’s list', () => {
  expect(slots('Point,Northing,Easting,Elevation,Description', 'DP-1,1,2,3,nail').uses).toEqual([
    'locations.id',
    'locations.northing',
    'locations.easting',
    'locations.ground_elevation',
    'locations.note',
  ]);
});

test('wells with their casings and screens', () => {
  expect(
    slots(
      'Well,X,Y,Ground Elev,TOC Elev,Top of Screen (ft),Bottom of Screen (ft),Aquifer',
      'MW-1,1,2,100,102,10,20,A',
    ),
  ).toMatchObject({
    form: 'locations',
    uses: [
      'locations.id',
      'locations.easting',
      'locations.northing',
      'locations.ground_elevation',
      'measuring_points.elevation',
      '@screen_top',
      '@screen_bottom',
      'screens.zone',
    ],
  });
});

test('a laboratory’s list', () => {
  expect(
    slots(
      'Client Sample ID,Location,Date Collected,Matrix,Method,Analyte,CAS No.,Result,Qual,MDL,RL,Units,Lab Sample ID,SDG', // prettier-ignore
      'MW-1-0325,MW-1,2025-03-31,GW,8260D,Benzene,71-43-2,5.2,J,0.2,1,ug/L,L1,S1',
    ).uses,
  ).toEqual([
    'samples.id',
    'samples.screen',
    'samples.time',
    'samples.matrix',
    'results.method',
    'results.analyte',
    'results.cas',
    'results.value',
    'results.lab_qualifier',
    'results.detection_limit',
    'results.reporting_limit',
    'results.unit',
    'samples.lab_number',
    'samples.delivery_group',
  ]);
});

test('the columns of the Water Quality Exchange', () => {
  expect(
    slots(
      'MonitoringLocationIdentifier,ActivityStartDate,ActivityIdentifier,CharacteristicName,ResultMeasureValue,ResultMeasure/MeasureUnitCode,ResultSampleFractionText', // prettier-ignore
      'A,2025-03-31,S,Benzene,5,ug/l,Total',
    ).uses,
  ).toEqual([
    'samples.screen',
    'samples.time',
    'samples.id',
    'results.analyte',
    'results.value',
    'results.unit',
    'results.fraction',
  ]);
});

test('headings that say nothing: cells of CAS numbers and of units give themselves away', () => {
  const { uses } = slots(
    'sample,parameter,code 7,result,in',
    'S1,Benzene,71-43-2,5,ug/L',
    'S1,Toluene,108-88-3,6,ug/L',
  );
  expect(uses).toEqual(['samples.id', 'results.analyte', 'results.cas', 'results.value', 'results.unit']); // prettier-ignore
});

test('a table with its analytes across', () => {
  expect(
    slots(
      'Well,Date,Benzene (ug/L),Q,Toluene (ug/L),Q,"1,2-Dichloroethane (ug/L)"',
      'MW-1,2025-03-31,5.2,J,<1,U,3',
    ),
  ).toEqual({
    form: 'results',
    layout: 'analytes across',
    uses: ['samples.screen', 'samples.time', '=Benzene', 'letters', '=Toluene', 'letters', '=1,2-Dichloroethane'], // prettier-ignore
  });
});

test('a table with its samples across', () => {
  const source = sourceOf(
    'across.csv',
    'Analyte,Units,MW-1-0325,MW-2-0325',
    'Location,,MW-1,MW-2',
    'Date,,2025-03-31,2025-04-01',
    'Benzene,ug/L,5.2,<1',
    'Toluene,ug/L,1,2',
  );
  const { mapping } = proposeMapping(source);
  expect(mapping.layout).toBe('samples across');
  expect(mapping.columns.map(named)).toEqual(['results.analyte', 'results.unit', 'sample', 'sample']); // prettier-ignore
  expect(mapping.headRows).toEqual([
    { row: 0, slot: 'samples.screen' },
    { row: 1, slot: 'samples.time' },
  ]);
});

test('what was corrected by hand is proposed for the next file with the same header', () => {
  const first = sourceOf('a.csv', 'Well,Date,Stuff', 'MW-1,2025-03-31,8.31');
  const { mapping } = proposeMapping(first, 'water_levels');
  const corrected = {
    ...mapping,
    columns: mapping.columns.map((use, at) =>
      at === 2 ? ({ use: 'slot', slot: 'water_levels.depth_to_water', unit: 'ft' } as const) : use,
    ),
  };
  const next = sourceOf('b.csv', 'WELL,date,stuff', 'MW-2,2025-04-30,8.00');
  const proposal = proposeMapping(next, null, new Map([[corrected.shape, corrected]]));
  expect(proposal.mapping).toEqual(corrected);
  expect(proposal.matches[2]?.why).toBe('as for the last file with these headings');
  const other = sourceOf('c.csv', 'Well,Stuff,Date', 'MW-2,8.00,2025-04-30');
  expect(proposeMapping(other, null, new Map([[corrected.shape, corrected]])).mapping.shape).not.toBe(corrected.shape); // prettier-ignore
});

test('every column comes with the reason for its match', () => {
  const { matches } = proposeMapping(sourceOf('a.csv', 'Well,Colour,why_refused', 'MW-1,red,x'));
  expect(matches.map(({ why }) => why)).toEqual([
    'Locations: name: “Well” is a usual heading for it',
    'no column of the tables goes by this heading; it is kept as it is',
    'says nothing of the site',
  ]);
});
