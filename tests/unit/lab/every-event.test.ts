import { expect, test } from 'vitest';
import { takeSteps } from '../../../src/app/open-in-steps';
import { columnsOf, hasColumns, readingColumns } from '../../../src/domain/lab/site-columns';
import { resultsOf } from '../../../src/domain/lab/site-results';
import { openFolder } from '../folder';

test('results of every event are read in steps, and are there at once afterwards', async () => {
  const { site } = openFolder('demo-sites/osier-bend');
  expect(hasColumns(site)).toBe(false);
  const told: number[] = [];
  expect(await takeSteps(readingColumns(site), (done) => told.push(done))).toBe(true);
  expect(hasColumns(site)).toBe(true);
  expect(columnsOf(site).size).toBe(resultsOf(site).used.length);
  expect([...readingColumns(site)]).toEqual([]);
});

test('reading that is no longer wanted stops, and nothing of it is kept', async () => {
  const { site } = openFolder('demo-sites/quellmoor');
  function* slowly() {
    for (const rows of readingColumns(site)) {
      const till = performance.now() + 60;
      while (performance.now() < till);
      yield rows;
    }
  }
  expect(await takeSteps(slowly(), undefined, () => false)).toBe(false);
  expect(hasColumns(site)).toBe(false);
});
