import { expect, test } from 'vitest';
import { readWords, screenHistory } from '../../../src/domain/record/screen-history';
import { inUnits } from '../../../src/domain/units';
import { siteIn } from '../../faults/sites';

const { site } = siteIn('demo-sites/osier-bend');

// water_levels.csv and purge_readings.csv of the demo, MW-6; heads are mark 968.40 less depth.
test('readings of a well, the latest event first, with head, reader and depths while purged', () => {
  const read = screenHistory(site, 'MW-6');
  expect(read.map(({ event }) => event?.id)).toEqual(['2026-09', '2026-03', '2025-09']);
  const [latest] = read;
  expect(latest?.gauged.reading.depth_to_water?.text).toBe('12.22');
  expect(inUnits(latest!.gauged.head!.value, 'ft')).toBeCloseTo(956.18, 6);
  expect(latest?.purged && [latest.purged.first, latest.purged.last].map((at) => inUnits(at, 'ft').toFixed(2))).toEqual(['12.26', '12.31']); // prettier-ignore
  expect(readWords(latest!.gauged)).toBe('2026-09-22 09:01, T.M., from MW-6-MP1');
});

test('a level that is not at rest says so, with the remark; a screen nobody read has no readings', () => {
  const [supply] = screenHistory(site, 'SW-1');
  expect(readWords(supply!.gauged)).toBe('2026-09-22 10:44, T.M., from SW-1-MP1, pumping');
  expect(supply?.purged).toBeNull();
  const [viscous] = screenHistory(site, 'MW-5');
  expect(readWords(viscous!.gauged)).toContain('Product too viscous to bail');
  expect(screenHistory(site, 'nothing')).toEqual([]);
});
