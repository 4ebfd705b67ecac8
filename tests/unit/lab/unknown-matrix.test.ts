import { describe, expect, test } from 'vitest';
import { levelInUnitOf } from '../../../src/domain/lab/level-in-unit';
import { verdictOf } from '../../../src/domain/lab/screening';
import { levelSetsOf } from '../../../src/domain/lab/site-results';
import { unknownMatrices } from '../../../src/domain/lab/unknown-matrix';
import { siteFrom } from '../site-from';
import { aLevel, aResult } from './a-result';

describe('a word for a matrix that is not known', () => {
  const siteWith = (matrices: readonly string[], levelsFor = 'water') =>
    siteFrom({
      events: ['id,title,first_day,last_day', 'E1,Round,2025-10-15,2025-10-15'],
      samples: [
        'id,event,kind,matrix',
        ...matrices.map((matrix, i) => `S-${i},E1,field sample,${matrix}`),
      ],
      results: ['sample,cas,analyte,value,unit,detected', 'S-0,71-43-2,Benzene,7,µg/L,yes'],
      screening_levels: [
        'set,cas,analyte,matrix,value,unit,source,date_read,decides',
        `State,71-43-2,Benzene,${levelsFor},5,µg/L,Code,2026-01-05,`,
      ],
    });
  const unknown = (site: ReturnType<typeof siteWith>) => {
    const set = levelSetsOf(site).get('State');
    return set && unknownMatrices(site, set);
  };

  test('is said with its samples, and what the levels are for', () => {
    const found = unknown(siteWith(['WG', 'groundwater', 'WG', 'soil', '']));
    expect(found?.unknown.map(({ word, samples }) => [word, samples.map(({ id }) => id)])).toEqual([
      ['WG', ['S-0', 'S-2']],
    ]);
    expect(found?.levelsAreFor).toEqual(['water']);
  });

  test('is none where the levels are for that very word, or for any matrix', () => {
    expect(unknown(siteWith(['WG'], 'WG'))?.unknown).toEqual([]);
    expect(unknown(siteWith(['WG'], ''))?.unknown).toEqual([]);
  });
});

describe('a level in the unit of a result', () => {
  const inUnit = (level: string, unit: string, of = 'µg/L') => {
    const { match, reading } = verdictOf(aResult('12', { unit: of }), aLevel(level, unit));
    return match.level && levelInUnitOf(match.level, reading);
  };

  test.each([
    ['0.005', 'mg/L', 'µg/L', '5 µg/L'],
    ['0.0050', 'mg/L', 'ug/L', '5.0 µg/L'],
    ['5', 'µg/L', 'mg/L', '0.005 mg/L'],
    ['5', 'µg/L', 'ng/mL', null],
    ['5', 'pCi/L', 'Bq/L', null],
  ])('%s %s for a result in %s is %s', (level, unit, of, said) => {
    expect(inUnit(level, unit, of)).toBe(said);
  });
});
